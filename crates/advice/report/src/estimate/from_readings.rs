//! From readings of a report to evidence: units and bases brought to one, and the errors that go with them.

use std::collections::BTreeMap;

use knowledge::book;
use quantity::basis::{Basis as IonBasis, convert};
use quantity::hardness::{HardnessUnit, Measure};
use quantity::{Comparator, Digits, Ion, format_number};

use super::errors::{Origin, range_of_draws, samples_untold};
use super::{Evidence, Item, Meaning, Quantity, Spread};
use crate::{Basis, Counted, Reading, Report, Statistic, Unit};

/// What a report says of each of its samples; one where it has one.
pub fn evidence(report: &Report, origin: Origin) -> Vec<Evidence> {
    (0..report.samples.len().max(1))
        .map(|sample| {
            let told = report.samples.get(sample);
            let mine = report.readings.iter().filter(|reading| reading.sample.unwrap_or(0) == sample);
            let mut all = of_readings(&mine.collect::<Vec<_>>(), origin);
            all.name = told.and_then(|told| told.name.clone());
            all.date = told.and_then(|told| told.date.clone());
            all
        })
        .collect()
}

/// The readings of one sample by row: minimum, mean and maximum of one determinand belong together.
pub(crate) fn rows<'a>(readings: &[&'a Reading]) -> Vec<Vec<&'a Reading>> {
    let mut rows: BTreeMap<(&str, Option<Unit>, &str, bool), Vec<&Reading>> = BTreeMap::new();
    for reading in readings {
        let key = (reading.determinand.as_str(), reading.unit, reading.as_written.as_str(), reading.is_settled());
        rows.entry(key).or_default().push(reading);
    }
    rows.into_values().collect()
}

/// What these readings of one sample say.
pub(crate) fn of_readings(readings: &[&Reading], origin: Origin) -> Evidence {
    let mut all = Evidence::default();
    let told = |determinand: &str| readings.iter().any(|reading| reading.determinand == determinand);
    for row in rows(readings) {
        let determinand = row.first().map_or("", |reading| reading.determinand.as_str());
        // Total phosphorus stands for phosphate where nothing better does: it holds all else that has phosphorus.
        if determinand == "phosphorus_total" && told("phosphate") {
            continue;
        }
        if determinand == "ph" {
            let centre = centre(&row).and_then(|reading| reading.value);
            all.ph = all.ph.or(centre);
        } else if let Some(item) = item(&row, origin) {
            all.items.push(item);
        }
    }
    all
}

/// One item from the readings of one row (minimum, mean, maximum of one determinand in one unit); none where the
/// estimate has no use for the determinand, or the row has no number.
pub fn item(row: &[&Reading], origin: Origin) -> Option<Item> {
    let reading = centre(row)?;
    let (value, comparator) = number(row, reading)?;
    let meanings = meanings(reading, value);
    let settled = reading.is_settled();
    let now = match reading.counted.basis() {
        Some(basis) => meaning(reading, basis, value)?,
        None => plain(reading, value).or_else(|| meanings.first().cloned())?,
    };
    let scale = if value == 0.0 { 0.0 } else { now.value / value };
    let method = origin.sd(now.of, now.value, step(value) * scale);
    let spread = spread(row, value).map(|spread| Spread { sd: spread.sd * scale, ..spread });
    let of_mean = spread.map_or(0.0, |spread| spread.sd / f64::from(spread.samples.max(1)).sqrt());
    let unit = if reading.unit_text.is_empty() { reading.unit.map_or("", Unit::name) } else { &reading.unit_text };
    let sign = match comparator {
        Comparator::Below => "<",
        Comparator::Above => ">",
        _ => "",
    };
    Some(Item {
        of: now.of,
        value: now.value,
        comparator,
        sd: method.hypot(of_mean),
        spread,
        as_written: format!("{} {sign}{} {unit}", reading.as_written, format_number(value, Digits::Significant(6))),
        otherwise: meanings.into_iter().filter(|other| other.words != now.words).collect(),
        counted: now.words,
        settled,
    })
}

