//! What to find out first, where little was told: the few numbers that everything else hangs on, in the order of doing.

use maud::{Markup, html};
use quantity::{Ion, Kind};
use setup::Tank;

use super::{glass, kind, living};
use crate::sheet::Sheet;

/// The verse; empty where all of it was told.
pub fn verse(sheet: &Sheet, tank: &Tank) -> Markup {
    let steps: Vec<Markup> = [size(sheet, tank), animals(sheet, tank), change(sheet, tank), tap(sheet, tank)]
        .into_iter()
        .flatten()
        .collect();
    if steps.is_empty() {
        return html! {};
    }
    sheet.verse(
        "First of all",
        html! {
            p { "Write in what you know, one line after the other. What you don’t know can wait: I take what is usual, and list it at the end of this letter." }
            ol.assumptions { @for step in &steps { li { (step) } } }
        },
    )
}

fn size(sheet: &Sheet, tank: &Tank) -> Option<Markup> {
    let sides = &sheet.setup.inside().sides;
    let [length, width, height] = &sides;
    glass::untold(tank).then(|| {
        html! {
            b { "Measure the glass" } ", inside: " (sheet.in_unit(&length.field, "")) " long, " (sheet.in_unit(&width.field, ""))
            " from front to back, " (sheet.in_unit(&height.field, "")) " high."
        }
    })
}

fn animals(sheet: &Sheet, tank: &Tank) -> Option<Markup> {
    living::untold(tank).then(|| {
        html! {
            b { "Count who lives in it" } ": grown fish " (sheet.blank("animals.fish", ",")) " shrimps " (sheet.blank("animals.shrimps", ","))
            " snails " (sheet.blank("animals.snails", ".")) " If nobody does yet, write 0."
        }
    })
}

fn change(sheet: &Sheet, tank: &Tank) -> Option<Markup> {
    (kind(tank, "habits.change") != Kind::Measured || kind(tank, "habits.every") != Kind::Measured).then(|| {
        html! {
            b { "Say how you change water" } ": " (sheet.in_unit("habits.change", ",")) " and again after " (sheet.in_unit("habits.every", "."))
        }
    })
}

/// The report of the supplier, where it is not known.
fn tap(sheet: &Sheet, tank: &Tank) -> Option<Markup> {
    let told = |ion: Ion| tank.tap.mg_per_l(ion).kind != Kind::Assumed;
    let known = told(Ion::Nitrate) && (told(Ion::Calcium) || sheet.setup.number("tap.hardness").is_some());
    (!known).then(|| {
        html! {
            b { "Look up your tap" } ": your water supplier gives a yearly report to whoever asks. What it says goes into "
            a href=(sheet.letter("tap")) { "Tap" } "."
        }
    })
}
