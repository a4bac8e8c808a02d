//! Letters that a page sets as two signs: an accent drawn over its letter, a raised ring for a degree.

use super::glyphs::{Glyph, Letters};

/// Accents that stand alone, with the letters they go over and what both are.
const ACCENTS: [(char, &str, &str); 7] = [
    ('\u{a8}', "aeiouyAEIOU", "äëïöüÿÄËÏÖÜ"),
    ('\u{b4}', "aeiouAEIOU", "áéíóúÁÉÍÓÚ"),
    ('`', "aeiouAEIOU", "àèìòùÀÈÌÒÙ"),
    ('\u{2c6}', "aeiouAEIOU", "âêîôûÂÊÎÔÛ"),
    ('\u{2dc}', "naoNAO", "ñãõÑÃÕ"),
    ('\u{b8}', "cC", "çÇ"),
    ('\u{2da}', "aA", "åÅ"),
];

/// The glyphs with accents put to the letters beside them in the page's order, and signs that stand for others as these.
pub(crate) fn settled(mut glyphs: Vec<Glyph>) -> Vec<Glyph> {
    for glyph in &mut glyphs {
        match &mut glyph.text {
            // A soft hyphen that is drawn is a hyphen.
            Letters::One(c @ '\u{ad}') => *c = '-',
            Letters::One(c @ ('\u{25e6}' | '\u{2218}')) => *c = '°',
            _ => {}
        }
    }
    for at in 0..glyphs.len() {
        let beside = [at.checked_add(1), at.checked_sub(1)].into_iter().flatten();
        let found = beside.filter_map(|i| Some((i, whole(glyphs.get(at)?, glyphs.get(i)?)?))).next();
        let Some((letter, both)) = found else { continue };
        glyphs.get_mut(letter).into_iter().for_each(|g| g.text = Letters::One(both));
        glyphs.get_mut(at).into_iter().for_each(|g| g.text = Letters::One(' '));
    }
    glyphs
}

/// The letter with its accent, where the accent is drawn over it.
fn whole(accent: &Glyph, letter: &Glyph) -> Option<char> {
    let (Letters::One(sign), Letters::One(plain)) = (&accent.text, &letter.text) else { return None };
    let (_, letters, both) = ACCENTS.iter().find(|(a, ..)| a == sign)?;
    let at = letters.chars().position(|c| c == *plain)?;
    let (middle, wide) = (0.5 * (accent.x0 + accent.x1), letter.x1 - letter.x0);
    let over = middle > letter.x0 + 0.1 * wide && middle < letter.x1 - 0.1 * wide;
    (over && (accent.y - letter.y).abs() < 0.5 * letter.size).then(|| both.chars().nth(at)).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_accent_goes_over_its_letter_alone() {
        let glyph = |x0: f64, x1: f64, c| Glyph { x0, x1, y: 100.0, size: 10.0, text: Letters::One(c) };
        let read = |glyphs: &[Glyph]| {
            settled(glyphs.to_vec())
                .iter()
                .map(|g| if let Letters::One(c) = g.text { c } else { '?' })
                .collect::<String>()
        };
        assert_eq!(read(&[glyph(10.0, 15.0, '\u{a8}'), glyph(10.0, 15.0, 'a'), glyph(15.0, 18.0, 't')]), " ät");
        assert_eq!(read(&[glyph(10.0, 15.0, '\u{a8}'), glyph(15.0, 20.0, 'a')]), "¨a");
        assert_eq!(read(&[glyph(10.0, 15.0, 'e'), glyph(10.0, 15.0, '\u{b4}')]), "é ");
        assert_eq!(read(&[glyph(10.0, 15.0, '\u{25e6}'), glyph(15.0, 20.0, 'C')]), "°C");
    }
}
