//! One keeper's tank as they told it: checked, resolved, with everything that was assumed listed.
//!
//! A [`Setup`] is the text of a TOML file as the keeper wrote it (`docs/setup-file.md` lists its fields, [`fields`] is
//! that list). [`Setup::tank`] is what follows from it: every value known, told or assumed, the assumptions sorted by
//! how much they matter, the questions that must be answered before anything is worked out. [`Setup::with`] rewrites
//! one field and leaves the rest of the text as it is. [`Book`] keeps the revisions, [`Shelf`] the tanks.

mod ask;
mod balance;
mod book;
mod bounds;
mod build;
mod check;
mod conductivity;
mod document;
mod draws;
mod edit;
mod field;
mod filed;
mod given;
mod glass;
mod growth;
mod hardness;
mod inside;
mod keeping;
mod kept;
mod names;
mod once;
mod own;
mod range;
mod resolved;
mod shelf;
mod show;
mod source;
mod takes;
mod tap;
mod told;
mod value;
mod weight;
mod why;

pub use ask::{Question, Reply};
pub use balance::{charge_balance_percent, open_charge_meq_per_l};
pub use book::{Book, Change, MemoryBook, Unwritten};
pub use draws::{Draw, draws};
pub use field::{Field, field_of, fields};
pub use filed::FiledReport;
pub use inside::{Ground, Inside, Size, Solid};
pub use keeping::{Cylinder, Keeping};
pub use names::nearest;
pub use range::propagate;
pub use resolved::*;
pub use shelf::{MemoryShelf, Shelf, TankEntry};
pub use takes::{Table, Takes};
pub use tap::{OneTap, one_tap};

use std::collections::{BTreeMap, BTreeSet};

use document::Document;
use given::Given;
use once::Once;
use quantity::Faults;
use told::Told;

/// A setup file: its text as the keeper wrote it. The text is the truth; [`Setup::tank`] is what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    file: String,
    text: String,
    entries: Once<BTreeMap<String, String>>,
    inside: Once<Inside>,
}

impl Setup {
    /// Read a setup file. `file` is the name used in faults.
    ///
    /// # Errors
    /// All faults of the file in one go: file, line, field, what was expected, how to mend it.
    pub fn read(file: &str, text: &str) -> Result<Setup, Faults> {
        let setup = Setup::kept(file, text);
        setup.tank()?;
        Ok(setup)
    }

    /// The text, comments and all.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The name used in faults.
    pub fn file(&self) -> &str {
        &self.file
    }

    /// The tank that the text describes, with assumptions filled in and open questions listed.
    ///
    /// While [`Tank::questions`] is not empty, the values that they settle are missing from the tank (an ion is not in
    /// [`SourceWater::ions`]): nothing may be worked out from it before they are answered.
    ///
    /// # Errors
    /// As [`Setup::read`].
    pub fn tank(&self) -> Result<Tank, Faults> {
        let book = knowledge::book();
        let mut faults = Faults::new();
        let document = Document::read(&self.file, &self.text, &mut faults);
        let mut told = Told::read(&document, &mut faults);
        own::check(&mut told, &document, &mut faults);
        check::twice(&told, &document, &mut faults);
        // What is faulty is assumed for the moment, so that faults between fields are found in the same go.
        let given = Given::fill(&told, book);
        let mut tank = build::tank(&given, book);
        // A size that could not be read is assumed for the moment; nothing is said of how the others fit it.
        let sections = ["glass.", "ground.", "hardscape."];
        let is_size =
            |field: &Option<String>| field.as_ref().is_some_and(|path| sections.iter().any(|s| path.starts_with(s)));
        if !faults.0.iter().any(|fault| is_size(&fault.place.field)) {
            check::sizes(&tank, &document, book, &mut faults);
        }
        if !faults.0.iter().any(|fault| is_size(&fault.place.field)) {
            check::measured_litres(&mut told, &given, &document, book, &mut faults);
            check::by_the_litre(&mut told, &tank, &document, book, &mut faults);
        }
        check::bands(&mut told, book);
        check::waters(&mut told, &tank, book);
        faults.0.sort_by_key(|fault| (fault.place.line, fault.place.column));
        faults.or(())?;
        tank.whys = why::all(&tank, &given, &build::glass(&given, book), book);
        tank.assumed = weight::assumptions(&given, &tank, book);
        tank.questions = told.questions;
        tank.unusual = told.unusual;
        Ok(tank)
    }

    /// What the file says, understood; what can't be goes into `faults`.
    fn told(&self, faults: &mut Faults) -> Told {
        Told::read(&Document::read(&self.file, &self.text, faults), faults)
    }

    /// What the file says in a field (`tap.nitrate`, `glass.inner_length`, `habits.change`), as the keeper wrote it;
    /// `None`: nothing. For a value with its range the field's own name gives the mean (or `min to max` without one),
    /// `tap.nitrate.max` an end.
    pub fn written(&self, field: &str) -> Option<String> {
        let entries = self.all();
        let at = |path: &str| entries.get(path).cloned();
        let range = || {
            let ends = (at(&format!("{field}.min")), at(&format!("{field}.max")));
            match ends {
                (Some(min), Some(max)) => Some(format!("{min} to {max}")),
                (min, max) => min.or(max),
            }
        };
        at(field).or_else(|| at(&format!("{field}.mean"))).or_else(range)
    }

    /// The same setup with one field rewritten (comments kept). An empty text takes the field away: assumed again.
    ///
    /// # Errors
    /// An unknown field, or a text that the field does not accept: the old value stays.
    pub fn with(&self, field: &str, text: &str) -> Result<Setup, Faults> {
        self.with_all([(field, text)])
    }

    /// The same setup with several fields rewritten, one after the other; only the last text must hold.
    ///
    /// # Errors
    /// As [`Setup::with`].
    pub fn with_all<'f>(&self, edits: impl IntoIterator<Item = (&'f str, &'f str)>) -> Result<Setup, Faults> {
        let mut whole = self.text.clone();
        for (field, text) in edits {
            let document = Document::read(&self.file, &whole, &mut Faults::new());
            whole = edit::with(&document, field, text)?;
        }
        Setup::read(&self.file, &whole)
    }

    /// All that the file says, field by field, as written.
    pub fn entries(&self) -> BTreeMap<String, String> {
        self.all().clone()
    }

    fn all(&self) -> &BTreeMap<String, String> {
        self.entries.get(|| {
            let document = Document::read(&self.file, &self.text, &mut Faults::new());
            document.entries.iter().map(|(path, entry)| (path.clone(), entry.value.written())).collect()
        })
    }

    /// What differs between two setups, field by field, as written.
    pub fn changes_to(&self, other: &Setup) -> Vec<Change> {
        let (was, now) = (self.all(), other.all());
        let fields: BTreeSet<&String> = was.keys().chain(now.keys()).collect();
        let change = |field: &String| Change {
            field: field.clone(),
            was: was.get(field).cloned(),
            now: now.get(field).cloned(),
        };
        fields.into_iter().map(change).filter(|change| change.was != change.now).collect()
    }
}
