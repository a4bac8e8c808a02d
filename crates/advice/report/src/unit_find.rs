//! Where in a text a unit stands, and which one it is.

use std::rc::Rc;

use crate::Unit;
use crate::fold::tidy;
use crate::recent::{Recent, recall};
use crate::unit_words::{ABOVE, FIRST, MORE, WHOLE};

/// A unit found in a text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Found {
    /// Which one.
    pub unit: Unit,
    /// One of the printed unit is so many of [`Found::unit`].
    pub scale: f64,
    /// First character in the tidied text.
    pub start: usize,
    /// Behind the last one.
    pub end: usize,
    /// What stands inside it: the N of "mg N/l".
    pub inside: Rc<str>,
    /// The unit as printed.
    pub text: Rc<str>,
}

/// Whether a text begins with a unit.
pub(crate) fn begins(text: &str) -> bool {
    let lower = |c: &char| c.to_lowercase().next().unwrap_or(*c);
    let shown: Vec<char> = tidy(text.trim_start()).chars().take(40).collect();
    let chars: Vec<char> = shown.iter().map(lower).collect();
    let unit = || per_litre(&shown, &chars, 0).or_else(|| whole(&chars, 0));
    chars.first().is_some_and(|c| FIRST.contains(c)) && unit().is_some()
}

/// Every unit of a text, from left to right.
pub(crate) fn all(text: &str) -> Vec<Found> {
    thread_local! {
        static KEPT: Recent<Rc<[Found]>> = const { Recent::new() };
    }
    recall(&KEPT, text, || every(text).into()).to_vec()
}

fn every(text: &str) -> Vec<Found> {
    let (mut shown, mut chars) = lowered(text);
    let mut out: Vec<Found> = Vec::new();
    let mut from = 0;
    while let Some(found) = first_from(&shown, &chars, from) {
        for rest in [&mut shown, &mut chars] {
            rest.iter_mut().take(found.end).skip(found.start).for_each(|c| *c = ' ');
        }
        from = found.end;
        out.push(found);
    }
    out
}

/// The text without its units.
pub(crate) fn without(text: &str) -> String {
    let mut rest: Vec<char> = tidy(text).chars().collect();
    for found in all(text) {
        rest.iter_mut().take(found.end).skip(found.start).for_each(|c| *c = ' ');
    }
    rest.into_iter().collect()
}

/// The first unit of a text.
pub(crate) fn find(text: &str) -> Option<Found> {
    // A number alone has none.
    if text.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b',' | b'<' | b'-' | b' ')) {
        return None;
    }
    thread_local! {
        static KEPT: Recent<Option<Found>> = const { Recent::new() };
    }
    recall(&KEPT, text, || first(text))
}

fn first(text: &str) -> Option<Found> {
    let (shown, chars) = lowered(text);
    first_from(&shown, &chars, 0)
}

/// The characters of a text, as they are and in small letters.
fn lowered(text: &str) -> (Vec<char>, Vec<char>) {
    let shown: Vec<char> = tidy(text).chars().collect();
    let chars = shown.iter().map(|c| c.to_lowercase().next().unwrap_or(*c)).collect();
    (shown, chars)
}

fn first_from(shown: &[char], chars: &[char], from: usize) -> Option<Found> {
    (from..chars.len()).find_map(|at| {
        let first = chars.get(at)?;
        let before = at.checked_sub(1).and_then(|i| chars.get(i));
        if !FIRST.contains(first) || before.is_some_and(|c| c.is_alphabetic() || matches!(c, '°' | '/')) {
            return None;
        }
        let (unit, scale, end, inside) = per_litre(shown, chars, at).or_else(|| whole(chars, at))?;
        let cut = |from: usize, to: usize| shown.get(from..to).unwrap_or_default().iter().collect::<String>().into();
        Some(Found { unit, scale, start: at, end, inside: cut(inside.0, inside.1), text: cut(at, end) })
    })
}

/// "mg SO4=/L", "mg NO3-/l", "mg Ca++/l".
fn is_charge(c: char) -> bool {
    matches!(c, '+' | '-' | '=')
}

type Hit = (Unit, f64, usize, (usize, usize));

fn starts(chars: &[char], at: usize, what: &str) -> Option<usize> {
    let mut end = at;
    for c in what.chars() {
        (chars.get(end) == Some(&c)).then_some(())?;
        end += 1;
    }
    Some(end)
}

fn ends_word(chars: &[char], end: usize) -> bool {
    chars.get(end).is_none_or(|c| !c.is_alphanumeric()) || footnoted(chars, end)
}

/// The mark of a footnote behind a unit: "mg/l1)".
fn footnoted(chars: &[char], end: usize) -> bool {
    let letter = end.checked_sub(1).and_then(|i| chars.get(i)).is_some_and(|c| c.is_alphabetic());
    let digits = chars.iter().skip(end).take_while(|c| c.is_ascii_digit()).count();
    let behind = chars.get(end + digits);
    letter && ((1..=2).contains(&digits) && behind == Some(&')') || digits == 1 && behind.is_none())
}

