//! Paper: one sheet for the wall, to be read from two metres, and the sheet of the change. Seen in print alone.

use care::{ChangeSheet, Day};
use maud::{Markup, html};
use recipe::Plan;

use super::{One, day_name, label};
use crate::sheet::Sheet;
use crate::words::{NB, count, figures, glued, litres_of, sentence};

/// Both sheets.
pub(super) fn sheets(sheet: &Sheet, all: &[One], name: &str) -> Markup {
    let Some(first) = all.first() else { return html! {} };
    html! {
        section.wall aria-label="Sheet for the wall" {
            h2.wall-title { (name) }
            ul.wall-days {
                @for line in shared(sheet, all) { li { (line) } }
                @if all.len() > 1 { @for one in all {
                    @for line in own(sheet, one, all) { li { b { "If “" (label(one)) "”:" } " " (line) } }
                } }
            }
            (help(sheet, first))
            (ticks(first))
        }
        @let change = |one: &One| one.day.change.clone().filter(|change| change.stop.is_none());
        @let same = all.iter().all(|one| change(one) == change(first));
        @for one in all.iter().take(if same { 1 } else { all.len() }) { @if let Some(change) = change(one) {
            @let head = if same { "Changing water".to_owned() } else { format!("Changing water, if “{}”", label(one)) };
            section.wall.change-sheet aria-label=(head) {
                h2.wall-title { (head) }
                (steps(sheet, &change))
            }
        } }
    }
}

/// What is done when: a head and words.
fn lines(sheet: &Sheet, day: &Day) -> Vec<(String, String)> {
    let mut lines: Vec<(String, String)> = day
        .every_day
        .iter()
        .map(|line| match line.split_once(", ") {
            Some((when, what)) => (when.to_owned(), what.to_owned()),
            None => (String::new(), line.clone()),
        })
        .collect();
    lines.extend(day.change.as_ref().map(|change| (when(day, change), in_short(sheet, change))));
    lines
}

/// "Saturday", or "Every 5 days".
fn when(day: &Day, change: &ChangeSheet) -> String {
    // The wall hangs for weeks: the usual day, whatever day it was carried on to.
    let usual = jiff::civil::Weekday::from_monday_one_offset(day.change_weekday as i8);
    let weekday = day_name(usual.unwrap_or_else(|_| change.date.weekday()));
    if change.stop.is_some() {
        "No change of water".to_owned()
    } else if day.change_every_days.is_multiple_of(7) {
        match day.change_every_days / 7 {
            1 => format!("Every {weekday}"),
            n => format!(
                "Every {} {weekday}",
                ["", "", "second", "third", "fourth"].get(n as usize).copied().unwrap_or("next")
            ),
        }
    } else if day.change_every_days == 1 {
        "Every day".to_owned()
    } else {
        format!("Every {} days", count(day.change_every_days as usize))
    }
}

/// The change in short words, the order of people and animals kept.
fn in_short(sheet: &Sheet, change: &ChangeSheet) -> String {
    if let Some(stop) = &change.stop {
        return stop.clone();
    }
    let units = &sheet.units;
    let mut parts = vec!["plugs out with dry hands, 15 minutes".to_owned()];
    if !change.first.is_empty() {
        parts.insert(0, "first read the sheet of the change".to_owned());
    }
    if change.for_now {
        // The wall hangs for weeks; these litres don't.
        parts.push("litres, conditioner and salts as Care says that day".to_owned());
        parts.push("over the heater’s mark: plugs back".to_owned());
        return parts.join(" · ");
    }
    let (buckets, each) = change.buckets;
    let ml = change.conditioner_ml.map(|ml| format!("{}{NB}mL of your own conditioner", figures(units, ml, 3)));
    match (buckets, ml) {
        (0, Some(ml)) => parts.push(format!("{ml} for the whole tank before the water")),
        (0, None) => {}
        (n, Some(ml)) => parts.push(format!("{} × {}, {ml} first in each, stir, 5 minutes", n, litres_of(units, each))),
        (n, None) => parts.push(format!("{} × {}", n, litres_of(units, each))),
    }
    if change.salts {
        parts.push("salts by the sheet of the change".to_owned());
    }
    if let Some(warmth) = change.warmth.filter(|warmth| warmth.too_much) {
        let than = if warmth.moves_c < 0.0 { "colder" } else { "warmer" };
        let mildest = quantity::amount::Temperature::celsius(warmth.mildest_c)
            .print_with(units, quantity::Digits::Significant(3));
        parts.push(format!("like the tank, never {than} than {}", mildest.replace(' ', NB)));
    }
    parts.push(format!("{} out, as much in", litres_of(units, change.litres)));
    parts.push("over the heater’s mark: plugs back".to_owned());
    parts.join(" · ")
}

