//! Tables pasted with their tabs lost: one cell a line.

use crate::grid::{Cell, Grid, Row};
use crate::lexicon::lexicon;
use crate::named::Named;
use crate::table::name_of;
use crate::{cell, unit_find};

use knowledge::ReportColumn;

/// Longest line that is a cell.
const LONGEST: usize = 80;
/// So many rows make a table.
const LEAST_ROWS: usize = 3;

/// The grid of a text whose heading stands on lines of its own; none where there is none.
///
/// A row begins with each line that is a name. Lines that fit what the heading says of its columns are a row, and so are as
/// many as the heading has up to the next name; fewer are kept as a line, for nobody sees which cell is empty.
pub(crate) fn grid(text: &str) -> Option<Grid> {
    let lines: Vec<(u32, &str)> = (1_u32..).zip(text.lines().map(str::trim)).filter(|(_, l)| !l.is_empty()).collect();
    let (from, roles) = heading(&lines)?;
    let width = roles.len();
    let alone = |(n, l): &(u32, &str)| Row { line: *n, cells: vec![Cell::new(*l)] };
    let row = |group: &[(u32, &str)]| {
        let cells = match group.len() == width {
            true => group.iter().map(|(_, l)| Cell::new(*l)).collect(),
            false => vec![Cell::new(group.iter().map(|(_, l)| *l).collect::<Vec<_>>().join(" "))],
        };
        Row { line: group.first().map_or(1, |(n, _)| *n), cells }
    };
    let mut rows: Vec<Row> = lines.iter().take(from).map(alone).collect();
    rows.push(row(lines.get(from..from + width)?));
    let mut rest = lines.get(from + width..)?;
    let mut full = 0;
    while !rest.is_empty() {
        let next = rest.iter().skip(1).position(|(_, l)| is_name(l)).map_or(rest.len(), |at| at + 1);
        let (group, more) = rest.split_at_checked(if fits(rest, &roles) { width } else { next })?;
        full += usize::from(group.len() == width);
        rows.push(row(group));
        rest = more;
    }
    (full >= LEAST_ROWS).then(|| Grid { rows, ..Grid::default() })
}

/// Cells parted by wide gaps, as many as the heading has but the first, under a line with the name: "Total iron", then
/// "mg/L   0,3   0,07   Acceptable". They stand under no heading; their order tells.
pub(crate) fn under_names(text: &str) -> Option<Grid> {
    let lines: Vec<(u32, Vec<&str>)> =
        (1_u32..).zip(text.lines().map(cells)).filter(|(_, cells)| !cells.is_empty()).collect();
    let heads = |cells: &Vec<&str>| {
        let known: Vec<ReportColumn> = cells.iter().filter_map(|c| lexicon().column(c)).map(|(role, _)| role).collect();
        let role = |cell: &&str| lexicon().column(cell).map_or(ReportColumn::Other, |(role, _)| role);
        let roles: Vec<ReportColumn> = cells.iter().map(role).collect();
        Some(roles).filter(|r| r.len() > 2 && known.len() + 1 >= r.len() && r.first() == Some(&ReportColumn::Name))
    };
    let (from, roles) = lines.iter().take(200).enumerate().find_map(|(i, (_, cells))| Some((i, heads(cells)?)))?;
    let row = |(n, cells): &(u32, Vec<&str>)| Row { line: *n, cells: cells.iter().map(Cell::new).collect() };
    let mut rows: Vec<Row> = lines.iter().take(from + 1).map(row).collect();
    let (mut at, mut full) = (from + 1, 0);
    while let Some(line) = lines.get(at) {
        let whole = lines.get(at + 1).filter(|_| line.1.len() == 1).map(|(n, more)| (*n, [&line.1[..], more].concat()));
        let numbered: Option<Vec<(u32, &str)>> =
            whole.as_ref().map(|(n, cells)| cells.iter().map(|c| (*n, *c)).collect());
        match (whole, numbered) {
            (Some(whole), Some(numbered)) if whole.1.len() == roles.len() && is_row(&numbered, &roles) => {
                rows.push(row(&whole));
                (at, full) = (at + 2, full + 1);
            }
            // A row on one line: the columns tell by their place.
            _ if line.1.len() == roles.len() => return None,
            _ => {
                rows.push(row(line));
                at += 1;
            }
        }
    }
    (full >= LEAST_ROWS).then(|| Grid { rows, ..Grid::default() })
}

/// A name with cells that fit the heading.
fn is_row(cells: &[(u32, &str)], roles: &[ReportColumn]) -> bool {
    let numbers = cells.iter().skip(1).filter(|(_, c)| is_number(c)).count();
    numbers > 0 && fits(cells, roles)
}

/// The cells of a line, parted by two spaces and more.
fn cells(line: &str) -> Vec<&str> {
    line.split("  ").map(str::trim).filter(|c| !c.is_empty()).collect()
}

/// Where the heading begins, and what its lines head: columns one after the other, the first that of names.
fn heading(lines: &[(u32, &str)]) -> Option<(usize, Vec<ReportColumn>)> {
    let role = |i: usize| {
        let limit = |(role, exact): &(ReportColumn, bool)| *exact || *role == ReportColumn::Limit;
        lines.get(i).and_then(|(_, l)| lexicon().column(l).filter(limit)).map(|(role, _)| role)
    };
    let wide = |from: usize| (from..lines.len().min(from + 20)).map_while(role).collect::<Vec<_>>();
    let named = |i: usize| role(i) == Some(ReportColumn::Name);
    (0..lines.len().min(200)).filter(|&i| named(i)).map(|i| (i, wide(i))).find(|(_, roles)| roles.len() >= 3)
}

/// Whether lines are what these columns hold: a name, results where results stand, and no other name among them.
fn fits(lines: &[(u32, &str)], roles: &[ReportColumn]) -> bool {
    use ReportColumn::*;
    let Some(row) = lines.get(..roles.len()) else { return false };
    let result = |role: &ReportColumn| matches!(role, Min | Mean | Median | Max | P95 | P90 | P10 | P5 | Value | Range);
    let fit = |((_, line), role): (&(u32, &str), &ReportColumn)| match role {
        role if result(role) => is_value(line),
        Unit => !is_number(line),
        Symbol => true,
        _ => !matches!(name_of(line), Named::Determinand(_)),
    };
    let name = row.first().is_some_and(|(_, l)| is_name(l));
    // A number behind the last cell: a column that the heading does not know.
    let more = lines.get(roles.len()).is_some_and(|(_, l)| is_number(l));
    name && !more && roles.iter().any(result) && row.iter().zip(roles).skip(1).all(fit)
}

/// A number, a range, "not seen" or a word for none.
fn is_value(line: &str) -> bool {
    is_number(line) || lexicon().is_not_detected(line) || lexicon().is_no_value(line) || matches!(line, "-" | "–" | "—")
}

fn is_number(line: &str) -> bool {
    matches!(cell::read(line, cell::Decimal::Unknown), cell::Content::Numbers(n) if n.first().is_some_and(|n| n.start == 0))
}

/// A line that is the first cell of a row: words, and neither unit nor value nor a word for none.
fn is_name(line: &str) -> bool {
    let short = line.chars().count() <= LONGEST && line.chars().any(char::is_alphabetic);
    let known = !matches!(name_of(line), Named::Unknown);
    let words =
        matches!(cell::read(line, cell::Decimal::Unknown), cell::Content::Words) && unit_find::find(line).is_none();
    short && (known || words)
}
