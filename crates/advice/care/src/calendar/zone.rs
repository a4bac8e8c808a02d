//! The rules of a time zone, written into the calendar (`rfc_5545`, section 3.6.5).
//!
//! What: the offsets that hold from a year before on. Where the changes of the years to come follow one rule ("the last
//! Sunday of March at 2 o'clock"), that rule is written; where they don't, every change of the next years is.
//! Range: the time zone data that this program was built with or found; a country that changes its clock makes a new calendar
//! necessary.
//! Checked by: `tests/against_icalendar.rs`.

use jiff::civil::{DateTime, Weekday};
use jiff::tz::{Dst, Offset, TimeZone};
use jiff::{SignedDuration, Timestamp, ToSpan, ZonedDateTime};

use super::text::{Lines, stamp};

/// Years over which changes are looked at.
const YEARS: i32 = 12;

/// A change of the clock.
struct Turn {
    /// What the clock on the wall showed, by the old offset, when it came.
    wall: DateTime,
    from: Offset,
    to: Offset,
    dst: bool,
    name: String,
}

/// Writes the zone.
pub(super) fn put(lines: &mut Lines, name: &str, zone: &TimeZone, now: &ZonedDateTime) {
    let start = now.timestamp().checked_sub(SignedDuration::from_hours(366 * 24)).unwrap_or(Timestamp::MIN);
    let turns = turns(zone, start);
    lines.put("BEGIN", "VTIMEZONE");
    lines.put("TZID", name);
    if turns.is_empty() {
        let info = zone.to_offset_info(start);
        let wall = DateTime::constant(1970, 1, 1, 0, 0, 0, 0);
        let dst = info.dst() == Dst::Yes;
        let always = Turn { wall, from: info.offset(), to: info.offset(), dst, name: info.abbreviation().to_owned() };
        observance(lines, &always, &[]);
    } else {
        let mut kinds: Vec<(Offset, Offset, bool)> = Vec::new();
        for turn in &turns {
            let kind = (turn.from, turn.to, turn.dst);
            if !kinds.contains(&kind) {
                kinds.push(kind);
            }
        }
        for kind in kinds {
            let same: Vec<&Turn> = turns.iter().filter(|turn| (turn.from, turn.to, turn.dst) == kind).collect();
            if let Some((first, others)) = same.split_first() {
                observance(lines, first, others);
            }
        }
    }
    lines.put("END", "VTIMEZONE");
}

/// All changes from a moment on, for some years.
fn turns(zone: &TimeZone, start: Timestamp) -> Vec<Turn> {
    let last =
        start.to_zoned_datetime(TimeZone::UTC).checked_add(YEARS.years()).map_or(Timestamp::MAX, |end| end.timestamp());
    let mut before = zone.to_offset(start);
    let mut turns = Vec::new();
    for turn in zone.following(start).take_while(|turn| turn.timestamp() <= last) {
        turns.push(Turn {
            wall: before.to_datetime(turn.timestamp()),
            from: before,
            to: turn.offset(),
            dst: turn.dst() == Dst::Yes,
            name: turn.abbreviation().to_owned(),
        });
        before = turn.offset();
    }
    turns
}

fn observance(lines: &mut Lines, first: &Turn, others: &[&Turn]) {
    let kind = if first.dst { "DAYLIGHT" } else { "STANDARD" };
    lines.put("BEGIN", kind);
    lines.put("DTSTART", &stamp(first.wall));
    lines.put("TZOFFSETFROM", &offset(first.from));
    lines.put("TZOFFSETTO", &offset(first.to));
    lines.text("TZNAME", &first.name);
    match yearly(first, others) {
        Some(rule) => lines.put("RRULE", &rule),
        None => others.iter().for_each(|turn| lines.put("RDATE", &stamp(turn.wall))),
    }
    lines.put("END", kind);
}

/// The rule of the years, if one fits every change: the n-th or the last of a day of the week in a month, at one hour.
fn yearly(first: &Turn, others: &[&Turn]) -> Option<String> {
    let all: Vec<DateTime> = std::iter::once(first.wall).chain(others.iter().map(|turn| turn.wall)).collect();
    if all.len() < 3 || !all.windows(2).all(|pair| matches!(pair, [a, b] if b.year() == a.year() + 1)) {
        return None;
    }
    let (month, day, time) = (first.wall.month(), first.wall.weekday(), first.wall.time());
    if !all.iter().all(|at| (at.month(), at.weekday(), at.time()) == (month, day, time)) {
        return None;
    }
    let nth = |at: &DateTime| (at.day() - 1) / 7 + 1;
    let is_last = |at: &DateTime| at.day() + 7 > at.date().days_in_month();
    let n = if all.iter().all(is_last) {
        -1
    } else if all.iter().all(|at| nth(at) == nth(&first.wall)) {
        nth(&first.wall)
    } else {
        return None;
    };
    Some(format!("FREQ=YEARLY;BYMONTH={month};BYDAY={n}{}", letters(day)))
}

fn letters(day: Weekday) -> &'static str {
    match day {
        Weekday::Monday => "MO",
        Weekday::Tuesday => "TU",
        Weekday::Wednesday => "WE",
        Weekday::Thursday => "TH",
        Weekday::Friday => "FR",
        Weekday::Saturday => "SA",
        Weekday::Sunday => "SU",
    }
}

/// `+0200`, `-0330`; seconds where an old offset has them.
fn offset(offset: Offset) -> String {
    let seconds = offset.seconds();
    let (sign, s) = (if seconds < 0 { '-' } else { '+' }, seconds.unsigned_abs());
    let text = format!("{sign}{:02}{:02}", s / 3600, s / 60 % 60);
    if s % 60 == 0 { text } else { format!("{text}{:02}", s % 60) }
}
