//! What a water usually holds: the starting point for whatever nobody measured.
//!
//! **What.** `data/waters.toml` gives, for a determinand that a report leaves out, a value and the range that holds it
//! in 90 of 100 waters. Here they become a bell over the logarithm with two halves of their own width.
//!
//! **Equation.** With (v, l, h) the row: centre ln v, width below ln(v/l)/1.645, above ln(h/v)/1.645; each half holds
//! half of the waters. Where l is 0 all that the range leaves out lies above: width above ln(h/v)/1.282, below
//! ln(20)/1.282, and the range of an estimate that does not exclude 0 is told from 0 on. A v of 0 has no logarithm and
//! counts as a twentieth of h. Hardness: the sums of both rows; magnesium's share: its row beside the usual calcium,
//! over the logit.
//!
//! **Symbols.** mg/L; hardness meq/L. 1.645 and 1.282: the normal's 95th and 90th percentile.
//!
//! **Range.** Tap waters; the rows are mostly assumed, so that a wider one costs nothing but width.
//!
//! **Source.** `data/waters.toml`; the twentieths are assumed.
//!
//! **Checked by** `tests/twin_experiment.rs`.

use knowledge::{Place, book};
use quantity::{Ion, Known};

use super::linear::Vector;
use super::state::{HARDNESS, N, SHARE, ions, meq_per_mg};

/// Standard deviations from the centre to the end of a 90 % range.
pub(crate) const TO_90: f64 = 1.645;
/// Standard deviations from the centre to what 90 of 100 lie below.
pub(super) const TO_90_BELOW: f64 = 1.282;
/// Least share of the upper end that a value counts as, and of the value that a lower end counts as.
const LEAST: f64 = 0.05;

/// What is usual, over the unknowns.
#[derive(Clone, Debug)]
pub struct Usual {
    /// Where, for the rows of traces.
    pub(super) place: Place,
    pub(super) centre: Vector,
    pub(super) below: Vector,
    pub(super) above: Vector,
    /// An amount under which it may as well be nothing; 0 where waters usually hold some.
    pub(super) nothing: Vector,
}

impl Usual {
    /// What is usual in a place.
    pub fn at(place: Place) -> Usual {
        let row = |ion: Ion| match book().unreported(place, ion) {
            Some(row) => row.mg_per_l.known(),
            None => Known::ranged(0.0, 0.0, 1.0, quantity::Kind::Assumed),
        };
        let mut usual = Usual { place, centre: [0.0; N], below: [1.0; N], above: [1.0; N], nothing: [0.0; N] };
        for (i, ion) in ions() {
            usual.of_row(i, row(ion));
        }
        let (ca, mg) = (row(Ion::Calcium), row(Ion::Magnesium));
        let meq = |ca: f64, mg: f64| ca * meq_per_mg(Ion::Calcium) + mg * meq_per_mg(Ion::Magnesium);
        let hardness = [(ca.low, mg.low), (ca.value, mg.value), (ca.high, mg.high)].map(|(ca, mg)| meq(ca, mg));
        usual.set(HARDNESS, hardness, f64::ln);
        let share = [mg.low, mg.value, mg.high].map(|mg| meq(0.0, mg) / meq(ca.value, mg));
        usual.set(SHARE, share, |s| (s / (1.0 - s)).ln());
        usual
    }

    fn of_row(&mut self, i: usize, row: Known<f64>) {
        let value = row.value.max(LEAST * row.high);
        let high = row.high.max(value * 1.01);
        if row.low > 0.0 {
            return self.set(i, [row.low, value, high], f64::ln);
        }
        self.nothing[i] = LEAST * value;
        self.centre[i] = value.ln();
        self.below[i] = -LEAST.ln() / TO_90_BELOW;
        self.above[i] = (high / value).ln() / TO_90_BELOW;
    }

    fn set(&mut self, i: usize, [low, value, high]: [f64; 3], over: impl Fn(f64) -> f64) {
        self.centre[i] = over(value);
        self.below[i] = (over(value) - over(low)) / TO_90;
        self.above[i] = (over(high) - over(value)) / TO_90;
    }

    /// Nothing usual about these unknowns: ten times as wide.
    pub(super) fn free(&self, free: &[bool; N]) -> Usual {
        let mut usual = self.clone();
        for (i, _) in free.iter().enumerate().filter(|(_, free)| **free) {
            usual.below[i] *= 10.0;
            usual.above[i] *= 10.0;
        }
        usual
    }

    /// Standard deviation of the half in which an unknown lies.
    pub(super) fn width(&self, i: usize, u: f64) -> f64 {
        if u < self.centre[i] { self.below[i] } else { self.above[i] }
    }

    /// How far an unknown is from the usual, in standard deviations.
    pub(super) fn residual(&self, i: usize, u: f64) -> f64 {
        (u - self.centre[i]) / self.width(i, u)
    }
}
