//! What a water usually holds: the starting point for whatever nobody measured.
//!
//! **What.** `data/waters.toml` gives, for a determinand that a report leaves out, a value and the range that holds it
//! in 90 of 100 taps, wherever they are. Here they become a bell over the logarithm with two halves of their own width. Which
//! region it is nobody said, so a part of all widths is common to all main ions: a region of rich or of poor waters. Some waters were
//! softened, in the ground or at the works, which no bell shows: sodium is high where hardness is low.
//!
//! **Equation.** With (v, l, h) the row: centre ln v, width below ln(v/l)/1.645, above ln(h/v)/1.645; each half holds
//! half of the waters. Main ions: the deviations z are bound by the correlation R: Rij = ρi ρj, Rii = 1, ρ = g/√(width below × width
//! above), g the `regions` of `data/methods.toml`. Hence
//! ln p = -zᵀR⁻¹z/2 - Σ ln width. Where l is 0, as of traces, and where an ion was looked for and not found, half of the
//! waters lie evenly between 0 and v, ln p = ln c, and nothing binds them. A v of 0 counts as a twentieth of h; above v all
//! that the range leaves out lies above: ln(h/v)/1.282. Calcium and magnesium stand for hardness H and magnesium's share r of
//! it: ln Ca = ln H + ln(1 - r), ln Mg = ln H + ln r, whose determinant over ln H and the logit of r is 1.
//! Softened: p' = (1 - q) p(c) + q mean of p(c before) Na/Na before, over parts x of 0.2, 0.4, 0.6, 0.8 and both ways. By exchange
//! Ca and Mg were 1/(1 - x) of what they are and sodium less by x/(1 - x) (Ca + Mg), equivalents; by caustic soda, which throws
//! lime out, Ca was, and sodium less by x/(1 - x) Ca, moles. Only the ranges know of it: the best value is that of p.
//!
//! **Symbols.** c mg/L. 1.645 and 1.282: the normal's 95th and 90th percentile. q: `softened` of `data/methods.toml`.
//!
//! **Range.** Tap waters.
//!
//! **Source.** `data/waters.toml`: `flaten_1991`, `michael_somani_2022`, `municipal_water_98_2015`; g: between the last two; R: a random
//! effect with one factor (textbook, from memory); R⁻¹ by Sherman & Morrison; the twentieth, q and the parts are assumed.
//!
//! **Checked by** `tests/twin_experiment.rs`, `tests/published_deleted.rs`, `tests/by_hand_estimate.rs`.

use knowledge::{Place, book};
use quantity::{Ion, Known};

use super::linear::{Matrix, Vector, dot};
use super::state::{HARDNESS, N, SHARE, ions, log_slopes, logs, meq_per_mg};

/// Standard deviations from the centre to the end of a 90 % range.
pub(crate) const TO_90: f64 = 1.645;
/// Standard deviations from the centre to what 90 of 100 lie below.
const TO_90_BELOW: f64 = 1.282;
/// A row that is narrower than regions lie apart keeps some width of its own; assumed.
const MOST_SHARED: f64 = 0.9;
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
        self.below[i] = (value / row.low).ln() / TO_90;
        self.above[i] = (high / value).ln() / TO_90;
        // Which region it is nobody said: that part of the width is common to all.
        let apart = book().methods.analysis.regions.value;
        self.shared[i] = (apart / (self.below[i] * self.above[i]).sqrt()).min(MOST_SHARED);
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

    /// ln p of the unknowns, up to a constant: as it came from the ground, or softened.
    pub(super) fn ln(&self, u: &Vector) -> f64 {
        let at = logs(u);
        let share = book().methods.analysis.softened.value;
        let native = self.ln_native(&at);
        let ways = PARTS.iter().flat_map(|part| [before_exchange(&at, *part), before_caustic(&at, *part)]).flatten();
        let softened = ways.map(|before| (self.ln_native(&before) + at[SODIUM] - before[SODIUM] - native).exp());
        native + (1.0 - share + 0.5 * share * softened.sum::<f64>() / PARTS.len() as f64).ln()
    }

    /// ln p of a water as it came from the ground.
    fn ln_native(&self, at: &Vector) -> f64 {
        let (mut z, widths) = (self.residuals(at), self.widths(at));
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

/// Place of sodium.
const SODIUM: usize = Ion::Sodium as usize;
/// Parts that softening may have taken away, each as likely.
const PARTS: [f64; 4] = [0.2, 0.4, 0.6, 0.8];

/// ln of mg/L before this part of calcium and magnesium was exchanged for sodium, equivalent for equivalent; none where there is
/// too little sodium for it.
fn before_exchange(at: &Vector, part: f64) -> Option<Vector> {
    let hard = meq(at, Ion::Calcium) + meq(at, Ion::Magnesium);
    let mut before = less_sodium(at, part / (1.0 - part) * hard)?;
    [HARDNESS, SHARE].into_iter().for_each(|i| before[i] -= (1.0 - part).ln());
    Some(before)
}

/// ln of mg/L before caustic soda threw this part of calcium out as lime, a mole of sodium for a mole; none likewise.
fn before_caustic(at: &Vector, part: f64) -> Option<Vector> {
    let mut before = less_sodium(at, 0.5 * part / (1.0 - part) * meq(at, Ion::Calcium))?;
    before[HARDNESS] -= (1.0 - part).ln();
    Some(before)
}

fn meq(at: &Vector, ion: Ion) -> f64 {
    meq_per_mg(ion) * at[ion.index()].exp()
}

/// With so many meq/L of sodium less.
fn less_sodium(at: &Vector, meq: f64) -> Option<Vector> {
    let left = at[SODIUM].exp() - meq / meq_per_mg(Ion::Sodium);
    let mut less = *at;
    less[SODIUM] = (left > 0.0).then(|| left.ln())?;
    Some(less)
}

/// What the usual adds to the normal equations.
pub(super) struct Normal {
    /// For each ion; without it the others stay bound as they are.
    pub(super) rows: Matrix,
    pub(super) matrix: Matrix,
    pub(super) pull: Vector,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand (`iupac_2022`): Na 20, Ca 100, Mg 10 mg/L are 0.8699, 4.9903, 0.8229 meq/L. Two fifths exchanged leave 60 and 6 and add
    /// 0.4 × 5.8132 = 2.3253 meq/L of sodium: 3.1952, 73.46 mg/L. Two fifths of the calcium thrown out, 0.99805 mmol/L, leave 60 and
    /// add as much sodium: 1.8680 mmol/L, 42.94 mg/L.
    #[test]
    fn what_was_softened_turns_back() {
        let mg = |sodium: f64, calcium: f64, magnesium: f64| {
            let mut at: Vector = [0.0; N];
            (at[SODIUM], at[HARDNESS], at[SHARE]) = (sodium.ln(), calcium.ln(), magnesium.ln());
            at
        };
        let (before, exchanged, thrown_out) = (mg(20.0, 100.0, 10.0), mg(73.46, 60.0, 6.0), mg(42.94, 60.0, 10.0));
        let found = [before_exchange(&exchanged, 0.4), before_caustic(&thrown_out, 0.4)];
        for found in found.map(Option::unwrap) {
            (0..N).for_each(|i| assert!((found[i] - before[i]).abs() < 1e-3, "{i}: {found:?}"));
        }
        // 73 mg/L of sodium can't come from more hardness than it has equivalents of.
        assert_eq!(before_exchange(&exchanged, 0.8), None);
    }
}
