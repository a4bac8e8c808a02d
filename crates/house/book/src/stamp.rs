//! The time of an edit. The clock is the caller's.

use std::fmt;
use std::str::FromStr;

use quantity::Fault;
use toml::value::Datetime;

/// A point in time with its zone, as RFC 3339 writes it: `2026-06-11T08:30:00Z`, `2026-06-11T10:30:00+02:00`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp(Datetime);

impl Stamp {
    /// Read a stamp.
    ///
    /// # Errors
    /// A text that is no RFC 3339 date with a time and a zone.
    pub fn read(text: &str) -> Result<Stamp, Fault> {
        Datetime::from_str(text).ok().and_then(Stamp::of).ok_or_else(|| {
            Fault::new(format!("`{text}` is no point in time"))
                .expected("a date, a time and a zone, for instance 2026-06-11T08:30:00Z")
        })
    }

    /// The stamp that a TOML file wrote; `None`: a date without its time, or a time without its zone.
    pub(crate) fn of(at: Datetime) -> Option<Stamp> {
        (at.date.is_some() && at.time.is_some() && at.offset.is_some()).then_some(Stamp(at))
    }

    /// As a TOML file writes it.
    pub(crate) fn datetime(&self) -> Datetime {
        self.0
    }

    /// The day where the caller is: `2026-06-11`.
    pub(crate) fn day(&self) -> String {
        self.0.date.map(|date| date.to_string()).unwrap_or_default()
    }

    /// As a part of a file's name, in which no system allows a colon: `2026-06-11T08-30-00Z`.
    pub(crate) fn for_a_name(&self) -> String {
        self.to_string().replace(':', "-")
    }
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stamp_reads_as_it_was_written() {
        for text in ["2026-06-11T08:30:00Z", "2026-06-11T10:30:00.25+02:00"] {
            assert_eq!(Stamp::read(text).unwrap().to_string(), text);
        }
        for text in ["", "yesterday", "2026-06-11", "08:30:00", "2026-06-11T08:30:00", "2026-13-11T08:30:00Z"] {
            assert!(Stamp::read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_name_has_no_colon() {
        let stamp = Stamp::read("2026-06-11T10:30:00+02:00").unwrap();
        assert_eq!(stamp.day(), "2026-06-11");
        assert_eq!(stamp.for_a_name(), "2026-06-11T10-30-00+02-00");
    }
}
