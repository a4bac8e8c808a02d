//! The book written out as TOML, and read in again: the newest first, tanks and revisions alike.

use std::collections::BTreeSet;
use std::path::PathBuf;

use quantity::{Fault, Faults, Place};
use rusqlite::{Connection, TransactionBehavior};
use serde::{Deserialize, Serialize};
use setup::{Change, FiledReport, Setup};
use toml::value::Datetime;

use crate::backup;
use crate::fault::{damaged, fault};
use crate::file::File;
use crate::leaf::{self, Leaf, Unread};
use crate::log::{self, paper::PaperLog};
use crate::report;
use crate::stamp::Stamp;
use crate::tap;

const FORMAT: u64 = 1;

const HEAD: &str = "\
# A book of Tapmere, written out. Tanks and their revisions stand newest first: the first revision under a tank holds now.
# Change its text as you would change a setup file, then import this file. It is checked before it replaces the book.

";

/// An export.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Paper {
    format: u64,
    /// The tank that was edited last comes first.
    #[serde(default, rename = "tank")]
    tanks: Vec<PaperTank>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PaperTank {
    id: u64,
    #[serde(rename = "revision")]
    revisions: Vec<PaperRevision>,
    #[serde(default, rename = "report", skip_serializing_if = "Vec::is_empty")]
    reports: Vec<PaperReport>,
    #[serde(skip_serializing_if = "Option::is_none")]
    log: Option<PaperLog>,
}

