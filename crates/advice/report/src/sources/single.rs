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

/// The cells of a line: name, unit, and as many words behind as the heading has columns. A line with fewer cannot be told
/// apart, for nobody sees which cell is empty.
fn cells(line: &str, roles: &[ReportColumn]) -> Option<Vec<Cell>> {
    let words = words(line);
    let unit_at = roles.iter().position(|r| *r == ReportColumn::Unit);
    let plain: Vec<bool> = words.iter().map(|w| is_value(w)).collect();
    let first = plain.iter().position(|v| *v)?;
    let cell = |from: usize, to: usize| Cell::new(words.get(from..to).unwrap_or_default().join(" "));
    match unit_at {
        // Name, unit, then values alone.
        Some(1) => {
            let split = words.len().checked_sub(roles.len() - 2).filter(|s| *s > 0)?;
            if !plain.iter().skip(split).all(|v| *v) {
                return None;
            }
            let head = words.get(..split)?.join(" ");
            let unit = unit_find::all(&head).into_iter().rfind(|f| f.unit != crate::Unit::Celsius);
            let mut out = match unit {
                Some(unit) => vec![
                    Cell::new(head.chars().take(unit.start).collect::<String>().trim()),
                    Cell::new(head.chars().skip(unit.start).collect::<String>()),
                ],
                None if head.ends_with(" -") => vec![Cell::new(head.trim_end_matches(" -")), Cell::default()],
                // A dash among the values may be the unit's.
                None if words.iter().any(|w| w == "-") => return None,
                None => vec![Cell::new(head), Cell::default()],
            };
            out.extend((split..words.len()).map(|i| cell(i, i + 1)));
            Some(out)
        }
        // Name, value, unit, then values alone.
        Some(2) => {
            let unit_words = plain.iter().skip(first + 1).position(|v| *v).unwrap_or(words.len() - first - 1);
            let behind = words.len() - first - 1 - unit_words;
            let whole =
                unit_words > 0 && behind <= roles.len() - 3 && plain.iter().skip(first + 1 + unit_words).all(|v| *v);
            // Only a limit may lack.
            let sure = behind == roles.len() - 3 || (behind == 0 && roles.len() == 4);
            (whole && sure && first > 0).then(|| {
                let mut out = vec![cell(0, first), cell(first, first + 1), cell(first + 1, first + 1 + unit_words)];
                out.extend((first + 1 + unit_words..words.len()).map(|i| cell(i, i + 1)));
                out
            })
        }
        _ => None,
    }
}

/// The words of a line; a comparator belongs to its number.
fn words(line: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in line.split_whitespace() {
        match out.last_mut().filter(|w| matches!(w.as_str(), "<" | ">" | "≤" | "≥")) {
            Some(sign) => sign.push_str(word),
            None => out.push(word.to_owned()),
        }
    }
    out
}

/// A number, "not seen", or a dash.
fn is_value(word: &str) -> bool {
    let number = word.trim_start_matches(['<', '>', '≤', '≥', '=']).starts_with(|c: char| c.is_ascii_digit());
    number && !word.chars().any(char::is_alphabetic)
        || lexicon().is_not_detected(word)
        || matches!(word, "-" | "–" | "—")
}
