//! Rows of the logbook: an entry as it holds now, and the other side of each writing.

use jiff::tz::TimeZone;
use logbook::Entry;
use rusqlite::{Connection, Row, params};

use super::plain;
use crate::leaf::Unread;
use crate::seal::Seal;

/// An entry as a row has it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Held {
    pub number: u64,
    pub entry: Entry,
}

/// An entry as text, exactly.
pub(crate) fn text_of(entry: &Entry) -> Result<String, Unread> {
    toml::to_string(entry).map_err(|error| {
        // Nothing in an entry is unknown to TOML; SQLite's words are those that the keeper would be told anyway.
        Unread::Sqlite(rusqlite::Error::ToSqlConversionFailure(Box::new(error)))
    })
}

fn entry_of(text: &str) -> Result<Entry, Unread> {
    toml::from_str(text).map_err(|_| Unread::Broken)
}

/// Reads one entry after the other.
#[derive(Default)]
pub(crate) struct Texts {
    /// The zone of the last one; the next is likely in the same.
    zone: Option<TimeZone>,
}

impl Texts {
    fn entry(&mut self, text: &str) -> Result<Entry, Unread> {
        let quick = self.zone.as_ref().and_then(|zone| plain::read(text, zone));
        let entry = quick.map_or_else(|| entry_of(text), Ok)?;
        if self.zone.as_ref().and_then(TimeZone::iana_name) != entry.at.time_zone().iana_name() {
            self.zone = Some(entry.at.time_zone().clone());
        }
        Ok(entry)
    }

    /// The entry of a row of `log_entry` that begins with number, text and seal, if the seal is whole.
    pub fn held(&mut self, tank: u64, row: &Row) -> Result<Held, Unread> {
        let (number, text) = (row.get(0)?, row.get_ref(1)?.as_str().map_err(|_| Unread::Broken)?);
        if row.get::<_, i64>(2)? != seal(&[tank, number], Some(text)) {
            return Err(Unread::Broken);
        }
        Ok(Held { number, entry: self.entry(text)? })
    }
}

fn seal(numbers: &[u64], text: Option<&str>) -> i64 {
    let mut seal = Seal::default();
    for number in numbers {
        seal.text(Some(&number.to_string()));
    }
    seal.text(text);
    seal.number()
}

/// Puts `fresh` (`None`: nothing) into the place of an entry; what stood there comes back. Belongs into a transaction.
pub(crate) fn exchange(
    all: &Connection,
    tank: u64,
    number: u64,
    fresh: Option<&Entry>,
) -> Result<Option<Entry>, Unread> {
    let old = one(all, tank, number)?;
    match fresh {
        Some(entry) => put(all, tank, number, entry)?,
        None => {
            all.prepare_cached("DELETE FROM log_entry WHERE tank = ?1 AND number = ?2")?.execute([tank, number])?;
        }
    }
    Ok(old)
}

/// An entry; `None`: none of that number holds.
pub(crate) fn one(book: &Connection, tank: u64, number: u64) -> Result<Option<Entry>, Unread> {
    const ONE: &str = "SELECT number, text, seal FROM log_entry WHERE tank = ?1 AND number = ?2";
    let mut query = book.prepare_cached(ONE)?;
    let mut rows = query.query([tank, number])?;
    rows.next()?.map(|row| Texts::default().held(tank, row).map(|held| held.entry)).transpose()
}

/// Writes an entry under its number, over what stands there.
pub(crate) fn put(all: &Connection, tank: u64, number: u64, entry: &Entry) -> Result<(), Unread> {
    const PUT: &str = "INSERT OR REPLACE INTO log_entry (tank, number, second, nano, kind, reading, words, text, seal) \
                       VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)";
    let (at, what) = (entry.at.timestamp(), &entry.what);
    let text = text_of(entry)?;
    all.prepare_cached(PUT)?.execute(params![
        tank,
        number,
        at.as_second(),
        at.subsec_nanosecond(),
        what.kind(),
        what.of(),
        words(entry),
        text,
        seal(&[tank, number], Some(&text)),
    ])?;
    Ok(())
}

/// Note and subject in small letters: what a search looks into first.
pub(crate) fn words(entry: &Entry) -> String {
    format!("{}\n{}", entry.note.to_lowercase(), entry.what.subject().to_lowercase())
}

/// Writes the other side of a writing.
pub(crate) fn put_other(
    all: &Connection,
    tank: u64,
    writing: u64,
    number: u64,
    other: Option<&Entry>,
) -> Result<(), Unread> {
    const PUT: &str =
        "INSERT OR REPLACE INTO log_change (tank, writing, entry, other, seal) VALUES (?1, ?2, ?3, ?4, ?5)";
    let other = other.map(text_of).transpose()?;
    let seal = seal(&[tank, writing, number], other.as_deref());
    all.prepare_cached(PUT)?.execute(params![tank, writing, number, other, seal])?;
    Ok(())
}

/// The entries that a writing touched, by their numbers, each with its other side.
pub(crate) fn others(all: &Connection, tank: u64, writing: u64) -> Result<Vec<(u64, Option<Entry>)>, Unread> {
    const FIND: &str = "SELECT entry, other, seal FROM log_change WHERE tank = ?1 AND writing = ?2 ORDER BY entry";
    let mut query = all.prepare_cached(FIND)?;
    let mut rows = query.query([tank, writing])?;
    let (mut others, mut texts) = (Vec::new(), Texts::default());
    while let Some(row) = rows.next()? {
        let (number, other) = (row.get(0)?, row.get_ref(1)?.as_str_or_null().map_err(|_| Unread::Broken)?);
        if row.get::<_, i64>(2)? != seal(&[tank, writing, number], other) {
            return Err(Unread::Broken);
        }
        others.push((number, other.map(|text| texts.entry(text)).transpose()?));
    }
    Ok(others)
}
