//! Drawings as SVG, by pure functions: one ink, a title and a description for whoever can't see them, a table beside.

pub mod gear;
pub mod ions;
pub mod scape;
pub mod section;
pub mod staff;

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

    #[test]
    fn words_with_room_stand_where_they_want() {
        let mut words = vec![(20.0, 17.0), (90.0, 34.0)];
        spread(&mut words, 0.0, 200.0);
        assert_eq!(words, [(20.0, 17.0), (90.0, 34.0)]);
    }
}
