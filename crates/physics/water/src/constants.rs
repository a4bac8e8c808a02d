//! Everything that depends on temperature alone: computed once, used for any number of waters of that temperature.
//!
//! **What.** Formation constants, minerals, solubilities of CO2 and O2, the parameters of the activity model and of the
//! conductivity, all at one temperature.
//!
//! **Equation.** log10 K(T) = A1 + A2 T + A3/T + A4 log10 T + A5/T² + A6 T².
//!
//! **Range.** 0 to 35 °C; outside, [`Constants::at`] refuses.
//!
//! **Source.** `phreeqc_386`; minerals there after `plummer_busenberg_1982` (aragonite, calcite).
//!
//! **Checked by** log K printed by PHREEQC 3.8.6 at five temperatures (test below).

use std::sync::OnceLock;

use crate::conductivity::Conductivity;
use crate::refusal::{Refusal, within};
use crate::solvent::Solvent;
use crate::species::{Analytic, CHARGE_SQUARED, Gamma, N, SPECIES, van_t_hoff_kcal};

const LN_10: f64 = std::f64::consts::LN_10;

/// CO2(g) = CO2.
const CO2_GAS: Analytic = [10.562_4, -2.354_7e-2, -3_972.8, 0.0, 5.874_6e5, 1.919_4e-5];
/// CaCO3 = Ca+2 + CO3-2.
const CALCITE: Analytic = [17.118, -0.046_528, -3_496.0, 0.0, 0.0, 0.0];
/// CaCO3 = Ca+2 + CO3-2.
const ARAGONITE: Analytic = [-171.977_3, -0.077_993, 2_903.293, 71.595, 0.0, 0.0];
/// CaSO4:2H2O = Ca+2 + SO4-2 + 2 H2O.
const GYPSUM: Analytic = [93.7, 5.99e-3, -4_000.0, -35.019, 0.0, 0.0];
/// Ca5(PO4)3OH + 4 H+ = H2O + 3 HPO4-2 + 5 Ca+2.
const HYDROXYAPATITE: Analytic = van_t_hoff_kcal(-3.421, -36.155);
/// PO4-3 + H+ = HPO4-2, as in the table of species.
const HPO4: Analytic = SPECIES[crate::species::at::HPO4].log_k;

/// Coefficients of all species, one row a coefficient: the lanes are species.
static LOG_K: [[f64; N]; 6] = {
    let mut rows = [[0.0; N]; 6];
    let mut s = 0;
    while s < N {
        let mut a = 0;
        while a < 6 {
            rows[a][s] = SPECIES[s].log_k[a];
            a += 1;
        }
        s += 1;
    }
    rows
};

/// The activity model of each species, one lane a species, so that both formulas are one:
/// ln γ = -A' z² √I/(1 + (B å + d) √I) + (b' + 0.3 d A' z²) I, where d is 1 for Davies and 0 else, A' and b' times ln 10.
struct Activity {
    radius: [f64; N],
    davies: [f64; N],
    linear: [f64; N],
}

static ACTIVITY: Activity = {
    let mut a = Activity { radius: [0.0; N], davies: [0.0; N], linear: [0.0; N] };
    let mut s = 0;
    while s < N {
        match SPECIES[s].gamma {
            Gamma::Ion(radius, b) => {
                a.radius[s] = radius;
                a.linear[s] = b * LN_10;
            }
            Gamma::Davies => a.davies[s] = 1.0,
            Gamma::Neutral(b) => a.linear[s] = b * LN_10,
        }
        s += 1;
    }
    a
};

/// ln K of the minerals that the saturation indices need.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Minerals {
    pub(crate) calcite: f64,
    pub(crate) aragonite: f64,
    pub(crate) gypsum: f64,
    pub(crate) hydroxyapatite: f64,
    /// HPO4-2 from PO4-3 and H+, for the way hydroxyapatite is written.
    pub(crate) hpo4: f64,
}

