//! From a grid to its blocks of rows, and from those to readings.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use knowledge::ReportColumn;

use crate::cell::{self, Content, Decimal};
use crate::columns::{Column, columns};
use crate::fold::{stems, tidy, words};
use crate::footnotes::Footnotes;
use crate::found::{Found, Raw};
use crate::grid::{Cell, Grid, Row};
use crate::heading::{by_place, filled_on, heading_rows, is_heading};
use crate::least::Least;
use crate::lexicon::lexicon;
use crate::means::{self, says_mean};
use crate::named::{Name, Named, named};
use crate::recent::{Recent, recall};
use crate::{Statistic, Unit, across, ask, lost, nested, paired, row, sections, titles, told, unit_find, wrapped};

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
    let says = |t: String| t.chars().count() < SENTENCE && means::titled(&t) && !of_one(&t);
    let mean = titles.into_iter().any(says) || are_means(&grids);
    let habits = Habits { decimal, mean, all_in: all_in(&grids) };
    let (footnotes, least) = (Footnotes::of(&grids).into(), Least::told(&grids));
    let mut found = Found { footnotes, least, ..Found::default() };
    for mut grid in grids.into_iter().flat_map(sections::cut) {
        paired::apart(&mut grid);
        let habits = Habits { mean: habits.mean || means::titled(&grid.title), ..habits };
        let (from, title) = (found.raw.len(), grid.title.clone());
        let (known, told) = (lost::candidates(&grid), found.unknown.len());
        let heads = means::heads(&grid);
        read_grid(paired::joined(&grid).or_else(|| nested::spelled_out(&grid)).unwrap_or(grid), habits, &mut found);
        // What no column tells of: notes. The result of a day is no mean.
        let plain = |r: &&mut Raw| r.reading.statistic == Statistic::Single && r.date.is_empty();
        let single = found.raw.iter_mut().skip(from).filter(|_| habits.mean).filter(plain);
        single.for_each(|r| r.reading.statistic = Statistic::Mean);
        means::below(&heads, found.raw.get_mut(from..).unwrap_or_default());
        // A list under "limits" may be one of them.
        let limits = matches!(lexicon().column(&title), Some((ReportColumn::Limit, _)));
        let noted = found.raw.iter_mut().skip(from).filter(|r| limits && r.series.is_none());
        noted.for_each(|r| ask::doubt(&mut r.reading, format!("Does \"{title}\" hold results, or limits?")));
        lost::tell(known, from, told, &mut found);
    }
    found
}

/// "The figures below are averages of the results for the 12 months to December": a sentence, maybe over two lines.
fn are_means(grids: &[Grid]) -> bool {
    grids.iter().any(|g| {
        let alone = |r: &Row| if filled(r) == 1 { r.joined() } else { String::new() };
        let lines: Vec<String> = g.rows.iter().map(alone).collect();
        let says = |t: &str| t.split(". ").any(|t| lexicon().are_means(&words(t)) && !of_one(t));
        // Few lines say it at all, with the one above them.
        let mut pair: Vec<String> = Vec::new();
        let told = (0..lines.len()).filter(|&at| {
            let own = pair.len();
            pair.extend(lines.get(at).into_iter().flat_map(|t| words(t)));
            let told = lexicon().are_means(&pair);
            pair.drain(..own);
            told
        });
        let two = told.filter_map(|at| lines.get(at.saturating_sub(1)..at + 1)).collect::<Vec<_>>();
        two.into_iter().any(|w| says(&w.join(" ")) || w.iter().any(|t| says(t)))
    })
}

/// "All results in mg/L unless otherwise stated."
fn all_in(grids: &[Grid]) -> Option<Unit> {
    let rows = grids.iter().flat_map(|g| &g.rows).filter(|r| filled(r) == 1).map(Row::joined);
    let says = rows.filter(|t| t.chars().count() < SENTENCE && lexicon().is_of_all(t));
    let mut units = says.flat_map(|t| unit_find::all(&t)).filter(|f| f.scale == 1.0).map(|f| f.unit);
    let unit = units.next()?;
    (unit.is_mass() && units.all(|other| other == unit)).then_some(unit)
}

