//! Away: what to reduce, the sitter's card, a dose that was missed or doubled, another tap, the end of a tank.

mod card;
mod other_tap;

use care::away::{Ask, Away};
use care::missed::{Doubled, Missed};
use logbook::{Filter, Log};
use maud::{Markup, html};
use recipe::Plan;
use setup::{Setup, Tank};

use crate::act::{Act, Asked, Logs, Refused};
use crate::blank::Blank;
use crate::salts::reading::{Reading, by_reading, readings};
use crate::sheet::{Sheet, first_tank};
use crate::start::{ask, list_of, missing_glass, number_told, slip};
use crate::words::{capital, figures, glued, sentence};

/// What the letter has to do with the logbook: it reads when the last dose was and what was read of the tank.
pub const LOGS: Logs = Logs { reads, also: Some(animals), enter: None, acts: none };

fn reads(asked: &Asked) -> Filter {
    care::reads(asked.now)
}

fn animals(_: &Asked) -> Filter {
    care::animals()
}

/// Nothing here writes into the log.
fn none(_: &Act, _: &mut dyn Log) -> Result<String, Refused> {
    Ok(String::new())
}

/// No number of the setup stands on this letter.
pub fn blanks(_: &Setup, _: &Tank, _: &Plan) -> Vec<Blank> {
    Vec::new()
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    if let Some(untold) =
        missing_glass(sheet, "Tell me your glass first: how long things last follows from its litres.")
    {
        return untold;
    }
    let all = readings(sheet.answer);
    let asked = asked(sheet);
    let log: Vec<logbook::Kept> = sheet.log.iter().chain(sheet.log_also).cloned().collect();
    let of = |r: &Reading| care::away::away(r.tank, r.plan, asked, &log, sheet.now);
    let away: Vec<One> = all.iter().map(|r| (r.clone(), of(r))).collect();
    html! {
        (opening(sheet, &away))
        @if !away.is_empty() {
            (verse(sheet, &away, "Before you go", |a| &a.before, true))
            (verse(sheet, &away, "While you are away", |a| &a.reduced, false))
            (card::verse(sheet, &away))
            (verse(sheet, &away, "When you are back", |a| &a.back, true))
            (missed(sheet, &all))
            (doubled(sheet, &all))
            (other_tap::verse(sheet, &all))
            (stopping(sheet, &all))
        }
    }
}

/// One reading of the tank with its absence.
type One<'a> = (Reading<'a>, Away);

/// What was asked; what can't be read counts as not asked, and is said beside its field.
fn asked(sheet: &Sheet) -> Ask {
    let usual = usual(sheet);
    let leaving = sheet.said.typed.get("leaving").and_then(|text| text.trim().parse().ok());
    Ask {
        days: number_told(sheet, "days").map_or(usual.days, |days| days as u32),
        leaving,
        light_h: number_told(sheet, "light").unwrap_or(usual.light_h),
    }
    .within()
}

/// Two weeks, and the light that the letter tells.
fn usual(sheet: &Sheet) -> Ask {
    first_tank(sheet.answer).map_or_else(Ask::default, Ask::of)
}

fn opening(sheet: &Sheet, away: &[One]) -> Markup {
    let usual = usual(sheet);
    let dateline =
        html! { (sheet.today.words()) @if let Some(name) = sheet.setup.written("tank.name") { " · " (name) } };
    let too_long = sheet.said.typed.get("days").and_then(|text| quantity::parse_number(text.trim()).ok());
    let too_long = too_long.is_some() && number_told(sheet, "days").is_none();
    let answer = match away.first() {
        Some(_) if too_long => {
            format!("So long an absence I can’t plan: 1 to {} days. Below stands {}.", Ask::most_days(), usual.days)
        }
        Some((_, first)) => glued(&first.answer),
        None => "One question first: too much is open to plan an absence.".to_owned(),
    };
    let asks = html! {
        p {
            "Away for " (ask(sheet, "days", "Days away", "days", &usual.days.to_string()))
            ", leaving on " (ask(sheet, "leaving", "Day of leaving, year-month-day", "", ""))
            "; at home the light burns " (ask(sheet, "light", "Light at home, hours a day", "hours", &figures(&sheet.units, usual.light_h, 2)))
            ". " button.again formmethod="get" name="do" value="read" { "Work it out" }
        }
    };
    sheet.opening(dateline, html! { (answer) }, html! { (slip(sheet)) (asks) })
}

