//! A water against the regulators' limits for suppliers and, apart from them, against what plants, fish and shrimps bear.
//!
//! # What
//! The upper end of each value that was told (for pH both ends), held against each number of `data/limits.toml` and
//! `data/harm.toml`. What nobody told is held against nothing.
//! # Range
//! A limit for suppliers is never used for an animal.
//! # Source
//! `data/limits.toml`, `data/harm.toml`.
//! # Checked by
//! `tests/by_hand_meaning.rs`.

use knowledge::{Life, Regulator, book};
use quantity::{Digits, Ion, Kind, Known, format_number};
use setup::{Disinfectant, Tank};

use crate::reading::Reading;

/// A value that was told, in the unit in which limits are kept.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Level {
    /// Key of `data/determinands.toml`.
    pub determinand: String,
    /// mg/L of the ion, meq/L, µS/cm at 25 °C, or empty for pH.
    pub unit: &'static str,
    /// Mean, least, most.
    pub known: Known<f64>,
}

/// One regulator's limit beside the value.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Limited {
    /// Who.
    pub by: Regulator,
    /// As it is read: "50", "6.5 to 9.5", with how strictly it is meant.
    pub text: String,
    /// As the act prints it, or what comes next.
    pub note: Option<String>,
    /// The value's upper end lies over it (or its lower end under the least).
    pub beyond: bool,
    /// Key of the source.
    pub source: String,
}

/// One value against all regulators.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Against {
    /// Name.
    pub name: String,
    /// Unit.
    pub unit: String,
    /// The value with its ends.
    pub shown: String,
    /// The limits, in the order of [`Regulator::ALL`]; those that set none are left out.
    pub limits: Vec<Limited>,
}

/// One value against what somebody bears.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Borne {
    /// Who bears it.
    pub who: Life,
    /// Name of the determinand.
    pub determinand: String,
    /// The value with its unit: "up to 0.18 mg/L".
    pub shown: String,
    /// What is borne: "at most 0.004 mg/L".
    pub limit: String,
    /// The value lies where harm is known or guarded against.
    pub beyond: bool,
    /// The sentence, with its number.
    pub say: String,
    /// Key of the source.
    pub source: String,
}

/// Whether a value was told, and not taken from what is usual.
pub(crate) fn is_told(kind: Kind) -> bool {
    matches!(kind, Kind::Measured | Kind::WorkedOut)
}

/// All values of a tank's tap that were told, and those of readings that a setup has no field for.
pub(crate) fn levels(tank: &Tank, more: &[Reading]) -> Vec<Level> {
    let tap = &tank.tap;
    let level = |determinand: &str, unit, known| Level { determinand: determinand.to_owned(), unit, known };
    let mut all: Vec<Level> = Ion::ALL.into_iter().map(|ion| level(ion.name(), "mg/L", tap.mg_per_l(ion))).collect();
    all.push(level("ph", "", tap.ph));
    all.push(level("hardness_total", "meq/L", crate::meaning::hardness(tank)));
    all.extend(tap.conductivity_25_us_per_cm.map(|known| level("conductivity", "µS/cm at 25 °C", known)));
    if tap.disinfectant != Disinfectant::None {
        all.push(level("chlorine_total", "mg/L", tap.total_chlorine_mg_per_l));
    }
    all.retain(|level| is_told(level.known.kind));
    for name in ["lead", "fluoride"] {
        all.extend(of_readings(name, more).map(|known| level(name, "mg/L", known)));
    }
    all
}

/// The same as it was read, where what the setup holds was drawn elsewhere by the rest of a report: a limit for suppliers
/// is held against their own number.
pub(crate) fn as_read(levels: &[Level], readings: &[Reading]) -> Vec<Level> {
    let read = |level: &Level| {
        let drawn = level.known.kind == Kind::WorkedOut;
        let read = crate::take::as_read(readings, &level.determinand).filter(|_| drawn);
        Level { known: read.unwrap_or(level.known), ..level.clone() }
    };
    levels.iter().map(read).collect()
}

/// The same with what the pipes add to the copper: what an animal meets.
pub(crate) fn behind_the_pipes(levels: &[Level], tank: &Tank) -> Vec<Level> {
    let pipes = tank.pipes_copper_mg_per_l;
    let mut all = levels.to_vec();
    if is_told(pipes.kind) {
        for level in all.iter_mut().filter(|level| level.determinand == Ion::Copper.name()) {
            let k = level.known;
            let kind = k.kind.weaker(pipes.kind);
            level.known = Known::ranged(k.low + pipes.low, k.value + pipes.value, k.high + pipes.high, kind);
        }
    }
    all
}

