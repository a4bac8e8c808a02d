//! A water into the tap fields of a setup, with its range and how well it is known.
//!
//! What was measured is written with the least and the most that the report has; what was worked out says so, with the
//! range that holds it in 90 of 100 cases; so does an ion of the balance that little but custom tells, as assumed. A number
//! whose basis is open is written without one, so that the setup asks and decides nothing. What the water says nothing of
//! and the setup had from an older water goes, so that two waters never mix: ions and hardness go, disinfectant and
//! temperature stay.

use quantity::{Comparator, Digits, Faults, Ion, Known, format_number};
use setup::Setup;

use crate::Unit;
use crate::combine::OneWater;
use crate::estimate::{Decided, Line, Quantity};
use crate::reading::{Counted, Reading, Statistic};

/// A field of the setup with what is written into it; an empty text takes it out.
pub type Edit = (String, String);

/// Where a setup's tap is, for what is usual there.
pub fn place_of(setup: &Setup) -> knowledge::Place {
    match setup.written("tank.country").as_deref() {
        Some("eu") => knowledge::Place::Eu,
        Some("gb") => knowledge::Place::Gb,
        Some("us") => knowledge::Place::Us,
        _ => knowledge::Place::Other,
    }
}

/// The setup with this water at its tap.
///
/// # Errors
/// A value that the setup does not take (far outside what a tap can hold).
pub fn take(setup: &Setup, water: &OneWater) -> Result<Setup, Faults> {
    let edits = edits(water);
    setup.with_all(edits.iter().map(|(field, text)| (field.as_str(), text.as_str())))
}

/// What [`take`] writes, in its order.
pub fn edits(water: &OneWater) -> Vec<Edit> {
    let mut all = Vec::new();
    let (mut calcium, mut magnesium) = (false, false);
    for (ion, line) in &water.estimate.ions {
        if let Some(open) = open(&water.readings, *ion) {
            all.extend(open);
            continue;
        }
        let formula = ion.formula();
        let unit = format!("mg/L {formula}");
        let ends = ends(&water.readings, |reading| {
            Some(reading.mmol_per_l().filter(|_| reading.ion() == Some(*ion))? * ion.molar_mass())
        });
        let written =
            write(&mut all, &format!("tap.{}", ion.name()), line, bound(water, Quantity::Ion(*ion)), ends, &unit);
        match ion {
            Ion::Calcium => calcium = written,
            Ion::Magnesium => magnesium = written,
            _ => {}
        }
    }
    // Hardness told beside both of its parts would be told twice.
    if calcium && magnesium {
        all.push(("tap.hardness".to_owned(), String::new()));
    } else {
        let ends = ends(&water.readings, |r| r.meq_per_l().filter(|_| r.determinand == "hardness_total"));
        write(&mut all, "tap.hardness", &water.estimate.hardness, None, ends, "meq/L");
    }
    let of_alkalinity = |r: &Reading| {
        let is = matches!(r.determinand.as_str(), "alkalinity" | "bicarbonate" | "hardness_carbonate");
        r.meq_per_l().filter(|_| is)
    };
    let alkalinity_ends = ends(&water.readings, of_alkalinity);
    write(&mut all, "tap.alkalinity", &water.estimate.alkalinity, None, alkalinity_ends, "meq/L");
    let measured = Line { decided: Decided::Measured, ..water.estimate.conductivity_25 };
    match (water.evidence.value(Quantity::Conductivity), conductivity(&water.readings)) {
        // What was read, for what the ions come to is worked out from them anew.
        (Some(_), Some(read)) => all.extend(range("tap.conductivity", read, "µS/cm at 25 °C", None)),
        (Some(_), None) => drop(write(&mut all, "tap.conductivity", &measured, None, None, "µS/cm at 25 °C")),
        (None, _) => all.push(("tap.conductivity".to_owned(), String::new())),
    }
    all.extend(read_off(&water.readings));
    all
}

/// The conductivity as it was read, µS/cm at 25 °C, with what the step from 20 °C leaves open.
fn conductivity(readings: &[Reading]) -> Option<Known<f64>> {
    let by = |end: fn(Known<f64>) -> f64| spread(readings, |r| r.us_per_cm_at_25().map(end));
    let (low, value, high) = (by(|k| k.low)?.low, by(|k| k.value)?.value, by(|k| k.high)?.high);
    Some(Known::ranged(low, value, high, quantity::Kind::Measured))
}

/// An ion or the hardness as it was read, mg/L or meq/L.
pub(crate) fn as_read(readings: &[Reading], determinand: &str) -> Option<Known<f64>> {
    let mine = |r: &Reading| r.determinand == determinand;
    spread(readings, |r| match r.ion().filter(|_| mine(r)) {
        Some(ion) => r.mmol_per_l().map(|mmol| mmol * ion.molar_mass()),
        None => r.meq_per_l().filter(|_| mine(r)),
    })
}

/// Values that need no estimate: pH, chlorine, the year's temperatures.
fn read_off(readings: &[Reading]) -> Vec<Edit> {
    let mut all = Vec::new();
    let told = |name: &str| spread(readings, |r| r.value.filter(|_| r.determinand == name));
    if let Some(ph) = told("ph") {
        all.extend(range("tap.ph", ph, "", None));
    }
    if let Some(chlorine) = told("chlorine_total") {
        all.extend(range("tap.total_chlorine", chlorine, "mg/L", None));
    }
    let bound = readings.iter().any(|r| r.determinand == "chloramine" && r.value.is_some_and(|value| value > 0.0));
    if bound {
        all.push(("tap.disinfectant".to_owned(), "chloramine".to_owned()));
    }
    // One sample's temperature says nothing of the year.
    if let Some(temperature) = told("temperature").filter(|t| t.high > t.low) {
        let text = format!("{} to {} °C", number(temperature.low), number(temperature.high));
        all.push(("tap.temperature".to_owned(), text));
    }
    all
}

