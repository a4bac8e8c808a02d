//! A tank that the log shows long unchanged, and the small changes by which it comes back to its usual one (harm rule 8).
//!
//! **What.** After a pause of more days than a row of `data/routine.toml` a tank is changed by a tenth, each day, until its usual change moves
//! the water no further than the first tenth did.
//!
//! **Equation.** left = Π (1 - l ÷ V) over the changes since the pause; tenths go on while left x > t; n = ln(t ÷ (x left)) ÷ ln(1 - t) more.
//!
//! **Symbols.** l litres of a change, V true litres, x share of the usual change, t the tenth, all shares 0 to 1.
//!
//! **Range.** What the log says: whoever forgot to write a change down is told to write it down with its day.
//!
//! **Source.** `data/harm.toml` rule 8, common practice; mixing by volume.
//!
//! **Checked by** `tests/harm_care.rs`.

use jiff::civil::Date;
use knowledge::book;
use logbook::What;
use recipe::Plan;
use setup::Tank;

use crate::due::days_between;
use crate::log::Past;
use crate::start_words::up;

/// A pause that still tells on the changes of today.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Long {
    /// Days of the pause.
    pub days: i64,
    /// Changes since.
    pub changes: u32,
    /// Tenths that are still due, the next one with them.
    pub tenths: u32,
}

/// The pause of a tank with animals whose usual change is larger than a tenth; `None`: there was none, or it has had its tenths.
pub(crate) fn long(tank: &Tank, plan: &Plan, past: &Past, on: Date) -> Option<Long> {
    let (litres, usual) = (tank.geometry.true_l.value, plan.change.share);
    let tenth = book().harm.limit.old_tank_change_percent.value() / 100.0;
    if !tank.animals.any() || litres <= 0.0 || plan.change.every_days == 0 {
        return None;
    }
    let most = book().routine.number.unchanged_days.value;
    let too_long = |days: i64| days as f64 > most;
    let (mut before, mut pause, mut changes, mut left) = (past.start()?, None, 0, 1.0);
    for (date, kept) in past.entries() {
        let What::Change { litres: changed } = &kept.entry.what else { continue };
        let days = days_between(before, date);
        if too_long(days) {
            (pause, changes, left) = (Some(days), 0, 1.0);
        }
        before = date;
        changes += 1;
        left *= 1.0 - (changed / litres).clamp(0.0, 1.0);
    }
    let days = days_between(before, on);
    if too_long(days) {
        (pause, changes, left) = (Some(days), 0, 1.0);
    }
    // A change that is no larger than a tenth is its own first step.
    let tenths =
        if left * usual > tenth { up((tenth / (usual * left)).ln() / (1.0 - tenth).ln()).max(1.0) as u32 } else { 0 };
    pause.filter(|_| tenths > 0 || changes == 0).map(|days| Long { days, changes, tenths })
}
