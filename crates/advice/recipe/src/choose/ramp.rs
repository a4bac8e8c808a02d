//! Bigger corrections come as steps: the share of the additions that the first changes get.
//!
//! What: how much of the recipe's new water (additions and low-mineral share) each of the first changes gets, so that no
//! change moves alkalinity, hardness or conductivity of a tank with animals further than a day may (harm rule 6).
//! Equation: the tank starts on tap water; after change k it has come a share `p_k = p_(k-1) + x (f_k - p_(k-1))` of the
//! way. A change moves it by `x (f_k - p_(k-1)) d`, so `f_k = min(1, p_(k-1) + l / (x d))`, for the part for which that is least.
//! Symbols: f share of the full recipe that change k gets; p share of the way behind; x share changed; d difference
//! between the recipe's new water and tap water, at the worst end of the tap's range; l limit of a day.
//! Range: a tank that is in balance with its tap. One that was long unchanged is not, and needs smaller steps still.
//! Source: balance of mass; limits from `data/harm.toml`.
//! Checked by: `tests/by_hand_choice.rs`.

use knowledge::book;

use super::harm::{conductance, meq_per_german_degree};
use super::line::Line;
use super::model::{End, Model, changes};
use super::part::Part;

/// Most steps that are listed. Alkalinity and hardness need some thirty at most; only a tank on water with next to no salts
/// would need more, for a tenth of next to nothing is nothing.
const MOST_STEPS: usize = 1000;

/// The first changes' shares; empty where the first may have the whole.
pub(super) fn ramp(model: &Model, values: &[f64]) -> Vec<f64> {
    let share = model.tank.habits.change_share.value;
    if !model.tank.animals.any() || !changes(model.tank) {
        return Vec::new();
    }
    let limit = &book().harm.limit;
    let parts = [
        (distance(values, |end| model.new_water(Part::Alkalinity, end)), limit.alkalinity_step_meq_per_l.value()),
        (
            distance(values, |end| model.new_water(Part::Hardness, end)),
            limit.hardness_step_dh.value() * meq_per_german_degree(),
        ),
        (
            distance(values, |end| conductance(|part| model.new_water(part, end))),
            limit.conductivity_step_percent.value() / 100.0 * leaner_conductance(model, values),
        ),
    ];
    let step = parts.iter().map(|(distance, limit)| limit / (share * distance)).fold(f64::INFINITY, f64::min);
    steps(step, share)
}

/// Shares of the first changes for a step, the share of the whole way by which one change may pass the tank.
fn steps(step: f64, share: f64) -> Vec<f64> {
    let (mut ramp, mut behind) = (Vec::new(), 0.0);
    while behind + step < 1.0 && ramp.len() < MOST_STEPS {
        let given = behind + step;
        ramp.push(given);
        behind += share * (given - behind);
    }
    ramp
}

/// Furthest that the recipe's new water is from tap water, over the tap's range.
fn distance(values: &[f64], of: impl Fn(End) -> Line) -> f64 {
    let tap = vec![0.0; values.len()];
    let ends = [End::Lowest, End::Best, End::Highest].map(|end| (of(end).at(values) - of(end).at(&tap)).abs());
    ends.into_iter().fold(0.0, f64::max)
}

/// Conductance of the leaner of the two waters, bicarbonate not counted.
fn leaner_conductance(model: &Model, values: &[f64]) -> f64 {
    let water = conductance(|part| model.new_water(part, End::Lowest));
    water.at(values).min(water.at(&vec![0.0; values.len()]))
}

#[cfg(test)]
mod tests {
    use super::steps;

    #[test]
    fn steps_by_hand() {
        // Way 1.8 meq/L, half changed, 0.36 meq/L a change: a step of 0.36 / (0.5 × 1.8) = 0.4 of the way.
        let ramp = steps(0.4, 0.5);
        // Behind: 0, 0.2, 0.4, 0.6 -> given 0.4, 0.6, 0.8, then 1.
        assert_eq!(ramp.len(), 3);
        for (given, hand) in ramp.iter().zip([0.4, 0.6, 0.8]) {
            assert!((given - hand).abs() < 1e-12);
        }
        assert!(steps(1.0, 0.5).is_empty() && steps(f64::INFINITY, 0.5).is_empty());
    }
}
