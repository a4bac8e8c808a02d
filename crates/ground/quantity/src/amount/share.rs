//! Shares of a whole, in percent.

use super::scalar::{arithmetic, in_units, no_such_unit, number_and_unit};
use crate::Fault;
use crate::number::{Digits, canonical};
use crate::units::Units;

/// A share of a whole, kept as a part of one.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Share(f64);

arithmetic!(Share);
in_units! { Share:
    part, in_parts, 1.0, "parts of one";
    percent, in_percent, 0.01, "percent";
}

impl Share {
    /// Read `40 %`, `40 percent`.
    ///
    /// # Errors
    /// No number, or no percent sign: 0.4 may be two fifths or less than one percent.
    pub fn parse(text: &str) -> Result<Share, Fault> {
        read(text, false)
    }

    /// As [`Share::parse`]; a bare number is in percent, as a blank with a percent sign behind it wants.
    ///
    /// # Errors
    /// As [`Share::parse`].
    pub fn parse_in(text: &str, _units: &Units) -> Result<Share, Fault> {
        read(text, true)
    }

    /// In percent, three figures.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Significant(3))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        format!("{} %", units.number(self.in_percent(), digits))
    }
}

fn read(text: &str, bare: bool) -> Result<Share, Fault> {
    let (value, unit) = number_and_unit(text, "a share", "40 %")?;
    match unit.as_str() {
        "%" | "percent" | "percents" => {}
        "" if bare => {}
        _ => return Err(no_such_unit(text, "a share", &unit, "percent, such as 40 %")),
    }
    Ok(Share(canonical(value * 0.01)))
}
