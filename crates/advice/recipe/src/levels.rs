//! What level follows from a tap, a daily dose, what plants take, and changes of water.
//!
//! [`Cycle`] is the repeating case in closed form; [`simulate`] passes through any schedule, day by day, exactly;
//! [`level`] and [`alkalinity`] put a tank's numbers in and answer with its range. `docs/models/levels.md` shows it.

mod cycle;
mod schedule;
mod tank;
mod why;

pub use cycle::{Cycle, Settles, Swing};
pub use schedule::{Change, Day, Passed, simulate, tide};
pub(crate) use tank::row;
pub use tank::{
    alkalinity, alkalinity_cycle, bands, cycle, eaten_per_day, level, net_uptake, poorest, top_up_alkalinity_per_day,
    top_up_per_day,
};
pub use why::why;
