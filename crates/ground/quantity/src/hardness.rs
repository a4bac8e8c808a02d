//! Hardness (calcium and magnesium) and alkalinity (acid capacity to pH about 4.3) in every unit of the trade.
//!
//! # What
//! One canonical number, meq/L. Hardness in meq/L is twice the millimoles of calcium and magnesium; alkalinity in
//! mmol/L is the acid taken up, so mmol/L and meq/L are the same there (DIN 38409-7, source key `din_38409_7`).
//! # Equation
//! meq/L = amount × [`HardnessUnit::meq_per_unit`], kept to 12 figures: the same water, exactly converted and typed in
//! two units, gives the same number.
//! # Symbols
//! 1 °dH = 10 mg CaO/L; 1 °fH = 10 mg CaCO3/L; 1 °e = 1 grain CaCO3 in an imperial gallon; 1 gpg = 1 grain CaCO3 in a US
//! gallon. Molar masses of [`crate::basis::molar_mass`], g/mol.
//! # Range
//! Any finite amount. Alkalinity may be negative (acid rain), hardness not.
//! # Source
//! DIN 38409-6 (`din_38409_6`); grain and US gallon `nist_hb44`; imperial gallon `uk_units_1995`; weights `iupac_2022`.
//! # Checked by
//! `tests/by_hand_hardness.rs` (definitions, Standard Methods 2320 B and 2340 B), `tests/identities.rs`.

use crate::basis::molar_mass::{CACO3, CAO, HCO3};
pub use crate::comparator::Comparator;
use crate::lex::{Token, amount, lex, shorten};
use crate::number::{Digits, canonical, format_number, read_back};
use crate::per_litre::{Scale, per_litre};
use crate::units::Units;
use crate::{Explain, Fault, Kind, Why};

/// 1 grain, mg (exact; source key `nist_hb44`).
pub const GRAIN_MG: f64 = 64.79891;
/// 1 US gallon, L (exact; source key `nist_hb44`).
pub const US_GALLON_L: f64 = 3.785411784;
/// 1 imperial gallon, L (exact; source key `uk_units_1995`).
pub const IMPERIAL_GALLON_L: f64 = 4.54609;

/// Which of the two is meant. They share their units and are not the same thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Measure {
    /// Calcium and magnesium together (total hardness, GH).
    Hardness,
    /// Acid taken up (carbonate hardness, KH).
    Alkalinity,
}

/// A unit of hardness or alkalinity.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum HardnessUnit {
    /// °dH; for alkalinity °dKH
    #[default]
    German,
    /// °fH
    French,
    /// °e, Clark
    English,
    /// mg/L as CaCO3
    Caco3,
    /// mmol/L
    Mmol,
    /// meq/L
    Meq,
    /// grains of CaCO3 per US gallon
    Grains,
    /// mg/L CaO
    Cao,
    /// mg/L HCO3; for alkalinity only
    Bicarbonate,
}

impl HardnessUnit {
    /// meq/L in one of the unit. [`HardnessUnit::Bicarbonate`] does not exist for hardness and counts as mg/L CaCO3 there.
    pub fn meq_per_unit(self, measure: Measure) -> f64 {
        match (self, measure) {
            (HardnessUnit::German, _) => 2.0 * 10.0 / CAO,
            (HardnessUnit::French, _) => 2.0 * 10.0 / CACO3,
            (HardnessUnit::English, _) => 2.0 * GRAIN_MG / IMPERIAL_GALLON_L / CACO3,
            (HardnessUnit::Grains, _) => 2.0 * GRAIN_MG / US_GALLON_L / CACO3,
            (HardnessUnit::Cao, _) => 2.0 / CAO,
            (HardnessUnit::Bicarbonate, Measure::Alkalinity) => 1.0 / HCO3,
            (HardnessUnit::Caco3, _) | (HardnessUnit::Bicarbonate, Measure::Hardness) => 2.0 / CACO3,
            (HardnessUnit::Mmol, Measure::Hardness) => 2.0,
            (HardnessUnit::Mmol, Measure::Alkalinity) | (HardnessUnit::Meq, _) => 1.0,
        }
    }

