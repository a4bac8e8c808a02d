//! Help now: the notice by the door, a page for each trouble, and what a tank's own figures add.
//!
//! [`page`] and [`one`] need no tank, no book and nothing of the keeper; they are whole without script and without style.
//! [`mine`] stands one tap further: there the book, the logbook and the recipe are asked. Words and arithmetic are those
//! of crate `trouble`.

mod first;
mod mine;
mod notice;
mod table;

pub(crate) use first::page;
pub(crate) use mine::{door, mine};
pub(crate) use notice::one;

/// The word under which all of it stands in addresses.
pub(crate) const HELP_NOW: &str = "help-now";
