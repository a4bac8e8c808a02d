//! Rows and cells, whatever file they came from.

use std::collections::BTreeMap;
use std::num::NonZeroU32;
use std::rc::Rc;

use crate::Place;
use crate::recent::kept;

/// A cell. A report of ten megabytes has a million of them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Cell {
    /// The text as shown.
    pub text: Rc<str>,
    /// Its column in a sheet, counted from 1.
    pub column: Option<NonZeroU32>,
    /// It repeats its neighbour, because both are one merged cell.
    pub spread: bool,
    /// A number of a sheet, written here with a decimal point.
    pub typed: bool,
}

impl Cell {
    pub fn new(text: impl AsRef<str>) -> Cell {
        Cell { text: kept(text.as_ref()), ..Cell::default() }
    }

    /// Put more text behind.
    pub fn append(&mut self, more: &str) {
        self.text = if self.text.is_empty() { kept(more) } else { glued(&self.text, more).into() };
    }
}

/// Two texts of one cell, parted by a space; but "Bestimmungs-" and "grenze" are one word, and so are "pH-" and "Wert".
pub(crate) fn glued(first: &str, more: &str) -> String {
    let word = first.trim_end_matches(['-', '\u{2010}', '\u{ad}']);
    let broken = word.len() < first.len() && word.chars().rev().take(2).all(char::is_alphabetic);
    let small = more.chars().next().is_some_and(char::is_lowercase);
    // "Nitrat- und Nitritgehalt" is two words.
    let and = matches!(more.split_whitespace().next(), Some("und" | "oder" | "en" | "of" | "et" | "y"));
    match broken && !and && more.starts_with(char::is_alphabetic) {
        true if small => format!("{word}{more}"),
        true => format!("{first}{more}"),
        false => format!("{first} {more}"),
    }
}

/// A row.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Row {
    /// Counted from 1.
    pub line: u32,
    pub cells: Vec<Cell>,
}

impl Row {
    /// The text of a cell; empty where there is none.
    pub fn text(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", |c| c.text.trim())
    }

    /// The cells, parted by two spaces.
    pub fn joined(&self) -> String {
        let texts = self.cells.iter().filter(|c| !c.spread && !c.text.trim().is_empty());
        texts.map(|c| c.text.trim()).collect::<Vec<_>>().join("  ")
    }
}

/// A table, or text as rows of one cell.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Grid {
    pub page: Option<u32>,
    pub sheet: Option<String>,
    /// What stands above it.
    pub title: String,
    /// The water that a line above it names.
    pub place: String,
    /// The days that cells of a sheet hold, `YYYY-MM-DD`, by the text that shows them.
    pub days: BTreeMap<String, String>,
    pub rows: Vec<Row>,
    /// Its cells may go on in the next row, as print does.
    pub wrapped: bool,
}

impl Grid {
    /// Put this column in front.
    pub fn put_first(&mut self, column: usize) {
        for row in self.rows.iter_mut().filter(|r| column > 0 && column < r.cells.len()) {
            let mut filled = (0..row.cells.len())
                .filter(|&c| !row.text(c).is_empty() && !row.cells.get(c).is_some_and(|c| c.spread));
            // A title stands alone, and stays at the left.
            if filled.next() == Some(0) && filled.next().is_none() {
                continue;
            }
            drop(filled);
            let cell = row.cells.remove(column);
            row.cells.insert(0, cell);
        }
    }

    /// Number of columns.
    pub fn width(&self) -> usize {
        self.rows.iter().map(|r| r.cells.len()).max().unwrap_or(0)
    }

    /// The place of a row, and of a cell of it.
    pub fn place(&self, row: &Row, column: Option<usize>) -> Place {
        Place {
            page: self.page,
            sheet: self.sheet.clone(),
            line: Some(row.line),
            cell: column.and_then(|c| row.cells.get(c)).and_then(|c| c.column).map(|c| address(row.line, c)),
            text: row.joined(),
        }
    }
}

/// `C14`: row and column counted from 1.
fn address(row: u32, column: NonZeroU32) -> String {
    let mut letters = String::new();
    let mut n = column.get();
    while n > 0 {
        letters.insert(0, char::from(b'A' + u8::try_from((n - 1) % 26).unwrap_or(0)));
        n = (n - 1) / 26;
    }
    format!("{letters}{row}")
}
