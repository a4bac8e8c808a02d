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
    /// Of these kinds only what came at a moment or after it. The earliest entry of all that the rest lets through comes along,
    /// whatever its kind: it says since when the log is kept.
    pub lately: Vec<(String, Timestamp)>,
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

    /// One entry; `None`: none of that number holds.
    ///
    /// # Errors
    /// It can't be read.
    fn entry(&self, id: u64) -> Result<Option<Entry>, Fault>;

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

    /// The last writing that was not taken back: what [`Log::undo`] takes back. `None`: nothing is left.
    ///
    /// # Errors
    /// It can't be read.
    fn last_writing(&self) -> Result<Option<Writing>, Fault>;

    /// Take back the last writing that was not taken back yet; what was done is said in words. `None`: nothing is left.
    ///
    /// # Errors
    /// It can't be kept.
    fn undo(&mut self) -> Result<Option<String>, Fault>;

    /// Do again what the last undo took back, as long as nothing was written since; in words. `None`: nothing is left.
    ///
    /// # Errors
    /// It can't be kept.
    fn redo(&mut self) -> Result<Option<String>, Fault>;
}

/// What a writing did.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Did {
    /// Wrote new entries.
    Added,
    /// Put an entry in the place of another.
    Changed,
    /// Took an entry out.
    Removed,
}

/// A writing: one step of undo.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Writing {
    /// 1, 2, 3 ... in each log; never given again.
    pub number: u64,
    /// What it did.
    pub did: Did,
    /// To how many entries.
    pub count: u64,
    /// The number of the first of them.
    pub first: u64,
}

impl Did {
    /// What becomes of the entries when the writing is taken back, in words.
    pub fn taken_back(self, count: u64) -> String {
        let entries = if count == 1 { "one entry".to_owned() } else { format!("{count} entries") };
        match self {
            Did::Added => format!("{entries} taken out again"),
            Did::Changed => format!("{entries} put back as before"),
            Did::Removed => format!("{entries} put back"),
        }
    }

    /// What becomes of the entries when the writing is done again, in words.
    pub fn done_again(self, count: u64) -> String {
        let entries = if count == 1 { "one entry".to_owned() } else { format!("{count} entries") };
        match self {
            Did::Added => format!("{entries} written again"),
            Did::Changed => format!("{entries} changed again"),
            Did::Removed => format!("{entries} taken out again"),
        }
    }
}

impl<L: Log + ?Sized> Log for &mut L {
    fn list(&self, filter: &Filter) -> Result<Vec<Kept>, Fault> {
        (**self).list(filter)
    }
    fn entry(&self, id: u64) -> Result<Option<Entry>, Fault> {
        (**self).entry(id)
    }
    fn add(&mut self, entries: Vec<Entry>) -> Result<Vec<u64>, Fault> {
        (**self).add(entries)
    }
    fn change(&mut self, id: u64, entry: Entry) -> Result<(), Fault> {
        (**self).change(id, entry)
    }
    fn remove(&mut self, id: u64) -> Result<(), Fault> {
        (**self).remove(id)
    }
    fn last_writing(&self) -> Result<Option<Writing>, Fault> {
        (**self).last_writing()
    }
    fn undo(&mut self) -> Result<Option<String>, Fault> {
        (**self).undo()
    }
    fn redo(&mut self) -> Result<Option<String>, Fault> {
        (**self).redo()
    }
}
