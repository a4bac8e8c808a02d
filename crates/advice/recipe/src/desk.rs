//! What every part of the plan has at hand: the tank, the book of what is known, a pen, and the why-notes so far.

use std::cell::RefCell;

use knowledge::{Book, Limit, Place, Product};
use quantity::{Kind, Why};
use setup::Tank;

use crate::say::Pen;

/// The desk at which one plan is written.
pub(crate) struct Desk<'a> {
    /// The tank, as the plan has it (a change that a rule of harm limits is limited here too).
    pub tank: &'a Tank,
    /// What is known.
    pub book: &'static Book,
    /// Writes numbers in the keeper's way.
    pub pen: Pen,
    whys: RefCell<Vec<Why>>,
}

impl<'a> Desk<'a> {
    /// A desk for a tank.
    pub fn new(tank: &'a Tank) -> Self {
        Desk { tank, book: knowledge::book(), pen: Pen::of(tank), whys: RefCell::default() }
    }

    /// Keep a why-note and give its key back. A second note with the same key is dropped.
    pub fn why(&self, why: Why) -> String {
        let key = why.key.clone();
        let mut whys = self.whys.borrow_mut();
        if whys.iter().all(|w| w.key != key) {
            whys.push(why);
        }
        key
    }

    /// All why-notes, in the order in which they were written.
    pub fn whys(self) -> Vec<Why> {
        self.whys.into_inner()
    }

    /// Animals live in the tank, or may: an empty list that the keeper wrote counts as none.
    pub fn animals(&self) -> bool {
        self.tank.animals.any()
    }

    /// Whose law holds.
    pub fn place(&self) -> Place {
        Place::of(&self.tank.country)
    }

    /// The product behind a key.
    pub fn product(&self, key: &str) -> Option<&'static Product> {
        self.book.product(key)
    }

    /// Name of a product, or of the keeper's own.
    pub fn name(&self, key: &str) -> String {
        self.product(key).map_or_else(|| key.to_owned(), |p| p.name.clone())
    }
}

/// A why-note in one call.
pub(crate) fn why(
    key: impl Into<String>,
    question: impl Into<String>,
    sum: impl Into<String>,
    words: impl Into<String>,
    sources: &[&str],
    kind: Kind,
) -> Why {
    let known = |s: &&&str| knowledge::book().cite(s).is_some();
    Why {
        key: key.into(),
        question: question.into(),
        sum: sum.into(),
        words: words.into(),
        sources: sources.iter().filter(known).map(|s| (*s).to_owned()).collect(),
        kind,
    }
}

/// The source of a limit, for a why-note.
pub(crate) fn source(limit: &Limit) -> &str {
    &limit.is.source
}
