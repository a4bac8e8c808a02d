//! Spreadsheets: the cells as they are shown, with merged cells spread out.
//!
//! Only the cells that a sheet has are kept, so that one in a far corner costs nothing.

mod format;
mod ods;
mod xlsx;
mod xml;

use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read};
use std::num::NonZeroU32;
use std::rc::Rc;

use self::format::Shown;
use crate::grid::{Cell, Grid, Row};
use crate::{Refusal, RefusalKind};

/// Most cells of a workbook.
const MOST_CELLS: usize = 5_000_000;
/// Most bytes that one part may unpack to.
const MOST_BYTES: u64 = 200 << 20;

/// A refusal of a damaged workbook.
fn damaged(what: impl std::fmt::Display) -> Refusal {
    Refusal::new(
        RefusalKind::Damaged,
        format!("The spreadsheet can't be read ({what}). Save it again, or save the sheet as CSV."),
    )
}

/// The archive.
struct Parts<'a>(zip::ZipArchive<Cursor<&'a [u8]>>);

impl<'a> Parts<'a> {
    fn open(bytes: &'a [u8]) -> Result<Parts<'a>, Refusal> {
        zip::ZipArchive::new(Cursor::new(bytes)).map(Parts).map_err(damaged)
    }

    /// The text of a part; none where it is not there.
    fn text(&mut self, name: &str) -> Result<Option<String>, Refusal> {
        let Ok(part) = self.0.by_name(name) else { return Ok(None) };
        let mut bytes = Vec::new();
        part.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(damaged)?;
        if bytes.len() as u64 > MOST_BYTES {
            return Err(too_large());
        }
        Ok(Some(String::from_utf8(bytes).map_err(damaged)?))
    }
}

fn too_large() -> Refusal {
    Refusal::new(
        RefusalKind::TooLarge,
        "The spreadsheet is larger than a report can be. Save the sheet with the table alone.",
    )
}

/// The cells of a sheet by row and column, from 0.
#[derive(Default)]
struct Sheet {
    name: String,
    /// As they came; in order, each once, from [`Sheet::in_order`] on.
    cells: Vec<((u32, u32), Shown)>,
    /// Rows and columns that are not shown.
    hidden_rows: BTreeSet<u32>,
    hidden_columns: Vec<(u32, u32)>,
    /// First and last row and column.
    merged: Vec<[(u32, u32); 2]>,
}

impl Sheet {
    fn put(&mut self, at: (u32, u32), shown: Shown) -> Result<(), Refusal> {
        if self.cells.len() >= MOST_CELLS {
            return Err(too_large());
        }
        if !shown.text.is_empty() {
            self.cells.push((at, shown));
        }
        Ok(())
    }

    fn is_hidden(&self, (row, column): (u32, u32)) -> bool {
        self.hidden_rows.contains(&row) || self.hidden_columns.iter().any(|(a, b)| (*a..=*b).contains(&column))
    }

    /// Put the cells in order; of two in one place the later one stands.
    fn in_order(&mut self) {
        let in_order = |pair: &[((u32, u32), Shown)]| matches!(pair, [(a, _), (b, _)] if a < b);
        if !self.cells.windows(2).all(in_order) {
            let all: BTreeMap<(u32, u32), Shown> = self.cells.drain(..).collect();
            self.cells.extend(all);
        }
    }

    fn at(&self, place: (u32, u32)) -> Option<&Shown> {
        let at = self.cells.binary_search_by_key(&place, |(at, _)| *at).ok()?;
        self.cells.get(at).map(|(_, shown)| shown)
    }

    /// Only rows and columns that hold something: an empty one says nothing.
    fn grid(mut self) -> Grid {
        if !self.hidden_rows.is_empty() || !self.hidden_columns.is_empty() {
            let cells = std::mem::take(&mut self.cells);
            self.cells = cells.into_iter().filter(|(at, _)| !self.is_hidden(*at)).collect();
        }
        self.in_order();
        let mut spread: BTreeMap<(u32, u32), Rc<str>> = BTreeMap::new();
        for [first, last] in self.merged.iter().take(10_000) {
            let Some(Shown { text, .. }) = self.at(*first) else { continue };
            let far = (last.0.min(first.0 + 200), last.1.min(first.1 + 200));
            let places = (first.0..=far.0).flat_map(|r| (first.1..=far.1).map(move |c| (r, c)));
            spread.extend(places.filter(|at| self.at(*at).is_none()).map(|at| (at, text.clone())));
        }
        let columns: Vec<u32> =
            self.cells.iter().map(|((_, c), _)| *c).collect::<BTreeSet<u32>>().into_iter().collect();
        let mut rows: Vec<Row> = Vec::new();
        let mut line = None;
        let mut days = BTreeMap::new();
        for ((r, c), shown) in self.cells {
            if line != Some(r) {
                rows.push(Row { line: r + 1, cells: empty_row(r, &columns, &spread) });
                line = Some(r);
            }
            let at = columns.binary_search(&c).unwrap_or(0);
            if let Some(cell) = rows.last_mut().and_then(|row| row.cells.get_mut(at)) {
                let Shown { text, typed, day } = shown;
                days.extend(day.map(|day| (text.trim().to_owned(), day)));
                *cell = Cell { text, typed, column: NonZeroU32::new(c.saturating_add(1)), spread: false };
            }
        }
        Grid { title: self.name.clone(), sheet: Some(self.name), rows, days, ..Grid::default() }
    }
}

fn empty_row(row: u32, columns: &[u32], spread: &BTreeMap<(u32, u32), Rc<str>>) -> Vec<Cell> {
    let empty = Cell::new("");
    let cell = |c: &u32| match spread.get(&(row, *c)) {
        Some(text) => Cell { spread: true, text: text.clone(), ..Cell::default() },
        None => empty.clone(),
    };
    // A table is not a thousand columns wide.
    columns.iter().take(1000).map(cell).collect()
}

/// The sheets of a workbook.
pub(crate) fn grids(bytes: &[u8], is_ods: bool) -> Result<Vec<Grid>, Refusal> {
    let mut parts = Parts::open(bytes)?;
    let sheets = if is_ods { ods::sheets(&mut parts)? } else { xlsx::sheets(&mut parts)? };
    Ok(sheets.into_iter().map(Sheet::grid).collect())
}
