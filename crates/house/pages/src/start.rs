//! Start: set-up day in order, the weeks after it, the start test judged by the log, and animals on their way home.

mod test;
mod told;

use care::start::{Bag, Start, Week};
use logbook::{Filter, Kept};
use maud::{Markup, html};
use recipe::{Note, Plan};
use setup::{Setup, Tank};

use crate::act::{Asked, Logs};
use crate::blank::Blank;
use crate::salts::reading::{Reading, by_reading, readings};
use crate::sheet::Sheet;
use crate::words::{NB, count, figures, glued, litres_of};

pub use told::{ask, list_of, missing_glass, number_told, slip};

/// What the letter has to do with the logbook.
pub const LOGS: Logs = Logs { reads, also: Some(animals), enter: None, acts: test::acts };

/// No number of the setup stands on this letter.
pub fn blanks(_: &Setup, _: &Tank, _: &Plan) -> Vec<Blank> {
    Vec::new()
}

fn reads(asked: &Asked) -> Filter {
    care::start::reads(asked.now).0
}

fn animals(asked: &Asked) -> Filter {
    care::start::reads(asked.now).1
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    if let Some(untold) = missing_glass(sheet, "Tell me your glass first: what goes into it follows from its size.") {
        return untold;
    }
    let bag = bag(sheet);
    let log: Vec<Kept> = sheet.log.iter().chain(sheet.log_also).cloned().collect();
    let all: Vec<(Reading, Start)> = readings(sheet.answer)
        .into_iter()
        .map(|r| {
            let start = care::start::start(sheet.setup, r.tank, r.plan, &log, sheet.now, &bag);
            (r, start)
        })
        .collect();
    let Some((_, first)) = all.first() else { return opening(sheet, None) };
    let may_come = first.test.stage.may_come();
    let begun = first.filled.is_some() || !first.test.rounds.is_empty() || may_come;
    let day = html! { (hand(sheet, &all)) (set_up(sheet, &all)) };
    let test = html! { (test::verse(sheet, &all)) };
    html! {
        (opening(sheet, Some(first)))
        @if begun { (test) } @else { (day) }
        @if may_come { (home(sheet, &all)) (weeks(sheet, &all)) } @else { (weeks(sheet, &all)) }
        @if !begun { (test) }
        @if !may_come { (home(sheet, &all)) }
        @if may_come { details.more.folded { summary { "Set-up day, once more: what to have at hand, and in which order" } (day) } }
        @else if begun { (day) }
    }
}

/// What was told of the bag; what can't be read counts as not told, and is said beside its field.
fn bag(sheet: &Sheet) -> Bag {
    let number = |field: &str| number_told(sheet, field);
    let temperature = sheet.said.typed.get("bag_temperature").map(|text| text.trim()).filter(|text| !text.is_empty());
    Bag {
        temperature_c: temperature
            .and_then(|text| quantity::amount::Temperature::parse_in(text, &sheet.units).ok())
            .map(|t| t.in_celsius())
            .filter(|c| (0.0..=40.0).contains(c)),
        ph: number("bag_ph"),
        ammonia_mg_n_per_l: number("bag_ammonia"),
        conductivity_25_us_per_cm: number("bag_conductivity").filter(|us| *us > 0.0),
    }
}

fn opening(sheet: &Sheet, first: Option<&Start>) -> Markup {
    let dateline =
        html! { (sheet.today.words()) @if let Some(name) = sheet.setup.written("tank.name") { " · " (name) } };
    let answer = match (first, sheet.question()) {
        (Some(start), _) => glued(&start.answer),
        (None, _) => "One question first: too much is open to plan a first day.".to_owned(),
    };
    sheet.opening(dateline, html! { (answer) }, slip(sheet))
}

/// One reading of the tank with its start.
type One<'a> = (Reading<'a>, Start);

/// Shows notes once where all readings agree, else under each reading.
fn agreed(sheet: &Sheet, all: &[One], of: impl Fn(&Start) -> &Vec<Note>, ordered: bool) -> Markup {
    let readings: Vec<Reading> = all.iter().map(|(r, _)| r.clone()).collect();
    let start = |r: &Reading| all.iter().find(|(other, _)| std::ptr::eq(other.plan, r.plan)).map(|(_, start)| start);
    by_reading(
        &readings,
        |r| start(r).map(|s| of(s).clone()),
        |r| html! { @if let Some(s) = start(r) { (list_of(sheet, of(s), &s.whys, ordered)) } },
    )
}

fn hand(sheet: &Sheet, all: &[One]) -> Markup {
    let Some((_, first)) = all.first() else { return html! {} };
    sheet.verse("Have at hand", html! {
        (agreed(sheet, all, |s| &s.hand, false))
        p.small {
            (sheet.out(&figures(&sheet.units, first.plants.value, 3), first.why("plants").unwrap_or(&nothing()))) " plants"
            @if let (Some(bed), Some(why)) = (&first.bed, first.why("ground")) {
                ", " (sheet.out(&format!("{}{NB}kg", figures(&sheet.units, bed.kg.value, 2)), why)) " of ground"
            }
            ": their letters say how I come to them."
        }
    })
}

