//! Titration: pH against strong acid added.
//!
//! **What.** The curve of a water to which acid is added step by step, sealed (its CO2 stays) or aired to a room after each step.
//!
//! **Equation.** Alkalinity falls by what is added; the anion of the acid rises with it; then the speciation.
//!
//! **Range.** That of [`crate::solve`]: it ends at pH 3.
//!
//! **Source.** Alkalinity as defined by `dickson_1981`. **Checked by** `tests/against_phreeqc.rs`.

use quantity::Ion;

use crate::conserved::Conserved;
use crate::refusal::Refusal;
use crate::solved::{Solved, solve};

/// The strong acid of a titration.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Acid {
    /// HCl: a mole of chloride per equivalent.
    Hydrochloric,
    /// H2SO4: half a mole of sulfate per equivalent.
    Sulfuric,
}

impl Acid {
    /// The water with `eq_per_kg` of this acid added. Less than 0 takes acid back.
    pub fn added_to(self, water: Conserved, eq_per_kg: f64) -> Conserved {
        match self {
            Acid::Hydrochloric => water.with_added(Ion::Chloride, eq_per_kg),
            Acid::Sulfuric => water.with_added(Ion::Sulfate, 0.5 * eq_per_kg),
        }
        .with_acid(eq_per_kg)
    }
}

/// Solves the water after each amount of acid (eq/kg, each counted from the untreated water): sealed with `None`, aired
/// to a partial pressure of CO2 in atm otherwise.
///
/// # Errors
/// The first [`Refusal`] on the way.
pub fn titrate(
    water: &Conserved,
    acid: Acid,
    eq_per_kg: &[f64],
    aired_to_pco2_atm: Option<f64>,
) -> Result<Vec<Solved>, Refusal> {
    eq_per_kg
        .iter()
        .map(|eq| {
            let treated = acid.added_to(*water, *eq);
            solve(&aired_to_pco2_atm.map_or_else(|| treated.closed(), |pco2| treated.open_to(pco2)))
        })
        .collect()
}
