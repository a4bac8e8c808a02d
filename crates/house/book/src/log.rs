//! The logbook of one tank in the file: [`logbook::Log`] over its rows.

pub(crate) mod find;
pub(crate) mod paper;
mod plain;
pub(crate) mod row;

use logbook::{Did, Entry, Filter, Kept, Log, Writing, no_entry};
use quantity::Fault;
use rusqlite::{Connection, OptionalExtension, Row, Transaction, TransactionBehavior};

use crate::fault::{damaged, fault};
use crate::file::File;
use crate::header::place;
use crate::leaf::Unread;
use crate::stamp::Stamp;

/// The logbook of one tank. What is written is on the disk when the call comes back.
pub struct SqliteLog<'a> {
    file: &'a mut File,
    tank: u64,
    now: Stamp,
}

/// What an edit makes of the log: what it did, and each entry that it touches with what shall stand there.
type Edit = (Did, Vec<(u64, Option<Entry>)>);

impl<'a> SqliteLog<'a> {
    /// # Errors
    /// There is no such tank, or the file can't be read.
    pub(crate) fn open(file: &'a mut File, tank: u64, now: &Stamp) -> Result<SqliteLog<'a>, Fault> {
        let known = file.book.prepare_cached("SELECT 1 FROM tank WHERE id = ?1").and_then(|mut q| q.exists([tank]));
        match known {
            Ok(true) => Ok(SqliteLog { file, tank, now: now.clone() }),
            Ok(false) => Err(Fault::new(format!("there is no tank {tank} in this book")).at(place(&file.path))),
            Err(error) => Err(file.fault(&error)),
        }
    }

    fn told(&self, unread: &Unread) -> Fault {
        told(self.file, self.tank, unread)
    }

    /// Write what `edit` makes of the numbers given so far, as one step of undo. What is returned is on the disk.
    fn write(&mut self, edit: impl FnOnce(&Transaction, u64) -> Result<Edit, Fault>) -> Result<Vec<u64>, Fault> {
        let (file, tank, at) = (&*self.file, self.tank, self.now.to_string());
        file.writable()?;
        let sql = |error: rusqlite::Error| fault(&file.path, &error);
        let unread = |unread: Unread| told(file, tank, &unread);
        let all = Transaction::new_unchecked(&file.book, TransactionBehavior::Immediate).map_err(sql)?;
        let (given, written) = counts(&all, tank).map_err(sql)?;
        let (did, touched) = edit(&all, given)?;
        let number = written + 1;
        // What was taken back before a new writing can't be done again on top of it.
        for sql_text in [
            "DELETE FROM log_change WHERE tank = ?1 \
             AND writing IN (SELECT number FROM log_writing WHERE tank = ?1 AND undone = 1)",
            "DELETE FROM log_writing WHERE tank = ?1 AND undone = 1",
        ] {
            all.prepare_cached(sql_text).and_then(|mut query| query.execute([tank])).map_err(sql)?;
        }
        all.execute(
            "INSERT INTO log_writing (tank, number, at, did, count, undone) VALUES (?1, ?2, ?3, ?4, ?5, 0)",
            (tank, number, at, word(did), touched.len() as u64),
        )
        .map_err(sql)?;
        for (id, fresh) in &touched {
            let old = row::exchange(&all, tank, *id, fresh.as_ref()).map_err(unread)?;
            row::put_other(&all, tank, number, *id, old.as_ref()).map_err(unread)?;
        }
        let highest = touched.iter().map(|(id, _)| *id).max().unwrap_or(0).max(given);
        all.execute("INSERT OR REPLACE INTO log (tank, given, written) VALUES (?1, ?2, ?3)", (tank, highest, number))
            .map_err(sql)?;
        all.commit().map_err(sql)?;
        Ok(touched.into_iter().map(|(id, _)| id).collect())
    }

    /// Exchange both sides of a writing: what holds is taken back, what was taken back holds again.
    fn turn(&mut self, find: &str) -> Result<Option<(Did, u64)>, Fault> {
        let (file, tank) = (&*self.file, self.tank);
        file.writable()?;
        let sql = |error: rusqlite::Error| fault(&file.path, &error);
        let unread = |unread: Unread| told(file, tank, &unread);
        let all = Transaction::new_unchecked(&file.book, TransactionBehavior::Immediate).map_err(sql)?;
        let Some((number, did, count)) = writing(&all, tank, find).map_err(unread)? else { return Ok(None) };
        for (id, other) in row::others(&all, tank, number).map_err(unread)? {
            let held = row::exchange(&all, tank, id, other.as_ref()).map_err(unread)?;
            row::put_other(&all, tank, number, id, held.as_ref()).map_err(unread)?;
        }
        all.execute("UPDATE log_writing SET undone = 1 - undone WHERE tank = ?1 AND number = ?2", (tank, number))
            .map_err(sql)?;
        all.commit().map_err(sql)?;
        Ok(Some((did, count)))
    }
}

/// The last writing that holds.
const LAST: &str =
    "SELECT number, did, count FROM log_writing WHERE tank = ?1 AND undone = 0 ORDER BY number DESC LIMIT 1";

/// The first that was taken back since.
const NEXT: &str = "SELECT number, did, count FROM log_writing WHERE tank = ?1 AND undone = 1 ORDER BY number LIMIT 1";

pub(crate) fn told(file: &File, tank: u64, unread: &Unread) -> Fault {
    match unread {
        Unread::Sqlite(error) => file.fault(error),
        Unread::Broken => damaged(&file.path, &format!("an entry in the log of tank {tank} is not what was written")),
    }
}

/// Numbers given so far: to entries, to writings.
fn counts(book: &Connection, tank: u64) -> rusqlite::Result<(u64, u64)> {
    let row = |row: &Row| Ok((row.get(0)?, row.get(1)?));
    let found =
        book.prepare_cached("SELECT given, written FROM log WHERE tank = ?1")?.query_row([tank], row).optional()?;
    Ok(found.unwrap_or((0, 0)))
}

fn writing(book: &Connection, tank: u64, find: &str) -> Result<Option<(u64, Did, u64)>, Unread> {
    let row = |row: &Row| Ok((row.get(0)?, row.get::<_, String>(1)?, row.get(2)?));
    let found = book.prepare_cached(find)?.query_row([tank], row).optional()?;
    found.map(|(number, did, count)| Ok((number, did_of(&did).ok_or(Unread::Broken)?, count))).transpose()
}

/// How the file names what a writing did.
pub(crate) fn word(did: Did) -> &'static str {
    match did {
        Did::Added => "added",
        Did::Changed => "changed",
        Did::Removed => "removed",
    }
}

