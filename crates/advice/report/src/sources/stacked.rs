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
/// A row begins with each line that is a name. One with as many cells as the heading is a row of the table; one with fewer
/// is kept as a line, for nobody sees which cell is empty.
pub(crate) fn grid(text: &str) -> Option<Grid> {
    let lines: Vec<(u32, &str)> = (1_u32..).zip(text.lines().map(str::trim)).filter(|(_, l)| !l.is_empty()).collect();
    let (from, width) = heading(&lines)?;
    let body = lines.get(from + width..)?;
    let mut groups: Vec<&[(u32, &str)]> = Vec::new();
    let starts: Vec<usize> = (0..body.len()).filter(|&i| body.get(i).is_some_and(|(_, l)| is_name(l))).collect();
    for (n, &at) in starts.iter().enumerate() {
        groups.extend(body.get(at..starts.get(n + 1).copied().unwrap_or(body.len())));
    }
    if groups.iter().filter(|g| g.len() == width).count() < LEAST_ROWS {
        return None;
    }
    let row = |group: &[(u32, &str)]| {
        let cells = match group.len() == width {
            true => group.iter().map(|(_, l)| Cell::new(*l)).collect(),
            false => vec![Cell::new(group.iter().map(|(_, l)| *l).collect::<Vec<_>>().join(" "))],
        };
        Row { line: group.first().map_or(1, |(n, _)| *n), cells }
    };
    let alone = |(n, l): &(u32, &str)| Row { line: *n, cells: vec![Cell::new(*l)] };
    let mut rows: Vec<Row> = lines.iter().take(from).map(alone).collect();
    rows.push(row(lines.get(from..from + width)?));
    rows.extend(groups.into_iter().map(row));
    Some(Grid { rows, ..Grid::default() })
}

/// Where the heading begins, and how many lines it has: headings of columns one after the other, the first that of names.
fn heading(lines: &[(u32, &str)]) -> Option<(usize, usize)> {
    let role = |i: usize| lines.get(i).and_then(|(_, l)| lexicon().column(l).filter(|(_, exact)| *exact));
    let wide = |from: usize| (from..lines.len().min(from + 20)).take_while(|&i| role(i).is_some()).count();
    let named = |i: usize| matches!(role(i), Some((ReportColumn::Name, _)));
    (0..lines.len().min(200)).filter(|&i| named(i)).map(|i| (i, wide(i))).find(|(_, width)| *width >= 3)
}

/// A line that is the first cell of a row: words, and neither unit nor value nor a word for none.
fn is_name(line: &str) -> bool {
    let short = line.chars().count() <= LONGEST && line.chars().any(char::is_alphabetic);
    let known = !matches!(name_of(line), Named::Unknown);
    let words =
        matches!(cell::read(line, cell::Decimal::Unknown), cell::Content::Words) && unit_find::find(line).is_none();
    short && (known || words)
}
