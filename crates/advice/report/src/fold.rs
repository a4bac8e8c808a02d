//! Text made comparable: no capitals, no accents, no punctuation, one spelling of what Unicode spells in many ways.

use std::borrow::Cow;

/// One spelling of dashes, spaces, micro, degree, raised and lowered digits; soft hyphens are dropped. Letters keep
/// their case and accents.
pub(crate) fn tidy(text: &str) -> Cow<'_, str> {
    if text.bytes().all(|b| matches!(b, b' '..=b'~')) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut ahead = text.chars().peekable();
    while let Some(c) = ahead.next() {
        match c {
            // "12.3¹": the mark of a footnote, and no digit of the number. "SO4²⁻" has a charge.
            '\u{b9}' | '\u{b2}' | '\u{b3}' if ends_in_number(&out) && !is_raised_sign(ahead.peek()) => {
                out.push(' ');
                out.push(raised_digit(c));
                if !matches!(ahead.peek(), Some(')' | '\u{207e}')) {
                    out.push(')');
                }
            }
            '\u{ad}' | '\u{200b}'..='\u{200d}' | '\u{feff}' => {}
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{207b}' | '\u{208b}' => out.push('-'),
            '\u{207a}' | '\u{208a}' => out.push('+'),
            '\u{3bc}' => out.push('µ'),
            '\u{ba}' | '\u{2da}' => out.push('°'),
            '\u{2103}' => out.push_str("°C"),
            '\u{2109}' => out.push_str("°F"),
            '\u{2113}' => out.push('l'),
            '\u{fb01}' => out.push_str("fi"),
            '\u{fb02}' => out.push_str("fl"),
            '\u{fb00}' => out.push_str("ff"),
            '\u{2019}' | '\u{2018}' | '\u{2bc}' | '\u{b4}' => out.push('\''),
            '\u{2264}' => out.push_str("<="),
            '\u{2265}' => out.push_str(">="),
            '\u{207d}' => out.push('('),
            '\u{207e}' => out.push(')'),
            '\u{b9}' => out.push('1'),
            '\u{b2}' => out.push('2'),
            '\u{b3}' => out.push('3'),
            '\u{2070}' => out.push('0'),
            '\u{2074}'..='\u{2079}' => out.extend(char::from_digit(c as u32 - 0x2070, 10)),
            '\u{2080}'..='\u{2089}' => out.extend(char::from_digit(c as u32 - 0x2080, 10)),
            c if c.is_whitespace() => out.push(' '),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}

/// Whether a text ends in a number, and not in the digit of a formula.
fn ends_in_number(text: &str) -> bool {
    let digits = text.trim_end_matches(|c: char| c.is_ascii_digit() || c == '.' || c == ',');
    digits.len() < text.len() && !digits.chars().next_back().is_some_and(|c| c.is_alphabetic() || c == '^')
}

fn is_raised_sign(next: Option<&char>) -> bool {
    matches!(next, Some('\u{207a}' | '\u{207b}' | '+' | '-' | '\u{2212}'))
}

fn raised_digit(c: char) -> char {
    match c {
        '\u{b9}' => '1',
        '\u{b2}' => '2',
        _ => '3',
    }
}

/// The letter without its accent.
fn plain(c: char) -> char {
    match c {
        'à' | 'á' | 'â' | 'ä' | 'ã' | 'å' => 'a',
        'ç' => 'c',
        'è' | 'é' | 'ê' | 'ë' => 'e',
        'ì' | 'í' | 'î' | 'ï' => 'i',
        'ñ' => 'n',
        'ò' | 'ó' | 'ô' | 'ö' | 'õ' => 'o',
        'ù' | 'ú' | 'û' | 'ü' => 'u',
        'ý' | 'ÿ' => 'y',
        c => c,
    }
}

/// The words of a text: letters and digits, folded; what joins or parts them is dropped.
pub(crate) fn words(text: &str) -> Vec<String> {
    let mut out = Vec::new();
    let mut word = String::new();
    for c in tidy(text).chars().flat_map(char::to_lowercase) {
        match plain(c) {
            'ß' => word.push_str("ss"),
            'œ' => word.push_str("oe"),
            // A combining accent belongs to the letter before it.
            '\u{300}'..='\u{36f}' => {}
            c if c.is_alphanumeric() || c == '%' => word.push(c),
            _ if word.is_empty() => {}
            _ => out.push(std::mem::take(&mut word)),
        }
    }
    if !word.is_empty() {
        out.push(word);
    }
    out
}

/// Words without the plural's s, so that "nitrates" finds "nitrate".
pub(crate) fn stems(text: &str) -> Vec<String> {
    words(text).into_iter().map(stem).collect()
}

fn stem(mut word: String) -> String {
    if word.len() > 3 && word.ends_with('s') {
        word.pop();
    }
    word
}

/// Letters with dots as one word: "L.C." and "L. C." are "LC".
pub(crate) fn undotted(text: &str) -> std::borrow::Cow<'_, str> {
    let chars: Vec<char> = text.chars().collect();
    let letter = |i: usize| {
        let alone = i.checked_sub(1).and_then(|b| chars.get(b)).is_none_or(|c| !c.is_alphanumeric());
        alone && chars.get(i).is_some_and(|c| c.is_alphabetic()) && chars.get(i + 1) == Some(&'.')
    };
    let next = |i: usize| if chars.get(i + 2) == Some(&' ') { i + 3 } else { i + 2 };
    if !(0..chars.len()).any(|i| letter(i) && letter(next(i))) {
        return text.into();
    }
    let (mut out, mut at, mut joined) = (String::new(), 0, false);
    while let Some(&c) = chars.get(at) {
        out.push(c);
        (at, joined) = match letter(at) && (joined || letter(next(at))) {
            true => (if letter(next(at)) { next(at) } else { at + 2 }, true),
            false => (at + 1, false),
        };
    }
    out.into()
}

/// Where `needle` stands in `hay` as a run of words.
pub(crate) fn position(hay: &[String], needle: &[String]) -> Option<usize> {
    if needle.is_empty() || needle.len() > hay.len() {
        return None;
    }
    (0..=hay.len() - needle.len()).find(|&at| hay.get(at..at + needle.len()) == Some(needle))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folded() {
        assert_eq!(undotted("L.C."), "LC");
        assert_eq!(undotted("Valor L. Q. (mg/l)"), "Valor LQ (mg/l)");
        assert_eq!(undotted("V.M.A. (R.D. 3)"), "VMA (RD 3)");
        assert_eq!(undotted("Max. n. Anz."), "Max. n. Anz.");
        assert_eq!(words("Säurekapazität bis pH 4,3"), ["saurekapazitat", "bis", "ph", "4", "3"]);
        assert_eq!(words("NO₃⁻ (µg/l)"), ["no3", "µg", "l"]);
        assert_eq!(stems("Nitrates/50 + Nitrites/3"), ["nitrate", "50", "nitrite", "3"]);
        assert_eq!(words("pH d’équilibre"), ["ph", "d", "equilibre"]);
    }
}
