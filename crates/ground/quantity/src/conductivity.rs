//! Electrical conductivity with the temperature to which it was referred.
//!
//! # What
//! A reading in µS/cm, and its counterpart at 25 °C as a range.
//! # Equation
//! κ25 = f κ20, f = 1.116.
//! # Symbols
//! κ20, κ25: conductivity of the same water at 20 and 25 °C, µS/cm.
//! # Range
//! Fresh water. The factor belongs to natural waters of calcium and bicarbonate. Ion by ion it runs from 1.10 to 1.12
//! (McCleskey et al. 2012), for a calcium bicarbonate water by PHREEQC's diffusion coefficients to 1.13; the range from
//! 1.10 to 1.13 is carried.
//! # Source
//! EN 27888 (`en_27888`) for the factor; `mccleskey_2012` and `parkhurst_appelo_2013` for its range.
//! # Checked by
//! `tests/by_hand_conductivity.rs`.

pub use crate::comparator::Comparator;
use crate::lex::{Token, lex, shorten};
use crate::number::{Digits, canonical, format_number};
use crate::span::{amount, number_at};
use crate::units::Units;
use crate::{Explain, Fault, Kind, Known, Why};

/// From 20 to 25 °C: low, value, high. Value: EN 27888 (`en_27888`); ends: `mccleskey_2012`, `parkhurst_appelo_2013`.
pub const FACTOR_25_FROM_20: (f64, f64, f64) = (1.10, 1.116, 1.13);

/// A conductivity as somebody wrote it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct ConductivityReading {
    /// How it stands to the written number.
    pub comparator: Comparator,
    /// Lower end, µS/cm; zero below a bound.
    pub low_us_per_cm: f64,
    /// Value, µS/cm; the middle of a range, half of the bound below one (common practice, no source).
    pub us_per_cm: f64,
    /// Upper end, µS/cm; infinite above a bound.
    pub high_us_per_cm: f64,
    /// The temperature to which it was referred, °C; `None` where the text does not say.
    pub reference_temperature_c: Option<f64>,
    /// The text.
    pub as_written: String,
}

impl ConductivityReading {
    /// The same water at 25 °C, µS/cm. Without a reference temperature it may be either of 20 and 25 °C, and the range
    /// holds both.
    ///
    /// # Errors
    /// A reference temperature other than 20 and 25 °C.
    pub fn at_25(&self) -> Result<Known<f64>, Fault> {
        let (low, value, high) = FACTOR_25_FROM_20;
        let scaled = |l: f64, v: f64, h: f64, kind| {
            let (l, v, h) = (l * self.low_us_per_cm, v * self.us_per_cm, h * self.high_us_per_cm);
            Known::ranged(canonical(l), canonical(v), canonical(h), kind)
        };
        match self.reference_temperature_c {
            Some(25.0) => Ok(scaled(1.0, 1.0, 1.0, Kind::Measured)),
            Some(20.0) => Ok(scaled(low, value, high, Kind::WorkedOut)),
            None => Ok(scaled(1.0, 0.5 * (1.0 + value), high, Kind::Assumed)),
            Some(other) => Err(Fault::new(format!("a conductivity referred to {other} °C cannot be used"))
                .expected("a conductivity referred to 20 or 25 °C")
                .hint("most meters can be set to 25 °C")),
        }
    }

    /// The reading for people: `350 µS/cm at 20 °C`. The reference temperature stays in °C, as meters show it.
    pub fn print(&self, units: &Units) -> String {
        let n = |v| units.number(v, Digits::Significant(4));
        let amount = self.comparator.show((self.low_us_per_cm, self.us_per_cm, self.high_us_per_cm), n);
        let reference = self.reference_temperature_c.map(|t| format!(" at {} °C", n(t)));
        format!("{amount} µS/cm{}", reference.unwrap_or_default())
    }
}

impl Explain for ConductivityReading {
    fn explain(&self) -> Why {
        let n = |v| format_number(v, Digits::Significant(3));
        let (low, factor, high) = FACTOR_25_FROM_20;
        let written = self.print(&Units::default());
        let (sum, words, kind) = match (self.reference_temperature_c, self.at_25()) {
            (Some(20.0), Ok(at_25)) => (
                format!("{written} × {factor} = {} µS/cm at 25 °C", n(at_25.value)),
                format!(
                    "Warm water conducts better: by a factor of {low} to {high} from 20 to 25 °C, as its salts are."
                ),
                Kind::WorkedOut,
            ),
            (None, Ok(at_25)) => (
                format!("{written} = {} to {} µS/cm at 25 °C", n(at_25.low), n(at_25.high)),
                "It is not known whether 20 or 25 °C is meant; the range holds both.".to_owned(),
                Kind::Assumed,
            ),
            _ => (written, "Kept as it was written.".to_owned(), Kind::Measured),
        };
        Why {
            key: "reading-conductivity".to_owned(),
            question: "why this conductivity?".to_owned(),
            sum,
            words,
            sources: vec!["en_27888".to_owned(), "mccleskey_2012".to_owned(), "parkhurst_appelo_2013".to_owned()],
            kind,
        }
    }
}

/// κ25 of a water whose κ20 is known, with its range.
pub fn at_25_from_20(us_per_cm: f64) -> Known<f64> {
    let (low, value, high) = FACTOR_25_FROM_20;
    Known::ranged(low, value, high, Kind::WorkedOut).map(|f| canonical(f * us_per_cm))
}

