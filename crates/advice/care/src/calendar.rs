//! The routine for a calendar: the phone's own reminders.
//!
//! **What.** One event for each act that recurs, with its rule of recurrence, its reminder and the sentences of the act. The
//! text follows RFC 5545 (source key `rfc_5545`): lines end with CR LF and are folded at 75 octets, text is escaped, times are
//! those of the clock on the wall in the keeper's zone, and the zone's own rules go along.
//!
//! **Range.** What recurs by the plan of today; what the log says moves nothing here but the first day. An event of an act
//! that is refused is left out.
//!
//! **Source.** `rfc_5545`, sections 3.1, 3.3.10, 3.3.11, 3.6.1, 3.6.5 and 3.6.6.
//!
//! **Checked by** `tests/against_icalendar.rs`.

mod text;
mod zone;

use jiff::ZonedDateTime;
use jiff::civil::{Date, DateTime};
use logbook::Kept;
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;

use crate::alarm::Alarm;
use crate::change::{Small, Step};
use crate::day::begin::begins;
use crate::day::{Act, Ask, acts, change_rhythm, long};
use crate::due::{Rhythm, later};
use crate::log::Past;
use crate::start::Begun;
use text::Lines;

/// An act that recurs, as a calendar has it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Event {
    /// Its key, the same each time.
    pub key: String,
    /// What to do.
    pub summary: String,
    /// How, and what to mind.
    pub says: Vec<String>,
    /// The first time, by the clock on the wall.
    pub first: DateTime,
    /// Days from one to the next.
    pub every_days: u32,
    /// Minutes that it takes.
    pub minutes: u32,
}

/// Minutes of an act and of a change in the calendar.
const ACT_MINUTES: u32 = 10;
const CHANGE_MINUTES: u32 = 60;

/// What a calendar can't know.
const CARE_FIRST: &str = "Look at Care first: a reading there may say no food, less water or none.";

const ANEW: &str = "So often in this week of the start alone: take the calendar anew when Care has another rhythm.";

/// All events of a tank, as its plan and its log stand now.
pub fn events(tank: &Tank, plan: &Plan, log: &[Kept], now: &ZonedDateTime) -> Vec<Event> {
    let (pen, past) = (Pen::new(&tank.units), Past::of(log, now));
    let number = &knowledge::book().routine.number;
    let today = past.today();
    let hour = |value: f64| value.clamp(0.0, 23.0) as i8;
    let (morning, evening) = (hour(number.morning_hour.value), hour(number.evening_hour.value));
    let mut events = Vec::new();
    // Every day from now on: the plan's amounts, not what happened to be given today.
    let plain = past.before_today();
    // A start has its own doses and changes from week to week.
    let begun = Begun::of(tank, log, now);
    let of_week = begun.map(|begun| begun.plan(tank, plan, today));
    let of_week = of_week.as_ref().unwrap_or(plan);
    let eased = begun.and_then(|begun| begun.week(tank, plan, today)).is_some_and(|week| week.dose_share < 1.0);
    for mut act in crate::dose::usual(tank, plan, &plain, &pen) {
        if act.writes.is_empty() {
            continue;
        }
        if eased && !plan.bottles.is_empty() {
            act.amount = "as Care says in the first weeks".to_owned();
        }
        let at = if act.key.contains("evening") { evening } else { morning };
        // A bottle of which too much was given rests first.
        let rests = plan.bottles.iter().filter(|b| {
            act.writes.iter().any(|what| matches!(what, logbook::What::Dose { bottle, .. } if *bottle == b.name))
        });
        let rests = rests.map(|b| crate::dose::rests_from_today(&b.name, b.daily_ml, &past)).max().unwrap_or(0);
        events.push(event(&act, later(first(Rhythm::DAILY, today), rests), at, Rhythm::DAILY, ACT_MINUTES));
    }
    let alarms = crate::alarm::alarms(tank, of_week, &past, &pen);
    let gills = alarms.iter().any(|alarm| alarm.no_food);
    if let Some(food) = crate::food::food(tank) {
        let mut act = crate::food::act(tank, &food, &plain, &pen);
        if gills {
            act = Act { amount: "see Care first".to_owned(), ..crate::food::fasting(act) };
        }
        act.says.push(CARE_FIRST.to_owned());
        events.push(event(&act, today, morning, Rhythm::DAILY, ACT_MINUTES));
    }
    events.extend(change_event((tank, of_week), &past, &alarms, of_week.change != plan.change, &pen));
    let kits = crate::kits::kits(tank, of_week, &past, begun, &[], &pen);
    for recurs in acts::recurs(tank, of_week, &past, &kits, &pen) {
        let first = match recurs.before_change {
            true => kits.iter().find(|kit| kit.before_change).and_then(|kit| kit.due).unwrap_or(today),
            false => next(recurs.rhythm, recurs.known.last, today),
        };
        let at = if recurs.with_change { hour(number.change_hour.value) } else { evening };
        // The usual amount, not what has gathered by today.
        let act = recurs.later.as_ref().unwrap_or(&recurs.act);
        events.push(event(act, first, at, recurs.rhythm, ACT_MINUTES));
    }
    events
}

