//! Rows and cells, whatever file they came from.

use crate::Place;

/// A cell.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Cell {
    /// The text as shown.
    pub text: String,
    /// Where it stands in a sheet, such as `C14`.
    pub at: Option<Box<str>>,
    /// It repeats its neighbour, because both are one merged cell.
    pub spread: bool,
    /// A number of a sheet, written here with a decimal point.
    pub typed: bool,
    /// The day that a cell of a sheet holds, `YYYY-MM-DD`.
    pub day: Option<Box<str>>,
}

impl Cell {
    pub fn new(text: impl Into<String>) -> Cell {
        Cell { text: text.into(), ..Cell::default() }
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
    pub rows: Vec<Row>,
    /// Its cells may go on in the next row, as print does.
    pub wrapped: bool,
}

impl Grid {
    /// Put this column in front.
    pub fn put_first(&mut self, column: usize) {
        for row in self.rows.iter_mut().filter(|r| column > 0 && column < r.cells.len()) {
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
            cell: column.and_then(|c| row.cells.get(c)).and_then(|c| c.at.as_deref()).map(str::to_owned),
            text: row.joined(),
        }
    }
}
