//! Measure: a letter about the numbers that only the keeper can find, each with its protocol; the result is taken at once.
//!
//! Readings are typed and worked out by GET, so nothing is kept of them; "take it as measured" writes the fields by POST.

mod protocol;

use jiff::ToSpan;
use logbook::{Filter, Log};
use maud::{Markup, html};
use measure::Name;
use quantity::{Kind, Known};
use recipe::Plan;
use setup::{Setup, Tank};

use crate::act::{Act, Asked, Logs, Refused};
use crate::blank::Blank;
use crate::sheet::{Sheet, first_tank};
use crate::words::{capital, glued};

/// What stands on no other letter, number by number.
const NUMBERS: [&str; 7] = [
    "measured.litres",
    "plants.uptake_phosphate",
    "plants.uptake_potassium",
    "measured.flow",
    "measured.photons",
    "measured.heat_loss",
    "measured.oxygen_exchange",
];
/// Yes or no.
const FLAGS: [&str; 2] = ["measured.ground_lime", "measured.ground_ammonia"];

/// The name of the query that says which protocol is open.
const WHICH: &str = "measure";

/// What the letter has to do with the logbook: it reads the cuts.
pub const LOGS: Logs = Logs { reads: cuts, also: None, enter: None, acts: none };

/// Days of cuts that are counted together.
const DAYS: i64 = 120;

fn cuts(asked: &Asked) -> Filter {
    let from = asked.now.checked_sub(DAYS.days()).ok().map(|day| day.timestamp());
    Filter { from, kinds: vec!["trim".to_owned()], ..Filter::default() }
}

/// Nothing is written into the log here.
fn none(_: &Act, _: &mut dyn Log) -> Result<String, Refused> {
    Ok(String::new())
}

/// The blanks of this letter: what was measured, empty where it was not.
pub fn blanks(setup: &Setup, tank: &Tank, _: &Plan) -> Vec<Blank> {
    let number = |field: &&str| {
        let told = setup.number(field);
        let known = told.unwrap_or(Known::exact(0.0, Kind::Assumed));
        let blank = Blank::of(field, known, &tank.units)?;
        Some(if told.is_some() { blank } else { Blank { shown: String::new(), ..blank } })
    };
    let flag = |field: &&str| {
        let label = capital(&setup::field_of(field)?.label);
        let shown = setup.written(field).unwrap_or_default();
        let kind = if shown.is_empty() { Kind::Assumed } else { Kind::Measured };
        let words = [("", "not tested"), ("true", "yes"), ("false", "no")];
        Some(Blank::choice(field, &shown, &label, kind, &words))
    };
    NUMBERS.iter().filter_map(number).chain(FLAGS.iter().filter_map(flag)).collect()
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    let Some(tank) = first_tank(sheet.answer) else {
        return sheet.opening(html! { (sheet.today.words()) }, html! { "One question first." }, html! {});
    };
    match sheet.said.typed.get(WHICH).and_then(|key| Name::of(key).ok()) {
        Some(name) => html! { (protocol::write(sheet, tank, name)) (all(sheet, tank)) },
        None => html! { (opening(sheet)) (all(sheet, tank)) },
    }
}

fn opening(sheet: &Sheet) -> Markup {
    let under = html! {
        p { "Each takes an evening, once. With a number of your own a guess goes, and its range with it." }
    };
    sheet.opening(html! { (sheet.today.words()) }, html! { "Some numbers only you can find." }, under)
}

/// Every protocol, with what is known already.
fn all(sheet: &Sheet, tank: &Tank) -> Markup {
    sheet.verse(
        "What can be measured",
        html! {
            ul.protocols { @for name in Name::ALL { @if let Some(protocol) = name.protocol() {
                li {
                    a href=(format!("{}?{WHICH}={}", sheet.letter("measure"), name.key())) { b { (protocol.name) } }
                    ": " (protocol.asks) " " (known(sheet, tank, name))
                }
            } } }
        },
    )
}

/// A blank whose unit has several words: only the first never breaks away.
fn long(sheet: &Sheet, field: &str) -> Markup {
    let unit = sheet.blanks.get(field).map_or_else(String::new, |blank| glued(&blank.unit));
    let (first, rest) = unit.split_once(' ').unwrap_or((&unit, ""));
    html! { (sheet.blank(field, &format!(" {first}"))) " " (rest) }
}

/// What is known of it already.
fn known(sheet: &Sheet, tank: &Tank, name: Name) -> Markup {
    let one = |field: &str| html! { "Measured: " (sheet.in_unit(field, ".")) };
    match name {
        Name::Litres => html! { (one("measured.litres")) " Until then the sizes of the glass count." },
        Name::Trimmings => html! {
            "Taken: " (long(sheet, "plants.uptake_nitrate")) "; " (long(sheet, "plants.uptake_phosphate")) "; "
            (long(sheet, "plants.uptake_potassium")) ". Empty: in proportion to the nitrate."
        },
        Name::Flow => one("measured.flow"),
        Name::Light => one("measured.photons"),
        Name::Heater => one("measured.heat_loss"),
        Name::Cooling => html! { "The same number, by another way." },
        Name::Co2 if tank.co2_given_mg_per_l.is_none() => html! { "Only where carbon dioxide is given." },
        Name::Co2 => html! { "The same number as by oxygen." },
        Name::Oxygen => one("measured.oxygen_exchange"),
        Name::Clay => html! {
            "Lime in the ground: " (sheet.blank("measured.ground_lime", ";")) " ammonia from it: " (sheet.blank("measured.ground_ammonia", "."))
        },
    }
}
