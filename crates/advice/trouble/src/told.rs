//! What was read for this trouble: from the keeper's words, else from the logbook, the latest of each.
//!
//! A reading is today's for some hours (a row of `data/troubles.toml`). An older one that harms by itself stays what counts until the same
//! thing is read anew, and is called old; any other is at hand as the last that is known ([`Told::last`]), and reassures nobody. Care hears
//! the same.

use std::collections::{BTreeMap, BTreeSet};

use jiff::{SignedDuration, ZonedDateTime};
use logbook::{Filter, Kept, Reading, Sure, What};
use quantity::amount::{Power, Temperature, Volume};
use quantity::bounds::check;
use quantity::chem::atom;
use quantity::concentration::parse_concentration;
use quantity::hardness::parse_alkalinity;
use quantity::number::parse_number;
use quantity::{Digits, Fault, Ion, Kind, Place, Units, Verdict, format_number};

use crate::ask::ask_of;
use crate::begin::poured_us;

/// A value with who told it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Heard {
    /// In the unit of its key.
    pub value: f64,
    /// "you said", or "your log, 3 hours ago".
    pub from: String,
    /// The keeper did not say how the kit counts it: it was taken as what gives the most.
    pub guessed_basis: bool,
    /// Less than this was read: the kit's lowest step, which counts as the bad end and yet shows nothing.
    pub below: bool,
    /// Hours since it was read; `None`: just now.
    pub ago_h: Option<f64>,
}

/// What was read, by key: `ammonia` and `nitrite` mg/L N, `nitrate` and `tap_nitrate` mg/L NO3, `ph`, `temperature`, `room` and
/// `new_temperature` °C, `new_litres` L, `watts` W of one heater, `alkalinity` meq/L, `tap_ammonia` mg/L N, `times` the usual dose, and the
/// word of a `bottle`; and what the log says was done.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Told {
    numbers: BTreeMap<String, Heard>,
    /// Keys whose text could not be read: nothing is worked out from them, not even from the log.
    refused: BTreeSet<String>,
    /// Name of the bottle.
    pub bottle: Option<String>,
    /// Changes of water of the last day: hours ago, and litres.
    changed: Vec<(f64, f64)>,
    /// Doses of each bottle of the last day, by [`known_as`]: hours ago, and mL.
    dosed: BTreeMap<String, Vec<(f64, f64)>>,
    /// The last reading of each key that is no longer today's and does not harm by itself.
    older: BTreeMap<String, Heard>,
    /// The last reading of what tells which water stands in the tank, by its key in the log: it, and hours ago.
    stood: BTreeMap<String, (f64, f64)>,
    /// Changes whose note names the new water: hours ago, µS/cm, and litres; the last first.
    poured: Vec<(f64, f64, f64)>,
}

/// What tells which water stands in a tank.
const STANDS: [&str; 3] = ["conductivity", "alkalinity", "hardness"];