/// mg/L of a determinand that no field of a setup takes.
fn of_readings(determinand: &str, more: &[Reading]) -> Option<Known<f64>> {
    let mine = more.iter().filter(|reading| reading.determinand == determinand && reading.is_settled());
    let mg = |reading: &Reading| {
        let value = reading.value.or(reading.detection_limit)?;
        match reading.unit? {
            crate::Unit::MgPerL => Some(value),
            crate::Unit::UgPerL => Some(value / 1000.0),
            _ => None,
        }
    };
    let all: Vec<f64> = mine.filter_map(mg).collect();
    let high = all.iter().copied().reduce(f64::max)?;
    let low = all.iter().copied().fold(high, f64::min);
    Some(Known::ranged(low, 0.5 * (low + high), high, Kind::Measured))
}

fn number(value: f64) -> String {
    format_number(value, Digits::Significant(3))
}

fn shown(known: &Known<f64>) -> String {
    let [low, value, high] = [known.low, known.value, known.high].map(number);
    if low == high { value } else { format!("{value} ({low} to {high})") }
}

fn name_of(determinand: &str) -> String {
    book().determinands.get(determinand).map_or(determinand, |row| row.name.as_str()).to_owned()
}

/// Least and most in words.
fn ends(least: Option<f64>, most: Option<f64>) -> String {
    match (least, most) {
        (Some(least), Some(most)) => format!("{} to {}", number(least), number(most)),
        (Some(least), None) => format!("at least {}", number(least)),
        (None, Some(most)) => number(most),
        (None, None) => String::new(),
    }
}

fn is_beyond(known: &Known<f64>, least: Option<f64>, most: Option<f64>) -> bool {
    least.is_some_and(|least| known.low < least) || most.is_some_and(|most| known.high > most)
}

/// Against the regulators' limits for suppliers; values for which none has a limit are left out.
pub(crate) fn regulators(levels: &[Level]) -> Vec<Against> {
    let against = |level: &Level| {
        let row = book().limits.regulator.get(&level.determinand)?;
        let limits = Regulator::ALL.into_iter().filter_map(|by| {
            let limit = row.of(by)?;
            let strict = limit.kind.words();
            let text = ends(limit.least, limit.most);
            Some(Limited {
                by,
                text: if strict.is_empty() { text } else { format!("{text}, {strict}") },
                note: limit.note.clone(),
                beyond: is_beyond(&level.known, limit.least, limit.most),
                source: limit.source.clone(),
            })
        });
        Some(Against {
            name: name_of(&level.determinand),
            unit: row.unit.clone(),
            shown: shown(&level.known),
            limits: limits.collect(),
        })
    };
    levels.iter().filter_map(against).collect()
}

/// Against what plants, fish and shrimps bear: the rows of `data/limits.toml`, and total chlorine by `data/harm.toml`.
pub(crate) fn bears(levels: &[Level]) -> Vec<Borne> {
    let find = |determinand: &str| levels.iter().find(|level| level.determinand == determinand);
    let with_unit = |text: String, unit: &str| format!("{text} {unit}").trim().to_owned();
    let mut all: Vec<Borne> = book()
        .limits
        .bears
        .iter()
        .filter_map(|row| {
            let level = find(&row.determinand)?;
            let text = with_unit(ends(row.least, row.most), &row.unit);
            Some(Borne {
                who: row.who,
                determinand: name_of(&row.determinand),
                shown: with_unit(shown(&level.known), level.unit),
                limit: if row.least.is_none() { format!("at most {text}") } else { text },
                beyond: is_beyond(&level.known, row.least, row.most),
                say: row.say.clone(),
                source: row.source.clone(),
            })
        })
        .collect();
    if let Some(level) = find("chlorine_total") {
        let limit = &book().harm.limit.chlorine_acute_mg_per_l;
        all.extend([Life::Fish, Life::Shrimps].map(|who| Borne {
            who,
            determinand: name_of("chlorine_total"),
            shown: with_unit(shown(&level.known), level.unit),
            limit: with_unit(format!("at most {}", number(limit.value())), "mg/L"),
            beyond: level.known.high > limit.value(),
            say: limit.say.clone(),
            source: limit.is.source.clone(),
        }));
    }
    all
}
