//! Heat that lamps and pumps bring into the water.
//!
//! **What.** The part of a device's watts that ends in the water.
//!
//! **Equation.** P = share × watts × hours/24.
//!
//! **Symbols.** P W, mean of the day.
//!
//! **Range.** A pump in the water: all of it. A pump outside whose water runs through: 0.3 to 0.5 to 0.7. A lamp over the
//! water: 0.2 to 0.3 to 0.4 enters as light, and nearly all light ends as heat.
//!
//! **Source.** Common practice, no publication.
//!
//! **Checked by** `tests/by_hand_loss.rs`.

use quantity::{Kind, Known};

/// Where a device stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Gear {
    /// A pump or a heater in the water.
    InWater,
    /// A pump outside, the water running through it.
    PumpOutside,
    /// A lamp above the water.
    LampAbove,
}

/// Heat in W, mean of the day, that a device of `watts` brings while it runs `hours` a day (0 to 24).
pub fn heat_w(gear: Gear, watts: f64, hours: f64) -> Known<f64> {
    let [low, likely, high] = match gear {
        Gear::InWater => [1.0, 1.0, 1.0],
        Gear::PumpOutside => [0.3, 0.5, 0.7],
        Gear::LampAbove => [0.2, 0.3, 0.4],
    };
    let mean = watts.max(0.0) * hours.clamp(0.0, 24.0) / 24.0;
    Known::ranged(low * mean, likely * mean, high * mean, Kind::CommonPractice)
}
