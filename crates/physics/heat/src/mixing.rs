//! Mixing waters of different temperature.
//!
//! **What.** The temperature of a mix, the mildest new water that moves a tank by no more than a limit, and the number of
//! pours that keep each under it.
//!
//! **Equation.** T = Σ V T / Σ V. Change of a share x: ΔT = x (T_new - T). Mildest: T_new = T ± limit/x. Water that goes in
//! as n equal pours, out as much before each, with the tank back at T between them: ΔT = x/n (T_new - T).
//! Warming: E = c V ΔT, c = 4.18 kJ/(L K).
//!
//! **Symbols.** V L, T °C, x share of the tank's water renewed, 0 to 1.
//!
//! **Range.** Liquid water; the heat of glass and ground is left out, which errs towards the new water.
//!
//! **Source.** Balance of heat; c of water `iapws_1995`, within 0.3 % from 10 to 40 °C.
//!
//! **Checked by** `tests/by_hand_mixing.rs`.

/// Heat that warms a litre of water by a degree, kJ.
pub const WATER_KJ_PER_L_K: f64 = 4.18;

/// Temperature in °C of waters mixed, each as (litres, °C). `None`: no water, or a volume below zero.
pub fn mixed_c(waters: &[(f64, f64)]) -> Option<f64> {
    let litres: f64 = waters.iter().map(|(litres, _)| litres).sum();
    let good = litres > 0.0 && litres.is_finite() && waters.iter().all(|(litres, _)| *litres >= 0.0);
    good.then(|| waters.iter().map(|(litres, c)| litres * c).sum::<f64>() / litres)
}

/// New water into a tank from which as much was taken out before.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Pour {
    /// The tank, °C.
    pub tank_c: f64,
    /// The new water, °C.
    pub new_c: f64,
    /// Share of the tank's water that is renewed, 0 to 1.
    pub share: f64,
}

impl Pour {
    /// By how much the tank moves, °C; below zero it cools.
    pub fn moves_c(&self) -> f64 {
        self.share * (self.new_c - self.tank_c)
    }

    /// The tank after it, °C.
    pub fn after_c(&self) -> f64 {
        self.tank_c + self.moves_c()
    }

    /// The temperature of new water, on the side of this one, that moves the tank by just `limit_c` (above 0) in one
    /// pour. Without a share any will do: the new water's own comes back.
    pub fn mildest_c(&self, limit_c: f64) -> f64 {
        if self.share <= 0.0 || self.moves_c() == 0.0 {
            return self.new_c;
        }
        self.tank_c + self.moves_c().signum() * limit_c / self.share
    }

    /// The largest share of the tank's water that may go in at once so that it moves by no more than `limit_c`; at most 1.
    pub fn share_most(&self, limit_c: f64) -> f64 {
        let apart = (self.new_c - self.tank_c).abs();
        if apart <= limit_c { 1.0 } else { limit_c / apart }
    }

    /// In how many equal pours it must be split so that each moves the tank by no more than `limit_c`, the tank being
    /// back at its own warmth before the next. Never 0.
    pub fn pours(&self, limit_c: f64) -> f64 {
        (self.moves_c().abs() / limit_c - 1e-9).ceil().max(1.0)
    }

    /// Heat in kWh that `litres` of the new water need to be as warm as the tank; below zero to be cooled.
    pub fn warming_kwh(&self, litres: f64) -> f64 {
        WATER_KJ_PER_L_K * litres * (self.tank_c - self.new_c) / 3600.0
    }
}