fn line((when, what): &(String, String)) -> Markup {
    html! { @if !when.is_empty() { b { (when) ":" } " " } (glued(what)) }
}

/// Lines on which all readings agree.
fn shared(sheet: &Sheet, all: &[One]) -> Vec<Markup> {
    let Some((first, others)) = all.split_first() else { return Vec::new() };
    let same = |line: &&(String, String)| others.iter().all(|other| lines(sheet, &other.day).contains(line));
    lines(sheet, &first.day).iter().filter(same).map(line).collect()
}

/// Lines of one reading alone.
fn own(sheet: &Sheet, one: &One, all: &[One]) -> Vec<Markup> {
    let other = |found: &&(String, String)| !all.iter().all(|other| lines(sheet, &other.day).contains(found));
    lines(sheet, &one.day).iter().filter(other).map(line).collect()
}

/// What to do when fish are at the surface, with the keeper's own amount of conditioner.
fn help(sheet: &Sheet, one: &One) -> Markup {
    let plan: &Plan = one.reading.plan;
    let c = plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none() && c.ml_whole_tank > 0.0);
    html! {
        div.wall-help {
            p { b { "Fish at the surface?" } " Plugs out with dry hands, not the air pump outside. Carbon dioxide off. Smoke or spray: window first. Air on. No food." }
            p.wall-small {
                "Hissing, headache: out of the room, door open, call. Someone shocked: power off before you touch them; fuse box only on dry ground. "
                @if let Some(c) = c {
                    "Conditioner for the whole tank: " b { (figures(&sheet.units, c.ml_whole_tank, 3)) (NB) "mL" } " of the one mixed as Salts says; a bought one: as its label says. "
                }
                "Cool or warm by 1 °C an hour, 2 at a time. Not changed for months: a tenth, again each hour, with an ammonia test. "
                "Tap smells, is brown, a notice: no change, air only. Power cut: no generator, grill or stove indoors. "
                "Swallowed, in the eye: poison centre. All of it: the notice Help now."
            }
        }
    }
}

/// Boxes to tick, an act a row, a day a column.
fn ticks(one: &One) -> Markup {
    let back = i64::from(one.day.date.weekday().to_monday_zero_offset());
    let monday = one.day.date.checked_sub(jiff::ToSpan::days(back)).unwrap_or(one.day.date);
    html! {
        table.wall-ticks {
            caption { "Week of Monday " (monday.strftime("%-d %B")) }
            thead { tr { th scope="col" { "done" } @for day in ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] { th scope="col" { (day) } } } }
            tbody { @for act in rows(one) { tr { th scope="row" { (act) } @for _ in 0..7 { td {} } } } }
        }
    }
}

/// What is ticked off: the acts of every day, and the change.
fn rows(one: &One) -> Vec<String> {
    let daily = one.day.every_day.iter().map(|act| act.split_once(", ").map_or(act.as_str(), |(_, what)| what));
    let change = one.day.change.as_ref().filter(|change| change.stop.is_none()).map(|_| "water changed");
    daily.chain(change).map(str::to_owned).collect()
}

fn steps(sheet: &Sheet, change: &ChangeSheet) -> Markup {
    html! {
        @for first in &change.first { p.wall-first { (sentence(first)) } }
        p.wall-first { b { (litres_of(&sheet.units, change.litres)) } " in all." }
        ol.wall-steps { @for step in &change.steps {
            li {
                span.tick aria-hidden="true" {}
                b { (sentence(&step.say)) }
                @for mind in &step.minds { p.wall-small { (sentence(mind)) } }
            }
        } }
        @if !change.along.is_empty() {
            p.wall-first { "While the plugs are out: " (change.along.iter().map(|act| act.name.to_lowercase()).collect::<Vec<_>>().join(" · ")) "." }
        }
    }
}
