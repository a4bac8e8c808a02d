//! What to do today and this week, at the start, and while away.
//!
//! [`day`] makes a [`Day`] from a tank, its plan, its log and the moment: two or three acts of today, the week under them,
//! the change as one sheet, tests, supplies. [`care`] does the same for an answer in which a question may still be open.
//! [`calendar`] writes the routine for a calendar.

mod answer;
mod change;
mod day;
mod dose;
mod due;
mod food;
mod kits;
mod log;
mod supplies;
mod top_up;

pub use answer::{Care, Outcome, care};
pub use change::{ChangeSheet, Step, Warmth};
pub use day::{Act, Ask, Day, Done, Later, day};
pub use due::{Known, Rhythm};
pub use food::Food;
pub use kits::Kit;
pub use supplies::{BOTTLE_MIXED, CONDITIONER_MIXED, CYLINDER, Supply};
pub use top_up::Settles;
