//! The numbers in the sentences of `data/troubles.toml`: `{n:KEY}` and its like become figures.
//!
//! `s` a sentence that several steps share; `n` a number, two figures; `n1` one figure; `d` a difference of temperatures in both scales; `c` a temperature in both scales;
//! `tenth` and `Tenth` a percentage, in words where it is a tenth. KEY is a row of the limits of harm, else of the table's own numbers.

use knowledge::Book;
use quantity::{Digits, format_number};

/// A number as it is said to somebody in a hurry.
fn n(value: f64, figures: u8) -> String {
    format_number(value, Digits::Significant(figures))
}

/// The value behind a key.
fn value(book: &Book, key: &str) -> Option<f64> {
    let limit = book.harm.limit.all().into_iter().find(|(name, _)| *name == key).map(|(_, row)| row.value());
    limit.or_else(|| book.troubles.number.all().into_iter().find(|(name, _)| *name == key).map(|(_, row)| row.value))
}

/// One placeholder without its braces.
fn figure(book: &Book, inner: &str) -> Option<String> {
    let (how, key) = inner.split_once(':')?;
    if how == "s" {
        return book.troubles.shared.get(key).map(|text| fill(book, text));
    }
    let value = value(book, key)?;
    let percent = |word: &str| match (value - 10.0).abs() < 1e-9 {
        true => word.to_owned(),
        false => format!("{}\u{a0}%", n(value, 2)),
    };
    Some(match how {
        "n" => n(value, 2),
        "n1" => n(value, 1),
        "d" => format!("{}\u{a0}°C ({}\u{a0}°F)", n(value, 2), n(1.8 * value, 2)),
        "c" => format!("{}\u{a0}°C ({}\u{a0}°F)", n(value, 3), n(1.8 * value + 32.0, 3)),
        "tenth" => percent("a tenth"),
        "Tenth" => percent("A tenth"),
        _ => return None,
    })
}

/// A sentence with its figures. A placeholder that nothing fills stays as it is; the tests look for braces.
pub(crate) fn fill(book: &Book, text: &str) -> String {
    let (mut out, mut rest) = (String::new(), text);
    while let Some((before, tail)) = rest.split_once('{') {
        out.push_str(before);
        match tail.split_once('}') {
            Some((inner, after)) => {
                out.push_str(&figure(book, inner).unwrap_or_else(|| format!("{{{inner}}}")));
                rest = after;
            }
            None => {
                out.push('{');
                rest = tail;
            }
        }
    }
    out + rest
}