/// No reading of such a thing is larger.
const MOST: f64 = 1000.0;

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

    /// The reading shows something: more than nothing, and more than the kit's lowest step.
    pub(crate) fn shows(&self, key: &str) -> bool {
        self.numbers.get(key).is_some_and(|heard| heard.value > 0.0 && !heard.below)
    }

    /// Water was changed since this was read: it no longer holds.
    pub(crate) fn before_a_change(&self, key: &str) -> bool {
        let ago = self.numbers.get(key).and_then(|heard| heard.ago_h);
        ago.is_some_and(|ago| self.changed.iter().any(|(changed, _)| *changed < ago))
    }

    /// The changes of water of the last day: hours ago, and litres.
    pub fn changes(&self) -> &[(f64, f64)] {
        &self.changed
    }

    /// Litres that were changed in the last day.
    pub(crate) fn changed_l(&self) -> f64 {
        self.changed.iter().map(|(_, litres)| litres).sum()
    }

    /// mL that were given of a bottle in the last day.
    pub(crate) fn dosed_ml(&self, bottle: &str) -> f64 {
        self.dosed.get(&known_as(bottle)).into_iter().flatten().map(|(_, ml)| ml).sum()
    }

    /// The share of what was given of a bottle in the last day that the changes after it left in a tank of so many litres, 0 to 1: of each
    /// dose Π (1 − l ÷ V) over the changes since.
    pub fn left_of(&self, bottle: &str, litres: f64) -> f64 {
        let name = known_as(bottle);
        let doses = || self.dosed.get(&name).into_iter().flatten();
        let given: f64 = doses().map(|(_, ml)| ml).sum();
        let since = |ago: f64| self.changed.iter().filter(move |(changed, _)| *changed < ago);
        let kept = |ago: f64| since(ago).map(|(_, l)| 1.0 - (l / litres).clamp(0.0, 1.0)).product::<f64>();
        let left: f64 = doses().map(|(ago, ml)| ml * kept(*ago)).sum();
        if given > 0.0 && litres > 0.0 { left / given } else { 1.0 }
    }

    /// The last reading of a key, today's or an older one: it, and who told it.
    pub fn last(&self, key: &str) -> Option<(f64, &str)> {
        let heard = self.numbers.get(key).or_else(|| self.older.get(key))?;
        Some((heard.value, &heard.from))
    }

    /// Its age in words, where it is no longer today's: "3 days ago".
    pub(crate) fn aged(&self, key: &str) -> Option<String> {
        let heard = self.numbers.get(key).or_else(|| self.older.get(key))?;
        heard.ago_h.filter(|ago| *ago > fresh_h()).map(ago_words)
    }

    /// The last reading of `conductivity` (µS/cm), `alkalinity` or `hardness` (meq/L), and hours ago.
    pub(crate) fn stood(&self, key: &str) -> Option<(f64, f64)> {
        let said = self.numbers.get(key).filter(|heard| heard.ago_h.is_none()).map(|heard| (heard.value, 0.0));
        said.or_else(|| self.stood.get(key).copied())
    }

    /// Changes whose note names the new water: hours ago, µS/cm, and litres; the last first.
    pub(crate) fn poured(&self) -> &[(f64, f64, f64)] {
        &self.poured
    }

    /// Hours since it was read; 0 where the keeper says it now.
    pub(crate) fn ago_h(&self, key: &str) -> f64 {
        self.numbers.get(key).and_then(|heard| heard.ago_h).unwrap_or(0.0)
    }

    /// Hours since the last reading of it, today's or older; `None`: it was never read.
    pub(crate) fn last_ago_h(&self, key: &str) -> Option<f64> {
        let heard = self.numbers.get(key).or_else(|| self.older.get(key))?;
        Some(heard.ago_h.unwrap_or(0.0))
    }

    /// What harms here is no longer today's.
    pub(crate) fn is_old(&self, key: &str) -> bool {
        self.numbers.contains_key(key) && self.aged(key).is_some()
    }

    /// The act that comes before every other, where what harms was not read today; `name` as in "read ammonia".
    pub(crate) fn anew(&self, key: &str, name: &str) -> Option<String> {
        self.is_old(key).then(|| anew(&self.aged(key).unwrap_or_default(), name))
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
        let below = text.starts_with('<');
        let heard = Heard { value, from: "you said".to_owned(), guessed_basis, below, ago_h: None };
        self.numbers.insert(key.to_owned(), heard);
        Ok(())
    }

    /// Fill in what the keeper did not say: the latest reading of each, and what was done. A reading marked "not sure" decides nothing.
    pub fn hear<'k>(&mut self, log: impl IntoIterator<Item = &'k Kept>, now: &ZonedDateTime) {
        let mut log: Vec<(f64, &Kept)> = log.into_iter().map(|kept| (hours_ago(kept, now), kept)).collect();
        log.retain(|(ago, _)| *ago >= 0.0);
        // Of one moment what was written last goes first.
        log.sort_by(|a, b| a.0.total_cmp(&b.0).then(b.1.id.cmp(&a.1.id)));
        let mut seen: BTreeSet<&str> = BTreeSet::new();
        for (ago, kept) in &log {
            match &kept.entry.what {
                What::Test(reading) if reading.sure != Sure::NotSure => {
                    if seen.insert(&reading.of) {
                        self.hear_one(reading, *ago);
                    }
                    if STANDS.contains(&reading.of.as_str()) && !reading.below {
                        self.stood.entry(reading.of.clone()).or_insert((reading.value, *ago));
                    }
                }
                What::Change { litres } => {
                    self.poured.extend(poured_us(&kept.entry.note).map(|us| (*ago, us, *litres)));
                    self.changed.extend((*ago <= fresh_h()).then_some((*ago, *litres)));
                }
                What::Dose { bottle, ml } if *ago <= fresh_h() => {
                    self.dosed.entry(known_as(bottle)).or_default().push((*ago, *ml));
                }
                _ => {}
            }
        }
    }

    /// A reading of the log, so many hours old, where the keeper said nothing of it. Less than a kit's lowest step is no news, but of
    /// alkalinity it is the bad end.
    pub fn hear_one(&mut self, reading: &Reading, ago_h: f64) {
        let Some((_, key)) = LOGGED.iter().find(|(logged, _)| *logged == reading.of) else { return };
        let no_news = reading.below && *key != "alkalinity";
        // Of what the acid drops leave there may be less than none.
        let value = if *key == "alkalinity" { reading.value.max(0.0) } else { reading.value };
        if no_news || self.refused.contains(*key) || plausible(key, value).is_err() {
            return;
        }
        let from = format!("your log, {}", ago_words(ago_h));
        let heard = Heard { value, from, guessed_basis: false, below: reading.below, ago_h: Some(ago_h) };
        if ago_h <= fresh_h() || harms_by_itself(key, value) {
            self.numbers.entry((*key).to_owned()).or_insert(heard);
        } else if !self.numbers.contains_key(*key) {
            self.older.insert((*key).to_owned(), heard);
        }
    }
}

