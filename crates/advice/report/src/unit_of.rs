//! Which units a determinand can have, and which of them a text gives.

use knowledge::{ReportColumn, book};
use quantity::Ion;
use quantity::basis::molar_mass;
use quantity::hardness::{HardnessUnit, Measure};

use crate::columns::Column;
use crate::row::Told;
use crate::unit_find::{self, Found as FoundUnit};
use crate::values::Value;
use crate::{Unit, fold, footnotes, lexicon};

/// The unit of a text that this determinand can have.
pub(crate) fn unit_for(key: &str, text: &str) -> Option<FoundUnit> {
    let fits = |f: &FoundUnit| book().determinands.get(key).is_some_and(|d| fits(&d.kind, f.unit));
    let bare = |u| FoundUnit { unit: u, scale: 1.0, start: 0, end: 0, inside: "".into(), text: text.into() };
    let found = unit_find::all(text).into_iter().find(fits);
    found.or_else(|| {
        // A bare C heads a column of temperatures; "11 graden" is one.
        let degrees = || fold::words(text).last().is_some_and(|w| unit_find::is_word_of_celsius(w));
        if key == "temperature" && (text.trim() == "C" || degrees()) {
            return Some(bare(Unit::Celsius));
        }
        if key != "hardness_total" {
            return None;
        }
        let letters: String = text.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect();
        matches!(letters.as_str(), "f" | "odh" | "gdh")
            .then(|| bare(if letters == "f" { Unit::FrenchDegree } else { Unit::GermanDegree }))
    })
}

/// Whether a unit is one of hardness, and the determinand is none: "25 to 32 °fH hard" beside a row of iron is a scale of
/// hardness in the next column of print.
pub(crate) fn is_of_scale(key: &str, unit: Unit) -> bool {
    let degrees = matches!(unit, Unit::GermanDegree | Unit::FrenchDegree | Unit::EnglishDegree);
    degrees && book().determinands.get(key).is_some_and(|d| !fits(&d.kind, unit))
}

/// Whether a kind of determinand can have a unit.
pub(crate) fn fits(kind: &str, unit: Unit) -> bool {
    use Unit::*;
    match kind {
        "mass" => matches!(unit, MgPerL | UgPerL | MmolPerL | MeqPerL),
        "hardness" | "alkalinity" => !matches!(unit, UsPerCm | MsPerM | Celsius | Ntu | Ph),
        "conductivity" => matches!(unit, UsPerCm | MsPerM),
        "temperature" => matches!(unit, Celsius | FrenchDegree),
        "turbidity" => matches!(unit, Ntu),
        _ => false,
    }
}

/// The unit of a row: of its cell for it, else of its name, else that over its limit.
pub(crate) fn of_row_or_name(key: &str, cell: &str, name: &str, columns: &[Column]) -> Option<FoundUnit> {
    let beside = || beside_limit(key, columns).filter(|_| cell.is_empty());
    unit_for(key, cell).or_else(|| unit_for(key, name)).or_else(beside)
}

/// A result in the unit of its limit lies between these shares of it; common practice, no source.
const LEAST_OF_LIMIT: f64 = 1e-3;
const MOST_OF_LIMIT: f64 = 2.0;

/// "Limit (mg/l)" heads what is allowed, and no column of results has a unit: they are compared, so theirs is the same.
fn beside_limit(key: &str, columns: &[Column]) -> Option<FoundUnit> {
    let of = |limit: bool| {
        let own = move |c: &&Column| if limit { c.role == Some(ReportColumn::Limit) } else { c.statistic().is_some() };
        columns.iter().filter(own).find_map(|c| unit_for(key, &c.heading))
    };
    if of(false).is_some() { None } else { of(true) }
}

/// The unit of a value: its own, else that of its row, of its column, or of a footnote; and whether it is its own.
pub(crate) fn printed_unit(
    told: &Told<'_>,
    column: &Column,
    value: &Value,
    notes: &[&str],
) -> (Option<FoundUnit>, bool) {
    let key = told.name.key;
    let fits = |f: &FoundUnit| unit_for(key, &f.text).is_some() || unit_for(key, &format!("1{}", f.text)).is_some();
    let in_cell = value.unit.clone().filter(fits).or_else(|| unit_for(key, &value.around));
    let is_own = in_cell.is_some();
    let unit = in_cell.or_else(|| told.unit.clone()).or_else(|| unit_for(key, &column.heading));
    let mut plain = notes.iter().filter(|note| footnotes::allowed(note).is_none());
    let unit = unit.or_else(|| plain.find_map(|note| unit_for(key, note)));
    (unit.or_else(|| told.of_limit.clone()), is_own)
}