/// What a word of the file names.
pub(crate) fn did_of(text: &str) -> Option<Did> {
    [Did::Added, Did::Changed, Did::Removed].into_iter().find(|did| word(*did) == text)
}

fn exists(all: &Connection, tank: u64, id: u64) -> rusqlite::Result<bool> {
    all.prepare_cached("SELECT 1 FROM log_entry WHERE tank = ?1 AND number = ?2")?.exists([tank, id])
}

impl Log for SqliteLog<'_> {
    fn list(&self, filter: &Filter) -> Result<Vec<Kept>, Fault> {
        find::find(&self.file.book, self.tank, filter).map_err(|unread| self.told(&unread))
    }

    fn entry(&self, id: u64) -> Result<Option<Entry>, Fault> {
        row::one(&self.file.book, self.tank, id).map_err(|unread| self.told(&unread))
    }

    fn add(&mut self, entries: Vec<Entry>) -> Result<Vec<u64>, Fault> {
        if entries.is_empty() {
            return self.file.writable().map(|()| Vec::new());
        }
        self.write(|_, given| {
            let touched = (given + 1..).zip(entries).map(|(id, entry)| (id, Some(entry))).collect();
            Ok((Did::Added, touched))
        })
    }

    fn change(&mut self, id: u64, entry: Entry) -> Result<(), Fault> {
        let (tank, path) = (self.tank, self.file.path.clone());
        self.write(|all, _| match exists(all, tank, id).map_err(|error| fault(&path, &error))? {
            true => Ok((Did::Changed, vec![(id, Some(entry))])),
            false => Err(no_entry(id)),
        })
        .map(drop)
    }

    fn remove(&mut self, id: u64) -> Result<(), Fault> {
        let (tank, path) = (self.tank, self.file.path.clone());
        self.write(|all, _| match exists(all, tank, id).map_err(|error| fault(&path, &error))? {
            true => Ok((Did::Removed, vec![(id, None)])),
            false => Err(no_entry(id)),
        })
        .map(drop)
    }

    fn last_writing(&self) -> Result<Option<Writing>, Fault> {
        let book = &self.file.book;
        let last = writing(book, self.tank, LAST).map_err(|unread| self.told(&unread))?;
        let Some((number, did, count)) = last else { return Ok(None) };
        let first = book
            .prepare_cached("SELECT min(entry) FROM log_change WHERE tank = ?1 AND writing = ?2")
            .and_then(|mut query| query.query_row([self.tank, number], |row| row.get::<_, Option<u64>>(0)))
            .map_err(|error| self.file.fault(&error))?;
        Ok(Some(Writing { number, did, count, first: first.unwrap_or(0) }))
    }

    fn undo(&mut self) -> Result<Option<String>, Fault> {
        Ok(self.turn(LAST)?.map(|(did, count)| did.taken_back(count)))
    }

    fn redo(&mut self) -> Result<Option<String>, Fault> {
        Ok(self.turn(NEXT)?.map(|(did, count)| did.done_again(count)))
    }
}
