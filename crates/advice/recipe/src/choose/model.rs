//! The tank as columns: what is given a day, what goes into the new water, how much of it is low-mineral; and the marks of
//! a level as sums of them.
//!
//! What: the closed form of `levels/cycle.rs`, which is linear in dose, new water and share, written as rows.
//! Equation: `T = (1 - s) T_tap + s T_low + W`, `b = T + n (D - r) / x`, `a = (1 - x) b + x T`; lowest of a cycle: a or b;
//! highest: `a + D` or `b + max(r, 0)` (after the first and the last dose), and `x T + D` where the plants ran out before
//! the change. Where uptake stops at zero, the lower rows cannot hold anyway (a band begins above zero), and the upper
//! ones are exact with the third.
//! Without changes nothing settles: the dose of a day takes the place of the level, and what is taken that of the band.
//! Symbols: s share of low-mineral water; W added to the new water, D a day, both sums over the products of amount times
//! content; the others as in `levels/cycle.rs`.
//! Range: that of `levels/cycle.rs`.
//! Source: balance of mass.
//! Checked by: `tests/brute_force_choice.rs`, where `levels::level` judges every plan.

use quantity::Known;
use setup::Tank;

use super::line::Line;
use super::part::Part;
use super::products::Candidate;
use crate::programme::Problem;

/// More than this of one product in a litre, mg or µL, is never tried; harm and solubility stop far below it.
const MOST_PER_LITRE: f64 = 20_000.0;

/// Which end of the tap's range, and with it of what tops up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    Lowest,
    Best,
    Highest,
}

impl End {
    pub fn of(self, known: Known<f64>) -> f64 {
        snap(match self {
            End::Lowest => known.low,
            End::Best => known.value,
            End::Highest => known.high,
        })
    }
}

/// To ten significant figures: the same water typed in two units is then the same to the last bit, and so is the recipe.
pub(super) fn snap(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10f64.powi(9 - value.abs().log10().floor() as i32);
    let snapped = (value * scale).round() / scale;
    if snapped.is_finite() { snapped } else { value }
}

/// Sums that hold the lowest and the highest level of a cycle.
pub(super) struct Marks {
    pub low: Vec<Line>,
    pub high: Vec<Line>,
}

/// Columns of a tank.
pub(super) struct Model<'a> {
    pub tank: &'a Tank,
    pub candidates: &'a [Candidate],
    pub problem: Problem,
    /// Thousandths of a product's unit a day in a litre of the tank, by candidate.
    pub daily: Vec<Option<usize>>,
    /// Thousandths of a product's unit in a litre of new water, by candidate.
    pub added: Vec<Option<usize>>,
    /// Share of low-mineral water in the new water.
    pub low_share: usize,
}

impl<'a> Model<'a> {
    pub fn new(tank: &'a Tank, candidates: &'a [Candidate]) -> Self {
        let mut problem = Problem::new();
        let (least, most) = match (&tank.low, tank.low_share) {
            (None, _) => (0.0, 0.0),
            (Some(_), Some(share)) => (share, share),
            (Some(_), None) => (0.0, 1.0),
        };
        let low_share = problem.amount("share of low-mineral water", least, most);
        let changes = changes(tank);
        let (mut daily, mut added) = (Vec::new(), Vec::new());
        for candidate in candidates {
            let name = |place: &str| format!("{} {place}", candidate.key);
            daily.push(candidate.bottle.then(|| problem.amount(name("a day"), 0.0, MOST_PER_LITRE)));
            let most = candidate.new_water.filter(|_| changes).map(|g_per_l| (1000.0 * g_per_l).min(MOST_PER_LITRE));
            added.push(most.map(|most| problem.amount(name("in new water"), 0.0, most)));
        }
        Model { tank, candidates, problem, daily, added, low_share }
    }

    /// The point at which nothing is given and no more low-mineral water is used than the keeper set.
    pub fn nothing_given(&self) -> Vec<f64> {
        let share = self.problem.columns.get(self.low_share).map_or(0.0, |column| column.lower);
        (0..self.problem.columns.len()).map(|i| if i == self.low_share { share } else { 0.0 }).collect()
    }

    /// D: what all products bring a day.
    pub fn dose(&self, part: Part) -> Line {
        self.sum(&self.daily, part)
    }

    /// W: what all products bring into a litre of new water.
    pub fn addition(&self, part: Part) -> Line {
        self.sum(&self.added, part)
    }

    fn sum(&self, columns: &[Option<usize>], part: Part) -> Line {
        let pairs = columns.iter().zip(self.candidates);
        pairs.filter_map(|(column, candidate)| Some(((*column)?, part.in_product(candidate)))).fold(
            Line::default(),
            |line, (column, k)| if k > 0.0 { line.plus(k, &Line::column(column, 1.0)) } else { line },
        )
    }

    /// T: the new water.
    pub fn new_water(&self, part: Part, tap: End) -> Line {
        let of_tap = tap.of(part.in_water(&self.tank.tap));
        let of_low = self.tank.low.as_ref().map_or(of_tap, |low| tap.of(part.in_water(low)));
        Line::constant(of_tap).plus(of_low - of_tap, &Line::column(self.low_share, 1.0)).plus(1.0, &self.addition(part))
    }

    /// Lowest and highest of the cycle for a tap's end and an uptake. Without changes: what a day's dose leaves over.
    pub fn marks(&self, part: Part, tap: End, uptake: f64) -> Marks {
        let fall = uptake - tap.of(part.top_up(self.tank));
        let dose = self.dose(part);
        if !changes(self.tank) {
            return Marks { low: vec![dose.clone()], high: vec![dose] };
        }
        let (x, n) = (self.tank.habits.change_share.value, f64::from(self.tank.habits.every_days));
        let water = self.new_water(part, tap);
        let before = water.clone().plus(n / x, &dose).and(-n * fall / x);
        let after = before.clone().times(1.0 - x).plus(x, &water);
        let first_dose = after.clone().plus(1.0, &dose);
        let last_dose = before.clone().and(fall.max(0.0));
        let ran_out = water.times(x).plus(1.0, &dose);
        Marks { low: vec![after, before], high: vec![first_dose, last_dose, ran_out] }
    }
}

/// Water is changed at all.
pub(super) fn changes(tank: &Tank) -> bool {
    tank.habits.every_days > 0 && tank.habits.change_share.value > 0.0
}