/// "Sodium averages 21 mg/l" speaks of sodium alone.
fn of_one(text: &str) -> bool {
    let chars: Vec<char> = tidy(text).chars().collect();
    let number = |f: &unit_find::Found| {
        let before = chars.get(..f.start).unwrap_or_default();
        before.iter().rev().find(|c| **c != ' ').is_some_and(char::is_ascii_digit)
    };
    let named = || matches!(name_of(text), Named::Determinand(_)) && text.contains(|c: char| c.is_ascii_digit());
    unit_find::all(text).iter().any(number) || named()
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

/// The text without the sentence that explains it, set in small print under the name: "Copper At your tap, from household
/// pipes". The name is whole without it.
pub(crate) fn own_name(text: &str) -> &str {
    let starts = text.match_indices(' ').map(|(at, _)| at).take(EXPLAINED);
    let explains = |at: &usize| {
        let (name, more) = text.split_at_checked(*at).unwrap_or((text, ""));
        let more = more.trim_start();
        let strange = || stems(more).iter().filter(|w| !lexicon().is_beside(w) && key_of(w).is_none()).count();
        let basis = || !lexicon().bases(&stems(more)).is_empty();
        let whole = |n: &Name| n.strange.is_empty() && n.counted != Some("ask");
        more.starts_with(char::is_uppercase)
            && more.split_whitespace().take(4).count() >= 4
            && matches!(named(name), Named::Determinand(n) if whole(&n))
            && strange() >= 2
            && !basis()
            && !matches!(named(text), Named::Apart)
    };
    let at = starts.collect::<Vec<_>>().into_iter().rev().find(explains);
    at.and_then(|at| text.get(..at)).unwrap_or(text)
}

/// Words of a name that a sentence may stand behind.
const EXPLAINED: usize = 4;
/// A longer cell, in bytes, is no name with its explanation.
const LONGEST_CELL: usize = 400;

fn name_in_cell(text: &str) -> Named {
    let text = if text.len() <= LONGEST_CELL { own_name(text) } else { text };
    let short = text.chars().take(SENTENCE + 1).count() <= SENTENCE;
    // "mg/l Ca" is a unit: it says how something is counted, not what it is.
    if short && text.chars().any(char::is_alphabetic) && !unit_find::begins(text) {
        named(text)
    } else {
        Named::Unknown
    }
}

pub(crate) fn names_one(text: &str) -> bool {
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
        let distinct = in_row.iter().flatten().collect::<BTreeSet<_>>().len();
        most_in_a_row = most_in_a_row.max(distinct);
        for (count, _) in by_column.iter_mut().zip(&in_row).filter(|(_, k)| k.is_some()) {
            *count += 1;
        }
        keys.push(in_row);
    }
    let distinct =
        |c: usize| keys.iter().filter_map(|row| row.get(c).copied().flatten()).collect::<BTreeSet<_>>().len();
    let most_in_a_column = (0..width).map(distinct).max().unwrap_or(0);
    if most_in_a_row >= 3 && most_in_a_row > 2 * most_in_a_column && grid.rows.len() > 1 && width < 2000 {
        found.next_table([&grid.place, &grid.title, grid.sheet.as_deref().unwrap_or("")]);
        return across::read(&grid, habits, found);
    }
    if most_in_a_column <= 1 && across::heads_few(&grid) {
        found.next_table([&grid.place, &grid.title, grid.sheet.as_deref().unwrap_or("")]);
        return across::read(&grid, habits, found);
    }
    let mut names = name_columns(&by_column, &keys, &grid.rows);
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

pub(crate) fn key_of(text: &str) -> Option<&'static str> {
    match name_of(text) {
        Named::Determinand(name) if name.strange.len() < 3 => Some(name.key),
        _ => None,
    }
}

