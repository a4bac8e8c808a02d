//! Numbers far from usual: asked at the head of the letter, each with its blank, before anything is weighed.

use maud::{Markup, html};
use quantity::Kind;
use setup::{Setup, Tank};

use crate::blank::Blank;
use crate::sheet::Sheet;
use crate::words::{capital, counted};

/// A blank for each such number, as the keeper wrote it; a letter that has a better one for the field wins.
pub fn blanks(setup: &Setup, tank: &Tank) -> Vec<Blank> {
    let blank = |(field, _): &(String, String)| {
        let says = capital(&setup::field_of(field)?.label);
        let written = setup.written(field)?;
        let (shown, unit) = parted(&written);
        Some(Blank::number(field, shown.to_owned(), unit, &says, Kind::Measured))
    };
    tank.unusual.iter().filter_map(blank).collect()
}

/// A number and the unit behind it, so that a bare number typed over it keeps the unit; a range stays whole.
fn parted(written: &str) -> (&str, &str) {
    let number = |text: &str| text.chars().all(|c| c.is_ascii_digit() || c == '.' || c == ',');
    written.trim().split_once(' ').filter(|(n, unit)| number(n) && !unit.starts_with("to ")).unwrap_or((written, ""))
}

/// What goes before the answer.
pub fn lead(sheet: &Sheet) -> Markup {
    let count = sheet.unusual.len();
    html! {
        @if count > 0 {
            span.really {
                "Really? " (capital(&counted(count, "number is", "numbers are")))
                " far from usual. Look at " @if count == 1 { "it" } @else { "them" } " before you weigh anything."
            } " "
        }
    }
}

/// Each of them with its blank; what is wrong with it stands behind.
pub fn each(sheet: &Sheet) -> Markup {
    html! {
        @for (field, sentence) in sheet.unusual {
            @if sheet.has(field) {
                @let label = setup::field_of(field).map_or_else(String::new, |table| capital(&table.label));
                @let bare = sheet.blanks.get(field).is_some_and(|blank| blank.unit.is_empty());
                p { (label) ": " @if bare { (sheet.blank(field, ".")) } @else { (sheet.in_unit(field, ".")) } }
            } @else {
                p.really { (sentence) }
            }
        }
    }
}
