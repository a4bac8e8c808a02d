//! A blank: a number in a sentence that is changed where it stands.
//!
//! Each page lists the blanks that it knows ([`crate::routes::Page`]); one list serves what is shown and what a form
//! is compared with, so that both can never differ.

use std::collections::BTreeMap;

use quantity::{Kind, Known, Units};

use crate::words::{capital, unit_in_words};

/// One blank, as a revision shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// The field of the setup that it writes, for instance `habits.change`.
    pub field: String,
    /// What stands on the line.
    pub shown: String,
    /// Put behind a bare number when the field is written; empty where the field takes a bare text.
    pub unit: String,
    /// What it is, with its unit in words, for a screen reader: "Nitrate in the tap, milligrams per litre".
    pub says: String,
    /// How well it is known: the line under it.
    pub kind: Kind,
    /// Texts to choose among, each with the words shown; empty for a blank that is typed into.
    pub choices: Vec<(String, String)>,
}

impl Blank {
    /// A number of the setup in the keeper's units; `None`: the setup has no such field.
    pub fn of(field: &str, known: Known<f64>, units: &Units) -> Option<Blank> {
        Some(Blank::of_field(field, setup::field_of(field)?, known, units))
    }

    /// A number of a field that is known already.
    pub fn of_field(field: &str, table: &setup::Field, known: Known<f64>, units: &Units) -> Blank {
        let text = table.show(known.value, units);
        let (shown, unit) = text.split_once(' ').unwrap_or((&text, ""));
        let words = unit_in_words(unit);
        let says = if words.is_empty() { capital(&table.label) } else { format!("{}, {words}", capital(&table.label)) };
        Blank::number(field, shown.to_owned(), unit, &says, known.kind)
    }

    /// A blank that is typed into.
    pub fn number(field: &str, shown: String, unit: &str, says: &str, kind: Kind) -> Blank {
        Blank {
            field: field.to_owned(),
            shown,
            unit: unit.to_owned(),
            says: says.to_owned(),
            kind,
            choices: Vec::new(),
        }
    }

    /// A choice among few texts.
    pub fn choice(field: &str, shown: &str, says: &str, kind: Kind, choices: &[(&str, &str)]) -> Blank {
        let choices = choices.iter().map(|(text, words)| ((*text).to_owned(), (*words).to_owned())).collect();
        Blank { choices, ..Blank::number(field, shown.to_owned(), "", says, kind) }
    }

    /// The class that draws the line: solid, dashed, dotted.
    pub fn line(&self) -> &'static str {
        match self.kind {
            Kind::Measured | Kind::WorkedOut => "measured",
            Kind::CommonPractice => "practice",
            Kind::Assumed => "assumed",
        }
    }

    /// What is written into the field when `typed` stands on the line: a bare number, a range or a "less than" gets the unit
    /// that the sentence names, and the unit alone its basis ("20 mg/L" where "mg/L NO3" is asked); whoever types another is
    /// taken by their word.
    pub fn text(&self, typed: &str) -> String {
        let typed = typed.trim();
        if self.unit.is_empty() || typed.is_empty() {
            return typed.to_owned();
        }
        if is_bare(typed) {
            return format!("{typed} {}", self.unit);
        }
        let basis = self.unit.split_once(' ').and_then(|(unit, basis)| {
            let number = typed.get(..typed.len().checked_sub(unit.len())?)?;
            let named = typed.get(number.len()..)?.eq_ignore_ascii_case(unit);
            (named && is_bare(number.trim())).then_some(basis)
        });
        basis.map_or_else(|| typed.to_owned(), |basis| format!("{typed} {basis}"))
    }
}

/// Numbers and nothing else: "12,5", "2e1", "<1", "12-15", "12 to 15".
fn is_bare(typed: &str) -> bool {
    let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit() || "+-.,'–\u{a0}\u{202f}".contains(c));
    let number = |word: &str| {
        let word = word.trim_start_matches(['<', '>', '~', '≈', '≤', '≥', '±']);
        let ends = |text: &str| text.ends_with(|c: char| c.is_ascii_digit());
        word.split_once(['e', 'E'])
            .map_or_else(|| digits(word), |(most, power)| digits(most) && digits(power) && ends(most) && ends(power))
    };
    typed.contains(|c: char| c.is_ascii_digit()) && typed.split(' ').all(|word| word == "to" || number(word))
}

/// All blanks that a revision shows, by field.
pub type Blanks = BTreeMap<String, Blank>;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bare_number_gets_the_unit_of_its_sentence_and_nothing_else_does() {
        let blank = Blank::number("tap.nitrate", "14".into(), "mg/L NO3", "Nitrate", Kind::Measured);
        assert_eq!(blank.text(" 12,5 "), "12,5 mg/L NO3");
        assert_eq!(blank.text("-3"), "-3 mg/L NO3");
        assert_eq!(blank.text("3 mg/L N"), "3 mg/L N");
        assert_eq!(blank.text("a lot"), "a lot");
        assert_eq!(blank.text(""), "");
        for typed in ["20", "12-15", "12 to 15", "<1", "< 1", "2e1", "2E-1", "1 200"] {
            assert_eq!(blank.text(typed), format!("{typed} mg/L NO3"));
            assert_eq!(blank.text(&format!("{typed} mg/L")), format!("{typed} mg/L NO3"), "the unit alone");
        }
        assert_eq!(blank.text("20 mg/l"), "20 mg/l NO3");
        for own in ["20 mg/L N", "20 mg/L as N", "5e", "20 mmol/L", "e3", "to", "20 ppm"] {
            assert_eq!(blank.text(own), own);
        }
    }
}
