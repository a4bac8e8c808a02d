//! Care: what to do today in big type, the week under it; printed, a sheet for the wall and the sheet of the change.

mod act;
mod change;
mod done;
mod file;
mod noticed;
mod wall;

use care::{Day, Later};
use logbook::Filter;
use maud::{Markup, html};
use quantity::Kind;
use recipe::Plan;
use setup::{Setup, Tank};

use crate::act::{Asked, Logs};
use crate::blank::Blank;
use crate::parts;
use crate::salts::reading::{Reading, readings};
use crate::sheet::Sheet;
use crate::start::missing_glass;
use crate::words::{NB, glued, sentence};

pub use file::file;

/// What the letter has to do with the logbook.
pub const LOGS: Logs = Logs { reads, also: Some(animals), enter: Some(done::TYPED), acts: done::acts };

fn reads(asked: &Asked) -> Filter {
    care::reads(asked.now)
}

fn animals(_: &Asked) -> Filter {
    care::animals()
}

/// The blanks of this letter.
pub fn blanks(setup: &Setup, tank: &Tank, _: &Plan) -> Vec<Blank> {
    let kind = |field: &str| if setup.written(field).is_some() { Kind::Measured } else { Kind::Assumed };
    let days = jiff::civil::Weekday::Monday.cycle_forward().take(7).map(|day| (day_word(day), day_name(day)));
    let days: Vec<(&str, &str)> = days.collect();
    let day = usize::from(tank.keeping.change_day).wrapping_sub(1);
    let shown = days.get(day).map_or("saturday", |(text, _)| *text);
    let says = "Day of the week on which water is changed";
    vec![Blank::choice("care.change_day", shown, says, kind("care.change_day"), &days)]
}

/// A day of the week, as the setup writes it.
fn day_word(day: jiff::civil::Weekday) -> &'static str {
    use jiff::civil::Weekday::*;
    match day {
        Monday => "monday",
        Tuesday => "tuesday",
        Wednesday => "wednesday",
        Thursday => "thursday",
        Friday => "friday",
        Saturday => "saturday",
        Sunday => "sunday",
    }
}

/// A day of the week in a sentence.
fn day_name(day: jiff::civil::Weekday) -> &'static str {
    use jiff::civil::Weekday::*;
    match day {
        Monday => "Monday",
        Tuesday => "Tuesday",
        Wednesday => "Wednesday",
        Thursday => "Thursday",
        Friday => "Friday",
        Saturday => "Saturday",
        Sunday => "Sunday",
    }
}

/// A reading of the tank with its day.
pub(crate) struct One<'a> {
    /// The reading.
    pub reading: Reading<'a>,
    /// Its day.
    pub day: Day,
}

/// All readings with their days; empty where too much is open.
pub(crate) fn days<'a>(answer: &'a recipe::Answer, log: &[logbook::Kept], now: &jiff::ZonedDateTime) -> Vec<One<'a>> {
    let all = readings(answer).into_iter();
    all.map(|reading| One { day: care::day(reading.tank, reading.plan, log, now), reading }).collect()
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    let log: Vec<logbook::Kept> = sheet.log.iter().chain(sheet.log_also).cloned().collect();
    let all = days(sheet.answer, &log, sheet.now);
    if let Some(untold) =
        missing_glass(sheet, "Tell me your glass first: litres, doses and changes follow from its size.")
    {
        return html! { (act::alarms(sheet, &all)) (untold) };
    }
    let name = sheet.setup.written("tank.name").unwrap_or_else(|| "Your tank".to_owned());
    html! {
        div.care {
            (opening(sheet, &all, &name))
            @if let [One { day, .. }] = all.as_slice() {
                (change::today(sheet, day, &|_| true))
                (week(sheet, day, true))
                (change::later(sheet, day))
                (noticed::verses(sheet, day))
            } @else {
                @for (n, one) in all.iter().enumerate() {
                    // What all agree on has one button.
                    @let ticked = |act: &care::Act| n == 0 && done::agreed(&all, &act.key).is_some();
                    (sheet.verse("", html! { h3 { "If “" (label(one)) "”" } }))
                    (change::today(sheet, &one.day, &ticked))
                    (week(sheet, &one.day, false))
                    (change::later(sheet, &one.day))
                }
                @if let [first, ..] = all.as_slice() { (noticed::verses(sheet, &first.day)) }
            }
            (paper(sheet, &all))
        }
        (wall::sheets(sheet, &all, &name))
    }
}

