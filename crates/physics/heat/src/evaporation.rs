//! Evaporation from still water in a room.
//!
//! **What.** Kilograms (litres) of water that leave the surface, and the heat that they take.
//!
//! **Equation.** W = F A (p_w - p_a) (0.089 + 0.0782 v) / Y, kg/s; p_w saturation at the water's temperature, p_a = RH times
//! saturation at the room's; Y latent heat. Saturation: p = 0.61094 exp(17.625 t/(t + 243.04)) kPa. Y = 2500.8 - 2.36 t kJ/kg.
//!
//! **Symbols.** A m², p kPa, v speed of the air over the water m/s, Y kJ/kg, RH 0 to 1, t °C. F: what still and little used
//! water evaporates of what the equation says for a busy pool.
//!
//! **Range.** 0 to 50 °C. v 0.05 to 0.1 to 0.2 m/s indoors (assumed). F 0.5 to 0.74: the method is known to be rough. Water that a pump ripples or
//! bubbles break: 1 to 1.5 times that, up to 3 (common practice). A glass cover: 5 to 20 % of it (common practice). Where the
//! room's air is moister than balance the sign turns and water condenses; the rate is then given as 0.
//!
//! **Source.** `ashrae_applications` (the equation and 0.5, from memory), `smith_1998` (0.74 measured on undisturbed
//! pools), `alduchov_eskridge_1996` (saturation, from memory); latent heat: a straight line through `iapws_1995`.
//!
//! **Checked by** `tests/handbook_vapour.rs` (steam tables), `tests/by_hand_loss.rs`.

use crate::body::{Body, Cover, End, Room};

/// Share of the pool equation for still water: low, likely, high.
const STILL: [f64; 3] = [0.5, 0.62, 0.74];
/// How much more rippled water evaporates: low, likely, high (common practice).
const RIPPLED: [f64; 3] = [1.0, 1.5, 3.0];
/// What a glass cover lets through: low, likely, high (common practice).
const COVERED: [f64; 3] = [0.05, 0.1, 0.2];
/// Air over the water of a room, m/s: low, likely, high (assumed).
const AIR_M_PER_S: [f64; 3] = [0.05, 0.1, 0.2];
/// Seconds of a day.
const DAY_S: f64 = 86_400.0;

/// Pressure of saturated vapour over water in kPa at 0 to 50 °C (Alduchov & Eskridge 1996).
pub fn vapour_pressure_kpa(temperature_c: f64) -> f64 {
    0.61094 * (17.625 * temperature_c / (temperature_c + 243.04)).exp()
}

/// Heat in kJ that a kilogram of water takes with it as vapour, 0 to 50 °C.
pub fn latent_heat_kj_per_kg(temperature_c: f64) -> f64 {
    2500.8 - 2.36 * temperature_c
}

/// The equation as the handbook has it, kg/(m² s), for air at `speed` m/s; below 0 water condenses.
fn pool_kg_per_m2_s(water_c: f64, room: &Room, speed_m_per_s: f64) -> f64 {
    let driving = vapour_pressure_kpa(water_c) - room.humidity * vapour_pressure_kpa(room.temperature_c);
    driving * (0.089 + 0.0782 * speed_m_per_s) / latent_heat_kj_per_kg(water_c)
}

impl Body {
    /// kg/s at one end of the range, at a water temperature of 0 to 50 °C; never below 0.
    pub(crate) fn evaporates_kg_per_s(&self, water_c: f64, room: &Room, end: End) -> f64 {
        let i = end.index();
        let ripple = if self.rippled { RIPPLED[i] } else { 1.0 };
        let cover = if self.cover == Cover::Glass { COVERED[i] } else { 1.0 };
        let pool = pool_kg_per_m2_s(water_c, room, AIR_M_PER_S[i]).max(0.0);
        STILL[i] * ripple * cover * self.surface_m2() * pool
    }

    /// Heat that evaporation takes at one end of the range, W.
    pub(crate) fn evaporation_w(&self, water_c: f64, room: &Room, end: End) -> f64 {
        1e3 * latent_heat_kj_per_kg(water_c) * self.evaporates_kg_per_s(water_c, room, end)
    }

    /// Litres of water that evaporate in a day.
    ///
    /// # Errors
    /// The glass, the room or the water is outside the range of the model.
    pub fn evaporation_l_per_day(&self, water_c: f64, room: &Room) -> Result<quantity::Known<f64>, quantity::Fault> {
        self.check()?;
        room.check()?;
        crate::body::within("the water's temperature in °C", water_c, 0.0, 50.0)?;
        Ok(End::range(|end| DAY_S * self.evaporates_kg_per_s(water_c, room, end)))
    }
}
