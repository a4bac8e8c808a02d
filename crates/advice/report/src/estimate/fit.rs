//! The most likely water: weighted least squares over all that is known.
//!
//! **What.** Finds the unknowns of `state.rs` at which the squared residuals of every value, bound and usual range
//! are least.
//!
//! **Equation.** χ² = Σ ((xi - fi(u))/si)² + what the usual adds (`usual.rs`); a bound counts only beyond it. Steps by Gauss-Newton
//! with Levenberg's damping: (JᵀJ + λ D) du = -Jᵀr.
//!
//! **Symbols.** x value, s its standard deviation, f what the unknowns give. At the
//! least, A = JᵀJ is the inverse of the unknowns' covariance.
//!
//! **Range.** As `state.rs`.
//!
//! **Source.** Levenberg-Marquardt (textbook, from memory).
//!
//! **Checked by** `tests/by_hand_estimate.rs` (closed forms), `tests/twin_experiment.rs`.

use quantity::{Comparator, Ion};

use super::errors::uncounted_charge;
use super::linear::{Factor, Matrix, Vector, add_outer, dot};
use super::state::{Composition, HARDNESS, N, SHARE, gradient, meq_per_mg, unknowns};
use super::usual::{Normal, Usual};
use super::{Evidence, Item, Quantity};
use quantity::conductivity::FACTOR_25_FROM_20;

/// pH of a water whose pH is not told; it moves conductivity by less than 1 % between 6.5 and 8.5. Assumed.
const PH_UNTOLD: f64 = 7.5;
/// Steps at most; a fit takes 5 to 15.
const STEPS: usize = 60;
/// A step that gains less than this of χ² is the last.
const ENOUGH: f64 = 1e-7;

/// One value or bound, as the fit sees it.
#[derive(Clone, Debug)]
pub(super) struct Row {
    /// What is worked out and held against it.
    pub(super) of: Quantity,
    pub(super) value: f64,
    pub(super) sd: f64,
    pub(super) comparator: Comparator,
    /// Place in [`Evidence::items`]; none for the bound that alkalinity is not negative.
    pub(super) item: Option<usize>,
}

impl Row {
    /// Standard deviations from what the unknowns give; 0 on the right side of a bound.
    pub(super) fn residual(&self, worked_out: f64) -> f64 {
        let off = (worked_out - self.value) / self.sd;
        match self.comparator {
            Comparator::Below => off.max(0.0),
            Comparator::Above => off.min(0.0),
            _ => off,
        }
    }
}

/// What is to be fitted.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub(super) rows: Vec<Row>,
    pub(super) usual: Usual,
    pub(super) ph: f64,
}

/// The fit.
#[derive(Clone, Debug)]
pub(super) struct Fit {
    pub(super) u: Vector,
    pub(super) water: Composition,
    /// Residual and gradient in standard deviations, row by row.
    pub(super) rows: Vec<(f64, Vector)>,
    pub(super) factor: Factor,
}

/// The problem made linear at a water.
struct Linear {
    rows: Vec<(f64, Vector)>,
    normal: Matrix,
    right: Vector,
}

impl Problem {
    /// Everything usable.
    pub(super) fn of(evidence: &Evidence, usual: &Usual) -> Problem {
        let items: Vec<(usize, &Item)> = evidence.usable().collect();
        let cations = cations(&items);
        let mut rows: Vec<Row> = Vec::new();
        for (place, item) in &items {
            if matches!(item.of, Quantity::Ion(ion) if ion.index() >= N) {
                continue; // traces stand alone: see `estimate.rs`
            }
            let twins = items.iter().filter(|(_, other)| other.of == item.of).count() as f64;
            let mut row = Row {
                of: item.of,
                value: item.value,
                // One method printed twice is no second measurement.
                sd: item.sd * twins.sqrt(),
                comparator: item.comparator,
                item: Some(*place),
            };
            match item.of {
                Quantity::Alkalinity => row.sd = row.sd.hypot(uncounted_charge() * cations),
                Quantity::ConductivityUntold => {
                    // At 25 °C or at 20: the middle of both, and either end as likely.
                    let (_, _, high) = FACTOR_25_FROM_20;
                    row.value *= 0.5 * (1.0 + high);
                    row.sd = (row.sd * 0.5 * (1.0 + high)).hypot(item.value * 0.5 * (high - 1.0));
                }
                _ => {}
            }
            rows.push(row);
        }
        let (sd, comparator) = (0.02 + uncounted_charge() * cations, Comparator::Above);
        rows.push(Row { of: Quantity::Alkalinity, value: 0.0, sd, comparator, item: None });
        let ph = evidence.ph.filter(|ph| (4.0..=10.0).contains(ph)).unwrap_or(PH_UNTOLD);
        let mut usual = usual.clone();
        for row in rows.iter().filter(|row| row.comparator == Comparator::Below) {
            if let Quantity::Ion(ion) = row.of {
                usual.not_found(ion.index(), row.value);
            }
        }
        Problem { rows, usual, ph }
    }

