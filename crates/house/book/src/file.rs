//! The file: how it is created and opened, and what is refused before anything is touched.

use std::path::{Path, PathBuf};
use std::time::Duration;

use quantity::Fault;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};

use crate::backup;
use crate::check;
use crate::fault::{damaged, fault};
use crate::header::{APPLICATION_ID, Header, place};
use crate::migrate::{self, MIGRATIONS};
use crate::stamp::Stamp;

/// How long a program waits for another one to finish writing. A write takes milliseconds.
const PATIENCE: Duration = Duration::from_secs(5);

/// Pages that are kept in memory, at most. A table of years then goes into the file in one go, and not page by page.
const CACHE_KIB: i64 = 64 * 1024;

/// How many statements stay understood: all that the pages ask.
const STATEMENTS: usize = 64;

/// A file that is open.
pub(crate) struct File {
    pub book: Connection,
    pub path: PathBuf,
    /// Why nothing may be written, if so.
    pub closed: Option<Fault>,
}

impl File {
    /// What SQLite says, as a fault of this file.
    pub fn fault(&self, error: &rusqlite::Error) -> Fault {
        fault(&self.path, error)
    }

    /// # Errors
    /// The book is open for reading only.
    pub fn writable(&self) -> Result<(), Fault> {
        self.closed.clone().map_or(Ok(()), Err)
    }

    /// One moment for all that is read until [`File::end_reading`]. Where SQLite can't, each is read for itself.
    pub fn begin_reading(&self) {
        self.end_reading();
        let _ = self.book.prepare_cached("BEGIN").and_then(|mut begin| begin.execute([]));
    }

    /// Nothing was written since [`File::begin_reading`], so that nothing can fail to be kept.
    pub fn end_reading(&self) {
        if !self.book.is_autocommit() {
            let _ = self.book.prepare_cached("ROLLBACK").and_then(|mut end| end.execute([]));
        }
    }
}

/// What is read until it is dropped is of one moment; where a reading goes on already ([`File::begin_reading`]), of its.
pub(crate) fn reading(book: &Connection) -> rusqlite::Result<Option<Transaction<'_>>> {
    if book.is_autocommit() { book.unchecked_transaction().map(Some) } else { Ok(None) }
}

/// A new, empty book where there is none.
pub(crate) fn create(path: &Path) -> Result<File, Fault> {
    let taken = || {
        Fault::new("there is a file of this name already: nothing was changed")
            .at(place(path))
            .hint("open it, or choose another name")
    };
    match Header::of(path)? {
        Header::Empty if backup::any(path) => return Err(damaged(path, "the file is empty")),
        // A book whose making was interrupted has a header and becomes empty when it is opened.
        Header::Missing | Header::Empty | Header::Book => {}
        Header::OtherProgram | Header::Unknown => return Err(taken()),
    }
    let sql = |error: rusqlite::Error| fault(path, &error);
    let mut book = Connection::open(path).map_err(sql)?;
    ready(&book).map_err(sql)?;
    let all = book.transaction_with_behavior(TransactionBehavior::Immediate).map_err(sql)?;
    let tables: u64 = all.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0)).map_err(sql)?;
    if tables > 0 {
        return Err(taken());
    }
    all.pragma_update(None, "application_id", APPLICATION_ID).map_err(sql)?;
    for migration in MIGRATIONS {
        all.execute_batch(migration).map_err(sql)?;
    }
    all.pragma_update(None, "user_version", MIGRATIONS.len()).map_err(sql)?;
    all.commit().map_err(sql)?;
    Ok(File { book, path: path.to_owned(), closed: None })
}

