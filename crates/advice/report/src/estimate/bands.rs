//! Ranges that hold the water in 90 of 100 cases: a walk through all waters that agree with the evidence.
//!
//! **What.** The fit gives one water. What else is likely is bent (no ion is below zero, sums are known better than
//! their parts), so twenty walkers wander about it and stay at each water as long as it is likely.
//!
//! **Equation.** Metropolis: a step to u' is taken with the chance min(1, p(u')/p(u)), ln p = -χ²/2 of
//! the rows and ln p of the usual. Steps are differences of two earlier places, γ (z1 - z2) with γ = 2.38/√(2 d), every tenth γ =
//! 1 (differential evolution with a memory). The ends of a range are the 5th and 95th percentile of the places
//! visited after the first third.
//!
//! **Symbols.** u unknowns, d their number, χ² as in `fit.rs`. Conductivity is made linear in the ions about the
//! fit: where it was measured the walk stays where that holds; where it was not, it is solved for a part of the places.
//!
//! **Range.** As `state.rs`.
//!
//! **Source.** ter Braak & Vrugt 2008 (differential evolution Markov chain with snooker updater and fewer chains;
//! here without the snooker), from memory; SplitMix64 (Steele, Lea & Flood 2014), from one seed, so that the same
//! evidence gives the same ranges.
//!
//! **Checked by** `tests/twin_experiment.rs`.

use super::Quantity;
use super::fit::{Fit, Problem};
use super::linear::Vector;
use super::state::{Composition, N, conductivity_slopes};

/// Walkers.
const WALKERS: usize = 20;
/// Steps of each.
const STEPS: usize = 1500;
/// Steps that are forgotten: by then the walkers have left where they started.
const FORGOTTEN: usize = 500;
/// Steps from one place that is kept to the next, and from one memory to the next.
const EVERY: usize = 10;
/// Places kept of which one has its conductivity solved.
const SOLVED: usize = 5;

/// Numbers of a water: the ten ions, then hardness, alkalinity, conductivity at 25 °C.
pub(super) const PLACES: usize = N + 3;

/// The waters that were visited.
#[derive(Clone, Debug)]
pub(super) struct Visited {
    /// Conductivity is no number where it was not solved.
    values: Vec<[f64; PLACES]>,
}

/// ln p, with conductivity made linear.
struct Chance<'a> {
    problem: &'a Problem,
    /// Conductivity at the fit and its slopes with the ions, for each row that has one.
    linear: Vec<Option<(f64, Vector)>>,
    fit: Composition,
}

impl Chance<'_> {
    fn ln(&self, u: &Vector) -> Option<f64> {
        let water = Composition::of(u)?;
        let mut chi2 = 0.0;
        for (row, linear) in self.problem.rows.iter().zip(&self.linear) {
            let worked_out = match linear {
                Some(linear) => self.conductivity(linear, &water),
                None => water.value(row.of, self.problem.ph)?,
            };
            chi2 += row.residual(worked_out).powi(2);
        }
        Some(self.problem.usual.ln(u) - 0.5 * chi2)
    }

    fn conductivity(&self, (at_fit, slopes): &(f64, Vector), water: &Composition) -> f64 {
        let moved = (0..N).map(|i| slopes[i] * (water.mg_per_l[i] - self.fit.mg_per_l[i])).sum::<f64>();
        (at_fit + moved).max(0.0)
    }
}

