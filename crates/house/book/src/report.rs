//! Water reports in the file: filed with a tank, amended only over the edition that was seen.

use quantity::Fault;
use rusqlite::{Connection, Row, TransactionBehavior, params};
use setup::{FiledReport, Unwritten};

use crate::fault::{damaged, fault};
use crate::file::File;
use crate::header::place;
use crate::leaf::Unread;
use crate::seal::Seal;
use crate::stamp::Stamp;

/// The reports of a tank, the one that came last first.
pub(crate) fn list(file: &File, tank: u64) -> Result<Vec<FiledReport>, Fault> {
    of_tank(&file.book, tank).map_err(|unread| told(file, tank, &unread))
}

/// Keep a report; its number comes back when it is on the disk.
pub(crate) fn add(file: &mut File, tank: u64, name: &str, text: &str, at: &Stamp) -> Result<u64, Fault> {
    file.writable()?;
    let path = file.path.clone();
    let sql = |error: rusqlite::Error| fault(&path, &error);
    let all = file.book.transaction_with_behavior(TransactionBehavior::Immediate).map_err(sql)?;
    let known = all.prepare_cached("SELECT 1 FROM tank WHERE id = ?1").and_then(|mut q| q.exists([tank]));
    if !known.map_err(sql)? {
        return Err(Fault::new(format!("there is no tank {tank} in this book")).at(place(&path)));
    }
    let id: u64 = all.query_row("SELECT coalesce(max(id), 0) + 1 FROM report", [], |row| row.get(0)).map_err(sql)?;
    let (name, text, at) = (name.to_owned(), text.to_owned(), at.to_string());
    put(&all, &FiledReport { id, tank, at, name, edition: 1, text }).map_err(sql)?;
    all.commit().map_err(sql)?;
    Ok(id)
}

/// Write a report's text anew over the edition that was seen; the number of the new edition comes back.
pub(crate) fn amend(file: &mut File, tank: u64, id: u64, seen: u64, text: &str) -> Result<u64, Unwritten> {
    file.writable().map_err(Unwritten::Fault)?;
    let path = file.path.clone();
    let sql = |error: rusqlite::Error| Unwritten::Fault(fault(&path, &error));
    let all = file.book.transaction_with_behavior(TransactionBehavior::Immediate).map_err(sql)?;
    let found = match of_tank(&all, tank) {
        Ok(reports) => reports.into_iter().find(|report| report.id == id),
        Err(Unread::Sqlite(error)) => return Err(sql(error)),
        Err(Unread::Broken) => return Err(Unwritten::Fault(broken(&path, tank))),
    };
    let Some(report) = found else { return Err(Unwritten::Fault(FiledReport::missing(id))) };
    if report.edition != seen {
        return Err(Unwritten::Stale { seen, now: report.edition });
    }
    let report = FiledReport { edition: seen + 1, text: text.to_owned(), ..report };
    all.execute("DELETE FROM report WHERE id = ?1", [id]).map_err(sql)?;
    put(&all, &report).map_err(sql)?;
    all.commit().map_err(sql)?;
    Ok(report.edition)
}

/// Write a report. Belongs into a transaction.
pub(crate) fn put(book: &Connection, report: &FiledReport) -> rusqlite::Result<()> {
    const PUT: &str =
        "INSERT INTO report (id, tank, at, name, edition, text, seal) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)";
    let FiledReport { id, tank, at, name, edition, text } = report;
    book.prepare_cached(PUT)?.execute(params![id, tank, at, name, edition, text, seal(report)])?;
    Ok(())
}

/// The reports of a tank, the one that came last first.
pub(crate) fn of_tank(book: &Connection, tank: u64) -> Result<Vec<FiledReport>, Unread> {
    const FIND: &str = "SELECT id, tank, at, name, edition, text, seal FROM report WHERE tank = ?1 ORDER BY id DESC";
    let row = |row: &Row| {
        let report = FiledReport {
            id: row.get(0)?,
            tank: row.get(1)?,
            at: row.get(2)?,
            name: row.get(3)?,
            edition: row.get(4)?,
            text: row.get(5)?,
        };
        Ok((report, row.get::<_, i64>(6)?))
    };
    let mut query = book.prepare_cached(FIND)?;
    let rows: Vec<(FiledReport, i64)> = query.query_map([tank], row)?.collect::<Result<_, _>>()?;
    let whole = |(report, sealed): (FiledReport, i64)| {
        if seal(&report) == sealed { Ok(report) } else { Err(Unread::Broken) }
    };
    rows.into_iter().map(whole).collect()
}

fn seal(report: &FiledReport) -> i64 {
    let mut seal = Seal::default();
    for number in [report.id, report.tank, report.edition] {
        seal.text(Some(&number.to_string()));
    }
    for text in [&report.at, &report.name, &report.text] {
        seal.text(Some(text));
    }
    seal.number()
}

fn told(file: &File, tank: u64, unread: &Unread) -> Fault {
    match unread {
        Unread::Sqlite(error) => file.fault(error),
        Unread::Broken => broken(&file.path, tank),
    }
}

fn broken(path: &std::path::Path, tank: u64) -> Fault {
    damaged(path, &format!("a report of tank {tank} is not what was written"))
}