/// κ20 of a water whose κ25 is known, with its range.
pub fn at_20_from_25(us_per_cm: f64) -> Known<f64> {
    let (low, value, high) = FACTOR_25_FROM_20;
    let part = |f: f64| canonical(us_per_cm / f);
    Known::ranged(part(high), part(value), part(low), Kind::WorkedOut)
}

/// Read a conductivity: `350 µS/cm @20 °C`, `350 uS/cm at 25 C`, `0.35 mS/cm`, `35 mS/m`.
///
/// # Errors
/// No number, no unit or an unknown one, dissolved solids in place of a conductivity, an amount below zero.
pub fn parse_conductivity(text: &str) -> Result<ConductivityReading, Fault> {
    let mut tokens = lex(text)?;
    let reference_temperature_c = take_reference(&mut tokens, text)?;
    let found = amount(&tokens, text)?;
    if found.low < 0.0 {
        return Err(Fault::new(format!("`{}` is below zero", shorten(text)))
            .expected("a conductivity from zero up")
            .hint("drop the minus sign"));
    }
    let unit = unit_factor(&found.words, text)?;
    Ok(ConductivityReading {
        comparator: found.comparator,
        low_us_per_cm: canonical(found.low * unit),
        us_per_cm: canonical(found.value * unit),
        high_us_per_cm: canonical(found.high * unit),
        reference_temperature_c,
        as_written: text.trim().to_owned(),
    })
}

/// Take the reference temperature out of the tokens: "@ 20", "at 25 C", "(20 °C)".
fn take_reference(tokens: &mut Vec<Token>, text: &str) -> Result<Option<f64>, Fault> {
    let is = |t: Option<&Token>, words: &[&str]| matches!(t, Some(Token::Word(w)) if words.contains(&w.to_lowercase().as_str()));
    let leads = |t: Option<&Token>| t == Some(&Token::At) || is(t, &["at", "bei", "à"]);
    let celsius = ["°c", "c", "celsius", "degc"];
    let found = (0..tokens.len()).find(|&i| {
        let lead = i > 0 && leads(tokens.get(i - 1));
        matches!(tokens[i], Token::Number(_)) && (lead || is(tokens.get(i + 1), &celsius))
    });
    let Some(at) = found else { return Ok(None) };
    if is(tokens.get(at + 1), &["°f", "f"]) {
        return Err(Fault::new(format!("`{}` is referred to a temperature in °F", shorten(text)))
            .expected("the reference temperature in °C, such as 350 µS/cm at 25 °C")
            .hint("77 °F is 25 °C, 68 °F is 20 °C"));
    }
    let temperature = number_at(tokens, at)?;
    if !(0.0..=50.0).contains(&temperature) {
        return Err(Fault::new(format!("`{}` is referred to {temperature} °C", shorten(text)))
            .expected("a reference temperature of 0 to 50 °C; usual are 20 and 25")
            .hint("it is printed beside the conductivity; leave it out if it is not known"));
    }
    let end = at + 1 + usize::from(is(tokens.get(at + 1), &celsius));
    let start = at - usize::from(at > 0 && leads(tokens.get(at - 1)));
    tokens.drain(start..end);
    Ok(Some(temperature))
}

/// From the unit among the words to µS/cm.
fn unit_factor(words: &[Token], text: &str) -> Result<f64, Fault> {
    let mut unit: Option<f64> = None;
    let mut at = 0;
    while let Some(token) = words.get(at) {
        at += 1;
        let Token::Word(word) = token else {
            if matches!(token, Token::Slash | Token::At | Token::Dash) {
                return Err(not_understood(text));
            }
            continue;
        };
        let siemens = match word.to_lowercase().as_str() {
            "ec" | "conductivity" | "lf" | "electrical" => continue,
            "ppm" | "tds" | "mg" => return Err(dissolved_solids(text)),
            "us" | "usiemens" | "microsiemens" | "umho" | "umhos" => 1.0,
            "ms" | "mmho" | "mmhos" | "millisiemens" => 1e3,
            "s" | "siemens" => 1e6,
            _ => return Err(not_understood(text)),
        };
        let per = match (words.get(at), words.get(at + 1), words.get(at + 2)) {
            (Some(Token::Slash), Some(Token::Word(length)), _) => (length, 2),
            // "µS·cm-1"
            (Some(Token::Gap), Some(Token::Slash), Some(Token::Word(length))) => (length, 3),
            _ => return Err(not_understood(text)),
        };
        let factor = siemens
            * match per.0.to_lowercase().as_str() {
                "cm" => 1.0,
                "m" => 0.01,
                _ => return Err(not_understood(text)),
            };
        at += per.1;
        if unit.is_some_and(|u| u != factor) {
            return Err(Fault::new(format!("`{}` has two units", shorten(text)))
                .expected("one unit, such as µS/cm")
                .hint("leave one of the two out"));
        }
        unit = Some(factor);
    }
    unit.ok_or_else(|| not_understood(text))
}

fn dissolved_solids(text: &str) -> Fault {
    Fault::new(format!("`{}` is an amount of dissolved solids, not a conductivity", shorten(text)))
        .expected("a conductivity, such as 350 µS/cm at 25 °C")
        .hint("a meter works ppm out of the conductivity by a factor of its own; switch its display to µS/cm")
}

fn not_understood(text: &str) -> Fault {
    Fault::new(format!("`{}` is not understood as a conductivity", shorten(text)))
        .expected("a conductivity, such as 350 µS/cm at 20 °C, 0.35 mS/cm or 35 mS/m")
        .hint("put the whole unit behind the number")
}
