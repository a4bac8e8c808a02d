//! The best estimate of a water from everything that is known of it: readings, kits, or nothing.
//!
//! Ten ions bound by three equations (hardness, charge, conductivity), weighed by the errors of what was measured
//! and by what waters usually hold. [`estimate`] gives every value with the range that holds it in 90 of 100 cases;
//! [`clashes`] says where the evidence disagrees with itself; [`settle`] finds how a number is counted where the
//! others prove it; [`next_tests`] says what to measure next; [`gather`] keeps two works two waters. The model's
//! page is `docs/models/report-estimate.md`.

mod bands;
mod basis;
mod clash;
mod errors;
mod evidence;
mod fit;
mod from_readings;
mod linear;
mod next_test;
mod softener;
mod state;
mod usual;
mod water_known;
mod waters;

pub use basis::{BasisOdds, PROVEN, basis_odds, settle};
pub use clash::{Clash, Equation, Mend, clashes};
pub use errors::Origin;
pub use evidence::{Evidence, Item, Meaning, Quantity, Spread};
pub use from_readings::{evidence, item};
pub(crate) use from_readings::{of_readings, rows};
pub use next_test::{NextTest, next_tests};
pub use softener::{Softened, exchanged, softened, through_a_softener};
pub use usual::Usual;
pub use water_known::{Decided, Estimate, Line, estimate};
pub(crate) use water_known::{apart, instead};
pub use waters::{Waters, gather, pool};
