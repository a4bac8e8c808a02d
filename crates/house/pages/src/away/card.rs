//! The sitter's card: on paper two halves of A6 side by side, to be folded and hung on the glass.

use care::away::Card;
use maud::{Markup, html};

use super::One;
use crate::sheet::Sheet;
use crate::words::{glued, sentence};

/// The card, of the first reading: no act on it hangs on what is open elsewhere but litres and grams.
pub fn verse(sheet: &Sheet, away: &[One]) -> Markup {
    let Some((_, first)) = away.first() else { return html! {} };
    let alike = away.iter().all(|(_, other)| other.card == first.card);
    let Some(card) = first.card.as_ref() else {
        return sheet.verse("The sitter’s card", html! {
            p { "Nobody needs to look in for so long. Leave a number all the same, and tell a neighbour where the fuse box is." }
        });
    };
    if !alike {
        return sheet.verse(
            "The sitter’s card",
            html! { p.on-screen { "The card comes when the question above is answered." } },
        );
    }
    html! {
        section.verse.sitter-verse {
            h2.on-screen { "The sitter’s card" }
            div.across {
                p.on-screen { "Print this page: the card comes out on a sheet of its own. Cut along the dashes, fold it in the middle, hang it on the glass." }
                (shown(card))
            }
        }
    }
}

fn shown(card: &Card) -> Markup {
    html! {
        div.sitter {
            div.half {
                h3 { (card.tank) }
                p.card-call { "Call: ____________________" br; "or: ______________________" }
                h4 { "On these days" }
                ul.visits { @for visit in &card.visits {
                    li { span.box aria-hidden="true" {} b { (visit.when) } ": " (glued(&visit.acts.join("; "))) "." }
                } }
                @if !card.pouring.is_empty() {
                    h4 { "Before you pour" }
                    ul { @for line in &card.pouring { li { (glued(line)) "." } } }
                }
                h4 { "Each time, a look" }
                ul { @for line in &card.look { li { (glued(line)) } } }
            }
            div.half {
                h4 { "Never" }
                ul { @for line in &card.never { li { (glued(line)) } } }
                h4 { "Something is wrong" }
                ol { @for line in &card.wrong { li { (sentence(line)) } } }
            }
        }
    }
}
