//! What to add: few products, doses that can be weighed, harmless over the tap's whole range.
//!
//! [`answer`] takes a setup and gives the plan, or, while a question is open, one outcome for each reply. [`plan`] is for a
//! tank without open questions. The way through: what limits the change, the choice ([`choose`]), bottles, new water,
//! levels ([`levels`]), and the sentences.

#[cfg(test)]
extern crate self as recipe;
#[cfg(test)]
#[allow(dead_code, reason = "takes a part of what the tests share")]
#[path = "../tests/common/mod.rs"]
mod common;

mod answer;
mod assemble;
mod bottles;
mod carbon_dioxide;
mod cautions;
mod change;
mod choose;
mod copper;
mod desk;
mod habit;
mod indices;
mod law;
mod left_out;
pub mod levels;
mod lime;
mod new_water;
mod nitrate;
mod other_change;
mod part;
mod plan;
pub mod programme;
mod refused;
pub mod say;
mod shopping;
mod start;
mod steps;
mod trim;
mod waters;

pub use answer::{Answer, Outcome, Progress, UNTOLD, answer, answer_while};
pub use assemble::plan;
pub use bottles::slip::{Ceiling, WayBack, ceilings_of, way_back};
pub use bottles::weigh::{Amount, Tools, weigh};
pub use carbon_dioxide::may_be_mg_per_l;
pub use choose::{Choice, LeftOut, Reason, Subject, choose, choose_at, programme_of};
pub use copper::{copper_a_day_mg_per_l, copper_stops};
pub use indices::{Air, aired, indices};
pub use lime::{Lime, TapAired, tap_aired};
pub use nitrate::{tap_keeps_nitrate, tap_keeps_nitrate_says};
pub use other_change::other_change;
pub use part::part_of_salts;
pub use plan::*;
pub use shopping::{may_wait, to_share};
pub use start::{portion, portion_weighs};
pub use steps::ph_rises;
pub use waters::{blended, hardness_meq, in_tank, salted};
