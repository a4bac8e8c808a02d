//! The calendar against an independent parser: Python's `icalendar` reads it, and its rules of recurrence and of the zone
//! give the right local times over both changes of the clock.
//!
//! Judge: `tests/fixtures/icalendar/answers.json`, made by `ask.py` beside it (its head has versions and command) from the
//! calendars there, which this test writes byte by byte. `WRITE_FIXTURES=1` writes the calendars anew; then ask again.
#![allow(clippy::disallowed_methods)]

use std::collections::BTreeMap;

use care::{Event, written};
use jiff::civil::date;
use jiff::tz::TimeZone;
use jiff::{ToSpan, ZonedDateTime};

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/icalendar");

/// Zones with two changes a year on either half of the earth, one that changes by half an hour, one by no yearly rule, one never.
const ZONES: [&str; 6] =
    ["Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Africa/Cairo", "Asia/Kolkata", "Pacific/Chatham"];

fn events() -> Vec<Event> {
    let event = |key: &str, summary: &str, says: &[&str], first, every_days| Event {
        key: key.to_owned(),
        summary: summary.to_owned(),
        says: says.iter().map(|say| (*say).to_owned()).collect(),
        first,
        every_days,
        minutes: 10,
    };
    vec![
        event(
            "dose_morning",
            "This morning, bottle one: 5 mL",
            &[
                "Ten times as much once, and potassium rises by 6 mg/L; no harm known below 10, in a day.",
                "Ü, é, “°” and a \\ too.",
            ],
            date(2026, 3, 20).at(8, 0, 0, 0),
            1,
        ),
        event("change", "Change water: 36.3 L", &["1. Look at the tap."], date(2026, 3, 21).at(10, 0, 0, 0), 7),
        event("trim", "Cut the plants, weigh the trimmings", &[], date(2026, 3, 21).at(10, 0, 0, 0), 14),
        event("top_up", "Top up what evaporated", &["Up to the mark."], date(2026, 3, 22).at(19, 0, 0, 0), 3),
    ]
}

fn now(zone: &str) -> ZonedDateTime {
    date(2026, 3, 20).at(7, 30, 0, 0).to_zoned_datetime(TimeZone::get(zone).unwrap()).unwrap()
}

fn file(zone: &str) -> String {
    format!("{FOLDER}/{}.ics", zone.replace('/', "-").to_lowercase())
}

#[test]
fn the_calendars_are_those_that_the_parser_read() {
    for zone in ZONES {
        let text = written("The tank; in the hall, left", &events(), &now(zone), 1);
        if std::env::var("WRITE_FIXTURES").is_ok() {
            std::fs::write(file(zone), &text).unwrap();
        }
        assert_eq!(std::fs::read_to_string(file(zone)).unwrap(), text, "{zone}");
    }
}

/// What the parser read of one calendar.
#[derive(serde::Deserialize)]
struct Read {
    events: BTreeMap<String, ReadEvent>,
    zone_disagrees: Vec<String>,
    zone_instants: u64,
}

#[derive(serde::Deserialize)]
struct ReadEvent {
    summary: String,
    description: Option<String>,
    /// Instants in UTC, by the calendar's own zone, of a year and more.
    instants: Vec<String>,
}

#[test]
fn the_parser_reads_the_same_acts_at_the_same_local_times() {
    let answers = std::fs::read_to_string(format!("{FOLDER}/answers.json")).unwrap();
    let answers: BTreeMap<String, Read> = serde_json::from_str(&answers).unwrap();
    assert_eq!(answers.len(), ZONES.len());
    for zone in ZONES {
        let read = &answers[zone];
        assert_eq!(read.events.len(), events().len());
        // The zone's own rules, as written, give the offsets of the zone data at every hour of the years.
        assert_eq!(read.zone_disagrees, Vec::<String>::new(), "{zone}");
        assert!(read.zone_instants > 40_000, "{}", read.zone_instants);
        for event in events() {
            let read = &read.events[&format!("{}-1@care.tapmere.invalid", event.key)];
            assert_eq!(read.summary, event.summary);
            assert_eq!(read.description.clone().unwrap_or_default(), event.says.join("\n"));
            assert_eq!(read.instants, instants(&event, zone, read.instants.len()), "{zone} {}", event.key);
            // A year and a quarter: over both changes of the clock.
            assert!(read.instants.len() as u32 * event.every_days > 450, "{}", read.instants.len());
        }
    }
}

/// By jiff: the same hour on the wall, every so many days.
fn instants(event: &Event, zone: &str, count: usize) -> Vec<String> {
    let zone = TimeZone::get(zone).unwrap();
    let one = |k: usize| {
        let wall = event.first.checked_add((k as i64 * i64::from(event.every_days)).days()).unwrap();
        let at = wall.to_zoned_datetime(zone.clone()).unwrap();
        assert_eq!(at.datetime(), wall, "the hour on the wall exists");
        at.timestamp().strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
    };
    (0..count).map(one).collect()
}

#[test]
fn a_zone_that_is_only_an_offset_gives_utc() {
    let now = date(2026, 3, 20).at(7, 30, 0, 0).to_zoned_datetime(TimeZone::fixed(jiff::tz::offset(2))).unwrap();
    let text = written("t", &events(), &now, 1);
    assert!(text.contains("DTSTART:20260320T060000Z") && !text.contains("VTIMEZONE"), "{text}");
}
