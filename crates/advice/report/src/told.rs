//! What the name of a row says beside its determinand: that its number is a mean, or the highest; or only its unit tells what
//! it is of.

use std::collections::BTreeSet;

use knowledge::ReportColumn;

use crate::columns::Column;
use crate::named::{Name, Named};
use crate::reading::Statistic;
use crate::table::name_of;
use crate::values::Value;
use crate::{Unit, fold, lexicon, unit_find};

/// Plain results of a row of highest values: "Highest single measurement".
pub(crate) fn of_highest<'a>(mut held: Vec<Held<'a>>, text: &str) -> Vec<Held<'a>> {
    let told = matches!(lexicon::lexicon().column(text), Some((ReportColumn::Max, _)));
    if told && matches!(name_of(text), Named::Unknown) {
        let plain = held.iter_mut().filter(|(_, c, _)| c.statistic() == Some(Statistic::Single));
        plain.flat_map(|(.., values)| values).for_each(|v| v.statistic = v.statistic.or(Some(Statistic::Max)));
    }
    held
}

/// Place of a column, the column, its values in a row.
pub(crate) type Held<'a> = (usize, &'a Column, Vec<Value>);

/// What the text of a row names: "French degrees" heads one of hardness, and nothing but turbidity is told in its unit; which
/// of its values a row without its name gives is asked.
pub(crate) fn named_by(text: &str, any: bool, in_ntu: bool) -> Named {
    match name_of(text) {
        Named::Unknown if any && unit_find::is_hardness(text) => name_of(HARDNESS),
        Named::Unknown if !text.is_empty() && in_ntu => unnamed_turbidity(text),
        named => named,
    }
}

/// Whether a value is of turbidity, by its unit.
pub(crate) fn in_ntu(value: &Value) -> bool {
    value.unit.as_ref().is_some_and(|u| u.unit == Unit::Ntu)
}

/// "Highest single measurement  0.18 NTU": turbidity, with words that are asked about.
fn unnamed_turbidity(text: &str) -> Named {
    match name_of(TURBIDITY) {
        Named::Determinand(name) => Named::Determinand(Name { strange: fold::words(text).into(), ..name }),
        other => other,
    }
}

/// Plain results of a row of which a column says what they are: "mean".
pub(crate) fn of_row<'a>(mut held: Vec<Held<'a>>, role: Option<ReportColumn>) -> Vec<Held<'a>> {
    let told = Column { role, ..Column::default() }.statistic().filter(|s| *s != Statistic::Single);
    let plain = held.iter_mut().filter(|(_, c, _)| c.statistic() == Some(Statistic::Single));
    plain.flat_map(|(.., values)| values).for_each(|v| v.statistic = v.statistic.or(told));
    held
}

/// The name without the words that say that its number is a mean, or one end of a range whose other end has a row, too.
pub(crate) fn of_statistic(name: Name, ranged: &BTreeSet<&str>) -> Name {
    let told = |w: &String| match lexicon::lexicon().column(w) {
        Some((ReportColumn::Mean | ReportColumn::Median, true)) => true,
        Some((ReportColumn::Min | ReportColumn::Max, true)) => ranged.contains(name.key),
        _ => false,
    };
    match name.strange.iter().any(told) {
        true => Name { strange: name.strange.iter().filter(|w| !told(w)).cloned().collect(), ..name },
        false => name,
    }
}

/// Determinands of which one name says that its number is the lowest, and another that it is the highest.
pub(crate) fn ranged<'a>(names: impl Iterator<Item = &'a str>) -> BTreeSet<&'static str> {
    let (mut low, mut high) = (BTreeSet::new(), BTreeSet::new());
    for name in names {
        let Named::Determinand(name) = name_of(name) else { continue };
        for word in name.strange.iter() {
            match lexicon::lexicon().column(word) {
                Some((ReportColumn::Min, true)) => drop(low.insert(name.key)),
                Some((ReportColumn::Max, true)) => drop(high.insert(name.key)),
                _ => {}
            }
        }
    }
    low.intersection(&high).copied().collect()
}

/// "Nitrate limit", "Sodium (max. allowed)": the name is that of what is allowed.
pub(crate) fn is_limit(name: &Name) -> bool {
    let words = || name.strange.join(" ");
    !name.strange.is_empty() && matches!(lexicon::lexicon().column(&words()), Some((ReportColumn::Limit, true)))
}

/// "Nitrate, average": which number the name itself says it is.
pub(crate) fn in_name(name: &Name) -> Option<Statistic> {
    let of = |word: &String| match lexicon::lexicon().column(word)? {
        (ReportColumn::Mean, true) => Some(Statistic::Mean),
        (ReportColumn::Median, true) => Some(Statistic::Median),
        (ReportColumn::Min, true) => Some(Statistic::Min),
        (ReportColumn::Max, true) => Some(Statistic::Max),
        _ => None,
    };
    // "Low Well" is the name of a place.
    let place = |at: usize| {
        let next = name.beside.get(at + 1).and_then(|w| lexicon::lexicon().column(w));
        matches!(next, Some((ReportColumn::Place, true)))
    };
    let mut all = name.beside.iter().enumerate().filter(|(at, _)| !place(*at)).filter_map(|(_, word)| of(word));
    all.next().filter(|first| all.all(|other| other == *first))
}

/// A name of turbidity.
const TURBIDITY: &str = "turbidity";
/// A name of total hardness.
pub(crate) const HARDNESS: &str = "total hardness";
