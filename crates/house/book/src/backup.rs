//! Copies of the book beside the book: one a day, one before each great change, and the way back from a damaged one.

use std::fs;
use std::path::{Path, PathBuf};

use quantity::Fault;
use rusqlite::backup::{Backup, StepResult};
use rusqlite::{Connection, OpenFlags};

use crate::check::quick;
use crate::fault::fault;
use crate::header::{Header, place};
use crate::stamp::Stamp;

/// Dated copies that are kept; the oldest goes when another comes. Common practice, no source.
const KEPT: usize = 5;

const ENDING: &str = ".backup";

/// Copy the book to `to`, which must not exist: under another name first, so that a copy which has its name is whole.
pub(crate) fn copy(book: &Connection, path: &Path, to: &Path) -> Result<(), Fault> {
    if to.exists() {
        let taken = Fault::new("a file of this name exists: nothing was copied").at(place(to));
        return Err(taken.hint("choose another name, or move the file away"));
    }
    let begun = beside(to, ".part");
    let moved = |error: std::io::Error| Fault::new(format!("the copy can't be written: {error}")).at(place(to));
    let copied = Connection::open(&begun).and_then(|mut copy| pages(book, &mut copy));
    let copied = copied.map_err(|error| fault(path, &error));
    let done = copied.and_then(|()| fs::rename(&begun, to).map_err(moved));
    if done.is_err() {
        // Half a copy helps nobody.
        let _ = fs::remove_file(&begun);
    }
    done
}

/// A look at a book through a connection of its own, which sees what stood there before a change that is going on.
pub(crate) fn look(path: &Path) -> rusqlite::Result<Connection> {
    Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY)
}

/// All pages in one step, so that nobody writes between two of them.
pub(crate) fn pages(book: &Connection, copy: &mut Connection) -> rusqlite::Result<()> {
    match Backup::new(book, copy)?.step(-1)? {
        StepResult::Done => Ok(()),
        _ => Err(rusqlite::Error::SqliteFailure(rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_BUSY), None)),
    }
}

/// Copy the book before a great change: `book.db.before-import.2026-06-11T08-30-00Z.backup`.
pub(crate) fn before(book: &Connection, path: &Path, what: &str, now: &Stamp) -> Result<PathBuf, Fault> {
    let name = |twice: String| beside(path, &format!(".before-{what}.{}{twice}{ENDING}", now.for_a_name()));
    let mut to = name(String::new());
    for n in 2.. {
        if !to.exists() {
            break;
        }
        to = name(format!(".{n}"));
    }
    copy(book, path, &to)?;
    Ok(to)
}

/// Copy the book once a day (`book.db.2026-06-11.backup`) and let the oldest of these copies go.
pub(crate) fn daily(book: &Connection, path: &Path, now: &Stamp) -> Result<(), Fault> {
    let to = dated(path, &now.day());
    if to.exists() {
        return Ok(());
    }
    match copy(book, path, &to) {
        // Another program made it meanwhile.
        Err(_) if to.exists() => return Ok(()),
        done => done?,
    }
    let mut days = days(path);
    days.sort();
    for old in days.iter().rev().skip(KEPT) {
        // One too many is no harm.
        let _ = fs::remove_file(dated(path, old));
    }
    Ok(())
}

/// Whether today's copy stands beside the book.
pub(crate) fn has_daily(path: &Path, now: &Stamp) -> bool {
    dated(path, &now.day()).exists()
}

/// In words: which copy beside the book is the newest whole one, and what to do with it.
pub(crate) fn way_back(path: &Path) -> String {
    let mut copies: Vec<(Option<std::time::SystemTime>, PathBuf)> = names(path)
        .into_iter()
        .map(|name| path.with_file_name(name))
        .map(|copy| (fs::metadata(&copy).and_then(|data| data.modified()).ok(), copy))
        .collect();
    copies.sort();
    match copies.into_iter().rev().map(|(_, copy)| copy).find(|copy| whole(copy)) {
        Some(copy) => format!(
            "nothing was changed. The newest whole copy is {}. Close all programs that have the book open, move {} and \
             {} (if it is there) into another folder, then copy the copy to the book's name",
            copy.display(),
            path.display(),
            beside(path, "-journal").display()
        ),
        None => "nothing was changed, and no whole copy stands beside it. Look for a copy elsewhere, or for an export"
            .to_owned(),
    }
}

/// Whether any copy stands beside the book.
pub(crate) fn any(path: &Path) -> bool {
    !names(path).is_empty()
}

/// Whether a copy can be read through. It is opened so that nothing is written beside it.
fn whole(copy: &Path) -> bool {
    matches!(Header::of(copy), Ok(Header::Book)) && look(copy).is_ok_and(|copy| quick(&copy).is_ok())
}

/// The names of all copies beside the book.
fn names(path: &Path) -> Vec<String> {
    let start = format!("{}.", file_name(path));
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let names = entries.filter_map(|entry| entry.file_name().into_string().ok());
    names.filter(|name| name.starts_with(&start) && name.ends_with(ENDING)).collect()
}

/// The days of which a copy stands beside the book.
fn days(path: &Path) -> Vec<String> {
    let start = format!("{}.", file_name(path));
    let middle = |name: &String| Some(name.strip_prefix(&start)?.strip_suffix(ENDING)?.to_owned());
    let day = |text: &String| Stamp::read(&format!("{text}T00:00:00Z")).is_ok();
    names(path).iter().filter_map(middle).filter(day).collect()
}

fn dated(path: &Path, day: &str) -> PathBuf {
    beside(path, &format!(".{day}{ENDING}"))
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    path.with_file_name(format!("{}{ending}", file_name(path)))
}

fn file_name(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}
