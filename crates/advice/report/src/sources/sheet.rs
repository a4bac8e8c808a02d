//! Spreadsheets: xlsx and ods, with merged cells spread out.

use std::io::Cursor;

use calamine::{Data, Dimensions, Ods, Reader, Xlsx};

use crate::grid::{Cell, Grid, Row};
use crate::{Refusal, RefusalKind};

/// Most cells of a sheet that are looked at.
const MOST_CELLS: usize = 20_000_000;

fn damaged(error: impl std::fmt::Display) -> Refusal {
    Refusal::new(
        RefusalKind::Damaged,
        format!("The spreadsheet can't be opened ({error}). Save it again, or save the sheet as CSV."),
    )
}

/// The sheets of a workbook.
pub(crate) fn grids(bytes: &[u8], ods: bool) -> Result<Vec<Grid>, Refusal> {
    let data = Cursor::new(bytes);
    if ods {
        let mut book: Ods<_> = Reader::new(data).map_err(damaged)?;
        return all(&mut book, |_, _| Vec::new());
    }
    let mut book: Xlsx<_> = Reader::new(data).map_err(damaged)?;
    all(&mut book, |book, name| book.merge_cells_by_sheet_name(name).unwrap_or_default())
}

fn all<'a, R: Reader<Cursor<&'a [u8]>>>(
    book: &mut R,
    merged: impl Fn(&mut R, &str) -> Vec<Dimensions>,
) -> Result<Vec<Grid>, Refusal>
where
    R::Error: std::fmt::Display,
{
    let mut out = Vec::new();
    for name in book.sheet_names() {
        let range = book.worksheet_range(&name).map_err(damaged)?;
        let (height, width) = range.get_size();
        if height.saturating_mul(width) > MOST_CELLS {
            return Err(Refusal::new(
                RefusalKind::TooLarge,
                format!("The sheet \"{name}\" has more than 20 million cells. Save the table alone."),
            ));
        }
        let Some((top, left)) = range.start() else { continue };
        let mut rows: Vec<Row> = range
            .rows()
            .zip(top..)
            .map(|(cells, line)| Row {
                line: line + 1,
                cells: cells.iter().zip(left..).map(|(data, column)| cell(data, line, column)).collect(),
            })
            .collect();
        for area in merged(book, &name) {
            spread(&mut rows, area, (top, left));
        }
        rows.retain(|r| r.cells.iter().any(|c| !c.text.is_empty()));
        out.push(Grid { title: name.clone(), sheet: Some(name), rows, ..Grid::default() });
    }
    Ok(out)
}

fn cell(data: &Data, line: u32, column: u32) -> Cell {
    let (text, typed) = match data {
        Data::Empty | Data::Error(_) => (String::new(), false),
        Data::String(text) => (text.split_whitespace().collect::<Vec<_>>().join(" "), false),
        Data::Float(value) => (number(*value), true),
        Data::Int(value) => (value.to_string(), true),
        Data::Bool(value) => (value.to_string(), false),
        Data::DateTime(date) => (day(date.as_f64()), false),
        Data::DateTimeIso(text) => (text.get(..10).unwrap_or(text).to_owned(), false),
        Data::DurationIso(text) => (text.clone(), false),
    };
    Cell { text, typed, at: Some(address(line, column)), spread: false }
}

/// Decimals that nobody can take for thousands: three of them get a zero behind.
fn number(value: f64) -> String {
    let text = format!("{}", quantity::canonical(value));
    match text.split_once('.') {
        Some((_, part)) if part.len() == 3 => format!("{text}0"),
        _ => text,
    }
}

/// The day of a serial number: days since 30 December 1899.
fn day(serial: f64) -> String {
    // Civil date from a count of days (Howard Hinnant's algorithm, public domain).
    let z = serial.floor() as i64 - 25_569 + 719_468;
    let era = z.div_euclid(146_097);
    let of_era = z.rem_euclid(146_097);
    let year_of_era = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted = (5 * of_year + 2) / 153;
    let day = of_year - (153 * shifted + 2) / 5 + 1;
    let month = if shifted < 10 { shifted + 3 } else { shifted - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    format!("{year:04}-{month:02}-{day:02}")
}

/// `C14`.
fn address(line: u32, column: u32) -> String {
    let mut letters = String::new();
    let mut n = u64::from(column) + 1;
    while n > 0 {
        let digit = u8::try_from((n - 1) % 26).unwrap_or(0);
        letters.insert(0, char::from(b'A' + digit));
        n = (n - 1) / 26;
    }
    format!("{letters}{}", u64::from(line) + 1)
}

/// A merged cell's text in each of its places.
fn spread(rows: &mut [Row], area: Dimensions, (top, left): (u32, u32)) {
    let at = |line: u32, column: u32| Some((line.checked_sub(top)? as usize, column.checked_sub(left)? as usize));
    let Some((first_row, first_column)) = at(area.start.0, area.start.1) else { return };
    let Some(text) = rows.get(first_row).and_then(|r| r.cells.get(first_column)).map(|c| c.text.clone()) else {
        return;
    };
    let Some((last_row, last_column)) = at(area.end.0, area.end.1) else { return };
    for row in rows.iter_mut().take(last_row + 1).skip(first_row) {
        for cell in row.cells.iter_mut().take(last_column + 1).skip(first_column).filter(|c| c.text.is_empty()) {
            cell.text.clone_from(&text);
            cell.spread = true;
        }
    }
}
