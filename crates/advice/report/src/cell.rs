//! What a cell holds: a number with its comparator, a range, "not detected", or words.

use quantity::Comparator;

use crate::dates::is_date;
use crate::fold::{tidy, words};
use crate::lexicon::lexicon;
use crate::recent::{Recent, recall};

/// How the report writes its decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Decimal {
    /// 12.5, and 1,234 is a thousand and more.
    Point,
    /// 12,5, and 1.234 is a thousand and more.
    Comma,
    /// Nothing in the report tells.
    Unknown,
}

/// One number of a cell.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Number {
    pub comparator: Comparator,
    pub value: f64,
    /// The other value that it may mean.
    pub or: Option<f64>,
    /// Where it stands in the tidied text, in characters; the comparator belongs to it.
    pub start: usize,
    pub end: usize,
}

/// What a cell holds.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Content {
    /// Nothing, or a mark that stands for nothing.
    Nothing,
    /// Too little to be seen.
    NotDetected,
    /// Numbers with the text around them; see [`Numbers`].
    Numbers(Vec<Number>),
    /// A date.
    Date,
    /// Words.
    Words,
}

/// What a cell holds.
pub(crate) fn read(text: &str, decimal: Decimal) -> Content {
    let tidied = tidy(text);
    let shown = tidied.trim();
    if shown.is_empty() || shown.chars().all(|c| matches!(c, '-' | '.' | '/' | '*' | ' ' | '_')) {
        return Content::Nothing;
    }
    if is_plain(shown) {
        let start = tidied.len() - tidied.trim_start().len();
        let number = |(value, or)| Number { comparator: Comparator::Equal, value, or, start, end: start + shown.len() };
        return value_of(shown, decimal).map(number).map_or(Content::Words, |n| Content::Numbers(vec![n]));
    }
    thread_local! {
        static KEPT: Recent<Content> = const { Recent::new() };
    }
    let sign = match decimal {
        Decimal::Point => ".",
        Decimal::Comma => ",",
        Decimal::Unknown => "?",
    };
    recall(&KEPT, &[sign, &tidied].concat(), || read_tidied(&tidied, decimal))
}

fn read_tidied(tidied: &str, decimal: Decimal) -> Content {
    let shown = tidied.trim();
    // "n.a." is "not seen" to some and "does not apply" to others: then nothing is taken.
    if lexicon().is_no_value(shown) {
        return Content::Nothing;
    }
    if lexicon().is_not_detected(shown) {
        return Content::NotDetected;
    }
    if is_date(shown) {
        return Content::Date;
    }
    let numbers = numbers(tidied, decimal);
    if numbers.is_empty() { Content::Words } else { Content::Numbers(numbers) }
}

/// "12", "12.5", "0,05": digits with at most one sign among them. No word for none is, and no date.
fn is_plain(shown: &str) -> bool {
    let (left, right) = shown.split_once(['.', ',']).unwrap_or((shown, "0"));
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    digits(left) && digits(right)
}

/// All numbers of a tidied text that are not part of a word.
pub(crate) fn numbers(tidied: &str, decimal: Decimal) -> Vec<Number> {
    let chars: Vec<char> = tidied.chars().collect();
    let mut out = Vec::new();
    let mut at = 0;
    while let Some(&c) = chars.get(at) {
        let before = at.checked_sub(1).and_then(|i| chars.get(i));
        // "10...14": dots that lead to a number are none of its own.
        let dots = at >= 2 && chars.get(at - 2..at) == Some(&['.', '.']);
        let free = dots || !before.is_some_and(|b| b.is_alphanumeric() || matches!(b, '.' | ',' | '_'));
        let starts =
            c.is_ascii_digit() || (matches!(c, '.' | ',') && chars.get(at + 1).is_some_and(char::is_ascii_digit));
        if !(free && starts) {
            at += 1;
            continue;
        }
        let end = number_end(&chars, at);
        let raw: String = chars.get(at..end).unwrap_or_default().iter().collect();
        // "3500-Ca" is the code of a method.
        let code = chars.get(end) == Some(&'-') && chars.get(end + 1).is_some_and(|c| c.is_alphabetic());
        let glued = code || chars.get(end).is_some_and(|c| c.is_alphabetic()) && !unit_follows(&chars, end);
        if let (Some((value, or)), false) = (value_of(&raw, decimal), glued) {
            let (comparator, start) = comparator_before(&chars, at);
            out.push(Number { comparator, value, or, start, end });
        }
        at = end.max(at + 1);
    }
    out
}

/// "26mg/l" is a number with its unit; "2nd" is none.
fn unit_follows(chars: &[char], end: usize) -> bool {
    let rest: String = chars.iter().skip(end).take(LOOKED_AT).collect();
    crate::unit_find::find(&rest).is_some_and(|f| f.start == 0)
}

