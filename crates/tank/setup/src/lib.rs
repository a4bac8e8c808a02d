//! One keeper's tank as they told it: checked, resolved, with everything that was assumed listed.
//!
//! Placeholder: the surface that the other crates see.

mod ask;
mod book;
mod resolved;

pub use ask::{Question, Reply};
pub use book::{Book, Change, MemoryBook};
pub use resolved::*;

use quantity::{Fault, Faults};

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
    /// # Errors
    /// As [`Setup::read`].
    pub fn tank(&self) -> Result<Tank, Faults> {
        Err(Fault::new("placeholder").into())
    }

    /// What the file says in a field (`tap.nitrate`, `glass.length`, `habits.change`), as the keeper wrote it; `None`: nothing.
    pub fn written(&self, _field: &str) -> Option<String> {
        None
    }

    /// The same setup with one field rewritten (comments kept). An empty text takes the field away: assumed again.
    ///
    /// # Errors
    /// An unknown field, or a text that the field does not accept: the old value stays.
    pub fn with(&self, field: &str, _text: &str) -> Result<Setup, Faults> {
        Err(Fault::new(format!("placeholder {field}")).into())
    }
}
