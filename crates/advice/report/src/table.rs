//! From a grid to its blocks of rows, and from those to readings.

use std::borrow::Cow;
use std::collections::BTreeMap;

use knowledge::ReportColumn;

use crate::cell::{self, Content, Decimal};
use crate::columns::{Column, columns, says_mean};
use crate::dates::{is_date, is_year};
use crate::found::Found;
use crate::grid::{Grid, Row};
use crate::lexicon::lexicon;
use crate::named::{Named, named};
use crate::recent::{Recent, kept, recall};
use crate::{Unit, paired, row, unit_find, wrapped};

/// A cell longer than this is a sentence.
const SENTENCE: usize = 140;

/// What the texts of the whole report say together.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Habits {
    pub decimal: Decimal,
    /// A title says that the values are means.
    pub mean: bool,
    /// The unit of all values that have none of their own, where a sentence says so.
    pub all_in: Option<Unit>,
}

/// Read all grids of a report.
pub(crate) fn read(grids: Vec<Grid>) -> Found {
    let cells = grids.iter().flat_map(|g| &g.rows).flat_map(|r| &r.cells);
    let decimal = cell::decimal_of(cells.filter(|c| !c.typed).map(|c| &*c.text));
    let titles = grids.iter().flat_map(|g| g.rows.iter().take(6)).filter(|r| filled(r) == 1).map(Row::joined);
    let mean = titles.into_iter().any(|t| t.chars().count() < SENTENCE && says_mean(&t));
    let habits = Habits { decimal, mean, all_in: all_in(&grids) };
    let mut found = Found::default();
    grids.into_iter().for_each(|grid| read_grid(paired::joined(&grid).unwrap_or(grid), habits, &mut found));
    found
}

/// "All results in mg/L unless otherwise stated."
fn all_in(grids: &[Grid]) -> Option<Unit> {
    let rows = grids.iter().flat_map(|g| &g.rows).filter(|r| filled(r) == 1).map(Row::joined);
    let says = rows.filter(|t| t.chars().count() < SENTENCE && lexicon().is_of_all(t));
    let mut units = says.flat_map(|t| unit_find::all(&t)).filter(|f| f.scale == 1.0).map(|f| f.unit);
    let unit = units.next()?;
    (unit.is_mass() && units.all(|other| other == unit)).then_some(unit)
}

fn filled(row: &Row) -> usize {
    row.cells.iter().filter(|c| !c.text.trim().is_empty() && !c.spread).count()
}

/// What a cell names, if it is short and has letters.
pub(crate) fn name_of(text: &str) -> Named {
    thread_local! {
        static KEPT: Recent<Named> = const { Recent::new() };
    }
    recall(&KEPT, text, || name_in_cell(text))
}

fn name_in_cell(text: &str) -> Named {
    let short = text.chars().take(SENTENCE + 1).count() <= SENTENCE;
    // "mg/l Ca" is a unit: it says how something is counted, not what it is.
    if short && text.chars().any(char::is_alphabetic) && !unit_find::begins(text) {
        named(text)
    } else {
        Named::Unknown
    }
}

fn names_one(text: &str) -> bool {
    matches!(name_of(text), Named::Determinand(_)) && lexicon().column(text).is_none_or(|(_, exact)| !exact)
}

fn read_grid(mut grid: Grid, habits: Habits, found: &mut Found) {
    let width = grid.width();
    let mut by_column = vec![0_usize; width];
    let mut most_in_a_row = 0;
    let mut keys: Vec<Vec<Option<&'static str>>> = Vec::new();
    // The same words stand in many rows.
    let mut seen: BTreeMap<&str, Option<&'static str>> = BTreeMap::new();
    for row in &grid.rows {
        let mut key = |c: usize| *seen.entry(row.text(c)).or_insert_with_key(|text| key_of(text));
        let in_row: Vec<Option<&'static str>> = (0..width).map(&mut key).collect();
        let distinct = in_row.iter().flatten().collect::<std::collections::BTreeSet<_>>().len();
        most_in_a_row = most_in_a_row.max(distinct);
        for (count, _) in by_column.iter_mut().zip(&in_row).filter(|(_, k)| k.is_some()) {
            *count += 1;
        }
        keys.push(in_row);
    }
    let most_in_a_column = by_column.iter().copied().max().unwrap_or(0);
    if most_in_a_row >= 3 && most_in_a_row > 2 * most_in_a_column && grid.rows.len() > 1 && width < 2000 {
        found.next_table(&grid.title, grid.sheet.as_deref().unwrap_or(""));
        return across(&grid, habits, found);
    }
    let mut names = name_columns(&by_column, &keys);
    drop(keys);
    // What stands before the names (a date, a place) belongs to the row.
    match names.first_mut() {
        Some(first) => grid.put_first(std::mem::take(first)),
        None => names.push(0),
    }
    let ends: Vec<usize> = names.iter().skip(1).copied().chain([width]).collect();
    for (&from, to) in names.iter().zip(ends) {
        block(&grid, from, to, habits, found);
    }
}

