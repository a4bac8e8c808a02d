//! Where a level settles when evaporated water is replaced by water that holds something.
//!
//! **What.** Evaporation takes water and leaves its salts; topping up brings more; only a change takes them out.
//!
//! **Equation.** Over n days from change to change: e n litres evaporate and come back at C_t, then a share x goes and comes
//! back at C_n. Right before a change the level settles at C_n + C_t e n/(x V), right after at that less C_t e n/V.
//! Without changes it rises by C_t e/V a day and never settles.
//!
//! **Symbols.** V L, e L a day, C in any unit of concentration (also hardness, conductivity as a rough guide), x 0 to 1.
//!
//! **Range.** Nothing falls out and nothing is taken up: for hardness in hard water an upper end, since lime may form.
//!
//! **Source.** Balance of mass.
//!
//! **Checked by** `tests/by_hand_top_up.rs` (by hand, and the recurrence run until it repeats).

/// Topping up between changes.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct TopUp {
    /// Water in the tank, L; above 0.
    pub litres: f64,
    /// Evaporated and replaced in a day, L.
    pub a_day_l: f64,
    /// Days from one change to the next.
    pub every_days: f64,
    /// Share of the water that a change renews, 0 to 1.
    pub share: f64,
    /// Level of the new water of a change.
    pub new_level: f64,
    /// Level of the water that tops up: 0 for rain or water without minerals.
    pub top_up_level: f64,
}

impl TopUp {
    /// What topping up adds between two changes, in the unit of the levels.
    pub fn adds(&self) -> f64 {
        self.top_up_level * self.a_day_l * self.every_days / self.litres
    }

    /// Lowest (right after a change) and highest (right before) once it has settled. `None`: no changes, it rises for ever.
    pub fn settles(&self) -> Option<(f64, f64)> {
        let highest = self.new_level + self.adds() / self.share;
        (self.share > 0.0 && highest.is_finite()).then(|| (highest - self.adds(), highest))
    }

    /// The level right before the change number `changes` (0: the start, right after a change at `start`).
    pub fn before_change(&self, start: f64, changes: u32) -> f64 {
        let mut level = start + self.adds();
        for _ in 0..changes {
            level = (1.0 - self.share) * level + self.share * self.new_level + self.adds();
        }
        level
    }
}
