//! Numbers as people type them and as people like to read them.
//!
//! **What is read.** Digits with one decimal sign (point or comma), digits in groups of three (parted by a space, an
//! apostrophe, or the *other* sign), a sign before, a power of ten behind (`3e-4`, `3 × 10^-4`).
//!
//! **The rule for one sign followed by exactly three digits.** `1.234` is one and a bit: a lone point is always the
//! decimal sign. `1,234` is one and a bit in half of the world and more than a thousand in the other half, so it is a
//! fault that names both. With a zero in front (`0,125`), with other than three digits behind (`12,5`), or with more
//! than three in front (`1234,567`) a comma cannot part thousands, and is the decimal sign; so it is before a power of ten
//! (`1,234e3`), where nobody parts thousands.

use crate::Fault;

/// How many digits to print.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Digits {
    /// At most so many significant digits; zeros at the end behind the decimal sign are dropped.
    Significant(u8),
    /// Exactly so many decimals.
    Decimals(u8),
}

/// The decimal sign that is printed. Both are read everywhere.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DecimalSign {
    /// 12.5
    #[default]
    Point,
    /// 12,5
    Comma,
}

/// The figures to which a converted value is kept: what was typed in one unit and in another, exactly converted,
/// becomes the same number, whatever the last bits of the arithmetic say.
pub const CANONICAL_FIGURES: u8 = 12;

/// No amount of this trade is larger; below it no conversion overflows.
const LARGEST: f64 = 1e15;

/// Read one number, with nothing else beside it.
///
/// # Errors
/// No digits, a stray character, groups that are not of three digits, both readings possible (`1,234`), or a number
/// above 1e15.
pub fn parse_number(text: &str) -> Result<f64, Fault> {
    let tidy = crate::lex::tidy(text);
    let shown = tidy.trim();
    let not_a_number = || {
        Fault::new(format!("`{}` is not a number", crate::lex::shorten(text)))
            .expected("a number such as 12.5, 12,5, 1 234.5 or 3e-4")
            .hint("one decimal sign, digits in groups of three or in none, and nothing else in the field")
    };
    let (negative, unsigned) = match shown.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, shown.strip_prefix('+').unwrap_or(shown)),
    };
    let (mantissa, exponent) = split_exponent(unsigned).ok_or_else(not_a_number)?;
    if !mantissa.bytes().any(|b| b.is_ascii_digit()) {
        return Err(not_a_number().hint("leave the field out if the value is not known"));
    }
    let plain = plain_digits(mantissa, exponent.is_some())?.ok_or_else(not_a_number)?;
    let value: f64 = format!("{plain}e{}", exponent.unwrap_or(0)).parse().map_err(|_| not_a_number())?;
    if value > LARGEST {
        return Err(Fault::new(format!("`{}` is too large", crate::lex::shorten(text)))
            .expected("a number up to 1e15")
            .hint("look at the power of ten"));
    }
    Ok(if negative { -value } else { value })
}

/// `3e-4`, `3 × 10^-4` -> ("3", -4). `None` where the power is not a whole number of at most three digits.
fn split_exponent(text: &str) -> Option<(&str, Option<i32>)> {
    let power = |t: &str| -> Option<i32> {
        let digits = t.strip_prefix(['-', '+']).unwrap_or(t);
        let sound = (1..=3).contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit());
        if sound { t.strip_prefix('+').unwrap_or(t).parse().ok() } else { None }
    };
    if let Some((mantissa, rest)) = text.split_once(['e', 'E']) {
        return Some((mantissa.trim_end(), Some(power(rest)?)));
    }
    if let Some((mantissa, rest)) = text.split_once(['×', 'x', '*', '·']) {
        let rest = rest.trim_start().strip_prefix("10")?;
        return Some((mantissa.trim_end(), Some(power(rest.strip_prefix('^').unwrap_or(rest))?)));
    }
    Some((text, None))
}

