//! Lengths: centimetres and inches for glass, metres for rooms.

use super::scalar::{arithmetic, in_units, no_such_unit, number_and_unit};
use crate::Fault;
use crate::number::{Digits, canonical};
use crate::units::{LengthUnit, Units};

/// A length, kept in metres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Length(f64);

arithmetic!(Length);
in_units! { Length:
    metres, in_metres, 1.0, "metres";
    centimetres, in_centimetres, 0.01, "centimetres";
    millimetres, in_millimetres, 0.001, "millimetres";
    inches, in_inches, 0.0254, "inches (exact; source key `nist_hb44`)";
    feet, in_feet, 0.3048, "feet (twelve inches)";
}

impl Length {
    /// Read `60 cm`, `6 mm`, `1.2 m`, `24 in`, `2 ft`.
    ///
    /// # Errors
    /// No number, no unit, or an unknown one.
    pub fn parse(text: &str) -> Result<Length, Fault> {
        read(text, None)
    }

    /// As [`Length::parse`]; a bare number is in the keeper's unit (cm or in).
    ///
    /// # Errors
    /// As [`Length::parse`].
    pub fn parse_in(text: &str, units: &Units) -> Result<Length, Fault> {
        read(text, Some(units.length))
    }

    /// In cm or in, three figures.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Significant(3))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        let (amount, name) = match units.length {
            LengthUnit::Centimetre => (self.in_centimetres(), "cm"),
            LengthUnit::Inch => (self.in_inches(), "in"),
        };
        format!("{} {name}", units.number(amount, digits))
    }
}

fn read(text: &str, keepers: Option<LengthUnit>) -> Result<Length, Fault> {
    let (value, unit) = number_and_unit(text, "a length", "60 cm")?;
    let length = match (unit.as_str(), keepers) {
        ("cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters", _)
        | ("", Some(LengthUnit::Centimetre)) => Length::centimetres(value),
        ("in" | "inch" | "inches", _) | ("", Some(LengthUnit::Inch)) => Length::inches(value),
        ("mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters", _) => Length::millimetres(value),
        ("m" | "metre" | "metres" | "meter" | "meters", _) => Length::metres(value),
        ("ft" | "foot" | "feet", _) => Length::feet(value),
        _ => return Err(no_such_unit(text, "a length", &unit, "cm, mm, m, in or ft")),
    };
    Ok(Length(canonical(length.0)))
}
