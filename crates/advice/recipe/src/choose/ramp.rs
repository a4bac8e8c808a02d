//! Bigger corrections come as steps: the share of the additions that the first changes get.
//!
//! What: how much of the recipe's new water (additions and low-mineral share) each of the first changes gets, so that no
//! change moves alkalinity, hardness or conductivity of a tank with animals further than a day may (harm rule 6).
//! Equation: the tank starts on tap water; after change k it has come a share `p_k = p_(k-1) + x (f_k - p_(k-1))` of the
//! way. A change moves it by `x (f_k - p_(k-1)) d`, so `f_k = min(1, p_(k-1) + l / (x d))`, for the part for which that is least.
//! For conductivity l is its share of what the tank then has.
//! Symbols: f share of the full recipe that change k gets; p share of the way behind; x share changed; d difference
//! between the recipe's new water and tap water, at the worst end of the tap's range; l limit of a day.
//! Range: a tank that is in balance with its tap. One that was long unchanged is not, and needs smaller steps still.
//! Source: balance of mass; limits from `data/harm.toml`.
//! Checked by: `tests/by_hand_choice.rs`.

use knowledge::book;

use super::harm::conductance;
use super::model::{End, Model, changes};
use super::part::Part;

/// Most steps that are listed; only a tank on water with next to no salts would need more, for a tenth of next to nothing
/// is nothing.
const MOST_STEPS: usize = 200;

/// What a change may move: a distance of the whole way with the limit of a day, or conductivities at both ends of the way
/// with the share of a day.
enum Step {
    Absolute { distance: f64, limit: f64 },
    Share { from: f64, to: f64, share: f64 },
}

impl Step {
    /// Share of the way that one change may pass the tank by `x` times, when it has come a share `behind`.
    fn at(&self, behind: f64) -> f64 {
        match *self {
            Step::Absolute { distance, limit } => limit / distance,
            Step::Share { from, to, share } => share * (from + behind * (to - from)) / (to - from).abs(),
        }
    }
}

/// The first changes' shares; empty where the first may have the whole.
pub(super) fn ramp(model: &Model, values: &[f64]) -> Vec<f64> {
    if !model.tank.animals.any() || !changes(model.tank) {
        return Vec::new();
    }
    let limit = &book().harm.limit;
    let tap = vec![0.0; values.len()];
    let mut parts = Vec::new();
    for end in [End::Lowest, End::Best, End::Highest] {
        let limits = [
            (Part::Alkalinity, limit.alkalinity_step_meq_per_l.value()),
            (Part::Hardness, limit.hardness_step_meq_per_l()),
        ];
        for (part, limit) in limits {
            let water = model.new_water(part, end);
            parts.push(Step::Absolute { distance: (water.at(values) - water.at(&tap)).abs(), limit });
        }
        let water = conductance(|part| model.new_water(part, end));
        let share = limit.conductivity_step_percent.value() / 100.0;
        parts.push(Step::Share { from: water.at(&tap), to: water.at(values), share });
    }
    steps(&parts, model.tank.habits.change_share.value)
}

/// Shares of the first changes.
fn steps(parts: &[Step], share: f64) -> Vec<f64> {
    let (mut ramp, mut behind) = (Vec::new(), 0.0);
    while ramp.len() < MOST_STEPS {
        let step = parts.iter().map(|part| part.at(behind) / share).fold(f64::INFINITY, f64::min);
        let given = behind + step;
        if given >= 1.0 - 1e-9 {
            break;
        }
        ramp.push(given);
        behind += share * (given - behind);
    }
    ramp
}

#[cfg(test)]
mod tests {
    use super::{Step, steps};

    #[test]
    fn steps_by_hand() {
        // Way 1.8 meq/L, half changed, 0.36 meq/L a change: a step of 0.36 / (0.5 × 1.8) = 0.4 of the way.
        let alkalinity = Step::Absolute { distance: 1.8, limit: 0.36 };
        // Behind: 0, 0.2, 0.4, 0.6 -> given 0.4, 0.6, 0.8, then 1.
        let ramp = steps(&[alkalinity], 0.5);
        assert_eq!(ramp.len(), 3);
        for (given, hand) in ramp.iter().zip([0.4, 0.6, 0.8]) {
            assert!((given - hand).abs() < 1e-12);
        }
        // 200 to 150 µS/cm, half changed, a tenth a change: 20 of 50 are 0.4 of the way behind after the first change,
        // so 0.8 is given; then a tenth of 180 is 18: 0.36 of the way, 0.4 + 0.72 is more than all.
        let ramp = steps(&[Step::Share { from: 200.0, to: 150.0, share: 0.1 }], 0.5);
        assert_eq!(ramp.len(), 1);
        assert!((ramp[0] - 0.8).abs() < 1e-12);
        let none = [Step::Absolute { distance: 0.0, limit: 0.36 }, Step::Share { from: 9.0, to: 9.0, share: 0.1 }];
        assert!(steps(&none, 0.5).is_empty());
    }
}
