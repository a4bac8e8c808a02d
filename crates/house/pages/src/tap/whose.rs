//! Whose tap: its name, and the tanks that share it.

use maud::{Markup, html};
use quantity::Kind;
use setup::{Setup, TankEntry};

use crate::blank::Blank;
use crate::ctx::letter;
use crate::sheet::Sheet;
use crate::words::list;

/// The blank of this verse.
pub fn blank(setup: &Setup) -> Blank {
    Blank::number("tap.name", setup.tap_name().unwrap_or_default(), "", "What you call this tap", Kind::Measured)
}

/// Which tanks have this tap. With one tank there is nothing to share.
pub fn verse(sheet: &Sheet) -> Markup {
    let tanks = sheet.place.tanks.unwrap_or_default();
    if tanks.len() < 2 && sheet.setup.tap_name().is_none() {
        return html! {};
    }
    let name = sheet.setup.tap_name();
    let shares = |entry: &&TankEntry| name.is_some() && entry.tap == name && Some(entry.id) != sheet.place.tank;
    let others: Vec<&TankEntry> = tanks.iter().filter(shares).collect();
    let linked: Vec<String> = others
        .iter()
        .map(|entry| html! { a href=(letter(sheet.place.base, entry.id, "tap")) { (entry.label()) } }.into_string())
        .collect();
    sheet.verse(
        "Whose tap",
        html! { p {
            "You call this tap " (sheet.blank("tap.name", ". "))
            @if !others.is_empty() {
                "The same water runs into " (maud::PreEscaped(list(&linked))) ": what you change here changes there. \
                 Another name, and this tank has a tap of its own."
            } @else if name.is_some() {
                "No other tank has a tap of this name."
            } @else {
                "Give it the name that another tank’s tap has, and both have one water."
            }
        } },
    )
}
