//! How fast water gives and takes oxygen and CO2: through its surface, and by bubbles.
//!
//! **What.** One model for both gases. Every way (surface, an air stone, a filter's fall) is a rate and a ceiling; they
//! add up to one rate and one level towards which the water relaxes.
//!
//! **Equation.** dC/dt = Σ k (C* - C) + s.
//! Surface: k = k_O2,20 θ^(t-20) (Sc_O2/Sc)^n with θ = 1.024 and Schmidt numbers Sc(t); so CO2 follows from oxygen by
//! the ratio of diffusivities. Bubbles: a bubble takes up gas until it is in balance with the water, so each gas has its own
//! ceiling: k = (Q H/V) (1 - exp(-k_ex/(Q H/V))), Q air flow, H = gas over water concentration in balance = 1/(K R T),
//! k_ex the rate if bubbles never filled. Closed form: C(t) = C∞ + (C0 - C∞) exp(-k t), C∞ = (Σ k C* + s)/Σ k.
//!
//! **Symbols.** C mg/L; k 1/h; t °C, time h; s source mg/(L h); V and Q in L and L/h; n ½ (rippled) to ⅔ (still).
//!
//! **Range.** 0 to 30 °C for the Schmidt numbers (Wanninkhof), used to 35. No chemical enhancement: below pH 8 it does not
//! matter. No rate of a household tank has been published: the rates are for the keeper to measure.
//!
//! **Source.** `wanninkhof_1992` (Schmidt numbers); θ and the rest standard theory of two films, from memory.
//!
//! **Checked by** `tests/closed_form_gas_exchange.rs`.

use crate::air::oxygen_at_saturation_mg_per_l;
use crate::constants::Constants;
use crate::refusal::{Refusal, within};

/// L atm/(mol K).
const R_L_ATM: f64 = 0.082_057_37;
/// Rate per degree (from memory: the usual value for aeration).
const PER_DEGREE: f64 = 1.024;
/// mg of O2 per mol (`iupac_2022`).
const O2_MG_PER_MOL: f64 = 31_998.0;

/// The gases that are exchanged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Gas {
    /// O2.
    Oxygen,
    /// CO2.
    CarbonDioxide,
}

impl Gas {
    /// Schmidt number in fresh water: viscosity over diffusivity; °C (Wanninkhof 1992; that of CO2 from memory).
    pub fn schmidt(self, temperature_c: f64) -> f64 {
        let [a, b, c, d] = match self {
            Gas::Oxygen => [1800.6, -120.10, 3.7818, -0.047608],
            Gas::CarbonDioxide => [1911.1, -118.11, 3.4527, -0.041320],
        };
        a + temperature_c * (b + temperature_c * (c + temperature_c * d))
    }

    /// Concentration in air over that in water, both per volume, in balance: large where water holds little.
    ///
    /// # Errors
    /// [`Refusal::OutOfRange`] outside 0 to 35 °C.
    pub fn air_over_water(self, temperature_c: f64) -> Result<f64, Refusal> {
        let solubility_mol_per_l_atm = match self {
            Gas::CarbonDioxide => Constants::at(temperature_c)?.co2_solubility_mol_per_kg_atm(),
            Gas::Oxygen => {
                let partial = OXYGEN_IN_DRY_AIR * (1.0 - crate::air::vapour_pressure_atm(temperature_c));
                oxygen_at_saturation_mg_per_l(temperature_c, 1.0)? / (O2_MG_PER_MOL * partial)
            }
        };
        Ok(1.0 / (solubility_mol_per_l_atm * R_L_ATM * (temperature_c + 273.15)))
    }
}

/// Share of oxygen in dry air.
const OXYGEN_IN_DRY_AIR: f64 = 0.2095;

/// A water surface, by what it does to oxygen.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Surface {
    /// Rate for oxygen at 20 °C, 1/h.
    pub oxygen_per_h_at_20: f64,
    /// How the rate follows the Schmidt number: 0.5 for rippled, 0.667 for still water.
    pub exponent: f64,
}

/// Schmidt number for which velocities of a film are given: that of CO2 in fresh water at 20 °C.
const FILM_SCHMIDT: f64 = 600.0;

impl Surface {
    /// A still surface by the velocity of its film for a Schmidt number of 600, cm/h, over water of a mean depth in m.
    pub fn still(film_cm_per_h: f64, depth_m: f64) -> Surface {
        let exponent = 2.0 / 3.0;
        let oxygen = (FILM_SCHMIDT / Gas::Oxygen.schmidt(20.0)).powf(exponent);
        Surface { oxygen_per_h_at_20: film_cm_per_h / 100.0 / depth_m * oxygen, exponent }
    }