/// "mg" before "/l", and glued to what is counted: "mgN/l", "mgCaCO3/l".
fn ends_above(chars: &[char], end: usize, glued: bool) -> bool {
    let inside = chars.iter().skip(end).take_while(|c| c.is_ascii_alphanumeric() || is_charge(**c)).count();
    let stroke = matches!(chars.get(end + inside), Some('/' | '.' | '·' | '*' | '×' | '⋅' | ' '));
    ends_word(chars, end) || glued && inside <= 6 && stroke
}

fn whole(chars: &[char], at: usize) -> Option<Hit> {
    WHOLE.iter().chain(&MORE).find_map(|&(unit, scale, texts)| {
        let end = texts.iter().find_map(|text| starts(chars, at, text).filter(|&end| ends_word(chars, end)))?;
        // A bare C is the degree only right behind its number.
        let bare = unit == Unit::Celsius && end == at + 1;
        let behind_a_number = chars.get(..at)?.iter().rev().find(|c| **c != ' ').is_some_and(char::is_ascii_digit);
        (!bare || behind_a_number).then_some((unit, scale, end, (end, end)))
    })
}

/// `mg/l`, `mg N/l`, `mg(Cl2)/L`, `mg l-1`, `g/m3`.
fn per_litre(shown: &[char], chars: &[char], at: usize) -> Option<Hit> {
    ABOVE.iter().find_map(|&(text, unit, scale)| {
        let glued = text.len() > 1 && scale <= 1.0;
        let above = starts(chars, at, text).filter(|&end| ends_above(chars, end, glued))?;
        let (stroke, below) = stroke(chars, above)?;
        let inside: String = chars.get(above..stroke)?.iter().collect();
        let plain = inside.chars().all(|c| {
            c.is_alphanumeric() || is_charge(c) || matches!(c, ' ' | '(' | ')' | '[' | ']' | ',' | '.' | '·' | '_')
        });
        // "Mg mg/L", "(Mg) 19 mg/l": the first is magnesium; in "mg Mg/L" the second is. "mg SO4 2-/L" has a charge.
        let charge = |w: &str| matches!(w.as_bytes(), [_, sign] if is_charge(char::from(*sign)));
        let number = |w: &str| w.starts_with(|c: char| c.is_ascii_digit()) && !charge(w);
        let other = |w: &str| ABOVE.iter().any(|(text, ..)| *text == w.trim_start_matches(['(', '['])) || number(w);
        let of_magnesium =
            text == "mg" && shown.get(above..stroke) == Some(&[' ', 'M', 'g']) && shown.get(at) == Some(&'m');
        if !plain || inside.split_whitespace().count() > 3 || inside.split_whitespace().any(other) && !of_magnesium {
            return None;
        }
        let below = (below..chars.len()).find(|&i| chars.get(i) != Some(&' '))?;
        let (end, cubic) = under(chars, below)?;
        let (unit, scale) = match (cubic, unit) {
            // mg/m3 is µg/L, g/m3 is mg/L, mol/m3 is mmol/L.
            (true, Unit::MgPerL) if scale == 1.0 => (Unit::UgPerL, 1.0),
            (true, _) => (unit, scale * 1e-3),
            (false, _) => (unit, scale),
        };
        Some((unit, scale, end, (above, stroke)))
    })
}

/// Where the stroke stands, and where what is below it begins.
fn stroke(chars: &[char], above: usize) -> Option<(usize, usize)> {
    (above..chars.len().min(above + 24)).find_map(|i| match chars.get(i)? {
        '/' => Some((i, i + 1)),
        ' ' | '·' | '.' | '*' | '×' | '⋅' | '∙' => {
            let l = i + 1;
            ["l-1", "l^-1", "dm-3", "m-3"].iter().any(|below| starts(chars, l, below).is_some()).then_some((i, l))
        }
        'p' => ["per ", "pro ", "par ", "por "].iter().find_map(|per| starts(chars, i, per)).map(|end| (i, end)),
        'j' => starts(chars, i, "je ").map(|end| (i, end)),
        _ => None,
    })
}

/// What is below the stroke: its end, and whether it is a cubic metre.
fn under(chars: &[char], at: usize) -> Option<(usize, bool)> {
    let litre = [
        "litres", "litre", "liters", "liter", "litros", "litro", "dm-3", "dm3", "l^-1", "l-1", "ltr", "lit", "lt",
        "kg", "l",
    ];
    let found = |words: &[&str]| words.iter().find_map(|w| starts(chars, at, w).filter(|&e| ends_word(chars, e)));
    found(&litre).map(|end| (end, false)).or_else(|| found(&["m3", "m-3"]).map(|end| (end, true)))
}

/// Whether a folded word is that for degrees where they are of Celsius: not in English.
pub(crate) fn is_word_of_celsius(word: &str) -> bool {
    matches!(word, "grad" | "graden" | "graad" | "degre" | "degres" | "grado" | "grados")
}

