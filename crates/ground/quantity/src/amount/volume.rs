//! Volumes: litres, and the two gallons.

use super::scalar::{arithmetic, in_units, no_such_unit, number_and_unit};
use crate::Fault;
use crate::hardness::{IMPERIAL_GALLON_L, US_GALLON_L};
use crate::lex::shorten;
use crate::number::{Digits, canonical, format_number};
use crate::units::{Units, VolumeUnit};

/// A volume, kept in litres (a unit accepted with the SI; source key `bipm_si_2019`).
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Volume(f64);

arithmetic!(Volume);
in_units! { Volume:
    litres, in_litres, 1.0, "litres";
    millilitres, in_millilitres, 0.001, "millilitres";
    cubic_metres, in_cubic_metres, 1000.0, "cubic metres";
    us_gallons, in_us_gallons, US_GALLON_L, "US gallons (exact; source key `nist_hb44`)";
    imperial_gallons, in_imperial_gallons, IMPERIAL_GALLON_L, "imperial gallons (exact; source key `uk_units_1995`)";
}

const UNITS: &str = "L, mL, m³, US gal or imp gal";

impl Volume {
    /// Read `64.5 L`, `250 mL`, `17 US gal`, `14 imp gal`, `0.2 m³`.
    ///
    /// # Errors
    /// No number, no unit or an unknown one; a bare "gal", which is two things.
    pub fn parse(text: &str) -> Result<Volume, Fault> {
        read(text, None)
    }

    /// As [`Volume::parse`]; a bare number, or a bare "gal" of a keeper who counts in gallons, is in the keeper's unit.
    ///
    /// # Errors
    /// As [`Volume::parse`].
    pub fn parse_in(text: &str, units: &Units) -> Result<Volume, Fault> {
        read(text, Some(units.volume))
    }

    /// In the keeper's unit, three figures; in mL below 1 L or a quarter of a gallon.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Significant(3))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        let (amount, name) = match units.volume {
            VolumeUnit::Litre if self.0.abs() >= 1.0 || self.0 == 0.0 => (self.0, "L"),
            VolumeUnit::UsGallon if self.in_us_gallons().abs() >= 0.25 => (self.in_us_gallons(), "US gal"),
            VolumeUnit::ImperialGallon if self.in_imperial_gallons().abs() >= 0.25 => {
                (self.in_imperial_gallons(), "imp gal")
            }
            _ => (self.in_millilitres(), "mL"),
        };
        format!("{} {name}", units.number(amount, digits))
    }
}

fn read(text: &str, keepers: Option<VolumeUnit>) -> Result<Volume, Fault> {
    let (value, unit) = number_and_unit(text, "a volume", "64.5 L")?;
    let volume = match (unit.as_str(), keepers) {
        ("l" | "litre" | "litres" | "liter" | "liters" | "dm3", _) | ("", Some(VolumeUnit::Litre)) => {
            Volume::litres(value)
        }
        ("ml" | "millilitre" | "millilitres" | "milliliter" | "milliliters" | "cm3" | "cc", _) => {
            Volume::millilitres(value)
        }
        ("m3", _) => Volume::cubic_metres(value),
        ("usgal" | "usgallon" | "usgallons", _) | ("" | "gal" | "gallon" | "gallons", Some(VolumeUnit::UsGallon)) => {
            Volume::us_gallons(value)
        }
        (
            "impgal" | "imperialgallon" | "imperialgallons" | "impgallon" | "impgallons" | "ukgal" | "ukgallon"
            | "ukgallons",
            _,
        )
        | ("" | "gal" | "gallon" | "gallons", Some(VolumeUnit::ImperialGallon)) => Volume::imperial_gallons(value),
        ("gal" | "gallon" | "gallons", _) => return Err(which_gallon(text, value)),
        _ => return Err(no_such_unit(text, "a volume", &unit, UNITS)),
    };
    Ok(Volume(canonical(volume.0)))
}

fn which_gallon(text: &str, value: f64) -> Fault {
    let litres = |gallon: f64| format_number(value * gallon, Digits::Significant(3));
    let n = format_number(value, Digits::Significant(6));
    Fault::new(format!("`{}` can be two volumes", shorten(text)))
        .expected(format!("{n} US gal = {} L, or {n} imp gal = {} L", litres(US_GALLON_L), litres(IMPERIAL_GALLON_L)))
        .hint(format!("write {n} US gal or {n} imp gal"))
}
