//! An earlier water against a later one: what moved, and whether by more than both are off.
//!
//! # What
//! Each quantity that both waters know by more than custom.
//! # Equation
//! Moved for sure where |later - earlier| > √(half range² + half range²): both 90 % ranges, taken as independent.
//! # Symbols
//! Half ranges on the sides that face each other.
//! # Range
//! Means; what single days bring is wider.
//! # Source
//! Difference of two independent values (textbook, from memory).
//! # Checked by
//! `tests/compare.rs`.

use quantity::{Digits, Ion, Known, Units};

use crate::estimate::{Decided, Estimate, Line, Quantity};

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
