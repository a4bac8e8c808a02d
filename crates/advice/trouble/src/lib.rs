//! Help now: what to do this minute, how to find out, how to prevent; with a tank known, its own arithmetic.
//!
//! [`sheets`] needs nothing of the keeper: the troubles in the order of the list, whole in words, people before fish.
//! [`worked`] adds what a tank gives: causes ranked by what the logbook, the setup and the hour speak for, and sums with
//! their whys, from a [`Case`] (tank and plan) and what was read ([`Told`]). Nothing here decides for the keeper what only
//! eyes can see; where a figure that protects life is not known the bad end of its range counts.

mod ask;
mod begin;
mod breath;
mod carbon_dioxide;
mod case;
mod causes;
mod dilution;
mod fill;
mod half_change;
mod low_alkalinity;
mod most;
mod nitrate;
mod nitrite;
mod outcome;
mod overdose;
mod rain;
mod reading;
mod remedy;
mod sheet;
mod sum;
mod text;
mod told;
mod too_warm;
mod toxic;
mod warmth;
mod worked;

pub use ask::{Ask, asks};
pub use begin::{NextChange, begin_note, begins, part_poured, poured_us};
pub use carbon_dioxide::{CarbonRead, cylinder_room, reading_harms};
pub use case::Case;
pub use causes::{Cause, causes};
pub use dilution::{changes_needed, share_left};
pub use half_change::{ColdWater, cold_water};
pub use most::{CHANGE_MOST, changed_too_much, over};
pub use outcome::{Outcome, outcomes};
pub use reading::{Harms, harms};
pub use remedy::air_stays;
pub use sheet::{Item, Sheet, sheet, sheets};
pub use sum::{Sum, Urgency};
pub use text::{all_text, list_text, sheet_text, worked_text};
pub use told::{Told, ago_words, anew_after, hours_ago, reads, reads_days};
pub use toxic::{AmmoniaRow, AmmoniaTable, Toxic, ammonia_table, toxic};
pub use warmth::heater_stuck;
pub use worked::{Worked, worked};
