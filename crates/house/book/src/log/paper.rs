//! The logbook in an export: what holds, the latest first, and the writings with their other sides, so that undo goes on.

use std::collections::BTreeSet;

use jiff::ZonedDateTime;
use logbook::{Did, Entry, Filter, What};
use rusqlite::{Connection, Row};
use serde::{Deserialize, Serialize};
use toml::value::Datetime;

use super::{counts, did_of, find, row, word};
use crate::leaf::Unread;
use crate::stamp::Stamp;

/// The log of a tank.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PaperLog {
    /// Numbers given so far: to entries, to writings.
    given: u64,
    written: u64,
    #[serde(default, rename = "entry", skip_serializing_if = "Vec::is_empty")]
    entries: Vec<PaperEntry>,
    #[serde(default, rename = "writing", skip_serializing_if = "Vec::is_empty")]
    writings: Vec<PaperWriting>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PaperEntry {
    number: u64,
    at: String,
    #[serde(default)]
    note: String,
    what: What,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PaperWriting {
    number: u64,
    at: Datetime,
    did: Did,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    undone: bool,
    /// The numbers of the entries that it touched.
    entries: Vec<u64>,
    /// Their other sides, where there are any.
    #[serde(default, rename = "other", skip_serializing_if = "Vec::is_empty")]
    others: Vec<PaperEntry>,
}

impl PaperEntry {
    fn of(number: u64, entry: Entry) -> PaperEntry {
        PaperEntry { number, at: entry.at.to_string(), note: entry.note, what: entry.what }
    }

    fn moment(&self) -> Option<ZonedDateTime> {
        logbook::moment(&self.at).ok()
    }

    fn entry(&self) -> Option<Entry> {
        Some(Entry { at: self.moment()?, what: self.what.clone(), note: self.note.clone() })
    }
}

/// The log of a tank, written out; `None`: nothing was ever written into it.
pub(crate) fn of(all: &Connection, tank: u64) -> Result<Option<PaperLog>, Unread> {
    const WRITINGS: &str = "SELECT number, at, did, undone FROM log_writing WHERE tank = ?1 ORDER BY number DESC";
    let columns = |row: &Row| Ok((row.get(0)?, row.get::<_, String>(1)?, row.get::<_, String>(2)?, row.get(3)?));
    let mut query = all.prepare_cached(WRITINGS)?;
    let rows = query.query_map([tank], columns)?;
    let mut writings = Vec::new();
    for found in rows {
        let (number, at, did, undone) = found?;
        let touched = row::others(all, tank, number)?;
        writings.push(PaperWriting {
            number,
            at: Stamp::read(&at).map_err(|_| Unread::Broken)?.datetime(),
            did: did_of(&did).ok_or(Unread::Broken)?,
            undone,
            entries: touched.iter().map(|(entry, _)| *entry).collect(),
            others: touched.into_iter().filter_map(|(id, other)| Some(PaperEntry::of(id, other?))).collect(),
        });
    }
    if counts(all, tank)? == (0, 0) {
        return Ok(None);
    }
    let held = find::find(all, tank, &Filter::default())?;
    let (given, written) = counts(all, tank)?;
    Ok(Some(PaperLog {
        given,
        written,
        entries: held.into_iter().map(|kept| PaperEntry::of(kept.id, kept.entry)).collect(),
        writings,
    }))
}

/// What is wrong with a log that was read: each as a sentence with what was expected.
pub(crate) fn faults(log: &PaperLog) -> Vec<(String, &'static str)> {
    let mut wrong = Vec::new();
    let mut seen = BTreeSet::new();
    for entry in log.entries.iter() {
        if entry.number < 1 || !seen.insert(entry.number) {
            wrong.push((
                format!("entry {} stands twice, or has no number", entry.number),
                "1, 2, 3 and so on, each once",
            ));
        }
    }
    let all = log.entries.iter().chain(log.writings.iter().flat_map(|writing| &writing.others));
    let no_moment = all.filter(|entry| entry.moment().is_none());
    wrong.extend(no_moment.map(|entry| {
        (
            format!("entry {} has no moment: `{}`", entry.number, entry.at),
            "at = \"2026-06-11T08:30:00+02:00[Europe/Berlin]\"",
        )
    }));
    let touched = log.writings.iter().flat_map(|writing| writing.entries.iter().copied());
    let given = log.entries.iter().map(|entry| entry.number).chain(touched).max();
    let written = log.writings.iter().map(|writing| writing.number).max();
    if given > Some(log.given) || written > Some(log.written) {
        wrong.push((
            format!("{} entries and {} writings are fewer than stand here", log.given, log.written),
            "given and written: the highest numbers so far",
        ));
    }
    let mut seen = BTreeSet::new();
    for writing in &log.writings {
        let touched: BTreeSet<u64> = writing.entries.iter().copied().collect();
        let others: BTreeSet<u64> = writing.others.iter().map(|other| other.number).collect();
        if writing.number < 1 || !seen.insert(writing.number) || Stamp::of(writing.at).is_none() {
            let what = format!("writing {} stands twice, or has no number or no point in time", writing.number);
            wrong.push((what, "1, 2, 3 and so on, each once, with at = 2026-06-11T08:30:00Z"));
        }
        if touched.is_empty()
            || touched.len() != writing.entries.len()
            || others.len() != writing.others.len()
            || !others.is_subset(&touched)
        {
            let what = format!("writing {} does not say once which entries it touched", writing.number);
            wrong.push((what, "entries = [their numbers], and an other side of some of them"));
        }
    }
    wrong
}

/// Puts a log that was read and found without fault into an empty one.
pub(crate) fn put(all: &Connection, tank: u64, log: &PaperLog) -> Result<(), Unread> {
    for entry in &log.entries {
        row::put(all, tank, entry.number, &entry.entry().ok_or(Unread::Broken)?)?;
    }
    for writing in &log.writings {
        all.prepare_cached(
            "INSERT INTO log_writing (tank, number, at, did, count, undone) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
        )?
        .execute((
            tank,
            writing.number,
            writing.at.to_string(),
            word(writing.did),
            writing.entries.len() as u64,
            writing.undone,
        ))?;
        for number in &writing.entries {
            let other = writing.others.iter().find(|other| other.number == *number);
            let other = other.map(|other| other.entry().ok_or(Unread::Broken)).transpose()?;
            row::put_other(all, tank, writing.number, *number, other.as_ref())?;
        }
    }
    all.prepare_cached("INSERT INTO log (tank, given, written) VALUES (?1, ?2, ?3)")?.execute((
        tank,
        log.given,
        log.written,
    ))?;
    Ok(())
}

/// What is wrong with the log of a tank in the file, in sentences: rows whose seal is broken, columns that say something
/// else than their entry, numbers beyond those given.
pub(crate) fn check(all: &Connection, tank: u64, most: usize) -> rusqlite::Result<Vec<String>> {
    let mut wrong = Vec::new();
    let mut entries = all.prepare(
        "SELECT number, text, seal, second, nano, kind, reading, words FROM log_entry WHERE tank = ?1 ORDER BY number",
    )?;
    let mut rows = entries.query([tank])?;
    let (given, written) = counts(all, tank)?;
    let mut texts = row::Texts::default();
    while let Some(found) = rows.next()?
        && wrong.len() < most
    {
        let number: u64 = found.get(0)?;
        let columns = (found.get::<_, i64>(3)?, found.get::<_, i32>(4)?, found.get::<_, String>(5)?);
        let of: (Option<String>, String) = (found.get(6)?, found.get(7)?);
        let whole = match texts.held(tank, found) {
            Ok(held) => {
                let (at, what) = (held.entry.at.timestamp(), &held.entry.what);
                (at.as_second(), at.subsec_nanosecond(), what.kind().to_owned()) == columns
                    && (what.of().map(str::to_owned), row::words(&held.entry)) == of
                    && number <= given
            }
            Err(Unread::Broken) => false,
            Err(Unread::Sqlite(error)) => return Err(error),
        };
        if !whole {
            wrong.push(format!("entry {number} in the log of tank {tank} is not what was written"));
        }
    }
    let mut writings = all.prepare("SELECT number, did, count FROM log_writing WHERE tank = ?1 ORDER BY number")?;
    let mut rows = writings.query([tank])?;
    while let Some(found) = rows.next()?
        && wrong.len() < most
    {
        let (number, did, count): (u64, String, u64) = (found.get(0)?, found.get(1)?, found.get(2)?);
        let whole = match row::others(all, tank, number) {
            Ok(others) => did_of(&did).is_some() && others.len() as u64 == count && number <= written,
            Err(Unread::Broken) => false,
            Err(Unread::Sqlite(error)) => return Err(error),
        };
        if !whole {
            wrong.push(format!("writing {number} in the log of tank {tank} is not what was written"));
        }
    }
    Ok(wrong)
}
