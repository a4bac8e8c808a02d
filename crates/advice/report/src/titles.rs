//! Lines above a table that name its water: "Client Sample ID: Well 3", "Zone Oberdorf".

use knowledge::ReportColumn;

use crate::cell::{self, Content, Decimal};
use crate::grid::Row;
use crate::lexicon::lexicon;
use crate::table::names_one;

/// Lines looked at above a table.
pub(crate) const LINES: usize = 8;
/// A longer line, in characters or in words, names no water.
const LONGEST: usize = 60;
const MOST_WORDS: usize = 8;

/// The water that a line names.
pub(crate) fn place(text: &str) -> Option<&str> {
    let text = text.trim();
    if text.chars().count() > LONGEST || text.ends_with(['.', ',', ';']) {
        return None;
    }
    let exact = |t: &str| matches!(lexicon().column(t), Some((ReportColumn::Place, true)));
    if let Some((label, name)) = text.split_once(':') {
        return Some(name.trim()).filter(|name| !name.is_empty() && exact(label));
    }
    // "Sample point" names none; "Well 3" and "Zone Oberdorf" do.
    let (first, rest) = text.split_once(' ')?;
    let named = rest.starts_with(|c: char| c.is_uppercase() || c.is_ascii_digit());
    (named && exact(first) && !exact(text) && text.split_whitespace().count() <= MOST_WORDS).then_some(text)
}

/// The nearest of these lines, from above, that names a water.
pub(crate) fn above<'a>(texts: impl DoubleEndedIterator<Item = &'a str>) -> String {
    texts.rev().find_map(place).unwrap_or("").to_owned()
}

/// What names the water of a list: the last such cell before its first value.
pub(crate) fn of_rows(rows: &[Row], from: usize, to: usize) -> String {
    let value = |t: &str| matches!(cell::read(t, Decimal::Unknown), Content::Numbers(_) | Content::NotDetected);
    let valued = |r: &Row| names_one(r.text(from)) && (from + 1..to).any(|c| value(r.text(c)));
    let first = rows.iter().position(valued).unwrap_or(0);
    above(rows.iter().take(first).flat_map(|r| (from..to).map(|c| r.text(c)).collect::<Vec<_>>()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_waters() {
        assert_eq!(place("Client Sample ID: Well 3 Raw"), Some("Well 3 Raw"));
        assert_eq!(place("Zone Oberdorf"), Some("Zone Oberdorf"));
        assert_eq!(place("Hochbehälter Steinrück"), Some("Hochbehälter Steinrück"));
        for text in ["Sample point and lab number", "Versorgte Orte: Lahrach", "Client Sample ID:", "Zone", "Results"] {
            assert_eq!(place(text), None, "{text}");
        }
    }
}