/// Digits with at most one point in them, from a mantissa in any of the ways of writing; `None` if it is none.
fn plain_digits(mantissa: &str, has_power: bool) -> Result<Option<String>, Fault> {
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    let count = |c: char| mantissa.matches(c).count();
    let (points, commas) = (count('.'), count(','));
    let grouper = [' ', '\''].into_iter().find(|&g| mantissa.contains(g));
    // The decimal sign is the last of the two signs, if it stands alone.
    let decimal = match (points, commas, grouper) {
        (0, 0, _) => None,
        (1, 0, _) => Some('.'),
        (0, 1, Some(_)) => Some(','),
        (0, 1, None) => {
            let (whole, part) = mantissa.split_once(',').unwrap_or((mantissa, ""));
            let both = part.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0');
            if both && !has_power && digits(whole) && digits(part) {
                return Err(two_readings(whole, part));
            }
            Some(',')
        }
        (_, _, Some(_)) => return Ok(None),
        (_, 0, None) | (0, _, None) => None,
        (_, _, None) if mantissa.rfind('.') > mantissa.rfind(',') => Some('.'),
        _ => Some(','),
    };
    let (whole, part) = match decimal {
        Some(sign) => mantissa.rsplit_once(sign).unwrap_or((mantissa, "")),
        None => (mantissa, ""),
    };
    let grouper = grouper.or_else(|| [',', '.'].into_iter().find(|&g| whole.contains(g)));
    let joined = match grouper {
        None => whole.to_owned(),
        Some(g) => {
            let groups: Vec<&str> = whole.split(g).collect();
            let sound = groups.iter().enumerate().all(|(i, s)| s.len() == 3 || (i == 0 && matches!(s.len(), 1 | 2)));
            if !sound {
                return Ok(None);
            }
            groups.concat()
        }
    };
    let sound = digits(&joined) && digits(part);
    Ok(sound.then(|| {
        format!("{}.{}", if joined.is_empty() { "0" } else { &joined }, if part.is_empty() { "0" } else { part })
    }))
}

fn two_readings(whole: &str, part: &str) -> Fault {
    Fault::new(format!("`{whole},{part}` can be meant in two ways"))
        .expected(format!("{whole}.{part} (the comma is the decimal sign) or {whole}{part} (it parts the thousands)"))
        .hint(format!("write {whole}.{part} or {whole}{part}"))
}

/// `value` rounded to so many significant figures, in decimal digits.
pub fn round_significant(value: f64, figures: u8) -> f64 {
    if !value.is_finite() {
        return value;
    }
    let decimals = usize::from(figures.max(1)) - 1;
    format!("{value:.decimals$e}").parse().unwrap_or(value)
}

/// `value` as it is kept after a conversion: see [`CANONICAL_FIGURES`].
pub fn canonical(value: f64) -> f64 {
    round_significant(value, CANONICAL_FIGURES)
}

/// A kept value turned back into the unit that it came from: 10 figures, so that what was typed comes back as it was typed
/// (24.9999999999 mg/L is 25).
pub fn read_back(value: f64) -> f64 {
    round_significant(value, CANONICAL_FIGURES - 2)
}

/// A number for people, with a decimal point: `format_number(1.4, Digits::Significant(3))` is `1.4`.
///
/// Below a millionth and from 1e15 on a power of ten is printed. An infinite value prints as `∞`, none as `?`.
pub fn format_number(value: f64, digits: Digits) -> String {
    format_number_with(value, digits, DecimalSign::Point)
}

/// The same with the keeper's decimal sign.
///
/// With a comma and exactly three decimals a zero is added where `1,234` could be read as a thousand.
pub fn format_number_with(value: f64, digits: Digits, sign: DecimalSign) -> String {
    if value.is_nan() {
        return "?".to_owned();
    }
    if value.is_infinite() {
        return if value > 0.0 { "∞" } else { "-∞" }.to_owned();
    }
    let point = match digits {
        Digits::Significant(figures) => significant(value, figures),
        Digits::Decimals(n) => fixed(value, usize::from(n)),
    };
    match sign {
        DecimalSign::Point => point,
        DecimalSign::Comma => {
            let comma = point.replace('.', ",");
            if parse_number(&comma).is_err() { comma + "0" } else { comma }
        }
    }
}

/// Figures that a double tells apart whatever they are: as many decimal digits come back from it as they went in.
const TOLD_APART: u8 = 15;

fn significant(value: f64, figures: u8) -> String {
    if (1..=TOLD_APART).contains(&figures)
        && let Some(text) = plain(&format!("{value:.0$e}", usize::from(figures) - 1))
    {
        return text;
    }
    let rounded = round_significant(value, figures);
    if rounded == 0.0 {
        return "0".to_owned();
    }
    if !(1e-6..1e15).contains(&rounded.abs()) {
        return format!("{rounded:e}");
    }
    // Rust prints the shortest digits that give the number back: those that rounding left.
    format!("{rounded}")
}

