//! What a trouble asks for when a tank is known: readings that change what it says.

/// One reading that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Ask {
    /// Its key in [`crate::Told`].
    pub key: &'static str,
    /// What it is, for a label.
    pub label: &'static str,
    /// How it may be written.
    pub example: &'static str,
}

const fn ask(key: &'static str, label: &'static str, example: &'static str) -> Ask {
    Ask { key, label, example }
}

const AMMONIA: Ask = ask("ammonia", "Ammonia", "0.5 mg/L N");
const NITRITE: Ask = ask("nitrite", "Nitrite", "0.1 mg/L NO2");
const PH: Ask = ask("ph", "pH of the tank", "7.4");
const TEMPERATURE: Ask = ask("temperature", "Temperature of the tank", "24 °C");
const ROOM: Ask = ask("room", "Temperature of the room", "18 °C");
const NEW_TEMPERATURE: Ask = ask("new_temperature", "Temperature of the new water", "12 °C");
const NEW_LITRES: Ask = ask("new_litres", "How much of it", "40 L");
const ALKALINITY: Ask = ask("alkalinity", "Alkalinity", "3 °dH");
const NITRATE: Ask = ask("nitrate", "Nitrate of the tank", "40 mg/L NO3");
const TAP_NITRATE: Ask = ask("tap_nitrate", "Nitrate of the tap", "20 mg/L NO3");
const TIMES: Ask = ask("times", "How many times the day’s dose", "10");
const WATTS: Ask = ask("watts", "Watts of one heater", "50 W");
const BOTTLE: Ask = ask("bottle", "From which bottle", "one");

/// What a trouble asks for; empty where nothing would change what it says.
pub fn asks(trouble: &str) -> &'static [Ask] {
    match trouble {
        "gasping" | "lying" => &[TEMPERATURE, AMMONIA, NITRITE, PH, NEW_TEMPERATURE, NEW_LITRES],
        "power-cut" => &[TEMPERATURE, ROOM],
        "heater-on" | "heater-dead" => &[TEMPERATURE, ROOM, WATTS],
        "carbon-dioxide" => &[PH, ALKALINITY, TEMPERATURE, AMMONIA],
        "overdose" => &[BOTTLE, TIMES, NEW_TEMPERATURE],
        "ammonia" => &[AMMONIA, NITRITE, PH, TEMPERATURE, NEW_TEMPERATURE],
        "nitrate" => &[NITRATE, TAP_NITRATE],
        "alkalinity" => &[ALKALINITY, AMMONIA, PH, TEMPERATURE],
        _ => &[],
    }
}