    /// The rate for a gas, 1/h.
    pub fn per_h(&self, gas: Gas, temperature_c: f64) -> f64 {
        let ratio = Gas::Oxygen.schmidt(temperature_c) / gas.schmidt(temperature_c);
        self.oxygen_per_h_at_20 * PER_DEGREE.powf(temperature_c - 20.0) * ratio.powf(self.exponent)
    }

    /// The rate for oxygen, 1/h.
    pub fn oxygen_per_h(&self, temperature_c: f64) -> f64 {
        self.per_h(Gas::Oxygen, temperature_c)
    }

    /// The rate for carbon dioxide, 1/h.
    pub fn carbon_dioxide_per_h(&self, temperature_c: f64) -> f64 {
        self.per_h(Gas::CarbonDioxide, temperature_c)
    }
}

/// Rising bubbles of air.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Bubbles {
    /// Air through the water, litres (at the water's temperature and pressure) per hour.
    pub air_l_per_h: f64,
    /// Water they rise through and mix with, litres.
    pub water_l: f64,
    /// Rate for oxygen at 20 °C if bubbles never filled, 1/h: transfer velocity times bubble surface over volume of water.
    pub unfilled_oxygen_per_h_at_20: f64,
}

impl Bubbles {
    /// The rate for a gas, 1/h; never above [`Bubbles::ceiling_per_h`].
    ///
    /// # Errors
    /// [`Refusal::OutOfRange`] outside 0 to 35 °C.
    pub fn per_h(&self, gas: Gas, temperature_c: f64) -> Result<f64, Refusal> {
        let ceiling = self.ceiling_per_h(gas, temperature_c)?;
        let like_surface = Surface { oxygen_per_h_at_20: self.unfilled_oxygen_per_h_at_20, exponent: 0.5 };
        let unfilled = like_surface.per_h(gas, temperature_c);
        Ok(if ceiling > 0.0 { ceiling * -(-unfilled / ceiling).exp_m1() } else { 0.0 })
    }

    /// The rate that bubbles cannot pass, 1/h: each leaves in balance with the water.
    ///
    /// # Errors
    /// [`Refusal::OutOfRange`] outside 0 to 35 °C; for no water.
    pub fn ceiling_per_h(&self, gas: Gas, temperature_c: f64) -> Result<f64, Refusal> {
        within("water in litres", self.water_l, f64::MIN_POSITIVE, f64::MAX)?;
        Ok(self.air_l_per_h * gas.air_over_water(temperature_c)? / self.water_l)
    }
}

/// One way of exchange for one gas.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Way {
    /// 1/h.
    pub per_h: f64,
    /// What the water would hold if this way were alone, mg/L.
    pub towards_mg_per_l: f64,
}

/// All ways of one gas together.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Exchange {
    /// Sum of the rates, 1/h.
    pub per_h: f64,
    /// Sum of rate times ceiling, mg/(L h).
    inflow_mg_per_l_h: f64,
}

impl Exchange {
    /// From its ways.
    pub fn of(ways: &[Way]) -> Self {
        Exchange {
            per_h: ways.iter().map(|w| w.per_h).sum(),
            inflow_mg_per_l_h: ways.iter().map(|w| w.per_h * w.towards_mg_per_l).sum(),
        }
    }

    /// The level that a steady source (less than 0: use) of mg/(L h) settles at, mg/L. `None` without any exchange.
    pub fn settles_at_mg_per_l(&self, source_mg_per_l_h: f64) -> Option<f64> {
        (self.per_h > 0.0).then(|| (self.inflow_mg_per_l_h + source_mg_per_l_h) / self.per_h)
    }

    /// The level after some hours, from a start, with a steady source. It may come out below 0 where more is used than there
    /// is: then the use cannot be steady, which is for the caller to say.
    pub fn after(&self, start_mg_per_l: f64, hours: f64, source_mg_per_l_h: f64) -> f64 {
        let fallen = -(-self.per_h * hours).exp_m1();
        // (1 - exp(-k t))/k, which goes to t where k goes to 0.
        let reach = if self.per_h * hours > 1e-12 { fallen / self.per_h } else { hours };
        start_mg_per_l * (1.0 - fallen) + (self.inflow_mg_per_l_h + source_mg_per_l_h) * reach
    }
}
