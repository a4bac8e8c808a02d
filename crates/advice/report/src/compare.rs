//! An earlier report against a later one: works by their names, and what moved in the water of each by more than both are off.
//!
//! # What
//! The waters of two years by the names of their works or zones; each quantity that both know by more than custom.
//! # Equation
//! Moved for sure where |later - earlier| > √(half range² + half range²): both 90 % ranges, taken as independent.
//! # Symbols
//! Half ranges on the sides that face each other.
//! # Range
//! Means; what single days bring is wider. A name is the same without regard to capitals, signs and a year in it.
//! # Source
//! Difference of two independent values (textbook, from memory).
//! # Checked by
//! `tests/compare.rs`, `tests/take.rs`.

use quantity::{Digits, Ion, Known, Units};

use crate::estimate::{Decided, Estimate, Line, Quantity};
use crate::{Filed, OneWater, Picked};

/// One water in both years.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The works or zone, as the later report names it; none where no name is in both.
    pub name: Option<String>,
    /// Earlier.
    pub before: OneWater,
    /// Later.
    pub after: OneWater,
}

/// The waters of two reports, those that belong together side by side.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Years {
    /// In the order of the later report.
    pub pairs: Vec<Pair>,
    /// What could not be put side by side, or only with doubt: a sentence each.
    pub unmatched: Vec<String>,
}

/// Puts the waters of an earlier report beside those of a later one, works by their names. One water in each is compared
/// whatever it is called, and other names are told; of several, one whose name is not in the other report is left alone.
pub fn years(before: &[OneWater], after: &[OneWater]) -> Years {
    let pair = |before: &OneWater, after: &OneWater| {
        let name = after.works.iter().find(|name| before.works.iter().any(|other| is_same(name, other))).cloned();
        Pair { name, before: before.clone(), after: after.clone() }
    };
    if let ([before], [after]) = (before, after) {
        let both = pair(before, after);
        let unmatched = match (before.works.as_slice(), after.works.as_slice()) {
            ([old, ..], [new, ..]) if both.name.is_none() && is_name(old) && is_name(new) => vec![format!(
                "The earlier report is of {old}, the later one of {new}: if these are two works, what follows is no change of one water."
            )],
            _ => Vec::new(),
        };
        return Years { pairs: vec![both], unmatched };
    }
    let mut open: Vec<&OneWater> = before.iter().collect();
    let mut years = Years::default();
    for after in after {
        match (0..open.len()).max_by_key(|at| shared(open[*at], after)).filter(|at| shared(open[*at], after) > 0) {
            Some(at) => years.pairs.push(pair(open.remove(at), after)),
            None => years.unmatched.push(format!(
                "{} is in the later report and not in the earlier one: nothing of it is compared.",
                called(after)
            )),
        }
    }
    years.unmatched.extend(open.iter().map(|water| {
        format!("{} is in the earlier report and not in the later one: nothing of it is compared.", called(water))
    }));
    if years.pairs.is_empty() {
        years.unmatched.insert(0, "No works has the same name in both reports.".to_owned());
    }
    years
}

/// How many works of two waters have the same name.
fn shared(one: &OneWater, other: &OneWater) -> usize {
    one.works.iter().filter(|name| other.works.iter().any(|also| is_same(name, also))).count()
}

fn called(water: &OneWater) -> String {
    match water.works.as_slice() {
        [] => "A water without a name".to_owned(),
        works => works.join(", "),
    }
}

/// Words of a name in small letters, without a year.
fn words(name: &str) -> Vec<String> {
    let is_year = |word: &str| word.len() == 4 && word.parse().is_ok_and(|year: u16| (1900..2100).contains(&year));
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty() && !is_year(word));
    words.map(str::to_lowercase).collect()
}

/// A bare date names no works.
fn is_name(name: &str) -> bool {
    words(name).iter().any(|word| word.chars().any(char::is_alphabetic))
}

fn is_same(one: &str, other: &str) -> bool {
    is_name(one) && words(one) == words(other)
}

/// An earlier report, of which the same works count as in a later one: all where all do, else the one of the same name; where
/// there is none, as it was picked.
pub fn picked_alike(earlier: &Filed, later: &Filed) -> Filed {
    let mut alike = earlier.clone();
    let Some(one) = later.one() else {
        if later.report.samples.len() > 1 {
            alike.picked = Picked::All;
        }
        return alike;
    };
    let name = later.report.samples.get(one).and_then(|sample| sample.name.as_deref());
    let same = |name: &str| {
        let mut names = earlier.report.samples.iter().map(|sample| sample.name.as_deref());
        names.position(|other| other.is_some_and(|other| is_same(name, other)))
    };
    if let Some(at) = name.and_then(same) {
        alike.picked = Picked::One(at);
    }
    alike
}

/// One quantity, before and after.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Moved {
    /// What.
    pub of: Quantity,
    /// Earlier.
    pub before: Known<f64>,
    /// Later.
    pub after: Known<f64>,
    /// By more than both are off.
    pub for_sure: bool,
    /// In a sentence.
    pub text: String,
}

/// What moved from one water to the next, in the order of the ions, then hardness, alkalinity, conductivity.
pub fn compare(before: &Estimate, after: &Estimate, units: &Units) -> Vec<Moved> {
    let ions = Ion::ALL
        .into_iter()
        .filter_map(|ion| Some((Quantity::Ion(ion), before.ions.get(&ion)?, after.ions.get(&ion)?)));
    let sums = [
        (Quantity::Hardness, &before.hardness, &after.hardness),
        (Quantity::Alkalinity, &before.alkalinity, &after.alkalinity),
        (Quantity::Conductivity, &before.conductivity_25, &after.conductivity_25),
    ];
    let known = |line: &Line| line.decided != Decided::Usual;
    let both = ions.chain(sums).filter(|(_, before, after)| known(before) && known(after));
    both.map(|(of, before, after)| moved(of, before.known, after.known, units)).collect()
}

fn moved(of: Quantity, before: Known<f64>, after: Known<f64>, units: &Units) -> Moved {
    let difference = after.value - before.value;
    let halves = if difference >= 0.0 {
        (before.high - before.value).hypot(after.value - after.low)
    } else {
        (before.value - before.low).hypot(after.high - after.value)
    };
    let for_sure = difference.abs() > halves;
    let n = |value: f64| units.number(value, Digits::Significant(3));
    let name = capital(of.name());
    let (old, new, unit) = (n(before.value), n(after.value), of.unit());
    let text = match (for_sure, old == new) {
        (_, true) => format!("{name} stands where it stood, at {new} {unit}."),
        (true, _) if difference > 0.0 => format!("{name} rose from {old} to {new} {unit}."),
        (true, _) => format!("{name} fell from {old} to {new} {unit}."),
        (false, _) => format!("{name} reads {new} {unit} after {old}: no more than both may be off."),
    };
    Moved { of, before, after, for_sure, text }
}

fn capital(name: &str) -> String {
    let mut chars = name.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}