/// Walks about the fit; none where conductivity cannot be worked out.
pub(super) fn walk(problem: &Problem, fit: &Fit) -> Option<Visited> {
    let linear = |of: Quantity| match of.is_conductivity() {
        true => Some(Some((fit.water.value(of, problem.ph)?, conductivity_slopes(of, &fit.water, problem.ph)?))),
        false => Some(None),
    };
    let linear: Option<Vec<_>> = problem.rows.iter().map(|row| linear(row.of)).collect();
    let chance = Chance { problem, linear: linear?, fit: fit.water };
    let mut dice = Dice(0x7A9E_33D1_5EED_0001);
    let about_fit = |dice: &mut Dice| -> Vector {
        let step = fit.factor.back(&std::array::from_fn(|_| dice.normal()));
        std::array::from_fn(|i| fit.u[i] + step[i])
    };
    let mut memory: Vec<Vector> = (0..10 * N).map(|_| about_fit(&mut dice)).collect();
    let at_fit = chance.ln(&fit.u)?;
    let mut walkers: Vec<(Vector, f64)> = vec![(fit.u, at_fit); WALKERS];
    let mut visited = Visited { values: Vec::new() };
    for step in 0..STEPS {
        for walker in &mut walkers {
            one_step(&chance, &memory, walker, &mut dice);
        }
        if step % EVERY == 0 {
            memory.extend(walkers.iter().map(|(u, _)| *u));
            if step >= FORGOTTEN {
                walkers.iter().for_each(|(u, _)| visited.keep(u, problem.ph));
            }
        }
    }
    Some(visited)
}

/// One walker tries one step.
fn one_step(chance: &Chance<'_>, memory: &[Vector], walker: &mut (Vector, f64), dice: &mut Dice) {
    let far = dice.uniform() < 0.1;
    let scale = if far { 1.0 } else { 2.38 / (2.0 * N as f64).sqrt() };
    let (one, other) = (dice.pick(memory.len()), dice.pick(memory.len()));
    let (one, other) = (&memory[one], &memory[other]);
    let next: Vector =
        std::array::from_fn(|i| walker.0[i] + scale * (one[i] - other[i]) + 1e-3 * (dice.uniform() - 0.5));
    let Some(there) = chance.ln(&next) else { return };
    if dice.uniform().ln() < there - walker.1 {
        *walker = (next, there);
    }
}

impl Visited {
    fn keep(&mut self, u: &Vector, ph: f64) {
        let Some(water) = Composition::of(u) else { return };
        let mut values = [0.0; PLACES];
        values[..N].copy_from_slice(&water.mg_per_l);
        values[N..].copy_from_slice(&[water.hardness, water.alkalinity, f64::NAN]);
        if self.values.len().is_multiple_of(SOLVED)
            && let Some(conductivity) = water.value(Quantity::Conductivity, ph)
        {
            values[N + 2] = conductivity;
        }
        self.values.push(values);
    }

    /// Two percentiles of a place, as shares; none where nothing was visited.
    pub(super) fn range(&self, place: usize, low: f64, high: f64) -> Option<(f64, f64)> {
        let mut all: Vec<f64> = self.values.iter().map(|values| values[place]).filter(|x| x.is_finite()).collect();
        all.sort_by(f64::total_cmp);
        let at = |share: f64| all.get((share * all.len() as f64) as usize).copied();
        Some((at(low)?, at(high)?))
    }

    /// Covariance of all places, from those whose conductivity was solved.
    pub(super) fn covariance(&self) -> [[f64; PLACES]; PLACES] {
        let solved: Vec<&[f64; PLACES]> = self.values.iter().filter(|x| x[N + 2].is_finite()).collect();
        let n = solved.len().max(1) as f64;
        let mean: [f64; PLACES] = std::array::from_fn(|i| solved.iter().map(|x| x[i]).sum::<f64>() / n);
        let mut covariance = [[0.0; PLACES]; PLACES];
        for x in solved {
            for i in 0..PLACES {
                for j in 0..PLACES {
                    covariance[i][j] += (x[i] - mean[i]) * (x[j] - mean[j]) / n;
                }
            }
        }
        covariance
    }
}

/// SplitMix64.
struct Dice(u64);

impl Dice {
    /// Even between 0 and 1, both left out.
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (((z ^ (z >> 31)) >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
    }

    /// Standard normal (Box & Muller).
    fn normal(&mut self) -> f64 {
        (-2.0 * self.uniform().ln()).sqrt() * (2.0 * std::f64::consts::PI * self.uniform()).cos()
    }

    /// A place in a row of so many.
    fn pick(&mut self, of: usize) -> usize {
        (self.uniform() * of as f64) as usize
    }
}
