//! The clock of this machine: today's date for the pages, the time of an edit for the book.

use book::Stamp;
use pages::Today;
use quantity::Fault;

/// Today, where this machine is.
pub fn today() -> Today {
    let now = jiff::ZonedDateTime::now();
    Today {
        year: now.year().into(),
        month: now.month().unsigned_abs(),
        day: now.day().unsigned_abs(),
        weekday: now.weekday().to_monday_one_offset().unsigned_abs(),
    }
}

/// Now, with the zone of this machine.
///
/// # Errors
/// A clock whose year has not four digits.
pub fn stamp() -> Result<Stamp, Fault> {
    Stamp::read(&jiff::ZonedDateTime::now().strftime("%Y-%m-%dT%H:%M:%S%:z").to_string())
        .map_err(|fault| fault.hint("set the clock of this machine"))
}
