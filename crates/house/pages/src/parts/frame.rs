//! The frame round a letter: Help now first, the way past the head second, letterhead, bar at the thumb, foot.

use maud::{DOCTYPE, Markup, Render, html};

use crate::ctx::{Place, letter};
use crate::routes::{FIRST, FRONT, LOOK, PAGES, Page, SCRIPT};

/// What stands above a page's own part.
pub struct Head<'a> {
    /// Where the page stands.
    pub place: Place<'a>,
    /// Title of the window, without the name of the house.
    pub title: &'a str,
    /// Key of the page in [`PAGES`], if it is one of them.
    pub current: Option<&'static str>,
    /// Class of the body.
    pub class: &'a str,
}

/// A whole document round `main`.
pub fn frame(head: &Head, main: impl Render) -> Markup {
    let place = head.place;
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover";
                meta name="color-scheme" content="light dark";
                title { (head.title) " · Tapmere" }
                link rel="icon" href="data:,";
                link rel="stylesheet" href=(place.href(&LOOK.address()));
                script type="module" src=(place.href(&SCRIPT.address())) {}
            }
            body class=(head.class) {
                nav aria-label="First of all" {
                    a.help-now href=(place.href("help-now")) { "Help now" }
                    a.skip href="#letter" { "Skip to the letter" }
                }
                header.sheet {
                    div.letterhead {
                        a.name href=(place.href("")) { "Tapmere" }
                        @let links = menu(head);
                        @if !links.is_empty() { nav aria-label="Pages" { ul { @for link in links { li { (link) } } } } }
                    }
                    div.waterline {}
                }
                main.sheet #letter tabindex="-1" { (main) }
                (foot(head))
                nav.thumb aria-label="Front pages" {
                    @for link in menu(head) { (link) }
                    a href="#pages" { "All pages" }
                }
                p.off-screen role="status" #heard {}
            }
        }
    }
}

/// The letters of the tank; where none is known, the way to the last one.
fn menu(head: &Head) -> Vec<Markup> {
    let place = head.place;
    match (place.tank, place.tanks) {
        (None, None) => return vec![html! { a href=(place.href("")) { "My tank" } }],
        (None, Some(_)) => return Vec::new(),
        (Some(_), _) => {}
    }
    let link =
        |page: &Page| html! { a href=(place.letter(page.key)) aria-current=[current(head, page)] { (page.name) } };
    PAGES.iter().filter(|page| page.front).map(link).collect()
}

fn current(head: &Head, page: &Page) -> Option<&'static str> {
    (head.current == Some(page.key)).then_some("page")
}

fn foot(head: &Head) -> Markup {
    let place = head.place;
    html! {
        footer.sheet { div.foot {
            @if head.current.is_some() {
                p.key {
                    b { "How well is a number known?" } " The line under it says: "
                    span { u { "28" } " measured," } " "
                    span { u.practice { "40" } " common practice," } " "
                    span { u.assumed { "20" } " assumed." }
                    " All three can be changed where they stand. A number in " b { "bold without a line" }
                    " is worked out from the others; its letter leads to the note that says why."
                }
            }
            nav aria-label="All pages" #pages { ul.pages {
                li { a href=(place.href("help-now")) { b { "Help now" } ": something is wrong with the fish" } }
                @if place.tank.is_some() { @for page in PAGES {
                    li { a href=(place.letter(page.key)) aria-current=[current(head, page)] { b { (page.name) } ": " (page.asks) } }
                } } @else if place.tanks.is_none() {
                    li { a href=(place.href("")) { b { "My tank" } ": what to weigh and give" } }
                }
            } }
            (tanks(head))
            p { "Tapmere says nothing about drinking water. Sea water, ponds, breeding and medicine are not its business." }
        } }
    }
}

/// The tanks, where there is more than one, and the way to another.
fn tanks(head: &Head) -> Markup {
    let Place { base, tank, tanks } = head.place;
    let Some(tanks) = tanks.filter(|tanks| !tanks.is_empty()) else { return html! {} };
    let page = head.current.unwrap_or(FRONT);
    let shown = |id: u64| (head.current.is_some() && tank == Some(id)).then_some("true");
    html! {
        nav aria-label="Tanks" { ul.pages {
            @if tanks.len() > 1 { @for entry in tanks {
                li { a href=(letter(base, entry.id, page)) aria-current=[shown(entry.id)] { b { (entry.label()) } } }
            } }
            li { a href=(head.place.href(FIRST)) { b { "Add a tank" } ": four questions" } }
        } }
    }
}
