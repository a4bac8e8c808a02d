//! What a trouble asks for when a tank is known: readings that change what it says.

use quantity::amount::Temperature;
use quantity::hardness::parse_alkalinity;
use quantity::{Measure, Units, VolumeUnit};
use recipe::say::Pen;

/// One reading that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Ask {
    /// Its key in [`crate::Told`].
    pub key: &'static str,
    /// What it is, for a label.
    pub label: &'static str,
    /// How it may be written.
    pub example: &'static str,
    /// How a kit may count it, where that must be said; the first gives the most, and counts where nobody says.
    pub bases: &'static [&'static str],
}

impl Ask {
    /// How it may be written in the keeper's own unit: a bare number is taken in the unit that stands here.
    pub fn example_in(&self, units: &Units) -> String {
        let pen = Pen::new(units);
        let own = match self.key {
            "temperature" | "room" | "new_temperature" => {
                Temperature::parse(self.example).ok().map(|t| pen.celsius(t.in_celsius()))
            }
            "alkalinity" => parse_alkalinity(self.example).ok().map(|read| {
                let unit = units.hardness;
                let value = unit.from_meq_per_l(read.meq_per_l, Measure::Alkalinity);
                format!("{} {}", pen.n(value, 2), unit.name(Measure::Alkalinity))
            }),
            "new_litres" if units.volume == VolumeUnit::UsGallon => Some("10 US gal".to_owned()),
            "new_litres" if units.volume == VolumeUnit::ImperialGallon => Some("10 imp gal".to_owned()),
            _ => None,
        };
        own.unwrap_or_else(|| self.example.to_owned())
    }

    /// The unit of a bare number; empty where it has none.
    pub(crate) fn unit(&self, units: &Units) -> String {
        let example = self.example_in(units);
        example.split_once(char::is_whitespace).map_or_else(String::new, |(_, unit)| unit.to_owned())
    }
}

const fn ask(key: &'static str, label: &'static str, example: &'static str) -> Ask {
    Ask { key, label, example, bases: &[] }
}

const fn counted(ask: Ask, bases: &'static [&'static str]) -> Ask {
    Ask { bases, ..ask }
}

const AMMONIA: Ask = counted(ask("ammonia", "Ammonia", "0.5 mg/L N"), &["N", "NH4"]);
const NITRITE: Ask = counted(ask("nitrite", "Nitrite", "0.1 mg/L N"), &["N", "NO2"]);
const PH: Ask = ask("ph", "pH of the tank", "7.4");
const TEMPERATURE: Ask = ask("temperature", "Temperature of the tank", "24 °C");
const ROOM: Ask = ask("room", "Temperature of the room", "18 °C");
const NEW_TEMPERATURE: Ask = ask("new_temperature", "Temperature of the new water", "12 °C");
const NEW_LITRES: Ask = ask("new_litres", "How much of it", "40 L");
const ALKALINITY: Ask = ask("alkalinity", "Alkalinity", "3 °dH");
const NITRATE: Ask = ask("nitrate", "Nitrate of the tank", "40 mg/L NO3");
const TAP_NITRATE: Ask = ask("tap_nitrate", "Nitrate of the tap", "20 mg/L NO3");
const TAP_AMMONIA: Ask =
    counted(ask("tap_ammonia", "Ammonia in a bucket of new water, conditioner in it", "0.1 mg/L N"), &["N", "NH4"]);
const TIMES: Ask = ask("times", "How many times the day’s dose", "10");
const WATTS: Ask = ask("watts", "Watts of one heater", "50 W");
const BOTTLE: Ask = ask("bottle", "From which bottle", "one");

/// What a trouble asks for; empty where nothing would change what it says.
pub fn asks(trouble: &str) -> &'static [Ask] {
    match trouble {
        "gasping" | "lying" => &[TEMPERATURE, AMMONIA, NITRITE, PH, TAP_AMMONIA, NEW_TEMPERATURE, NEW_LITRES],
        "power-cut" => &[TEMPERATURE, ROOM],
        "heater-on" | "heater-dead" => &[TEMPERATURE, ROOM, WATTS],
        "carbon-dioxide" => &[PH, ALKALINITY, TEMPERATURE, AMMONIA],
        "overdose" => &[BOTTLE, TIMES, NEW_TEMPERATURE],
        "ammonia" => &[AMMONIA, NITRITE, PH, TEMPERATURE, TAP_AMMONIA, NEW_TEMPERATURE],
        "nitrate" => &[NITRATE, TAP_NITRATE],
        "alkalinity" => &[ALKALINITY, AMMONIA, PH, TEMPERATURE],
        _ => &[],
    }
}

/// The reading of a key, whichever trouble asks for it.
pub(crate) fn ask_of(key: &str) -> Option<&'static Ask> {
    ["gasping", "heater-dead", "overdose", "nitrate", "alkalinity"]
        .into_iter()
        .flat_map(asks)
        .find(|ask| ask.key == key)
}
