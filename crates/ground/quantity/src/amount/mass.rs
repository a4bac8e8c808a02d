//! Masses: grams for salts, pounds for stone.

use super::scalar::{arithmetic, in_units, no_such_unit, number_and_unit};
use crate::Fault;
use crate::number::{Digits, canonical};
use crate::units::{MassUnit, Units};

/// Avoirdupois pound, g (exact; source key `nist_hb44`).
pub const POUND_G: f64 = 453.59237;

/// A mass, kept in grams.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Mass(f64);

arithmetic!(Mass);
in_units! { Mass:
    grams, in_grams, 1.0, "grams";
    milligrams, in_milligrams, 0.001, "milligrams";
    kilograms, in_kilograms, 1000.0, "kilograms";
    pounds, in_pounds, POUND_G, "pounds (exact; source key `nist_hb44`)";
    ounces, in_ounces, POUND_G / 16.0, "ounces, sixteen to the pound";
}

impl Mass {
    /// Read `3.9 g`, `120 mg`, `4 kg`, `8 lb`, `3 oz`.
    ///
    /// # Errors
    /// No number, no unit, or an unknown one.
    pub fn parse(text: &str) -> Result<Mass, Fault> {
        read(text, false)
    }

    /// As [`Mass::parse`]; a bare number is in grams, whatever the keeper's unit: scales for salts show grams.
    ///
    /// # Errors
    /// As [`Mass::parse`].
    pub fn parse_in(text: &str, _units: &Units) -> Result<Mass, Fault> {
        read(text, true)
    }

    /// Three figures, in mg below a tenth of a gram, in kg from a thousand on; in lb from one pound on for who wants it.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Significant(3))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        let size = self.0.abs();
        let (amount, name) = match units.mass {
            MassUnit::Pound if size >= POUND_G => (self.in_pounds(), "lb"),
            _ if size >= 1000.0 => (self.in_kilograms(), "kg"),
            _ if size < 0.1 && size > 0.0 => (self.in_milligrams(), "mg"),
            _ => (self.0, "g"),
        };
        format!("{} {name}", units.number(amount, digits))
    }
}

fn read(text: &str, bare: bool) -> Result<Mass, Fault> {
    let (value, unit) = number_and_unit(text, "a mass", "3.9 g")?;
    let mass = match unit.as_str() {
        "g" | "gram" | "grams" => Mass::grams(value),
        "" if bare => Mass::grams(value),
        "mg" | "milligram" | "milligrams" => Mass::milligrams(value),
        "kg" | "kilogram" | "kilograms" => Mass::kilograms(value),
        "lb" | "lbs" | "pound" | "pounds" => Mass::pounds(value),
        "oz" | "ounce" | "ounces" => Mass::ounces(value),
        _ => return Err(no_such_unit(text, "a mass", &unit, "g, mg, kg, lb or oz")),
    };
    Ok(Mass(canonical(mass.0)))
}
