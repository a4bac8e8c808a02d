//! Which rows say what the columns hold: by their words, by what stands under them.

use knowledge::ReportColumn;

use crate::cell::{self, Content, Decimal};
use crate::dates::{is_date, is_period, is_year};
use crate::grid::Row;
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::recent::kept;
use crate::table::{key_of, name_of, names_one};
use crate::unit_find;

/// "Cations  mg/L  meq/L": units alone over the columns of one table.
pub(crate) fn of_units<'a>(cells: impl Iterator<Item = &'a str>) -> bool {
    let filled: Vec<&str> = cells.map(str::trim).filter(|t| !t.is_empty()).collect();
    let units = filled.iter().filter(|t| is_unit(t)).count();
    let first = || filled.first().is_some_and(|t| !is_unit(t) && !names_one(t));
    units >= 2 && units * 2 >= filled.len() && first()
}

/// "Calcium  Magnesium  Total hardness": determinands side by side.
pub(crate) fn of_determinands<'a>(cells: impl Iterator<Item = &'a str>) -> bool {
    let filled: Vec<&str> = cells.map(str::trim).filter(|t| !t.is_empty()).collect();
    let keys: std::collections::BTreeSet<&str> = filled.iter().filter_map(|t| key_of(t)).collect();
    keys.len() >= 3 && keys.len() * 2 >= filled.len()
}

/// A unit and nothing else.
pub(crate) fn is_unit(text: &str) -> bool {
    text.len() <= LONGEST_UNIT
        && unit_find::find(text).is_some()
        && !unit_find::without(text).contains(char::is_alphanumeric)
}

/// "Sample point:", "Sampled:": cells that are labels each, of what stands behind them.
fn labels(row: &Row, from: usize, to: usize) -> bool {
    let cells = || (from..to).map(|c| row.text(c)).filter(|t| !t.is_empty());
    tells(cells()) && !cells().all(|t| t.ends_with(':'))
}

/// A longer text, in bytes, is no unit alone.
const LONGEST_UNIT: usize = 60;

/// Two cells or more that say what their column holds, and no value of a determinand.
pub(crate) fn is_heading(row: &Row, from: usize, to: usize) -> bool {
    let (mut any, mut exact) = (0, 0);
    for c in from..to {
        let text = row.text(c);
        // "n.b." is a result, whatever else it may be short for.
        let none = text.is_empty() || lexicon().is_not_detected(text) || c > from && lexicon().is_no_value(text);
        if none || row.cells.get(c).is_some_and(|c| c.spread) || text.chars().count() > 60 {
            continue;
        }
        if let Some((_, is_exact)) = lexicon().column(text) {
            any += 1;
            exact += usize::from(is_exact);
        } else if c > from && (is_date(text) || is_period(text)) {
            any += 1;
        }
    }
    let value = |c: usize| matches!(cell::read(row.text(c), Decimal::Unknown), Content::Numbers(n) if n.first().is_some_and(|n| n.start == 0));
    // "Hardness class: soft, mean, hard" is no heading.
    let apart = || matches!(name_of(row.text(from)), Named::Apart);
    // A number beside what heads no column is a value, whatever it is of.
    let number = |c: usize| value(c) && !is_year(row.text(c)) && !is_date(row.text(c));
    let heads = || row.text(from).is_empty() || lexicon().column(row.text(from)).is_some();
    // "Aluminium (Al)  n.b.  mg/l  0,01  0,20": whatever its words are, a row with such a number is of values.
    let headed = || matches!(lexicon().column(row.text(from)), Some((_, true)));
    let decimal = |c: usize| is_decimal(row.text(c)) && !is_date(row.text(c));
    let with_unit = |c: usize| value(c) && unit_find::find(row.text(c)).is_some();
    let data = || {
        names_one(row.text(from)) && (from + 1..to).any(value)
            || !heads() && (from + 1..to).any(number)
            || !row.text(from).is_empty() && !headed() && (from + 1..to).any(|c| decimal(c) || with_unit(c))
            || apart()
    };
    let units = || of_units((from..to).map(|c| row.text(c)));
    (any >= 2 && exact >= 1 || units()) && !data() && !labels(row, from, to)
}

/// A number with decimals and nothing else, which no heading has.
pub(crate) fn is_decimal(text: &str) -> bool {
    let text = text.trim_start_matches(['<', ' ']);
    text.contains(['.', ','])
        && text.starts_with(|c: char| c.is_ascii_digit())
        && text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
}

/// The rows of a heading around the one with the telling words.
pub(crate) fn heading_rows(rows: &[Row], at: usize, from: usize, to: usize) -> (usize, usize) {
    let own = |r: &Row, c: usize| !r.text(c).is_empty() && r.cells.get(c).is_some_and(|c| !c.spread);
    let several = |r: &Row| (from..to).filter(|&c| own(r, c)).count() >= 2;
    let data = |r: &Row| {
        let value =
            |c: usize| matches!(cell::read(r.text(c), Decimal::Unknown), Content::Numbers(_) | Content::NotDetected);
        !matches!(name_of(r.text(from)), Named::Unknown) && (from + 1..to).any(value)
    };
    let beyond = |r: &Row| (from + 1..to).any(|c| !r.text(c).is_empty());
    let plain = |r: &Row| !data(r) && !counts(r, from, to) && !tells(r.cells.iter().map(|c| &*c.text));
    let above = |r: &Row| (several(r) || heads_one(r, from, to)) && beyond(r) && plain(r);
    let mut top = at;
    while top > 0 && at - top < 3 && rows.get(top - 1).is_some_and(above) {
        top -= 1;
    }
    let mut bottom = at + 1;
    while bottom - at < 4 && rows.get(bottom).is_some_and(|r| goes_on(r, from, to) && !data(r)) {
        bottom += 1;
    }
    (top, bottom)
}

