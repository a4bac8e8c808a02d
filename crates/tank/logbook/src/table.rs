//! The log as a table: CSV out, CSV in with all faults at once.

use std::collections::BTreeMap;

use jiff::civil::Date;
use jiff::{Timestamp, ZonedDateTime};
use quantity::{Fault, Faults, Place, Units};

use crate::cells::{Cell, Table};
use crate::written::{self, NAMES, Texts};
use crate::{Entry, Kept, day, fits};

/// The entries as CSV (RFC 4180, UTF-8, commas), the earliest first; [`read`] takes it back exactly. A text that a spreadsheet
/// would reckon out gets an apostrophe in front, which is taken off again.
pub fn write(entries: &[Kept]) -> String {
    let mut kept: Vec<&Kept> = entries.iter().collect();
    kept.sort_by_key(|kept| (kept.entry.at.timestamp(), kept.id));
    let mut out = NAMES.join(",") + "\r\n";
    for Kept { entry, .. } in kept {
        let texts = written::write(entry);
        let cells = NAMES.map(|name| {
            let text = texts.get(name).map_or("", String::as_str);
            if TEXTS.contains(&name) && reckons(text) { quoted(&format!("'{text}")) } else { quoted(text) }
        });
        out += &(cells.join(",") + "\r\n");
    }
    out
}

/// The columns that hold the keeper's own words.
const TEXTS: [&str; 3] = ["what", "kit", "note"];

/// Whether a spreadsheet would take a text for a formula, or a text like it is already marked as none.
fn reckons(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(['=', '+', '-', '@', '\t', '\r'])
}

/// Without the apostrophe that marks it as no formula.
fn unmarked<'a>(name: &str, text: &'a str) -> &'a str {
    let marked = text.strip_prefix('\'').filter(|rest| TEXTS.contains(&name) && reckons(rest));
    marked.unwrap_or(text)
}

fn quoted(text: &str) -> String {
    let plain = !text.contains([',', ';', '"', '\n', '\r', '\t']) && text.trim() == text;
    if plain { text.to_owned() } else { format!("\"{}\"", text.replace('"', "\"\"")) }
}

/// Read a table. `file` is its name in faults; bare numbers are in the keeper's units, moments without an offset by the
/// keeper's clock.
///
/// # Errors
/// All faults of the table, each with file, line, column, what was expected and how to mend it.
pub fn read(file: &str, text: &str, now: &ZonedDateTime, units: &Units) -> Result<Vec<Entry>, Faults> {
    let table = Table::cut(file, text)?;
    Ok(rows(&table, now, units)?.1.into_iter().map(|(entry, _)| entry).collect())
}

/// Read a table into a log that holds `held`: the entries that do not stand there yet, and how many do, so that a table which
/// is read in twice is written once: a row with an hour stands there at that moment, one with a date alone on that day.
/// `litres` are the tank's at their upper end, where its sizes are told.
///
/// # Errors
/// Those of [`read`]; more water than the tank holds ([`fits`]).
pub fn fresh(
    file: &str,
    text: &str,
    now: &ZonedDateTime,
    units: &Units,
    held: &[Kept],
    litres: Option<f64>,
) -> Result<(Vec<Entry>, usize), Faults> {
    let of_day = |entry: &Entry| entry.at.with_time_zone(now.time_zone().clone()).date();
    let mut days: BTreeMap<Date, Vec<&Entry>> = BTreeMap::new();
    for kept in held {
        days.entry(of_day(&kept.entry)).or_default().push(&kept.entry);
    }
    // Only where a day is met again it matters what else its entries say.
    let mut there: BTreeMap<Date, Vec<(Timestamp, Key)>> = BTreeMap::new();
    let (mut entries, mut stood_there, mut faults) = (Vec::new(), 0, Faults::new());
    let table = Table::cut(file, text)?;
    let (names, rows) = rows(&table, now, units)?;
    for (entry, row) in rows {
        let date = of_day(&entry);
        if let Some(held) = days.get(&date) {
            let left =
                there.entry(date).or_insert_with(|| held.iter().map(|one| (one.at.timestamp(), key(one))).collect());
            let (at, key) = (entry.at.timestamp(), key(&entry));
            let same = |any: bool| left.iter().position(|(then, one)| (any || *then == at) && *one == key);
            if let Some(found) = same(false).or_else(|| same(of_a_day(&names, row))) {
                left.swap_remove(found);
                stood_there += 1;
                continue;
            }
        }
        match litres.map_or(Ok(()), |litres| fits(&entry.what, litres, units)) {
            Ok(()) => entries.push(entry),
            Err(fault) => faults.push(fault.at(cell_place(&table, &names, row, "amount"))),
        }
    }
    faults.or((entries, stood_there))
}

