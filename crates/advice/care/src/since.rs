//! For how long a tank's water is the same: what its own age tells, and what the log does.
//!
//! **What.** Days since the last whole renewal, less what partial changes took out again: as many days of drift as stand in the
//! tank today.
//!
//! **Equation.** E ← (E + Δt) (1 - l/V) at each change of l litres, then E + Δt until today. What drifts linearly by g a day stands
//! at T + E g, for a change takes its share of the difference to the new water.
//!
//! **Symbols.** E days; Δt days from one change to the next; V true litres; T new water; g drift a day.
//!
//! **Range.** Drift that is the same every day. Begins at the day on which the log says that the tank was filled, else so many months
//! ago as its setup says; with neither nobody knows, until a change takes all of it.
//!
//! **Source.** Balance of mass.
//!
//! **Checked by** `tests/by_hand_unchanged.rs`.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use logbook::{Kept, What};
use setup::Tank;

use crate::due::{days_between, later};
use crate::log::Past;
use crate::start::SET_UP;

/// Days for which the water of a tank was the same `at` a moment, 0 or more, by what is known `now`; `None`: nobody told.
pub fn unchanged_days(tank: &Tank, log: &[Kept], now: &ZonedDateTime, at: &ZonedDateTime) -> Option<f64> {
    since(tank, &Past::of(log, at), now.date())
}

/// The same of a log that was read, for today.
pub(crate) fn days(tank: &Tank, past: &Past) -> Option<f64> {
    since(tank, past, past.today())
}

/// What the setup tells of months is told today.
fn since(tank: &Tank, past: &Past, today: Date) -> Option<f64> {
    let litres = tank.geometry.true_l.value;
    let told = tank.unchanged_days().map(|days| later(today, -(days.round() as i64)));
    let mut since: Option<(Date, f64)> = told.map(|date| (date, 0.0));
    for (date, kept) in past.entries() {
        let renewed = match &kept.entry.what {
            What::Done { act } if act == SET_UP => 1.0,
            What::Change { litres: changed } if litres > 0.0 => (changed / litres).clamp(0.0, 1.0),
            _ => continue,
        };
        since = match since {
            _ if renewed >= 1.0 => Some((date, 0.0)),
            Some((from, days)) => Some((date, (days + days_between(from, date).max(0) as f64) * (1.0 - renewed))),
            None => None,
        };
    }
    since.map(|(from, days)| days + days_between(from, past.today()).max(0) as f64)
}
