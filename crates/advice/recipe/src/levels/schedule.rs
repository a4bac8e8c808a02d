//! Any schedule, day by day: changes of any share and water, doses of any size, days that were missed.
//!
//! What: the level of one ion at each step of each day.
//! Equation: change `c -> (1 - x) c + x T`; dose `c -> c + D`; then through the day `c(t) = max(0, c - r t)`, t from 0 to 1.
//! It is linear in pieces, and passed piece by piece: exact, no time step.
//! Symbols: as in `levels/cycle.rs`; t share of the day that has passed.
//! Range: any. Where the level stands below zero (alkalinity) it is passed through as it is.
//! Source: balance of mass.
//! Checked by: `tests/closed_form_levels.rs`, against the closed form and against small time steps.

/// A change of water.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Change {
    /// Share changed, 0 to 1.
    pub share: f64,
    /// What the new water brings, mg/L.
    pub water: f64,
}

/// What happens on a day, in this order.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Day {
    /// A change first, if it is the day for one.
    pub change: Option<Change>,
    /// Then the dose, mg/L; 0 where it is missed.
    pub dose: f64,
    /// Then so much is taken through the day, net of food and topping up, mg/L.
    pub fall: f64,
    /// True: taking stops at zero.
    pub floor: bool,
}

/// A day that has passed.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Passed {
    /// Level when it began.
    pub start: f64,
    /// After the change (the same as `start` without one).
    pub after_change: f64,
    /// After the dose.
    pub after_dose: f64,
    /// At its end.
    pub end: f64,
    /// Share of the day after which it ran out, if it did.
    pub ran_out: Option<f64>,
    /// What happened.
    pub day: Day,
}

impl Passed {
    /// Level when a share `t` of the day has passed, 0 to 1, dose included.
    pub fn at(&self, t: f64) -> f64 {
        let level = self.after_dose - self.day.fall * t;
        if self.day.floor && self.day.fall > 0.0 { level.max(self.after_dose.min(0.0)) } else { level }
    }
}

/// Pass through a schedule from a level on its first morning.
pub fn simulate(start: f64, schedule: &[Day]) -> Vec<Passed> {
    let mut level = start;
    schedule
        .iter()
        .map(|&day| {
            let after_change = day.change.map_or(level, |c| (1.0 - c.share) * level + c.share * c.water);
            let after_dose = after_change + day.dose;
            let lacks = day.fall > 0.0 && after_dose < day.fall - 1e-12 * day.fall;
            let ran_out = lacks.then(|| (after_dose / day.fall).max(0.0));
            let mut passed = Passed { start: level, after_change, after_dose, end: after_dose, ran_out, day };
            passed.end = passed.at(1.0);
            level = passed.end;
            passed
        })
        .collect()
}

/// Points (day, level) to draw, for several passes through the same days at the same points each: vertical strokes of
/// changes and doses, a corner wherever one of them runs out. The passes must be equally long.
pub fn tide<const N: usize>(passes: [&[Passed]; N]) -> Vec<(f64, [f64; N])> {
    let days = passes.iter().map(|pass| pass.len()).min().unwrap_or(0);
    let mut points = Vec::with_capacity(4 * days + 1);
    for i in 0..days {
        let of = |f: &dyn Fn(&Passed) -> f64| passes.map(|pass| pass.get(i).map_or(0.0, f));
        let day = i as f64;
        if i == 0 {
            points.push((day, of(&|p| p.start)));
        }
        if passes.iter().any(|pass| pass.get(i).is_some_and(|p| p.day.change.is_some())) {
            points.push((day, of(&|p| p.after_change)));
        }
        points.push((day, of(&|p| p.after_dose)));
        let mut corners: Vec<f64> = passes.iter().filter_map(|pass| pass.get(i)?.ran_out).collect();
        corners.sort_by(f64::total_cmp);
        corners.dedup();
        points.extend(corners.into_iter().filter(|t| *t > 0.0 && *t < 1.0).map(|t| (day + t, of(&|p| p.at(t)))));
        points.push((day + 1.0, of(&|p| p.end)));
    }
    points
}
