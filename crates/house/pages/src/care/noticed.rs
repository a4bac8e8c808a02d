//! What goes on beside the acts: what runs out, what a test would decide, what topping up leaves behind, what food brings.

use care::{Day, Kit, Supply};
use maud::{Markup, html};

use super::act::row;
use crate::sheet::Sheet;
use crate::words::{capital, sentence};

/// All of it.
pub(super) fn verses(sheet: &Sheet, day: &Day) -> Markup {
    html! {
        @if !day.supplies.is_empty() { (sheet.verse("Runs out", html! {
            ul.plain { @for supply in &day.supplies { li { (of(supply)) } } }
            ul.acts.along aria-label="Mixed today" {
                @for renew in day.supplies.iter().filter_map(|supply| supply.renew.as_ref()) { li { (row(sheet, day, renew)) } }
            }
        })) }
        (sheet.verse("Tests", html! {
            @let (telling, quiet): (Vec<&Kit>, Vec<&Kit>) = day.tests.iter().partition(|kit| kit.decides);
            @if telling.is_empty() { p { "None would decide anything now." } }
            @for kit in &telling { p { b { (capital(&kit.name)) "." } " " (sentence(&kit.says)) " " (when(kit)) } }
            @if !quiet.is_empty() { details.more {
                summary { "Tests that would change nothing now" }
                ul.plain.small { @for kit in &quiet { li { (capital(&kit.name)) ". " (sentence(&kit.says)) } } }
            } }
        }))
        @if let Some(settles) = &day.top_up { (sheet.verse("Topping up", html! {
            p { (sentence(&settles.says)) (sheet.why(day.why("top-up"))) }
        })) }
        @if let Some(why) = day.why("food") { (sheet.verse("Food", html! {
            p { @if let Some(says) = day.act("feed").and_then(|act| act.says.last()) { (sentence(says)) } (sheet.why(Some(why))) }
        })) }
    }
}

fn of(supply: &Supply) -> Markup {
    html! {
        @if supply.soon { b.when { "Before the next change: " } }
        (sentence(&supply.says))
        @if let Some((from, to)) = supply.likely { " Likely between " (from.strftime("%-d %B")) " and " (to.strftime("%-d %B")) "." }
    }
}

fn when(kit: &Kit) -> Markup {
    html! {
        @if kit.at_hand == Some(false) { "You told of no kit for it." }
        @else if let Some(due) = kit.due { "Due on " (due.strftime("%A, %-d %B")) "." }
    }
}
