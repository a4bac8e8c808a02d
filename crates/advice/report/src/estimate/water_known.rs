//! The best estimate of a water: every value with its 90 % range, how well it is known, and what decided it.

use std::collections::BTreeMap;

use knowledge::book;
use quantity::conductivity::FACTOR_25_FROM_20;
use quantity::{Comparator, Ion, Kind, Known, canonical, round_significant};

use super::bands::{PLACES, Visited, walk};
use super::clash::{Clash, Equation, clashes};
use super::fit::{Fit, Problem, Row};
use super::linear::{Vector, dot};
use super::state::{N, gradient, ions};
use super::usual::{TO_90, Usual};
use super::{Evidence, Item, Quantity};

/// What decided a value: without it, the value's range would widen most.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Decided {
    /// It was measured itself.
    Measured,
    /// Hardness is calcium and magnesium together.
    Hardness,
    /// Cations and anions carry the same charge.
    Balance,
    /// The ions carry the conductivity.
    Conductivity,
    /// Nothing but what waters usually hold.
    Usual,
}

impl Decided {
    /// In a sentence, after "decided by".
    pub fn words(self) -> &'static str {
        match self {
            Decided::Measured => "its own measurement",
            Decided::Hardness => "hardness, which is calcium and magnesium together",
            Decided::Balance => "the ion balance: cations and anions carry the same charge",
            Decided::Conductivity => "the conductivity, which the ions carry",
            Decided::Usual => "what tap waters usually hold",
        }
    }

    fn kind(self) -> Kind {
        match self {
            Decided::Measured => Kind::Measured,
            Decided::Usual => Kind::Assumed,
            _ => Kind::WorkedOut,
        }
    }
}

/// One value of the estimate.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Line {
    /// Best value; the range that holds it in 90 of 100 cases; kind. Of several samples: of their mean.
    pub known: Known<f64>,
    /// What decided it.
    pub decided: Decided,
    /// What a single day brings in 90 of 100 cases; none where no spread over samples is known.
    pub day: Option<(f64, f64)>,
}

/// The best estimate of a water.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Estimate {
    /// mg/L of each ion.
    pub ions: BTreeMap<Ion, Line>,
    /// meq/L
    pub hardness: Line,
    /// meq/L
    pub alkalinity: Line,
    /// µS/cm at 25 °C
    pub conductivity_25: Line,
    /// Where the evidence disagrees with itself.
    pub clashes: Vec<Clash>,
    /// What could not be used, and why.
    pub left_out: Vec<String>,
    /// Covariance of the ten ions, hardness, alkalinity, conductivity in their units; for [`super::next_tests`].
    #[serde(skip)]
    pub(super) covariance: [[f64; PLACES]; PLACES],
}

/// The best estimate from everything known; from nothing, what tap waters usually hold.
///
/// None only where the numbers lie outside what fresh water can be (ionic strength above 0.1 mol/kg).
pub fn estimate(evidence: &Evidence, usual: &Usual) -> Option<Estimate> {
    let problem = Problem::of(evidence, usual);
    let fit = problem.fit()?;
    let visited = walk(&problem, &fit)?;
    let swing = common_swing(evidence);
    let line = |of: Quantity, place: usize| line(evidence, &problem, &fit, &visited, of, place, swing);
    let mut all = BTreeMap::new();
    for (place, ion) in ions() {
        all.insert(ion, line(Quantity::Ion(ion), place)?);
    }
    for ion in Ion::ALL.into_iter().skip(N) {
        all.insert(ion, trace(evidence, usual, ion));
    }
    Some(Estimate {
        ions: all,
        hardness: line(Quantity::Hardness, N)?,
        alkalinity: line(Quantity::Alkalinity, N + 1)?,
        conductivity_25: line(Quantity::Conductivity, N + 2)?,
        clashes: clashes(evidence, usual),
        left_out: left_out(evidence),
        covariance: visited.covariance(),
    })
}

/// An even spread from nothing to twice its middle has its 5th percentile at a tenth of the middle; one a little above that
/// tells of nothing else: the walk itself wavers.
const NONE: f64 = 0.2;

