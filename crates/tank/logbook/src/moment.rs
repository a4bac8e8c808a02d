//! A moment with its time zone as text: `2026-06-11T08:30:00+02:00[Europe/Berlin]` (RFC 9557).
//!
//! An old entry must stay readable when a country changes the rules of its clock, and on a machine that does not know the
//! zone: then the offset that was written holds, since it says the instant.

use jiff::ZonedDateTime;
use jiff::fmt::temporal::{DateTimeParser, Pieces};
use jiff::tz::{OffsetConflict, TimeZone};
use quantity::Fault;
use serde::{Deserialize, Deserializer, Serializer};

/// Read a moment.
///
/// # Errors
/// A text that is no date with a time and an offset.
pub fn moment(text: &str) -> Result<ZonedDateTime, Fault> {
    static BY_OFFSET: DateTimeParser = DateTimeParser::new().offset_conflict(OffsetConflict::AlwaysOffset);
    let known = || text.parse().ok().or_else(|| BY_OFFSET.parse_zoned_datetime(text).ok());
    known().or_else(|| in_offset(text)).ok_or_else(|| {
        Fault::new(format!("`{text}` is no moment"))
            .expected("a date, a time and an offset, for instance 2026-06-11T08:30:00+02:00[Europe/Berlin]")
    })
}

/// The same where the zone is not known or not named.
fn in_offset(text: &str) -> Option<ZonedDateTime> {
    let pieces = Pieces::parse(text).ok()?;
    let offset = pieces.to_numeric_offset()?;
    pieces.date().to_datetime(pieces.time()?).to_zoned_datetime(TimeZone::fixed(offset)).ok()
}

/// For serde: a moment as its text.
pub(crate) fn serialize<S: Serializer>(at: &ZonedDateTime, to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(at)
}

/// For serde: a moment from its text.
pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<ZonedDateTime, D::Error> {
    let text = String::deserialize(from)?;
    moment(&text).map_err(|fault| serde::de::Error::custom(fault.what))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> String {
        moment(text).unwrap_or_else(|fault| panic!("{fault}")).to_string()
    }

    #[test]
    fn a_moment_reads_as_it_was_written() {
        for text in [
            "2026-06-11T08:30:00+02:00[Europe/Berlin]",
            "2026-10-25T02:30:00.000000001+01:00[Europe/Berlin]",
            "2026-06-11T08:30:00-04:00[America/New_York]",
            "2026-06-11T08:30:00+00:00[UTC]",
            "2026-06-11T08:30:00+05:45[+05:45]",
        ] {
            assert_eq!(read(text), text);
        }
        assert_eq!(read("2026-06-11T08:30:00Z"), "2026-06-11T08:30:00+00:00[UTC]");
        for text in ["", "yesterday", "2026-06-11", "2026-06-11T08:30:00", "2026-13-11T08:30:00Z"] {
            assert!(moment(text).is_err(), "{text}");
        }
    }

    #[test]
    fn the_offset_that_was_written_says_the_instant() {
        // Berlin is never three hours ahead: the instant holds, and is shown by the clock of the zone.
        assert_eq!(read("2026-06-11T08:30:00+03:00[Europe/Berlin]"), "2026-06-11T07:30:00+02:00[Europe/Berlin]");
        assert_eq!(read("2026-06-11T08:30:00+03:00[Moon/Dark_Side]"), "2026-06-11T08:30:00+03:00[+03:00]");
    }
}
