//! Water in balance with air: partial pressures in wet air, and how much oxygen and CO2 water then holds.
//!
//! **Equation.** Partial pressure of CO2 over water = (P - p_w) x, x its share in dry air. Vapour pressure of water p_w and
//! oxygen at saturation by Benson & Krause (1984):
//! ln p_w = 11.8571 - 3840.70/T - 216961/T²;
//! ln C = -139.34411 + 1.575701e5/T - 6.642308e7/T² + 1.243800e10/T³ - 8.621949e11/T⁴ at 1 atm;
//! C(P) = C P ((1 - p_w/P)(1 - θ P)) / ((1 - p_w)(1 - θ)), θ = 0.000975 - 1.426e-5 t + 6.436e-8 t².
//! CO2 at saturation = K(T) pCO2 with the one constant of the speciation ([`Constants::co2_solubility_mol_per_kg_atm`]), so that
//! pressure and dissolved CO2 never disagree inside the program.
//!
//! **Symbols.** T K, t °C, P atm, C mg/L.
//!
//! **Range.** 0 to 35 °C, 0.5 to 1.1 atm, fresh water; oxygen of ordinary air (20.95 % of dry air).
//!
//! **Source.** `benson_krause_1984` (coefficients as later manuals print them), `phreeqc_386` for CO2.
//!
//! **Checked by** `tests/handbook_gases.rs`: the table of EN 25814, Weiss (1974) for CO2, Weiss & Price (1980) for p_w.

use crate::constants::Constants;
use crate::refusal::{Refusal, within};
use crate::solved::CO2_G_PER_MOL;

/// Vapour pressure of water in atm at a temperature in °C, 0 to 35.
pub fn vapour_pressure_atm(temperature_c: f64) -> f64 {
    let t = temperature_c + 273.15;
    (11.8571 - 3840.70 / t - 216_961.0 / (t * t)).exp()
}

/// Partial pressure of CO2 in atm in a room at 1 atm whose dry air holds `ppm` parts per million; the air just over the
/// water is wet and as warm as the water, °C. A lived-in room holds 600 to 1500 ppm.
pub fn pco2_atm_of_room(ppm: f64, temperature_c: f64) -> f64 {
    pco2_atm_of_air(ppm, temperature_c, 1.0)
}

/// The same at another air pressure, atm: 0.9 at about 900 m above the sea.
pub fn pco2_atm_of_air(ppm: f64, temperature_c: f64, pressure_atm: f64) -> f64 {
    (pressure_atm - vapour_pressure_atm(temperature_c)) * ppm * 1e-6
}

/// Oxygen in mg/L of fresh water in balance with air.
///
/// # Errors
/// [`Refusal::OutOfRange`] outside 0 to 35 °C or 0.5 to 1.1 atm.
pub fn oxygen_at_saturation_mg_per_l(temperature_c: f64, pressure_atm: f64) -> Result<f64, Refusal> {
    within("temperature in °C", temperature_c, 0.0, 35.0)?;
    within("air pressure in atm", pressure_atm, 0.5, 1.1)?;
    let (t, p) = (1.0 / (temperature_c + 273.15), pressure_atm);
    let ln_c = -139.344_11 + t * (1.575_701e5 + t * (-6.642_308e7 + t * (1.243_800e10 - t * 8.621_949e11)));
    let water = vapour_pressure_atm(temperature_c);
    let theta = 0.000_975 + temperature_c * (-1.426e-5 + temperature_c * 6.436e-8);
    Ok(ln_c.exp() * (p - water) * (1.0 - theta * p) / ((1.0 - water) * (1.0 - theta)))
}

/// Free CO2 in mg/L of fresh water in balance with a room at 1 atm, `ppm` of its dry air being CO2. Dissolved salts
/// (0.1 mol/kg) would lower it by 1.5 % at most; the speciation counts them.
///
/// # Errors
/// [`Refusal::OutOfRange`] outside 0 to 35 °C, or for a share of air outside 0 to a million.
pub fn co2_at_saturation_mg_per_l(ppm: f64, temperature_c: f64) -> Result<f64, Refusal> {
    within("CO2 in parts per million of air", ppm, 0.0, 1e6)?;
    let solubility = Constants::at(temperature_c)?.co2_solubility_mol_per_kg_atm();
    Ok(solubility * pco2_atm_of_room(ppm, temperature_c) * CO2_G_PER_MOL * 1e3)
}
