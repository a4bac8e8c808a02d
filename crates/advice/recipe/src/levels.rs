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

/// What the two marks of a level are called in a table: right after and right before a change; where none is made, then and now.
pub fn marks(level: &crate::Level) -> (&'static str, &'static str) {
    if level.unchanged_days.is_some() { ("when filled", "today") } else { ("after a change", "before a change") }
}

/// Whether a range of what stands in a tank is so wide that only a test can say: more than so many times its lower end (a row of
/// `data/recipe.toml`), and more than what no kit for the home shows. mg/L, or meq/L.
pub fn only_a_test(known: quantity::Known<f64>) -> bool {
    known.high > knowledge::book().recipe.worth.tells_times.value * known.low.max(0.0)
}
