//! Tables with one row a sample and one column a determinand.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use knowledge::ReportColumn;

use crate::cell::{self, Content, Decimal};
use crate::columns::Column;
use crate::dates::{is_date, is_year};
use crate::found::Found;
use crate::grid::{Cell, Grid, Row};
use crate::lexicon::lexicon;
use crate::parted;
use crate::row;
use crate::table::{Habits, key_of};
use crate::unit_find;

/// Read a grid whose determinands stand side by side.
pub(crate) fn read(grid: &Grid, habits: Habits, found: &mut Found) {
    let distinct = |r: &Row| r.cells.iter().filter_map(|c| head_of(&c.text)).collect::<BTreeSet<_>>().len();
    let most = |i: &usize| (grid.rows.get(*i).map_or(0, distinct), std::cmp::Reverse(*i));
    let Some(top) = (0..grid.rows.len()).max_by_key(most) else { return };
    let Some(first) = grid.rows.get(top) else { return };
    let (head, height) = whole(grid, top, first);
    // A row of units under the names.
    let units = grid.rows.get(top + height).filter(|r| {
        let unit = |c: &&Cell| unit_find::find(&c.text).is_some();
        r.cells.iter().filter(unit).count() >= 2
    });
    let roles: Vec<Option<ReportColumn>> =
        head.cells.iter().map(|c| lexicon().column(&c.text).map(|(role, _)| role)).collect();
    let plain = if habits.mean && roles.iter().all(|r| *r != Some(ReportColumn::Date)) {
        ReportColumn::Mean
    } else {
        ReportColumn::Value
    };
    let data: Vec<&Row> = grid.rows.iter().skip(top + height + usize::from(units.is_some())).collect();
    // What stands in a row is said by its first cell, or in a column of such words.
    let free = |c: &usize| head_of(head.text(*c)).is_none() && parted::tells(data.iter().map(|r| r.text(*c)));
    let told_in = (1..head.cells.len()).find(free);
    let says = |r: &Row| lexicon().column(r.text(told_in.unwrap_or(0))).map(|(role, _)| role);
    let limits = data.iter().copied().find(|r| says(r) == Some(ReportColumn::Limit));
    // One or two determinands may head a table that explains them: it is of waters where it names places.
    let few = distinct(first) < 3 && roles.first() != Some(&Some(ReportColumn::Place));
    let doubt = few.then(|| format!("Does the table under \"{}\" hold results?", first.joined()));
    let named = data.iter().filter(|r| !r.text(0).trim().is_empty()).count() >= FEW;
    let whose: Vec<(String, String)> = data
        .iter()
        .map(|row| {
            let (place, date) = whose(&head, &roles, row);
            let of_all = told_in.is_none() && says(row).is_some_and(is_result);
            // "Minimum" under "Date" is no day.
            let label_of_all = of_all && date == row.text(0);
            let kept = |text: String, dropped: bool| if dropped { String::new() } else { text };
            (kept(place, of_all), kept(date, label_of_all))
        })
        .collect();
    let years = years(&data.iter().zip(&whose).map(|(row, own)| (says(row), own, row.text(0))).collect::<Vec<_>>());
    for ((row, (place, date)), (year, again)) in data.into_iter().zip(whose.clone()).zip(years) {
        let statistic = says(row);
        if statistic.is_some_and(tells_no_result) || row.text(0).contains('%') && !statistic.is_some_and(is_result) {
            continue;
        }
        let again = again.then(|| "The report gives this more than once. Which row is your water?".to_owned());
        let column = Column {
            role: statistic.filter(|s| is_result(*s)).or(Some(plain)),
            group: place,
            date: if date.is_empty() { year } else { date },
            doubt: doubt.clone().or_else(|| stray(row).filter(|_| named)).or(again),
            ..Column::default()
        };
        row::across(grid, [Some(&*head), units, limits], row, &column, habits, found);
    }
}

/// "Mean" beside "Mean 2023": the year of each row that another one is like, and whether one is like it even so.
fn years(rows: &[(Option<ReportColumn>, &(String, String), &str)]) -> Vec<(String, bool)> {
    let year = |label: &str| label.split_whitespace().find(|w| is_year(w)).unwrap_or("").to_owned();
    let of_many = |role: &Option<ReportColumn>| role.is_some_and(|r| is_result(r) && r != ReportColumn::Value);
    let (mut alike, mut same) = (BTreeMap::new(), BTreeMap::new());
    for (role, own, label) in rows.iter().filter(|(role, ..)| of_many(role)) {
        *alike.entry((*role, *own)).or_insert(0_usize) += 1;
        *same.entry((*role, *own, year(label))).or_insert(0_usize) += 1;
    }
    let twin = |(role, own, label): &(Option<ReportColumn>, &(String, String), &str)| {
        if !of_many(role) || alike.get(&(*role, *own)).is_none_or(|n| *n < 2) {
            return (String::new(), false);
        }
        let year = year(label);
        let again = same.get(&(*role, *own, year.clone())).is_some_and(|n| *n > 1);
        (year, again)
    };
    rows.iter().map(twin).collect()
}

