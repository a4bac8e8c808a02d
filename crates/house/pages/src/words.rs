//! Words for numbers, lists and letters, the same on every page.

use quantity::amount::Volume;
use quantity::number::Digits;
use quantity::{Known, Units};

/// The space that does not break.
pub const NB: &str = "\u{a0}";

/// The letter of the n-th note, counted from 0: a to z, then aa, ab, ...
pub fn letter(n: usize) -> String {
    let last = char::from(b'a' + (n % 26) as u8);
    if n < 26 { last.to_string() } else { format!("{}{last}", letter(n / 26 - 1)) }
}

/// A count in words up to twelve.
pub fn count(n: usize) -> String {
    const WORDS: [&str; 13] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    WORDS.get(n).map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// `one bottle`, `two bottles`.
pub fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{} {}", count(n), if n == 1 { one } else { many })
}

/// `a`, `a and b`, `a, b and c`.
pub fn list<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [head @ .., last] => {
            let head: Vec<&str> = head.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", head.join(", "), last.as_ref())
        }
    }
}

/// The same text inside a sentence: without a capital in front, unless it is a formula or a name of capitals.
pub fn uncapital(text: &str) -> String {
    let mut chars = text.chars();
    match (chars.next(), text.chars().nth(1)) {
        (Some(first), second) if !second.is_some_and(char::is_uppercase) => first.to_lowercase().chain(chars).collect(),
        _ => text.to_owned(),
    }
}

/// The same text with a capital in front; "pH" stays as it is.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    match chars.next() {
        Some(first) if !text.starts_with("pH") => {
            let mut capital = String::with_capacity(text.len() + 2);
            capital.extend(first.to_uppercase());
            capital + chars.as_str()
        }
        _ => text.to_owned(),
    }
}

/// The same text, closed by a full stop if it has no end of its own; numbers stay with their units.
pub fn sentence(text: &str) -> String {
    let mut text = glued(text.trim());
    if !text.ends_with(['.', '?', '!', ':']) && !text.is_empty() {
        text.push('.');
    }
    text
}

/// The same text as a printer sets it: no line ends between a number and its unit, formulas have low digits, and "mg/L N"
/// is "mg/L as N".
pub fn glued(text: &str) -> String {
    const UNITS: [&str; 12] = ["g", "mg", "kg", "mL", "L", "litres", "mg/L", "meq/L", "°C", "°F", "%", "µS/cm"];
    const STOPS: [char; 8] = ['.', ',', ';', ':', ')', '(', '?', '"'];
    let mut glued = String::with_capacity(text.len() + 16);
    let (mut rest, mut next) = (text, text.split_once(' '));
    // Most words are copied as they stand: only one that ends with a digit, and "mg/L", are looked at.
    while let Some((word, after)) = next {
        next = after.split_once(' ');
        let (number, amount) = (word.ends_with(|c: char| c.is_ascii_digit()), word == "mg/L");
        push_word(&mut glued, word, &STOPS);
        let bare = || next.map_or(after, |(word, _)| word).trim_end_matches(STOPS);
        glued.push_str(if number && UNITS.contains(&bare()) { NB } else { " " });
        // What an amount is counted as is said in words.
        if amount && (is_formula(bare()) || matches!(bare(), "N" | "P" | "CaO")) {
            glued.push_str("as ");
        }
        rest = after;
    }
    push_word(&mut glued, rest, &STOPS);
    glued
}

/// A word, with low digits if it is a formula.
fn push_word(text: &mut String, word: &str, stops: &[char]) {
    // A formula has a digit: most words have none.
    if word.bytes().any(|byte| byte.is_ascii_digit()) && is_formula(word.trim_matches(stops)) {
        text.extend(word.chars().map(low_digit));
    } else {
        text.push_str(word);
    }
}

fn is_formula(word: &str) -> bool {
    matches!(word, "NO3" | "NO2" | "NH4" | "NH3" | "PO4" | "SO4" | "CO2" | "CaCO3" | "HCO3" | "Cl2")
}

fn low_digit(c: char) -> char {
    c.to_digit(10).and_then(|digit| char::from_u32(0x2080 + digit)).unwrap_or(c)
}

/// A unit as it is spoken, for a screen reader: "mg/L NO3" is "milligrams per litre as NO3".
pub fn unit_in_words(unit: &str) -> String {
    let (first, rest) = unit.split_once(' ').unwrap_or((unit, ""));
    let spoken = match first {
        "%" => "percent",
        "g" => "grams",
        "kg" => "kilograms",
        "mL" => "millilitres",
        "L" => "litres",
        "cm" => "centimetres",
        "mm" => "millimetres",
        "in" => "inches",
        "lb" => "pounds",
        "mg/L" => "milligrams per litre",
        "meq/L" => "milliequivalents per litre",
        "mmol/L" => "millimoles per litre",
        "µS/cm" => "microsiemens per centimetre",
        "L/h" => "litres an hour",
        "W/K" => "watts for a degree",
        "/h" => "an hour",
        "h" => "hours",
        "µmol/m²s" => "micromoles of photons for a square metre and second",
        "ppm" => "parts per million",
        "°C" => "degrees Celsius",
        "°F" => "degrees Fahrenheit",
        "°dH" => "German degrees",
        "°dKH" => "German degrees of alkalinity",
        "°fH" => "French degrees",
        "°e" => "English degrees",
        other => other,
    };
    match rest {
        "" => spoken.to_owned(),
        "a day" => format!("{spoken} a day"),
        rest => format!("{spoken} as {rest}"),
    }
}

/// A number with at most so many figures in the keeper's decimal sign.
pub fn figures(units: &Units, value: f64, significant: u8) -> String {
    units.number(value, Digits::Significant(significant))
}

