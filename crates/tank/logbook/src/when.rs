//! When something was seen or done, as a keeper writes it: a date with or without its hour, an hour of today.

use jiff::civil::{Date, DateTime, Time};
use jiff::tz::AmbiguousOffset;
use jiff::{ToSpan, ZonedDateTime};
use quantity::Fault;

use crate::moment_in;

/// A log of what was, from this year on.
const FIRST_YEAR: i16 = 1900;

/// Read a moment; empty: now. A text without an offset is by the keeper's clock; a date alone stands for its noon (today
/// before noon: for now), an hour alone for that of today.
///
/// # Errors
/// No moment, one of before 1900, one that has not come yet, or one that the clock was put forward over.
pub fn when(text: &str, now: &ZonedDateTime) -> Result<ZonedDateTime, Fault> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(now.clone());
    }
    let at = match by_the_clock(text, now)? {
        Some(at) => at,
        None => moment_in(text, now.time_zone()).map_err(|fault| {
            fault.expected("a date, with or without its hour: 2026-06-11, 2026-06-11 08:30, 2026-06-11T08:30:00+02:00")
        })?,
    };
    if is_hour(text) && at.timestamp() > now.timestamp() {
        let yesterday = now.date().yesterday().unwrap_or(now.date());
        return Err(Fault::new(format!("`{text}` has not come yet today"))
            .expected(format!("an hour that was, or its day before it: {yesterday} {text}")));
    }
    let late = now.checked_add(1.day()).is_ok_and(|limit| at.timestamp() > limit.timestamp());
    if late || at.year() < FIRST_YEAR {
        return Err(Fault::new(format!("`{text}` is no day of this log"))
            .expected(format!("a day from {FIRST_YEAR} to today"))
            .hint("what has not happened yet is not written down; look at the year"));
    }
    Ok(at)
}

/// A moment by the keeper's clock, if the text has no offset; of an hour that comes twice, the first.
fn by_the_clock(text: &str, now: &ZonedDateTime) -> Result<Option<ZonedDateTime>, Fault> {
    let Some(civil) = civil(text, now) else { return Ok(None) };
    let found = now.time_zone().to_ambiguous_zoned_datetime(civil);
    let missing = matches!(found.offset(), AmbiguousOffset::Gap { .. });
    match found.compatible() {
        Ok(later) if missing => Err(Fault::new(format!("`{text}` never was: the clock was put forward over it"))
            .expected(format!("an hour that the clock showed, for instance {}", later.strftime("%Y-%m-%d %H:%M")))),
        at => Ok(at.ok()),
    }
}

/// Date and hour by the keeper's clock, if the text has no offset.
fn civil(text: &str, now: &ZonedDateTime) -> Option<DateTime> {
    if text.len() > 10 && text.contains('-') && text.ends_with(']') {
        // With its zone, as we write it.
        return None;
    }
    let offset =
        text.get(10..).is_some_and(|rest| rest.contains(['Z', 'z', '+', '[']) || rest.matches('-').count() > 0);
    if let Ok(time) = text.parse::<Time>()
        && is_hour(text)
    {
        return Some(now.date().to_datetime(time));
    }
    match day(text) {
        // What was done today was done before now.
        Some(date) if date == now.date() => Some(date.at(12, 0, 0, 0).min(now.datetime())),
        Some(date) => Some(date.at(12, 0, 0, 0)),
        None if offset => None,
        None => text.parse::<DateTime>().ok(),
    }
}

fn is_hour(text: &str) -> bool {
    text.parse::<Time>().is_ok() && !text.contains('-')
}

/// The date of a text that is a date alone.
pub fn day(text: &str) -> Option<Date> {
    let text = text.trim();
    text.parse().ok().filter(|_| text.len() <= 10)
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
        // Its noon has not come: what was done today was done before now.
        assert_eq!(read("2026-06-11"), now.to_string());
        let late: ZonedDateTime = "2026-06-11T21:15:00+02:00[Europe/Berlin]".parse().unwrap();
        assert_eq!(when("2026-06-11", &late).unwrap().to_string(), "2026-06-11T12:00:00+02:00[Europe/Berlin]");
        for text in ["2026-06-13", "0026-06-11", "last week", "2026-02-30", "11.6.2026", "23:30"] {
            assert!(read(text).starts_with('`'), "{text}: {}", read(text));
        }
    }

    /// In Berlin the clock of 29 March 2026 goes from 02:00 to 03:00, that of 25 October from 03:00 back to 02:00 (Directive
    /// 2000/84/EC: at 01:00 UTC on the last Sundays of the two months).
    #[test]
    fn an_hour_that_never_was_is_said() {
        let now: ZonedDateTime = "2026-11-11T09:15:00+01:00[Europe/Berlin]".parse().unwrap();
        let fault = when("2026-03-29 02:30", &now).expect_err("no such hour");
        assert!(fault.what.contains("never was"), "{fault}");
        assert!(fault.to_string().contains("2026-03-29 03:30"), "{fault}");
        let read = |text: &str| when(text, &now).map(|at| at.to_string()).unwrap_or_else(|fault| fault.what);
        assert_eq!(read("2026-03-29 01:59"), "2026-03-29T01:59:00+01:00[Europe/Berlin]");
        assert_eq!(read("2026-03-29 03:00"), "2026-03-29T03:00:00+02:00[Europe/Berlin]");
        assert_eq!(read("2026-10-25 02:30"), "2026-10-25T02:30:00+02:00[Europe/Berlin]");
    }
}
