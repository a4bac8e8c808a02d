//! How a tank cools or warms by itself.
//!
//! **What.** The water's temperature after some hours in a room, with or without heat given; and the loss from a cooling
//! that the keeper measured.
//!
//! **Equation.** c dT/dt = P - G (T - T_r) - L(T), L the heat of evaporation. L is taken as the straight line through its
//! values at the start and at the T_e where all is in balance, g its slope. Then T(t) = T_e + (T_0 - T_e) exp(-t/τ),
//! τ = c/(G + g): the first minute and the end are right, and between them the curve is nearly so. Measured: G = c ln((T_0 - T_r)/(T_1 - T_r))/t.
//!
//! **Symbols.** T, T_0, T_r, T_e °C; t s; c J/K; G, g W/K; P, L W.
//!
//! **Range.** Well stirred water: with the power out the top stays warmer than the bottom. 0 to 50 °C. The straight line
//! errs by less than 0.1 °C where start and room are 10 °C apart.
//!
//! **Source.** Newton's law of cooling; coefficients of `body` and `evaporation`.
//!
//! **Checked by** `tests/closed_form_cooling.rs` (small steps of the curved equation), `tests/by_hand_loss.rs`.

use quantity::{Fault, Known};

use crate::body::{Body, End, Room, within};
use crate::mixing::WATER_KJ_PER_L_K;

/// A tank left to itself in a room.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Cooling {
    /// The tank.
    pub body: Body,
    /// The room; a steady temperature.
    pub room: Room,
    /// The water at the start, °C, 0 to 50.
    pub start_c: f64,
    /// Heat given all the while, W; 0 with the power out.
    pub heat_w: f64,
    /// The keeper's own loss, W for each degree over the room, evaporation in it; `None`: worked out.
    pub measured_w_per_k: Option<f64>,
}

/// The straight equation at one end of the range.
struct Line {
    per_s: f64,
    towards_c: f64,
}

impl Cooling {
    fn line(&self, end: End) -> Line {
        let (holds, room_c) = (self.body.holds_j_per_k(end), self.room.temperature_c);
        if let Some(all) = self.measured_w_per_k {
            return Line { per_s: all / holds, towards_c: room_c + self.heat_w / all };
        }
        let wet = |c: f64| self.body.evaporation_w(c, &self.room, end);
        let dry = self.body.dry_w_per_k(end);
        let mut other_c = self.body.settles_c(self.heat_w, &self.room, end);
        if (self.start_c - other_c).abs() < 0.1 {
            // A chord of no length: the slope close by.
            other_c = self.start_c + 0.1;
        }
        let per_k = (wet(self.start_c) - wet(other_c)) / (self.start_c - other_c);
        let all = dry + per_k;
        let towards_c = (self.heat_w + dry * room_c - wet(self.start_c) + per_k * self.start_c) / all;
        Line { per_s: all / holds, towards_c }
    }

    fn check(&self) -> Result<(), Fault> {
        self.body.check()?;
        self.room.check()?;
        within("the water's temperature in °C", self.start_c, 0.0, 50.0)?;
        within("the heat in watts", self.heat_w, 0.0, 1e5)?;
        self.measured_w_per_k.map_or(Ok(()), |all| within("the measured loss in W for a degree", all, 1e-3, 1e5))
    }

    /// The water after some hours, °C.
    ///
    /// # Errors
    /// Something is outside the range of the model.
    pub fn after_c(&self, hours: f64) -> Result<Known<f64>, Fault> {
        self.check()?;
        within("the hours", hours, 0.0, 1e5)?;
        Ok(End::range(|end| {
            let line = self.line(end);
            line.towards_c + (self.start_c - line.towards_c) * (-line.per_s * 3600.0 * hours).exp()
        }))
    }

    /// Hours until the water stands at `c` °C; infinite where it never gets there, 0 where it stands there or is past it
    /// on its way.
    ///
    /// # Errors
    /// Something is outside the range of the model.
    pub fn hours_to(&self, c: f64) -> Result<Known<f64>, Fault> {
        self.check()?;
        Ok(End::range(|end| {
            let line = self.line(end);
            let (whole, left) = (self.start_c - line.towards_c, c - line.towards_c);
            if whole == 0.0 || left * whole <= 0.0 {
                // It would have to cross the level it tends to.
                return if (c - self.start_c) * whole >= 0.0 { 0.0 } else { f64::INFINITY };
            }
            ((whole / left).ln() / line.per_s / 3600.0).max(0.0)
        }))
    }

    /// Hours in which the difference to what it tends to falls to 1/e.
    ///
    /// # Errors
    /// Something is outside the range of the model.
    pub fn time_constant_h(&self) -> Result<Known<f64>, Fault> {
        self.check()?;
        Ok(End::range(|end| 1.0 / self.line(end).per_s / 3600.0))
    }
}

/// All heat lost for a degree over the room, W/K, from a cooling with heater, lamp and pump off: the water (L) fell from
/// `start_c` to `end_c` in `hours`, the room at `room_c`. `None`: it did not fall towards the room, or no time passed.
pub fn loss_from_cooling_w_per_k(litres: f64, room_c: f64, start_c: f64, end_c: f64, hours: f64) -> Option<f64> {
    let ratio = (start_c - room_c) / (end_c - room_c);
    let good = litres > 0.0 && hours > 0.0 && ratio > 1.0 && ratio.is_finite();
    good.then(|| 1e3 * WATER_KJ_PER_L_K * litres * ratio.ln() / (3600.0 * hours))
}
