//! Words that the first weeks, absences and moves share: notes and why-notes.

use jiff::civil::Date;
use knowledge::{Limit, Sourced};
use quantity::{Kind, Known, Why};
use recipe::Note;
use recipe::say::Pen;

/// A step or a sentence under its head.
pub(crate) fn note(about: &str, text: impl Into<String>) -> Note {
    Note { about: about.to_owned(), text: text.into(), key: None }
}

/// The same with the key of its rule of harm, or of its why-note.
pub(crate) fn keyed(about: &str, text: impl Into<String>, key: &str) -> Note {
    Note { key: Some(key.to_owned()), ..note(about, text) }
}

/// A why-note; sources that are no publication are left to the kind.
pub(crate) fn why(key: &str, question: String, sum: String, words: String, sources: &[&str], kind: Kind) -> Why {
    let known = |source: &&&str| knowledge::book().cite(source).is_some();
    let sources = sources.iter().filter(known).map(|source| (*source).to_owned()).collect();
    Why { key: key.to_owned(), question, sum, words, sources, kind }
}

/// The source of a limit, for a why-note.
pub(crate) fn source(limit: &Limit) -> &str {
    &limit.is.source
}

/// "2 to 4"; one number where no range is known.
pub(crate) fn range(pen: &Pen, row: &Sourced<f64>) -> String {
    span(pen, row.low(), row.high())
}

/// "2 to 4"; one number where both read the same.
pub(crate) fn span(pen: &Pen, low: f64, high: f64) -> String {
    let (low, high) = (pen.n(low, 3), pen.n(high, 3));
    if low == high { low } else { format!("{low} to {high}") }
}

/// "5.5 (4.4 to 6.6)"; the bare number where no range is known.
pub(crate) fn known(pen: &Pen, value: Known<f64>) -> String {
    let (low, mid, high) = (pen.n(value.low, 2), pen.n(value.value, 2), pen.n(value.high, 2));
    if low == high { mid } else { format!("{mid} ({low} to {high})") }
}

/// A whole number that is counted in things: never a hair over it.
pub(crate) fn up(value: f64) -> f64 {
    (value - 1e-9).ceil().max(0.0)
}

/// "one day", "three days".
pub(crate) fn days(n: f64) -> String {
    counted(n, "day", "days")
}

/// "one bucket", "three buckets".
pub(crate) fn counted(n: f64, one: &str, many: &str) -> String {
    let n = n.max(0.0) as u32;
    format!("{} {}", recipe::say::count(n), if n == 1 { one } else { many })
}

/// "Thursday, 11 June".
pub(crate) fn day(date: Date) -> String {
    date.strftime("%A, %-d %B").to_string()
}