/// What two entries of one moment share that are one.
type Key = BTreeMap<&'static str, String>;

fn key(entry: &Entry) -> Key {
    let mut texts = written::write(entry);
    texts.remove("at");
    texts
}

/// Whether a row tells a date alone.
fn of_a_day(names: &[&'static str], row: &[Cell]) -> bool {
    names.iter().zip(row).any(|(name, cell)| *name == "at" && day(&cell.text).is_some())
}

/// The columns of a table, and its entries, each with its row.
type Rows<'a> = (Vec<&'static str>, Vec<(Entry, &'a [Cell])>);

fn rows<'a>(table: &'a Table, now: &ZonedDateTime, units: &Units) -> Result<Rows<'a>, Faults> {
    let Some((header, rows)) = table.rows.split_first() else {
        return Err(Fault::new("the table is empty")
            .at(table.place(1, None))
            .expected("a header and at least one row")
            .hint("`tapmere log export` shows how such a table looks")
            .into());
    };
    let names = header_names(table, header)?;
    let (mut entries, mut faults) = (Vec::new(), Faults::new());
    for row in rows {
        match entry(table, &names, row, now, units) {
            Ok(entry) => entries.push((entry, row.as_slice())),
            Err(others) => faults.0.extend(others.0),
        }
    }
    faults.or((names, entries))
}

/// Where the cell of a column stands.
fn cell_place(table: &Table, names: &[&'static str], row: &[Cell], name: &str) -> Place {
    let cell = names.iter().zip(row).find(|(column, _)| **column == name).map(|(_, cell)| cell);
    let line = cell.or(row.first()).map_or(1, |cell| cell.line);
    table.place(line, cell.map(|cell| (cell.column, cell.width))).named(name)
}

fn header_names(table: &Table, header: &[Cell]) -> Result<Vec<&'static str>, Faults> {
    let (mut names, mut faults): (Vec<&'static str>, _) = (Vec::new(), Faults::new());
    for cell in header {
        let text = cell.text.trim().to_ascii_lowercase();
        let place = || table.place(cell.line, Some((cell.column, cell.width)));
        match NAMES.iter().find(|name| **name == text) {
            None => faults.push(
                Fault::new(format!("the column `{}` is not known", cell.text))
                    .at(place())
                    .expected(format!("columns among {}", NAMES.join(", ")))
                    .hint("give it one of these names, or take it out"),
            ),
            Some(name) if names.contains(name) => {
                let twice = Fault::new(format!("the column `{name}` is there twice")).at(place());
                faults.push(twice.hint("take one of them out"));
            }
            Some(name) => names.push(name),
        }
    }
    for (name, what) in
        [("at", "when it was seen or done"), ("kind", "what kind of entry it is: test, dose, change ...")]
    {
        if !names.contains(&name) {
            let missing = Fault::new(format!("the column `{name}` is missing")).at(table.place(1, None));
            faults.push(missing.expected(what).hint("`tapmere log export` shows how such a table looks"));
        }
    }
    faults.or(names)
}

fn entry(
    table: &Table,
    names: &[&'static str],
    row: &[Cell],
    now: &ZonedDateTime,
    units: &Units,
) -> Result<Entry, Faults> {
    let line = row.first().map_or(1, |cell| cell.line);
    if row.len() != names.len() {
        return Err(Fault::new(format!("the row has {} cells, the header {}", row.len(), names.len()))
            .at(table.place(line, None))
            .expected("a cell for each column")
            .hint("leave a cell empty rather than out; a text with a comma stands in quotation marks")
            .into());
    }
    let filled = names.iter().zip(row).filter(|(_, cell)| !cell.text.is_empty());
    let texts: Texts = filled.map(|(name, cell)| ((*name).to_owned(), unmarked(name, &cell.text).to_owned())).collect();
    let place = |name: &str| cell_place(table, names, row, name);
    let mut faults = Faults::new();
    if texts.get("at").is_none_or(|at| at.trim().is_empty()) {
        let fault =
            Fault::new("the moment is missing").at(place("at")).expected("a date, for instance 2026-06-11 08:30");
        faults.push(fault);
    }
    if let Err(fault) = written::settled(&texts, units) {
        faults.push(fault.at(place("amount")));
        return Err(faults);
    }
    match written::read(&texts, now, units) {
        Ok(entry) => return faults.or(entry),
        Err(others) => faults.0.extend(others.0.into_iter().map(|fault| {
            let name = fault.place.field.clone().unwrap_or_else(|| "kind".to_owned());
            fault.at(place(&name))
        })),
    }
    Err(faults)
}
