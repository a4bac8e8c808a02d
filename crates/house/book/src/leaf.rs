//! One revision of one tank, as a row of the file and its seal.

use std::path::Path;

use quantity::Fault;
use rusqlite::{Connection, OptionalExtension, Row, params};
use setup::{Change, Setup};

use crate::fault::{damaged, fault};
use crate::seal::Seal;

/// A revision. What stands in the file is never changed: only an import, which replaces everything, takes rows away.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Leaf {
    /// When it was written, as RFC 3339.
    pub at: String,
    /// The revision to which an undo goes back.
    pub undo_to: Option<u64>,
    pub setup: Setup,
    pub changes: Vec<Change>,
}

/// Why a revision can't be given back.
pub(crate) enum Unread {
    Sqlite(rusqlite::Error),
    /// The row is there, and its seal says that it is not what was written.
    Broken,
}

impl From<rusqlite::Error> for Unread {
    fn from(error: rusqlite::Error) -> Unread {
        Unread::Sqlite(error)
    }
}

impl Unread {
    /// As a fault of the book at `path`; `what` was to be read.
    pub fn fault(self, path: &Path, what: &str) -> Fault {
        match self {
            Unread::Sqlite(error) => fault(path, &error),
            Unread::Broken => damaged(path, &format!("{what} is not what was written")),
        }
    }
}

/// The number of the revision that holds now; 0: there is no such tank.
pub(crate) fn head(book: &Connection, tank: u64) -> rusqlite::Result<u64> {
    book.prepare_cached("SELECT coalesce(max(number), 0) FROM revision WHERE tank = ?1")?
        .query_row([tank], |row| row.get(0))
}

/// Read a revision; `None`: there is none of that number. Belongs into a transaction, so that no import comes between
/// the row and its changes.
pub(crate) fn read(book: &Connection, tank: u64, number: u64) -> Result<Option<Leaf>, Unread> {
    const REVISION: &str = "SELECT id, at, undo_to, file, text, seal FROM revision WHERE tank = ?1 AND number = ?2";
    const CHANGES: &str = "SELECT field, was, now FROM change WHERE revision = ?1 ORDER BY place";
    let row = |row: &Row| {
        let setup = Setup::kept(&row.get::<_, String>(3)?, &row.get::<_, String>(4)?);
        let leaf = Leaf { at: row.get(1)?, undo_to: row.get(2)?, setup, changes: Vec::new() };
        Ok((row.get::<_, i64>(0)?, leaf, row.get::<_, i64>(5)?))
    };
    let found = book.prepare_cached(REVISION)?.query_row([tank, number], row).optional()?;
    let Some((id, mut leaf, seal)) = found else { return Ok(None) };
    let change = |row: &Row| Ok(Change { field: row.get(0)?, was: row.get(1)?, now: row.get(2)? });
    leaf.changes = book.prepare_cached(CHANGES)?.query_map([id], change)?.collect::<Result<_, _>>()?;
    if seal == leaf.seal(tank, number) { Ok(Some(leaf)) } else { Err(Unread::Broken) }
}

/// Write a revision, and the tank's name as it has it. Belongs into a transaction.
pub(crate) fn write(book: &Connection, tank: u64, number: u64, leaf: &Leaf) -> rusqlite::Result<()> {
    book.prepare_cached(
        "INSERT INTO revision (tank, number, at, undo_to, file, text, seal) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    )?
    .execute(params![
        tank,
        number,
        leaf.at,
        leaf.undo_to,
        leaf.setup.file(),
        leaf.setup.text(),
        leaf.seal(tank, number)
    ])?;
    let id = book.last_insert_rowid();
    let mut insert =
        book.prepare_cached("INSERT INTO change (revision, place, field, was, now) VALUES (?1, ?2, ?3, ?4, ?5)")?;
    for (place, change) in (0_i64..).zip(&leaf.changes) {
        insert.execute(params![id, place, change.field, change.was, change.now])?;
    }
    Ok(())
}

/// The tank's name as a setup has it.
pub(crate) fn name(setup: &Setup) -> Option<String> {
    setup.written("tank.name")
}

impl Leaf {
    /// The seal over all that the row says.
    fn seal(&self, tank: u64, number: u64) -> i64 {
        let mut sum = Seal::default();
        for number in [Some(tank), Some(number), self.undo_to] {
            sum.text(number.map(|n| n.to_string()).as_deref());
        }
        for text in [self.at.as_str(), self.setup.file(), self.setup.text()] {
            sum.text(Some(text));
        }
        for change in &self.changes {
            for text in [Some(&change.field), change.was.as_ref(), change.now.as_ref()] {
                sum.text(text.map(String::as_str));
            }
        }
        sum.number()
    }
}
