//! How a hardness or an alkalinity is written: number, unit, and the names of the two measures.

use super::{HardnessReading, HardnessUnit, Measure, word_of};
use crate::Fault;
use crate::lex::{Token, lex, shorten};
use crate::number::{Digits, format_number};
use crate::per_litre::{Scale, per_litre};
use crate::span::amount;

/// Read a total hardness: `7,2 °dH`, `GH 7`, `120 mg/L CaCO3`, `1.2 mmol/L`.
///
/// # Errors
/// No number or no unit, mg/L or ppm without CaCO3, an unknown word, an amount below zero, or a unit of alkalinity.
pub fn parse_hardness(text: &str) -> Result<HardnessReading, Fault> {
    parse(text, Measure::Hardness)
}

/// Read an alkalinity: `3 dKH`, `KH 3`, `2,4 mmol/L`, `146 mg/L HCO3`, `120 mg/L CaCO3`. It may be negative.
///
/// # Errors
/// As [`parse_hardness`], with the two measures exchanged.
pub fn parse_alkalinity(text: &str) -> Result<HardnessReading, Fault> {
    parse(text, Measure::Alkalinity)
}

fn parse(text: &str, measure: Measure) -> Result<HardnessReading, Fault> {
    let tokens = lex(&without_end_point(text))?;
    let found = amount(&tokens, text)?;
    if measure == Measure::Hardness && found.low < 0.0 {
        return Err(Fault::new(format!("`{}` is below zero", shorten(text)))
            .expected("a hardness from zero up")
            .hint("drop the minus sign"));
    }
    let words = Words::read(&found.words, measure, text, found.written())?;
    let unit = words.unit.or(words.named).ok_or_else(|| unit_question(text, measure, found.written(), &[]))?;
    let meq = |amount: f64| unit.to_meq_per_l(amount * words.factor, measure);
    Ok(HardnessReading {
        measure,
        comparator: found.comparator,
        low_meq_per_l: meq(found.low),
        meq_per_l: meq(found.value),
        high_meq_per_l: meq(found.high),
        unit,
        as_written: text.trim().to_owned(),
    })
}

/// The end point of the titration in a name ("KS4.3") is no amount.
fn without_end_point(text: &str) -> String {
    let lower = text.to_lowercase();
    let start = ["ks4.3", "ks4,3", "ks 4.3", "ks 4,3"].into_iter().find_map(|n| lower.find(n).map(|i| (i, n.len())));
    match start {
        // Only where lower case left the bytes in their places.
        Some((i, n)) if text.is_char_boundary(i) && text.is_char_boundary(i + n) && lower.len() == text.len() => {
            format!("{}{}", &text[..i], &text[i + n..])
        }
        _ => text.to_owned(),
    }
}

/// What the words around the number say.
struct Words {
    unit: Option<HardnessUnit>,
    /// Degrees, from a bare "GH" or "KH".
    named: Option<HardnessUnit>,
    /// From the written number to the unit.
    factor: f64,
}

impl Words {
    fn read(tokens: &[Token], measure: Measure, text: &str, value: f64) -> Result<Words, Fault> {
        let mut words = Words { unit: None, named: None, factor: 1.0 };
        let (mut scale, mut formula) = (None, None);
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            if let Some(unit) = per_litre(tokens, at) {
                if scale.is_some_and(|s| s != unit.scale) {
                    return Err(two_units(text));
                }
                scale = Some(unit.scale);
                formula = unit.inside.or(formula);
                at = unit.next;
                continue;
            }
            at += 1;
            let Token::Word(word) = token else {
                if matches!(token, Token::Slash | Token::At | Token::Dash) {
                    return Err(not_understood(text, measure));
                }
                continue;
            };
            if let Some(named) = names(word) {
                if named.is_some_and(|m| m != measure) {
                    return Err(other_measure(text, measure));
                }
                if let Some(unit) = degree(word) {
                    words.named = Some(unit);
                }
            } else if let Some(unit) = degree(word) {
                if words.unit.is_some_and(|u| u != unit) {
                    return Err(two_units(text));
                }
                words.unit = Some(unit);
                if unit == HardnessUnit::Grains && tokens.get(at) == Some(&Token::Slash) {
                    let imperial =
                        matches!(tokens.get(at + 1), Some(Token::Word(w)) if w.to_lowercase().starts_with("imp"));
                    words.unit = Some(if imperial { HardnessUnit::English } else { HardnessUnit::Grains });
                    at += 2;
                }
            } else if formula_unit(word).is_some() {
                formula = Some(word.clone());
            } else {
                return Err(not_understood(text, measure));
            }
        }
        words.settle(scale, formula.as_deref(), measure, text, value)
    }

    /// Unit from scale and formula.
    fn settle(
        mut self,
        scale: Option<Scale>,
        formula: Option<&str>,
        measure: Measure,
        text: &str,
        value: f64,
    ) -> Result<Words, Fault> {
        let by = match formula {
            Some(f) => Some(formula_unit(f).ok_or_else(|| not_understood(text, measure))?),
            None => None,
        };
        if by == Some(HardnessUnit::Bicarbonate) && measure == Measure::Hardness {
            return Err(other_measure(text, measure));
        }
        let unit = match scale {
            None => {
                return if by.is_some() && self.unit.is_none() { Err(not_understood(text, measure)) } else { Ok(self) };
            }
            Some(_) if self.unit.is_some() => return Err(two_units(text)),
            Some(Scale::Charge(eq)) => {
                self.factor = 1e3 * eq;
                HardnessUnit::Meq
            }
            Some(Scale::Amount(mol)) => {
                let twice = measure == Measure::Alkalinity && by.is_some_and(|u| u != HardnessUnit::Bicarbonate);
                self.factor = 1e3 * mol * if twice { 2.0 } else { 1.0 };
                HardnessUnit::Mmol
            }
            Some(Scale::Mass(mg)) => {
                self.factor = mg;
                let options: &[HardnessUnit] = match measure {
                    Measure::Hardness => &[HardnessUnit::Caco3, HardnessUnit::Cao],
                    Measure::Alkalinity => &[HardnessUnit::Caco3, HardnessUnit::Bicarbonate],
                };
                by.ok_or_else(|| unit_question(text, measure, value * mg, options))?
            }
        };
        self.unit = Some(unit);
        Ok(self)
    }
}

