//! Hardness (calcium and magnesium) and alkalinity (acid capacity to pH about 4.3) in every unit of the trade.
//!
//! # What
//! One canonical number, meq/L. Hardness in meq/L is twice the millimoles of calcium and magnesium; alkalinity in
//! mmol/L is the acid taken up, so mmol/L and meq/L are the same there (DIN 38409-7, source key `din_38409_7`).
//! # Equation
//! meq/L = amount × [`HardnessUnit::meq_per_unit`], kept to 12 figures: the same water, exactly converted and typed in
//! two units, gives the same number.
//! # Symbols
//! 1 °dH = 10 mg CaO/L; 1 °fH = 10 mg CaCO3/L; 1 °e = 1 grain CaCO3 in an imperial gallon; 1 gpg = 1 grain CaCO3 in a US
//! gallon. Molar masses of [`crate::basis::molar_mass`], g/mol.
//! # Range
//! Any finite amount. Alkalinity may be negative (acid rain), hardness not.
//! # Source
//! DIN 38409-6 (`din_38409_6`); grain and US gallon `nist_hb44`; imperial gallon `uk_units_1995`; weights `iupac_2022`.
//! # Checked by
//! `tests/by_hand_hardness.rs` (definitions, Standard Methods 2320 B and 2340 B), `tests/identities.rs`.

mod read;

use crate::basis::molar_mass::{CACO3, CAO, HCO3};
use crate::number::{Digits, canonical, format_number, read_back};
use crate::units::Units;
use crate::{Explain, Kind, Why};

pub use crate::comparator::Comparator;
pub(crate) use read::plain_degree;
pub use read::{parse_alkalinity, parse_hardness};

/// 1 grain, mg (exact; source key `nist_hb44`).
pub const GRAIN_MG: f64 = 64.79891;
/// 1 US gallon, L (exact; source key `nist_hb44`).
pub const US_GALLON_L: f64 = 3.785411784;
/// 1 imperial gallon, L (exact; source key `uk_units_1995`).
pub const IMPERIAL_GALLON_L: f64 = 4.54609;

/// Which of the two is meant. They share their units and are not the same thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Measure {
    /// Calcium and magnesium together (total hardness, GH).
    Hardness,
    /// Acid taken up (carbonate hardness, KH).
    Alkalinity,
}

/// A unit of hardness or alkalinity.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum HardnessUnit {
    /// °dH; for alkalinity °dKH
    #[default]
    German,
    /// °fH
    French,
    /// °e, Clark
    English,
    /// mg/L as CaCO3
    Caco3,
    /// mmol/L
    Mmol,
    /// meq/L
    Meq,
    /// grains of CaCO3 per US gallon
    Grains,
    /// mg/L CaO
    Cao,
    /// mg/L HCO3; for alkalinity only
    Bicarbonate,
}

impl HardnessUnit {
    /// meq/L in one of the unit. [`HardnessUnit::Bicarbonate`] does not exist for hardness and counts as mg/L CaCO3 there.
    pub fn meq_per_unit(self, measure: Measure) -> f64 {
        match (self, measure) {
            (HardnessUnit::German, _) => 2.0 * 10.0 / CAO,
            (HardnessUnit::French, _) => 2.0 * 10.0 / CACO3,
            (HardnessUnit::English, _) => 2.0 * GRAIN_MG / IMPERIAL_GALLON_L / CACO3,
            (HardnessUnit::Grains, _) => 2.0 * GRAIN_MG / US_GALLON_L / CACO3,
            (HardnessUnit::Cao, _) => 2.0 / CAO,
            (HardnessUnit::Bicarbonate, Measure::Alkalinity) => 1.0 / HCO3,
            (HardnessUnit::Caco3, _) | (HardnessUnit::Bicarbonate, Measure::Hardness) => 2.0 / CACO3,
            (HardnessUnit::Mmol, Measure::Hardness) => 2.0,
            (HardnessUnit::Mmol, Measure::Alkalinity) | (HardnessUnit::Meq, _) => 1.0,
        }
    }

    /// The unit as printed.
    pub fn name(self, measure: Measure) -> &'static str {
        match (self, measure) {
            (HardnessUnit::German, Measure::Hardness) => "°dH",
            (HardnessUnit::German, Measure::Alkalinity) => "°dKH",
            (HardnessUnit::French, _) => "°fH",
            (HardnessUnit::English, _) => "°e",
            (HardnessUnit::Grains, _) => "gpg",
            (HardnessUnit::Cao, _) => "mg/L CaO",
            (HardnessUnit::Bicarbonate, Measure::Alkalinity) => "mg/L HCO3",
            (HardnessUnit::Caco3, _) | (HardnessUnit::Bicarbonate, Measure::Hardness) => "mg/L CaCO3",
            (HardnessUnit::Mmol, _) => "mmol/L",
            (HardnessUnit::Meq, _) => "meq/L",
        }
    }

    /// An amount of the unit in meq/L, kept to 12 figures.
    pub fn to_meq_per_l(self, amount: f64, measure: Measure) -> f64 {
        canonical(amount * self.meq_per_unit(measure))
    }

    /// meq/L as an amount of the unit, to 10 figures.
    pub fn from_meq_per_l(self, meq_per_l: f64, measure: Measure) -> f64 {
        read_back(meq_per_l / self.meq_per_unit(measure))
    }
}

