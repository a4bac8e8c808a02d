//! What a water usually holds: the starting point for whatever nobody measured.
//!
//! **What.** `data/waters.toml` gives, for a determinand that a report leaves out, a value and the range that holds it
//! in 90 of 100 waters of one region. Here they become a bell over the logarithm with two halves of their own width. Which
//! region it is nobody said, so all main ions may be shifted together: a region of rich or of poor waters.
//!
//! **Equation.** With (v, l, h) the row: centre ln v, width below ln(v/l)/1.645, above ln(h/v)/1.645; each half holds
//! half of the waters. Main ions: both widths grow to √(w² + g²), g the `regions` of `data/methods.toml`, and
//! the deviations z are bound by the correlation R: Rij = ρi ρj, Rii = 1, ρ = g/√(width below × width above). Hence
//! ln p = -zᵀR⁻¹z/2 - Σ ln width. Where l is 0, as of traces, and where an ion was looked for and not found, half of the
//! waters lie evenly between 0 and v, ln p = ln c, and nothing binds them. A v of 0 counts as a twentieth of h; above v all
//! that the range leaves out lies above: ln(h/v)/1.282. Calcium and magnesium stand for hardness H and magnesium's share r of
//! it: ln Ca = ln H + ln(1 - r), ln Mg = ln H + ln r, whose determinant over ln H and the logit of r is 1.
//!
//! **Symbols.** c mg/L. 1.645 and 1.282: the normal's 95th and 90th percentile.
//!
//! **Range.** Tap waters; the rows are mostly assumed, so that a wider one costs nothing but width.
//!
//! **Source.** `data/waters.toml`; g: between two surveys, `michael_somani_2022` and `municipal_water_98_2015`; R: a random
//! effect with one factor (textbook, from memory); R⁻¹ by Sherman & Morrison; the twentieth is assumed.
//!
//! **Checked by** `tests/twin_experiment.rs`, `tests/by_hand_estimate.rs`.

use knowledge::{Place, book};
use quantity::{Ion, Known};

use super::linear::{Matrix, Vector, dot};
use super::state::{N, ions, log_slopes, logs};

/// Standard deviations from the centre to the end of a 90 % range.
pub(crate) const TO_90: f64 = 1.645;
/// Standard deviations from the centre to what 90 of 100 lie below.
const TO_90_BELOW: f64 = 1.282;
/// Least share of the upper end that a value counts as.
const LEAST: f64 = 0.05;
/// ln √(2π), of the normal's density.
const LN_NORMAL: f64 = 0.918_938_533_204_672_7;

/// What is usual, over ln of mg/L of each ion.
#[derive(Clone, Debug)]
pub struct Usual {
    /// Where, for the rows of traces.
    pub(super) place: Place,
    pub(super) centre: Vector,
    below: Vector,
    above: Vector,
    /// How much of each deviation its region brings: ρ.
    shared: Vector,
    /// Evenly spread from nothing up to this ln of mg/L; none where waters usually hold some.
    pub(super) even_to: [Option<f64>; N],
}

impl Usual {
    /// What is usual in a place.
    pub fn at(place: Place) -> Usual {
        let row = |ion: Ion| match book().unreported(place, ion) {
            Some(row) => row.mg_per_l.known(),
            None => Known::ranged(0.0, 0.0, 1.0, quantity::Kind::Assumed),
        };
        let ones = [1.0; N];
        let mut usual =
            Usual { place, centre: [0.0; N], below: ones, above: ones, shared: [0.0; N], even_to: [None; N] };
        for (i, ion) in ions() {
            usual.of_row(i, row(ion));
        }
        usual
    }

    fn of_row(&mut self, i: usize, row: Known<f64>) {
        let value = row.value.max(LEAST * row.high);
        let high = row.high.max(value * 1.01);
        self.centre[i] = value.ln();
        if row.low <= 0.0 {
            self.above[i] = (high / value).ln() / TO_90_BELOW;
            self.even_to[i] = Some(value.ln());
            return;
        }
        // The row knows one region; which one it is nobody said.
        let apart = book().methods.analysis.regions.value;
        self.below[i] = ((value / row.low).ln() / TO_90).hypot(apart);
        self.above[i] = ((high / value).ln() / TO_90).hypot(apart);
        self.shared[i] = apart / (self.below[i] * self.above[i]).sqrt();
    }

    /// Nothing usual about these unknowns: ten times as wide, and they tell nothing of others.
    pub(super) fn free(&self, free: &[bool; N]) -> Usual {
        let mut usual = self.clone();
        for (i, _) in free.iter().enumerate().filter(|(_, free)| **free) {
            usual.below[i] *= 10.0;
            usual.above[i] *= 10.0;
            usual.shared[i] = 0.0;
        }
        usual
    }

