//! The two faces of the notice: the page, and plain text.

use maud::{Markup, html};

use super::notice::{Item, Notice, notice};
use crate::ctx::Place;
use crate::parts::{Head, frame};

/// Columns of a line of plain text.
const WIDTH: usize = 78;

/// The whole page.
pub fn page(place: Place) -> Markup {
    let head = Head { place, title: "Help now: fish at the surface", current: None, class: "page-help-now" };
    frame(&head, body(&notice()))
}

fn body(notice: &Notice) -> Markup {
    html! {
        div.notice {
            h1 { (notice.title) }
            div.first-you { @for item in &notice.you_first { (line(item)) } }
            p { (notice.then) }
            ol {
                @for step in &notice.steps {
                    li { div {
                        h2 { (step.head) }
                        @for sentence in &step.says { p { (sentence) } }
                    } }
                }
            }
            div.people { @for item in &notice.people { (line(item)) } }
            h2.answer { "Something else" }
            ul.others {
                @for other in &notice.others {
                    li { details {
                        summary { (other.head) }
                        @for sentence in &other.says { p { (sentence) } }
                    } }
                }
            }
        }
    }
}

fn line(item: &Item) -> Markup {
    html! { p { b { (item.head) } @for sentence in &item.says { " " (sentence) } } }
}

/// The notice as plain text, wrapped, for a terminal or a printer.
pub fn text() -> String {
    let notice = notice();
    let mut out = format!("{}\n\n", notice.title.to_uppercase());
    for item in &notice.you_first {
        wrap(&mut out, "! ", &joined(item));
    }
    out.push('\n');
    wrap(&mut out, "", notice.then);
    out.push('\n');
    for (i, step) in notice.steps.iter().enumerate() {
        wrap(&mut out, &format!("{}. ", i + 1), step.head);
        step.says.iter().for_each(|sentence| wrap(&mut out, "   ", sentence));
    }
    out.push('\n');
    for item in &notice.people {
        wrap(&mut out, "! ", &joined(item));
    }
    out.push_str("\nSOMETHING ELSE\n");
    for other in &notice.others {
        out.push('\n');
        wrap(&mut out, "", other.head);
        other.says.iter().for_each(|sentence| wrap(&mut out, "   ", sentence));
    }
    out
}

fn joined(item: &Item) -> String {
    format!("{} {}", item.head, item.says.join(" "))
}

/// Words in lines of [`WIDTH`] columns; the first begins with `lead`, the others hang under it.
fn wrap(out: &mut String, lead: &str, words: &str) {
    let hang = " ".repeat(lead.chars().count());
    let (mut line, mut empty) = (lead.to_owned(), true);
    for word in words.split(' ') {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            out.push_str(line.trim_end());
            out.push('\n');
            (line, empty) = (hang.clone(), true);
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(&word.replace('\u{a0}', " "));
        empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}
