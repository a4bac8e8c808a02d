//! Tables whose cells are parted by one space, as copied from a viewer: the heading tells how many cells a line has.

use crate::grid::{Cell, Grid, Row};
use crate::lexicon::lexicon;
use crate::unit_find;

use knowledge::ReportColumn;

/// The grid of a text with such a heading; none where there is none.
pub(crate) fn grid(text: &str) -> Option<Grid> {
    let lines: Vec<&str> = text.lines().collect();
    let (at, roles) = lines.iter().take(200).enumerate().find_map(|(i, line)| Some((i, heading(line)?)))?;
    let rows = lines.iter().zip(1_u32..).map(|(line, number)| Row {
        line: number,
        cells: match number as usize {
            n if n == at + 1 => line.split_whitespace().map(Cell::new).collect(),
            n if n > at + 1 => cells(line, &roles).unwrap_or_else(|| vec![Cell::new(line.trim())]),
            _ => vec![Cell::new(line.trim())],
        },
    });
    Some(Grid { rows: rows.filter(|r| r.cells.iter().any(|c| !c.text.is_empty())).collect(), ..Grid::default() })
}

/// Words that each head a column, the first that of the names.
fn heading(line: &str) -> Option<Vec<ReportColumn>> {
    if line.contains("  ") || line.contains('\t') {
        return None;
    }
    let one = |word: &str| lexicon().column(word).filter(|(_, exact)| *exact).map(|(role, _)| role);
    let roles: Vec<ReportColumn> = line.split_whitespace().map(one).collect::<Option<_>>()?;
    (roles.len() >= 3 && roles.first() == Some(&ReportColumn::Name)).then_some(roles)
}

/// The cells of a line: from its end as many as stand behind name and unit.
fn cells(line: &str, roles: &[ReportColumn]) -> Option<Vec<Cell>> {
    let mut words: Vec<String> = Vec::new();
    for word in line.split_whitespace() {
        match words.last_mut().filter(|w| matches!(w.as_str(), "<" | ">" | "≤" | "≥")) {
            Some(sign) => sign.push_str(word),
            None => words.push(word.to_owned()),
        }
    }
    let has_unit = roles.get(1) == Some(&ReportColumn::Unit);
    let behind = roles.len() - 1 - usize::from(has_unit);
    let split = words.len().checked_sub(behind).filter(|s| *s > 0)?;
    let tail = words.split_off(split);
    // Words in what should be numbers: the line is made in another way.
    let told = |w: &String| w.chars().any(|c| c.is_ascii_digit()) || w.chars().count() < 5;
    if !tail.iter().all(told) {
        return None;
    }
    let head = words.join(" ");
    let mut out = Vec::new();
    match unit_find::all(&head).into_iter().rfind(|f| f.unit != crate::Unit::Celsius).filter(|_| has_unit) {
        Some(unit) => {
            out.push(Cell::new(head.chars().take(unit.start).collect::<String>().trim().to_owned()));
            out.push(Cell::new(head.chars().skip(unit.start).collect::<String>()));
        }
        None => {
            out.push(Cell::new(head.trim_end_matches(" -").to_owned()));
            out.extend(has_unit.then(Cell::default));
        }
    }
    out.extend(tail.into_iter().map(Cell::new));
    Some(out)
}