fn key_of(text: &str) -> Option<&'static str> {
    match name_of(text) {
        Named::Determinand(name) if name.strange.len() < 3 => Some(name.key),
        _ => None,
    }
}

/// Columns that name determinands of their own; a column of symbols beside the names is none.
fn name_columns(by_column: &[usize], keys: &[Vec<Option<&'static str>>]) -> Vec<usize> {
    let most = by_column.iter().copied().max().unwrap_or(0);
    let distinct = |c: usize| {
        let own = keys.iter().filter_map(|row| row.get(c).copied().flatten());
        own.collect::<std::collections::BTreeSet<_>>().len()
    };
    let most_distinct = (0..by_column.len()).map(distinct).max().unwrap_or(0);
    let mut out: Vec<usize> = Vec::new();
    for (c, &count) in by_column.iter().enumerate() {
        // The name of a place may hold the name of a determinand, and says it again and again.
        let place = count > 1 && distinct(c) == 1 && most_distinct > 2;
        if count == 0 || count * 4 < most || place {
            continue;
        }
        let repeats = |row: &Vec<Option<&'static str>>| {
            let own = row.get(c).copied().flatten();
            own.is_some() && out.iter().any(|&o| row.get(o).copied().flatten() == own)
        };
        let again = keys.iter().filter(|r| repeats(r)).count();
        if again * 2 < count {
            out.push(c);
        }
    }
    out
}

/// One row a sample, one column a determinand.
fn across(grid: &Grid, habits: Habits, found: &mut Found) {
    let distinct =
        |r: &Row| r.cells.iter().filter_map(|c| key_of(&c.text)).collect::<std::collections::BTreeSet<_>>().len();
    let Some(top) = (0..grid.rows.len()).max_by_key(|&i| (grid.rows.get(i).map_or(0, distinct), std::cmp::Reverse(i)))
    else {
        return;
    };
    let Some(head) = grid.rows.get(top) else { return };
    // A row of units under the names.
    let units = grid.rows.get(top + 1).filter(|r| {
        let unit = |c: &&crate::grid::Cell| unit_find::find(&c.text).is_some();
        r.cells.iter().filter(unit).count() >= 2
    });
    let roles: Vec<Option<ReportColumn>> =
        head.cells.iter().map(|c| lexicon().column(&c.text).map(|(role, _)| role)).collect();
    let plain = if habits.mean && roles.iter().all(|r| *r != Some(ReportColumn::Date)) {
        ReportColumn::Mean
    } else {
        ReportColumn::Value
    };
    let data_from = top + 1 + usize::from(units.is_some());
    for data in grid.rows.iter().skip(data_from) {
        let label = |role: ReportColumn| {
            let at = roles.iter().position(|r| *r == Some(role));
            at.map(|c| data.text(c)).unwrap_or_default().to_owned()
        };
        let first = data.text(0);
        let place = match label(ReportColumn::Place) {
            p if p.is_empty() && key_of(head.text(0)).is_none() && !is_date(first) => first.to_owned(),
            p => p,
        };
        let date = match label(ReportColumn::Date) {
            d if d.is_empty() && is_date(first) => first.to_owned(),
            d => d,
        };
        let statistic = lexicon().column(first).map(|(role, _)| role);
        if statistic == Some(ReportColumn::Limit) || statistic == Some(ReportColumn::Unit) {
            continue;
        }
        let column = Column {
            role: statistic.filter(|s| is_result(*s)).or(Some(plain)),
            group: if statistic.is_some_and(is_result) { String::new() } else { place },
            date,
            heading: String::new(),
            doubt: None,
        };
        row::across(grid, head, units, data, &column, habits, found);
    }
}

fn is_result(role: ReportColumn) -> bool {
    use ReportColumn::*;
    matches!(role, Min | Mean | Median | Max | P95 | P90 | P10 | P5 | Value | Range)
}

/// Columns `from` to `to`, of which the first holds names.
fn block(grid: &Grid, from: usize, to: usize, habits: Habits, found: &mut Found) {
    let rows: Cow<'_, [Row]> = match grid.wrapped {
        true => Cow::Owned(wrapped::joined(&grid.rows, from, to)),
        false => Cow::Borrowed(&grid.rows),
    };
    let heads: Vec<usize> = (0..rows.len()).filter(|&i| rows.get(i).is_some_and(|r| is_heading(r, from, to))).collect();
    let mut start = 0;
    let mut current: Vec<&Row> = Vec::new();
    let (mut h, mut title) = (0, grid.title.clone());
    while start < rows.len() {
        let next = heads.get(h).copied().unwrap_or(rows.len());
        let (top, bottom) = if next < rows.len() { heading_rows(&rows, next, from, to) } else { (next, next) };
        let top = top.max(start);
        let under = rows.get(start..top).unwrap_or_default();
        found.next_table(&title, grid.sheet.as_deref().unwrap_or(""));
        part(grid, &current, under, from, to, habits, found);
        if let Some(last) = under.last().filter(|r| filled(r) == 1) {
            title = last.joined();
        }
        if next < rows.len() {
            current = rows.get(top..bottom).unwrap_or_default().iter().collect();
        }
        while heads.get(h).is_some_and(|&i| i < bottom) {
            h += 1;
        }
        start = bottom.max(top + 1);
    }
}

