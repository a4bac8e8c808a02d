//! One keeper's tank as they told it: checked, resolved, with everything that was assumed listed.
//!
//! A [`Setup`] is the text of a TOML file as the keeper wrote it (`docs/setup-file.md` lists its fields, [`fields`] is
//! that list). [`Setup::tank`] is what follows from it: every value known, told or assumed, the assumptions sorted by
//! how much they matter, the questions that must be answered before anything is worked out. [`Setup::with`] rewrites
//! one field and leaves the rest of the text as it is. [`Book`] keeps the revisions.

mod ask;
mod balance;
mod book;
mod bounds;
mod build;
mod check;
mod document;
mod draws;
mod edit;
mod field;
mod given;
mod glass;
mod growth;
mod own;
mod range;
mod resolved;
mod show;
mod source;
mod told;
mod value;
mod weight;
mod why;

pub use ask::{Question, Reply};
pub use balance::{charge_balance_percent, open_charge_meq_per_l};
pub use book::{Book, Change, MemoryBook};
pub use draws::{Draw, draws};
pub use field::{Field, Table, Takes, field_of, fields, nearest};
pub use resolved::*;

use document::Document;
use given::Given;
use quantity::Faults;
use told::Told;

/// A setup file: its text as the keeper wrote it. The text is the truth; [`Setup::tank`] is what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    file: String,
    text: String,
}

impl Setup {
    /// Read a setup file. `file` is the name used in faults.
    ///
    /// # Errors
    /// All faults of the file in one go: file, line, field, what was expected, how to mend it.
    pub fn read(file: &str, text: &str) -> Result<Setup, Faults> {
        let setup = Setup { file: file.to_owned(), text: text.to_owned() };
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
        let mut together = Faults::new();
        check::sizes(&tank, &document, book, &mut together);
        if together.0.is_empty() {
            check::by_the_litre(&mut told, &tank, &document, book, &mut together);
            check::waters(&mut told, &tank);
        }
        faults.0.extend(together.0);
        faults.0.sort_by_key(|fault| (fault.place.line, fault.place.column));
        faults.or(())?;
        tank.assumed = weight::assumptions(&given, &tank, book);
        tank.questions = told.questions;
        tank.unusual = told.unusual;
        Ok(tank)
    }

    /// What the file says in a field (`tap.nitrate`, `glass.inner_length`, `habits.change`), as the keeper wrote it;
    /// `None`: nothing. For a value with its range the field's own name gives the mean (or `min to max` without one),
    /// `tap.nitrate.max` an end.
    pub fn written(&self, field: &str) -> Option<String> {
        let document = Document::read(&self.file, &self.text, &mut Faults::new());
        let at = |path: &str| document.entries.get(path).map(|entry| entry.value.written());
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
        let document = Document::read(&self.file, &self.text, &mut Faults::new());
        let text = edit::with(&document, field, text)?;
        Setup::read(&self.file, &text)
    }

    /// What differs between two setups, field by field, as written.
    pub fn changes_to(&self, other: &Setup) -> Vec<Change> {
        let entries = |setup: &Setup| {
            let document = Document::read(&setup.file, &setup.text, &mut Faults::new());
            document.entries.iter().map(|(path, entry)| (path.clone(), entry.value.written())).collect()
        };
        let (was, now): (std::collections::BTreeMap<String, String>, std::collections::BTreeMap<String, String>) =
            (entries(self), entries(other));
        let mut fields: Vec<&String> = was.keys().chain(now.keys()).collect();
        fields.sort();
        fields.dedup();
        let change = |field: &String| Change {
            field: field.clone(),
            was: was.get(field).cloned(),
            now: now.get(field).cloned(),
        };
        fields.into_iter().map(change).filter(|change| change.was != change.now).collect()
    }
}
