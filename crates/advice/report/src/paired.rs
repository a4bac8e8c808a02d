//! Names and values on lines of their own, in turn: "Calcium" above "45 mg/L".

use crate::cell::{self, Content, Decimal};
use crate::grid::{Cell, Grid, Row};
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::table::name_of;
use crate::unit_find;
use std::collections::BTreeSet;

use knowledge::ReportColumn;

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
        at += 2 + usize::from(unit.is_some());
        let pair = |value: String| Row { line: row.line, cells: vec![Cell::new(name), Cell::new(value)] };
        let (mut first, mut more, mut lowest) = (value.clone(), Vec::new(), false);
        while let Some((role, text)) = grid.rows.get(at).and_then(alone).and_then(labelled) {
            let behind = unit_behind(&value).filter(|_| unit_find::find(text).is_none());
            let with_unit = || behind.map_or_else(|| text.to_owned(), |unit| format!("{text} {unit}"));
            match role {
                // The highest without the lowest may be the highest allowed: a line of its own, as it stands.
                ReportColumn::Max if !lowest => more.extend(grid.rows.get(at).cloned()),
                ReportColumn::Limit => first = format!("{first} ({text})"),
                _ => more.push(pair(with_unit())),
            }
            (lowest, at) = (lowest || role == ReportColumn::Min, at + 1);
        }
        rows.push(pair(first));
        rows.append(&mut more);
        pairs += 1;
    }
    (pairs >= LEAST).then(|| Grid { rows, wrapped: false, ..grid.clone() })
}

/// "Iron: < 5 µg/l    Manganese: < 1 µg/l": names with their values side by side, each on a line of its own.
pub(crate) fn apart(grid: &mut Grid) {
    let pair = |c: &Cell| {
        let (name, value) = c.text.split_once([':', '=']).or_else(|| with_unit(&c.text))?;
        let Named::Determinand(name) = name_of(name) else { return None };
        (name.strange.is_empty() && is_value(value.trim())).then_some(name.key)
    };
    let several = |row: &Row| {
        let filled: Vec<&Cell> = row.cells.iter().filter(|c| !c.text.trim().is_empty()).collect();
        // The first cell that is none decides.
        let keys: Option<BTreeSet<&str>> = filled.iter().map(|c| pair(c)).collect();
        keys.is_some_and(|keys| keys.len() > 1 && keys.len() == filled.len())
    };
    if !grid.rows.iter().any(several) {
        return;
    }
    let alone = |row: &Row| {
        let filled = row.cells.iter().filter(|c| !c.text.trim().is_empty());
        filled.map(|c| Row { line: row.line, cells: vec![c.clone()] }).collect()
    };
    let rows = std::mem::take(&mut grid.rows).into_iter();
    grid.rows = rows.flat_map(|row| if several(&row) { alone(&row) } else { vec![row] }).collect();
}

/// "Calcium 61 mg/l": a name and its value, which has a unit.
fn with_unit(text: &str) -> Option<(&str, &str)> {
    let (name, value) = text.split_at_checked(text.find(|c: char| c.is_ascii_digit() || c == '<')?)?;
    let apart = name.ends_with(' ') && !name.contains('(');
    (apart && unit_find::find(value).is_some()).then_some((name, value))
}

/// "Range 7.4 to 8.0", "Maximum acceptable value 5 mg/l": what more is said of the value above.
fn labelled(text: &str) -> Option<(ReportColumn, &str)> {
    use ReportColumn::{Limit, Max, Mean, Median, Min, Range};
    let first = text.find(|c: char| c.is_ascii_digit() || c == '<')?;
    let label = text.get(..first)?.trim().trim_end_matches(':');
    let (role, exact) = lexicon().column(label)?;
    let told = exact && matches!(role, Limit | Max | Mean | Median | Min | Range);
    let range = role == Range;
    told.then(|| (role, if range { text.get(first..).unwrap_or(text) } else { text }))
}

/// What stands behind the number of a value: its unit, and what it is counted as.
fn unit_behind(value: &str) -> Option<&str> {
    let number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '<' | ' ');
    Some(value.trim_start_matches(number)).filter(|unit| unit_find::find(unit).is_some())
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
