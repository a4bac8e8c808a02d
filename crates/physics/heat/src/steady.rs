//! What a steady heat comes to: the heater that a cold room asks for, and the water when heat stays on.
//!
//! **What.** Watts that hold a temperature, and the temperature that watts lead to.
//!
//! **Equation.** P = G (T - T_r) + L(T), solved for P; for T by halving (the right side only rises).
//!
//! **Symbols.** P W, G W/K, L W, T °C.
//!
//! **Range.** Water of 0 to [`MOST_C`]; hotter is said as "more than". What harms is for others to say: for a heater stuck
//! on the low end of the loss counts (its temperature is the upper end of the range), for sizing the high end.
//!
//! **Source.** Balance of heat.
//!
//! **Checked by** `tests/by_hand_loss.rs`, `tests/identities.rs`.

use quantity::{Fault, Known};

use crate::body::{Body, End, Room, within};

/// The warmest water that is worked out, °C. Above it every animal of a warm tank is long dead.
pub const MOST_C: f64 = 50.0;
/// Halvings of a range of 50 °C: to below 1e-9 °C.
const HALVINGS: usize = 40;

impl Body {
    fn needs_w(&self, water_c: f64, room: &Room, end: End) -> f64 {
        self.dry_w_per_k(end) * (water_c - room.temperature_c) + self.evaporation_w(water_c, room, end)
    }

    /// Watts that hold the water at a temperature (0 to 50 °C) in a room, all sources together; 0 where the room is warm enough.
    ///
    /// # Errors
    /// Something is outside the range of the model.
    pub fn heater_w(&self, water_c: f64, room: &Room) -> Result<Known<f64>, Fault> {
        self.check()?;
        room.check()?;
        within("the water's temperature in °C", water_c, 0.0, MOST_C)?;
        Ok(End::range(|end| self.needs_w(water_c, room, end).max(0.0)))
    }

    /// The temperature that the water settles at while `heat_w` watts are given all the time, °C; [`MOST_C`] means that
    /// much or more.
    ///
    /// # Errors
    /// Something is outside the range of the model.
    pub fn warmest_c(&self, heat_w: f64, room: &Room) -> Result<Known<f64>, Fault> {
        self.check()?;
        room.check()?;
        within("the heat in watts", heat_w, 0.0, 1e5)?;
        Ok(End::range(|end| self.settles_c(heat_w, room, end)))
    }

    /// The temperature in balance at one end of the range, 0 to [`MOST_C`].
    pub(crate) fn settles_c(&self, heat_w: f64, room: &Room, end: End) -> f64 {
        let (mut low, mut high) = (0.0, MOST_C);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.needs_w(middle, room, end) < heat_w { low = middle } else { high = middle }
        }
        high
    }
}