    /// The unit as printed.
    pub fn name(self, measure: Measure) -> &'static str {
        match (self, measure) {
            (HardnessUnit::German, Measure::Hardness) => "°dH",
            (HardnessUnit::German, Measure::Alkalinity) => "°dKH",
            (HardnessUnit::French, _) => "°fH",
            (HardnessUnit::English, _) => "°e",
            (HardnessUnit::Grains, _) => "gpg",
            (HardnessUnit::Cao, _) => "mg/L CaO",
            (HardnessUnit::Bicarbonate, Measure::Alkalinity) => "mg/L HCO3",
            (HardnessUnit::Caco3, _) | (HardnessUnit::Bicarbonate, Measure::Hardness) => "mg/L CaCO3",
            (HardnessUnit::Mmol, _) => "mmol/L",
            (HardnessUnit::Meq, _) => "meq/L",
        }
    }

    /// An amount of the unit in meq/L, kept to 12 figures.
    pub fn to_meq_per_l(self, amount: f64, measure: Measure) -> f64 {
        canonical(amount * self.meq_per_unit(measure))
    }

    /// meq/L as an amount of the unit, to 10 figures.
    pub fn from_meq_per_l(self, meq_per_l: f64, measure: Measure) -> f64 {
        read_back(meq_per_l / self.meq_per_unit(measure))
    }
}

/// A hardness or an alkalinity as somebody wrote it, in meq/L kept to 12 figures.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct HardnessReading {
    /// Which of the two.
    pub measure: Measure,
    /// How it stands to the written number.
    pub comparator: Comparator,
    /// Lower end: of a range, zero below a bound, else the value.
    pub low_meq_per_l: f64,
    /// The value; the middle of a range, half of the bound below one (common practice, no source).
    pub meq_per_l: f64,
    /// Upper end: of a range, infinite above a bound, else the value.
    pub high_meq_per_l: f64,
    /// The unit in which it was written.
    pub unit: HardnessUnit,
    /// The text.
    pub as_written: String,
}

impl HardnessReading {
    /// The reading in the keeper's unit, three figures: `7.2 °dH`, `<0.5 °dKH`.
    pub fn print(&self, units: &Units) -> String {
        self.show(units.hardness, units)
    }

    fn show(&self, unit: HardnessUnit, units: &Units) -> String {
        let n = |meq| units.number(meq / unit.meq_per_unit(self.measure), Digits::Significant(3));
        let ends = (self.low_meq_per_l, self.meq_per_l, self.high_meq_per_l);
        format!("{} {}", self.comparator.show(ends, n), unit.name(self.measure))
    }
}

