//! Units as reports print them.

/// The unit of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
pub enum Unit {
    /// mg/L; also ppm
    #[serde(rename = "mg/L")]
    MgPerL,
    /// µg/L; also ppb
    #[serde(rename = "µg/L")]
    UgPerL,
    /// mmol/L
    #[serde(rename = "mmol/L")]
    MmolPerL,
    /// meq/L
    #[serde(rename = "meq/L")]
    MeqPerL,
    /// German degrees
    #[serde(rename = "°dH")]
    GermanDegree,
    /// French degrees
    #[serde(rename = "°fH")]
    FrenchDegree,
    /// English or Clark degrees
    #[serde(rename = "°e")]
    EnglishDegree,
    /// Grains in a US gallon
    #[serde(rename = "gpg")]
    Grains,
    /// µS/cm; also µmho/cm
    #[serde(rename = "µS/cm")]
    UsPerCm,
    /// mS/m
    #[serde(rename = "mS/m")]
    MsPerM,
    /// °C
    #[serde(rename = "°C")]
    Celsius,
    /// Turbidity in any of its units
    #[serde(rename = "NTU")]
    Ntu,
    /// The scale of pH
    #[serde(rename = "pH")]
    Ph,
}

impl Unit {
    /// The unit in the spelling of the project.
    pub fn name(self) -> &'static str {
        match self {
            Unit::MgPerL => "mg/L",
            Unit::UgPerL => "µg/L",
            Unit::MmolPerL => "mmol/L",
            Unit::MeqPerL => "meq/L",
            Unit::GermanDegree => "°dH",
            Unit::FrenchDegree => "°fH",
            Unit::EnglishDegree => "°e",
            Unit::Grains => "gpg",
            Unit::UsPerCm => "µS/cm",
            Unit::MsPerM => "mS/m",
            Unit::Celsius => "°C",
            Unit::Ntu => "NTU",
            Unit::Ph => "pH",
        }
    }

    /// Whether the unit weighs the substance, so that a basis must be told.
    pub fn is_mass(self) -> bool {
        matches!(self, Unit::MgPerL | Unit::UgPerL)
    }
}
