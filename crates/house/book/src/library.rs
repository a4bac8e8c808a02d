//! The book over all its tanks.

use std::path::{Path, PathBuf};

use quantity::{Fault, Faults};
use rusqlite::{OptionalExtension, TransactionBehavior};
use setup::{FiledReport, Setup, TankEntry, Unwritten};

use crate::file::{self, File};
use crate::header::place;
use crate::leaf::{self, Leaf};
use crate::log::SqliteLog;
use crate::migrate::MIGRATIONS;
use crate::stamp::Stamp;
use crate::tank::TankBook;
use crate::tap;
use crate::{backup, check, paper, report};

/// A keeper's book in one SQLite file.
pub struct SqliteBook {
    file: File,
}

/// A book that was opened.
pub struct Opened {
    /// The book.
    pub book: SqliteBook,
    /// What the keeper should know: that it can only be read, that today's copy could not be made.
    pub notes: Vec<Fault>,
}

impl SqliteBook {
    /// Open a book. It is checked, brought up to date (after a copy beside it) and copied once a day (the last five
    /// copies stay).
    ///
    /// # Errors
    /// No book, another program's file, a damaged or unfinished one, one that can't be read: nothing is changed then, and
    /// the hint has the way back. A newer program's book is no error: it is open for reading, and the notes say so.
    pub fn open(path: &Path, now: &Stamp) -> Result<Opened, Fault> {
        let (file, notes) = file::open(path, now, MIGRATIONS)?;
        Ok(Opened { book: SqliteBook { file }, notes })
    }

    /// A new book without a tank.
    ///
    /// # Errors
    /// There is a file of that name (an empty one is taken, unless copies of a book stand beside it), or it can't be
    /// written.
    pub fn create(path: &Path) -> Result<SqliteBook, Fault> {
        Ok(SqliteBook { file: file::create(path)? })
    }

    /// Open a book; where there is none, and no copy of one either, make one without a tank.
    ///
    /// # Errors
    /// As [`SqliteBook::open`] and [`SqliteBook::create`].
    pub fn open_or_create(path: &Path, now: &Stamp) -> Result<Opened, Fault> {
        let made = file::vacant(path)?.then(|| SqliteBook::create(path).map(drop));
        // If another program made it meanwhile, that one is opened.
        SqliteBook::open(path, now).map_err(|fault| made.and_then(Result::err).unwrap_or(fault))
    }

    /// Whether it may be written.
    ///
    /// # Errors
    /// Why it may only be read.
    pub fn writable(&self) -> Result<(), Fault> {
        self.file.writable()
    }

    /// A number that is another one after each writing, by this program or another.
    ///
    /// # Errors
    /// The file can't be read.
    pub fn mark(&self) -> Result<u64, Fault> {
        let book = &self.file.book;
        let others =
            book.prepare_cached("PRAGMA data_version").and_then(|mut query| query.query_row([], |row| row.get(0)));
        let others: u32 = others.map_err(|error| self.file.fault(&error))?;
        // SQLite counts both with 32 bits; ours alone grows by each row that we write.
        Ok(u64::from(others) << 32 | book.total_changes() & 0xffff_ffff)
    }

    /// From now to [`SqliteBook::end_reading`] all is read as it stands at this moment, at one go. Nothing may be written
    /// meanwhile: it would be refused.
    pub fn begin_reading(&mut self) {
        self.file.begin_reading();
    }

    /// What is read and written from now on is as it stands then. Nothing, where nobody began.
    pub fn end_reading(&mut self) {
        self.file.end_reading();
    }

    /// The tanks by their numbers.
    ///
    /// # Errors
    /// The file can't be read.
    pub fn tanks(&self) -> Result<Vec<TankEntry>, Fault> {
        const TANKS: &str =
            "SELECT id, name, tap, (SELECT max(number) FROM revision WHERE tank = tank.id) FROM tank ORDER BY id";
        let entry = |row: &rusqlite::Row| {
            Ok(TankEntry { id: row.get(0)?, name: row.get(1)?, tap: row.get(2)?, revision: row.get(3)? })
        };
        let tanks = self.file.book.prepare_cached(TANKS).and_then(|mut query| query.query_map([], entry)?.collect());
        tanks.map_err(|error| self.file.fault(&error))
    }

    /// The tank that was edited last; `None`: there is no tank.
    ///
    /// # Errors
    /// The file can't be read.
    pub fn last_tank(&self) -> Result<Option<u64>, Fault> {
        const LAST: &str = "SELECT tank FROM revision ORDER BY id DESC LIMIT 1";
        let last = self.file.book.prepare_cached(LAST).and_then(|mut query| {
            let last = query.query_row([], |row| row.get(0));
            last.optional()
        });
        last.map_err(|error| self.file.fault(&error))
    }

