//! Whether a value can be what was meant: the limits of `data/bounds.toml`, told in the unit that was typed.

use knowledge::BoundRow;
use quantity::bounds::check;
use quantity::{Bound, Digits, Fault, Verdict, format_number};

use crate::field::Field;
use crate::takes::Takes;
use crate::value::{Meaning, amount, with_number};

/// Judge a value of a field, which stands as `typed` in the file: nothing if it is usual, a sentence that asks "Really?" if it is not.
///
/// # Errors
/// A value that is refused, without its place.
pub(crate) fn judge(field: &Field, value: f64, typed: &str) -> Result<Option<String>, Fault> {
    let below_zero = value < 0.0 && !matches!(field.takes, Takes::Temperature | Takes::Alkalinity);
    if !value.is_finite() || below_zero {
        return Err(Fault::new(format!("{} can't be below zero", field.label)));
    }
    let row = field.bound.as_deref().and_then(|key| knowledge::book().bound(key));
    match row {
        Some(row) => {
            let factor = factor(field.takes.unit(), &row.is.unit);
            told(row, field, value * factor, &Typed::of(field.takes, typed, factor, &row.is.unit))
        }
        None => Ok(None),
    }
}

/// Judge a value that is in the row's own unit, and tell it in that unit.
///
/// # Errors
/// As [`judge`].
pub(crate) fn judge_by(row: &BoundRow, field: &Field, value: f64) -> Result<Option<String>, Fault> {
    told(row, field, value, &Typed::plain(&row.is.unit))
}

fn told(row: &BoundRow, field: &Field, value: f64, typed: &Typed) -> Result<Option<String>, Fault> {
    let is = &row.is;
    let range = |low: f64, high: f64| typed.shown(&format!("{} to {}", typed.number(low), typed.number(high)));
    let (label, value_shown, usual) =
        (&field.label, typed.shown(&typed.number(value)), range(is.usual_low, is.usual_high));
    match check(value, is) {
        Verdict::Usual => Ok(None),
        Verdict::Unusual => Ok(Some(format!("Really? You have {value_shown} for {label}; usual is {usual}."))),
        Verdict::Refused => Err(Fault::new(format!("{label} can't be {value_shown}"))
            .expected(format!("{}; usual is {usual} ({})", range(is.low, is.high), row.why))
            .hint(slip(value, is, field.takes))),
    }
}

/// How the keeper typed an amount: what a number of zero and of one behind the same words would be in the row's unit.
struct Typed {
    model: String,
    zero: f64,
    one: f64,
}

impl Typed {
    /// In the row's own unit.
    fn plain(unit: &str) -> Typed {
        Typed { model: format!("1 {unit}"), zero: 0.0, one: 1.0 }
    }

    /// As it was typed; of a range the end that has the unit. Where that is no straight line, in the row's own unit.
    fn of(takes: Takes, text: &str, factor: f64, unit: &str) -> Typed {
        let model = text.rsplit(" to ").next().unwrap_or(text).trim().to_owned();
        let at = |number: &str| match amount(takes, &with_number(&model, number)) {
            Ok(Meaning::Number(known)) => Some(factor * known.value),
            _ => None,
        };
        match (at("0"), at("1")) {
            (Some(zero), Some(one)) if one > zero => Typed { model, zero, one },
            _ => Typed::plain(unit),
        }
    }

    fn number(&self, value: f64) -> String {
        format_number((value - self.zero) / (self.one - self.zero), Digits::Significant(3))
    }

    fn shown(&self, number: &str) -> String {
        with_number(&self.model, number).trim_end().to_owned()
    }
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
