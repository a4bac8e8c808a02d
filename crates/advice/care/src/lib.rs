//! What to do today and this week, at the start, and while away.
//!
//! [`day`] makes a [`Day`] from a tank, its plan, its log and the moment: two or three acts of today, the week under them,
//! the change as one sheet, tests, supplies. [`care`] does the same for an answer in which a question may still be open.
//! [`calendar`] writes the routine for a calendar. [`mod@start`] is the first weeks of a tank; [`mod@away`],
//! [`missed`], [`moving`] and [`stopping`] are what their names say.

mod alarm;
mod answer;
pub mod away;
mod calendar;
mod change;
mod day;
mod dose;
mod due;
mod food;
mod kits;
mod living;
mod log;
pub mod missed;
pub mod moving;
mod reads;
mod really;
mod since;
pub mod start;
mod start_waters;
mod start_words;
pub mod stopping;
mod supplies;
mod top_up;

pub use alarm::Alarm;
pub use answer::{Care, Outcome, care};
pub use calendar::{Event, calendar, events, written};
pub use change::{ChangeSheet, Step, Warmth};
pub use day::{Act, Ask, Day, Done, Later, day};
pub use due::{Known, Rhythm};
pub use food::Food;
pub use kits::Kit;
pub use reads::{animals, logged, reads};
pub use really::{hangs_on_plan, really, round};
pub use since::unchanged_days;
pub use supplies::{BOTTLE_MIXED, CONDITIONER_MIXED, CYLINDER, Supply};
pub use top_up::Settles;
