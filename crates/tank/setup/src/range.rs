//! How the ranges of inputs become the range of a result.
//!
//! Equation: each input is moved to its low and its high end alone; the moves of the result, being of causes that have
//! nothing to do with each other, are added as squares, downward moves and upward moves apart.
//!
//! Range: results that run evenly with each input over its range.
//!
//! Source: propagation of independent causes (source key `gum_2008`), taken from end to end instead of by slopes.
//!
//! Checked by: `tests/closed_form_glass.rs`.

use quantity::{Kind, Known};

/// The result of `of` at the best estimates, with its likely range. Its kind is "worked out", or that of the weakest
/// input that moves it.
pub fn propagate<const N: usize>(inputs: &[Known<f64>; N], of: impl Fn(&[f64; N]) -> f64) -> Known<f64> {
    let best = inputs.map(|known| known.value);
    let value = of(&best);
    let (mut below, mut above, mut kind) = (0.0, 0.0, Kind::WorkedOut);
    for (i, input) in inputs.iter().enumerate() {
        let moved = [input.low, input.high].map(|end| {
            let mut point = best;
            point[i] = end;
            of(&point) - value
        });
        let (down, up) = (moved[0].min(moved[1]).min(0.0), moved[0].max(moved[1]).max(0.0));
        below += down * down;
        above += up * up;
        if down != 0.0 || up != 0.0 {
            kind = kind.weaker(input.kind);
        }
    }
    Known::ranged(value - below.sqrt(), value, value + above.sqrt(), kind)
}