/// Ions that carry a water's charge: one that nobody told is written as assumed, so that the charges balance.
const BALANCE: [&str; 7] =
    ["tap.sodium", "tap.potassium", "tap.calcium", "tap.magnesium", "tap.chloride", "tap.sulfate", "tap.alkalinity"];

/// An ion whose basis nobody told, as it is printed: the setup has its own question for it.
fn open(readings: &[Reading], ion: Ion) -> Option<Vec<Edit>> {
    let is_open = |r: &&Reading| {
        let asked = matches!(&r.counted, Counted::Open(bases) if !bases.is_empty());
        r.ion() == Some(ion) && asked && r.unit == Some(Unit::MgPerL)
    };
    let mut found = readings.iter().filter(is_open).cloned().collect::<Vec<_>>();
    found.iter_mut().for_each(|r| (r.counted, r.question) = (Counted::Plainly, None));
    let known = spread(&found, |r| r.value)?;
    let field = format!("tap.{}", ion.name());
    let mut all = range(&field, known, "mg/L", None);
    // The ends are counted as the mean will be.
    for (end, text) in &mut all {
        if end.ends_with(".min") || end.ends_with(".max") {
            *text = text.trim_end_matches(" mg/L").to_owned();
        }
    }
    Some(all)
}

/// Write a line, or take its field out where nothing but custom tells it. Whether it was written.
fn write(
    all: &mut Vec<Edit>,
    field: &str,
    line: &Line,
    below: Option<f64>,
    ends: Option<(f64, f64)>,
    unit: &str,
) -> bool {
    if let Some(limit) = below {
        match ends.filter(|(_, high)| *high > limit) {
            // Mostly unseen, and some day it was there: its most is what counts.
            Some((_, high)) => {
                let known = Known::ranged(0.0, 0.5 * limit, high, quantity::Kind::Measured);
                all.extend(range(field, known, unit, None));
            }
            None => all.push((field.to_owned(), format!("<{} {unit}", number(limit)))),
        }
        return true;
    }
    if line.decided == Decided::Usual && !BALANCE.contains(&field) {
        all.push((field.to_owned(), String::new()));
        return false;
    }
    let known = line.known;
    let (low, high) = match (line.decided, ends.filter(|(low, high)| high > low), line.day) {
        (Decided::Measured, Some((low, high)), _) => (low, high),
        (_, _, Some((low, high))) => (low.max(0.0), high),
        _ => (known.low, known.high),
    };
    let known = Known { low: low.min(known.value), high: high.max(known.value), ..known };
    let how = match line.decided {
        Decided::Measured => None,
        Decided::Usual => Some("assumed"),
        _ => Some("worked_out"),
    };
    all.extend(range(field, known, unit, how));
    true
}

/// A value with its range: cleared first, so that nothing of an older one stays.
fn range(field: &str, known: Known<f64>, unit: &str, how: Option<&str>) -> Vec<Edit> {
    let text = |value: f64| format!("{} {unit}", number(value)).trim().to_owned();
    let mut all = vec![(field.to_owned(), String::new())];
    if number(known.low) == number(known.high) && how.is_none() {
        all.push((field.to_owned(), text(known.value)));
        return all;
    }
    for (end, value) in [("min", known.low), ("mean", known.value), ("max", known.high)] {
        all.push((format!("{field}.{end}"), text(value)));
    }
    all.extend(how.map(|how| (format!("{field}.how"), how.to_owned())));
    all
}

fn number(value: f64) -> String {
    format_number(value, Digits::Significant(4))
}

/// The bound below which nothing was seen, where that is all that is known.
fn bound(water: &OneWater, of: Quantity) -> Option<f64> {
    let items = || water.evidence.items.iter().filter(|item| item.of == of && item.settled);
    let below = items().find(|item| item.comparator == Comparator::Below)?;
    items().all(|item| item.comparator == Comparator::Below).then_some(below.value)
}

/// The least and the most that settled readings print.
fn ends(readings: &[Reading], value: impl Fn(&Reading) -> Option<f64>) -> Option<(f64, f64)> {
    spread(readings, value).map(|known| (known.low, known.high))
}

/// Mean, least and most of the settled readings that have this value.
fn spread(readings: &[Reading], value: impl Fn(&Reading) -> Option<f64>) -> Option<Known<f64>> {
    let settled = || readings.iter().filter(|reading| reading.is_settled());
    let all: Vec<f64> = settled().filter_map(&value).collect();
    let central: Vec<f64> = settled().filter(|reading| reading.is_central()).filter_map(&value).collect();
    let low = all.iter().copied().fold(f64::INFINITY, f64::min);
    let high = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if all.is_empty() {
        return None;
    }
    // Of a row whose least lies under what the method sees, nothing is the least.
    let unseen = |reading: &&Reading| {
        let twin = Reading { value: reading.detection_limit, ..(*reading).clone() };
        reading.is_below_detection() && reading.statistic == Statistic::Min && value(&twin).is_some()
    };
    let low = if settled().any(|reading| unseen(&reading)) { 0.0 } else { low };
    let middle = match central.len() {
        0 => 0.5 * (low + high),
        n => central.iter().sum::<f64>() / n as f64,
    };
    Some(Known::ranged(low, middle.clamp(low, high), high, quantity::Kind::Measured))
}
