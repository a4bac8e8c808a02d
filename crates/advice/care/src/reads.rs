//! Which entries of the log a day needs: years of it then cost no more than some months.
//!
//! Each kind has its window. Tests, doses, changes, top-ups, trimmings and other acts count as far back as the longest interval of
//! the routine, the longest life of a bottle and the longest pause that a day tells of. Food counts for the day on which it is given;
//! that the tank was fed before says no more than since when the log is kept, which the earliest entry says. Animals count for ever.

use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use knowledge::book;
use logbook::{Filter, Kept, Log};
use quantity::Fault;

fn ago(now: &ZonedDateTime, days: i64) -> Option<Timestamp> {
    now.timestamp().checked_sub(SignedDuration::from_hours(24 * days)).ok()
}

/// The entries that a day needs; beside them it needs [`animals`].
pub fn reads(now: &ZonedDateTime) -> Filter {
    let kinds = ["test", "dose", "change", "top_up", "food", "trim", "done"].map(str::to_owned).to_vec();
    let lately = ago(now, book().routine.number.food_reads_days.value as i64)
        .map(|from| ("food".to_owned(), from))
        .into_iter()
        .collect();
    Filter { from: ago(now, trouble::reads_days()), kinds, lately, ..Filter::default() }
}

/// All that was ever said of animals: one that was brought long ago still lives there.
pub fn animals() -> Filter {
    Filter { kinds: vec!["animals".to_owned()], ..Filter::default() }
}

/// All that a day needs of a log, in one.
///
/// # Errors
/// It can't be read.
pub fn logged(log: &dyn Log, now: &ZonedDateTime) -> Result<Vec<Kept>, Fault> {
    let mut entries = log.list(&reads(now))?;
    entries.extend(log.list(&animals())?);
    Ok(entries)
}