/// Whether a text is a degree of hardness and nothing else: "°dH".
pub(crate) fn is_degree(text: &str) -> bool {
    let degree = |u: Unit| matches!(u, Unit::FrenchDegree | Unit::GermanDegree | Unit::EnglishDegree | Unit::Grains);
    text.chars().count() > 1
        && text.len() <= 40
        && find(text).is_some_and(|f| degree(f.unit))
        && !without(text).contains(char::is_alphanumeric)
}

/// Whether a text is a degree of hardness in words ("French degrees", "degrees Clark", "Grad dH") and nothing else.
pub(crate) fn is_hardness(text: &str) -> bool {
    use Unit::*;
    let degree = |f: &Found| matches!(f.unit, FrenchDegree | GermanDegree | EnglishDegree | Grains);
    let letters = text.chars().filter(|c| c.is_alphabetic()).count();
    letters > 3 && find(text).is_some_and(|f| degree(&f)) && !without(text).contains(char::is_alphanumeric)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_reports_print_them() {
        for (text, unit, scale, inside) in [
            ("mg/l NO3", Unit::MgPerL, 1.0, ""),
            ("mg N/l", Unit::MgPerL, 1.0, " n"),
            ("0,18 mg(Cl2)/L", Unit::MgPerL, 1.0, "(cl2)"),
            ("Calcium (mg/l Ca)", Unit::MgPerL, 1.0, ""),
            ("µg·l-1", Unit::UgPerL, 1.0, ""),
            ("g/m³", Unit::MgPerL, 1.0, ""),
            ("mg/m3", Unit::UgPerL, 1.0, ""),
            ("mol/m3", Unit::MmolPerL, 1.0, ""),
            ("mS/m", Unit::MsPerM, 1.0, ""),
            ("1,2 mS/cm", Unit::UsPerCm, 1e3, ""),
            ("12 °dH", Unit::GermanDegree, 1.0, ""),
            ("28,4 °F", Unit::FrenchDegree, 1.0, ""),
            ("6 dKH", Unit::GermanDegree, 1.0, ""),
            ("µmhos/cm", Unit::UsPerCm, 1.0, ""),
            ("9,2 °C", Unit::Celsius, 1.0, ""),
            ("13.5 C", Unit::Celsius, 1.0, ""),
            ("mgN/l", Unit::MgPerL, 1.0, "n"),
            ("mgCaCO3/l", Unit::MgPerL, 1.0, "caco3"),
            ("mg·dm-3", Unit::MgPerL, 1.0, ""),
            ("mg.l-1", Unit::MgPerL, 1.0, ""),
            ("mg l⁻¹", Unit::MgPerL, 1.0, ""),
            ("mg/l¹⁾", Unit::MgPerL, 1.0, ""),
            ("µS.cm-1", Unit::UsPerCm, 1.0, ""),
            ("µeq/l", Unit::MeqPerL, 1e-3, ""),
            ("meq", Unit::MeqPerL, 1.0, ""),
            ("milligrams per litre", Unit::MgPerL, 1.0, " "),
            ("gr/gal", Unit::Grains, 1.0, ""),
            ("d°fr", Unit::FrenchDegree, 1.0, ""),
            ("N.T.U", Unit::Ntu, 1.0, ""),
            ("TE(F)", Unit::Ntu, 1.0, ""),
            ("Mg mg/L", Unit::MgPerL, 1.0, ""),
            ("mg Mg/L", Unit::MgPerL, 1.0, " mg"),
            ("mg SO4=/L", Unit::MgPerL, 1.0, " so4="),
            ("mgSO4--/L", Unit::MgPerL, 1.0, "so4--"),
            ("mg SO4 2-/L", Unit::MgPerL, 1.0, " so4 2-"),
            ("mg Ca²⁺/l", Unit::MgPerL, 1.0, " ca2+"),
            ("Magnesium (Mg) 19,0 mg/l", Unit::MgPerL, 1.0, ""),
        ] {
            let found = find(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!((found.unit, found.inside.to_lowercase().as_str()), (unit, inside), "{text}");
            assert!((found.scale / scale - 1.0).abs() < 1e-12, "{text}: {}", found.scale);
        }
        // No spelling begins with another letter.
        let spelled = WHOLE.iter().chain(&MORE).flat_map(|(_, _, texts)| texts.iter());
        let all = spelled.chain(ABOVE.iter().map(|(text, ..)| text));
        assert!(all.clone().count() > 60 && all.into_iter().all(|t| t.starts_with(FIRST)));
        assert!(begins("mg Mg/L") && !begins("Mg mg/L") && !begins("Mg (mg/l)"));
        for text in ["Mg", "magnesium", "no./100ml", "Nitrates/50 + Nitrites/3", "F", "g", "mg/l C".get(5..).unwrap()] {
            assert_eq!(find(text), None, "{text}");
        }
    }
}
