//! What all plain amounts share: arithmetic, and "a number, then a unit".

use crate::Fault;
use crate::lex::{Token, lex, shorten};
use crate::number::parse_number;

/// Add, subtract, scale and compare: for amounts that start at nothing.
macro_rules! arithmetic {
    ($name:ident) => {
        impl std::ops::Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }
        impl std::ops::Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }
        impl std::ops::Mul<f64> for $name {
            type Output = $name;
            fn mul(self, factor: f64) -> $name {
                $name(self.0 * factor)
            }
        }
        impl std::ops::Div<f64> for $name {
            type Output = $name;
            fn div(self, divisor: f64) -> $name {
                $name(self.0 / divisor)
            }
        }
        impl std::ops::Div for $name {
            type Output = f64;
            fn div(self, other: $name) -> f64 {
                self.0 / other.0
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = $name>>(all: I) -> $name {
                $name(all.map(|a| a.0).sum())
            }
        }
    };
}
pub(crate) use arithmetic;

/// A named constructor and a getter for each unit: `litres(64.5)`, `.as_litres()`.
macro_rules! in_units {
    ($name:ident: $($make:ident, $get:ident, $factor:expr, $doc:literal;)*) => {
        impl $name {
            $(
                #[doc = concat!("From ", $doc, ".")]
                pub const fn $make(amount: f64) -> $name {
                    $name(amount * $factor)
                }
                #[doc = concat!("In ", $doc, ".")]
                pub const fn $get(self) -> f64 {
                    self.0 / $factor
                }
            )*
        }
    };
}
pub(crate) use in_units;

/// Split "64.5 US gal" into 64.5 and "usgal" (lower case, without spaces; empty if no unit is written).
pub(crate) fn number_and_unit(text: &str, what: &str, example: &str) -> Result<(f64, String), Fault> {
    let wrong = || {
        Fault::new(format!("`{}` is not understood as {what}", shorten(text)))
            .expected(format!("{what}, such as {example}"))
            .hint("one number, then its unit")
    };
    let tokens = lex(text)?;
    let Some((Token::Number(raw), rest)) = tokens.split_first() else { return Err(wrong()) };
    let value = parse_number(raw)?;
    let mut unit = String::new();
    for token in rest {
        match token {
            Token::Word(word) => unit.push_str(&word.to_lowercase()),
            _ => return Err(wrong()),
        }
    }
    Ok((value, unit))
}

/// The fault of an unknown or a missing unit.
pub(crate) fn no_such_unit(text: &str, what: &str, unit: &str, units: &str) -> Fault {
    let said = if unit.is_empty() { "has no unit" } else { "has a unit that is not known here" };
    Fault::new(format!("`{}` {said}", shorten(text)))
        .expected(format!("{what} in {units}"))
        .hint("put the unit behind the number")
}
