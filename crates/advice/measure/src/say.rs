//! Numbers in sentences, the keeper's decimal sign in them.

use quantity::{Digits, Kind, Known, Units, Why};

/// Writes numbers in the keeper's way.
pub(crate) struct Pen<'a>(pub(crate) &'a Units);

impl Pen<'_> {
    /// At most so many figures.
    pub(crate) fn n(&self, value: f64, figures: u8) -> String {
        self.0.number(value, Digits::Significant(figures))
    }

    /// "likely 4.2 to 6.1", two or three figures.
    pub(crate) fn likely(&self, known: Known<f64>) -> String {
        format!("likely {} to {}", self.n(known.low, 3), self.n(known.high, 3))
    }

    /// Half the range as a share of the value, in percent: "± 8 %".
    pub(crate) fn percent_off(&self, known: Known<f64>) -> String {
        let share = if known.value > 0.0 { (known.high - known.low) / (2.0 * known.value) } else { 0.0 };
        format!("± {} %", self.n(100.0 * share, 2))
    }
}

/// The range of a result as [`setup::propagate`] has it. `None`: at the end of some input nothing comes out.
pub(crate) fn spread<const N: usize>(inputs: &[Known<f64>; N], of: impl Fn(&[f64; N]) -> f64) -> Option<Known<f64>> {
    let best = inputs.map(|known| known.value);
    let finite = |i: usize, end: f64| {
        let mut point = best;
        if let Some(at) = point.get_mut(i) {
            *at = end;
        }
        of(&point).is_finite()
    };
    let all = inputs
        .iter()
        .enumerate()
        .all(|(i, known)| [known.low, known.value, known.high].iter().all(|end| finite(i, *end)));
    all.then(|| Known { kind: Kind::Measured, ..setup::propagate(inputs, of) })
}

/// A why-note.
pub(crate) fn why(key: &str, question: String, sum: String, words: &str, sources: &[&str]) -> Why {
    let book = knowledge::book();
    let sources = sources.iter().filter(|key| book.cite(key).is_some()).map(|key| (*key).to_owned()).collect();
    Why { key: key.to_owned(), question, sum, words: words.to_owned(), sources, kind: Kind::Measured }
}

/// The sentence of a rule of harm, by its key.
pub(crate) fn rule(key: &str) -> String {
    knowledge::book().harm.say(key).unwrap_or_default().to_owned()
}
