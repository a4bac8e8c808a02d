//! The letter while nobody has told the sizes of the glass: it asks for them and weighs nothing.

use maud::{Markup, html};

use super::really;
use crate::parts;
use crate::sheet::Sheet;

/// The whole letter, if the glass is still to be told.
pub fn untold(sheet: &Sheet) -> Option<Markup> {
    let question = sheet.question().filter(|question| question.field.starts_with("glass."))?;
    let field = |side: &str| {
        let fields = ["inner", "outer"].map(|from| format!("glass.{from}_{side}"));
        fields.into_iter().find(|field| sheet.has(field)).unwrap_or_default()
    };
    let blanks = html! {
        p {
            "Inside it measures " (sheet.in_unit(&field("length"), "")) " from left to right, "
            (sheet.in_unit(&field("width"), "")) " from front to back and " (sheet.in_unit(&field("height"), ""))
            " in height. What is dotted I only guess: write over it"
            @let fields = ["length", "width", "height"].map(field).join(" ");
            ", or, if you measured just that, say " (sheet.so(&fields, "these are mine", "")) ". Sizes from outside, the glass and the ground stand on "
            a href=(sheet.letter("tank")) { "Tank" } "."
        }
    };
    let answer = html! { (really::lead(sheet)) "Tell me your glass first: until then I weigh nothing." };
    let under = html! { (really::each(sheet)) (parts::question(question, &[blanks])) };
    Some(sheet.opening(html! { (sheet.today.words()) }, answer, under))
}
