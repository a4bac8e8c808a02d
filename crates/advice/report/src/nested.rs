//! Rows for the lowest, the mean, the highest value of one determinand, under a row that names it and holds no value.

use knowledge::ReportColumn;

use crate::cell::{self, Content, Decimal};
use crate::grid::{Cell, Grid, Row};
use crate::lexicon::lexicon;
use crate::table::names_one;

/// So many rows under one name make them its own.
const LEAST: usize = 2;

/// The grid with the name set before the words of each such row, "Nitrate" before "minimum"; none where there are none.
pub(crate) fn spelled_out(grid: &Grid) -> Option<Grid> {
    if grid.width() < 2 {
        return None;
    }
    let mut rows = grid.rows.clone();
    let (mut above, mut any): (Option<(usize, usize)>, bool) = (None, false);
    for (at, row) in grid.rows.iter().enumerate() {
        let Some(column) = row.cells.iter().position(|c| !c.text.trim().is_empty()) else { continue };
        let held = above.filter(|(_, c)| *c == column && labelled(row, column));
        let Some(name) = held.and_then(|(from, _)| grid.rows.get(from)) else {
            above = heads(grid, at, column).then_some((at, column));
            continue;
        };
        rows.get_mut(at).into_iter().for_each(|r| set(r, name, column));
        any = true;
    }
    any.then(|| Grid { rows, ..grid.clone() })
}

/// Whether a row names a determinand, holds no value, and such rows stand under it.
fn heads(grid: &Grid, at: usize, column: usize) -> bool {
    let plain = |r: &Row| names_one(r.text(column)) && (column + 1..r.cells.len()).all(|c| !is_value(r.text(c)));
    let under = || grid.rows.iter().skip(at + 1).take_while(|r| labelled(r, column));
    grid.rows.get(at).is_some_and(plain)
        && under().take(LEAST).count() == LEAST
        && under().any(|r| is_result(r, column))
}

/// "minimum  18.2", "limit  50": a word that heads a column, and a value.
fn labelled(row: &Row, column: usize) -> bool {
    let told = || matches!(lexicon().column(row.text(column)), Some((_, true)));
    let alone = (0..column).all(|c| row.text(c).is_empty());
    alone && (column + 1..row.cells.len()).any(|c| is_value(row.text(c))) && told()
}

fn is_result(row: &Row, column: usize) -> bool {
    use ReportColumn::{Max, Mean, Median, Min, P5, P10, P90, P95};
    let role = lexicon().column(row.text(column)).map(|(role, _)| role);
    matches!(role, Some(Min | Mean | Median | Max | P95 | P90 | P10 | P5))
}

fn is_value(text: &str) -> bool {
    match cell::read(text, Decimal::Unknown) {
        Content::NotDetected => true,
        Content::Numbers(n) => n.first().is_some_and(|n| n.start == 0),
        _ => false,
    }
}

/// The name before the words of a row, and what else stands beside the name: its unit.
fn set(row: &mut Row, name: &Row, column: usize) {
    let label = row.text(column).to_owned();
    for (c, cell) in row.cells.iter_mut().enumerate() {
        if c == column {
            *cell = Cell::new(format!("{} {label}", name.text(c)));
        } else if cell.text.trim().is_empty() && !name.text(c).is_empty() {
            *cell = Cell::new(name.text(c));
        }
    }
}
