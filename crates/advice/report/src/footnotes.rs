//! Footnotes: "mg/l 1)" and, below, "1) Höchstwert 40 mg/l".

use std::collections::BTreeMap;

use crate::Unit;
use crate::cell::{Decimal, numbers};
use crate::fold::tidy;
use crate::grid::{Cell, Grid, Row};
use crate::reading::Limit;
use crate::roles::pieces;
use crate::unit_find;
use crate::values::limit;

/// What the footnotes of a report say, by their mark.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Footnotes(BTreeMap<String, String>);

/// Footnotes kept; a longer list is none.
const MOST: usize = 60;
/// Letters of the shortest footnotes: "at 25 °C", "as N".
const SHORTEST: usize = 3;
/// A longer text, in characters, is no footnote.
const LONGEST: usize = 300;

impl Footnotes {
    /// Those of a report: lines that begin with a mark.
    pub fn of(grids: &[Grid]) -> Footnotes {
        let mut out = BTreeMap::new();
        for row in grids.iter().flat_map(|g| &g.rows) {
            if out.len() >= MOST {
                break;
            }
            let text = said(row);
            if text.chars().count() > LONGEST {
                continue;
            }
            let marks = marks(&text);
            for (i, (mark, _, end)) in marks.iter().enumerate() {
                let until = marks.get(i + 1).map_or(text.len(), |m| m.1);
                let note = text.get(*end..until).unwrap_or("").trim_matches([' ', ':', '=', ',', ';']);
                if note.chars().filter(|c| c.is_alphabetic()).count() >= SHORTEST {
                    out.entry(mark.clone()).or_insert_with(|| note.to_owned());
                }
            }
        }
        Footnotes(out)
    }

    /// What the footnotes to these texts say.
    pub fn to(&self, texts: &[&str]) -> Vec<&str> {
        if self.0.is_empty() {
            return Vec::new();
        }
        let marks = texts.iter().flat_map(|t| marks(t));
        let mut said: Vec<&str> = marks.filter_map(|(mark, ..)| self.0.get(&mark)).map(String::as_str).collect();
        said.dedup();
        said
    }
}

/// The cells of a row from the first one that begins with a mark.
fn said(row: &Row) -> String {
    let sign = |c: char| matches!(c, ')' | ']' | '*' | '†' | '‡') || raised(c).is_some();
    let begins = |c: &Cell| c.text.chars().take(6).any(sign) && first(c.text.trim()).is_some();
    let cells = row.cells.iter().filter(|c| !c.spread).skip_while(|c| !begins(c));
    cells.map(|c| c.text.trim()).filter(|t| !t.is_empty()).collect::<Vec<_>>().join("  ")
}

/// What a footnote says is allowed.
pub(crate) fn allowed(note: &str) -> Option<Limit> {
    let tidied = tidy(note);
    let (chars, numbers): (Vec<char>, _) = (tidied.chars().collect(), numbers(&tidied, Decimal::Unknown));
    limit(&pieces(&chars, &numbers))
}

/// What a footnote says of how a value is counted: not where it speaks of numbers, other than of a temperature.
pub(crate) fn basis(note: &str) -> &str {
    let celsius = unit_find::find(note).is_some_and(|f| f.unit == Unit::Celsius);
    if celsius || numbers(&tidy(note), Decimal::Unknown).is_empty() { note } else { "" }
}

/// The first mark, if the text begins with it.
fn first(text: &str) -> Option<String> {
    marks(text).into_iter().next().filter(|(_, at, _)| *at == 0).map(|(mark, ..)| mark)
}

/// The marks of a text, with where each begins and ends, in bytes: "1)", "¹⁾", "(1)", "[1]", "a)", "**", "†".
fn marks(text: &str) -> Vec<(String, usize, usize)> {
    let chars: Vec<(usize, char)> = text.char_indices().collect();
    let at = |i: usize| chars.get(i).map(|(_, c)| *c);
    let byte = |i: usize| chars.get(i).map_or(text.len(), |(b, _)| *b);
    let mut out = Vec::new();
    let mut i = 0;
    while let Some(c) = at(i) {
        let before = i.checked_sub(1).and_then(at);
        let start = i;
        let run = |from: usize, is: &dyn Fn(char) -> bool| (from..).take_while(|&j| at(j).is_some_and(is)).count();
        let found = match c {
            '*' | '†' | '‡' => {
                let n = run(i, &|d| d == c);
                Some((c.to_string().repeat(n), i + n))
            }
            _ if raised(c).is_some() && !matches!(before, Some('m' | '⁻' | '⁺')) => {
                let n = run(i, &|d| raised(d).is_some());
                let mark: String = (i..i + n).filter_map(at).filter_map(raised).collect();
                let charge = matches!(at(i + n), Some('⁻' | '⁺' | '-' | '+'));
                let bracket = usize::from(matches!(at(i + n), Some('⁾' | ')')));
                (!charge && n <= 2).then_some((mark, i + n + bracket))
            }
            _ if (c.is_ascii_digit() || c.is_ascii_lowercase())
                && !before.is_some_and(|b| b.is_ascii_digit() || b == '.' || b == ',') =>
            {
                let n = if c.is_ascii_digit() { run(i, &|d| d.is_ascii_digit()) } else { 1 };
                let free = c.is_ascii_digit() || before.is_none_or(|b| b == ' ' || b == '(');
                let mark: String = (i..i + n).filter_map(at).collect();
                let closed = matches!(at(i + n), Some(')' | ']'));
                (closed && n <= 2 && free).then_some((mark, i + n + 1))
            }
            _ => None,
        };
        i += 1;
        if let Some((mark, end)) = found {
            let open = usize::from(matches!(before, Some('(' | '[')));
            out.push((mark, byte(start - open), byte(end)));
            i = end;
        }
    }
    out
}

/// The digit that is raised.
fn raised(c: char) -> Option<char> {
    Some(match c {
        '¹' => '1',
        '²' => '2',
        '³' => '3',
        '⁴'..='⁹' => char::from_digit(c as u32 - 0x2070, 10)?,
        'ᵃ' => 'a',
        'ᵇ' => 'b',
        'ᶜ' => 'c',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_of_many_kinds() {
        let of = |text: &str| marks(text).into_iter().map(|(mark, ..)| mark).collect::<Vec<_>>();
        assert_eq!(of("Nitrat in mg/l 1)"), ["1"]);
        assert_eq!(of("mg/l¹⁾"), ["1"]);
        assert_eq!(of("6.1 mg/l *"), ["*"]);
        assert_eq!(of("* a ** b"), ["*", "**"]);
        assert_eq!(of("NO₃⁻ in g/m³, Ca²⁺"), Vec::<String>::new());
        assert_eq!(of("Chloride (a)"), ["a"]);
    }
}