fn number_end(chars: &[char], start: usize) -> usize {
    let digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
    let mut at = start;
    let (mut run, mut signs) = (0, 0);
    loop {
        match chars.get(at) {
            Some(c) if c.is_ascii_digit() => run += 1,
            Some('.' | ',' | '\'') if digit(at + 1) => (run, signs) = (0, signs + 1),
            // Digits in groups of three, parted by a space.
            Some(' ')
                if signs == 0
                    && (1..=3).contains(&run)
                    && digit(at + 1)
                    && digit(at + 2)
                    && digit(at + 3)
                    && !digit(at + 4) =>
            {
                run = 0;
            }
            Some('e' | 'E') if run > 0 => {
                let sign = usize::from(matches!(chars.get(at + 1), Some('-' | '+')));
                let power = (at + 1 + sign..).take_while(|&i| digit(i)).count();
                let word = chars.get(at + 1 + sign + power).is_some_and(|c| c.is_alphanumeric());
                return if (1..=2).contains(&power) && !word { at + 1 + sign + power } else { at };
            }
            _ => return at,
        }
        at += 1;
    }
}

/// The value of digits and signs, and the other value that they may mean.
fn value_of(raw: &str, decimal: Decimal) -> Option<(f64, Option<f64>)> {
    let (mantissa, power) = match raw.split_once(['e', 'E']) {
        Some((m, p)) => (m, p.trim_start_matches('+').parse::<i32>().ok()?),
        None => (raw, 0),
    };
    let mantissa = mantissa.replace([' ', '\''], "");
    let (points, commas) = (mantissa.matches('.').count(), mantissa.matches(',').count());
    let as_decimal = |sign: char| {
        let kept = mantissa.chars().filter(|&c| c.is_ascii_digit() || c == sign);
        let plain: String = kept.map(|c| if c == sign { '.' } else { c }).collect();
        with_power(plain, power)
    };
    let whole = || {
        let plain: String = mantissa.chars().filter(char::is_ascii_digit).collect();
        with_power(plain, power)
    };
    match (points, commas) {
        (0, 0) => Some((whole()?, None)),
        (1, 0) => one_sign(&mantissa, '.', decimal == Decimal::Comma, decimal == Decimal::Point, as_decimal, whole),
        (0, 1) => one_sign(&mantissa, ',', decimal == Decimal::Point, decimal == Decimal::Comma, as_decimal, whole),
        (1, c) if c >= 1 && mantissa.rfind('.') > mantissa.rfind(',') => Some((as_decimal('.')?, None)),
        (p, 1) if p >= 1 && mantissa.rfind(',') > mantissa.rfind('.') => Some((as_decimal(',')?, None)),
        (0, _) | (_, 0) if groups_of_three(&mantissa) => Some((whole()?, None)),
        _ => None,
    }
}

fn with_power(mut digits: String, power: i32) -> Option<f64> {
    if power != 0 {
        digits.push_str(&format!("e{power}"));
    }
    digits.parse().ok()
}

fn groups_of_three(mantissa: &str) -> bool {
    mantissa.split(['.', ',']).skip(1).all(|g| g.len() == 3)
}

/// A number with one sign in it. `parts`: the report uses this sign between thousands; `decides`: for decimals.
fn one_sign(
    mantissa: &str,
    sign: char,
    parts: bool,
    decides: bool,
    as_decimal: impl Fn(char) -> Option<f64>,
    whole: impl Fn() -> Option<f64>,
) -> Option<(f64, Option<f64>)> {
    let (left, right) = mantissa.split_once(sign)?;
    let may_part = right.len() == 3 && (1..=3).contains(&left.len()) && !left.starts_with('0');
    match (may_part, parts, decides) {
        (false, ..) | (true, false, true) => Some((as_decimal(sign)?, None)),
        (true, true, false) => Some((whole()?, None)),
        (true, ..) => Some((as_decimal(sign)?, Some(whole()?))),
    }
}

/// The comparator before a number, and where it starts.
fn comparator_before(chars: &[char], at: usize) -> (Comparator, usize) {
    let from = at.saturating_sub(LOOKED_AT);
    let before: String = chars.get(from..at).unwrap_or_default().iter().collect();
    let trimmed = before.trim_end();
    if trimmed.is_empty() {
        return (Comparator::Equal, at);
    }
    let signs: String = trimmed.chars().rev().take_while(|c| matches!(c, '<' | '>' | '=' | '~')).collect();
    let start = from + trimmed.chars().count().saturating_sub(signs.chars().count());
    if signs.contains('<') {
        return (Comparator::Below, start);
    }
    if signs.contains('>') {
        return (Comparator::Above, start);
    }
    if signs.contains('~') {
        return (Comparator::About, start);
    }
    match below_words(trimmed) {
        Some(start) => (Comparator::Below, from + start),
        None => (Comparator::Equal, at),
    }
}

