//! Questions: what a reading lacks, in words, with what can be answered.

use std::collections::BTreeSet;

use knowledge::book;

use crate::named::Name;
use crate::reading::{Basis, Counted, Reading};
use crate::{Question, Unit};

/// A doubt on a reading; the first one stays.
pub(crate) fn doubt(reading: &mut Reading, text: String) {
    reading.confidence = reading.confidence.min(0.5);
    reading.question.get_or_insert(text);
}

/// Ask what the row itself leaves open.
pub(crate) fn about(reading: &mut Reading, name: &Name) {
    let Some(determinand) = book().determinands.get(name.key) else { return };
    let called = determinand.name.as_str();
    if !name.strange.is_empty() {
        let words = name.strange.join(" ");
        doubt(reading, format!("Is \"{}\" {called}? \"{words}\" is not understood.", reading.as_written));
    }
    if name.key == "chlorine_free" && name.counted == Some("ask") {
        doubt(reading, format!("Is \"{}\" free or total chlorine?", reading.as_written));
    }
    let needs_unit = determinand.kind != "ph";
    if reading.unit.is_none() && needs_unit && (reading.value.is_some() || reading.detection_limit.is_some()) {
        doubt(reading, format!("In which unit is {called} given?"));
    }
    if !plausible(reading) {
        doubt(reading, format!("Is {called} really {}?", shown(reading)));
    }
    open(reading);
}

/// Ask for a basis that seemed to be settled.
pub(crate) fn open_again(reading: &mut Reading) {
    let Some(determinand) = book().determinands.get(&reading.determinand) else { return };
    reading.counted = Counted::Open(determinand.bases.iter().filter_map(|b| Basis::of(b)).collect());
    reading.because = None;
    open(reading);
}

/// Ask for an open basis.
pub(crate) fn open(reading: &mut Reading) {
    if let Counted::Open(choices) = &reading.counted {
        let called = book().determinands.get(&reading.determinand).map_or("it", |d| d.name.as_str());
        let ways: Vec<String> = choices.iter().map(|b| choice(&reading.determinand, *b)).collect();
        doubt(reading, format!("Is {called} counted {}? The report does not say.", ways.join(" or ")));
    }
}

/// How a determinand is counted, in words: "as NO3", "at 20 °C".
pub fn choice(determinand: &str, basis: Basis) -> String {
    let formula = book().determinands.get(determinand).and_then(|d| d.formula.clone());
    match basis {
        Basis::Ion => format!("as {}", formula.unwrap_or_else(|| "itself".to_owned())),
        Basis::AcidCapacity => "as acid taken up".to_owned(),
        Basis::At20C => "at 20 °C".to_owned(),
        Basis::At25C => "at 25 °C".to_owned(),
        other => format!("as {other:?}"),
    }
}

fn shown(reading: &Reading) -> String {
    let unit = reading.unit.map_or("", Unit::name);
    reading.value.map_or_else(|| "that".to_owned(), |v| format!("{v} {unit}"))
}

/// Whether a value lies between the ends that any tap keeps to.
pub(crate) fn plausible(reading: &Reading) -> bool {
    let ends = book().determinands.get(&reading.determinand).and_then(|d| d.ends.as_ref());
    let (Some(value), Some(ends)) = (reading.value, ends) else { return reading.value.is_none_or(|v| v >= 0.0) };
    let per_litre = || reading.meq_per_l().or_else(|| reading.meq_per_l_as(Some(Basis::CaCO3)));
    let value = match (ends.unit.as_str(), reading.unit) {
        ("mg/L", Some(Unit::MgPerL)) => Some(value),
        ("mg/L", Some(Unit::UgPerL)) => Some(value * 1e-3),
        ("mg/L", _) => reading.mmol_per_l().zip(reading.ion()).map(|(mmol, ion)| mmol * ion.molar_mass()),
        ("meq/L", _) => per_litre(),
        ("µS/cm", _) => reading.us_per_cm_at_25().map(|known| known.value),
        _ => Some(value),
    };
    value.is_none_or(|v| v >= ends.low.unwrap_or(0.0) && v <= ends.high)
}

/// The questions of a report, each once.
pub(crate) fn questions(readings: &[Reading]) -> Vec<Question> {
    let mut out: Vec<Question> = Vec::new();
    let mut asked: BTreeSet<(&str, &str, Vec<String>)> = BTreeSet::new();
    for reading in readings {
        let Some(text) = &reading.question else { continue };
        let choices: Vec<String> = match &reading.counted {
            Counted::Open(bases) => bases.iter().map(|b| choice(&reading.determinand, *b)).collect(),
            _ => Vec::new(),
        };
        if asked.insert((&reading.determinand, text, choices.clone())) {
            out.push(Question { determinand: Some(reading.determinand.clone()), text: text.clone(), choices });
        }
    }
    out
}