/// A longer text, in words, is a title.
const MOST_WORDS: usize = 4;

/// "Population  4312": words with one number, which heads nothing.
fn counts(row: &Row, from: usize, to: usize) -> bool {
    let own = |c: &usize| !row.text(*c).is_empty() && row.cells.get(*c).is_some_and(|c| !c.spread);
    let filled: Vec<&str> = (from..to).filter(own).map(|c| row.text(c)).collect();
    let [words, number] = filled[..] else { return false };
    let plain = number.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '\''));
    let heads = |(role, exact): (ReportColumn, bool)| exact && role != ReportColumn::Other;
    plain && !is_year(number) && !lexicon().column(words).is_some_and(heads)
}

/// "90% of test" alone over "levels were less than": a word that heads a column, or a share, beyond the names.
fn heads_one(row: &Row, from: usize, to: usize) -> bool {
    let mut filled = (from..to).map(|c| row.text(c)).filter(|t| !t.is_empty());
    let first = filled.next().filter(|_| row.text(from).is_empty() && filled.next().is_none());
    let short = |t: &&str| t.split_whitespace().count() <= MOST_WORDS;
    first.filter(short).is_some_and(|t| lexicon().column(t).is_some() || t.contains('%'))
}

/// "Sampling point: Well 3", "Date: 19/09/2024": a line that tells of the whole report, and heads no columns.
pub(crate) fn tells<'a>(cells: impl Iterator<Item = &'a str>) -> bool {
    let filled: Vec<&str> = cells.map(str::trim).filter(|t| !t.is_empty()).collect();
    let labels = filled.iter().filter_map(|t| t.split_once(':')).map(|(label, _)| label.trim());
    let labels: Vec<&str> = labels.filter(|l| l.chars().count() > 1).collect();
    // The same label over several columns heads them.
    let own = labels.iter().collect::<std::collections::BTreeSet<_>>().len() == labels.len();
    own && !labels.is_empty() && labels.len() * 2 >= filled.len()
}

/// A row that continues a heading: nothing in it is a plain number, and something stands beyond the first column.
fn goes_on(row: &Row, from: usize, to: usize) -> bool {
    let plain = |t: &str| {
        matches!(cell::read(t, Decimal::Unknown), Content::Numbers(n) if n.len() == 1 && n.first().is_some_and(|n| n.start == 0))
            && !t.chars().any(char::is_alphabetic)
    };
    // "0.18 NTU" is a value; "20 °C" may say at what.
    let with_unit = |t: &str| {
        let number = |n: &[cell::Number]| n.len() == 1 && n.first().is_some_and(|n| n.start == 0);
        matches!(cell::read(t, Decimal::Unknown), Content::Numbers(n) if number(&n))
            && unit_find::find(t).is_some_and(|f| f.unit != crate::Unit::Celsius)
    };
    let own = |c: usize| !row.text(c).is_empty() && row.cells.get(c).is_some_and(|c| !c.spread);
    !(from + 1..to).any(|c| with_unit(row.text(c)))
        && (from + 1..to).any(own)
        && matches!(name_of(row.text(from)), Named::Unknown)
        && !(from..to).any(|c| plain(row.text(c)) && !is_year(row.text(c)))
}

/// A heading of several rows: what stands over several columns, but only in the first of them, holds for all.
pub(crate) fn filled_on(heading: &[&Row], from: usize, to: usize) -> Vec<Row> {
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

/// Rows without a word that is known in headings, right above the first values: what stands over values heads them.
pub(crate) fn by_place<'a>(rows: &[&'a Row], from: usize, to: usize) -> Vec<&'a Row> {
    let value = |t: &str| match cell::read(t, Decimal::Unknown) {
        Content::Numbers(n) => n.first().is_some_and(|n| n.start == 0),
        Content::NotDetected => true,
        _ => false,
    };
    let data = |r: &&Row| names_one(r.text(from)) && (from + 1..to).any(|c| value(r.text(c)));
    let Some(first) = rows.iter().position(data) else { return Vec::new() };
    // Rows of what nobody looks for (colour, smell) may stand between.
    let valued =
        |&i: &usize| rows.get(i).is_some_and(|r| (from + 1..to).any(|c| value(r.text(c)) && !is_year(r.text(c))));
    let first = (0..first).rev().take_while(valued).last().unwrap_or(first);
    let held: Vec<usize> = (from + 1..to).filter(|&c| rows.iter().skip(first).any(|r| value(r.text(c)))).collect();
    let heads = |r: &&Row| {
        let own = |c: usize| !r.text(c).is_empty() && r.cells.get(c).is_some_and(|c| !c.spread);
        let over = held.iter().filter(|&&c| own(c)).count();
        let words = (from..to).all(|c| is_year(r.text(c)) || is_date(r.text(c)) || !value(r.text(c)));
        // "Hardness level  hard" is a row of its own.
        let own_name = matches!(name_of(r.text(from)), Named::Unknown);
        over > 0 && over * 2 >= held.len() && words && own_name && !tells(r.cells.iter().map(|c| &*c.text))
    };
    let top = (first.saturating_sub(3)..first).rev().take_while(|&i| rows.get(i).is_some_and(heads)).last();
    rows.get(top.unwrap_or(first)..first).unwrap_or_default().to_vec()
}