/// The change. What hangs on the day, on a reading or on a pause is left to Care: a calendar outlives it.
fn change_event(
    (tank, plan): (&Tank, &Plan),
    past: &Past,
    alarms: &[Alarm],
    of_week: bool,
    pen: &Pen,
) -> Option<Event> {
    let (today, harm) = (past.today(), &knowledge::book().harm);
    let rhythm = change_rhythm(tank, plan);
    let first = next(rhythm, past.known(|what| matches!(what, logbook::What::Change { .. })).last, today);
    let hangs = of_week
        || begins(tank, plan, past).is_some()
        || long(tank, plan, past, today).is_some()
        || tank.unchanged_months.is_some()
        || alarms.iter().any(|alarm| alarm.no_food || alarm.change_most.is_some());
    let sheet = crate::change::sheet(tank, plan, first, None, Small::default(), pen).filter(|s| s.stop.is_none())?;
    let mut act = Act::new("change", "Change water");
    act.says = vec![CARE_FIRST.to_owned()];
    if hangs {
        act.amount = "litres as Care says that day".to_owned();
        act.says.push(harm.rule.plugs_out.say.clone());
        act.says.extend(of_week.then(|| ANEW.to_owned()));
    } else {
        act.amount = pen.litres(sheet.litres);
        let step = |(n, step): (usize, &Step)| format!("{}. {} {}", n + 1, step.say, step.minds.join(" "));
        act.says.extend(sheet.first.iter().cloned().chain(sheet.steps.iter().enumerate().map(step)));
    }
    let hour = knowledge::book().routine.number.change_hour.value.clamp(0.0, 23.0) as i8;
    Some(event(&act, first, hour, rhythm, CHANGE_MINUTES))
}

fn first(rhythm: Rhythm, today: Date) -> Date {
    rhythm.next_slot(today).unwrap_or(today)
}

/// The next day of a rhythm: by the weekday, or so many days after the last.
fn next(rhythm: Rhythm, last: Option<Date>, today: Date) -> Date {
    match last.filter(|_| !rhythm.weekly()) {
        Some(last) => later(last, i64::from(rhythm.every_days)).max(today),
        None => first(rhythm, today),
    }
}

fn event(act: &Act, date: Date, hour: i8, rhythm: Rhythm, minutes: u32) -> Event {
    let amount = if act.amount.is_empty() { String::new() } else { format!(": {}", act.amount) };
    let ask = act
        .asks
        .as_ref()
        .filter(|ask: &&Ask| ask.value.is_none())
        .map(|ask| format!("{}: ____ {}", ask.says, ask.unit));
    Event {
        key: act.key.clone(),
        summary: format!("{}{amount}", act.name),
        says: act.says.iter().cloned().chain(ask).collect(),
        first: date.at(hour, 0, 0, 0),
        every_days: rhythm.every_days,
        minutes,
    }
}

/// The routine as a calendar: [`events`] by [`written`].
pub fn calendar(tank: &Tank, plan: &Plan, log: &[Kept], now: &ZonedDateTime, number: u64) -> String {
    written(&tank.name, &events(tank, plan, log, now), now, number)
}

/// Events as a calendar, in the zone of `now`. `number` tells the tanks of one keeper apart, so that a later calendar
/// replaces the events of an earlier one. A zone without a name (an offset alone) gives times in UTC.
pub fn written(name: &str, events: &[Event], now: &ZonedDateTime, number: u64) -> String {
    let mut lines = Lines::default();
    lines.put("BEGIN", "VCALENDAR");
    lines.put("VERSION", "2.0");
    lines.put("PRODID", "-//Tapmere//care//EN");
    lines.put("CALSCALE", "GREGORIAN");
    lines.put("METHOD", "PUBLISH");
    // The first is the standard's word (RFC 7986), the second what older programs read.
    lines.text("NAME", name);
    lines.text("X-WR-CALNAME", name);
    let zone = now.time_zone();
    let named = zone.iana_name().filter(|name| *name != "UTC" && *name != "Etc/UTC");
    if let Some(name) = named {
        zone::put(&mut lines, name, zone, now);
    }
    for event in events {
        put(&mut lines, event, named, now, number);
    }
    lines.put("END", "VCALENDAR");
    lines.finish()
}

fn put(lines: &mut Lines, event: &Event, zone: Option<&str>, now: &ZonedDateTime, number: u64) {
    lines.put("BEGIN", "VEVENT");
    lines.put("UID", &format!("{}-{number}@care.tapmere.invalid", event.key));
    lines.put(
        "DTSTAMP",
        &format!("{}Z", text::stamp(now.timestamp().to_zoned_datetime(jiff::tz::TimeZone::UTC).datetime())),
    );
    match zone {
        Some(zone) => lines.put(&format!("DTSTART;TZID={zone}"), &text::stamp(event.first)),
        None => {
            let utc = now.time_zone().to_ambiguous_zoned_datetime(event.first).compatible();
            let utc = utc.map_or(event.first, |first| first.with_time_zone(jiff::tz::TimeZone::UTC).datetime());
            lines.put("DTSTART", &format!("{}Z", text::stamp(utc)));
        }
    }
    lines.put("DURATION", &format!("PT{}M", event.minutes));
    if event.every_days > 0 {
        lines.put("RRULE", &rule(event.every_days));
    }
    lines.text("SUMMARY", &event.summary);
    if !event.says.is_empty() {
        lines.text("DESCRIPTION", &event.says.join("\n"));
    }
    lines.put("TRANSP", "TRANSPARENT");
    lines.put("BEGIN", "VALARM");
    lines.put("ACTION", "DISPLAY");
    lines.text("DESCRIPTION", &event.summary);
    lines.put("TRIGGER", "PT0S");
    lines.put("END", "VALARM");
    lines.put("END", "VEVENT");
}

/// The rule of recurrence: whole weeks by the week, so that the day of the week is seen in every calendar.
fn rule(every_days: u32) -> String {
    match every_days {
        1 => "FREQ=DAILY".to_owned(),
        7 => "FREQ=WEEKLY".to_owned(),
        days if days.is_multiple_of(7) => format!("FREQ=WEEKLY;INTERVAL={}", days / 7),
        days => format!("FREQ=DAILY;INTERVAL={days}"),
    }
}