/// A volume of tank or bucket in the keeper's unit.
pub fn litres_of(units: &Units, litres: f64) -> String {
    Volume::litres(litres).print(units).replace(' ', NB)
}

/// A level or concentration as it is read: three figures from 100 on, two below, and never finer than a hundredth.
pub fn level(units: &Units, value: f64) -> String {
    match value.abs() {
        v if v >= 9.95 => units.number(value, Digits::Decimals(0)),
        v if v >= 0.995 => units.number(value, Digits::Decimals(1)),
        v if v < 0.000_5 => units.number(0.0, Digits::Decimals(0)),
        _ => figures(units, value, 2),
    }
}

/// "4 to 22"; one number where both ends read the same.
pub fn span(units: &Units, low: f64, high: f64) -> String {
    let (low, high) = (level(units, low), level(units, high));
    if low == high { low } else { format!("{low}{NB}to{NB}{high}") }
}

/// "likely 4 to 22".
pub fn likely(units: &Units, known: &Known<f64>) -> String {
    format!("likely {}", span(units, known.low, known.high))
}

/// A time span in the word that a keeper thinks in.
pub fn days(units: &Units, days: f64) -> String {
    let (value, one, many) = match days {
        d if d >= 730.0 => (d / 365.25, "year", "years"),
        d if d >= 120.0 => (d / 30.44, "month", "months"),
        d => (d, "day", "days"),
    };
    let text = units.number(value, Digits::Decimals(0));
    let word = if text == "1" { one } else { many };
    format!("{text}{NB}{word}")
}

/// Decimals of a currency's minor unit (ISO 4217).
fn decimals(currency: &str) -> u8 {
    match currency {
        "CLP" | "ISK" | "JPY" | "KRW" | "PYG" | "UGX" | "VND" | "XAF" | "XOF" | "XPF" => 0,
        "BHD" | "IQD" | "JOD" | "KWD" | "LYD" | "OMR" | "TND" => 3,
        _ => 2,
    }
}

/// What the keeper calls the money in a table's head.
pub fn money_sign(currency: &str) -> &str {
    match currency {
        "EUR" => "€",
        "GBP" => "£",
        "USD" => "$",
        other => other,
    }
}

/// An amount of money, given in hundredths, without the sign.
pub fn money_plain(units: &Units, currency: &str, hundredths: f64) -> String {
    units.number(hundredths / 100.0, Digits::Decimals(decimals(currency)))
}

/// The small coin, where people reckon in it: one and many.
fn coin(currency: &str) -> Option<(&'static str, &'static str)> {
    match currency {
        "EUR" | "USD" | "CAD" | "AUD" | "NZD" => Some(("cent", "cents")),
        "GBP" => Some(("penny", "pence")),
        _ => None,
    }
}

/// What small amounts are counted in: the coin, else the money itself.
pub fn small_money(currency: &str) -> &str {
    coin(currency).map_or_else(|| money_sign(currency), |(_, many)| many)
}

/// A share of a packet, in [`small_money`], one figure finer than the coin.
pub fn money_fine(units: &Units, currency: &str, hundredths: f64) -> String {
    match coin(currency) {
        Some(_) => units.number(hundredths, Digits::Decimals(1)),
        None => units.number(hundredths / 100.0, Digits::Decimals(decimals(currency) + 1)),
    }
}

/// An amount of money in a sentence: "8 cents", "€6.00", "6.00 CHF".
pub fn money(units: &Units, currency: &str, hundredths: f64) -> String {
    match (coin(currency), currency) {
        (Some((one, many)), _) if hundredths < 99.5 => {
            let text = units.number(hundredths, Digits::Decimals(if hundredths < 1.95 { 1 } else { 0 }));
            format!("{text}{NB}{}", if text == "1" { one } else { many })
        }
        (_, "EUR" | "GBP" | "USD") => format!("{}{}", money_sign(currency), money_plain(units, currency, hundredths)),
        _ => format!("{}{NB}{currency}", money_plain(units, currency, hundredths)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_z() {
        let shown: Vec<String> = [0, 25, 26, 27, 51, 52, 701, 702].into_iter().map(letter).collect();
        assert_eq!(shown, ["a", "z", "aa", "ab", "az", "ba", "zz", "aaa"]);
    }

    #[test]
    fn lists_and_counts_read_as_people_say_them() {
        assert_eq!(list(&["a", "b", "c"]), "a, b and c");
        assert_eq!(counted(1, "bottle", "bottles"), "one bottle");
        assert_eq!(capital("élan"), "Élan");
        assert_eq!(sentence("Stir"), "Stir.");
        assert_eq!(sentence("Really?"), "Really?");
        assert_eq!(glued("9 mg/L (as NO3), B12"), "9\u{a0}mg/L (as NO₃), B12");
        assert_eq!(
            glued("120 mg/L CaCO3, 3 mg/L N and 2 mg/L K"),
            "120\u{a0}mg/L as CaCO₃, 3\u{a0}mg/L as N and 2\u{a0}mg/L K"
        );
        assert_eq!(glued("give 5 mL, not 50 g. 3 of 8 Litres"), "give 5\u{a0}mL, not 50\u{a0}g. 3 of 8 Litres");
    }

    #[test]
    fn money_is_said_in_its_small_unit_below_one() {
        let units = Units::default();
        assert_eq!(money(&units, "EUR", 8.2), "8\u{a0}cents");
        assert_eq!(money(&units, "EUR", 600.0), "€6.00");
        assert_eq!(money(&units, "JPY", 60_000.0), "600\u{a0}JPY");
        assert_eq!(money(&units, "CHF", 650.0), "6.50\u{a0}CHF");
    }
}
