//! What a row is about: an ion, alkalinity, or hardness (calcium and magnesium together).

use quantity::{Ion, Known};
use setup::{SourceWater, Tank};

use super::products::Candidate;
use crate::levels;

/// An ion (mg/L), alkalinity or hardness (meq/L).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Part {
    Ion(Ion),
    Alkalinity,
    Hardness,
}

/// Milliequivalents in a milligram.
fn meq_per_mg(ion: Ion) -> f64 {
    f64::from(ion.charge().abs()) / ion.molar_mass()
}

/// Calcium and magnesium, weighed by their equivalents.
fn hardness(of: impl Fn(Ion) -> Known<f64>) -> Known<f64> {
    let (ca, mg) = (of(Ion::Calcium), of(Ion::Magnesium));
    let (k_ca, k_mg) = (meq_per_mg(Ion::Calcium), meq_per_mg(Ion::Magnesium));
    Known::ranged(
        k_ca * ca.low + k_mg * mg.low,
        k_ca * ca.value + k_mg * mg.value,
        k_ca * ca.high + k_mg * mg.high,
        ca.kind.weaker(mg.kind),
    )
}

impl Part {
    pub fn name(self) -> &'static str {
        match self {
            Part::Ion(ion) => ion.name(),
            Part::Alkalinity => "alkalinity",
            Part::Hardness => "hardness",
        }
    }

    pub fn unit(self) -> &'static str {
        if matches!(self, Part::Ion(_)) { "mg/L" } else { "meq/L" }
    }

    pub fn ion(self) -> Option<Ion> {
        if let Part::Ion(ion) = self { Some(ion) } else { None }
    }

    /// What a water holds of it.
    pub fn in_water(self, water: &SourceWater) -> Known<f64> {
        match self {
            Part::Ion(ion) => water.mg_per_l(ion),
            Part::Alkalinity => water.alkalinity_meq_per_l,
            Part::Hardness => water.hardness_meq_per_l(),
        }
    }

    /// mg (meq) in a thousandth of a product's unit.
    pub fn in_product(self, candidate: &Candidate) -> f64 {
        let unit = match self {
            Part::Ion(ion) => candidate.mg(ion),
            Part::Alkalinity => candidate.alkalinity_meq,
            Part::Hardness => {
                [Ion::Calcium, Ion::Magnesium].map(|ion| meq_per_mg(ion) * candidate.mg(ion)).iter().sum()
            }
        };
        unit / 1000.0
    }

    /// Taken a day, net of food.
    pub fn uptake(self, tank: &Tank) -> Known<f64> {
        match self {
            Part::Ion(ion) => levels::net_uptake(tank, ion),
            Part::Alkalinity => levels::eaten_per_day(tank),
            Part::Hardness => hardness(|ion| levels::net_uptake(tank, ion)),
        }
    }

    /// What topping up brings a day.
    pub fn top_up(self, tank: &Tank) -> Known<f64> {
        match self {
            Part::Ion(ion) => levels::top_up_per_day(tank, ion),
            Part::Alkalinity => levels::top_up_alkalinity_per_day(tank),
            Part::Hardness => hardness(|ion| levels::top_up_per_day(tank, ion)),
        }
    }
}
