//! What was read for this trouble: from the keeper's words, else from today's lines of the logbook.

use std::collections::{BTreeMap, BTreeSet};

use jiff::{SignedDuration, ZonedDateTime};
use logbook::{Filter, Kept, Sure, What};
use quantity::amount::{Power, Temperature, Volume};
use quantity::bounds::check;
use quantity::chem::atom;
use quantity::concentration::parse_concentration;
use quantity::hardness::parse_alkalinity;
use quantity::number::parse_number;
use quantity::{Fault, Ion, Kind, Place, Units, Verdict};

use crate::ask::ask_of;

/// A value with who told it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Heard {
    /// In the unit of its key.
    pub value: f64,
    /// "you said", or "your log, 3 hours ago".
    pub from: String,
    /// The keeper did not say how the kit counts it: it was taken as what gives the most.
    pub guessed_basis: bool,
}

/// What was read, by key: `ammonia` and `nitrite` mg/L N, `nitrate` and `tap_nitrate` mg/L NO3, `ph`, `temperature`, `room` and
/// `new_temperature` °C, `new_litres` L, `watts` W of one heater, `alkalinity` meq/L, `times` the usual dose, and the word of a `bottle`.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Told {
    numbers: BTreeMap<String, Heard>,
    /// Keys whose text could not be read: nothing is worked out from them, not even from the log.
    refused: BTreeSet<String>,
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

    /// The keeper did not say how the kit counts this one.
    pub(crate) fn guessed_basis(&self, key: &str) -> bool {
        self.numbers.get(key).is_some_and(|heard| heard.guessed_basis)
    }

    /// The same as [`Told::take_in`] for litres and degrees Celsius, no basis told beside the text.
    ///
    /// # Errors
    /// As there.
    pub fn take(&mut self, key: &str, text: &str) -> Result<(), Fault> {
        self.take_in(key, text, "", &Units::default())
    }

    /// Take what the keeper says of a key. A bare number is in the unit of [`crate::Ask::example_in`]; `basis` is how the kit counts it
    /// ("N", "NH4"), empty where nobody knows: then as what gives the most, which is the bad end. An empty text takes
    /// nothing.
    ///
    /// # Errors
    /// An unknown key, a text that is no such amount, or a value that can't be; the key then stays empty whatever the log says.
    pub fn take_in(&mut self, key: &str, text: &str, basis: &str, units: &Units) -> Result<(), Fault> {
        let taken = self.try_in(key, text, basis, units);
        if taken.is_err() {
            self.refused.insert(key.to_owned());
        }
        taken
    }

    fn try_in(&mut self, key: &str, text: &str, basis: &str, units: &Units) -> Result<(), Fault> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(());
        }
        let at = |fault: Fault| fault.at(Place::field(key));
        if key == "bottle" {
            self.bottle = Some(text.to_owned());
            return Ok(());
        }
        let (value, guessed_basis) = read(key, text, basis, units).map_err(at)?;
        plausible(key, value).map_err(at)?;
        self.numbers.insert(key.to_owned(), Heard { value, from: "you said".to_owned(), guessed_basis });
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
        for (ago, key, value) in list.into_iter().filter(|(_, key, _)| !self.refused.contains(*key)) {
            let heard = Heard { value, from: format!("your log, {}", ago_words(ago)), guessed_basis: false };
            self.numbers.entry(key.to_owned()).or_insert(heard);
        }
    }
}

/// The entries of the logbook that a trouble asks for: as far back as any reading counts or any cause may lie.
pub fn reads(now: &ZonedDateTime) -> Filter {
    let troubles = &knowledge::book().troubles;
    let fresh = troubles.number.reading_fresh_h.value;
    let hours = troubles.cause.iter().map(|cause| cause.within_h).fold(fresh, f64::max).ceil() as i64;
    let from = now.timestamp().checked_sub(SignedDuration::from_hours(hours)).ok();
    Filter { from, ..Filter::default() }
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

/// The value, and whether its basis was guessed: the text as it stands, else with what it leaves out.
fn read(key: &str, text: &str, basis: &str, units: &Units) -> Result<(f64, bool), Fault> {
    let fault = match amount(key, text) {
        Ok(value) => return Ok((value, false)),
        Err(fault) => fault,
    };
    let Some(ask) = ask_of(key) else { return Err(fault) };
    let Some(most) = ask.bases.first() else {
        let bare = parse_number(text).is_ok();
        return if bare { Ok((amount(key, &format!("{text} {}", ask.unit(units)))?, false)) } else { Err(fault) };
    };
    let told = ask.bases.iter().find(|known| **known == basis);
    let basis = told.unwrap_or(most);
    let with = [format!("{text} {basis}"), format!("{text} mg/L {basis}")];
    let value = with.iter().find_map(|text| amount(key, text).ok()).ok_or(fault)?;
    Ok((value, told.is_none()))
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
