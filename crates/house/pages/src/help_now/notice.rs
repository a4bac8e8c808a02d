//! One trouble on a page, set like a notice: large, numbered, no picture and no colour needed.

use maud::{Markup, html};
use trouble::{Item, Sheet, sheet};

use super::{HELP_NOW, table};
use crate::ctx::Place;
use crate::parts::{Head, frame};

/// The page of a trouble; `None`: there is no such trouble.
pub fn one(place: Place, key: &str) -> Option<Markup> {
    let sheet = sheet(key)?;
    let head = Head { place, title: &sheet.title, current: None, class: "page-help-now page-trouble" };
    Some(frame(&head, body(place, sheet)))
}

fn body(place: Place, sheet: &Sheet) -> Markup {
    let path = |rest: &str| place.href(&format!("{HELP_NOW}{rest}"));
    html! {
        div.notice {
            h1 { (sheet.title) }
            p.sign { (sheet.sign) }
            (people("first-you", &sheet.first))
            p { (sheet.then) }
            (steps(sheet))
            (people("people", &sheet.last))
            @if let Some(table) = &sheet.table { (table::ammonia(table)) }
            p.more-of-it { a href=(path(&format!("/{}/mine", sheet.key))) { "With the figures of my own tank" } }
            h2 { "How to find out" }
            ul.plain { @for sentence in &sheet.find_out { li { (sentence) } } }
            h2 { "How to prevent it" }
            ul.plain { @for sentence in &sheet.prevent { li { (sentence) } } }
            p.small { "What the steps rest on: " (sheet.sources.join("; ")) "." }
            p.more-of-it { a href=(path("")) { "All troubles" } }
        }
    }
}

/// The numbered steps.
pub fn steps(sheet: &Sheet) -> Markup {
    html! {
        ol {
            @for step in &sheet.steps {
                li { div {
                    h2 { (step.head) }
                    @for sentence in &step.says { p { (sentence) } }
                } }
            }
        }
    }
}

/// What stands before or under the steps; nothing where there is nothing.
pub fn people(class: &str, items: &[Item]) -> Markup {
    html! {
        @if !items.is_empty() {
            div class=(class) { @for item in items { p { b { (item.head) } @for sentence in &item.says { " " (sentence) } } } }
        }
    }
}
