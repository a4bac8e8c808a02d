//! The change of water as one sheet: under today's acts where it is today's, else under the week.

use care::{Act, ChangeSheet, Day};
use maud::{Markup, html};

use super::act::{row, unticked};
use crate::sheet::Sheet;
use crate::words::sentence;

/// Which acts are ticked off where they stand.
type Ticked<'a> = &'a dyn Fn(&Act) -> bool;

/// Today's.
pub(super) fn today(sheet: &Sheet, day: &Day, ticked: Ticked) -> Markup {
    html! { @if let Some(change) = day.change.as_ref().filter(|change| change.date == day.date) { (verse(sheet, day, change, ticked)) } }
}

/// A later one.
pub(super) fn later(sheet: &Sheet, day: &Day) -> Markup {
    html! { @if let Some(change) = day.change.as_ref().filter(|change| change.date != day.date) { (verse(sheet, day, change, &|_| false)) } }
}

fn verse(sheet: &Sheet, day: &Day, change: &ChangeSheet, ticked: Ticked) -> Markup {
    let rows = |acts: &[Act], says: &str| {
        html! {
            ul.acts.along aria-label=(says) { @for act in acts {
                li { @if ticked(act) { (row(sheet, day, act)) } @else { (unticked(sheet, act)) } }
            } }
        }
    };
    if let Some(stop) = &change.stop {
        return sheet.verse_as("text must", "No change", html! { p { b.when { "At once:" } " " (sentence(stop)) } });
    }
    let today = change.date == day.date;
    let head = if today { "The change".to_owned() } else { format!("The change of {}", change.date.strftime("%A")) };
    sheet.verse(&head, html! {
        @for first in &change.first { p { b { (sentence(first)) } } }
        p { (sheet.out_or_bold(&crate::words::litres_of(&sheet.units, change.litres), day.why("change"))) ", about an hour, a third of it waiting." }
        @if today { (steps(change)) } @else {
            details.more { summary { "Its steps, one by one" } (steps(change)) }
        }
        @if let Some(why) = day.why("change-warmth") { p.small { "How warm it gets. " (sheet.why(Some(why))) } }
        @if !change.along.is_empty() {
            p { "Along with it, while the plugs are out:" }
            @if today {
                (rows(&change.along, "Along with the change"))
            } @else {
                ul.plain { @for act in &change.along { li { (act.name) ". " (act.says.join(" ")) } } }
            }
        }
        @if !change.after.is_empty() {
            p { "When it is done, into the new water:" }
            (rows(&change.after, "After the change"))
        }
    })
}

/// The steps, each with what is minded at it.
fn steps(change: &ChangeSheet) -> Markup {
    html! {
        ol.steps { @for step in &change.steps {
            li { (sentence(&step.say)) @for mind in &step.minds { p.small { (sentence(mind)) } } }
        } }
    }
}
