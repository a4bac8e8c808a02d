//! Lists of several waters one below the other, each under its name on a line of its own: "Spring Hill", then its values.

use std::collections::{BTreeMap, BTreeSet};

use knowledge::ReportColumn;

use crate::cell::{self, Decimal};
use crate::dates::{is_date, is_year};
use crate::fold::tidy;
use crate::grid::{Grid, Row};
use crate::heading::is_heading;
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::table::{key_of, name_of};
use crate::unit_find;

/// So many determinands in two lists make them lists of two waters.
const LEAST: usize = 3;
/// A longer line is no name of a water.
const LONGEST: usize = 60;
/// So many lines may stand between the name of a water and its first value: a date, an address.
const BETWEEN: usize = 3;
/// A report with more lines, or more of such names, is no such list.
const MOST: usize = 5_000;
const MOST_LISTS: usize = 200;
/// Lines of words that are read together.
const BIT: usize = 500;

/// The grid, cut before the name of each water where the values start again.
pub(crate) fn cut(mut grid: Grid) -> Vec<Grid> {
    let width = grid.width();
    // So many lines of words are read bit by bit, while what was found out of each is still known.
    if width == 1 && grid.rows.len() > MOST {
        let rows = std::mem::take(&mut grid.rows);
        return rows.chunks(BIT).map(|rows| Grid { rows: rows.to_vec(), ..grid.clone() }).collect();
    }
    if grid.rows.len() > MOST || grid.rows.iter().any(|r| is_heading(r, 0, width)) || are_beside(&grid) {
        return vec![grid];
    }
    let keys: Vec<Vec<&'static str>> = grid.rows.iter().map(keys).collect();
    let titles: Vec<usize> = (0..grid.rows.len()).filter(|&i| is_title(&grid.rows, &keys, i)).collect();
    if titles.len() > MOST_LISTS {
        return vec![grid];
    }
    let of = |from: usize, to: usize| keys.get(from..to).unwrap_or_default().iter().flatten().collect::<BTreeSet<_>>();
    let ends = titles.iter().skip(1).copied().chain([grid.rows.len()]);
    let lists: Vec<(usize, BTreeSet<_>)> = titles.iter().copied().zip(ends).map(|(a, b)| (a, of(a, b))).collect();
    let again = |at: &usize| {
        let own = lists.iter().find(|(a, _)| a == at).map(|(_, keys)| keys);
        let shares = |other: &BTreeSet<_>| own.is_some_and(|own| own.intersection(other).count() >= LEAST);
        lists.iter().any(|(a, other)| a != at && shares(other))
    };
    let starts: Vec<usize> = titles.iter().copied().filter(again).collect();
    let title = |at: usize| grid.rows.get(at).map(Row::joined).unwrap_or_default();
    // Under the same words, or with some of a list apart, nobody knows whose the values are.
    let names: BTreeSet<String> = starts.iter().map(|&at| title(at)).collect();
    let repeated = |key: &&&str| lists.iter().filter(|(_, keys)| keys.contains(*key)).count() > 1;
    let torn = lists.iter().any(|(at, keys)| !starts.contains(at) && keys.iter().any(repeated));
    if starts.len() < 2 || names.len() < starts.len() || torn {
        return vec![grid];
    }
    let ends: Vec<usize> = starts.iter().copied().chain([grid.rows.len()]).collect();
    let part = |from: usize, to: usize, title: String| {
        let rows = grid.rows.get(from..to).unwrap_or_default().to_vec();
        Grid { title, rows, days: Default::default(), ..grid.clone() }
    };
    let first = starts.first().map(|&to| part(0, to, grid.title.clone()));
    let lists = ends.windows(2).filter_map(|e| Some(part(*e.first()?, *e.get(1)?, title(*e.first()?))));
    first.into_iter().filter(|g| !g.rows.is_empty()).chain(lists).collect()
}

/// Two lists side by side on one page: the title of one stands beside the values of the other.
fn are_beside(grid: &Grid) -> bool {
    let keys: Vec<Vec<(usize, &'static str)>> =
        grid.rows.iter().map(|r| (0..r.cells.len()).filter_map(|c| Some((c, key_of(r.text(c))?))).collect()).collect();
    let mut columns: BTreeMap<usize, BTreeSet<&str>> = BTreeMap::new();
    // A symbol beside its name is no list.
    let alone = keys.iter().filter(|row| row.windows(2).all(|w| matches!(w, [a, b] if a.1 != b.1))).flatten();
    for (column, key) in alone {
        columns.entry(*column).or_default().insert(key);
    }
    columns.values().filter(|keys| keys.len() >= LEAST).count() > 1
}

/// The determinands of a line of a list: a name, then a number.
fn keys(row: &Row) -> Vec<&'static str> {
    let text = row.joined();
    // "Calcium 61 mg/l, sodium 8,1 mg/l": several on a line.
    let parts = row.cells.iter().flat_map(|c| c.text.split([',', ';'])).filter(|part| part.len() <= LONGEST_PART);
    parts.filter_map(key).chain(key(&text)).collect()
}

/// A longer part of a line, in bytes, is a sentence.
const LONGEST_PART: usize = 200;

/// The determinand of a name with a number behind it.
fn key(text: &str) -> Option<&'static str> {
    let tidied = tidy(text);
    let number = cell::numbers(&tidied, Decimal::Unknown).into_iter().next()?;
    let head: String = tidied.chars().take(number.start).collect();
    match name_of(head.trim().trim_end_matches([':', '='])) {
        Named::Determinand(name) if name.strange.len() < LEAST => Some(name.key),
        _ => None,
    }
}

/// The last short line of words before the first value of a list.
fn is_title(rows: &[Row], keys: &[Vec<&'static str>], at: usize) -> bool {
    let first = keys.iter().skip(at).take(BETWEEN + 1).position(|keys| !keys.is_empty());
    let plain = |i: usize| rows.get(i).is_some_and(is_plain);
    plain(at) && first.is_some_and(|n| n > 0 && (at + 1..at + n).all(|i| !plain(i)))
}

/// Words alone in their row that are no sentence, no date, no value.
fn is_plain(row: &Row) -> bool {
    let text = row.joined();
    let alone = row.cells.iter().filter(|c| !c.text.trim().is_empty()).count() == 1;
    let words = text.chars().any(char::is_alphabetic) && text.chars().count() <= LONGEST;
    let place = |label: &str| matches!(lexicon().column(label), Some((ReportColumn::Place, true)));
    let told = text.split_once(':').is_none_or(|(label, _)| place(label));
    let dated = text.split_whitespace().any(|w| is_date(w) || is_year(w));
    let value = unit_find::find(&text).is_some() || !matches!(name_of(&text), Named::Unknown);
    alone && words && told && !dated && !value && !text.ends_with(['.', '!', '?', ','])
}
