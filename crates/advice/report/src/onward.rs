//! A table that goes on on the next page without its heading: its columns stand where they stood.

use crate::layout::{Line, Piece, column_edges, is_heading, starts};
use crate::table::names_one;

/// A row of a table has so many pieces, and a table that goes on so many columns.
const LEAST: usize = 3;
/// So many lines may stand between the last row of a page and its end, and on the next page before its first.
const BETWEEN: usize = 5;
/// Most lines of a heading.
const HEADING: usize = 6;

/// The lines of a page, with the heading of the table that ended the page before put over the rows that go on with it.
pub(crate) fn headed(before: &[Line], lines: Vec<Line>) -> Vec<Line> {
    let end = starts(&lines).get(1).copied().unwrap_or(lines.len());
    let own = lines.get(..end).unwrap_or_default();
    let heading = own.iter().position(is_row).filter(|first| *first <= BETWEEN).and_then(|at| {
        let named = own.iter().any(|l| is_row(l) && l.pieces.first().is_some_and(|p| names_one(&p.text)));
        let bare = named && !own.iter().any(is_heading);
        Some((at, last_heading(before, own).filter(|_| bare)?))
    });
    let Some((at, heading)) = heading else { return lines };
    // It bears the number of the line above it, so that the numbers stay in order.
    let number = at.checked_sub(1).and_then(|i| lines.get(i)).map_or(0, |l| l.number);
    let over = heading.into_iter().map(|l| Line { number, ..l });
    let (mut out, mut rest) = (lines, Vec::new());
    rest.extend(out.drain(at..));
    out.into_iter().chain(over).chain(rest).collect()
}

/// The heading of the last table of a page, where it reaches its end and has the columns of these lines.
fn last_heading(page: &[Line], onward: &[Line]) -> Option<Vec<Line>> {
    let start = *starts(page).last()?;
    let table = page.get(start..)?;
    let first = table.iter().position(is_row)?;
    let last = table.iter().rposition(is_row)?;
    let heading: Vec<Line> = table.get(..first)?.iter().filter(|l| l.pieces.len() > 1).cloned().collect();
    let sound = (1..=HEADING).contains(&heading.len()) && heading.iter().any(is_heading);
    let rows = |lines: &[Line]| lines.iter().filter(|l| is_row(l)).cloned().collect::<Vec<_>>();
    (sound && table.len() - last <= BETWEEN && alike(&rows(table), &rows(onward))).then_some(heading)
}

/// Whether rows have the same columns: as many, in the same places, of numbers or of words.
fn alike(above: &[Line], below: &[Line]) -> bool {
    let together = [above, below].concat();
    let (a, b, both) = (column_edges(above), column_edges(below), column_edges(&together));
    let kinds = |rows: &[Line]| both.iter().map(|&(x0, x1)| of_numbers(rows, x0, x1)).collect::<Vec<_>>();
    both.len() >= LEAST && a.len() == both.len() && b.len() == both.len() && kinds(above) == kinds(below)
}

/// Whether more than half of what stands between two edges begins as numbers do.
fn of_numbers(rows: &[Line], x0: f64, x1: f64) -> bool {
    let held = rows.iter().flat_map(|l| &l.pieces).filter(|p| p.x0 < x1 && p.x1 > x0);
    let told: Vec<bool> = held.filter(|p| p.text.chars().any(char::is_alphanumeric)).map(is_number).collect();
    told.iter().filter(|n| **n).count() * 2 > told.len()
}

fn is_number(piece: &Piece) -> bool {
    piece.text.trim_start_matches(['<', '>', ' ']).starts_with(|c: char| c.is_ascii_digit())
}

/// A line with a number beyond its first cell.
fn is_row(line: &Line) -> bool {
    line.pieces.len() >= LEAST && line.pieces.iter().skip(1).any(is_number) && !is_heading(line)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(number: u32, cells: &[(f64, &str)]) -> Line {
        let piece = |&(x0, text): &(f64, &str)| {
            let x1 = x0 + 5.0 * text.chars().count() as f64;
            Piece { x0, x1, text: text.to_owned(), words: Vec::new() }
        };
        Line { number, pieces: cells.iter().map(piece).collect() }
    }

    fn first_page() -> Vec<Line> {
        vec![
            line(1, &[(0.0, "Parameter"), (100.0, "Unit"), (200.0, "Limit"), (300.0, "Mean"), (400.0, "Samples")]),
            line(2, &[(0.0, "Calcium"), (100.0, "mg/l"), (200.0, "250"), (300.0, "49.6"), (400.0, "13")]),
            line(3, &[(0.0, "Sodium"), (100.0, "mg/l"), (200.0, "200"), (300.0, "19.7"), (400.0, "3")]),
        ]
    }

    #[test]
    fn rows_go_on_under_the_heading_of_the_page_before() {
        let rows = vec![
            line(1, &[(0.0, "Metals")]),
            line(2, &[(0.0, "Iron"), (100.0, "µg/l"), (200.0, "200"), (300.0, "14"), (400.0, "13")]),
            line(3, &[(0.0, "Zinc"), (100.0, "µg/l"), (200.0, "3000"), (300.0, "<3"), (400.0, "1")]),
        ];
        let headed = headed(&first_page(), rows);
        assert_eq!(headed.iter().map(|l| l.pieces.len()).collect::<Vec<_>>(), [1, 5, 5, 5]);
        assert_eq!(headed[1].pieces[3].text, "Mean");
    }

    #[test]
    fn rows_with_other_columns_do_not() {
        // One column fewer; a column in another place; numbers where words stood; a heading of its own.
        for rows in [
            vec![line(1, &[(0.0, "Iron"), (100.0, "µg/l"), (200.0, "200"), (300.0, "14")])],
            vec![line(1, &[(0.0, "Iron"), (100.0, "µg/l"), (200.0, "200"), (300.0, "14"), (350.0, "13")])],
            vec![line(1, &[(0.0, "Iron"), (100.0, "14"), (200.0, "200"), (300.0, "µg/l"), (400.0, "13")])],
            vec![
                line(
                    1,
                    &[(0.0, "Parameter"), (100.0, "Unit"), (200.0, "Minimum"), (300.0, "Maximum"), (400.0, "Limit")],
                ),
                line(2, &[(0.0, "Iron"), (100.0, "µg/l"), (200.0, "5"), (300.0, "14"), (400.0, "200")]),
            ],
        ] {
            assert_eq!(headed(&first_page(), rows.clone()), rows);
        }
        // A table that ended long before the page did.
        let mut page = first_page();
        page.extend((4..12).map(|n| line(n, &[(0.0, "Words on other things")])));
        let rows = vec![line(1, &[(0.0, "Iron"), (100.0, "µg/l"), (200.0, "200"), (300.0, "14"), (400.0, "13")])];
        assert_eq!(headed(&page, rows.clone()), rows);
    }
}
