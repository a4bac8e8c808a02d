//! Power: watts of heater, lamp and pump.

use super::scalar::{arithmetic, in_units, no_such_unit, number_and_unit};
use crate::Fault;
use crate::number::{Digits, canonical};
use crate::units::Units;

/// A power, kept in watts.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Power(f64);

arithmetic!(Power);
in_units! { Power:
    watts, in_watts, 1.0, "watts";
    milliwatts, in_milliwatts, 0.001, "milliwatts";
    kilowatts, in_kilowatts, 1000.0, "kilowatts";
}

impl Power {
    /// Read `25 W`, `0.1 kW`, `500 mW`.
    ///
    /// # Errors
    /// No number, no unit, or an unknown one.
    pub fn parse(text: &str) -> Result<Power, Fault> {
        read(text, false)
    }

    /// As [`Power::parse`]; a bare number is in watts.
    ///
    /// # Errors
    /// As [`Power::parse`].
    pub fn parse_in(text: &str, _units: &Units) -> Result<Power, Fault> {
        read(text, true)
    }

    /// In watts, three figures.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Significant(3))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        format!("{} W", units.number(self.0, digits))
    }
}

fn read(text: &str, bare: bool) -> Result<Power, Fault> {
    let (value, unit) = number_and_unit(text, "a power", "25 W")?;
    let power = match unit.as_str() {
        "w" | "watt" | "watts" => Power::watts(value),
        "" if bare => Power::watts(value),
        "kw" | "kilowatt" | "kilowatts" => Power::kilowatts(value),
        // Lower case has made one of mW and MW; no tank takes a megawatt.
        "mw" | "milliwatt" | "milliwatts" => Power::milliwatts(value),
        _ => return Err(no_such_unit(text, "a power", &unit, "W or kW")),
    };
    Ok(Power(canonical(power.0)))
}