fn verse(sheet: &Sheet, away: &[One], head: &str, of: fn(&Away) -> &Vec<recipe::Note>, ordered: bool) -> Markup {
    let readings: Vec<Reading> = away.iter().map(|(r, _)| r.clone()).collect();
    let found = |r: &Reading| away.iter().find(|(other, _)| std::ptr::eq(other.plan, r.plan)).map(|(_, a)| a);
    let shown = by_reading(
        &readings,
        |r| found(r).map(|a| of(a).clone()),
        |r| html! { @if let Some(a) = found(r) { (list_of(sheet, of(a), &a.whys, ordered)) (lasts(sheet, a, ordered)) } },
    );
    sheet.verse(head, shown)
}

/// The numbers behind how long things last, each with its note.
fn lasts(sheet: &Sheet, away: &Away, ordered: bool) -> Markup {
    if ordered {
        return html! {};
    }
    let days = |l: &care::away::Lasts| l.days.map(|d| figures(&sheet.units, d.floor(), 2));
    html! {
        p.small {
            @for l in &away.lasts {
                @if let (Some(days), Some(why)) = (days(l), away.why(&format!("lasts-{}", l.ion.name()))) {
                    (capital(l.ion.name())) " " (sheet.out(&format!("{days} days"), why)) ". "
                }
            }
            @if let Some(why) = away.why("evaporates") {
                "Waterline " (sheet.out(&format!("{} mm", figures(&sheet.units, away.water.falls_mm.value, 2)), why)) "."
            }
        }
    }
}

fn missed(sheet: &Sheet, all: &[Reading]) -> Markup {
    let told = number_told(sheet, "missed").map(|n| n as u32);
    let of = |r: &Reading| care::missed::missed(r.tank, r.plan, told, sheet.log, sheet.now);
    let usual = all.first().map_or(1, |r| care::missed::missed_by_log(r.plan, sheet.log, sheet.now));
    let shown = by_reading(
        all,
        |r| of(r).notes,
        |r| {
            let m: Missed = of(r);
            html! {
                p { b { (sentence(&m.answer)) } @if let Some(why) = m.whys.first() { (sheet.why(Some(why))) } }
                (list_of(sheet, &m.notes, &m.whys, false))
            }
        },
    );
    sheet.verse(
        "A dose was missed",
        html! {
            p {
                "No dose for " (ask(sheet, "missed", "Days without a dose", "days", &usual.to_string())) "? "
                button.again formmethod="get" name="do" value="read" { "Work it out" }
            }
            (shown)
        },
    )
}

fn doubled(sheet: &Sheet, all: &[Reading]) -> Markup {
    let times = number_told(sheet, "times").unwrap_or(2.0);
    let of = |r: &Reading| care::missed::doubled(r.tank, r.plan, times);
    let shown = by_reading(
        all,
        |r| of(r),
        |r| {
            let bottles: Vec<Doubled> = of(r);
            html! {
                @if bottles.is_empty() { p { "Nothing is dosed in this tank." } }
                @for d in &bottles {
                    p.must[d.changes > 0] { b { (d.bottle) "." } " " (sentence(&d.says)) @if d.changes > 0 { (sheet.why(Some(&d.why))) } }
                }
            }
        },
    );
    sheet.verse(
        "A dose was given twice",
        html! {
            p {
                "Given " (ask(sheet, "times", "Times a dose was given", "times", "2")) " on one day? "
                button.again formmethod="get" name="do" value="read" { "Work it out" }
            }
            (shown)
        },
    )
}

fn stopping(sheet: &Sheet, all: &[Reading]) -> Markup {
    let of = |r: &Reading| care::stopping::stopping(r.tank, r.plan);
    let shown = by_reading(all, |r| of(r), |r| list_of(sheet, &of(r), &[], true));
    sheet.verse("When the tank comes to its end", shown)
}
