//! The cans from which somebody tops up while the keeper is away: how many, how full, and what is in them already.

use knowledge::book;
use recipe::Plan;
use setup::Tank;

use super::Away;
use crate::start_waters::refused_tap;
use crate::start_words::up;
use crate::top_up::from_tap;

/// Cans of at most what a person lifts (harm rule 5), filled by the keeper before leaving.
pub(super) struct Cans {
    /// How many.
    pub count: f64,
    /// L in each.
    pub each_l: f64,
    /// With what.
    pub filled: Filled,
}

/// What a can is filled with.
pub(super) enum Filled {
    /// Tap water that needs no conditioner.
    Plain,
    /// Rain or other low-mineral water.
    Low,
    /// The tap is refused: why.
    Refused(String),
    /// Tap water with its conditioner.
    Conditioned {
        /// mL in each can.
        ml: f64,
        /// mg/L of total chlorine that this covers.
        covers_mg_per_l: f64,
    },
}

impl Cans {
    /// The cans of an absence.
    pub(super) fn of(tank: &Tank, plan: &Plan, away: &Away) -> Cans {
        let all = f64::from(away.water.visits) * away.water.each_l;
        let count = up(all / book().harm.limit.bucket_l.value()).max(1.0);
        let each_l = all / count;
        Cans { count, each_l, filled: filled(tank, plan, each_l) }
    }
}

fn filled(tank: &Tank, plan: &Plan, each_l: f64) -> Filled {
    if !from_tap(tank) {
        return Filled::Low;
    }
    match (refused_tap(tank, plan), &plan.new_water.conditioner) {
        (Some(stops), _) => Filled::Refused(stops),
        (None, None) => Filled::Plain,
        (None, Some(c)) => {
            let (ml, covers_mg_per_l) = c.for_litres(tank, each_l);
            Filled::Conditioned { ml, covers_mg_per_l }
        }
    }
}