/// Where "less than" or its kin begins, if a text ends with it; in characters.
fn below_words(text: &str) -> Option<usize> {
    let last = text.trim_end_matches(|c: char| !c.is_alphanumeric());
    let from = last.char_indices().rev().take_while(|(_, c)| c.is_alphanumeric()).last().map_or(0, |(i, _)| i);
    if !lexicon().may_end_below(&words(last.get(from..).unwrap_or_default())) {
        return None;
    }
    let begins = |(i, c): &(usize, char)| {
        let before = text.get(..*i).and_then(|t| t.chars().next_back());
        c.is_alphanumeric() && !before.is_some_and(char::is_alphanumeric)
    };
    let starts: Vec<usize> = text.char_indices().filter(begins).map(|(i, _)| i).collect();
    let tail = |start: usize| text.get(start..).map(words).unwrap_or_default();
    let start = starts.into_iter().rev().take(LONGEST_BELOW).find(|s| lexicon().ends_with_below(&tail(*s)))?;
    Some(text.get(..start)?.chars().count())
}

/// Characters beside a number among which its unit, its sign or "less than" stands.
const LOOKED_AT: usize = 120;
/// Words in the longest way to say "less than".
const LONGEST_BELOW: usize = 6;

/// Which decimal sign the texts of a report use.
pub(crate) fn decimal_of<'a>(texts: impl Iterator<Item = &'a str>) -> Decimal {
    let (mut points, mut commas) = (0_u32, 0_u32);
    for text in texts {
        let tidied = tidy(text);
        if !tidied.contains(['.', ',']) || is_date(tidied.trim()) {
            continue;
        }
        for token in tidied.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')) {
            let token = token.trim_matches(['.', ',']);
            let signs: Vec<char> = token.chars().filter(|c| !c.is_ascii_digit()).collect();
            let decimal = match (signs.as_slice(), token.rsplit_once(['.', ','])) {
                ([sign], Some((left, right))) if right.len() != 3 || left == "0" || left.len() > 3 => Some(*sign),
                ([first, .., last], Some(_)) if first != last => Some(*last),
                _ => None,
            };
            match decimal {
                Some('.') => points += 1,
                Some(',') => commas += 1,
                _ => {}
            }
        }
    }
    match (points, commas) {
        (0, 0) => Decimal::Unknown,
        (_, 0) => Decimal::Point,
        (0, _) => Decimal::Comma,
        (p, c) if p > 20 * c => Decimal::Point,
        (p, c) if c > 20 * p => Decimal::Comma,
        _ => Decimal::Unknown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_printed() {
        let one = |text: &str, decimal| match read(text, decimal) {
            Content::Numbers(n) => n.iter().map(|n| (n.comparator, n.value, n.or)).collect::<Vec<_>>(),
            _ => Vec::new(),
        };
        use Comparator::{Below, Equal};
        assert_eq!(one("12,5", Decimal::Unknown), [(Equal, 12.5, None)]);
        assert_eq!(one("<0,05", Decimal::Unknown), [(Below, 0.05, None)]);
        assert_eq!(one("1,234", Decimal::Unknown), [(Equal, 1.234, Some(1234.0))]);
        assert_eq!(one("1,234", Decimal::Point), [(Equal, 1234.0, None)]);
        assert_eq!(one("1.234,5", Decimal::Unknown), [(Equal, 1234.5, None)]);
        assert_eq!(one("1 234", Decimal::Comma), [(Equal, 1234.0, None)]);
        assert_eq!(one("18 - 44", Decimal::Point), [(Equal, 18.0, None), (Equal, 44.0, None)]);
        assert_eq!(one("0.123", Decimal::Comma), [(Equal, 0.123, None)]);
        assert_eq!(one("NO3", Decimal::Point), []);
        assert_eq!(one("26mg/l", Decimal::Point), [(Equal, 26.0, None)]);
        assert_eq!(one("less than 0.5", Decimal::Point), [(Below, 0.5, None)]);
        assert_eq!(numbers("Iron: less than 0.5", Decimal::Point).first().map(|n| n.start), Some(6));
        assert_eq!(read("n.n.", Decimal::Point), Content::NotDetected);
        assert_eq!(read("12.03.2025", Decimal::Point), Content::Date);
        assert_eq!(read("–", Decimal::Point), Content::Nothing);
    }
}
