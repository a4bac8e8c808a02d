//! The clock of this machine: now for the pages, the time of an edit for the book.

use book::Stamp;
use jiff::ZonedDateTime;
use quantity::Fault;

/// Now, in the time zone of this machine.
pub fn now() -> ZonedDateTime {
    ZonedDateTime::now()
}

/// Now, with the zone of this machine.
///
/// # Errors
/// A clock whose year has not four digits.
pub fn stamp() -> Result<Stamp, Fault> {
    Stamp::read(&now().strftime("%Y-%m-%dT%H:%M:%S%:z").to_string())
        .map_err(|fault| fault.hint("set the clock of this machine"))
}
