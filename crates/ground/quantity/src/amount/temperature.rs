//! Temperatures, and how far two of them are apart: 1 °C of difference is 1.8 °F, but 1 °C is 33.8 °F.

use super::scalar::{arithmetic, in_units, no_such_unit, number_and_unit};
use crate::Fault;
use crate::number::{Digits, canonical};
use crate::units::{TemperatureUnit, Units};

/// Zero Celsius in kelvin (exact; source key `bipm_si_2019`).
pub const ZERO_CELSIUS_K: f64 = 273.15;

/// A temperature, kept in °C.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Temperature(f64);

/// How far two temperatures are apart, kept in kelvin (one kelvin is one °C of difference).
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct TemperatureDifference(f64);

arithmetic!(TemperatureDifference);
in_units! { TemperatureDifference:
    kelvins, in_kelvins, 1.0, "kelvins, which are °C of difference";
    fahrenheit, in_fahrenheit, 5.0 / 9.0, "°F of difference";
}

impl Temperature {
    /// From °C.
    pub const fn celsius(amount: f64) -> Temperature {
        Temperature(amount)
    }
    /// From °F.
    pub const fn fahrenheit(amount: f64) -> Temperature {
        Temperature((amount - 32.0) * 5.0 / 9.0)
    }
    /// From kelvin.
    pub const fn kelvins(amount: f64) -> Temperature {
        Temperature(amount - ZERO_CELSIUS_K)
    }
    /// In °C.
    pub const fn in_celsius(self) -> f64 {
        self.0
    }
    /// In °F.
    pub const fn in_fahrenheit(self) -> f64 {
        self.0 * 9.0 / 5.0 + 32.0
    }
    /// In kelvin.
    pub const fn in_kelvins(self) -> f64 {
        self.0 + ZERO_CELSIUS_K
    }

    /// Read `24.5 °C`, `76 F`.
    ///
    /// # Errors
    /// No number, no unit or an unknown one, below absolute zero.
    pub fn parse(text: &str) -> Result<Temperature, Fault> {
        read(text, None)
    }

    /// As [`Temperature::parse`]; a bare number, or bare degrees, is in the keeper's unit.
    ///
    /// # Errors
    /// As [`Temperature::parse`].
    pub fn parse_in(text: &str, units: &Units) -> Result<Temperature, Fault> {
        read(text, Some(units.temperature))
    }

    /// In the keeper's unit, one decimal.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Decimals(1))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        printed(units, self.0, self.in_fahrenheit(), digits)
    }
}

impl TemperatureDifference {
    /// Read `2 °C`, `3.6 °F`, `2 K` as a difference.
    ///
    /// # Errors
    /// No number, no unit, or an unknown one.
    pub fn parse(text: &str) -> Result<TemperatureDifference, Fault> {
        read_difference(text, None)
    }

    /// As [`TemperatureDifference::parse`]; a bare number, or bare degrees, is in the keeper's unit.
    ///
    /// # Errors
    /// As [`TemperatureDifference::parse`].
    pub fn parse_in(text: &str, units: &Units) -> Result<TemperatureDifference, Fault> {
        read_difference(text, Some(units.temperature))
    }

    /// In the keeper's unit, one decimal.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Decimals(1))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        printed(units, self.0, self.in_fahrenheit(), digits)
    }
}

impl std::ops::Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Temperature) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl std::ops::Add<TemperatureDifference> for Temperature {
    type Output = Temperature;
    fn add(self, difference: TemperatureDifference) -> Temperature {
        Temperature(self.0 + difference.0)
    }
}

impl std::ops::Sub<TemperatureDifference> for Temperature {
    type Output = Temperature;
    fn sub(self, difference: TemperatureDifference) -> Temperature {
        Temperature(self.0 - difference.0)
    }
}

/// In the keeper's unit, from the amounts in both.
fn printed(units: &Units, celsius: f64, fahrenheit: f64, digits: Digits) -> String {
    let (amount, name) = match units.temperature {
        TemperatureUnit::Celsius => (celsius, "°C"),
        TemperatureUnit::Fahrenheit => (fahrenheit, "°F"),
    };
    format!("{} {name}", units.number(amount, digits))
}

/// The scale that a unit names; bare degrees are the keeper's.
fn scale(unit: &str, keepers: Option<TemperatureUnit>) -> Option<TemperatureUnit> {
    match unit {
        "°c" | "c" | "celsius" | "degc" | "degreescelsius" => Some(TemperatureUnit::Celsius),
        "°f" | "f" | "fahrenheit" | "degf" | "degreesfahrenheit" => Some(TemperatureUnit::Fahrenheit),
        "" | "°" | "degree" | "degrees" => keepers,
        _ => None,
    }
}

fn read(text: &str, keepers: Option<TemperatureUnit>) -> Result<Temperature, Fault> {
    let (value, unit) = number_and_unit(text, "a temperature", "24.5 °C")?;
    let temperature = match (unit.as_str(), scale(&unit, keepers)) {
        ("k", _) => Temperature::kelvins(value),
        (_, Some(TemperatureUnit::Celsius)) => Temperature::celsius(value),
        (_, Some(TemperatureUnit::Fahrenheit)) => Temperature::fahrenheit(value),
        _ => return Err(no_such_unit(text, "a temperature", &unit, "°C or °F")),
    };
    if temperature.in_kelvins() < 0.0 {
        return Err(Fault::new(format!("`{}` is below absolute zero", crate::lex::shorten(text)))
            .expected("a temperature, such as 24.5 °C")
            .hint("look at the minus sign and at the unit"));
    }
    Ok(Temperature(canonical(temperature.0)))
}

fn read_difference(text: &str, keepers: Option<TemperatureUnit>) -> Result<TemperatureDifference, Fault> {
    let (value, unit) = number_and_unit(text, "a difference of temperature", "2 °C")?;
    let difference = match (unit.as_str(), scale(&unit, keepers)) {
        ("k" | "kelvin", _) | (_, Some(TemperatureUnit::Celsius)) => TemperatureDifference::kelvins(value),
        (_, Some(TemperatureUnit::Fahrenheit)) => TemperatureDifference::fahrenheit(value),
        _ => return Err(no_such_unit(text, "a difference of temperature", &unit, "°C or °F")),
    };
    Ok(TemperatureDifference(canonical(difference.0)))
}