/// Open a book; with it what the keeper should know. `migrations` are [`MIGRATIONS`] but in tests.
pub(crate) fn open(path: &Path, now: &Stamp, migrations: &[&str]) -> Result<(File, Vec<Fault>), Fault> {
    refuse(path)?;
    let sql = |error: rusqlite::Error| fault(path, &error);
    let mut book = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_WRITE).map_err(sql)?;
    let version = look(&book).map_err(sql)?;
    if version == 0 {
        return Err(unfinished(path));
    }
    if version > migrations.len() {
        return newer(book, path, version, migrations.len());
    }
    ready(&book).map_err(sql)?;
    whole(&book, path)?;
    if book.is_readonly("main").map_err(sql)? {
        let closed = Fault::new("this file may only be read: nothing that you change will be kept");
        let closed = closed.at(place(path)).hint("allow writing to the file and its folder, then open it again");
        if version < migrations.len() {
            book = brought_up(&book, migrations).map_err(sql)?;
        }
        return Ok((File { book, path: path.to_owned(), closed: Some(closed.clone()) }, vec![closed]));
    }
    if version < migrations.len() {
        backup::before(&book, path, &format!("version-{}", migrations.len()), now)?;
        migrate::run(&mut book, migrations).map_err(sql)?;
    }
    let mut notes = Vec::new();
    if !backup::has_daily(path, now) {
        // A damaged book must not push out the whole copies.
        if let Some(seen) = check::all(&book).first() {
            return Err(damaged(path, seen));
        }
        notes.extend(backup::daily(&book, path, now).err());
    }
    Ok((File { book, path: path.to_owned(), closed: None }, notes))
}

/// Whether a new book may be made here: nothing is here, or an empty file, and no copy of a book.
pub(crate) fn vacant(path: &Path) -> Result<bool, Fault> {
    Ok(matches!(Header::of(path)?, Header::Missing | Header::Empty) && !backup::any(path))
}

/// What is no book of ours, told before SQLite touches it.
fn refuse(path: &Path) -> Result<(), Fault> {
    match Header::of(path)? {
        Header::Book => Ok(()),
        Header::Missing if backup::any(path) => Err(damaged(path, "the file is gone")),
        Header::Missing => Err(Fault::new("there is no book here").at(place(path)).hint("a new one can be made here")),
        Header::Empty if backup::any(path) => Err(damaged(path, "the file is empty")),
        Header::Empty => Err(unfinished(path)),
        Header::Unknown if backup::any(path) => Err(damaged(path, "its beginning is not that of a book")),
        Header::OtherProgram if backup::any(path) => {
            Err(damaged(path, "it is the file of another program, or its beginning was changed"))
        }
        Header::Unknown | Header::OtherProgram => Err(Fault::new("this file is not a book of Tapmere")
            .at(place(path))
            .expected("a book that Tapmere made")
            .hint("nothing was changed; a setup file or an export is read in, not opened")),
    }
}

fn unfinished(path: &Path) -> Fault {
    Fault::new("this book was never finished: it is empty").at(place(path)).hint("make it anew under the same name")
}

/// The version; reading it also brings a book that was left in the middle of a change back to its last whole revision.
fn look(book: &Connection) -> rusqlite::Result<usize> {
    book.busy_timeout(PATIENCE)?;
    migrate::version(book)
}

/// The quick look at the file's shape. SQLite reads a last page that is cut off as if it ended in zeros.
fn whole(book: &Connection, path: &Path) -> Result<(), Fault> {
    let size = |name: &str| book.pragma_query_value(None, name, |row| row.get::<_, u64>(0));
    let due =
        size("page_count").and_then(|pages| Ok(pages * size("page_size")?)).map_err(|error| fault(path, &error))?;
    let seen = match std::fs::metadata(path) {
        Ok(file) if file.len() < due => Err(format!("{} of its {due} bytes are left", file.len())),
        _ => check::quick(book),
    };
    seen.map_err(|seen| damaged(path, &seen))
}

/// How this program works in a book: the file alone is the book, and what is acknowledged is on the disk.
fn ready(book: &Connection) -> rusqlite::Result<()> {
    book.busy_timeout(PATIENCE)?;
    book.set_prepared_statement_cache_capacity(STATEMENTS);
    // A statement stays understood whatever it is asked with.
    book.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true)?;
    book.pragma_update_and_check(None, "journal_mode", "delete", |_| Ok(()))?;
    // Full, and the folder too, so that the journal's end is on the disk before an edit is acknowledged.
    book.pragma_update(None, "synchronous", "extra")?;
    book.pragma_update(None, "cache_size", -CACHE_KIB)?;
    book.pragma_update(None, "foreign_keys", true)?;
    book.pragma_update(None, "trusted_schema", false)?;
    book.pragma_update(None, "cell_size_check", true)
}

/// An older book that may only be read, brought up to date in memory: so there is one way to read a book.
fn brought_up(book: &Connection, migrations: &[&str]) -> rusqlite::Result<Connection> {
    let mut copy = Connection::open_in_memory()?;
    backup::pages(book, &mut copy)?;
    migrate::run(&mut copy, migrations)?;
    copy.pragma_update(None, "query_only", true)?;
    Ok(copy)
}