/// A hardness or an alkalinity as somebody wrote it, in meq/L kept to 12 figures.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct HardnessReading {
    /// Which of the two.
    pub measure: Measure,
    /// How it stands to the written number.
    pub comparator: Comparator,
    /// Lower end: of a range, zero below a bound, else the value.
    pub low_meq_per_l: f64,
    /// The value; the middle of a range, half of the bound below one (common practice, no source).
    pub meq_per_l: f64,
    /// Upper end: of a range, infinite above a bound (null in JSON), else the value.
    pub high_meq_per_l: f64,
    /// The unit in which it was written.
    pub unit: HardnessUnit,
    /// The text.
    pub as_written: String,
}

impl HardnessReading {
    /// The reading in the keeper's unit, three figures: `7.2 °dH`, `<0.5 °dKH`.
    pub fn print(&self, units: &Units) -> String {
        self.show(units.hardness, units)
    }

    fn show(&self, unit: HardnessUnit, units: &Units) -> String {
        let n = |meq| units.number(meq / unit.meq_per_unit(self.measure), Digits::Significant(3));
        let ends = (self.low_meq_per_l, self.meq_per_l, self.high_meq_per_l);
        format!("{} {}", self.comparator.show(ends, n), unit.name(self.measure))
    }
}

impl Explain for HardnessReading {
    fn explain(&self) -> Why {
        let units = Units::default();
        let factor = format_number(self.unit.meq_per_unit(self.measure), Digits::Significant(5));
        let to = self.show(HardnessUnit::Meq, &units);
        let (grain, caco3) = ("a grain is 64.79891 mg", "100.086 mg of CaCO3 are 2 meq");
        let words = match self.unit {
            HardnessUnit::German => {
                "One German degree is 10 mg of CaO in a litre, and 56.077 mg of CaO are 2 meq.".to_owned()
            }
            HardnessUnit::French => format!("One French degree is 10 mg of CaCO3 in a litre, and {caco3}."),
            HardnessUnit::English => {
                format!("One English degree is a grain of CaCO3 in 4.54609 L; {grain}, and {caco3}.")
            }
            HardnessUnit::Grains => format!("The US gallon is 3.785411784 L; {grain}, and {caco3}."),
            HardnessUnit::Caco3 => format!("Counted as CaCO3: {caco3}."),
            HardnessUnit::Cao => "Counted as CaO: 56.077 mg are 2 meq.".to_owned(),
            HardnessUnit::Bicarbonate => "Counted as bicarbonate: 61.016 mg of HCO3 are 1 meq.".to_owned(),
            HardnessUnit::Mmol if self.measure == Measure::Hardness => {
                "One millimole of calcium or magnesium has two charges: 2 meq.".to_owned()
            }
            HardnessUnit::Mmol => "One millimole of acid taken up is 1 meq.".to_owned(),
            HardnessUnit::Meq => "Kept as it was written.".to_owned(),
        };
        let sources: &[&str] = match self.unit {
            HardnessUnit::German => &["din_38409_6", "iupac_2022"],
            HardnessUnit::English => &["nist_hb44", "uk_units_1995", "iupac_2022"],
            HardnessUnit::Grains => &["nist_hb44", "iupac_2022"],
            HardnessUnit::Mmol | HardnessUnit::Meq if self.measure == Measure::Alkalinity => &["din_38409_7"],
            HardnessUnit::Mmol | HardnessUnit::Meq => &["din_38409_6"],
            _ => &["iupac_2022"],
        };
        Why {
            key: format!("reading-{}", word_of(self.measure)),
            question: format!("why {to}?"),
            sum: format!("{} × {factor} = {to}", self.show(self.unit, &units)),
            words,
            sources: sources.iter().map(|&s| s.to_owned()).collect(),
            kind: Kind::WorkedOut,
        }
    }
}

/// Hardness in meq/L from mol/L of calcium and magnesium.
pub fn hardness_meq_per_l(calcium_mol_per_l: f64, magnesium_mol_per_l: f64) -> f64 {
    canonical(2e3 * (calcium_mol_per_l + magnesium_mol_per_l))
}

/// Hardness or alkalinity in the keeper's unit, three figures: `7.2 °dH`, `3 °dKH`.
pub fn format_hardness(meq_per_l: f64, measure: Measure, units: &Units) -> String {
    let amount = meq_per_l / units.hardness.meq_per_unit(measure);
    format!("{} {}", units.number(amount, Digits::Significant(3)), units.hardness.name(measure))
}

fn word_of(measure: Measure) -> &'static str {
    match measure {
        Measure::Hardness => "hardness",
        Measure::Alkalinity => "alkalinity",
    }
}