/// `1.20e-3` without the power: `0.0012`. `None` below a millionth and from 1e15 on.
fn plain(scientific: &str) -> Option<String> {
    let (mantissa, power) = scientific.split_once('e')?;
    let power: i32 = power.parse().ok()?;
    let (sign, mantissa) = mantissa.strip_prefix('-').map_or(("", mantissa), |mantissa| ("-", mantissa));
    let digits = mantissa.replace('.', "");
    let digits = digits.trim_end_matches('0');
    if digits.is_empty() || !(-6..15).contains(&power) {
        return None;
    }
    // Digits before the point.
    let before = usize::try_from(power + 1).unwrap_or(0);
    let mut text = String::with_capacity(24);
    text.push_str(sign);
    if before == 0 {
        text.push_str("0.");
        text.extend(std::iter::repeat_n('0', (-1 - power).unsigned_abs() as usize));
        text.push_str(digits);
    } else if digits.len() <= before {
        text.push_str(digits);
        text.extend(std::iter::repeat_n('0', before - digits.len()));
    } else {
        let (whole, part) = digits.split_at(before);
        text.extend([whole, ".", part]);
    }
    Some(text)
}

fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    // No "-0.0".
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| matches!(b, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Checked by the library: the rounded number, read back and printed with the fewest digits that give it again.
    #[test]
    fn figures_are_printed_as_the_library_prints_the_rounded_number() {
        let many = (1..4000_u32).flat_map(|i| {
            let f = f64::from(i) * 0.037_41;
            [f, -f, 1e-7 * f, 1e-4 * f, 1e6 * f, 1e13 * f, f.exp()]
        });
        for value in many.chain([0.0, -0.0, 1e-6, 9.999_96e-7, 999_999_999_999_999.0, 0.5, 2.5, 1.25]) {
            for figures in [1, 2, 3, 4, 12, 15] {
                let rounded = round_significant(value, figures);
                let plain = rounded == 0.0 || (1e-6..1e15).contains(&rounded.abs());
                let library = match rounded == 0.0 {
                    true => "0".to_owned(),
                    false if plain => format!("{rounded}"),
                    false => format!("{rounded:e}"),
                };
                assert_eq!(format_number(value, Digits::Significant(figures)), library, "{value:e} {figures}");
            }
        }
    }

    #[test]
    fn what_people_type() {
        for (text, value) in [
            ("12.5", 12.5),
            ("12,5", 12.5),
            ("1,234.5", 1234.5),
            ("1.234,5", 1234.5),
            ("1 234,5", 1234.5),
            ("1\u{202f}234,567", 1234.567),
            ("1'234.5", 1234.5),
            ("1.234.567", 1234567.0),
            ("1,234,567", 1234567.0),
            ("1.234", 1.234),
            ("0,125", 0.125),
            ("1234,567", 1234.567),
            ("\u{2212}3", -3.0),
            ("+3", 3.0),
            ("3e-4", 3e-4),
            ("1,234e3", 1234.0),
            ("3 \u{d7} 10\u{207b}\u{2074}", 3e-4),
            (" .5 ", 0.5),
            ("5.", 5.0),
        ] {
            assert_eq!(parse_number(text), Ok(value), "{text}");
        }
    }

    #[test]
    fn a_factor_of_a_thousand_is_asked() {
        let fault = parse_number("1,234").unwrap_err();
        assert!(fault.expected.unwrap().contains("1.234") && fault.hint.unwrap().contains("1234"));
        assert!(parse_number("12,345").is_err());
    }

    #[test]
    fn what_is_no_number() {
        for text in [
            "",
            " ",
            "x",
            "1.2.3",
            "1,23,4",
            "12 34",
            "1 2345",
            "--3",
            "3e",
            "3e1.5",
            "1e999",
            "1 234.5,6",
            "e5",
            ".",
            ",",
        ] {
            assert!(parse_number(text).is_err(), "{text}");
        }
    }

    #[test]
    fn printed_for_people() {
        let s = |v, n| format_number(v, Digits::Significant(n));
        assert_eq!(s(1.4, 3), "1.4");
        assert_eq!(s(0.25, 2), "0.25");
        assert_eq!(s(26.04, 3), "26");
        assert_eq!(s(0.1 + 0.2, 12), "0.3");
        assert_eq!(s(12345.0, 3), "12300");
        assert_eq!(s(-0.0, 3), "0");
        assert_eq!(s(1.2e-9, 2), "1.2e-9");
        assert_eq!(format_number(7.0, Digits::Decimals(1)), "7.0");
        assert_eq!(format_number(-0.04, Digits::Decimals(1)), "0.0");
        assert_eq!(format_number_with(12.5, Digits::Significant(3), DecimalSign::Comma), "12,5");
        assert_eq!(format_number_with(1.234, Digits::Significant(4), DecimalSign::Comma), "1,2340");
    }
}
