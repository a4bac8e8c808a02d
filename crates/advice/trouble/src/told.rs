//! What was read for this trouble: from the keeper's words, else from today's lines of the logbook.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use logbook::{Kept, Sure, What};
use quantity::amount::{Power, Temperature, Volume};
use quantity::bounds::check;
use quantity::chem::atom;
use quantity::concentration::parse_concentration;
use quantity::hardness::parse_alkalinity;
use quantity::number::parse_number;
use quantity::{Fault, Ion, Kind, Place, Verdict};

/// A value with who told it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Heard {
    /// In the unit of its key.
    pub value: f64,
    /// "you said", or "your log, 3 hours ago".
    pub from: String,
}

/// What was read, by key: `ammonia` and `nitrite` mg/L N, `nitrate` and `tap_nitrate` mg/L NO3, `ph`, `temperature`, `room` and
/// `new_temperature` °C, `new_litres` L, `watts` W of one heater, `alkalinity` meq/L, `times` the usual dose, and the word of a `bottle`.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Told {
    numbers: BTreeMap<String, Heard>,
    /// Name of the bottle.
    pub bottle: Option<String>,
}

/// What a reading in the log is called there, and here.
const LOGGED: [(&str, &str); 6] = [
    ("ammonia_n", "ammonia"),
    ("nitrite_n", "nitrite"),
    ("nitrate", "nitrate"),
    ("ph", "ph"),
    ("temperature", "temperature"),
    ("alkalinity", "alkalinity"),
];

impl Told {
    /// The value behind a key.
    pub fn get(&self, key: &str) -> Option<f64> {
        self.numbers.get(key).map(|heard| heard.value)
    }

    /// Who told it; empty where nobody did.
    pub fn from(&self, key: &str) -> &str {
        self.numbers.get(key).map_or("", |heard| heard.from.as_str())
    }

    /// Take what the keeper says of a key, with its unit and basis. An empty text takes nothing.
    ///
    /// # Errors
    /// An unknown key, a text that is no such amount, or a value that can't be.
    pub fn take(&mut self, key: &str, text: &str) -> Result<(), Fault> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(());
        }
        let at = |fault: Fault| fault.at(Place::field(key));
        if key == "bottle" {
            self.bottle = Some(text.to_owned());
            return Ok(());
        }
        let value = amount(key, text).map_err(at)?;
        plausible(key, value).map_err(at)?;
        self.numbers.insert(key.to_owned(), Heard { value, from: "you said".to_owned() });
        Ok(())
    }

    /// Fill in what the keeper did not say from readings of the last hours, the latest of each. A reading marked "not sure"
    /// decides nothing.
    pub fn hear(&mut self, log: &[Kept], now: &ZonedDateTime) {
        let fresh = knowledge::book().troubles.number.reading_fresh_h.value;
        let mut list: Vec<(f64, &str, f64)> = Vec::new();
        for kept in log {
            let ago = hours_ago(kept, now);
            let What::Test(reading) = &kept.entry.what else { continue };
            let named = LOGGED.iter().find(|(logged, _)| *logged == reading.of);
            if let Some((_, key)) = named.filter(|_| reading.sure != Sure::NotSure && (0.0..=fresh).contains(&ago)) {
                list.push((ago, key, reading.value));
            }
        }
        list.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (ago, key, value) in list {
            let heard = Heard { value, from: format!("your log, {}", ago_words(ago)) };
            self.numbers.entry(key.to_owned()).or_insert(heard);
        }
    }
}

/// Hours from an entry to now; below 0 for one that lies ahead.
pub(crate) fn hours_ago(kept: &Kept, now: &ZonedDateTime) -> f64 {
    let seconds = now.timestamp().as_second() - kept.entry.at.timestamp().as_second();
    seconds as f64 / 3600.0
}

/// "20 minutes ago", "3 hours ago", "2 days ago".
pub(crate) fn ago_words(hours: f64) -> String {
    let (count, unit) = match hours {
        h if h < 1.0 => ((h * 60.0).round().max(1.0), "minute"),
        h if h < 36.0 => (h.round().max(1.0), "hour"),
        h => ((h / 24.0).round(), "day"),
    };
    format!("{count:.0} {unit}{} ago", if count == 1.0 { "" } else { "s" })
}

fn amount(key: &str, text: &str) -> Result<f64, Fault> {
    // Below a kit's lowest step the step itself counts: the bad end.
    let upper = |ion: Ion| {
        let known = parse_concentration(text, ion)?.known_mg_per_l(Kind::Measured);
        Ok::<f64, Fault>(if known.high.is_finite() { known.high } else { known.value })
    };
    let as_n = |ion: Ion| upper(ion).map(|mg| mg * atom::N / ion.molar_mass());
    match key {
        "ammonia" => as_n(Ion::Ammonium),
        "nitrite" => as_n(Ion::Nitrite),
        "nitrate" | "tap_nitrate" => upper(Ion::Nitrate),
        "temperature" | "room" | "new_temperature" => Ok(Temperature::parse(text)?.in_celsius()),
        "watts" => Ok(Power::parse(text)?.in_watts()),
        "new_litres" => Ok(Volume::parse(text)?.in_litres()),
        "alkalinity" => Ok(parse_alkalinity(text)?.meq_per_l),
        "ph" | "times" => parse_number(text),
        _ => Err(Fault::new(format!("I ask nothing called `{key}`"))
            .expected("one of the readings that this trouble asks for")
            .hint("leave it out")),
    }
}

/// A value that can't be is refused with what is possible.
fn plausible(key: &str, value: f64) -> Result<(), Fault> {
    let bound = match key {
        "ph" => "ph",
        "temperature" => "tank_temperature",
        "room" => "room_temperature",
        "new_temperature" => "tap_temperature",
        "nitrate" | "tap_nitrate" => "nitrate",
        "watts" => "heater_power",
        _ => "",
    };
    let bad = |low: f64, high: f64| {
        Fault::new(format!("{} can't be {value}", key.replace('_', " "))).expected(format!("{low} to {high}"))
    };
    match knowledge::book().bound(bound) {
        Some(row) if check(value, &row.is) == Verdict::Refused => Err(bad(row.is.low, row.is.high)),
        Some(_) => Ok(()),
        None if (0.0..=1000.0).contains(&value) => Ok(()),
        None => Err(bad(0.0, 1000.0)),
    }
}
