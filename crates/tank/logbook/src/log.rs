//! What keeps the logbook of one tank.

use jiff::Timestamp;
use quantity::Fault;

use crate::Entry;

/// An entry as it is kept, with its number.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Kept {
    /// Its number in this log; it never changes and is never given again.
    pub id: u64,
    /// The entry.
    pub entry: Entry,
}

/// Which entries are asked for. The default asks for all.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Filter {
    /// Not before.
    pub from: Option<Timestamp>,
    /// Before.
    pub to: Option<Timestamp>,
    /// Kinds as [`crate::What`] is tagged (`test`, `dose` ...); empty: all.
    pub kinds: Vec<String>,
    /// For tests: only this key.
    pub of: Option<String>,
    /// Words that stand in the note or in what was seen.
    pub words: Option<String>,
    /// At most so many, the latest of them.
    pub last: Option<usize>,
}

/// The logbook of one tank. Nothing is ever lost: every writing can be taken back.
pub trait Log {
    /// The entries that a filter lets through, the latest first.
    ///
    /// # Errors
    /// They can't be read.
    fn list(&self, filter: &Filter) -> Result<Vec<Kept>, Fault>;

    /// Write entries, all or none; their numbers come back when they are kept. One call is one step of undo.
    ///
    /// # Errors
    /// They can't be kept: the log holds what it held.
    fn add(&mut self, entries: Vec<Entry>) -> Result<Vec<u64>, Fault>;

    /// Put an entry in the place of another, under its number.
    ///
    /// # Errors
    /// There is no such entry, or it can't be kept.
    fn change(&mut self, id: u64, entry: Entry) -> Result<(), Fault>;

    /// Take an entry out.
    ///
    /// # Errors
    /// There is no such entry, or it can't be kept.
    fn remove(&mut self, id: u64) -> Result<(), Fault>;

    /// Take back the last writing that was not taken back yet; what was done is said in words. `None`: nothing is left.
    ///
    /// # Errors
    /// It can't be kept.
    fn undo(&mut self) -> Result<Option<String>, Fault>;
}
