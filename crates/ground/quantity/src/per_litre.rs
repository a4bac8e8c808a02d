//! Units of an amount in a litre of water: mass, moles, equivalents.
//!
//! A litre of fresh water counts as a kilogram, so ppm is mg/L and mg/kg is mg/L (the convention of water analysis;
//! it is off by less than 1 % from 0 to 35 °C).

use crate::lex::Token;

/// What is counted in the litre, with the factor to mg/L, mol/L or eq/L.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Scale {
    Mass(f64),
    Amount(f64),
    Charge(f64),
}

/// A unit found in a text.
pub(crate) struct PerLitre {
    pub scale: Scale,
    /// The substance inside the unit: the N of "mg N/L".
    pub inside: Option<String>,
    /// Index of the token behind the unit.
    pub next: usize,
}

/// The unit that begins at token `at`, if one does.
pub(crate) fn per_litre(tokens: &[Token], at: usize) -> Option<PerLitre> {
    let word = |i: usize| match tokens.get(i) {
        Some(Token::Word(w)) => Some(w.as_str()),
        _ => None,
    };
    let first = word(at)?;
    let alone = match first {
        "mM" => Some(Scale::Amount(1e-3)),
        "uM" => Some(Scale::Amount(1e-6)),
        _ => match first.to_lowercase().as_str() {
            "ppm" => Some(Scale::Mass(1.0)),
            "ppb" => Some(Scale::Mass(1e-3)),
            _ => None,
        },
    };
    if let Some(scale) = alone {
        return Some(PerLitre { scale, inside: None, next: at + 1 });
    }
    let scale = numerator(&first.to_lowercase())?;
    // "mg/L", "mg·L-1", "mg N/L", "mg (N)/L"
    let (mut inside, mut slash) = (None, at + 1);
    loop {
        match tokens.get(slash)? {
            Token::Slash => break,
            Token::Gap => {}
            Token::Word(w) if inside.is_none() => inside = Some(w.clone()),
            _ => return None,
        }
        slash += 1;
    }
    let per = denominator(&word(slash + 1)?.to_lowercase())?;
    let scale = match scale {
        Scale::Mass(f) => Scale::Mass(f * per),
        Scale::Amount(f) => Scale::Amount(f * per),
        Scale::Charge(f) => Scale::Charge(f * per),
    };
    Some(PerLitre { scale, inside, next: slash + 2 })
}

/// To mg, mol, eq.
pub(crate) fn numerator(word: &str) -> Option<Scale> {
    Some(match word {
        "ng" => Scale::Mass(1e-6),
        "ug" | "mcg" => Scale::Mass(1e-3),
        "mg" => Scale::Mass(1.0),
        "g" => Scale::Mass(1e3),
        "kg" => Scale::Mass(1e6),
        "nmol" => Scale::Amount(1e-9),
        "umol" => Scale::Amount(1e-6),
        "mmol" => Scale::Amount(1e-3),
        "mol" => Scale::Amount(1.0),
        "ueq" => Scale::Charge(1e-6),
        "meq" | "mval" => Scale::Charge(1e-3),
        "eq" | "val" => Scale::Charge(1.0),
        _ => return None,
    })
}

/// How many of the volume make a litre.
fn denominator(word: &str) -> Option<f64> {
    Some(match word {
        "l" | "litre" | "litres" | "liter" | "liters" | "dm3" | "kg" => 1.0,
        "ml" | "cm3" => 1e3,
        "m3" => 1e-3,
        _ => return None,
    })
}