impl Explain for HardnessReading {
    fn explain(&self) -> Why {
        let units = Units::default();
        let factor = format_number(self.unit.meq_per_unit(self.measure), Digits::Significant(5));
        let to = self.show(HardnessUnit::Meq, &units);
        let (grain, caco3) = ("a grain is 64.79891 mg", "100.086 mg of CaCO3 are 2 meq");
        let words = match self.unit {
            HardnessUnit::German => {
                "One German degree is 10 mg of CaO in a litre, and 56.077 mg of CaO are 2 meq.".to_owned()
            }
            HardnessUnit::French => format!("One French degree is 10 mg of CaCO3 in a litre, and {caco3}."),
            HardnessUnit::English => {
                format!("One English degree is a grain of CaCO3 in 4.54609 L; {grain}, and {caco3}.")
            }
            HardnessUnit::Grains => format!("The US gallon is 3.785411784 L; {grain}, and {caco3}."),
            HardnessUnit::Caco3 => format!("Counted as CaCO3: {caco3}."),
            HardnessUnit::Cao => "Counted as CaO: 56.077 mg are 2 meq.".to_owned(),
            HardnessUnit::Bicarbonate => "Counted as bicarbonate: 61.016 mg of HCO3 are 1 meq.".to_owned(),
            HardnessUnit::Mmol if self.measure == Measure::Hardness => {
                "One millimole of calcium or magnesium has two charges: 2 meq.".to_owned()
            }
            HardnessUnit::Mmol => "One millimole of acid taken up is 1 meq.".to_owned(),
            HardnessUnit::Meq => "Kept as it was written.".to_owned(),
        };
        let sources: &[&str] = match self.unit {
            HardnessUnit::German => &["din_38409_6", "iupac_2022"],
            HardnessUnit::English => &["nist_hb44", "uk_units_1995", "iupac_2022"],
            HardnessUnit::Grains => &["nist_hb44", "iupac_2022"],
            HardnessUnit::Mmol | HardnessUnit::Meq if self.measure == Measure::Alkalinity => &["din_38409_7"],
            HardnessUnit::Mmol | HardnessUnit::Meq => &["din_38409_6"],
            _ => &["iupac_2022"],
        };
        Why {
            key: format!("reading-{}", word_of(self.measure)),
            question: format!("why {to}?"),
            sum: format!("{} × {factor} = {to}", self.show(self.unit, &units)),
            words,
            sources: sources.iter().map(|&s| s.to_owned()).collect(),
            kind: Kind::WorkedOut,
        }
    }
}

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

/// Hardness in meq/L from mol/L of calcium and magnesium.
pub fn hardness_meq_per_l(calcium_mol_per_l: f64, magnesium_mol_per_l: f64) -> f64 {
    canonical(2e3 * (calcium_mol_per_l + magnesium_mol_per_l))
}

/// Hardness or alkalinity in the keeper's unit, three figures: `7.2 °dH`, `3 °dKH`.
pub fn format_hardness(meq_per_l: f64, measure: Measure, units: &Units) -> String {
    let amount = meq_per_l / units.hardness.meq_per_unit(measure);
    format!("{} {}", units.number(amount, Digits::Significant(3)), units.hardness.name(measure))
}

fn parse(text: &str, measure: Measure) -> Result<HardnessReading, Fault> {
    let tokens = lex(&without_end_point(text))?;
    let found = amount(&tokens, text)?;
    if measure == Measure::Hardness && found.low < 0.0 {
        return Err(Fault::new(format!("`{}` is below zero", shorten(text))).expected("a hardness from zero up"));
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

/// The degree that a word names.
pub(crate) fn degree(word: &str) -> Option<HardnessUnit> {
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

fn word_of(measure: Measure) -> &'static str {
    match measure {
        Measure::Hardness => "hardness",
        Measure::Alkalinity => "alkalinity",
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
        Measure::Hardness => ("hardness (calcium and magnesium)", "7 °dH or 120 mg/L CaCO3"),
        Measure::Alkalinity => ("alkalinity (carbonate hardness)", "3 °dKH or 1.1 meq/L"),
    };
    Fault::new(format!("`{}` is not the {} that is asked for", shorten(text), word_of(measure)))
        .expected(format!("a {asked}, such as {example}"))
        .hint("hardness and alkalinity are two things, though both are counted in degrees")
}

fn two_units(text: &str) -> Fault {
    Fault::new(format!("`{}` has two units", shorten(text))).expected("one unit, such as 7 °dH")
}

fn not_understood(text: &str, measure: Measure) -> Fault {
    let example = match measure {
        Measure::Hardness => "7 °dH, 120 mg/L CaCO3, 1.2 mmol/L or 2.4 meq/L",
        Measure::Alkalinity => "3 °dKH, 50 mg/L CaCO3, 65 mg/L HCO3 or 1.1 meq/L",
    };
    Fault::new(format!("`{}` is not understood as {}", shorten(text), word_of(measure))).expected(example)
}