/// The reading that stands for its row: the mean, else the middle one, else the only one, else an end.
fn centre<'a>(row: &[&'a Reading]) -> Option<&'a Reading> {
    let order = [
        Statistic::Mean,
        Statistic::Median,
        Statistic::Single,
        Statistic::Max,
        Statistic::P95,
        Statistic::P90,
        Statistic::Min,
        Statistic::P5,
        Statistic::P10,
    ];
    order.iter().find_map(|statistic| row.iter().find(|reading| reading.statistic == *statistic).copied())
}

/// The row's number, and how it is meant: the middle between two ends, a bound from one end alone.
fn number(row: &[&Reading], centre: &Reading) -> Option<(f64, Comparator)> {
    if centre.is_below_detection() {
        let limit = centre.detection_limit.or(centre.value)?;
        return Some((limit, Comparator::Below));
    }
    let value = centre.value?;
    let low = row.iter().find(|reading| matches!(reading.statistic, Statistic::Min | Statistic::P5 | Statistic::P10));
    match centre.statistic {
        Statistic::Max | Statistic::P95 | Statistic::P90 => match low {
            Some(low) => Some((0.5 * (value + low.value.unwrap_or(0.0)), Comparator::Equal)),
            None => Some((value, Comparator::Below)),
        },
        Statistic::Min | Statistic::P5 | Statistic::P10 => Some((value, Comparator::Above)),
        _ => Some((value, centre.comparator)),
    }
}

/// From day to day, in the unit as printed; none where only one number is there.
fn spread(row: &[&Reading], value: f64) -> Option<Spread> {
    let at = |statistic: Statistic| {
        let reading = row.iter().find(|reading| reading.statistic == statistic)?;
        // An end below what the method sees lies somewhere down to zero; half of it is common practice.
        reading.value.or(reading.detection_limit.map(|limit| 0.5 * limit))
    };
    let samples = row.iter().find_map(|reading| reading.samples).unwrap_or(samples_untold()).max(1);
    let of_range = range_of_draws(samples);
    let sd = match (at(Statistic::Min), at(Statistic::Max), at(Statistic::P95), at(Statistic::P90)) {
        (Some(low), Some(high), ..) => (high - low) / of_range,
        (None, Some(high), ..) if high > value => 2.0 * (high - value) / of_range,
        (_, _, Some(high), _) => (high - value) / super::usual::TO_90,
        // 1.2816: the normal's 90th percentile.
        (.., Some(high)) => (high - value) / 1.2816,
        _ => return None,
    };
    (sd.is_finite() && sd > 0.0 && samples > 1).then_some(Spread { sd, samples })
}

/// The last printed digit of a number; zeros at its end are lost, so it is never too small.
fn step(value: f64) -> f64 {
    let text = format!("{value}");
    let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    10_f64.powi(-(decimals.min(12) as i32))
}

/// Every way in which the printed number may be meant.
fn meanings(reading: &Reading, value: f64) -> Vec<Meaning> {
    let bases: Vec<Basis> = match &reading.counted {
        Counted::Open(open) => open.clone(),
        Counted::Plainly if reading.determinand != "conductivity" => Vec::new(),
        _ if reading.unit.is_some_and(Unit::is_mass) || reading.determinand == "conductivity" => {
            let row = book().determinands.get(&reading.determinand);
            row.map_or(Vec::new(), |row| row.bases.iter().filter_map(|word| basis(word)).collect())
        }
        _ => Vec::new(),
    };
    bases.into_iter().filter_map(|basis| meaning(reading, basis, value)).collect()
}

/// The word of `data/determinands.toml`.
fn basis(word: &str) -> Option<Basis> {
    use serde::de::{IntoDeserializer, value::Error};
    let word: serde::de::value::StrDeserializer<'_, Error> = word.into_deserializer();
    serde::Deserialize::deserialize(word).ok()
}

/// The number counted by a basis.
fn meaning(reading: &Reading, basis: Basis, value: f64) -> Option<Meaning> {
    let unit = reading.unit.unwrap_or(Unit::MgPerL);
    let (of, value) = match reading.determinand.as_str() {
        "hardness_total" => (Quantity::Hardness, hard(value, unit, basis, Measure::Hardness)?),
        "hardness_calcium" => {
            let meq = hard(value, unit, basis, Measure::Hardness)?;
            (Quantity::Ion(Ion::Calcium), 0.5 * meq * Ion::Calcium.molar_mass())
        }
        "alkalinity" | "bicarbonate" | "hardness_carbonate" => {
            (Quantity::Alkalinity, hard(value, unit, basis, Measure::Alkalinity)?)
        }
        "conductivity" => {
            let of = if basis == Basis::At20C { Quantity::Conductivity20 } else { Quantity::Conductivity };
            (of, siemens(value, unit)?)
        }
        name => {
            let ion = ion(name)?;
            (Quantity::Ion(ion), mg_per_l(value, unit, ion, basis)?)
        }
    };
    Some(Meaning { words: crate::choice(&reading.determinand, basis), of, value })
}

