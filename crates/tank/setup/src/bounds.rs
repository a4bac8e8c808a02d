//! Whether a value can be what was meant: the limits of `data/bounds.toml`, in the unit in which the field is kept.

use quantity::Fault;

use crate::field::{Field, Takes};

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
        Some(row) => judge_by(row, &field.label, value * factor(field.takes.unit(), &row.is.unit)),
        None => Ok(None),
    }
}

/// Judge a value that is in the row's own unit.
///
/// # Errors
/// As [`judge`].
pub(crate) fn judge_by(row: &knowledge::BoundRow, label: &str, value: f64) -> Result<Option<String>, Fault> {
    row.is.judge(label, value).map_err(|fault| {
        // A thousand times too much is grams for milligrams, or millilitres for litres.
        let thousandth = row.is.judge(label, value / 1000.0);
        let slip =
            if matches!(thousandth, Ok(None)) { "; a thousand times less would be usual: is it the unit?" } else { "" };
        fault.hint(format!("{}{slip}", row.why))
    })
}

/// From the unit in which a field is kept to the unit of its bounds; the first word of the unit tells.
pub(crate) fn factor(kept: &str, bound: &str) -> f64 {
    match (kept, bound) {
        ("m", "cm") => 100.0,
        ("m", "mm") => 1000.0,
        ("share", "%") => 100.0,
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
