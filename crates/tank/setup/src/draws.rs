//! Balanced draws over a tap's range: waters that could be, each with its charge closed.
//!
//! What: not all ions stand at their minimum at once, so pH and saturation are asked of whole waters and not of ends.
//! Levels are bounded ion by ion elsewhere; these draws are for what needs a whole water.
//!
//! Equation: every ion and the alkalinity is drawn on its own, half of the draws evenly between low and best estimate,
//! half between best estimate and high. What charge this leaves open is taken up by the ions (and alkalinity) with the
//! widest ranges in meq/L first, each within its range. Where calcium and magnesium are two parts of a known hardness
//! (`hardness.rs`), calcium is drawn, magnesium is the rest, and neither takes up charge.
//!
//! Symbols: mg/L of the ion, meq/L.
//!
//! Range: what the ranges can't close stays open and is told in [`Draw::open_meq_per_l`]: it is the analysis's own error.
//!
//! Source: our own rule; the generator is SplitMix64 (Steele, Lea & Flood 2014, source key `steele_2014`).
//!
//! Checked by: `tests/identities.rs` (ranges, closed charge), the generator against its published sequence.

use quantity::{Ion, Known};

use crate::SourceWater;
use crate::balance::{charge_meq_per_l, equivalents};

/// One water that could be.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Draw {
    /// mg/L of each ion, in the order of [`Ion::MAJOR`].
    pub mg_per_l: [f64; 9],
    /// meq/L.
    pub alkalinity_meq_per_l: f64,
    /// Cations less anions less alkalinity that the ranges could not close, meq/L.
    pub open_meq_per_l: f64,
}

impl Draw {
    /// mg/L of one of [`Ion::MAJOR`]; 0 for others.
    pub fn mg_per_l(&self, ion: Ion) -> f64 {
        Ion::MAJOR.iter().position(|&major| major == ion).map_or(0.0, |at| self.mg_per_l[at])
    }
}

/// `n` draws of a water. The same seed gives the same draws.
pub fn draws(water: &SourceWater, n: usize, seed: u64) -> Vec<Draw> {
    let mut random = SplitMix64(seed);
    // The alkalinity is the tenth of the ranges: an anion of one equivalent a mole, in meq/L.
    let ranges: [Known<f64>; 10] = std::array::from_fn(|i| match Ion::MAJOR.get(i) {
        Some(&ion) => water.mg_per_l(ion),
        None => water.alkalinity_meq_per_l,
    });
    let charge = |i: usize, amount: f64| Ion::MAJOR.get(i).map_or(-amount, |&ion| charge_meq_per_l(ion, amount));
    let amount = |i: usize, meq: f64| match Ion::MAJOR.get(i) {
        Some(&ion) => meq / equivalents(ion) * ion.molar_mass(),
        None => -meq,
    };
    let width = |i: usize| charge(i, ranges[i].high - ranges[i].low).abs();
    let mut widest: [usize; 10] = std::array::from_fn(|i| i);
    widest.sort_by(|&a, &b| width(b).total_cmp(&width(a)).then(a.cmp(&b)));
    let place = |ion: Ion| Ion::MAJOR.iter().position(|&major| major == ion);
    let split = place(Ion::Calcium).zip(place(Ion::Magnesium)).filter(|_| water.is_split());
    let movable = |i: usize| split.is_none_or(|(ca, mg)| i != ca && i != mg);
    let one = |_| {
        let mut drawn: [f64; 10] = std::array::from_fn(|i| ranges[i].at(random.next_share()));
        if let Some((ca, mg)) = split {
            let rest = charge(mg, ranges[mg].value) + charge(ca, ranges[ca].value - drawn[ca]);
            drawn[mg] = amount(mg, rest).min(ranges[mg].high).max(ranges[mg].low);
        }
        let mut open: f64 = (0..10).map(|i| charge(i, drawn[i])).sum();
        for &i in widest.iter().filter(|&&i| movable(i)) {
            let before = drawn[i];
            drawn[i] = (before - amount(i, open)).min(ranges[i].high).max(ranges[i].low);
            open += charge(i, drawn[i] - before);
        }
        let [mg_per_l @ .., alkalinity_meq_per_l] = drawn;
        Draw { mg_per_l, alkalinity_meq_per_l, open_meq_per_l: open }
    };
    (0..n).map(one).collect()
}

/// A place in a range.
trait At {
    /// The value at a share of 0 to 1 of all draws, evenly on either side of the best estimate, which stands at 0.5.
    fn at(&self, share: f64) -> f64;
}

impl At for Known<f64> {
    fn at(&self, share: f64) -> f64 {
        let (from, to, along) =
            if share < 0.5 { (self.low, self.value, 2.0 * share) } else { (self.value, self.high, 2.0 * share - 1.0) };
        from + (to - from) * along
    }
}

/// SplitMix64: a counter and a mixing of its bits.
struct SplitMix64(u64);

impl SplitMix64 {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Evenly over 0 to 1, without 1: the upper 53 bits.
    fn next_share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First numbers for seed 1234567, from memory of the sequence that implementations are commonly compared by.
    #[test]
    fn the_generator_gives_its_published_sequence() {
        let mut random = SplitMix64(1_234_567);
        let first: [u64; 3] = std::array::from_fn(|_| random.next());
        assert_eq!(first, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }
}
