//! Electrical conductivity from the ions.
//!
//! **What.** κ of a speciated water at its temperature. Sums over single ions, so that it is right in mixtures and goes to
//! Kohlrausch's limit in dilute water.
//!
//! **Equation.** κ = Σ λ m; λ = λ0(T) - A(T) √I / (1 + B √I) (McCleskey et al. 2012), λ0 and A quadratic in T. Ions that
//! the paper lacks (phosphates, pairs) enter with their limiting value λ0 = λ25 exp(d/T - d/298.15) η25/η(T),
//! λ25 = F² z² D/(R 298.15 K), without a decrease by I.
//!
//! **Symbols.** κ mS/cm (given out in µS/cm); m mol/kg; λ mS kg/(cm mol); T °C in the quadratics, K in d/T; D m²/s; η viscosity.
//!
//! **Range.** 0 to 95 °C and I to 1 mol/kg in the paper; used for 0 to 35 and 0.1. Against measured natural waters 3 to 4 %
//! off, sodium-sulfate waters more: the paper's λ of NaSO4- and KSO4- absorb another set of ion pairs.
//!
//! **Source.** `mccleskey_2012`, magnitudes from a public copy that had lost its minus signs; the signs of H+, CO3-2 are
//! confirmed by their limiting values at 25 °C, that of A of HCO3- is from memory. D and d: `phreeqc_386`.
//!
//! **Checked by** `tests/against_phreeqc.rs` (range between this and PHREEQC's earlier equation) and
//! `tests/handbook_conductivity.rs` (KCl standard, measured natural waters).

use crate::exponential::exp;
use crate::solvent::viscosity_mpa_s;
use crate::species::N;

/// Ions of the paper: place in the table of species; λ0 by T², T, 1; A by T², T, 1; B.
#[rustfmt::skip]
const PAPER: [(usize, [f64; 3], [f64; 3], f64); 15] = [
    (0,  [-0.01414, 5.355, 224.2],    [-0.00918, 1.842, 39.23],   0.3),  // H+
    (1,  [0.003396, 2.925, 121.3],    [0.00933, 0.1086, 35.90],   0.01), // OH-
    (2,  [-0.000326, 2.998, 64.03],   [-0.00181, 5.542, 120.2],   2.3),  // CO3-2
    (3,  [0.000614, 0.9048, 21.14],   [-0.00503, 0.8957, 10.97],  0.1),  // HCO3-
    (6,  [0.01037, 2.838, 82.37],     [0.03324, 5.889, 193.5],    2.6),  // SO4-2
    (7,  [0.000927, 0.8337, 29.56],   [0.02887, 0.873, 36.25],    7.0),  // HSO4-
    (12, [0.009645, 1.984, 62.28],    [0.03174, 2.334, 132.3],    2.8),  // Ca+2
    (21, [0.01068, 1.695, 57.16],     [0.02453, 1.915, 80.50],    2.1),  // Mg+2
    (30, [0.003763, 0.8770, 26.23],   [0.00027, 1.141, 32.07],    1.7),  // Na+
    (32, [0.002309, 5.459, 219.2],    [0.01454, 5.193, 253.6],    0.5),  // NaSO4-
    (34, [0.003046, 1.261, 40.70],    [0.00535, 0.9316, 22.59],   1.5),  // K+
    (36, [0.002439, 4.253, 129.7],    [0.01576, 6.21, 146.8],     1.3),  // KSO4-
    (38, [0.003341, 1.285, 39.04],    [0.00132, 0.6070, 11.19],   0.3),  // NH4+
    (41, [0.003817, 1.337, 40.99],    [0.00613, 0.9469, 22.01],   1.5),  // Cl-
    (43, [0.001925, 1.214, 39.90],    [0.00118, 0.5045, 23.31],   0.1),  // NO3-
];

/// Ions that the paper lacks: place; charge squared; D at 25 °C in m²/s; d in K.
#[rustfmt::skip]
const LIMITING: [(usize, f64, f64, f64); 7] = [
    (8,  9.0, 0.612e-9, 0.0),    // PO4-3
    (9,  4.0, 0.69e-9, 0.0),     // HPO4-2
    (10, 1.0, 0.846e-9, 0.0),    // H2PO4-
    (15, 1.0, 5.06e-10, 0.0),    // CaHCO3+
    (24, 1.0, 4.78e-10, 0.0),    // MgHCO3+
    (26, 4.0, 0.845e-9, -200.0), // Mg(SO4)2-2
    (40, 1.0, 0.9e-9, 100.0),    // NH4SO4-
];