/// A number that needs no basis: degrees, millimoles, or a conductivity whose range is carried.
fn plain(reading: &Reading, value: f64) -> Option<Meaning> {
    if reading.determinand == "conductivity" {
        let value = siemens(value, reading.unit?)?;
        return Some(Meaning { words: String::new(), of: Quantity::ConductivityUntold, value });
    }
    let is_mass = reading.unit.is_none_or(Unit::is_mass);
    // Degrees and moles are the same whatever the basis; one that fits the determinand is named.
    let basis = if reading.determinand.starts_with("hardness_c") || !reading.determinand.starts_with("hard") {
        Basis::Ion
    } else {
        Basis::CaCO3
    };
    let told = (!is_mass).then(|| meaning(reading, basis, value)).flatten()?;
    Some(Meaning { words: String::new(), ..told })
}

/// The ion of a determinand.
fn ion(determinand: &str) -> Option<Ion> {
    let name = if determinand == "phosphorus_total" { "phosphate" } else { determinand };
    Ion::ALL.into_iter().find(|ion| ion.name() == name)
}

/// Hardness or alkalinity in meq/L.
fn hard(value: f64, unit: Unit, basis: Basis, measure: Measure) -> Option<f64> {
    let in_unit = |unit: HardnessUnit| Some(unit.to_meq_per_l(value, measure));
    match unit {
        Unit::GermanDegree => in_unit(HardnessUnit::German),
        Unit::FrenchDegree => in_unit(HardnessUnit::French),
        Unit::EnglishDegree => in_unit(HardnessUnit::English),
        Unit::Grains => in_unit(HardnessUnit::Grains),
        Unit::MmolPerL => in_unit(HardnessUnit::Mmol),
        Unit::MeqPerL => in_unit(HardnessUnit::Meq),
        Unit::UgPerL => hard(value / 1000.0, Unit::MgPerL, basis, measure),
        Unit::MgPerL => match basis {
            Basis::CaCO3 => in_unit(HardnessUnit::Caco3),
            Basis::CaO => in_unit(HardnessUnit::Cao),
            Basis::HCO3 if measure == Measure::Alkalinity => in_unit(HardnessUnit::Bicarbonate),
            Basis::Ca if measure == Measure::Hardness => Some(2.0 * value / Ion::Calcium.molar_mass()),
            _ => None,
        },
        _ => None,
    }
}

/// mg/L of the ion.
fn mg_per_l(value: f64, unit: Unit, ion: Ion, basis: Basis) -> Option<f64> {
    let counted = match basis {
        Basis::Ion => IonBasis::AsIon,
        Basis::N | Basis::P | Basis::S => IonBasis::AsElement,
        Basis::P2O5 | Basis::CaO => IonBasis::AsOxide,
        Basis::NH3 => IonBasis::AsAmmonia,
        Basis::CaCO3 => IonBasis::AsCaCO3,
        _ => return None,
    };
    match unit {
        Unit::MgPerL => convert(value, ion, counted, IonBasis::AsIon),
        Unit::UgPerL => convert(value / 1000.0, ion, counted, IonBasis::AsIon),
        Unit::MmolPerL => Some(value * ion.molar_mass()),
        Unit::MeqPerL => Some(value * ion.molar_mass() / f64::from(ion.charge().abs().max(1))),
        // Calcium or magnesium in degrees of hardness.
        _ if matches!(ion, Ion::Calcium | Ion::Magnesium) => {
            Some(0.5 * hard(value, unit, Basis::CaCO3, Measure::Hardness)? * ion.molar_mass())
        }
        _ => None,
    }
}

/// µS/cm
fn siemens(value: f64, unit: Unit) -> Option<f64> {
    match unit {
        Unit::UsPerCm => Some(value),
        Unit::MsPerM => Some(10.0 * value),
        _ => None,
    }
}
