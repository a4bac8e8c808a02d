//! Whether a book is whole: SQLite's own check of its file, and what must hold between our rows.

use rusqlite::Connection;

use crate::leaf::{self, Unread};
use crate::log;
use crate::report;

/// Faults listed at most: a damaged book has thousands.
const LISTED: usize = 20;

/// The check of the file's shape without its indexes.
///
/// # Errors
/// The first thing that is wrong.
pub(crate) fn quick(book: &Connection) -> Result<(), String> {
    let answer = book.query_row("PRAGMA quick_check(1)", [], |row| row.get::<_, String>(0));
    match answer {
        Ok(text) if text == "ok" => Ok(()),
        Ok(text) => Err(text),
        Err(error) => Err(error.to_string()),
    }
}

/// Everything that can be checked, in sentences; empty: the book is whole.
pub(crate) fn all(book: &Connection) -> Vec<String> {
    match shape(book) {
        // Rows of a file that has lost its shape say nothing.
        Ok(wrong) if wrong.is_empty() => rows(book).unwrap_or_else(|error| vec![error.to_string()]),
        Ok(wrong) => wrong,
        Err(error) => vec![error.to_string()],
    }
}

fn shape(book: &Connection) -> rusqlite::Result<Vec<String>> {
    let mut query = book.prepare(&format!("PRAGMA integrity_check({LISTED})"))?;
    let answers = query.query_map([], |row| row.get::<_, String>(0))?;
    let mut wrong: Vec<String> = answers.collect::<Result<_, _>>()?;
    wrong.retain(|text| text != "ok");
    let mut query = book.prepare("PRAGMA foreign_key_check")?;
    let strays = query.query_map([], |row| row.get::<_, String>(0))?;
    for table in strays.take(LISTED) {
        wrong.push(format!("a row of `{}` belongs to nothing", table?));
    }
    Ok(wrong)
}

/// Each tank has its revisions 1, 2, 3 ... without a gap, each with its seal unbroken, and the name of the last one.
fn rows(book: &Connection) -> rusqlite::Result<Vec<String>> {
    let mut wrong = Vec::new();
    let book = book.unchecked_transaction()?;
    let mut tanks =
        book.prepare("SELECT id, name, tap, (SELECT count(*) FROM revision WHERE tank = tank.id) FROM tank")?;
    let rows = tanks.query_map([], |row| Ok((row.get(0)?, (row.get(1)?, row.get(2)?), row.get(3)?)))?;
    for row in rows {
        let (tank, names, revisions): (u64, (Option<String>, Option<String>), u64) = row?;
        if revisions == 0 {
            wrong.push(format!("tank {tank} has no revision"));
        }
        let mut last = None;
        for number in 1..=revisions {
            match leaf::read(&book, tank, number) {
                Ok(Some(leaf)) => last = Some(leaf.setup),
                Ok(None) => wrong.push(format!("revision {number} of tank {tank} is missing")),
                Err(Unread::Broken) => wrong.push(format!("revision {number} of tank {tank} is not what was written")),
                Err(Unread::Sqlite(error)) => return Err(error),
            }
            if wrong.len() >= LISTED {
                return Ok(wrong);
            }
        }
        wrong.extend(log::paper::check(&book, tank, LISTED)?);
        match report::of_tank(&book, tank) {
            Ok(_) => {}
            Err(Unread::Broken) => wrong.push(format!("a report of tank {tank} is not what was written")),
            Err(Unread::Sqlite(error)) => return Err(error),
        }
        if wrong.is_empty() && last.is_some_and(|last| (leaf::name(&last), last.tap_name()) != names) {
            wrong.push(format!("tank {tank} or its tap has another name than in its last revision"));
        }
    }
    Ok(wrong)
}
