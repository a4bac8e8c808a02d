//! The number, the range or the bound in a cut text, apart from the words around it.

use crate::Fault;
use crate::comparator::Comparator;
use crate::lex::{Token, is_range_word, shorten};
use crate::number::parse_number;

/// A value, a range or a bound, and the words around it.
#[derive(Clone, Debug)]
pub(crate) struct Amount {
    pub comparator: Comparator,
    pub low: f64,
    pub value: f64,
    pub high: f64,
    /// Words before the number, then those behind it.
    pub words: Vec<Token>,
}

impl Amount {
    /// The number as written: the bound, or the value.
    pub fn written(&self) -> f64 {
        if self.comparator == Comparator::Below { self.high } else { self.value }
    }
}

/// Find the number or the range in `tokens`. Below a bound the value is half of it (common practice, no source);
/// above a bound the upper end is infinite.
pub(crate) fn amount(tokens: &[Token], text: &str) -> Result<Amount, Fault> {
    let first = tokens.iter().position(|t| matches!(t, Token::Number(_)));
    let Some(first) = first else {
        return Err(fault(text, "has no number in it")
            .expected("an amount with its unit, such as 12.5 mg/L")
            .hint("for \"not detected\" write the method's limit, such as <0.05 mg/L"));
    };
    let (comparator, mut words) = before_number(&tokens[..first], text)?;
    words.push(Token::Place);
    let ((low, value, high), tail) = ends(&tokens[first..], comparator, text)?;
    if comparator == Comparator::Below && high <= 0.0 {
        return Err(fault(text, "lies below nothing")
            .expected("a bound above zero, such as <0.05 mg/L")
            .hint("write 0 if it is known to be absent"));
    }
    if low > high {
        return Err(fault(text, "is a range that runs backwards")
            .expected("the lower number first")
            .hint("exchange the two ends"));
    }
    if tail.iter().any(|t| matches!(t, Token::Number(_) | Token::Compare(_) | Token::PlusMinus)) {
        return Err(fault(text, "has more numbers than one amount")
            .expected("one amount, or a range such as 10 to 25 mg/L")
            .hint("put \"to\" between the two ends of a range"));
    }
    words.extend(tail.iter().cloned());
    let (low, value, high) = match comparator {
        Comparator::Below => (0.0, 0.5 * value, value),
        Comparator::Above => (value, value, f64::INFINITY),
        Comparator::Equal | Comparator::About => (low, value, high),
    };
    Ok(Amount { comparator, low, value, high, words })
}

fn fault(text: &str, what: &str) -> Fault {
    Fault::new(format!("`{}` {what}", shorten(text)))
}

/// The comparing sign before the number, and the words there.
fn before_number(tokens: &[Token], text: &str) -> Result<(Comparator, Vec<Token>), Fault> {
    let (mut comparator, mut words) = (Comparator::Equal, Vec::new());
    for token in tokens {
        match token {
            Token::Compare(c) if comparator == Comparator::Equal => comparator = *c,
            Token::Compare(_) => {
                return Err(fault(text, "is compared twice")
                    .expected("one of <, > or ~")
                    .hint("for a range write 10 to 25"));
            }
            Token::Dash | Token::Colon => words.push(Token::Gap),
            Token::PlusMinus => {
                return Err(fault(text, "has no value before ±")
                    .expected("a value and its spread, such as 5 ± 1")
                    .hint("put the value first"));
            }
            Token::Word(w) if w.eq_ignore_ascii_case("between") || w.eq_ignore_ascii_case("from") => {}
            other => words.push(other.clone()),
        }
    }
    Ok((comparator, words))
}

/// Low, value, high.
type Ends = (f64, f64, f64);

/// The ends of the number or range at the beginning of `tokens`, and the tokens behind it.
fn ends<'a>(tokens: &'a [Token], comparator: Comparator, text: &str) -> Result<(Ends, &'a [Token]), Fault> {
    let value = number_at(tokens, 0)?;
    let Some((at, spread)) = second_number(tokens) else {
        return Ok(((value, value, value), &tokens[1..]));
    };
    let second = number_at(tokens, at)?;
    let (unit_before, tail) = (&tokens[1..at - 1], &tokens[at + 1..]);
    if !tail.starts_with(unit_before) {
        return Err(fault(text, "has two units")
            .expected("a range with one unit, such as 10 to 25 mg/L")
            .hint("convert one end to the unit of the other"));
    }
    if comparator != Comparator::Equal {
        return Err(fault(text, "is a range with a comparing sign")
            .expected("either a range or a bound")
            .hint("write 10 to 25, or <25"));
    }
    let span = if spread { (value - second, value, value + second) } else { (value, 0.5 * (value + second), second) };
    Ok((span, tail))
}

/// The number at `at`, read.
pub(crate) fn number_at(tokens: &[Token], at: usize) -> Result<f64, Fault> {
    match tokens.get(at) {
        Some(Token::Number(raw)) => parse_number(raw),
        _ => Err(Fault::new("a number is missing")
            .expected("a number such as 12.5")
            .hint("write one amount with its unit")),
    }
}

/// Place of the second number of a range that starts at 0, and whether it is a spread (`5 ± 1`).
fn second_number(tokens: &[Token]) -> Option<(usize, bool)> {
    let at = (1..tokens.len()).find(|&i| matches!(tokens[i], Token::Number(_)))?;
    match &tokens[at - 1] {
        Token::Dash => Some((at, false)),
        Token::Word(w) if is_range_word(w) => Some((at, false)),
        Token::PlusMinus => Some((at, true)),
        _ => None,
    }
}
