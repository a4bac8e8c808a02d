//! A moment with its time zone as text: `2026-06-11T08:30:00+02:00[Europe/Berlin]` (RFC 9557).
//!
//! An old entry must stay readable when a country changes the rules of its clock, and on a machine that does not know the
//! zone: then the offset that was written holds, since it says the instant.

use jiff::ZonedDateTime;
use jiff::civil::DateTime;
use jiff::fmt::temporal::{DateTimeParser, Pieces};
use jiff::tz::{Offset, OffsetConflict, TimeZone};
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

/// The same, and quick where the text is in this zone as we write it: of a thousand entries nearly all are in one zone, and
/// looking a zone up by its name takes longer than all the rest.
///
/// # Errors
/// Those of [`moment`].
pub fn moment_in(text: &str, zone: &TimeZone) -> Result<ZonedDateTime, Fault> {
    plain(text, zone).map_or_else(|| moment(text), Ok)
}

/// `2026-06-11T08:30:00+02:00[Europe/Berlin]` and nothing else, of just this zone, and of an offset that the zone had then.
fn plain(text: &str, zone: &TimeZone) -> Option<ZonedDateTime> {
    let (stem, name) = text.strip_suffix(']')?.split_once('[')?;
    if zone.iana_name() != Some(name) {
        return None;
    }
    let (civil, offset) = stem.split_at_checked(stem.len().checked_sub(6)?)?;
    let (civil, fraction) = civil.split_at_checked(19)?;
    let &[y, yy, yyy, yyyy, b'-', m, mm, b'-', d, dd, b'T', h, hh, b':', n, nn, b':', s, ss] = civil.as_bytes() else {
        return None;
    };
    let year = 100 * i16::from(two(y, yy)?) + i16::from(two(yyy, yyyy)?);
    let civil = DateTime::new(year, two(m, mm)?, two(d, dd)?, two(h, hh)?, two(n, nn)?, two(s, ss)?, nanos(fraction)?);
    let &[sign, h, hh, b':', m, mm] = offset.as_bytes() else { return None };
    let seconds = 3600 * i32::from(two(h, hh)?) + 60 * i32::from(two(m, mm).filter(|m| *m < 60)?);
    let offset = match sign {
        b'+' => Offset::from_seconds(seconds),
        b'-' if seconds > 0 => Offset::from_seconds(-seconds),
        _ => return None,
    };
    let (civil, offset) = (civil.ok()?, offset.ok()?);
    let at = offset.to_timestamp(civil).ok()?.to_zoned_datetime(zone.clone());
    (at.offset() == offset).then_some(at)
}

fn two(tens: u8, ones: u8) -> Option<i8> {
    let digit = |c: u8| c.is_ascii_digit().then(|| (c - b'0') as i8);
    Some(10 * digit(tens)? + digit(ones)?)
}

/// What stands behind the seconds, in nanoseconds.
fn nanos(fraction: &str) -> Option<i32> {
    let Some(digits) = fraction.strip_prefix('.') else { return fraction.is_empty().then_some(0) };
    let plain = (1..=9).contains(&digits.len()) && digits.bytes().all(|c| c.is_ascii_digit());
    plain.then(|| digits.parse::<i32>().ok())?.map(|n| n * 10_i32.pow(9 - digits.len() as u32))
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

    /// The quick way takes what we write, in its own zone; it says nothing else than the full one.
    #[test]
    fn the_quick_way_is_the_full_one() {
        let berlin = TimeZone::get("Europe/Berlin").unwrap();
        for (text, quick) in [
            ("2026-06-11T08:30:00+02:00[Europe/Berlin]", true),
            ("2026-10-25T02:30:00.5+02:00[Europe/Berlin]", true),
            ("2026-10-25T02:30:00.000000001+01:00[Europe/Berlin]", true),
            ("2026-06-11T08:30:00+03:00[Europe/Berlin]", false),
            ("2026-03-29T02:30:00+01:00[Europe/Berlin]", false),
            ("2026-06-11T08:30:60+02:00[Europe/Berlin]", false),
            ("2026-06-11T08:30+02:00[Europe/Berlin]", false),
            ("2026-06-11T08:30:00-04:00[America/New_York]", false),
            ("2026-06-11T08:30:00Z", false),
            ("2026-02-30T08:30:00+01:00[Europe/Berlin]", false),
            ("+2026-06-11T08:30:00+02:00[Europe/Berlin]", false),
            ("2026-06-11T08:30:00+02:00[Europe/Berlin][u-ca=gregory]", false),
            ("é026-06-11T08:30:00+02:00[Europe/Berlin]", false),
            ("+02:00[Europe/Berlin]", false),
            ("", false),
        ] {
            assert_eq!(plain(text, &berlin).is_some(), quick, "{text}");
            let full = moment(text).map(|at| at.to_string());
            assert_eq!(moment_in(text, &berlin).map(|at| at.to_string()), full, "{text}");
        }
    }

    #[test]
    fn the_offset_that_was_written_says_the_instant() {
        // Berlin is never three hours ahead: the instant holds, and is shown by the clock of the zone.
        assert_eq!(read("2026-06-11T08:30:00+03:00[Europe/Berlin]"), "2026-06-11T07:30:00+02:00[Europe/Berlin]");
        assert_eq!(read("2026-06-11T08:30:00+03:00[Moon/Dark_Side]"), "2026-06-11T08:30:00+03:00[+03:00]");
    }
}
