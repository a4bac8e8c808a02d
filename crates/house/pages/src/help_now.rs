//! Help now: what to do first when fish gasp. Needs no data.

use maud::{Markup, html};

use crate::parts::{Head, frame};

/// The whole page.
pub fn page(base: &str) -> Markup {
    let head = Head { base, title: "Help now", current: None, class: "page-help-now" };
    let main = html! {
        div.notice {
            h1 { "Fish at the surface, gasping" }
            ol {
                li { div { b { "Plugs out, with dry hands." } " Heater, lamp, everything in or over the water. Not the air pump that stands outside it." } }
                li { div { b { "Carbon dioxide off." } " If you give it: close the cylinder." } }
                li { div { b { "Air on." } " As much as there is." } }
            }
        }
    };
    frame(&head, main)
}
