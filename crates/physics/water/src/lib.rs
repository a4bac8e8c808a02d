//! Speciation, conductivity and gases of fresh water.
//!
//! From an analysis (totals, alkalinity, and one of pH, pCO2, free CO2, carbon) [`solve`] gives pH, carbon, saturation
//! indices, conductivity, the toxic share of ammonia and every species. [`blend`] and the additions of [`Conserved`] keep
//! what is conserved, never pH; solve again afterwards, closed or open to a room. 0 to 35 °C, ionic strength to 0.1 mol/kg; beyond, a [`Refusal`].
//!
//! ```
//! use water::{Carbon, Sample, Totals, solve};
//! // Na, K, Ca, Mg, NH4, Cl, SO4, NO3, PO4 in mg/L
//! let totals = Totals::from_mg_per_l(&[25.0, 4.0, 80.0, 12.0, 0.0, 35.0, 45.0, 20.0, 0.0]);
//! let tap = Sample { temperature_c: 20.0, totals, alkalinity_eq_per_kg: None, carbon: Carbon::Ph(7.5) };
//! let solved = solve(&tap)?;
//! assert!(solved.si.calcite.is_some_and(|si| si > 0.0));
//! // Cut with as much low-mineral water and aired to a room with 800 ppm of CO2:
//! let low = Sample { totals: Totals::default(), carbon: Carbon::Pco2Atm(4.2e-4), ..tap };
//! let mixed = water::blend(&[(1.0, solved.conserved()), (1.0, solve(&low)?.conserved())]);
//! let aired = solve(&mixed.open_to(water::pco2_atm_of_room(800.0, 20.0)))?;
//! assert!(aired.ph > solved.ph);
//! # Ok::<(), water::Refusal>(())
//! ```

mod air;
mod conductivity;
mod conserved;
mod constants;
mod equilibrium;
mod exponential;
mod first_guess;
mod gas_exchange;
mod linearise;
mod refusal;
mod sample;
mod solved;
mod solvent;
mod species;
mod titrate;
mod why;

pub use air::{
    co2_at_saturation_mg_per_l, oxygen_at_saturation_mg_per_l, pco2_atm_of_air, pco2_atm_of_room, vapour_pressure_atm,
};
pub use conserved::{Conserved, blend};
pub use constants::Constants;
pub use gas_exchange::{Bubbles, Exchange, Gas, Surface, Way};
pub use refusal::Refusal;
pub use sample::{Carbon, Sample, TOTALS, Totals};
pub use solved::{Saturation, Solved, solve, solve_with};
pub use titrate::{Acid, titrate};
pub use why::{Asked, Question};
