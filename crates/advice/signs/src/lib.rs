//! What a reading, an alga or a leaf says about this tank, by elimination.
//!
//! Rules are data (`data/sights.toml`, `data/meanings.toml`, `data/causes.toml`). [`judge`] takes what the log holds,
//! [`judge_seen`] what is seen and read just now. Every cause that practice names is held against the tank's own numbers:
//! kept, struck out, or open until something decides, each with its reason. Then one change, when to judge it, and what
//! we don't know. What the rules of harm forbid is never advised: nothing here raises carbon dioxide, kills an alga, or
//! changes water toward a tap that brings the same.

mod about;
mod cause;
mod change;
mod facts;
mod finding;
mod nutrients;
mod reading;
mod water_causes;

use jiff::{SignedDuration, ZonedDateTime};
use knowledge::book;
use logbook::{Filter, Kept, Reading, What};
use recipe::Plan;
use setup::Tank;

pub use about::About;
pub use finding::{Cause, Finding, OneChange, Standing};

use facts::Facts;

/// The entries that signs lean on, of whatever kind.
pub fn reads(now: &ZonedDateTime) -> Filter {
    let days = knowledge::book().routine.number.sign_reads_days.value as i64;
    let from = now.timestamp().checked_sub(SignedDuration::from_hours(24 * days)).ok();
    Filter { from, ..Filter::default() }
}

/// What the log of the last two weeks says: its sights, and the latest reading of each kind that means something. The most
/// urgent first.
pub fn judge(tank: &Tank, plan: &Plan, log: &[Kept], now: &ZonedDateTime) -> Vec<Finding> {
    let facts = Facts::of(tank, plan, log, now);
    let sights: Vec<&str> = facts
        .recent()
        .filter_map(|kept| match &kept.entry.what {
            What::Sight { sight } => Some(sight.as_str()),
            _ => None,
        })
        .collect();
    let mut found = seen(&facts, &sights);
    found.extend(facts.readings().iter().flat_map(|read| reading::findings(&facts, read)));
    sorted(found)
}

/// What is seen (keys of `data/sights.toml`) and read just now says, with the log behind it. A key that is not known is
/// left out; a reading between its bounds is told too.
pub fn judge_seen(
    tank: &Tank,
    plan: &Plan,
    log: &[Kept],
    now: &ZonedDateTime,
    sights: &[&str],
    readings: &[Reading],
) -> Vec<Finding> {
    let mut facts = Facts::of(tank, plan, log, now);
    for reading in readings {
        facts.read_now(reading);
    }
    let mut found = seen(&facts, sights);
    for of in readings.iter().map(|reading| reading.of.as_str()) {
        let Some(read) = facts.readings().iter().find(|read| read.of == of) else { continue };
        let says = reading::findings(&facts, read);
        found.extend(if says.is_empty() { vec![reading::nothing(&facts, read)] } else { says });
    }
    sorted(found)
}

/// One finding a sight, in the order of the table.
fn seen(facts: &Facts, sights: &[&str]) -> Vec<Finding> {
    let known = book().sights.iter().filter(|(key, _)| sights.contains(&key.as_str()));
    known.map(|(key, sight)| finding::of_sight(facts, key, sight)).collect()
}

fn sorted(mut found: Vec<Finding>) -> Vec<Finding> {
    found.sort_by_key(|finding| finding.urgency);
    found
}
