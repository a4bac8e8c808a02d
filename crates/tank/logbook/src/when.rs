//! When something was seen or done, as a keeper writes it: a date with or without its hour, an hour of today.

use jiff::civil::{Date, DateTime, Time};
use jiff::{ToSpan, ZonedDateTime};
use quantity::Fault;

use crate::moment;

/// A log of what was, from this year on.
const FIRST_YEAR: i16 = 1900;

/// Read a moment; empty: now. A text without an offset is by the keeper's clock; a date alone stands for its noon, an
/// hour alone for that of today.
///
/// # Errors
/// No moment, one of before 1900, or one that has not come yet.
pub fn when(text: &str, now: &ZonedDateTime) -> Result<ZonedDateTime, Fault> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(now.clone());
    }
    let civil = civil(text, now).and_then(|civil| civil.to_zoned_datetime(now.time_zone().clone()).ok());
    let at = match civil {
        Some(at) => at,
        None => moment(text).map_err(|fault| {
            fault.expected("a date, with or without its hour: 2026-06-11, 2026-06-11 08:30, 2026-06-11T08:30:00+02:00")
        })?,
    };
    let late = now.checked_add(1.day()).is_ok_and(|limit| at.timestamp() > limit.timestamp());
    if late || at.year() < FIRST_YEAR {
        return Err(Fault::new(format!("`{text}` is no day of this log"))
            .expected(format!("a day from {FIRST_YEAR} to today"))
            .hint("what has not happened yet is not written down; look at the year"));
    }
    Ok(at)
}

/// Date and hour by the keeper's clock, if the text has no offset.
fn civil(text: &str, now: &ZonedDateTime) -> Option<DateTime> {
    let offset =
        text.get(10..).is_some_and(|rest| rest.contains(['Z', 'z', '+', '[']) || rest.matches('-').count() > 0);
    if let Ok(time) = text.parse::<Time>()
        && !text.contains('-')
    {
        return Some(now.date().to_datetime(time));
    }
    match text.parse::<Date>() {
        Ok(date) if text.len() <= 10 => Some(date.at(12, 0, 0, 0)),
        _ if offset => None,
        _ => text.parse::<DateTime>().ok(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_is_by_the_keepers_clock_unless_it_says_otherwise() {
        let now: ZonedDateTime = "2026-06-11T09:15:00+02:00[Europe/Berlin]".parse().unwrap();
        let read = |text: &str| when(text, &now).map(|at| at.to_string()).unwrap_or_else(|fault| fault.what);
        assert_eq!(read(""), now.to_string());
        assert_eq!(read("2026-06-10"), "2026-06-10T12:00:00+02:00[Europe/Berlin]");
        assert_eq!(read("2026-01-10 08:30"), "2026-01-10T08:30:00+01:00[Europe/Berlin]");
        assert_eq!(read("2026-01-10T08:30"), "2026-01-10T08:30:00+01:00[Europe/Berlin]");
        assert_eq!(read("08:30"), "2026-06-11T08:30:00+02:00[Europe/Berlin]");
        assert_eq!(read("2026-06-10T23:30:00-04:00[America/New_York]"), "2026-06-10T23:30:00-04:00[America/New_York]");
        assert_eq!(read("2026-06-10T23:30:00Z"), "2026-06-10T23:30:00+00:00[UTC]");
        for text in ["2026-06-13", "0026-06-11", "last week", "2026-02-30", "11.6.2026"] {
            assert!(read(text).starts_with('`'), "{text}: {}", read(text));
        }
    }
}
