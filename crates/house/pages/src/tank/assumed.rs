//! What nobody told, the weightiest first, as blanks where a letter has one.

use maud::{Markup, html};
use setup::{Assumption, Inside, Tank};

use crate::blank::Blank;
use crate::sheet::Sheet;
use crate::words::{capital, glued, sentence};

/// Below this share of the most sensitive answer an assumption stands in the second list.
const LIGHT: f64 = 0.05;

/// A blank for each assumed number, whether or not a letter speaks of it.
pub fn blanks(tank: &Tank, inside: &Inside) -> Vec<Blank> {
    let blank = |a: &Assumption| {
        let known = inside.numbers.get(&a.field)?;
        Some(Blank { kind: a.kind, ..Blank::of(&a.field, *known, &tank.units)? })
    };
    tank.assumed.iter().filter_map(blank).collect()
}

/// The verse.
pub fn verse(sheet: &Sheet, tank: &Tank) -> Markup {
    if tank.assumed.is_empty() {
        return html! {};
    }
    let (heavy, light): (Vec<&Assumption>, Vec<&Assumption>) = tank.assumed.iter().partition(|a| a.weight >= LIGHT);
    sheet.verse(
        "What I assumed",
        html! {
            @if heavy.is_empty() {
                p { "Nothing that matters much." }
            } @else {
                p { "What would move your answers most, if it were otherwise, stands first. Write in what you know" span.on-screen { "; where my guess is right, say that it is so, and I take it as yours" } "." }
                ol.assumptions { @for assumption in heavy { (item(sheet, assumption)) } }
            }
            @if !light.is_empty() {
                details.more {
                    summary { (light.len()) " more that hardly matter" }
                    ul.assumptions { @for assumption in light { (item(sheet, assumption)) } }
                }
            }
        },
    )
}

fn item(sheet: &Sheet, assumption: &Assumption) -> Markup {
    html! {
        li {
            (sentence(&assumption.sentence))
            @if let Some(blank) = sheet.blanks.get(&assumption.field) {
                " Yours: " (sheet.blank(&assumption.field, &format!(" {}", glued(&blank.unit)))) " "
                (sheet.so(&assumption.field, "it is so", &setup::field_of(&assumption.field).map_or_else(String::new, |field| capital(&field.label))))
            }
        }
    }
}