/// What a reading is called.
pub(crate) fn label(one: &One) -> String {
    glued(one.reading.label.as_deref().unwrap_or("so"))
}

fn opening(sheet: &Sheet, all: &[One], name: &str) -> Markup {
    let dateline = html! { (sheet.today.words()) " · " (name) };
    let under = html! {
        (act::alarms(sheet, all))
        @if let Some(question) = sheet.question() {
            @if sheet.said.unknown.as_deref() == Some(question.field.as_str()) { (parts::ask_whom(question)) }
            (parts::question(question, &follows(sheet, question, all)))
        }
        (act::today(sheet, all))
    };
    sheet.opening(dateline, html! { "Today" }, under)
}

/// What follows from each reply: the acts of today on which not all agree.
fn follows(sheet: &Sheet, question: &setup::Question, all: &[One]) -> Vec<Markup> {
    if all.len() != question.replies.len() {
        return Vec::new();
    }
    let shared = act::shared(all);
    let one = |one: &One| {
        let other = one.day.today.iter().filter(|act| !shared.contains(&act.key.as_str()));
        let named: Vec<String> = other.map(|act| act::named(sheet, act)).collect();
        match named.as_slice() {
            [] => html! { "Today’s acts stay as they are." },
            named => html! { (glued(&named.join("; "))) "." },
        }
    };
    all.iter().map(one).collect()
}

/// What suits any day of the week, and the six days after today. While a question is open nothing of it is ticked off.
fn week(sheet: &Sheet, day: &Day, settled: bool) -> Markup {
    sheet.verse(
        "This week",
        html! {
            p.small { (sentence(&day.kind_says)) }
            @if !day.also.is_empty() {
                p { "Due, and no more than today holds: on whichever day suits." }
                @if settled {
                    ul.acts.along aria-label="This week’s acts" { @for act in &day.also { li { (act::row(sheet, day, act)) } } }
                } @else {
                    ul.plain { @for act in &day.also { li { (sentence(&act::named(sheet, act))) } } }
                }
            }
            ul.week {
                @for later in &day.week {
                    li { span.day { (short(later.date)) } div { (of_day(sheet, day, later)) } }
                }
            }
            @if day.change_every_days > 0 && day.change_every_days.is_multiple_of(7) {
                p { "Water is changed on a " (sheet.blank("care.change_day", ".")) }
            }
        },
    )
}

fn of_day(sheet: &Sheet, day: &Day, later: &Later) -> Markup {
    let acts: Vec<String> = later.acts.iter().map(|act| act::named(sheet, act)).collect();
    let has_sheet = day.change.as_ref().is_some_and(|change| change.date == later.date);
    html! {
        @if later.change { p { b { "Change water." } @if has_sheet { " Its sheet stands below." } } }
        @for act in &acts { p { (sentence(act)) } }
        @if acts.is_empty() && !later.change { p { "Nothing beside every day." } }
    }
}

/// "Fri 12".
pub(crate) fn short(date: jiff::civil::Date) -> String {
    format!("{}{NB}{}", date.strftime("%a"), date.day())
}

/// What there is beside this page: paper, and the calendar.
fn paper(sheet: &Sheet, all: &[One]) -> Markup {
    sheet.verse("On paper", html! {
        p.on-screen { "Print this page: a sheet for the wall comes out, and the sheet of the change." }
        p.on-screen {
            "Going away, a dose missed, another tap: " a href=(sheet.letter("away")) { "Away" } ", with the sitter’s card. Not begun yet, or waiting for its first animals: "
            a href=(sheet.letter("start")) { "Start" } "."
        }
        @if sheet.question().is_none() && all.len() == 1 {
            p.on-screen {
                "For your phone’s own reminders: " a href=(format!("{}.ics", sheet.letter("care"))) download="care.ics" { "the routine as a calendar" } "."
            }
        }
    })
}
