//! When an act falls due, and what becomes of one that was missed.
//!
//! **What.** Intervals of whole weeks fall on a day of the week, the same whatever the log holds; all others run from the
//! last time. An act that was missed stays due, once, until it is done: nothing is ever doubled.
//!
//! **Equation.** Days are numbered from Monday, 5 January 1970. Slots of n weeks: w + 7 (n k + m), w the day of the week and
//! m the week of the act, k whole. Other intervals of n days: last + n, and before anything was logged n k.
//!
//! **Range.** Dates of the proleptic Gregorian calendar. An act done up to the grace before its slot counts for that slot.
//!
//! **Source.** Our own rule; the grace is a row of `data/routine.toml`.
//!
//! **Checked by** `tests/by_hand_due.rs`.

use jiff::ToSpan;
use jiff::civil::Date;

/// The rhythm of an act.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Rhythm {
    /// Days from one to the next; 0: never.
    pub every_days: u32,
    /// Day of the week for intervals of whole weeks, 1 Monday to 7 Sunday.
    pub weekday: u8,
    /// Which week of an interval of several, from 0.
    pub week: u8,
}

/// What the log says of an act.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Known {
    /// The day on which it was done last.
    pub last: Option<Date>,
    /// The day of the log's first entry; nothing is missed before it.
    pub start: Option<Date>,
}

/// A Monday.
const FIRST: Date = jiff::civil::date(1970, 1, 5);

/// Days since the first Monday.
fn number(date: Date) -> i64 {
    // A span between two dates of the calendar always fits.
    date.since((jiff::Unit::Day, FIRST)).map_or(0, |span| i64::from(span.get_days()))
}

/// The day of a number; the end of the calendar where there is none.
fn day(number: i64) -> Date {
    FIRST.checked_add(number.days()).unwrap_or(Date::MAX)
}

impl Rhythm {
    /// Every day.
    pub const DAILY: Rhythm = Rhythm { every_days: 1, weekday: 1, week: 0 };

    /// Whether it falls on a day of the week.
    pub fn weekly(&self) -> bool {
        self.every_days > 0 && self.every_days.is_multiple_of(7)
    }

    /// The latest slot on or before a day; `None`: never due.
    pub fn slot(&self, on: Date) -> Option<Date> {
        let (n, every) = (number(on), i64::from(self.every_days));
        match self.every_days {
            0 => None,
            _ if self.weekly() => {
                let weekday = i64::from(self.weekday.clamp(1, 7)) - 1;
                let week = (n - weekday).div_euclid(7);
                let back = (week - i64::from(self.week)).rem_euclid(every / 7);
                Some(day((week - back) * 7 + weekday))
            }
            _ => Some(day(n - n.rem_euclid(every))),
        }
    }

    /// The first slot on or after a day.
    pub fn next_slot(&self, from: Date) -> Option<Date> {
        let slot = self.slot(from)?;
        if slot == from { Some(slot) } else { self.slot(day(number(from) + i64::from(self.every_days) - 1)) }
    }

    /// Since when it is due on a day; `None`: it isn't. `grace_days`: see the head of this file.
    pub fn due_since(&self, known: Known, on: Date, grace_days: u32) -> Option<Date> {
        if self.every_days == 1 {
            // A day that was missed is over.
            return (known.last != Some(on)).then_some(on);
        }
        if let (false, Some(last)) = (self.weekly(), known.last) {
            let next = day(number(last) + i64::from(self.every_days));
            return (self.every_days > 0 && next <= on).then_some(next);
        }
        let slot = self.slot(on)?;
        let grace = i64::from(grace_days.min(self.every_days.saturating_sub(1) / 2));
        match (known.last, known.start) {
            (Some(last), _) => (number(last) + grace < number(slot)).then_some(slot),
            (None, start) => (slot == on || start.is_some_and(|start| slot >= start)).then_some(slot),
        }
    }
}

/// Days from one date to another; below 0 where it lies before.
pub(crate) fn days_between(from: Date, to: Date) -> i64 {
    number(to) - number(from)
}

/// A date so many days later.
pub(crate) fn later(date: Date, days: i64) -> Date {
    day(number(date) + days)
}