    /// The usual water with what was measured put in.
    fn start(&self) -> Vector {
        let mut u = unknowns(&self.usual.centre);
        let told = |of: Quantity| {
            let row = self.rows.iter().find(|row| row.of == of && row.item.is_some())?;
            Some(if row.comparator == Comparator::Below { 0.5 * row.value } else { row.value }.max(1e-3))
        };
        for ion in Ion::ALL.into_iter().take(N).filter(|ion| !matches!(ion, Ion::Calcium | Ion::Magnesium)) {
            u[ion.index()] = told(Quantity::Ion(ion)).map_or(u[ion.index()], f64::ln);
        }
        let meq = |ion| told(Quantity::Ion(ion)).map(|mg| mg * meq_per_mg(ion));
        let usual_share = 1.0 / (1.0 + (-u[SHARE]).exp());
        let (ca, mg, hardness) = (meq(Ion::Calcium), meq(Ion::Magnesium), told(Quantity::Hardness));
        let (all, share) = match (ca, mg, hardness) {
            (Some(ca), Some(mg), _) => (ca + mg, mg / (ca + mg)),
            (Some(ca), None, Some(all)) => (all, 1.0 - ca / all),
            (None, Some(mg), Some(all)) => (all, mg / all),
            (None, None, Some(all)) => (all, usual_share),
            (Some(ca), None, None) => (ca / (1.0 - usual_share), usual_share),
            _ => (u[HARDNESS].exp(), usual_share),
        };
        let share = share.clamp(0.005, 0.95);
        (u[HARDNESS], u[SHARE]) = (all.ln(), (share / (1.0 - share)).ln());
        u
    }

    /// What the rows are worked out to be; none out of range. Each conductivity is solved once.
    fn worked_out(&self, water: &Composition) -> Option<Vec<f64>> {
        self.rows.iter().map(|row| water.value(row.of, self.ph)).collect()
    }

    /// χ² of a water.
    pub(super) fn chi2(&self, u: &Vector, water: &Composition) -> Option<f64> {
        let rows = self.worked_out(water)?;
        let of_rows: f64 = self.rows.iter().zip(rows).map(|(row, x)| row.residual(x).powi(2)).sum();
        Some(of_rows + self.usual.chi2(u))
    }

    /// Residuals, gradients and normal equations at a water.
    fn linearise(&self, u: &Vector, water: &Composition) -> Option<Linear> {
        let Normal { matrix: mut normal, pull: mut right, .. } = self.usual.normal(u);
        let mut rows = Vec::with_capacity(self.rows.len());
        for (row, x) in self.rows.iter().zip(self.worked_out(water)?) {
            let r = row.residual(x);
            let is_bound = matches!(row.comparator, Comparator::Below | Comparator::Above);
            // A bound that is kept pulls nowhere.
            let gradient = if is_bound && r == 0.0 { [0.0; N] } else { gradient(row.of, u, water, self.ph)? };
            let w = gradient.map(|g| g / row.sd);
            add_outer(&mut normal, &w);
            right.iter_mut().zip(&w).for_each(|(sum, w)| *sum -= w * r);
            rows.push((r, w));
        }
        Some(Linear { rows, normal, right })
    }

    /// The most likely water; none where the numbers lie outside what fresh water can be.
    pub(super) fn fit(&self) -> Option<Fit> {
        let mut u = self.start();
        let mut water = Composition::of(&u)?;
        let mut chi2 = self.chi2(&u, &water)?;
        let mut damping = 1e-3;
        for _ in 0..STEPS {
            let Linear { normal, right, .. } = self.linearise(&u, &water)?;
            let mut gained = None;
            while gained.is_none() && damping < 1e9 {
                let mut damped = normal;
                (0..N).for_each(|i| damped[i][i] *= 1.0 + damping);
                let step = Factor::of(&damped)?.solve(&right);
                let next: Vector = std::array::from_fn(|i| u[i] + step[i].clamp(-2.0, 2.0));
                let there = Composition::of(&next).and_then(|water| Some((self.chi2(&next, &water)?, water)));
                match there {
                    Some((better, at)) if better <= chi2 => {
                        gained = Some(chi2 - better);
                        (u, water, chi2) = (next, at, better);
                        damping = (0.2 * damping).max(1e-9);
                    }
                    _ => damping *= 8.0,
                }
            }
            if gained.is_none_or(|gain| gain < ENOUGH) {
                break;
            }
        }
        let Linear { rows, normal, .. } = self.linearise(&u, &water)?;
        Some(Fit { u, water, rows, factor: Factor::of(&normal)? })
    }
}

impl Fit {
    /// A row's distance from what all other rows say of it, in standard deviations of both; none where nothing else
    /// says anything.
    pub(super) fn alone(&self, row: usize) -> Option<f64> {
        let (r, w) = self.rows.get(row)?;
        let left = 1.0 - dot(w, &self.factor.solve(w));
        (left > 0.02).then(|| r / left.sqrt())
    }
}

/// Cations in meq/L, roughly, from whatever stands for them.
fn cations(items: &[(usize, &Item)]) -> f64 {
    let value = |of| items.iter().find(|(_, item)| item.of == of).map(|(_, item)| item.value);
    let ion = |ion| value(Quantity::Ion(ion)).map_or(0.0, |mg| mg * meq_per_mg(ion));
    let hard = value(Quantity::Hardness).unwrap_or_else(|| ion(Ion::Calcium) + ion(Ion::Magnesium));
    hard + ion(Ion::Sodium) + ion(Ion::Potassium) + ion(Ion::Ammonium)
}
