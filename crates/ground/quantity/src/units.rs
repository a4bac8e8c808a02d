//! The keeper's units: chosen once, used for every number that is printed.

use crate::hardness::HardnessUnit;
use crate::number::{DecimalSign, Digits, format_number_with};

/// For tank and bucket. Small amounts print in millilitres whichever is chosen: doses are measured so.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VolumeUnit {
    /// L
    #[default]
    Litre,
    /// US gal
    UsGallon,
    /// imp gal
    ImperialGallon,
}

/// For water and room.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TemperatureUnit {
    /// °C
    #[default]
    Celsius,
    /// °F
    Fahrenheit,
}

/// For glass and depth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LengthUnit {
    /// cm
    #[default]
    Centimetre,
    /// in
    Inch,
}

/// For sand, stone and water. Salts print in grams whichever is chosen: scales for them show grams.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MassUnit {
    /// g and kg
    #[default]
    Gram,
    /// lb from one pound on, g below
    Pound,
}

/// How nitrogen and phosphorus are counted on the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NutrientBasis {
    /// mg/L NO3, mg/L PO4
    #[default]
    Ion,
    /// mg/L N, mg/L P
    Element,
}

/// All preferences. In a file every field may be left out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(default, deny_unknown_fields, rename_all = "snake_case")]
pub struct Units {
    /// Volume.
    pub volume: VolumeUnit,
    /// Temperature.
    pub temperature: TemperatureUnit,
    /// Hardness and alkalinity.
    pub hardness: HardnessUnit,
    /// Length.
    pub length: LengthUnit,
    /// Mass.
    pub mass: MassUnit,
    /// Nitrate, nitrite and ammonium.
    pub nitrogen: NutrientBasis,
    /// Phosphate.
    pub phosphorus: NutrientBasis,
    /// The decimal sign that is printed.
    pub decimal: DecimalSign,
}

impl Units {
    /// A bare number with the keeper's decimal sign.
    pub fn number(&self, value: f64, digits: Digits) -> String {
        format_number_with(value, digits, self.decimal)
    }
}