/// F²/(R 298.15 K) in S s/mol, times 1e4 for cm² and 1e3/1e3 for mS and litre.
const NERNST_EINSTEIN: f64 = 96_485.332 * 96_485.332 / (8.314_463 * 298.15) * 1e4;

/// Parameters at one temperature.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Conductivity {
    lambda: [f64; 15],
    fall: [f64; 15],
    limiting: [f64; 7],
}

impl Conductivity {
    /// At a temperature, given in °C and as ln of K.
    pub(crate) fn at(celsius: f64, ln_t: f64) -> Self {
        let quadratic = |c: &[f64; 3]| (c[0] * celsius + c[1]) * celsius + c[2];
        let kelvin = celsius + 273.15;
        let per_kelvin = 1.0 / kelvin - 1.0 / 298.15;
        // ln 300, and the viscosity at 25 °C by the same formula.
        let fluidity = VISCOSITY_25 / viscosity_mpa_s(ln_t - 5.703_782_474_656_201);
        let mut c = Conductivity { lambda: [0.0; 15], fall: [0.0; 15], limiting: [0.0; 7] };
        for (i, (_, lambda, fall, _)) in PAPER.iter().enumerate() {
            c.lambda[i] = quadratic(lambda);
            c.fall[i] = quadratic(fall);
        }
        for (i, (_, z2, d25, slope)) in LIMITING.iter().enumerate() {
            let warmth = if *slope == 0.0 { 1.0 } else { exp(slope * per_kelvin) };
            c.limiting[i] = NERNST_EINSTEIN * z2 * d25 * warmth * fluidity;
        }
        c
    }

    /// µS/cm of a water with these molalities.
    #[inline(always)]
    pub(crate) fn of(&self, molality: &[f64; N], ionic_strength: f64) -> f64 {
        let root = ionic_strength.sqrt();
        let mut sum = 0.0;
        for (i, (s, _, _, b)) in PAPER.iter().enumerate() {
            sum += molality[*s] * (self.lambda[i] - self.fall[i] * root / (1.0 + b * root));
        }
        for (i, (s, ..)) in LIMITING.iter().enumerate() {
            sum += molality[*s] * self.limiting[i];
        }
        1000.0 * sum
    }
}

/// mPa s at 25 °C by the formula of `solvent.rs` (`iapws_2011`).
const VISCOSITY_25: f64 = 0.889_996_774;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::species::SPECIES;

    #[test]
    fn places_and_charges_are_those_of_the_table_of_species() {
        let paper = [
            "H+", "OH-", "CO3-2", "HCO3-", "SO4-2", "HSO4-", "Ca+2", "Mg+2", "Na+", "NaSO4-", "K+", "KSO4-", "NH4+",
            "Cl-", "NO3-",
        ];
        for ((s, ..), name) in PAPER.iter().zip(paper) {
            assert_eq!(SPECIES[*s].name, name);
        }
        let lacking = ["PO4-3", "HPO4-2", "H2PO4-", "CaHCO3+", "MgHCO3+", "Mg(SO4)2-2", "NH4SO4-"];
        for ((s, z2, ..), name) in LIMITING.iter().zip(lacking) {
            assert_eq!(SPECIES[*s].name, name);
            assert_eq!(f64::from(SPECIES[*s].charge).powi(2), *z2);
        }
    }

    #[test]
    fn the_viscosity_at_25_is_that_of_the_formula() {
        let now = viscosity_mpa_s((298.15_f64 / 300.0).ln());
        assert!((now / VISCOSITY_25 - 1.0).abs() < 1e-8, "{now}");
    }

    /// Limiting values computed from D by hand, mS kg/(cm mol) at 25 °C: CaHCO3+ 19.0, MgHCO3+ 18.0, NH4SO4- 33.8,
    /// H2PO4- 31.8, HPO4-2 103.7.
    #[test]
    fn limiting_values_at_25() {
        let c = Conductivity::at(25.0, 298.15_f64.ln());
        for (i, expected) in [(3, 19.0), (4, 18.0), (6, 33.8), (2, 31.8), (1, 103.7)] {
            assert!((c.limiting[i] - expected).abs() < 0.06, "{i} {}", c.limiting[i]);
        }
    }
}
