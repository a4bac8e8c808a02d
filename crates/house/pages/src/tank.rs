//! Tank: a letter about the glass and who lives in it.

use maud::{Markup, html};
use recipe::Plan;
use setup::Tank;

use crate::blank::Blank;
use crate::sheet::{Sheet, first_tank};
use crate::words::level;

/// The blanks of this letter.
pub fn blanks(_tank: &Tank, _plan: &Plan) -> Vec<Blank> {
    Vec::new()
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    let litres = first_tank(sheet.answer).map_or(0.0, |tank| tank.geometry.true_l.value);
    sheet.opening(
        html! { (sheet.today.words()) },
        html! { (level(&sheet.units, litres)) " L of water stand in the glass." },
        html! {},
    )
}
