//! Which units a determinand can have, and which of them a text gives.

use knowledge::{ReportColumn, book};

use crate::columns::Column;
use crate::unit_find::{self, Found as FoundUnit};
use crate::{Unit, fold};

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

/// "Limit (mg/l)" heads what is allowed, and no column of results has a unit: they are compared, so theirs is the same.
pub(crate) fn beside_limit(key: &str, columns: &[Column]) -> Option<FoundUnit> {
    let of = |limit: bool| {
        let own = move |c: &&Column| if limit { c.role == Some(ReportColumn::Limit) } else { c.statistic().is_some() };
        columns.iter().filter(own).find_map(|c| unit_for(key, &c.heading))
    };
    if of(false).is_some() { None } else { of(true) }
}
