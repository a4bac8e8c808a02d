//! Drawings as SVG, by pure functions: one ink, a title and a description for whoever can't see them, a table beside.

pub mod gear;
pub mod ions;
pub mod scape;
pub mod section;
pub mod staff;

use std::fmt;

use maud::{Markup, html};

/// What every drawing begins with: its paper, its title and its description, named by `id`, unlike any other of the page.
pub struct Frame<'a> {
    /// Begins the names of title and description.
    pub id: &'a str,
    /// Class of the drawing.
    pub class: Option<&'a str>,
    /// Left, top, width and height of the paper.
    pub paper: [f64; 4],
    /// Height of its letters in units of the paper, where they grow with it.
    pub letter: Option<f64>,
    /// What it shows, in a line.
    pub title: &'a str,
    /// What is to be seen on it, in sentences.
    pub words: &'a str,
}

impl Frame<'_> {
    /// The drawing round its strokes.
    pub fn draw(&self, strokes: Markup) -> Markup {
        let (title, words) = (format!("{}-title", self.id), format!("{}-words", self.id));
        let paper = self.paper.map(|size| format!("{}", (size * 10.0).round() / 10.0)).join(" ");
        html! {
            svg class=[self.class] viewBox=(paper) font-size=[self.letter.map(|letter| format!("{letter:.1}"))] role="img"
                aria-labelledby=(format!("{title} {words}")) {
                title id=(title) { (self.title) }
                desc id=(words) { (self.words) }
                (strokes)
            }
        }
    }
}

/// A length to a tenth, as `{:.1}` writes it and in a fraction of its time: drawings have thousands of them.
pub fn tenths(x: f64) -> Rounded {
    Rounded(x, 1)
}

/// A length to a hundredth, as `{:.2}` writes it.
pub fn hundredths(x: f64) -> Rounded {
    Rounded(x, 2)
}

/// A number that is written with so many decimals.
pub struct Rounded(f64, usize);

impl fmt::Display for Rounded {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let Rounded(x, decimals) = *self;
        let whole = [1.0, 10.0, 100.0][decimals];
        let (scaled, sign) = ((x * whole).abs(), if x.is_sign_negative() { "-" } else { "" });
        let nearest = scaled.round();
        // Near the middle between two the binary digits decide, which the library knows.
        if !(nearest < 1e9 && (scaled - nearest).abs() < 0.499) {
            return write!(f, "{x:.decimals$}");
        }
        let (units, parts) = (nearest as u32 / whole as u32, nearest as u32 % whole as u32);
        write!(f, "{sign}{units}.{parts:0decimals$}")
    }
}

/// Pushes words apart so that none lies on another, and keeps them between `top` and `bottom`: each is the height at which
/// its upper edge wants to stand and how tall it is, the uppermost first.
fn spread(words: &mut [(f64, f64)], top: f64, bottom: f64) {
    let mut floor = top;
    for (y, tall) in words.iter_mut() {
        *y = y.max(floor);
        floor = *y + *tall;
    }
    let mut ceiling = bottom;
    for (y, tall) in words.iter_mut().rev() {
        *y = y.min(ceiling - *tall);
        ceiling = *y;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_never_lie_on_each_other_and_stay_beside_the_drawing() {
        let crowd: Vec<(f64, f64)> = (0..8).map(|i| (200.0 + f64::from(i), 17.0 * f64::from(1 + i % 2))).collect();
        for (top, bottom) in [(16.0, 273.0), (0.0, 400.0)] {
            let mut words = crowd.clone();
            spread(&mut words, top, bottom);
            assert!(words.windows(2).all(|pair| pair[1].0 - pair[0].0 >= pair[0].1 - 1e-9), "{words:?}");
            assert!(words[0].0 >= top && words[7].0 + words[7].1 <= bottom + 1e-9, "{words:?}");
        }
    }

    /// Checked by the library's own `{:.1}` and `{:.2}`: ties, both zeros, the edge of the short way, no numbers.
    #[test]
    fn lengths_are_written_as_the_library_writes_them() {
        let odd = [
            0.0,
            -0.0,
            0.05,
            0.25,
            -0.04,
            -0.05,
            0.15,
            2.675,
            99.95,
            -99.995,
            1e8,
            1e9,
            1e300,
            f64::NAN,
            f64::INFINITY,
        ];
        let many = (0..20_000).map(|i| (f64::from(i) - 9000.0) * 0.0371);
        let halves = (-400..400).map(|i| f64::from(i) / 200.0);
        for x in odd.into_iter().chain(many).chain(halves) {
            assert_eq!(tenths(x).to_string(), format!("{x:.1}"));
            assert_eq!(hundredths(x).to_string(), format!("{x:.2}"));
        }
    }

    #[test]
    fn words_with_room_stand_where_they_want() {
        let mut words = vec![(20.0, 17.0), (90.0, 34.0)];
        spread(&mut words, 0.0, 200.0);
        assert_eq!(words, [(20.0, 17.0), (90.0, 34.0)]);
    }
}
