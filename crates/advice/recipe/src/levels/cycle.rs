//! Level under a daily dose, a steady uptake and a change of water every so many days: closed form.
//!
//! What: the level of one ion in the tank once the cycle of changes repeats itself.
//! Equation: a day is change (on its day), then dose, then uptake through the day:
//! `c -> (1 - x) c + x T`, `c -> c + D`, `c -> max(0, c - r)`, with `r = U - g`. Over n days from one change to the next
//! the level right before a change settles at `b = max(0, T + n (D - r) / x)` and right after it at `a = (1 - x) b + x T`.
//! Where `D >= r` it rises from change to change and b is the highest end of a day; where `D < r` it falls and b is the
//! lowest. (With `b = 0` the plants run out: they take what is there and no more. That point is the only one to which
//! the cycle returns, for each cycle shrinks every difference by `1 - x`.)
//! Symbols: T new water, mg/L; D dose, mg/L a day; U taken a day, net of food, mg/L (negative: food brings more than is
//! taken); g what topping up brings, mg/L a day; x share changed, 0 to 1; n days, 1 or more; c level, mg/L.
//! Range: T >= 0, D >= 0, 0 < x <= 1, n >= 1. Without changes (n = 0 or x = 0) nothing settles: t days after the last whole
//! renewal the level stands at `max(0, T + t (D - r))`, of which topping up added `g t`; [`Cycle::settles`] says so, and
//! [`Cycle::swing`] goes from that renewal to today.
//! For alkalinity (`floor` false) nothing stops at zero: what eats it goes on.
//! Source: balance of mass; the sum of a geometric series. No publication is needed for it.
//! Checked by: `tests/closed_form_levels.rs` (recurrence by brute force; the bounds D/f and D (1 - f)/f by hand).

use super::schedule::{Change, Day};

/// One ion under a repeating cycle. mg/L (meq/L for alkalinity); see the file's head for the symbols.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Cycle {
    /// What the new water brings: T.
    pub tap: f64,
    /// Dose a day: D.
    pub dose_per_day: f64,
    /// Taken a day, net of food: U.
    pub uptake_per_day: f64,
    /// What topping up evaporated water brings a day: g.
    pub top_up_per_day: f64,
    /// Share of the water changed: x.
    pub change_share: f64,
    /// Every so many days: n; 0: never.
    pub every_days: u32,
    /// True: uptake stops at zero. False for alkalinity, which goes on below it.
    pub floor: bool,
    /// Days since the last whole renewal, 1 or more: over them it drifts where water is never changed.
    pub unchanged_days: u32,
}

/// What the level comes to.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Settles {
    /// It repeats from change to change: the level right before one.
    At(f64),
    /// There are no changes, and it goes on by so much a day (down: until it runs out).
    Drifts(f64),
}

/// The cycle's marks.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Swing {
    /// Right after a change, before the dose.
    pub after_change: f64,
    /// Right before a change.
    pub before_change: f64,
    /// Lowest of the cycle.
    pub lowest: f64,
    /// Highest of the cycle, doses included.
    pub highest: f64,
    /// Days after a change when it runs out, if it does: from then on until the next dose or change the plants go without.
    pub runs_out_day: Option<f64>,
}

impl Cycle {
    /// Days drawn of a tank whose water is never changed, and those reckoned with where nobody told its age: four weeks, a choice
    /// of the drawing and not of the model.
    pub const DRIFT_DAYS: u32 = 28;

    /// Falls by so much a day after the dose: r = U - g.
    pub fn fall_per_day(&self) -> f64 {
        self.uptake_per_day - self.top_up_per_day
    }

    /// Water is changed at all.
    pub fn changes(&self) -> bool {
        self.every_days > 0 && self.change_share > 0.0
    }

    /// Days of a cycle; those since the last whole renewal where water is never changed.
    pub fn days(&self) -> u32 {
        if self.changes() { self.every_days } else { self.unchanged_days }
    }

    /// The level so many days after a whole renewal, none changed since: T + t (D - r).
    pub fn drifted(&self, days: f64) -> f64 {
        self.floored(self.tap + days * (self.dose_per_day - self.fall_per_day()))
    }

    /// What the level comes to.
    pub fn settles(&self) -> Settles {
        let gain = self.dose_per_day - self.fall_per_day();
        if self.changes() { Settles::At(self.before_change()) } else { Settles::Drifts(gain) }
    }

    /// Right before a change: b. Without changes, today.
    pub fn before_change(&self) -> f64 {
        let days = f64::from(self.days());
        if !self.changes() {
            return self.drifted(days);
        }
        self.floored(self.tap + days * (self.dose_per_day - self.fall_per_day()) / self.change_share)
    }

    /// Right after a change: a. Without changes, the fill with new water.
    pub fn after_change(&self) -> f64 {
        if self.changes() {
            (1.0 - self.change_share) * self.before_change() + self.change_share * self.tap
        } else {
            self.tap
        }
    }

    /// All marks of the cycle.
    pub fn swing(&self) -> Swing {
        let (a, b) = (self.after_change(), self.before_change());
        let (dose, fall) = (self.dose_per_day, self.fall_per_day());
        let first_end = self.floored(a + dose - fall);
        let last_start = self.floored(a + f64::from(self.days() - 1) * (dose - fall));
        let highest = [a, b, a + dose, last_start + dose].into_iter().fold(f64::NEG_INFINITY, f64::max);
        let lowest = [a, b, first_end].into_iter().fold(f64::INFINITY, f64::min);
        Swing { after_change: a, before_change: b, lowest, highest, runs_out_day: self.runs_out_day() }
    }

    /// Days after a change when it would go below zero.
    pub fn runs_out_day(&self) -> Option<f64> {
        let (dose, fall) = (self.dose_per_day, self.fall_per_day());
        let after_dose = self.after_change() + dose;
        let lacks = |start: f64| fall > 0.0 && start < fall - 1e-12 * fall;
        if lacks(after_dose) {
            return Some((after_dose / fall).max(0.0));
        }
        // It falls by (fall - dose) a day and gets there on the first day whose start is below one day's fall.
        if fall <= dose {
            return None;
        }
        let day = ((after_dose - fall) / (fall - dose)).ceil().max(1.0);
        let near = [day - 1.0, day, day + 1.0].into_iter().filter(|&day| day >= 1.0 && day < f64::from(self.days()));
        near.map(|day| (day, after_dose - day * (fall - dose)))
            .find(|&(_, start)| lacks(start))
            .map(|(day, start)| day + (start / fall).max(0.0))
    }

    /// The same cycle as a schedule of so many days, day 0 with a change if there are any.
    pub fn schedule(&self, days: u32) -> Vec<Day> {
        let change = Change { share: self.change_share, water: self.tap };
        (0..days)
            .map(|day| Day {
                change: (self.changes() && day % self.every_days == 0).then_some(change),
                dose: self.dose_per_day,
                fall: self.fall_per_day(),
                floor: self.floor,
            })
            .collect()
    }

    fn floored(&self, level: f64) -> f64 {
        if self.floor { level.max(0.0) } else { level }
    }
}