/// A degree that may count one ion's share of a hardness: "°dH", not "GH" or "°dKH", which name a whole measure.
pub(crate) fn plain_degree(word: &str) -> Option<HardnessUnit> {
    degree(word).filter(|_| word.chars().count() > 1 && names(word).is_none())
}

/// The degree that a word names.
fn degree(word: &str) -> Option<HardnessUnit> {
    Some(match word.to_lowercase().trim_start_matches('°') {
        "dh" | "d" | "dgh" | "gh" | "dkh" | "kh" | "german" => HardnessUnit::German,
        "fh" | "f" | "th" | "tac" | "french" => HardnessUnit::French,
        "e" | "eh" | "clark" | "english" => HardnessUnit::English,
        "gpg" | "grain" | "grains" | "gr" => HardnessUnit::Grains,
        _ => return None,
    })
}

/// Words that name a measure (`Some(Some(_))`) or nothing at all (`Some(None)`).
fn names(word: &str) -> Option<Option<Measure>> {
    match word.to_lowercase().trim_start_matches('°') {
        "gh" | "dgh" | "th" => Some(Some(Measure::Hardness)),
        "kh" | "dkh" | "tac" | "alkalinity" | "acid" | "capacity" | "alk" => Some(Some(Measure::Alkalinity)),
        "hardness" | "total" | "general" | "carbonate" | "of" | "as" | "degree" | "degrees" | "°" | "" | "gallon"
        | "gal" => Some(None),
        _ => None,
    }
}

fn formula_unit(word: &str) -> Option<HardnessUnit> {
    match word.to_lowercase().as_str() {
        "caco3" => Some(HardnessUnit::Caco3),
        "cao" => Some(HardnessUnit::Cao),
        "hco3" | "bicarbonate" => Some(HardnessUnit::Bicarbonate),
        _ => None,
    }
}

/// The question where no unit, or only mg/L, was written: what each would mean. `options` empty: any unit.
fn unit_question(text: &str, measure: Measure, value: f64, options: &[HardnessUnit]) -> Fault {
    let all = [HardnessUnit::German, HardnessUnit::Caco3, HardnessUnit::Mmol, HardnessUnit::French];
    let shown = if options.is_empty() { &all[..] } else { options };
    let n = |v| format_number(v, Digits::Significant(3));
    let meant: Vec<String> = shown
        .iter()
        .map(|u| format!("{} {} = {} meq/L", n(value), u.name(measure), n(value * u.meq_per_unit(measure))))
        .collect();
    let example = shown.first().copied().unwrap_or_default().name(measure);
    Fault::new(format!("`{}` does not say in what the {} is counted", shorten(text), word_of(measure)))
        .expected(format!("a unit: {}", meant.join("; ")))
        .hint(format!("write {} {example} if that is what the kit or the report means", n(value)))
}

fn other_measure(text: &str, measure: Measure) -> Fault {
    let (asked, example) = match measure {
        Measure::Hardness => ("a hardness (calcium and magnesium)", "7 °dH or 120 mg/L CaCO3"),
        Measure::Alkalinity => ("an alkalinity (carbonate hardness)", "3 °dKH or 1.1 meq/L"),
    };
    Fault::new(format!("`{}` is not the {} that is asked for", shorten(text), word_of(measure)))
        .expected(format!("{asked}, such as {example}"))
        .hint("hardness and alkalinity are two things, though both are counted in degrees")
}

fn two_units(text: &str) -> Fault {
    Fault::new(format!("`{}` has two units", shorten(text)))
        .expected("one unit, such as 7 °dH")
        .hint("leave one of the two out")
}

fn not_understood(text: &str, measure: Measure) -> Fault {
    let (example, hint) = match measure {
        Measure::Hardness => (
            "7 °dH, 120 mg/L CaCO3, 1.2 mmol/L or 2.4 meq/L",
            "calcium alone in mg/L is no hardness: it goes into the field of calcium",
        ),
        Measure::Alkalinity => ("3 °dKH, 50 mg/L CaCO3, 65 mg/L HCO3 or 1.1 meq/L", "a number with one of these units"),
    };
    Fault::new(format!("`{}` is not understood as {}", shorten(text), word_of(measure))).expected(example).hint(hint)
}
