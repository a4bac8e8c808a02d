//! Whether a value can be what was meant: the limits of `data/bounds.toml`, in the unit in which the field is kept.

use knowledge::BoundRow;
use quantity::bounds::check;
use quantity::{Bound, Digits, Fault, Verdict, format_number};

use crate::field::Field;
use crate::takes::Takes;

/// Judge a value of a field: nothing if it is usual, a sentence that asks "Really?" if it is not.
///
/// # Errors
/// A value that is refused, without its place.
pub(crate) fn judge(field: &Field, value: f64) -> Result<Option<String>, Fault> {
    let below_zero = value < 0.0 && !matches!(field.takes, Takes::Temperature | Takes::Alkalinity);
    if !value.is_finite() || below_zero {
        return Err(Fault::new(format!("{} can't be below zero", field.label)));
    }
    let row = field.bound.as_deref().and_then(|key| knowledge::book().bound(key));
    match row {
        Some(row) => judge_by(row, field, value * factor(field.takes.unit(), &row.is.unit)),
        None => Ok(None),
    }
}

/// Judge a value that is in the row's own unit.
///
/// # Errors
/// As [`judge`].
pub(crate) fn judge_by(row: &BoundRow, field: &Field, value: f64) -> Result<Option<String>, Fault> {
    let is = &row.is;
    let show = |value: f64| format_number(value, Digits::Significant(3));
    let range = |low: f64, high: f64| with_unit(&format!("{} to {}", show(low), show(high)), &is.unit);
    let (label, value_shown, usual) =
        (&field.label, with_unit(&show(value), &is.unit), range(is.usual_low, is.usual_high));
    match check(value, is) {
        Verdict::Usual => Ok(None),
        Verdict::Unusual => Ok(Some(format!("Really? You have {value_shown} for {label}; usual is {usual}."))),
        Verdict::Refused => Err(Fault::new(format!("{label} can't be {value_shown}"))
            .expected(format!("{}; usual is {usual} ({})", range(is.low, is.high), row.why))
            .hint(slip(value, is, field.takes))),
    }
}

fn with_unit(number: &str, unit: &str) -> String {
    if unit.is_empty() { number.to_owned() } else { format!("{number} {unit}") }
}

/// The commonest slips: a decimal sign out of place, grams for milligrams or litres for millilitres.
fn slip(value: f64, is: &Bound, takes: Takes) -> String {
    let usual = |value: f64| check(value, is) == Verdict::Usual;
    let thousands = matches!(
        takes,
        Takes::Mass | Takes::MassPerDay | Takes::Dose | Takes::Volume | Takes::VolumePerDay | Takes::Length
    );
    if usual(value / 10.0) {
        "a tenth of it would be usual: is the decimal sign in its place?".to_owned()
    } else if thousands && usual(value / 1000.0) {
        "a thousandth of it would be usual: is the unit right, or did you mean one with m (milli) in front?".to_owned()
    } else {
        "look at the unit and at the decimal sign".to_owned()
    }
}

/// From the unit in which a field is kept to the unit of its bounds; the first word of the unit tells.
pub(crate) fn factor(kept: &str, bound: &str) -> f64 {
    match (kept, bound) {
        ("m", "cm") => 100.0,
        ("m", "mm") => 1000.0,
        ("share", "%") => 100.0,
        // A percent of a label is 10 mg in a gram.
        ("mg/g", "%") => 0.1,
        _ => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::fields;

    #[test]
    fn every_bound_is_there_and_in_a_unit_that_is_converted() {
        for field in fields() {
            let Some(key) = &field.bound else { continue };
            let row = knowledge::book().bound(key).unwrap_or_else(|| panic!("{}: no bound {key}", field.path));
            let (kept, bound) = (field.takes.unit(), row.is.unit.as_str());
            let same = kept == bound || bound.strip_prefix(kept).is_some_and(|rest| rest.starts_with(' '));
            let bare = matches!(kept, "" | "share") && matches!(bound, "" | "months" | "EUR");
            assert!(same || bare || factor(kept, bound) != 1.0, "{}: {kept} against {bound}", field.path);
        }
    }
}
