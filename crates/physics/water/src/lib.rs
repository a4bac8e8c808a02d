//! Speciation, conductivity and gases of fresh water.

mod conductivity;
mod conserved;
mod constants;
mod equilibrium;
mod exponential;
mod first_guess;
mod linearise;
mod refusal;
mod sample;
mod solved;
mod solvent;
mod species;

pub use conserved::{Conserved, blend};
pub use constants::Constants;
pub use refusal::Refusal;
pub use sample::{Carbon, Sample, TOTALS, Totals};
pub use solved::{Saturation, Solved, solve, solve_with};