/// One line of the estimate.
fn line(
    evidence: &Evidence,
    problem: &Problem,
    fit: &Fit,
    visited: &Visited,
    of: Quantity,
    place: usize,
    swing: Option<f64>,
) -> Option<Line> {
    let value = fit.water.value(of, problem.ph)?;
    let decided = decide(problem, fit, of, &gradient(of, &fit.u, &fit.water, problem.ph)?);
    let (mut low, mut high) = visited.range(place, 0.05, 0.95)?;
    let is_even = problem.usual.even_to.get(place).is_some_and(Option::is_some);
    if is_even && low < NONE * visited.range(place, 0.5, 0.5)?.0 {
        // Nothing excludes that there is none: all that the range leaves out lies above.
        (low, high) = (0.0, visited.range(place, 0.05, 0.90)?.1);
    }
    let mut known = tidy(low.min(value), value, high.max(value), decided.kind());
    let decided = evidence.value(of).map_or(decided, |item| itself(item, of, &known, decided));
    known.kind = decided.kind();
    // Its own spread where there is one, else that of the others, as a share of the value.
    let own = evidence.value(of).and_then(|item| Some(item.spread?.sd / item.value.abs().max(1e-9)));
    Some(Line { known, decided, day: own.or(swing).map(|share| day(&known, share)) })
}

/// A standard deviation of the own measurement, in half ranges of the estimate, that is nearly as good; assumed.
const NEARLY: f64 = 2.0;

/// What decided a value that was measured itself. Drawn outside its own error by the rest: the rest. Nearly as well as it is
/// known now: its own measurement, whatever sharpened it further; where several ways lead to it no single one is missed much,
/// and then what widens most says little.
fn itself(item: &Item, of: Quantity, known: &Known<f64>, widens_most: Decided) -> Decided {
    if apart(item, known.value).is_some() {
        return if matches!(widens_most, Decided::Measured | Decided::Usual) { instead(of).0 } else { widens_most };
    }
    if item.sd <= NEARLY * 0.5 * (known.high - known.low) { Decided::Measured } else { widens_most }
}

/// What draws a value away from its own measurement, and the equation that fails where it draws far.
pub(crate) fn instead(of: Quantity) -> (Decided, Equation) {
    match of {
        Quantity::Hardness | Quantity::Ion(Ion::Calcium | Ion::Magnesium) => (Decided::Hardness, Equation::Hardness),
        of if of.is_conductivity() => (Decided::Conductivity, Equation::Conductivity),
        _ => (Decided::Balance, Equation::Balance),
    }
}

/// By which share a best value lies outside the error of what was measured: its method's in 90 of 100 cases; none where it
/// lies within.
pub(crate) fn apart(item: &Item, best: f64) -> Option<f64> {
    // At 25 °C where the value is a conductivity at 20, or at one of the two.
    let (low, middle, high) = match item.of {
        Quantity::Conductivity20 => FACTOR_25_FROM_20,
        Quantity::ConductivityUntold => (1.0, 0.5 * (1.0 + FACTOR_25_FROM_20.1), FACTOR_25_FROM_20.2),
        _ => (1.0, 1.0, 1.0),
    };
    let reach = TO_90 * item.sd;
    let inside = (low * (item.value - reach)..=high * (item.value + reach)).contains(&best);
    let is_number = item.comparator == Comparator::Equal && item.value > 0.0;
    (is_number && !inside).then(|| best / (middle * item.value) - 1.0)
}

/// What a single day brings: the range of the mean widened by the spread, both over the logarithm where there is one.
fn day(known: &Known<f64>, share: f64) -> (f64, f64) {
    let spread = TO_90 * share;
    if known.low <= 0.0 {
        let move_by = spread * known.value.abs();
        return (
            known.value - (known.value - known.low).hypot(move_by),
            known.value + (known.high - known.value).hypot(move_by),
        );
    }
    let down = (known.value / known.low).ln().hypot(spread);
    let up = (known.high / known.value).ln().hypot(spread);
    (canonical(known.value * (-down).exp()), canonical(known.value * up.exp()))
}

