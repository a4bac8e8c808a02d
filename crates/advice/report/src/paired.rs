//! Names and values on lines of their own, in turn: "Calcium" above "45 mg/L".

use crate::cell::{self, Content, Decimal};
use crate::grid::{Cell, Grid, Row};
use crate::named::Named;
use crate::table::name_of;
use crate::unit_find;

/// So many pairs make a list of them.
const LEAST: usize = 3;

/// The grid with such lines joined to rows of name and value; the grid as it is where there are too few.
pub(crate) fn joined(grid: &Grid) -> Option<Grid> {
    let lines = grid.rows.iter().filter(|r| alone(r).is_some()).count();
    if lines < 2 * LEAST || lines * 2 < grid.rows.len() {
        return None;
    }
    let mut rows: Vec<Row> = Vec::new();
    let (mut pairs, mut at) = (0, 0);
    while let Some(row) = grid.rows.get(at) {
        let next = |n: usize| grid.rows.get(at + n).and_then(alone);
        let name = alone(row).filter(|t| is_name(t));
        // One value, with its unit behind it on the same line or the next.
        let value = name.and(next(1)).filter(|t| is_value(t) && !next(2).is_some_and(is_value));
        let Some((name, value)) = name.zip(value) else {
            rows.push(row.clone());
            at += 1;
            continue;
        };
        let unit = next(2).filter(|t| unit_find::find(value).is_none() && unit_find::without(t).trim().is_empty());
        let value = unit.map_or_else(|| value.to_owned(), |unit| format!("{value} {unit}"));
        rows.push(Row { line: row.line, cells: vec![Cell::new(name), Cell::new(value)] });
        (pairs, at) = (pairs + 1, at + 2 + usize::from(unit.is_some()));
    }
    (pairs >= LEAST).then(|| Grid { rows, wrapped: false, ..grid.clone() })
}

/// The text of a row with one filled cell.
fn alone(row: &Row) -> Option<&str> {
    let mut filled = row.cells.iter().map(|c| c.text.trim()).filter(|t| !t.is_empty());
    filled.next().filter(|_| filled.next().is_none())
}

fn is_name(text: &str) -> bool {
    let number = |n: &cell::Number| n.comparator != quantity::Comparator::Equal;
    let bare = match cell::read(text, Decimal::Unknown) {
        Content::Words => true,
        // "at 25 °C" belongs to the name.
        Content::Numbers(n) => {
            n.iter().all(|n| n.start > 0 && !number(n))
                && unit_find::all(text).iter().all(|f| f.unit == crate::Unit::Celsius)
        }
        _ => false,
    };
    bare && matches!(name_of(text), Named::Determinand(_))
}

fn is_value(text: &str) -> bool {
    match cell::read(text, Decimal::Unknown) {
        Content::NotDetected => true,
        Content::Numbers(n) => n.first().is_some_and(|n| n.start == 0),
        _ => false,
    }
}