/// A book of a newer program: to look at, if this program can read its tables.
fn newer(book: Connection, path: &Path, version: usize, ours: usize) -> Result<(File, Vec<Fault>), Fault> {
    let told = Fault::new(format!(
        "a newer Tapmere wrote this book (version {version}; this program knows {ours}): it can be read, not changed"
    ))
    .at(place(path))
    .hint("open it with the newer program to change it");
    let readable = book.pragma_update(None, "query_only", true).and_then(|()| {
        book.prepare("SELECT id, tank, number, at, undo_to, file, text, seal FROM revision")?;
        book.prepare("SELECT revision, place, field, was, now FROM change")?;
        book.prepare("SELECT tank, given, written FROM log")?;
        book.prepare("SELECT tank, number, second, nano, kind, reading, words, text, seal FROM log_entry")?;
        book.prepare("SELECT tank, number, at, did, count, undone FROM log_writing")?;
        book.prepare("SELECT tank, writing, entry, other, seal FROM log_change")?;
        book.prepare("SELECT id, tank, at, name, edition, text, seal FROM report")?;
        book.prepare("SELECT id, name, tap FROM tank").map(drop)
    });
    readable.map_err(|_| {
        Fault::new(format!("a newer Tapmere wrote this book (version {version}), and this program can't read it"))
            .at(place(path))
            .hint("nothing was changed; open it with the newer program")
    })?;
    whole(&book, path)?;
    Ok((File { book, path: path.to_owned(), closed: Some(told.clone()) }, vec![told]))
}

#[cfg(test)]
mod tests {
    use setup::{Book, Setup};

    use super::*;
    use crate::leaf::{self, Leaf};
    use crate::tank::TankBook;

    fn now() -> Stamp {
        Stamp::read("2026-06-11T08:30:00Z").unwrap()
    }

    /// An older book with one revision, and the migrations of a program that is one further.
    fn older(folder: &tempfile::TempDir, next: &'static str) -> (PathBuf, Vec<&'static str>) {
        let path = folder.path().join("book.tapmere");
        let file = create(&path).unwrap();
        file.book.execute("INSERT INTO tank DEFAULT VALUES", []).unwrap();
        let setup = Setup::kept("tank.toml", "# mine\n");
        leaf::write(&file.book, 1, 1, &Leaf { at: String::new(), undo_to: None, setup, changes: Vec::new() }).unwrap();
        (path, [MIGRATIONS, &[next]].concat())
    }

    fn holds(file: &mut File) -> Option<String> {
        TankBook::open(file, 1, &now()).unwrap().setup().map(|setup| setup.text().to_owned())
    }

    #[test]
    fn an_older_book_is_copied_and_brought_up_to_date() {
        let folder = tempfile::tempdir().unwrap();
        let (path, migrations) = older(&folder, "ALTER TABLE tank ADD COLUMN water INTEGER;");
        let (mut file, notes) = open(&path, &now(), &migrations).map_err(|fault| fault.to_string()).unwrap();
        assert_eq!((notes, migrate::version(&file.book).unwrap()), (vec![], migrations.len()));
        assert_eq!(holds(&mut file).as_deref(), Some("# mine\n"));
        // The copy is the book as it was.
        let name = format!("book.tapmere.before-version-{}.2026-06-11T08-30-00Z.backup", migrations.len());
        let copy = path.with_file_name(name);
        let (mut copy, _) = open(&copy, &now(), MIGRATIONS).map_err(|fault| fault.to_string()).unwrap();
        assert_eq!(migrate::version(&copy.book).unwrap(), MIGRATIONS.len());
        assert_eq!(holds(&mut copy).as_deref(), Some("# mine\n"));
    }

    #[test]
    fn a_migration_that_fails_leaves_the_book_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let (path, migrations) = older(&folder, "CREATE TABLE moon (x); CREATE TABLE tank (x);");
        assert!(open(&path, &now(), &migrations).is_err());
        let (mut file, _) = open(&path, &now(), MIGRATIONS).map_err(|fault| fault.to_string()).unwrap();
        assert_eq!(holds(&mut file).as_deref(), Some("# mine\n"));
        assert!(file.book.prepare("SELECT * FROM moon").is_err());
    }
}