/// The middle one of the relative spreads from day to day; none where no item has one.
fn common_swing(evidence: &Evidence) -> Option<f64> {
    let mut all: Vec<f64> = evidence
        .usable()
        .filter(|(_, item)| item.comparator == Comparator::Equal && item.value > 0.0)
        .filter(|(_, item)| !matches!(item.of, Quantity::Ion(ion) if ion.index() >= N))
        .filter_map(|(_, item)| Some(item.spread?.sd / item.value))
        .collect();
    all.sort_by(f64::total_cmp);
    all.get(all.len() / 2).copied()
}

/// What widens the range most when it is taken away (Sherman & Morrison's formula for one row less).
fn decide(problem: &Problem, fit: &Fit, of: Quantity, gradient: &Vector) -> Decided {
    let toward = fit.factor.solve(gradient);
    let gain = |w: &Vector| {
        let left = 1.0 - dot(w, &fit.factor.solve(w));
        dot(&toward, w).powi(2) / left.max(1e-9)
    };
    let mut best = (0.0, Decided::Usual);
    for (row, (_, w)) in problem.rows.iter().zip(&fit.rows) {
        let gain = gain(w);
        if gain > best.0 {
            best = (gain, via(row.of, of));
        }
    }
    for ((_, ion), row) in ions().zip(&problem.usual.normal(&fit.u).rows) {
        let gain = gain(row);
        if gain > best.0 {
            // That it was looked for and not found is no custom.
            let is_bound = |row: &Row| row.item.is_some() && row.comparator == Comparator::Below;
            let bound = problem.rows.iter().find(|row| is_bound(row) && row.of == Quantity::Ion(ion));
            best = (gain, bound.map_or(Decided::Usual, |row| via(row.of, of)));
        }
    }
    best.1
}

/// By which equation a row speaks of a quantity.
fn via(row: Quantity, of: Quantity) -> Decided {
    let is_hard =
        |of: Quantity| matches!(of, Quantity::Hardness | Quantity::Ion(Ion::Calcium) | Quantity::Ion(Ion::Magnesium));
    if row == of || (row.is_conductivity() && of.is_conductivity()) {
        Decided::Measured
    } else if row.is_conductivity() || of.is_conductivity() {
        Decided::Conductivity
    } else if is_hard(row) && is_hard(of) {
        Decided::Hardness
    } else {
        Decided::Balance
    }
}

/// An ion that neither charge nor conductivity tells anything of: its own value, else the usual one.
fn trace(evidence: &Evidence, usual: &Usual, ion: Ion) -> Line {
    let row = book().unreported(usual.place, ion).map(|row| row.mg_per_l.known());
    let usual = row.unwrap_or(Known::exact(0.0, Kind::Assumed));
    let told = evidence.usable().map(|(_, item)| item).find(|item| item.of == Quantity::Ion(ion));
    let Some(item) = told else {
        return Line { known: Known { kind: Kind::Assumed, ..usual }, decided: Decided::Usual, day: None };
    };
    let known = match item.comparator {
        // Below what the method sees the whole stretch is open; half of the bound is the middle (common practice).
        Comparator::Below => tidy(0.0, 0.5 * item.value, item.value, Kind::Measured),
        Comparator::Above => tidy(item.value, item.value, item.value.max(usual.high), Kind::Measured),
        _ => {
            let reach = TO_90 * item.sd;
            tidy((item.value - reach).max(0.0), item.value, item.value + reach, Kind::Measured)
        }
    };
    let share = item.spread.map(|spread| spread.sd / item.value.max(1e-9));
    Line { known, decided: Decided::Measured, day: share.map(|share| day(&known, share)) }
}

/// Four figures: no estimate has more.
fn tidy(low: f64, value: f64, high: f64, kind: Kind) -> Known<f64> {
    let four = |x: f64| round_significant(x, 4);
    Known::ranged(four(low), four(value), four(high), kind)
}

/// Values that stay out, in words.
fn left_out(evidence: &Evidence) -> Vec<String> {
    let mut all = evidence.left_out.clone();
    let open = |item: &&Item| !item.settled && !item.of.is_conductivity();
    for item in evidence.items.iter().filter(open) {
        all.push(format!("{}: not used until it is told how it is counted", item.as_written));
    }
    for item in evidence.items.iter().filter(|item| !item.is_sound()) {
        all.push(format!("{}: not used, because no water can have it", item.as_written));
    }
    all
}
