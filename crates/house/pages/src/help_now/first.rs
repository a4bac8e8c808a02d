//! The first page: fish at the surface in full, then every other trouble with its first acts.

use maud::{Markup, html};
use trouble::{Item, Sheet, sheets};

use super::HELP_NOW;
use super::notice::{people, steps};
use crate::ctx::Place;
use crate::parts::{Head, frame};

/// How many acts of each other trouble stand on the first page, and on the second sheet of paper.
const ACTS: usize = 3;

/// Rules of harm whose number belongs into the act itself: what goes into the water, how much of it, how fast, how warm.
const SAID_WITH_THE_ACT: [u8; 5] = [1, 2, 6, 8, 19];

/// Rules of harm that stand even before the first act in short: fumes, poison.
const BEFORE_THE_ACTS: [u8; 2] = [21, 22];

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
                        @for item in sheet.first.iter().filter(|item| item.rules.iter().any(|rule| BEFORE_THE_ACTS.contains(rule))) {
                            p { b { (item.head) } " " (item.says.join(" ")) }
                        }
                        ol { @for step in sheet.steps.iter().take(ACTS) { li { (act(step)) } } }
                    }
                }
            }
        }
    }
}

/// An act in short; with its sentences where it says nothing without them, or where a caution belongs into it.
fn act(step: &Item) -> Markup {
    let whole = step.head.ends_with(['?', ':']) || step.rules.iter().any(|rule| SAID_WITH_THE_ACT.contains(rule));
    html! { b { (step.head) } @if whole { @for sentence in &step.says { " " (sentence) } } }
}
