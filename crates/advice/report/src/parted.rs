//! Which number is the result, where a column says it in each row ("Statistic" over "mean", "limit"), or one heading stands
//! over two numbers ("Value (limit)" over "7.5 (9)").

use std::collections::BTreeSet;

use knowledge::ReportColumn;

use crate::columns::Column;
use crate::grid::Row;
use crate::lexicon::lexicon;

/// Which of the two numbers of a cell is the result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Halves {
    /// "7.5 (9)", "7.5 / 9".
    ResultFirst(char),
    /// "9 (7.5)", "9 / 7.5".
    LimitFirst(char),
}

/// Which number of its samples a heading or a word speaks of.
fn is_result(role: ReportColumn) -> bool {
    use ReportColumn::*;
    matches!(role, Min | Mean | Median | Max | P95 | P90 | P10 | P5 | Value)
}

/// Whether cells say in each row which number stands there: "mean", "maximum", "limit".
pub(crate) fn tells<'a>(cells: impl Iterator<Item = &'a str>) -> bool {
    use ReportColumn::{Count, Failing, Limit, Lod, Mean, Median, Uncertainty, Value};
    let mut roles: BTreeSet<ReportColumn> = BTreeSet::new();
    for cell in cells.filter(|t| !t.is_empty()) {
        match lexicon().column(cell) {
            Some((role, true)) if is_result(role) || matches!(role, Limit | Count | Failing | Lod | Uncertainty) => {
                roles.insert(role);
            }
            _ => return false,
        }
    }
    // "Maximum" alone beside every row may say of which kind its limit is.
    let middle = matches!(roles.iter().collect::<Vec<_>>()[..], [Mean | Median | Value]);
    roles.iter().any(|r| is_result(*r)) && (roles.len() > 1 || middle)
}

/// Set the column whose cells say it.
pub(crate) fn told_in_rows(out: &mut [Column], data: &[&Row], from: usize) {
    let names = |at: usize| data.iter().map(move |r| r.text(at));
    let told = (1..out.len()).find(|&i| names(from + i).any(|t| !t.is_empty()) && tells(names(from + i)));
    if let Some(column) = told.and_then(|i| out.get_mut(i)) {
        (column.role, column.tells) = (Some(ReportColumn::Other), true);
    }
}

/// What the row says of its numbers, where a column does: none where there is no such column or nothing in it.
pub(crate) fn told(row: &Row, columns: &[Column], from: usize) -> Option<ReportColumn> {
    let at = columns.iter().position(|c| c.tells)?;
    lexicon().column(row.text(from + at)).map(|(role, _)| role)
}

/// "Value (limit)" over cells of two numbers: the column holds results, and its limits beside them.
pub(crate) fn in_halves(column: &mut Column, data: &[&Row], at: usize) {
    let role = |text: &str| lexicon().column(text).map(|(role, _)| role);
    let parts = |sign: char| {
        let (first, second) = column.heading.split_once(sign)?;
        let found = match (role(first)?, role(second.trim_end_matches(')'))?) {
            (ReportColumn::Limit, result) if is_result(result) => (result, Halves::LimitFirst(sign)),
            (result, ReportColumn::Limit) if is_result(result) => (result, Halves::ResultFirst(sign)),
            _ => return None,
        };
        let filled = || data.iter().map(|r| r.text(at)).filter(|t| !t.is_empty());
        let two = filled().filter(|t| cut(t, sign).is_some()).count();
        (two > 0 && two * 2 >= filled().count()).then_some(found)
    };
    if let Some((result, halves)) = parts('(').or_else(|| parts('/')) {
        (column.role, column.halves) = (Some(result), Some(halves));
    }
}

/// The result and the limit of a cell. A number alone is the first of the two; behind a stroke nobody knows.
pub(crate) fn result_and_limit<'a>(column: &Column, text: &'a str) -> (&'a str, Option<&'a str>) {
    match column.halves {
        None => (text, None),
        Some(Halves::ResultFirst(sign)) => match cut(text, sign) {
            Some((result, limit)) => (result, Some(limit)),
            None => (if sign == '(' { text } else { "" }, None),
        },
        Some(Halves::LimitFirst(sign)) => match cut(text, sign) {
            Some((limit, result)) => (result, Some(limit)),
            None => ("", None),
        },
    }
}

/// The two halves of a cell.
fn cut(text: &str, sign: char) -> Option<(&str, &str)> {
    let (first, second) = text.split_once(sign)?;
    let second = if sign == '(' { second.trim_end().strip_suffix(')')? } else { second };
    let (first, second) = (first.trim(), second.trim());
    (!first.is_empty() && !second.is_empty()).then_some((first, second))
}