fn nothing() -> quantity::Why {
    quantity::Why {
        key: String::new(),
        question: String::new(),
        sum: String::new(),
        words: String::new(),
        sources: Vec::new(),
        kind: quantity::Kind::WorkedOut,
    }
}

fn set_up(sheet: &Sheet, all: &[One]) -> Markup {
    let filled = all.first().and_then(|(_, s)| s.filled);
    sheet.verse(
        "Set-up day, in this order",
        html! {
            (agreed(sheet, all, |s| &s.day, true))
            p.on-screen {
                @match filled {
                    Some(day) => { "By your log the tank was filled on " (day.strftime("%-d %B %Y").to_string()) "." }
                    None => {
                        "Is it done? " button.again name="act" value="set_up" { "The tank is filled today" }
                        " writes the day into the log, and the weeks get their dates."
                    }
                }
            }
        },
    )
}

/// Weeks that differ in nothing but their number stand in one row.
fn rows(weeks: &[Week]) -> Vec<(&Week, u32)> {
    let mut rows: Vec<(&Week, u32)> = Vec::new();
    let same = |a: &Week, b: &Week| {
        a.light_h == b.light_h
            && a.change_share == b.change_share
            && a.every_days == b.every_days
            && a.dose_share == b.dose_share
            && a.tests == b.tests
    };
    for week in weeks {
        match rows.last_mut() {
            Some((first, last)) if same(first, week) => *last = week.week,
            _ => rows.push((week, week.week)),
        }
    }
    rows
}

fn weeks(sheet: &Sheet, all: &[One]) -> Markup {
    let Some((_, first)) = all.first() else { return html! {} };
    let units = &sheet.units;
    sheet.verse("Week by week", html! {
        div.scroll { table {
            thead { tr { th scope="col" { "Week" } th scope="col" { "Light" } th scope="col" { "Change" } th scope="col" { "Bottles" } } }
            tbody { @for (week, last) in rows(&first.weeks) {
                tr {
                    th scope="row" {
                        (week.week) @if last > week.week { " to " (last) }
                        @if let Some(from) = week.from { br; span.small { "from " (from.strftime("%-d %b").to_string()) } }
                    }
                    td { (figures(units, week.light_h, 2)) (NB) "h" }
                    td { (change(sheet, week)) }
                    td { (dose(week.dose_share)) }
                }
            } }
        } }
        ul.plain { @for (week, last) in tests(&first.weeks) {
            li { @if last > week.week { "Weeks " (week.week) " to " (last) } @else { "Week " (week.week) } ", test: " (week.tests) "." }
        } }
        (agreed(sheet, all, |s| &s.weeks_notes, false))
    })
}

/// Weeks with the same tests stand in one line.
fn tests(weeks: &[Week]) -> Vec<(&Week, u32)> {
    let mut lines: Vec<(&Week, u32)> = Vec::new();
    for week in weeks {
        match lines.last_mut() {
            Some((first, last)) if first.tests == week.tests => *last = week.week,
            _ => lines.push((week, week.week)),
        }
    }
    lines
}

fn change(sheet: &Sheet, week: &Week) -> Markup {
    let every = match week.every_days {
        0 => return html! { "none" },
        1 => "every day".to_owned(),
        2 => "every second day".to_owned(),
        7 => "once a week".to_owned(),
        n => format!("every {} days", count(n as usize)),
    };
    html! { (litres_of(&sheet.units, week.change_l)) ", " (every) }
}

fn dose(share: f64) -> &'static str {
    match share {
        s if s <= 0.0 => "none",
        s if s < 1.0 => "half",
        _ => "whole",
    }
}

fn home(sheet: &Sheet, all: &[One]) -> Markup {
    let temperature = match sheet.units.temperature {
        quantity::TemperatureUnit::Celsius => "°C",
        quantity::TemperatureUnit::Fahrenheit => "°F",
    };
    sheet.verse("Bringing animals home", html! {
        p {
            "In the bag: " (ask(sheet, "bag_temperature", "Temperature in the bag", temperature, ""))
            ", pH " (ask(sheet, "bag_ph", "pH in the bag", "", ""))
            ", ammonia " (ask(sheet, "bag_ammonia", "Ammonia in the bag", "mg/L as N", ""))
            ", conductivity " (ask(sheet, "bag_conductivity", "Conductivity in the bag", "µS/cm", ""))
            ". What you leave empty I take as usual. "
            button.again formmethod="get" name="do" value="read" { "Work it out" }
        }
        (agreed(sheet, all, |s| &s.home.steps, true))
        p.small {
            "A kit that counts ammonium as " (glued("NH4")) ": times "
            (figures(&sheet.units, quantity::chem::atom::N / quantity::Ion::Ammonium.molar_mass(), 2)) " makes it N."
        }
    })
}