/// A unit is there, and nobody knows it: in the cell itself, or in the column of units.
pub(crate) fn unit_doubt(told: &Told<'_>, column: &Column, value: &Value, in_cell_is_known: bool) -> Option<String> {
    let key = told.name.key;
    if key == "ph" || in_cell_is_known {
        return None;
    }
    // "Result (µg/l)" beside a unit of mg/l.
    let of_heading = unit_for(key, &column.heading);
    let others = [&told.also, &of_heading].into_iter().flatten();
    let differs = |o: &&FoundUnit| told.unit.as_ref().is_some_and(|u| (u.unit, u.scale) != (o.unit, o.scale));
    if let (Some(unit), Some(other)) = (&told.unit, others.clone().find(differs)) {
        return Some(format!("Is it in \"{}\" or in \"{}\"?", unit.text.trim(), other.text.trim()));
    }
    // The limit alone says the unit: it is taken where the value is of its size.
    let limit = told.limit.as_ref().and_then(|l| l.value);
    let far = |v: f64| limit.is_none_or(|l| v > MOST_OF_LIMIT * l || v < LEAST_OF_LIMIT * l);
    if told.unit.is_none() && of_heading.is_none() && told.of_limit.is_some() && value.value.is_some_and(far) {
        return Some("In which unit is it given? Only its limit has one.".to_owned());
    }
    if let Some(other) = &value.unit {
        return Some(format!("Which unit is \"{}\"?", other.text.trim()));
    }
    let glued = value.around.trim_start().split([' ', '(', ',', ';']).next().unwrap_or("");
    let letters = |part: &str| part.chars().any(char::is_alphabetic);
    if glued.starts_with('°') || glued.split_once('/').is_some_and(|(a, b)| letters(a) && letters(b)) {
        return Some(format!("Which unit is \"{glued}\"?"));
    }
    // "12 MFL", "0.5 U": capitals behind a number are a unit, or a mark of the laboratory.
    let capitals = (glued.chars().count() > 1 || glued == "U") && glued.chars().all(|c| c.is_ascii_uppercase());
    let known = |w: &String| {
        let lexicon = lexicon::lexicon();
        lexicon.is_beside(w)
            || lexicon.is_symbol_of(w, key)
            || !lexicon.bases(std::slice::from_ref(w)).is_empty()
            || w.chars().count() == 1
            || w.chars().any(|c| c.is_ascii_digit())
    };
    if glued == "U"
        || capitals && !crate::fold::words(glued).iter().all(|w| known(w) || lexicon::lexicon().in_headings(w))
    {
        return Some(format!("What is \"{glued}\" behind the value?"));
    }
    let strange = told.unit.is_none() && !crate::fold::words(&told.unit_text).iter().all(known);
    strange.then(|| format!("Which unit is \"{}\"?", told.unit_text.trim()))
}

/// Whether two values may be one hardness, whatever each is counted as; true where neither is in degrees.
pub(crate) fn may_be_one(a: (&FoundUnit, f64), b: (&FoundUnit, f64)) -> bool {
    use Unit::{EnglishDegree, FrenchDegree, GermanDegree, Grains, MeqPerL, MgPerL, MmolPerL};
    let ways = |(found, value): (&FoundUnit, f64)| -> Vec<f64> {
        let per = |unit: HardnessUnit| value * found.scale * unit.meq_per_unit(Measure::Hardness);
        match found.unit {
            GermanDegree => vec![per(HardnessUnit::German)],
            FrenchDegree => vec![per(HardnessUnit::French)],
            EnglishDegree => vec![per(HardnessUnit::English)],
            Grains => vec![per(HardnessUnit::Grains)],
            MeqPerL => vec![value * found.scale],
            MmolPerL => vec![per(HardnessUnit::Mmol), value * found.scale],
            MgPerL => {
                let calcium = 2.0 * value / Ion::Calcium.molar_mass();
                vec![per(HardnessUnit::Caco3), per(HardnessUnit::Cao), calcium, value / molar_mass::HCO3]
            }
            _ => Vec::new(),
        }
    };
    let degrees = |f: &FoundUnit| matches!(f.unit, GermanDegree | FrenchDegree | EnglishDegree | Grains);
    let alike = |x: f64, y: f64| (x - y).abs() <= ROUNDED * x.max(y);
    !degrees(a.0) && !degrees(b.0) || ways(a).iter().any(|x| ways(b).iter().any(|y| alike(*x, *y)))
}

/// The same hardness in two units, each rounded, differs by less than this share; common practice, no source.
const ROUNDED: f64 = 0.1;