/// Columns that name determinands of their own; a column of symbols beside the names is none.
fn name_columns(by_column: &[usize], keys: &[Vec<Option<&'static str>>], rows: &[Row]) -> Vec<usize> {
    let most = by_column.iter().copied().max().unwrap_or(0);
    let distinct = |c: usize| {
        let own = keys.iter().filter_map(|row| row.get(c).copied().flatten());
        own.collect::<BTreeSet<_>>().len()
    };
    let most_distinct = (0..by_column.len()).map(distinct).max().unwrap_or(0);
    let mut out: Vec<usize> = Vec::new();
    for (c, &count) in by_column.iter().enumerate() {
        // The name of a place may hold the name of a determinand, and says it again and again.
        let place = count > 1 && distinct(c) == 1 && most_distinct > 2;
        // "Borehole A, B": a letter of a heading is the symbol of a determinand.
        let sparse = count * 4 < most || count == 1 && most >= 3;
        if count == 0 || (sparse || place) && !paired_with_values(c, keys, rows) {
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

/// A short list beside a long one: each name of it has its value, with a unit, in the very next cell.
fn paired_with_values(c: usize, keys: &[Vec<Option<&'static str>>], rows: &[Row]) -> bool {
    let named = || rows.iter().zip(keys).filter(|(_, keys)| keys.get(c).copied().flatten().is_some());
    let exact = |row: &Row| matches!(name_of(row.text(c)), Named::Determinand(name) if name.strange.is_empty());
    let value = |row: &Row| {
        let text = row.text(c + 1);
        match cell::read(text, Decimal::Unknown) {
            Content::NotDetected => true,
            Content::Numbers(n) => n.first().is_some_and(|n| n.start == 0) && unit_find::find(text).is_some(),
            _ => false,
        }
    };
    let beside = named().filter(|(row, _)| exact(row) && !row.text(c + 1).is_empty());
    let pairs = beside.clone().filter(|(row, _)| value(row)).count();
    pairs > 0 && beside.count() == pairs
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
    let (mut h, mut title, mut place) = (0, grid.title.clone(), grid.place.clone());
    while start < rows.len() {
        let next = heads.get(h).copied().unwrap_or(rows.len());
        let (top, bottom) = if next < rows.len() { heading_rows(&rows, next, from, to) } else { (next, next) };
        let top = top.max(start);
        let under = rows.get(start..top).unwrap_or_default();
        let own = titles::of_rows(under, from, to);
        place = if own.is_empty() { place } else { own };
        found.next_table([&place, &title, grid.sheet.as_deref().unwrap_or("")]);
        if matches!(lexicon().column(&title), Some((ReportColumn::Limit, _))) {
            found.of_limits.insert(found.tables.len().saturating_sub(1));
        }
        part(grid, &current, under, from, to, habits, found);
        if let Some(last) = under.last().filter(|r| filled(r) == 1) {
            title = last.joined();
        }
        // What names the water of the next table stands right above it.
        let above = under.len().saturating_sub(titles::LINES);
        let named =
            titles::above(under.iter().skip(above).flat_map(|r| (from..to).map(|c| r.text(c)).collect::<Vec<_>>()));
        place = if named.is_empty() { place } else { named };
        if next < rows.len() {
            // A heading right under a heading is its second line of print.
            let goes_on = grid.wrapped && under.is_empty() && start == top && !current.is_empty();
            current = if goes_on { current } else { Vec::new() };
            current.extend(rows.get(top..bottom).unwrap_or_default());
        }
        while heads.get(h).is_some_and(|&i| i < bottom) {
            h += 1;
        }
        start = bottom.max(top + 1);
    }
}

/// "mg/l calcium", "Clark degrees": a row that has a unit for its name.
fn in_unit(row: &Row, from: usize) -> Option<&str> {
    let text = row.text(from);
    let unit = unit_find::begins(text) || unit_find::is_hardness(text);
    Some(text).filter(|_| unit && matches!(name_of(text), Named::Unknown))
}

/// The row with the name that stands over it, and its unit in a cell of its own behind the others.
fn named_by(row: &Row, from: usize, to: usize, name: &str, unit: &str) -> Row {
    let mut row = row.clone();
    row.cells.resize(to, Cell::default());
    row.cells.push(Cell::new(unit));
    row.cells.get_mut(from).into_iter().for_each(|c| *c = Cell::new(name));
    row
}

/// Rows under one heading.
fn part(grid: &Grid, heading: &[&Row], rows: &[Row], from: usize, to: usize, habits: Habits, found: &mut Found) {
    let named: Vec<&Row> =
        rows.iter().filter(|r| matches!(name_of(r.text(from)), Named::Determinand(_) | Named::Apart)).collect();
    let placed = if heading.is_empty() { by_place(&rows.iter().collect::<Vec<_>>(), from, to) } else { Vec::new() };
    let heading = if heading.is_empty() { &placed[..] } else { heading };
    let heading: Vec<Row> =
        if grid.wrapped { heading.iter().map(|r| (*r).clone()).collect() } else { filled_on(heading, from, to) };
    let head = heading.iter().map(|r| r.text(from)).collect::<Vec<_>>().join(" ");
    let of_one = names_one(&head);
    let mean = habits.mean || of_one && says_mean(&head);
    let columns = columns(&heading.iter().collect::<Vec<_>>(), &named, from, to, mean);
    let place = columns.iter().position(|c| c.role == Some(ReportColumn::Place)).filter(|_| grid.wrapped);
    let rows = match place {
        Some(place) => Cow::Owned(wrapped::placed(rows, from, from + place)),
        None => Cow::Borrowed(rows),
    };
    found.ranged = told::ranged(named.iter().map(|r| r.text(from)));
    let with_unit = [&columns[..], &[Column::of_units()]].concat();
    for row in rows.iter() {
        match in_unit(row, from).filter(|_| of_one) {
            Some(unit) => row::read(grid, &named_by(row, from, to, &head, unit), &with_unit, from, habits, found),
            None => row::read(grid, row, &columns, from, habits, found),
        }
    }
}
