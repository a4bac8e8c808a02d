//! Another tap after a move: what is typed of it is read and not kept; the way there in changes a day.

use std::collections::BTreeMap;

use care::moving::{Moving, moving, with_tap};
use maud::{Markup, html};
use quantity::{Faults, Measure};
use setup::{Setup, Tank};

use crate::parts;
use crate::salts::reading::Reading;
use crate::sheet::Sheet;
use crate::start::{ask, list_of};
use crate::words::{NB, figures, glued, litres_of, sentence};

/// Fields of the new tap: name in the form, field of the setup, words, unit that the sentence names.
const ASKS: [(&str, &str, &str); 7] = [
    ("tap_alkalinity", "tap.alkalinity", "alkalinity"),
    ("tap_hardness", "tap.hardness", "hardness"),
    ("tap_conductivity", "tap.conductivity", "conductivity"),
    ("tap_nitrate", "tap.nitrate", "nitrate"),
    ("tap_ph", "tap.ph", "pH"),
    ("tap_copper", "tap.copper", "copper"),
    ("tap_chlorine", "tap.total_chlorine", "total chlorine"),
];

/// What was typed of the new tap; `None`: nothing.
fn told(sheet: &Sheet) -> Option<BTreeMap<&'static str, String>> {
    let typed = |name: &str| sheet.said.typed.get(name).map(|text| text.trim().to_owned()).filter(|t| !t.is_empty());
    let all: BTreeMap<&'static str, String> =
        ASKS.into_iter().filter_map(|(name, field, _)| Some((field, typed(name)?))).collect();
    (!all.is_empty()).then_some(all)
}

/// A tank of which only the tap is told.
fn tap(country: &str, told: &BTreeMap<&'static str, String>) -> Result<Tank, Faults> {
    let mut setup = Setup::read("the new tap", "")?.with("tank.country", country)?;
    let mut faults = Faults::new();
    for (field, text) in told {
        match setup.with(field, text) {
            Ok(next) => setup = next,
            Err(more) => faults.0.extend(parts::beside("", more)),
        }
    }
    faults.or(())?;
    setup.tank()
}

/// The verse.
pub fn verse(sheet: &Sheet, all: &[Reading]) -> Markup {
    let Some(reading) = all.first() else { return html! {} };
    let follows = told(sheet).map(|told| match tap(&reading.tank.country, &told) {
        Err(faults) => html! { p.really { (parts::faults(&faults.0)) } },
        Ok(new) => match new.questions.iter().find(|question| question.field.starts_with("tap.")) {
            Some(question) => {
                html! { p.really { (sentence(&question.ask)) " Write it with its unit and what it is counted as." } }
            }
            None => html! { @for r in all { (way(sheet, r, &new, all.len() > 1)) } },
        },
    });
    sheet.verse("Another tap, after a move", html! {
        p {
            "What does the new supplier’s report say? Each with its unit, as it stands there: "
            @for (i, (name, _, words)) in ASKS.iter().enumerate() {
                @if i > 0 { ", " } (words) " " (ask(sheet, name, &format!("New tap: {words}, with its unit"), "", ""))
            }
            ". What you leave empty I take as a usual tap has it. "
            button.again formmethod="get" name="do" value="read" { "Work it out" }
        }
        @if let Some(follows) = follows { (follows) }
    })
}

fn way(sheet: &Sheet, r: &Reading, new: &Tank, named: bool) -> Markup {
    let there = with_tap(r.tank, new);
    let plan = recipe::plan(&there);
    let m = moving((r.tank, r.plan), (&there, &plan), sheet.log, sheet.now);
    html! {
        @if named { h3 { "If “" (glued(r.label.as_deref().unwrap_or("so"))) "”" } }
        p.must[m.stopped.is_some()] { b { (sentence(&m.answer)) } @if let Some(why) = m.whys.first() { (sheet.why(Some(why))) } }
        @if !m.steps.is_empty() { (table(sheet, &m)) }
        (list_of(sheet, &m.notes, &m.whys, false))
    }
}

fn table(sheet: &Sheet, m: &Moving) -> Markup {
    let (units, hard) = (&sheet.units, sheet.units.hardness);
    let (alkalinity, hardness) = (hard.meq_per_unit(Measure::Alkalinity), hard.meq_per_unit(Measure::Hardness));
    let one = |mark: Option<f64>, digits: u8| mark.map_or_else(|| "?".to_owned(), |mark| figures(units, mark, digits));
    let marks = |marks: &care::moving::Marks| {
        html! {
            td.n { (one(marks.alkalinity_meq_per_l.map(|meq| meq / alkalinity), 2)) }
            td.n { (one(marks.hardness_meq_per_l.map(|meq| meq / hardness), 2)) }
            td.n { (one(marks.conductivity_25_us_per_cm, 3)) }
        }
    };
    let untold = m.from.all().contains(&None);
    let coldest = |c: f64| quantity::amount::Temperature::celsius(c).print_with(units, quantity::Digits::Decimals(0));
    html! {
        div.scroll { table {
            thead { tr {
                th scope="col" { "Day" } th.n scope="col" { "New" } th.n scope="col" { "At least" }
                th.n scope="col" { (hard.name(Measure::Alkalinity)) } th.n scope="col" { (hard.name(Measure::Hardness)) } th.n scope="col" { "µS/cm" }
            } }
            tbody {
                tr { th scope="row" { "now" } td.n { "" } td.n { "" } (marks(&m.from)) }
                @for step in &m.steps { tr {
                    th scope="row" { (step.day) }
                    td.n { (litres_of(units, step.litres)) }
                    td.n { @if step.may_be_too_cold() { (coldest(step.coldest_c).replace(' ', NB)) } }
                    (marks(&step.after))
                } }
                tr { th scope="row" { "then" } td.n { "" } td.n { "" } (marks(&m.to)) }
            }
        } }
        p.small { "New: litres of new water that day. At least: the coldest it may be, for the tank then moves by a degree. The last line is the new water itself." @if untold { " “?”: nobody knows before it is tested." } }
    }
}
