//! What was read, in the units of arithmetic: mmol/L of an ion, meq/L of hardness and alkalinity, µS/cm at 25 °C.

use quantity::basis::molar_mass;
use quantity::chem::atom;
use quantity::conductivity::FACTOR_25_FROM_20;
use quantity::hardness::{HardnessUnit, Measure};
use quantity::{Ion, Known};

use crate::reading::{Basis, Counted, Reading};
use crate::{Statistic, Unit};

impl Reading {
    /// The ion that the reading is of, if it is of one.
    pub fn ion(&self) -> Option<Ion> {
        Ion::ALL.into_iter().find(|ion| ion.name() == self.determinand)
    }

    /// mmol/L of the ion; none where it is no ion's, where the basis is open, or below detection.
    pub fn mmol_per_l(&self) -> Option<f64> {
        self.mmol_per_l_as(self.counted.basis()?)
    }

    /// The same, if it were counted by this basis.
    pub fn mmol_per_l_as(&self, basis: Basis) -> Option<f64> {
        let (ion, value) = (self.ion()?, self.value?);
        let grams = match basis {
            Basis::Ion => ion.molar_mass(),
            Basis::N => atom::N,
            Basis::P => atom::P,
            Basis::P2O5 => molar_mass::P2O5 / 2.0,
            Basis::S => atom::S,
            Basis::NH3 => molar_mass::NH3,
            Basis::CaCO3 => molar_mass::CACO3,
            Basis::CaO => molar_mass::CAO,
            _ => return None,
        };
        match self.unit? {
            Unit::MgPerL => Some(value / grams),
            Unit::UgPerL => Some(value * 1e-3 / grams),
            Unit::MmolPerL => Some(value),
            Unit::MeqPerL => Some(value / f64::from(ion.charge().abs().max(1))),
            _ => None,
        }
    }

    /// Alkalinity or hardness in meq/L; none where it is neither, where the basis is open, or below detection.
    pub fn meq_per_l(&self) -> Option<f64> {
        match &self.counted {
            Counted::Open(_) => None,
            other => self.meq_per_l_as(other.basis()),
        }
    }

    /// The same, if it were counted by this basis.
    pub fn meq_per_l_as(&self, basis: Option<Basis>) -> Option<f64> {
        let measure = match self.determinand.as_str() {
            "alkalinity" | "bicarbonate" | "hardness_carbonate" => Measure::Alkalinity,
            "hardness_total" | "hardness_calcium" => Measure::Hardness,
            _ => return None,
        };
        let value = self.value?;
        let per = |unit: HardnessUnit| Some(value * unit.meq_per_unit(measure));
        match self.unit? {
            Unit::GermanDegree => per(HardnessUnit::German),
            Unit::FrenchDegree => per(HardnessUnit::French),
            Unit::EnglishDegree => per(HardnessUnit::English),
            Unit::Grains => per(HardnessUnit::Grains),
            Unit::MeqPerL => Some(value),
            Unit::MmolPerL if basis == Some(Basis::CaCO3) => Some(2.0 * value),
            Unit::MmolPerL => per(HardnessUnit::Mmol),
            Unit::MgPerL => match basis? {
                Basis::CaCO3 => per(HardnessUnit::Caco3),
                Basis::CaO => per(HardnessUnit::Cao),
                Basis::HCO3 => Some(value / molar_mass::HCO3),
                Basis::Ca => Some(2.0 * value / Ion::Calcium.molar_mass()),
                _ => None,
            },
            _ => None,
        }
    }

    /// Conductivity in µS/cm at 25 °C with its range; without a reference temperature it may be of 20 or 25 °C.
    pub fn us_per_cm_at_25(&self) -> Option<Known<f64>> {
        if self.determinand != "conductivity" {
            return None;
        }
        let value = self.value?;
        let us = match self.unit? {
            Unit::UsPerCm => value,
            Unit::MsPerM => 10.0 * value,
            _ => return None,
        };
        let (low, factor, high) = FACTOR_25_FROM_20;
        let known = |l: f64, v: f64, h: f64, kind| Some(Known::ranged(us * l, us * v, us * h, kind));
        match &self.counted {
            Counted::As(Basis::At25C) => known(1.0, 1.0, 1.0, quantity::Kind::Measured),
            Counted::As(Basis::At20C) => known(low, factor, high, quantity::Kind::WorkedOut),
            _ => known(1.0, 0.5 * (1.0 + factor), high, quantity::Kind::Assumed),
        }
    }

    /// Whether the value stands for the water as a whole: one result, a mean, a median.
    pub fn is_central(&self) -> bool {
        matches!(self.statistic, Statistic::Single | Statistic::Mean | Statistic::Median)
    }
}