    /// Add a tank, whose first revision is `setup`; its number comes back when it is on the disk.
    ///
    /// # Errors
    /// The book can't be written: it holds what it held.
    pub fn add_tank(&mut self, setup: Setup, now: &Stamp) -> Result<u64, Fault> {
        self.file.writable()?;
        let File { book, path, .. } = &mut self.file;
        let sql = |error: rusqlite::Error| crate::fault::fault(path, &error);
        let all = book.transaction_with_behavior(TransactionBehavior::Immediate).map_err(sql)?;
        all.execute("INSERT INTO tank DEFAULT VALUES", []).map_err(sql)?;
        let tank = all.last_insert_rowid().cast_unsigned();
        let leaf = Leaf { at: now.to_string(), undo_to: None, setup, changes: Vec::new() };
        let leaf =
            tap::follow(&all, tank, None, leaf).map_err(|unread| unread.fault(path, "a tank of the same tap"))?;
        leaf::write(&all, tank, 1, &leaf).map_err(sql)?;
        tap::label(&all, tank, &leaf.setup).map_err(sql)?;
        all.commit().map_err(sql)?;
        Ok(tank)
    }

    /// One tank, to be read and written. What is written through it has the time `now`.
    ///
    /// # Errors
    /// There is no such tank, or its last revision can't be read.
    pub fn tank(&mut self, tank: u64, now: &Stamp) -> Result<TankBook<'_>, Fault> {
        TankBook::open(&mut self.file, tank, now)
    }

    /// The logbook of one tank, to be read and written. What is written through it has the time `now`.
    ///
    /// # Errors
    /// There is no such tank, or the file can't be read.
    pub fn log(&mut self, tank: u64, now: &Stamp) -> Result<SqliteLog<'_>, Fault> {
        SqliteLog::open(&mut self.file, tank, now)
    }

    /// The water reports of a tank, the one that came last first.
    ///
    /// # Errors
    /// The file can't be read, or a report is not what was written.
    pub fn reports(&self, tank: u64) -> Result<Vec<FiledReport>, Fault> {
        report::list(&self.file, tank)
    }

    /// Keep a water report with a tank; its number comes back when it is on the disk.
    ///
    /// # Errors
    /// There is no such tank, or the book can't be written: it holds what it held.
    pub fn file_report(&mut self, tank: u64, name: &str, text: &str, at: &Stamp) -> Result<u64, Fault> {
        report::add(&mut self.file, tank, name, text, at)
    }

    /// Write a report's text anew, but only over the edition that was seen; the number of the new edition comes back.
    ///
    /// # Errors
    /// [`Unwritten`]: another program wrote it meanwhile, or the book can't be written.
    pub fn amend_report(&mut self, tank: u64, id: u64, seen: u64, text: &str) -> Result<u64, Unwritten> {
        report::amend(&mut self.file, tank, id, seen, text)
    }

    /// Everything in the book as a TOML text that a person can read and edit, the newest first.
    ///
    /// # Errors
    /// The file can't be read, or it is damaged.
    pub fn export(&self) -> Result<String, Fault> {
        paper::export(&self.file)
    }

    /// Put what an export says in the place of everything in the book: checked whole, then replaced in one go, with a
    /// copy of the old book beside it, whose name comes back. `name` is the export's name in faults.
    ///
    /// # Errors
    /// All faults of the text, or the book can't be written: it holds what it held.
    pub fn import(&mut self, name: &str, text: &str, now: &Stamp) -> Result<PathBuf, Faults> {
        self.file.writable()?;
        let paper = paper::read(name, text)?;
        Ok(paper::replace(&mut self.file, &paper, now)?)
    }

    /// Copy the book to a file that does not exist yet.
    ///
    /// # Errors
    /// There is such a file, or it can't be written.
    pub fn backup(&self, to: &Path) -> Result<(), Fault> {
        backup::copy(&self.file.book, &self.file.path, to)
    }

    /// Check the whole book, all its revisions too; empty: it is whole.
    pub fn check(&self) -> Vec<Fault> {
        let wrong = check::all(&self.file.book);
        let hint = if wrong.is_empty() { String::new() } else { backup::way_back(&self.file.path) };
        let fault = |what: String| Fault::new(what).at(place(&self.file.path)).hint(hint.clone());
        wrong.into_iter().map(fault).collect()
    }
}
