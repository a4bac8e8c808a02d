//! The glass with its water and the room around it: what a degree of difference costs.
//!
//! **What.** Heat in watts that walls, floor and surface lose for each degree that the water is warmer than the room.
//!
//! **Equation.** G = A_walls U_walls + A_floor U_floor + A_surface h. U = 1/(1/h_in + d/λ + 1/h_out).
//!
//! **Symbols.** G W/K, A m², U and h W/(m² K), d thickness m, λ of glass 1.0 W/(m K).
//!
//! **Range.** h_out 6 to 8 to 10 (radiation and still air), h_in 200 to 300 to 500 (common practice). Floor on wood or foam: U 1.5 to 3.2 to 4.5.
//! Surface, sensible part: 6 to 8 to 10 open, 3 to 4.5 to 6 under a cover (assumed: two layers in series). Panes of one
//! thickness, no insulation; a tank against walls or in a cupboard loses less than the low end says: then measure.
//!
//! **Source.** `en_673` (λ, 8), `en_iso_6946` (surface coefficients, from memory), the floor worked out for 18 mm of wood; ranges assumed.
//!
//! **Checked by** `tests/by_hand_loss.rs`.

use quantity::{Fault, Kind, Known, format_number};

use crate::mixing::WATER_KJ_PER_L_K;

/// λ of glass, W/(m K).
const GLASS: f64 = 1.0;
/// Water side, W/(m² K): low, likely, high.
const INSIDE: [f64; 3] = [200.0, 300.0, 500.0];
/// Room side, W/(m² K): low, likely, high.
const OUTSIDE: [f64; 3] = [6.0, 8.0, 10.0];
/// Floor on wood or foam, W/(m² K).
const FLOOR: [f64; 3] = [1.5, 3.2, 4.5];
/// Open surface, sensible part, W/(m² K).
const OPEN: [f64; 3] = [6.0, 8.0, 10.0];
/// Covered surface, W/(m² K).
const COVERED: [f64; 3] = [3.0, 4.5, 6.0];
/// Heat held by water, with glass and ground beside it: none, some, a tenth (assumed).
const HOLDS: [f64; 3] = [1.0, 1.05, 1.1];

/// What lies over the water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cover {
    /// Nothing that keeps vapour in.
    Open,
    /// A closed glass cover.
    Glass,
}

/// An end of the range of the coefficients: `Low` loses least.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// Least loss of heat, least evaporation.
    Low,
    /// Best estimate.
    Likely,
    /// Most loss of heat, most evaporation.
    High,
}

impl End {
    /// Place in a table of three.
    pub(crate) fn index(self) -> usize {
        self as usize
    }

    /// A value with its range from a function of the end, whichever way it runs.
    pub(crate) fn range(of: impl Fn(End) -> f64) -> Known<f64> {
        let (a, b) = (of(End::Low), of(End::High));
        Known::ranged(a.min(b), of(End::Likely), a.max(b), Kind::WorkedOut)
    }
}

/// A glass box with water, upright, four panes and a floor of one thickness.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Body {
    /// Inner length, m; 0.05 to 5.
    pub length_m: f64,
    /// Inner width, m; 0.05 to 5.
    pub width_m: f64,
    /// Depth of the water, m; 0.02 to 2.
    pub depth_m: f64,
    /// Thickness of the glass, mm; 1 to 50.
    pub glass_mm: f64,
    /// Water in it, L; above 0.
    pub litres: f64,
    /// What lies over it.
    pub cover: Cover,
    /// Whether the surface is rippled by a pump, or broken by bubbles.
    pub rippled: bool,
}

/// The air around it.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Room {
    /// °C, 0 to 50.
    pub temperature_c: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
}

impl Room {
    /// A room of a temperature in °C whose air holds half of the vapour it could (assumed).
    pub fn at(temperature_c: f64) -> Room {
        Room { temperature_c, humidity: 0.5 }
    }

    /// # Errors
    /// Outside the range of the model.
    pub(crate) fn check(&self) -> Result<(), Fault> {
        within("the room's temperature in °C", self.temperature_c, 0.0, 50.0)?;
        within("the room's relative humidity as a share", self.humidity, 0.0, 1.0)
    }
}

impl Body {
    /// Area of the water's surface, m².
    pub fn surface_m2(&self) -> f64 {
        self.length_m * self.width_m
    }

    /// Glass that stands in water at the sides, m².
    pub fn walls_m2(&self) -> f64 {
        2.0 * (self.length_m + self.width_m) * self.depth_m
    }

    /// W lost for each degree over the room, evaporation apart, at one end.
    pub(crate) fn dry_w_per_k(&self, end: End) -> f64 {
        let i = end.index();
        let wall = 1.0 / (1.0 / INSIDE[i] + self.glass_mm * 1e-3 / GLASS + 1.0 / OUTSIDE[i]);
        let over = if self.cover == Cover::Glass { COVERED[i] } else { OPEN[i] };
        self.walls_m2() * wall + self.surface_m2() * (FLOOR[i] + over)
    }

    /// Heat in J that warms it by a degree, at one end.
    pub(crate) fn holds_j_per_k(&self, end: End) -> f64 {
        1e3 * WATER_KJ_PER_L_K * self.litres * HOLDS[end.index()]
    }

    /// W lost for each degree that the water is warmer than the room, evaporation apart.
    ///
    /// # Errors
    /// The glass is outside the range of the model.
    pub fn loss_w_per_k(&self) -> Result<Known<f64>, Fault> {
        self.check()?;
        Ok(End::range(|end| self.dry_w_per_k(end)))
    }

    /// # Errors
    /// Outside the range of the model.
    pub(crate) fn check(&self) -> Result<(), Fault> {
        within("the length in metres", self.length_m, 0.05, 5.0)?;
        within("the width in metres", self.width_m, 0.05, 5.0)?;
        within("the depth of the water in metres", self.depth_m, 0.02, 2.0)?;
        within("the thickness of the glass in millimetres", self.glass_mm, 1.0, 50.0)?;
        within("the water in litres", self.litres, 0.1, 10_000.0)
    }
}

/// # Errors
/// `value` is outside `low` to `high`, or no number.
pub(crate) fn within(what: &str, value: f64, low: f64, high: f64) -> Result<(), Fault> {
    if (low..=high).contains(&value) {
        return Ok(());
    }
    let n = |x: f64| format_number(x, quantity::Digits::Significant(4));
    Err(Fault::new(format!("{what}, {}, is outside what this model answers for", n(value)))
        .expected(format!("{} to {}", n(low), n(high)))
        .hint("check the number and its unit"))
}