/// Temperature-dependent constants of the whole model at one temperature.
///
/// A caller with many waters at one temperature makes it once and uses [`crate::solve_with`].
#[derive(Clone, Debug)]
pub struct Constants {
    pub(crate) temperature_c: f64,
    /// ln K of formation.
    pub(crate) ln_k: [f64; N],
    /// A z² ln 10.
    pub(crate) slope: [f64; N],
    /// B å; 1 for Davies.
    pub(crate) size: [f64; N],
    /// b ln 10; 0.3 A z² ln 10 for Davies.
    pub(crate) linear: [f64; N],
    /// ln of the solubility of CO2, mol/(kg atm), as activity.
    pub(crate) ln_co2_solubility: f64,
    pub(crate) minerals: Minerals,
    pub(crate) conductivity: Conductivity,
}

/// ln K of one reaction.
fn ln_k(a: &Analytic, powers: &[f64; 6]) -> f64 {
    let mut sum = 0.0;
    for i in 0..6 {
        sum += a[i] * powers[i];
    }
    sum * LN_10
}

impl Constants {
    /// Constants at a temperature.
    ///
    /// # Errors
    /// [`Refusal::OutOfRange`] outside 0 to 35 °C.
    pub fn at(temperature_c: f64) -> Result<Self, Refusal> {
        within("temperature in °C", temperature_c, 0.0, 35.0)?;
        Ok(Self::computed(temperature_c))
    }

    /// Constants at a temperature that was checked.
    fn computed(temperature_c: f64) -> Self {
        let t = temperature_c + 273.15;
        let ln_t = t.ln();
        let powers = [1.0, t, 1.0 / t, ln_t / LN_10, 1.0 / (t * t), t * t];
        let solvent = Solvent::at(t);
        let mut species_ln_k = [0.0; N];
        for (row, power) in LOG_K.iter().zip(powers) {
            let power = power * LN_10;
            for (sum, a) in species_ln_k.iter_mut().zip(row) {
                *sum += a * power;
            }
        }
        let (mut slope, mut size, mut linear) = ([0.0; N], [0.0; N], [0.0; N]);
        for s in 0..N {
            slope[s] = solvent.a * LN_10 * CHARGE_SQUARED[s];
            size[s] = solvent.b_per_angstrom * ACTIVITY.radius[s] + ACTIVITY.davies[s];
            linear[s] = ACTIVITY.linear[s] + 0.3 * ACTIVITY.davies[s] * slope[s];
        }
        Constants {
            temperature_c,
            ln_k: species_ln_k,
            slope,
            size,
            linear,
            ln_co2_solubility: ln_k(&CO2_GAS, &powers),
            minerals: Minerals {
                calcite: ln_k(&CALCITE, &powers),
                aragonite: ln_k(&ARAGONITE, &powers),
                gypsum: ln_k(&GYPSUM, &powers),
                hydroxyapatite: ln_k(&HYDROXYAPATITE, &powers),
                hpo4: ln_k(&HPO4, &powers),
            },
            conductivity: Conductivity::at(temperature_c, ln_t),
        }
    }

