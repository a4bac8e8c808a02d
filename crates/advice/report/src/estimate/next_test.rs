//! What to measure next: the tests that narrow most what the advice hangs on.
//!
//! **What.** A range matters where it is wide beside the band that plants are fed to: nitrate known to 50 mg/L is no
//! help where the band is 10 wide. Each test a household can buy is tried on the estimate before anybody buys it;
//! the one after which the widest range is narrowest comes first, then the next one after it.
//!
//! **Equation.** After a test of q with error s the covariance is C - c cᵀ/(Cqq + s²), c the column of q; each width
//! shrinks by √(C'kk/Ckk).
//!
//! **Symbols.** C covariance of the ions, hardness, alkalinity, conductivity (`bands.rs`). Width counts in bands of
//! `data/levels.toml` (comfortable, medium light); alkalinity, which has none there, in that of `data/methods.toml`.
//!
//! **Range.** Expected shrink, to first order; what a test shows may shift the water as well.
//!
//! **Source.** Linear Gaussian update (textbook, from memory).
//!
//! **Checked by** `tests/by_hand_estimate.rs`.

use knowledge::{Energy, Feeding, NextTestRow, book};
use quantity::{Ion, Known};

use super::bands::PLACES;
use super::errors::Origin;
use super::state::N;
use super::{Estimate, Quantity};

/// A test that a household can buy.
type Test = (&'static str, Quantity, Origin);

/// Those of `data/methods.toml`.
fn tests() -> Vec<Test> {
    let quantity = |word: &str| match word {
        "hardness" => Some(Quantity::Hardness),
        "alkalinity" => Some(Quantity::Alkalinity),
        "conductivity" => Some(Quantity::Conductivity),
        ion => Ion::ALL.into_iter().find(|i| i.name() == ion).map(Quantity::Ion),
    };
    let rows = book().methods.test.iter();
    rows.filter_map(|t| Some((t.name.as_str(), quantity(&t.of)?, Origin::of(&t.method)?))).collect()
}

/// A test and what it is worth.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct NextTest {
    /// Name in a sentence.
    pub test: &'static str,
    /// What it measures.
    pub of: Quantity,
    /// What it narrows most.
    pub narrows: Quantity,
    /// The 90 % width of that now, in its unit.
    pub width_now: f64,
    /// The width to expect after this test and those before it in the list.
    pub width_then: f64,
    /// The widest range that is left after it, in bands of the advice.
    pub widest_left: f64,
}

/// The tests worth doing, best first, each after those before it: the first is the one that narrows the water most,
/// all of them the smallest set. Empty where no test is worth it.
pub fn next_tests(estimate: &Estimate) -> Vec<NextTest> {
    let NextTestRow { usable, worth, .. } = &book().methods.next_test;
    let (usable, worth) = (usable.value, worth.value);
    let (matters, tests) = (matters(estimate), tests());
    let mut covariance = estimate.covariance;
    let mut chosen: Vec<NextTest> = Vec::new();
    loop {
        let now = widths(&matters, &estimate.covariance, &covariance);
        if now.iter().all(|width| *width <= usable) {
            return chosen;
        }
        let open = tests.iter().filter(|(test, ..)| chosen.iter().all(|done| done.test != *test));
        let tried = open.filter_map(|test| {
            let then = after(&covariance, estimate, test)?;
            let left = widths(&matters, &estimate.covariance, &then);
            let lost: f64 = left.iter().map(|width| (width - usable).max(0.0).powi(2)).sum();
            Some((lost, test, then, left))
        });
        let Some((lost, (test, of, _), then, left)) = tried.min_by(|a, b| a.0.total_cmp(&b.0)) else { return chosen };
        let before: f64 = now.iter().map(|width| (width - usable).max(0.0).powi(2)).sum();
        if lost > (1.0 - worth) * before {
            return chosen;
        }
        let shrunk = (0..matters.len()).max_by(|a, b| (now[*a] - left[*a]).total_cmp(&(now[*b] - left[*b])));
        if let Some(most) = shrunk {
            let band = matters[most].band;
            let widest_left = left.iter().copied().fold(0.0, f64::max);
            let (width_now, width_then) = (now[most] * band, left[most] * band);
            let narrows = matters[most].of;
            chosen.push(NextTest { test, of: *of, narrows, width_now, width_then, widest_left });
        }
        covariance = then;
    }
}

/// A value that the advice hangs on.
struct Matter {
    of: Quantity,
    place: usize,
    width: f64,
    band: f64,
}

fn matters(estimate: &Estimate) -> Vec<Matter> {
    let width = |known: &Known<f64>| known.high - known.low;
    let levels = book().levels(Feeding::Comfortable, Energy::Medium);
    let bands = levels.into_iter().flat_map(|levels| &levels.bands).filter(|(ion, _)| ion.index() < N);
    let mut all: Vec<Matter> = bands
        .filter_map(|(ion, band)| {
            let width = width(&estimate.ions.get(ion)?.known);
            Some(Matter { of: Quantity::Ion(*ion), place: ion.index(), width, band: band.high - band.low })
        })
        .collect();
    let (width, band) = (width(&estimate.alkalinity.known), book().methods.next_test.alkalinity_band.value);
    all.push(Matter { of: Quantity::Alkalinity, place: N + 1, width, band });
    all
}

type Covariance = [[f64; PLACES]; PLACES];

/// Widths in bands.
fn widths(matters: &[Matter], first: &Covariance, now: &Covariance) -> Vec<f64> {
    let shrunk = |place: usize| (now[place][place] / first[place][place].max(f64::MIN_POSITIVE)).clamp(0.0, 1.0).sqrt();
    matters.iter().map(|matter| matter.width * shrunk(matter.place) / matter.band).collect()
}

/// The covariance to expect after a test.
fn after(covariance: &Covariance, estimate: &Estimate, (_, of, origin): &Test) -> Option<Covariance> {
    let (place, value) = match of {
        Quantity::Ion(ion) => (ion.index(), estimate.ions.get(ion)?.known.value),
        Quantity::Hardness => (N, estimate.hardness.known.value),
        Quantity::Alkalinity => (N + 1, estimate.alkalinity.known.value),
        _ => (N + 2, estimate.conductivity_25.known.value),
    };
    let column: [f64; PLACES] = std::array::from_fn(|k| covariance[k][place]);
    // The test may show any value of the range, and errs with what it shows.
    let shown = value.hypot(covariance[place][place].sqrt());
    let share = 1.0 / (covariance[place][place] + origin.sd(*of, shown, 0.0).powi(2));
    let mut then = *covariance;
    for (i, row) in then.iter_mut().enumerate() {
        for (j, cell) in row.iter_mut().enumerate() {
            *cell -= share * column[i] * column[j];
        }
    }
    Some(then)
}
