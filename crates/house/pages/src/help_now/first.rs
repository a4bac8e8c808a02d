//! The first page: fish at the surface in full, then every other trouble with its first acts.

use maud::{Markup, html};
use trouble::{Sheet, sheets};

use super::HELP_NOW;
use super::notice::{people, steps};
use crate::ctx::Place;
use crate::parts::{Head, frame};

/// How many acts of each other trouble stand on the first page, and on the second sheet of paper.
const ACTS: usize = 3;

/// The whole page.
pub fn page(place: Place) -> Markup {
    let head = Head { place, title: "Help now: fish at the surface", current: None, class: "page-help-now" };
    let Some((first, others)) = sheets().split_first() else { return frame(&head, html! {}) };
    frame(&head, html! { (notice(place, first)) (list(place, others)) })
}

fn notice(place: Place, sheet: &Sheet) -> Markup {
    html! {
        div.notice {
            h1 { (sheet.title) }
            p.elsewhere { a href="#something-else" { "Something else is wrong" } }
            (people("first-you", &sheet.first))
            p { (sheet.then) }
            (steps(sheet))
            (people("people", &sheet.last))
            p.more-of-it { a href=(place.href(&format!("{HELP_NOW}/{}", sheet.key))) { "How to find the cause, and how to prevent it" } }
        }
    }
}

fn list(place: Place, others: &[Sheet]) -> Markup {
    html! {
        div.notice.others #something-else {
            h2.answer { "Something else" }
            p { "The first acts stand here, in order; the name leads to all of it." }
            ul {
                @for sheet in others {
                    li {
                        h3 { a href=(place.href(&format!("{HELP_NOW}/{}", sheet.key))) { (sheet.title) } }
                        ol { @for step in sheet.steps.iter().take(ACTS) { li { (step.head) } } }
                    }
                }
            }
        }
    }
}