/// A water report with the keeper's corrections; its text is JSON.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PaperReport {
    id: u64,
    at: Datetime,
    name: String,
    edition: u64,
    text: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PaperRevision {
    number: u64,
    at: Datetime,
    undo_to: Option<u64>,
    file: String,
    text: String,
    #[serde(default, rename = "change", skip_serializing_if = "Vec::is_empty")]
    changes: Vec<PaperChange>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PaperChange {
    field: String,
    was: Option<String>,
    now: Option<String>,
}

/// Write the book out.
pub(crate) fn export(file: &File) -> Result<String, Fault> {
    let sql = |error: rusqlite::Error| file.fault(&error);
    // One transaction: what another program writes meanwhile comes wholly or not at all.
    let all = file.book.unchecked_transaction().map_err(sql)?;
    let mut paper = Paper { format: FORMAT, tanks: Vec::new() };
    for (id, revisions) in tanks(&all).map_err(sql)? {
        let leaf = |number: u64| match leaf::read(&all, id, number) {
            Ok(Some(leaf)) => PaperRevision::of(number, leaf).map_err(|fault| damaged(&file.path, &fault.what)),
            Ok(None) | Err(Unread::Broken) => {
                Err(damaged(&file.path, &format!("revision {number} of tank {id} is not what was written")))
            }
            Err(Unread::Sqlite(error)) => Err(sql(error)),
        };
        let revisions = (1..=revisions).rev().map(leaf).collect::<Result<_, _>>()?;
        let reports = report::of_tank(&all, id).map_err(|unread| match unread {
            Unread::Broken => damaged(&file.path, &format!("a report of tank {id} is not what was written")),
            Unread::Sqlite(error) => sql(error),
        })?;
        let reports = reports.into_iter().map(PaperReport::of).collect::<Result<_, _>>()?;
        let log = log::paper::of(&all, id).map_err(|unread| log::told(file, id, &unread))?;
        paper.tanks.push(PaperTank { id, revisions, reports, log });
    }
    let text = toml::to_string_pretty(&paper).map_err(|error| Fault::new(format!("can't be written out: {error}")))?;
    Ok(format!("{HEAD}{text}"))
}

/// The tanks and how many revisions each has, the one that was edited last first.
fn tanks(book: &Connection) -> rusqlite::Result<Vec<(u64, u64)>> {
    let mut query = book.prepare("SELECT tank, count(*) FROM revision GROUP BY tank ORDER BY max(id) DESC")?;
    query.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?.collect()
}

impl PaperRevision {
    fn of(number: u64, leaf: Leaf) -> Result<PaperRevision, Fault> {
        let change = |c: Change| PaperChange { field: c.field, was: c.was, now: c.now };
        Ok(PaperRevision {
            number,
            at: Stamp::read(&leaf.at)?.datetime(),
            undo_to: leaf.undo_to,
            file: leaf.setup.file().to_owned(),
            text: leaf.setup.text().to_owned(),
            changes: leaf.changes.into_iter().map(change).collect(),
        })
    }

    fn leaf(&self) -> Leaf {
        let change = |c: &PaperChange| Change { field: c.field.clone(), was: c.was.clone(), now: c.now.clone() };
        Leaf {
            at: self.at.to_string(),
            undo_to: self.undo_to,
            setup: Setup::kept(&self.file, &self.text),
            changes: self.changes.iter().map(change).collect(),
        }
    }
}

impl PaperReport {
    fn of(report: FiledReport) -> Result<PaperReport, Fault> {
        let FiledReport { id, at, name, edition, text, .. } = report;
        Ok(PaperReport { id, at: Stamp::read(&at)?.datetime(), name, edition, text })
    }

    fn filed(&self, tank: u64) -> FiledReport {
        let (name, text) = (self.name.clone(), self.text.clone());
        FiledReport { id: self.id, tank, at: self.at.to_string(), name, edition: self.edition, text }
    }
}

/// Read an export and check all of it.
pub(crate) fn read(name: &str, text: &str) -> Result<Paper, Faults> {
    let paper: Paper = toml::from_str(text).map_err(|error| {
        let place = error.span().map(|span| Place::in_text(name, text, span)).unwrap_or_default();
        Fault::new(format!("this is no export of a book: {}", error.message()))
            .at(place)
            .hint("nothing was changed; compare with an export of this book")
    })?;
    let mut faults = Faults::new();
    let wrong = |what: String, expected: &str| {
        let place = Place { file: Some(name.to_owned()), ..Place::default() };
        Fault::new(what).at(place).expected(expected)
    };
    if paper.format != FORMAT {
        faults.push(wrong(format!("format {} is unknown here", paper.format), "format = 1"));
    }
    let mut ids = BTreeSet::new();
    let mut reports = BTreeSet::new();
    for tank in &paper.tanks {
        let id = tank.id;
        if id < 1 || !ids.insert(id) {
            faults.push(wrong(
                format!("tank {id} stands twice, or is no number of a tank"),
                "1, 2, 3 and so on, each once",
            ));
        }
        if tank.revisions.is_empty() {
            faults.push(wrong(format!("tank {id} has no revision"), "at least revision 1"));
        }
        for (revision, number) in tank.revisions.iter().rev().zip(1..) {
            let what = format!("tank {id}, revision {}", revision.number);
            if revision.number != number {
                faults.push(wrong(format!("{what} stands where {number} is due"), "all revisions, the newest first"));
            }
            if revision.undo_to.is_some_and(|to| to < 1 || to >= number) {
                faults.push(wrong(format!("{what} goes back to no earlier revision"), "undo_to below its own number"));
            }
            if Stamp::of(revision.at).is_none() {
                faults.push(wrong(format!("{what} has no point in time"), "at = 2026-06-11T08:30:00Z"));
            }
        }
        for report in &tank.reports {
            let what = format!("tank {id}, report {}", report.id);
            if report.id < 1 || report.edition < 1 || !reports.insert(report.id) {
                faults.push(wrong(format!("{what} stands twice, or has no number"), "1 and up, each once in the book"));
            }
            if Stamp::of(report.at).is_none() {
                faults.push(wrong(format!("{what} has no point in time"), "at = 2026-06-11T08:30:00Z"));
            }
        }
        let of_log = tank.log.iter().flat_map(log::paper::faults);
        faults.0.extend(of_log.map(|(what, expected)| wrong(format!("tank {id}, log: {what}"), expected)));
        // Older revisions were checked by the program that wrote them; the first may have been edited by hand.
        if let Some(now) = tank.revisions.first()
            && let Err(of_text) = Setup::read(&format!("{name}, tank {id}, revision {}", now.number), &now.text)
        {
            faults.0.extend(of_text.0);
        }
    }
    faults.or(paper)
}

/// Put an export that was read into the place of everything, in one transaction; the name of the copy of all that stood there.
pub(crate) fn replace(file: &mut File, paper: &Paper, now: &Stamp) -> Result<PathBuf, Fault> {
    let path = file.path.clone();
    let sql = |error: rusqlite::Error| fault(&path, &error);
    let all = file.book.transaction_with_behavior(TransactionBehavior::Immediate).map_err(sql)?;
    // Under the lock: what another program writes comes before the copy, or is refused after the import.
    let copy = backup::before(&backup::look(&path).map_err(sql)?, &path, "import", now)?;
    all.execute_batch("DELETE FROM log_change; DELETE FROM log_writing; DELETE FROM log_entry; DELETE FROM log;")
        .map_err(sql)?;
    all.execute_batch("DELETE FROM report; DELETE FROM change; DELETE FROM revision; DELETE FROM tank;")
        .map_err(sql)?;
    // From the oldest on, so that the last edit is the last again.
    for tank in paper.tanks.iter().rev() {
        all.execute("INSERT INTO tank (id) VALUES (?1)", [tank.id]).map_err(sql)?;
        if let Some(now) = tank.revisions.first() {
            tap::label(&all, tank.id, &Setup::kept(&now.file, &now.text)).map_err(sql)?;
        }
        for revision in tank.revisions.iter().rev() {
            leaf::write(&all, tank.id, revision.number, &revision.leaf()).map_err(sql)?;
        }
        for filed in &tank.reports {
            report::put(&all, &filed.filed(tank.id)).map_err(sql)?;
        }
        if let Some(log) = &tank.log {
            log::paper::put(&all, tank.id, log).map_err(|unread| match unread {
                Unread::Sqlite(error) => sql(error),
                Unread::Broken => Fault::new(format!("the log of tank {} can't be read in", tank.id)),
            })?;
        }
    }
    all.commit().map_err(sql)?;
    Ok(copy)
}
