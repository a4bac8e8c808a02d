//! The frame round a letter: Help now first, the way past the head second, letterhead, bar at the thumb, foot.

use maud::{DOCTYPE, Markup, html};

use crate::ctx::href;
use crate::routes::{LOOK, PAGES, SCRIPT};

/// What stands above a page's own part.
pub struct Head<'a> {
    /// The path under which the pages stand.
    pub base: &'a str,
    /// Title of the window, without the name of the house.
    pub title: &'a str,
    /// Key of the page in [`PAGES`], if it is one of them.
    pub current: Option<&'static str>,
    /// Class of the body.
    pub class: &'a str,
}

/// A whole document round `main`.
pub fn frame(head: &Head, main: Markup) -> Markup {
    let base = head.base;
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover";
                meta name="color-scheme" content="light dark";
                title { (head.title) " · Tapmere" }
                link rel="icon" href="data:,";
                link rel="stylesheet" href=(href(base, &LOOK.address()));
                script type="module" src=(href(base, &SCRIPT.address())) {}
            }
            body class=(head.class) {
                nav aria-label="First of all" {
                    a.help-now href=(href(base, "help-now")) { "Help now" }
                    a.skip href="#letter" { "Skip to the letter" }
                }
                header.sheet {
                    div.letterhead {
                        a.name href=(href(base, "")) { "Tapmere" }
                        nav aria-label="Pages" { ul {
                            @for page in PAGES { li { (link(head, page.path, page.key, page.name)) } }
                        } }
                    }
                    div.waterline {}
                }
                main.sheet #letter tabindex="-1" { (main) }
                (foot(head))
                nav.thumb aria-label="Front pages" {
                    @for page in PAGES { (link(head, page.path, page.key, page.name)) }
                    a href="#pages" { "All pages" }
                }
                p.off-screen role="status" #heard {}
            }
        }
    }
}

fn link(head: &Head, path: &str, key: &str, name: &str) -> Markup {
    let current = head.current == Some(key);
    html! { a href=(href(head.base, path)) aria-current=[current.then_some("page")] { (name) } }
}

fn foot(head: &Head) -> Markup {
    html! {
        footer.sheet { div.foot {
            p.key {
                b { "How well is a number known?" } " The line under it says: "
                span { u { "28" } " measured," } " "
                span { u.practice { "40" } " common practice," } " "
                span { u.assumed { "20" } " assumed." }
                " All three can be changed where they stand. A number in " b { "bold without a line" }
                " is worked out from the others; its letter leads to the note that says why."
            }
            nav aria-label="All pages" #pages { ul.pages {
                li { a href=(href(head.base, "help-now")) { b { "Help now" } ": something is wrong with the fish" } }
                @for page in PAGES {
                    li {
                        a href=(href(head.base, page.path)) aria-current=[(head.current == Some(page.key)).then_some("page")] {
                            b { (page.name) } ": " (page.asks)
                        }
                    }
                }
            } }
            p { "Tapmere says nothing about drinking water. Sea water, ponds, breeding and medicine are not its business." }
        } }
    }
}