/// The question about a line of one cell and no name: a raised figure of the row beside it, or a result.
fn stray(row: &Row) -> Option<String> {
    let mut filled = row.cells.iter().filter(|c| !c.text.trim().is_empty());
    let only = filled.next().filter(|_| filled.next().is_none())?;
    row.text(0).trim().is_empty().then(|| format!("\"{}\" stands alone in its line: is it a result?", only.text.trim()))
}

/// What a cell of the heading names: a determinand, or a degree of hardness alone.
fn head_of(text: &str) -> Option<&str> {
    key_of(text).or_else(|| Some(text.trim()).filter(|t| unit_find::is_degree(t)))
}

/// "Town  °dH  °fH", "Zone  Hardness (mg/l)": one or two determinands over columns of numbers, beside words.
pub(crate) fn heads_few(grid: &Grid) -> bool {
    let value = |t: &str| match cell::read(t, Decimal::Unknown) {
        Content::Numbers(n) => n.first().is_some_and(|n| n.start == 0),
        Content::NotDetected => true,
        _ => false,
    };
    let named = |r: &&Row| r.cells.iter().skip(1).any(|c| head_of(&c.text).is_some());
    let Some(top) = grid.rows.iter().take(LOOKED_AT).position(|r| named(&r)) else { return false };
    let Some(head) =
        grid.rows.get(top).filter(|r| head_of(r.text(0)).is_none() && !r.cells.iter().any(|c| value(&c.text)))
    else {
        return false;
    };
    let at: Vec<usize> = (1..head.cells.len()).filter(|&c| head_of(head.text(c)).is_some()).collect();
    let row = |r: &&Row| !r.text(0).is_empty() && !value(r.text(0)) && at.iter().all(|&c| value(r.text(c)));
    grid.rows.iter().skip(top + 1).filter(row).take(FEW).count() >= FEW
}

/// So many rows make a table of one or two determinands.
const FEW: usize = 2;
/// Lines looked at for its heading.
const LOOKED_AT: usize = 40;

/// Place and date of a row.
fn whose(head: &Row, roles: &[Option<ReportColumn>], row: &Row) -> (String, String) {
    let label = |role: ReportColumn| {
        let at = roles.iter().position(|r| *r == Some(role));
        at.map(|c| row.text(c)).unwrap_or_default().to_owned()
    };
    let first = row.text(0);
    let place = match label(ReportColumn::Place) {
        p if p.is_empty() && key_of(head.text(0)).is_none() && !is_date(first) => first.to_owned(),
        p => p,
    };
    let date = match label(ReportColumn::Date) {
        d if d.is_empty() && is_date(first) => first.to_owned(),
        d => d,
    };
    (place, date)
}

/// The names with what stands of them in the lines of print above and below, and how many lines they take from `top` on.
fn whole<'a>(grid: &Grid, top: usize, first: &'a Row) -> (Cow<'a, Row>, usize) {
    let value = |c: &Cell| match cell::read(&c.text, Decimal::Unknown) {
        Content::Numbers(n) => n.first().is_some_and(|n| n.start == 0),
        Content::NotDetected => true,
        _ => false,
    };
    let words = |i: usize| grid.rows.get(i).is_some_and(|r| !r.cells.iter().any(value));
    // A title stands alone at the left.
    let beyond = |i: usize| grid.rows.get(i).is_some_and(|r| r.cells.iter().skip(1).any(|c| !c.text.trim().is_empty()));
    if !grid.wrapped {
        return (Cow::Borrowed(first), 1);
    }
    let over = (top.saturating_sub(LINES)..top).rev().take_while(|&i| words(i) && beyond(i)).last().unwrap_or(top);
    let under = (top + 1..top + LINES).take_while(|&i| words(i)).last().unwrap_or(top);
    let mut head = Row { line: first.line, cells: vec![Cell::default(); grid.width()] };
    for row in grid.rows.get(over..=under).unwrap_or_default() {
        for (cell, more) in head.cells.iter_mut().zip(&row.cells).filter(|(_, more)| !more.text.trim().is_empty()) {
            cell.append(more.text.trim());
        }
    }
    (Cow::Owned(head), under + 1 - top)
}

/// Most lines of a heading on one side of the one with most names.
const LINES: usize = 4;

/// "No. of samples", "Detection limit", "Method": rows that tell of the results above and below them.
fn tells_no_result(role: ReportColumn) -> bool {
    use ReportColumn::*;
    matches!(role, Limit | Unit | Count | Failing | Lod | Uncertainty | Symbol | Other)
}

fn is_result(role: ReportColumn) -> bool {
    use ReportColumn::*;
    matches!(role, Min | Mean | Median | Max | P95 | P90 | P10 | P5 | Value | Range)
}
