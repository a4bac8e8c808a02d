//! Rows over two lines: what belongs together is joined.

use crate::cell::{self, Content, Decimal};
use crate::grid::Row;
use crate::heading::is_heading;
use crate::named::Named;
use crate::table::name_of;

/// The rows with continued names put together.
pub(crate) fn joined(rows: &[Row], from: usize, to: usize) -> Vec<Row> {
    let mut out: Vec<Row> = Vec::new();
    let mut held: Option<Row> = None;
    for row in rows {
        let name = row.text(from);
        let values = (from + 1..to).any(|c| is_value(row.text(c)));
        if !values && is_heading(row, from, to) {
            out.extend(held.take());
            out.push(row.clone());
            continue;
        }
        if !values && !name.is_empty() {
            if let Some(last) = out.last_mut().filter(|_| held.is_none())
                && goes_on(last, row, from, to)
            {
                append(last, row);
                continue;
            }
            out.extend(held.take());
            held = Some(row.clone());
            continue;
        }
        if values && let Some(first) = held.take() {
            let whole = format!("{} {name}", first.text(from));
            let needs = name.is_empty() || matches!(name_of(name), Named::Unknown) || starts_small(name);
            if needs && !matches!(name_of(&whole), Named::Unknown) && !same(&whole, name) {
                out.push(prefixed(first, row));
                continue;
            }
            out.push(first);
        }
        // Rows of a heading stay in their order.
        out.extend(held.take());
        out.push(row.clone());
    }
    out.extend(held);
    out
}

/// A place printed once, beside the middle of its rows, set in each of them: the names start again with each place.
pub(crate) fn placed(rows: &[Row], from: usize, place: usize) -> Vec<Row> {
    let key = |row: &Row| match name_of(row.text(from)) {
        Named::Determinand(name) => Some((name.key, name.counted)),
        _ => None,
    };
    let named = rows.iter().filter(|r| key(r).is_some());
    let told = named.clone().filter(|r| !r.text(place).is_empty()).count();
    let first = named.clone().find_map(key);
    if told * 2 > named.count() {
        return rows.to_vec();
    }
    let starts: Vec<usize> =
        (0..rows.len()).filter(|&i| rows.get(i).and_then(key) == first && first.is_some()).collect();
    let mut out = rows.to_vec();
    for (n, &start) in starts.iter().enumerate() {
        let end = starts.get(n + 1).copied().unwrap_or(rows.len());
        let texts = rows.get(start..end).unwrap_or_default().iter().map(|r| r.text(place)).filter(|t| !t.is_empty());
        let whole = texts.collect::<Vec<_>>().join(" ");
        for cell in out.iter_mut().take(end).skip(start).filter_map(|r| r.cells.get_mut(place)) {
            cell.text = whole.as_str().into();
        }
    }
    out
}

/// "total" under "Iron" is iron; "iron" under a title is itself.
fn same(whole: &str, name: &str) -> bool {
    match (name_of(whole), name_of(name)) {
        (Named::Determinand(a), Named::Determinand(b)) => a.key == b.key && !a.strange.is_empty(),
        _ => false,
    }
}

fn is_value(text: &str) -> bool {
    !matches!(cell::read(text, Decimal::Unknown), Content::Words | Content::Nothing)
}

fn starts_small(text: &str) -> bool {
    text.chars().next().is_some_and(|c| c.is_lowercase() || c == '(')
}

/// Whether the name of a row goes on in the row under it.
fn goes_on(last: &Row, row: &Row, from: usize, to: usize) -> bool {
    let (name, more) = (last.text(from), row.text(from));
    let open = name.matches('(').count() > name.matches(')').count();
    let last_word = name.split_whitespace().last().filter(|w| *w != name).unwrap_or("");
    let joins = last_word.chars().count() <= 4 && last_word.chars().all(char::is_lowercase) || last_word == "pH";
    let hangs = (name.ends_with([',', '-']) && !name.ends_with(" -")) || (joins && !last_word.is_empty());
    let valued = (from + 1..to).any(|c| is_value(last.text(c)));
    // "(H) health guideline; (A) aesthetic guideline; ..." is a footnote, and so is "n.b. = not seen".
    let short = more.split_whitespace().count() <= MOST_WORDS && !more.contains(" = ");
    if !valued || !(open || hangs || starts_small(more) && short) {
        return false;
    }
    let known = !matches!(name_of(name), Named::Unknown);
    !known || !matches!(name_of(&format!("{name} {more}")), Named::Unknown)
}

/// A longer line, in words, is no end of a name.
const MOST_WORDS: usize = 8;

fn append(last: &mut Row, row: &Row) {
    for (c, cell) in row.cells.iter().enumerate() {
        let more = cell.text.trim();
        if let Some(kept) = last.cells.get_mut(c).filter(|_| !more.is_empty()) {
            kept.append(more);
        }
    }
}

fn prefixed(mut first: Row, row: &Row) -> Row {
    append(&mut first, row);
    first.line = row.line;
    first
}