/// The name of a bottle as [`logbook::same_name`] compares it.
fn known_as(bottle: &str) -> String {
    bottle.trim().to_ascii_lowercase()
}

/// For so many hours a reading is today's.
pub(crate) fn fresh_h() -> f64 {
    knowledge::book().troubles.number.reading_fresh_h.value
}

/// Whether a reading may harm whatever else is read: then its age takes nothing from it.
fn harms_by_itself(key: &str, value: f64) -> bool {
    let floor = knowledge::book().harm.limit.alkalinity_floor_meq_per_l.value();
    let warm = knowledge::book().troubles.number.too_warm_c.low();
    match key {
        "ammonia" | "nitrite" => value > 0.0,
        "alkalinity" => value <= floor,
        "temperature" => value >= warm,
        _ => false,
    }
}

/// What comes first where a reading that harms is so many hours old; `None`: it is today's.
pub fn anew_after(ago_h: f64, name: &str) -> Option<String> {
    (ago_h > fresh_h()).then(|| anew(&ago_words(ago_h), name))
}

/// The same of "3 days ago".
pub(crate) fn anew(ago: &str, name: &str) -> String {
    let old = ago.trim_end_matches(" ago");
    format!("That reading is {old} old: read {name} anew now, before anything else. Until then it counts.")
}

/// Days of the log that are read here and in Care (a row of `data/troubles.toml`): a reading that harms counts until the next of the same
/// thing, however long ago it was.
pub fn reads_days() -> i64 {
    knowledge::book().troubles.number.reads_days.value as i64
}

/// The entries of the logbook that a trouble asks for: tests and changes as far back as a reading may count, all else as any cause may lie.
pub fn reads(now: &ZonedDateTime) -> Filter {
    let back = |hours: i64| now.timestamp().checked_sub(SignedDuration::from_hours(hours)).ok();
    let causes = knowledge::book().troubles.cause.iter().map(|cause| cause.within_h).fold(fresh_h(), f64::max);
    let lately = ["dose", "food", "done", "animals"];
    let kinds = ["test", "change"].iter().chain(&lately).map(|kind| (*kind).to_owned()).collect();
    let lately = lately.iter().filter_map(|kind| Some(((*kind).to_owned(), back(causes.ceil() as i64)?)));
    Filter { from: back(24 * reads_days()), kinds, lately: lately.collect(), ..Filter::default() }
}

/// Hours from an entry to now; below 0 for one that lies ahead.
pub fn hours_ago(kept: &Kept, now: &ZonedDateTime) -> f64 {
    let seconds = now.timestamp().as_second() - kept.entry.at.timestamp().as_second();
    seconds as f64 / 3600.0
}

/// "20 minutes ago", "3 hours ago", "2 days ago".
pub fn ago_words(hours: f64) -> String {
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
        "ammonia" | "tap_ammonia" => as_n(Ion::Ammonium),
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
        "room" => "room_temperature",
        "new_temperature" => "tap_temperature",
        "nitrate" | "tap_nitrate" => "nitrate",
        "watts" => "heater_power",
        _ => "",
    };
    let n = |value: f64| format_number(value, Digits::Significant(4));
    let bad = |low: f64, high: f64| {
        Fault::new(format!("{} can't be {}", key.replace('_', " "), n(value))).expected(format!(
            "{} to {}",
            n(low),
            n(high)
        ))
    };
    // What a thermometer in trouble shows is more than what a tank is kept at.
    let (low, high) = match key {
        "temperature" => (0.0, knowledge::book().troubles.number.thermometer_most_c.value),
        _ => (0.0, MOST),
    };
    match knowledge::book().bound(bound) {
        Some(row) if check(value, &row.is) == Verdict::Refused => Err(bad(row.is.low, row.is.high)),
        Some(_) => Ok(()),
        // A unit's factor may leave a hair.
        None if (low..=high * (1.0 + 1e-6)).contains(&value) => Ok(()),
        None => Err(bad(low, high)),
    }
}