    /// An ion was looked for and not found, below a limit that waters may well pass: evenly anywhere from nothing on. Its best
    /// value is half of the limit (common practice).
    pub(super) fn not_found(&mut self, i: usize, limit: f64) {
        // A trace lies anywhere below what waters may hold; of a main ion more is known than that it lies below a high limit.
        let reach = self.even_to[i].map_or(self.centre[i], |edge| edge + TO_90_BELOW * self.above[i]);
        if limit <= 0.0 || limit.ln() >= reach {
            return;
        }
        self.even_to[i] = Some(self.even_to[i].unwrap_or(self.centre[i]).max(limit.ln()));
        // The spread of ln c where c is even: the mean square about the mean of an exponential is 1.
        (self.centre[i], self.below[i], self.shared[i]) = ((0.5 * limit).ln(), 1.0, 0.0);
    }

    /// Standard deviations of the halves in which the ions lie.
    fn widths(&self, ln: &Vector) -> Vector {
        std::array::from_fn(|i| if ln[i] < self.centre[i] { self.below[i] } else { self.above[i] })
    }

    /// How far the ions are from the usual, in standard deviations.
    fn residuals(&self, ln: &Vector) -> Vector {
        let widths = self.widths(ln);
        std::array::from_fn(|i| (ln[i] - self.centre[i]) / widths[i])
    }

    /// R⁻¹ = D⁻¹ - D⁻¹ρρᵀD⁻¹/(1 + ρᵀD⁻¹ρ), D = 1 - ρ².
    fn bound(&self) -> (Vector, f64) {
        let weight: Vector = self.shared.map(|rho| rho / (1.0 - rho * rho));
        let sum: f64 = weight.iter().zip(&self.shared).map(|(w, rho)| w * rho).sum();
        (weight, 1.0 / (1.0 + sum))
    }

    /// zᵀR⁻¹z, what the usual adds to χ².
    pub(super) fn chi2(&self, u: &Vector) -> f64 {
        self.chi2_of(&self.residuals(&logs(u)))
    }

    fn chi2_of(&self, z: &Vector) -> f64 {
        let (weight, share) = self.bound();
        let alone: f64 = z.iter().zip(&self.shared).map(|(z, rho)| z * z / (1.0 - rho * rho)).sum();
        let together: f64 = z.iter().zip(&weight).map(|(z, w)| z * w).sum();
        alone - share * together * together
    }

    /// The usual as rows over the unknowns, one for each ion: its own pull with the others bound as they are. And what all of
    /// them add to the normal matrix, and their pull: W⁻¹R⁻¹W⁻¹ and -W⁻¹R⁻¹z, over the unknowns.
    pub(super) fn normal(&self, u: &Vector) -> Normal {
        let ln = logs(u);
        let (weight, share) = self.bound();
        let (z, width, slopes) = (self.residuals(&ln), self.widths(&ln), log_slopes(u));
        let mut normal = Normal { rows: [[0.0; N]; N], matrix: [[0.0; N]; N], pull: [0.0; N] };
        for i in 0..N {
            let mut inverse: Vector = std::array::from_fn(|j| -share * weight[i] * weight[j]);
            inverse[i] += 1.0 / (1.0 - self.shared[i].powi(2));
            let pull = dot(&inverse, &z) / width[i];
            for k in 0..N {
                let row: f64 = (0..N).map(|j| inverse[j] / width[j] * slopes[j][k]).sum();
                normal.rows[i][k] = row / inverse[i].sqrt();
                normal.pull[k] -= slopes[i][k] * pull;
                (0..N).for_each(|m| normal.matrix[m][k] += slopes[i][m] / width[i] * row);
            }
        }
        normal
    }

    /// ln p of the unknowns, up to a constant.
    pub(super) fn ln(&self, u: &Vector) -> f64 {
        let at = logs(u);
        let (mut z, widths) = (self.residuals(&at), self.widths(&at));
        let mut ln = 0.0;
        for i in 0..N {
            match self.even_to[i] {
                // Half of the waters, evenly over mg/L.
                Some(edge) if at[i] < edge => (z[i], ln) = (0.0, ln + at[i] - edge + 0.5_f64.ln()),
                Some(edge) => {
                    z[i] = (at[i] - edge) / self.above[i];
                    ln -= self.above[i].ln() + LN_NORMAL;
                }
                None => ln -= widths[i].ln() + LN_NORMAL,
            }
        }
        ln - 0.5 * self.chi2_of(&z)
    }
}

/// What the usual adds to the normal equations.
pub(super) struct Normal {
    /// For each ion; without it the others stay bound as they are.
    pub(super) rows: Matrix,
    pub(super) matrix: Matrix,
    pub(super) pull: Vector,
}