/// Two cells or more that say what their column holds, and no value of a determinand.
fn is_heading(row: &Row, from: usize, to: usize) -> bool {
    let (mut any, mut exact) = (0, 0);
    for c in from..to {
        let text = row.text(c);
        if text.is_empty() || row.cells.get(c).is_some_and(|c| c.spread) || text.chars().count() > 60 {
            continue;
        }
        if let Some((_, is_exact)) = lexicon().column(text) {
            any += 1;
            exact += usize::from(is_exact);
        }
    }
    let value = |c: usize| matches!(cell::read(row.text(c), Decimal::Unknown), Content::Numbers(n) if n.first().is_some_and(|n| n.start == 0));
    let data = names_one(row.text(from)) && (from + 1..to).any(value);
    any >= 2 && exact >= 1 && !data
}

/// The rows of a heading around the one with the telling words.
fn heading_rows(rows: &[Row], at: usize, from: usize, to: usize) -> (usize, usize) {
    let own = |r: &Row, c: usize| !r.text(c).is_empty() && r.cells.get(c).is_some_and(|c| !c.spread);
    let several = |r: &Row| (from..to).filter(|&c| own(r, c)).count() >= 2;
    let data = |r: &Row| {
        let value =
            |c: usize| matches!(cell::read(r.text(c), Decimal::Unknown), Content::Numbers(_) | Content::NotDetected);
        !matches!(name_of(r.text(from)), Named::Unknown) && (from + 1..to).any(value)
    };
    let beyond = |r: &Row| (from + 1..to).any(|c| !r.text(c).is_empty());
    let mut top = at;
    while top > 0 && at - top < 3 && rows.get(top - 1).is_some_and(|r| several(r) && beyond(r) && !data(r)) {
        top -= 1;
    }
    let mut bottom = at + 1;
    while bottom - at < 4 && rows.get(bottom).is_some_and(|r| goes_on(r, from, to) && !data(r)) {
        bottom += 1;
    }
    (top, bottom)
}

/// A row that continues a heading: nothing in it is a plain number, and something stands beyond the first column.
fn goes_on(row: &Row, from: usize, to: usize) -> bool {
    let plain = |t: &str| {
        matches!(cell::read(t, Decimal::Unknown), Content::Numbers(n) if n.len() == 1 && n.first().is_some_and(|n| n.start == 0))
            && !t.chars().any(char::is_alphabetic)
    };
    let own = |c: usize| !row.text(c).is_empty() && row.cells.get(c).is_some_and(|c| !c.spread);
    (from + 1..to).any(own)
        && matches!(name_of(row.text(from)), Named::Unknown)
        && !(from..to).any(|c| plain(row.text(c)) && !is_year(row.text(c)))
}

/// A heading of several rows: what stands over several columns, but only in the first of them, holds for all.
fn filled_on(heading: &[&Row], from: usize, to: usize) -> Vec<Row> {
    let mut out: Vec<Row> = heading.iter().map(|r| (*r).clone()).collect();
    let below: Vec<bool> = (from..to).map(|c| heading.last().is_some_and(|r| !r.text(c).is_empty())).collect();
    let over = |c: usize| below.get(c - from) == Some(&true);
    let own = |r: &Row| (from..to).filter(|&c| over(c) && !r.text(c).is_empty()).count();
    let most = below.iter().filter(|b| **b).count();
    let above = out.len().saturating_sub(1);
    for row in out.iter_mut().take(above).filter(|r| own(r) * 2 <= most) {
        let mut last = kept("");
        for c in from..to {
            let text = kept(row.text(c));
            if !text.is_empty() {
                last = text;
            } else if c > from
                && below.get(c - from) == Some(&true)
                && let Some(cell) = row.cells.get_mut(c)
            {
                cell.text.clone_from(&last);
                cell.spread = true;
            }
        }
    }
    out
}

/// Rows under one heading.
fn part(grid: &Grid, heading: &[&Row], rows: &[Row], from: usize, to: usize, habits: Habits, found: &mut Found) {
    let named: Vec<&Row> =
        rows.iter().filter(|r| matches!(name_of(r.text(from)), Named::Determinand(_) | Named::Apart)).collect();
    let heading: Vec<Row> =
        if grid.wrapped { heading.iter().map(|r| (*r).clone()).collect() } else { filled_on(heading, from, to) };
    let columns = columns(&heading.iter().collect::<Vec<_>>(), &named, from, to, habits.mean);
    for row in rows {
        row::read(grid, row, &columns, from, habits, found);
    }
}