    /// Constants at 25 °C, made once.
    pub fn at_25() -> &'static Constants {
        static AT_25: OnceLock<Constants> = OnceLock::new();
        AT_25.get_or_init(|| Constants::computed(25.0))
    }

    /// °C.
    pub fn temperature_c(&self) -> f64 {
        self.temperature_c
    }

    /// Solubility of CO2 in pure water, mol/(kg atm): the one constant used for CO2 everywhere (source key `phreeqc_386`).
    pub fn co2_solubility_mol_per_kg_atm(&self) -> f64 {
        self.ln_co2_solubility.exp()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// log K at 0.01, 10, 20, 25 and 35 °C as IPhreeqc 3.8.6 computes them (`phreeqc_386`), four decimals.
    const SPECIES_TABLE: [(&str, [f64; 5]); 18] = [
        ("OH-", [-14.9380, -14.5314, -14.1646, -13.9948, -13.6796]),
        ("HCO3-", [10.6284, 10.4879, 10.3756, 10.3289, 10.2523]),
        ("CO2", [17.2068, 16.9512, 16.7574, 16.6807, 16.5624]),
        ("CaCO3", [3.1354, 3.1356, 3.1858, 3.2253, 3.3260]),
        ("CaHCO3+", [10.6984, 10.7718, 10.8632, 10.9151, 11.0304]),
        ("MgCO3", [2.8130, 2.8796, 2.9463, 2.9797, 3.0464]),
        ("MgHCO3+", [11.6798, 11.5379, 11.4353, 11.3971, 11.3441]),
        ("CaSO4", [2.1611, 2.1986, 2.2334, 2.2500, 2.2815]),
        ("MgSO4", [2.1354, 2.2493, 2.3620, 2.4180, 2.5292]),
        ("NaSO4-", [1.0728, 1.1426, 1.1923, 1.2116, 1.2426]),
        ("KSO4-", [1.1680, 1.1662, 1.1747, 1.1823, 1.2036]),
        ("HSO4-", [1.7782, 1.8549, 1.9414, 1.9878, 2.0862]),
        ("NH3", [-10.0837, -9.7297, -9.4003, -9.2442, -8.9478]),
        ("HPO4-2", [12.5827, 12.4831, 12.3901, 12.3460, 12.2620]),
        ("H2PO4-", [19.8561, 19.7285, 19.6095, 19.5530, 19.4455]),
        ("CaPO4-", [6.2511, 6.3386, 6.4202, 6.4590, 6.5327]),
        // Printed there from HPO4-2 and HCO3-, here from PO4-3 and CO3-2: the sum of two rows.
        ("MgHPO4", [2.6487 + 12.5827, 2.7419 + 12.4831, 2.8287 + 12.3901, 2.8700 + 12.3460, 2.9485 + 12.2620]),
        ("NaHCO3", [-0.3966 + 10.6284, -0.2549 + 10.4879, -0.1227 + 10.3756, -0.0600 + 10.3289, 0.0594 + 10.2523]),
    ];

    #[test]
    fn log_k_agrees_with_the_table_of_the_reference() {
        for (i, celsius) in [0.01, 10.0, 20.0, 25.0, 35.0].into_iter().enumerate() {
            let k = Constants::computed(celsius);
            let mut rows: Vec<(&str, f64, f64)> = SPECIES_TABLE
                .iter()
                .filter_map(|(name, table)| {
                    let s = SPECIES.iter().position(|s| s.name == *name)?;
                    Some((*name, k.ln_k[s], table[i]))
                })
                .collect();
            assert_eq!(rows.len(), SPECIES_TABLE.len());
            let m = &k.minerals;
            for (name, ln_k, table) in [
                ("calcite", m.calcite, [-8.3899, -8.4032, -8.4473, -8.4800, -8.5647]),
                ("aragonite", m.aragonite, [-8.2180, -8.2553, -8.3059, -8.3361, -8.4062]),
                ("gypsum", m.gypsum, [-4.6281, -4.5979, -4.5839, -4.5824, -4.5888]),
                ("hydroxyapatite", m.hydroxyapatite, [-0.9966, -2.0171, -2.9690, -3.4210, -4.2810]),
                ("CO2(g)", k.ln_co2_solubility, [-1.1083, -1.2695, -1.4071, -1.4682, -1.5768]),
            ] {
                rows.push((name, ln_k, table[i]));
            }
            for (name, ln_k, expected) in rows {
                // Half a digit of the table, twice where it is a sum of two.
                let got = ln_k / LN_10;
                assert!((got - expected).abs() < 1.5e-4, "{name} at {celsius}: {got} {expected}");
            }
        }
    }

    #[test]
    fn refuses_what_it_is_not_made_for() {
        for celsius in [-0.1, 35.1, f64::NAN, f64::INFINITY] {
            assert!(Constants::at(celsius).is_err());
        }
    }
}
