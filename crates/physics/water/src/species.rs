//! The 44 dissolved species: what each is made of, its formation constant and its activity parameters.
//!
//! **What.** Each species consists of at most one *carrier* (Ca, Mg, Na, K, NH4, Cl, NO3) and of H+, CO3-2, SO4-2 and
//! PO4-3. No species holds two carriers: that is what makes the solver small (see `equilibrium.rs`).
//!
//! **Equation.** log10 K(T) = A1 + A2 T + A3/T + A4 log10 T + A5/T² + A6 T², T in K, for
//! carrier + components = species. A van 't Hoff pair (log K at 25 °C, ΔH) is the same form with A1 and A3.
//!
//! **Source.** Database `Amm.dat` of PHREEQC 3.8.6 (source key `phreeqc_386`, public domain, U.S. Geological Survey);
//! changed: constants written from H+, CO3-2, SO4-2, PO4-3 and carrier throughout, redox, silica and metals left out. Carbonate
//! constants there are those of Plummer & Busenberg (1982), `plummer_busenberg_1982`.
//!
//! **Checked by** `tests/against_phreeqc.rs`, and by the table of log K in the tests of `constants.rs`.

/// How many species.
pub(crate) const N: usize = 44;
/// Components that are solved for: H+, CO3-2, SO4-2, PO4-3.
pub(crate) const COMPONENTS: usize = 4;
/// Carriers: Ca, Mg, Na, K, NH4, Cl, NO3.
pub(crate) const CARRIERS: usize = 7;

/// log K coefficients A1 to A6.
pub(crate) type Analytic = [f64; 6];

/// J/(mol K) and ln 10, as the reference has them.
const R_KJ: f64 = 0.008_314_7;
const LN_10: f64 = std::f64::consts::LN_10;
const KCAL: f64 = 4.184;

/// log K at 25 °C and ΔH in kJ/mol as coefficients.
pub(crate) const fn van_t_hoff(log_k25: f64, dh_kj: f64) -> Analytic {
    let slope = dh_kj / (LN_10 * R_KJ);
    [log_k25 + slope / 298.15, 0.0, -slope, 0.0, 0.0, 0.0]
}

/// The same with ΔH in kcal/mol.
pub(crate) const fn van_t_hoff_kcal(log_k25: f64, dh_kcal: f64) -> Analytic {
    van_t_hoff(log_k25, dh_kcal * KCAL)
}

/// The constant of two reactions in a row.
const fn plus(a: Analytic, b: Analytic) -> Analytic {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3], a[4] + b[4], a[5] + b[5]]
}

/// How the activity coefficient of a species is found.
#[derive(Clone, Copy)]
pub(crate) enum Gamma {
    /// Truesdell & Jones (1974): å in Å and b in kg/mol.
    Ion(f64, f64),
    /// Davies (1962).
    Davies,
    /// log10 γ = b I.
    Neutral(f64),
}

/// One row of the table.
#[derive(Clone, Copy)]
pub(crate) struct Species {
    /// Formula with charge.
    pub(crate) name: &'static str,
    /// Electric charge.
    pub(crate) charge: i8,
    /// H+, CO3-2, SO4-2, PO4-3 in it.
    pub(crate) made_of: [i8; COMPONENTS],
    /// Water taken up (+) or set free (-) when it forms.
    pub(crate) water: i8,
    /// Activity coefficient.
    pub(crate) gamma: Gamma,
    /// Formation constant from carrier and components.
    pub(crate) log_k: Analytic,
}

const fn species(
    name: &'static str,
    charge: i8,
    made_of: [i8; COMPONENTS],
    water: i8,
    gamma: Gamma,
    log_k: Analytic,
) -> Species {
    Species { name, charge, made_of, water, gamma, log_k }
}

const ONE: Analytic = [0.0; 6];
const OH: Analytic = [293.292_27, 0.136_083_3, -10_576.913, -123.731_58, 0.0, -6.996_455e-5];
const HCO3: Analytic = [107.887_1, 0.032_528_49, -5_151.79, -38.925_61, 563_713.9, 0.0];
const CO2: Analytic = [464.196_5, 0.093_448_13, -26_986.16, -165.759_51, 2_248_628.9, 0.0];
const CO2_PAIR: Analytic = [8.68, -0.0103, -2_190.0, 0.0, 0.0, 0.0];
const HSO4: Analytic = [-56.889, 0.006_473, 2_307.9, 19.885_8, 0.0, 0.0];
const HCL: Analytic = [0.334, -2.684e-3, 1.015, 0.0, 0.0, 0.0];
const NH3: Analytic = [0.632_2, -0.001_225, -2_835.76, 0.0, 0.0, 0.0];
const HPO4: Analytic = van_t_hoff_kcal(12.346, -3.53);
const H2PO4: Analytic = van_t_hoff_kcal(19.553, -4.52);
const H3PO4: Analytic = van_t_hoff(21.721, -10.1);
const CACO3: Analytic = [-1_228.732, -0.299_44, 35_512.75, 485.818, 0.0, 0.0];
const CAHCO3: Analytic = [-6.009, 3.377e-2, 2_044.0, 0.0, 0.0, 0.0];
const MGCO3: Analytic = [0.991, 0.006_67, 0.0, 0.0, 0.0, 0.0];
const MGHCO3: Analytic = [48.672_1, 0.032_528_49, -2_614.335, -18.002_63, 563_713.9, 0.0];
const MGSO4: Analytic = [0.0, 9.64e-3, -136.0, 0.0, 0.0, 0.0];
const MGSO4_SO4: Analytic = [0.0, -1.51e-3, 0.0, 0.0, 8.604e4, 0.0];
const NASO4: Analytic = [255.903, 0.100_57, 0.0, -111.138, -8.598_3e5, 0.0];
const KSO4: Analytic = [-3.024_6, 9.986e-3, 0.0, 0.0, 1.093e5, 0.0];

use Gamma::{Davies, Ion, Neutral};

/// All species: first those without carrier, then carrier by carrier, the bare carrier first.
#[rustfmt::skip]
pub(crate) const SPECIES: [Species; N] = [
    species("H+", 1, [1, 0, 0, 0], 0, Ion(9.0, 0.0), ONE),
    species("OH-", -1, [-1, 0, 0, 0], 1, Ion(3.5, 0.0), OH),
    species("CO3-2", -2, [0, 1, 0, 0], 0, Ion(5.4, 0.0), ONE),
    species("HCO3-", -1, [1, 1, 0, 0], 0, Ion(5.4, 0.0), HCO3),
    species("CO2", 0, [2, 1, 0, 0], -1, Neutral(0.066), CO2),
    species("(CO2)2", 0, [4, 2, 0, 0], -2, Neutral(0.1), plus(CO2_PAIR, plus(CO2, CO2))),
    species("SO4-2", -2, [0, 0, 1, 0], 0, Ion(5.0, -0.04), ONE),
    species("HSO4-", -1, [1, 0, 1, 0], 0, Davies, HSO4),
    species("PO4-3", -3, [0, 0, 0, 1], 0, Ion(4.0, 0.0), ONE),
    species("HPO4-2", -2, [1, 0, 0, 1], 0, Ion(5.0, 0.0), HPO4),
    species("H2PO4-", -1, [2, 0, 0, 1], 0, Ion(5.4, 0.0), H2PO4),
    species("H3PO4", 0, [3, 0, 0, 1], 0, Neutral(0.1), H3PO4),

    species("Ca+2", 2, [0, 0, 0, 0], 0, Ion(5.0, 0.165), ONE),
    species("CaOH+", 1, [-1, 0, 0, 0], 1, Davies, [-12.78, 0.0, 0.0, 0.0, 0.0, 0.0]),
    species("CaCO3", 0, [0, 1, 0, 0], 0, Neutral(0.1), CACO3),
    species("CaHCO3+", 1, [1, 1, 0, 0], 0, Ion(6.0, 0.0), CAHCO3),
    species("CaSO4", 0, [0, 0, 1, 0], 0, Neutral(0.1), van_t_hoff_kcal(2.25, 1.325)),
    species("CaHSO4+", 1, [1, 0, 1, 0], 0, Davies, plus([1.08, 0.0, 0.0, 0.0, 0.0, 0.0], HSO4)),
    species("CaPO4-", -1, [0, 0, 0, 1], 0, Ion(5.4, 0.0), van_t_hoff_kcal(6.459, 3.1)),
    species("CaHPO4", 0, [1, 0, 0, 1], 0, Neutral(0.1), plus(van_t_hoff_kcal(2.739, 3.3), HPO4)),
    species("CaH2PO4+", 1, [2, 0, 0, 1], 0, Ion(5.4, 0.0), plus(van_t_hoff_kcal(1.408, 3.4), H2PO4)),

    species("Mg+2", 2, [0, 0, 0, 0], 0, Ion(5.5, 0.2), ONE),
    species("MgOH+", 1, [-1, 0, 0, 0], 1, Ion(6.5, 0.0), van_t_hoff_kcal(-11.44, 15.952)),
    species("MgCO3", 0, [0, 1, 0, 0], 0, Neutral(0.1), MGCO3),
    species("MgHCO3+", 1, [1, 1, 0, 0], 0, Ion(4.0, 0.0), MGHCO3),
    species("MgSO4", 0, [0, 0, 1, 0], 0, Neutral(0.2), MGSO4),
    species("Mg(SO4)2-2", -2, [0, 0, 2, 0], 0, Ion(7.0, 0.047), plus(MGSO4_SO4, MGSO4)),
    species("MgPO4-", -1, [0, 0, 0, 1], 0, Ion(5.4, 0.0), van_t_hoff_kcal(6.589, 3.1)),
    species("MgHPO4", 0, [1, 0, 0, 1], 0, Neutral(0.1), plus(van_t_hoff_kcal(2.87, 3.3), HPO4)),
    species("MgH2PO4+", 1, [2, 0, 0, 1], 0, Ion(5.4, 0.0), plus(van_t_hoff_kcal(1.513, 3.4), H2PO4)),

    species("Na+", 1, [0, 0, 0, 0], 0, Ion(4.08, 0.082), ONE),
    species("NaHCO3", 0, [1, 1, 0, 0], 0, Neutral(0.2), plus(van_t_hoff(-0.06, 21.0), HCO3)),
    species("NaSO4-", -1, [0, 0, 1, 0], 0, Ion(5.5, 0.0), NASO4),
    species("NaHPO4-", -1, [1, 0, 0, 1], 0, Ion(5.4, 0.0), plus([0.29, 0.0, 0.0, 0.0, 0.0, 0.0], HPO4)),

    species("K+", 1, [0, 0, 0, 0], 0, Ion(3.5, 0.015), ONE),
    species("KHCO3", 0, [1, 1, 0, 0], 0, Neutral(0.0094), plus(van_t_hoff(-0.35, 12.0), HCO3)),
    species("KSO4-", -1, [0, 0, 1, 0], 0, Ion(5.4, 0.19), KSO4),
    species("KHPO4-", -1, [1, 0, 0, 1], 0, Ion(5.4, 0.0), plus([0.29, 0.0, 0.0, 0.0, 0.0, 0.0], HPO4)),

    species("NH4+", 1, [0, 0, 0, 0], 0, Ion(2.5, 0.0), ONE),
    species("NH3", 0, [-1, 0, 0, 0], 0, Neutral(0.1), NH3),
    species("NH4SO4-", -1, [0, 0, 1, 0], 0, Ion(2.08, -0.0416), van_t_hoff(1.211, 8.56)),

    species("Cl-", -1, [0, 0, 0, 0], 0, Ion(3.63, 0.017), ONE),
    species("HCl", 0, [1, 0, 0, 0], 0, Neutral(0.4256), HCL),

    species("NO3-", -1, [0, 0, 0, 0], 0, Ion(3.0, 0.0), ONE),
];

/// Places of species that have a name in the code.
pub(crate) mod at {
    #![allow(missing_docs)]
    pub(crate) const H: usize = 0;
    pub(crate) const OH: usize = 1;
    pub(crate) const CO3: usize = 2;
    pub(crate) const HCO3: usize = 3;
    pub(crate) const CO2: usize = 4;
    pub(crate) const SO4: usize = 6;
    pub(crate) const PO4: usize = 8;
    pub(crate) const HPO4: usize = 9;
    pub(crate) const H2PO4: usize = 10;
    pub(crate) const CA: usize = 12;
    pub(crate) const MG: usize = 21;
    pub(crate) const CASO4: usize = 16;
    pub(crate) const CAPO4: usize = 18;
    pub(crate) const CAHPO4: usize = 19;
    pub(crate) const MGSO4: usize = 25;
    pub(crate) const MGPO4: usize = 27;
    pub(crate) const MGHPO4: usize = 28;
    pub(crate) const NH4: usize = 38;
    pub(crate) const NH3: usize = 39;
}

/// Where the species of each carrier stand: Ca, Mg, Na, K, NH4, Cl, NO3.
pub(crate) const CARRIER_RANGES: [(usize, usize); CARRIERS] =
    [(12, 21), (21, 30), (30, 34), (34, 38), (38, 41), (41, 43), (43, 44)];
/// Species without a carrier come first.
pub(crate) const FREE: usize = 12;
/// Each carrier's place in [`crate::Totals`].
pub(crate) const CARRIER_TOTAL: [usize; CARRIERS] = [2, 3, 0, 1, 4, 5, 7];

/// H+, CO3-2, SO4-2, PO4-3 in each species, as numbers.
pub(crate) const MADE_OF: [[f64; COMPONENTS]; N] = {
    let mut rows = [[0.0; COMPONENTS]; N];
    let mut s = 0;
    while s < N {
        let mut j = 0;
        while j < COMPONENTS {
            rows[s][j] = SPECIES[s].made_of[j] as f64;
            j += 1;
        }
        s += 1;
    }
    rows
};

/// The same by component: one lane a species.
pub(crate) static PARTS: [[f64; N]; COMPONENTS] = {
    let mut columns = [[0.0; N]; COMPONENTS];
    let mut s = 0;
    while s < N {
        let mut j = 0;
        while j < COMPONENTS {
            columns[j][s] = MADE_OF[s][j];
            j += 1;
        }
        s += 1;
    }
    columns
};

/// Square of the charge of each species.
pub(crate) const CHARGE_SQUARED: [f64; N] = {
    let mut lanes = [0.0; N];
    let mut s = 0;
    while s < N {
        lanes[s] = (SPECIES[s].charge as f64) * (SPECIES[s].charge as f64);
        s += 1;
    }
    lanes
};

/// Water molecules of each species.
pub(crate) static WATER: [f64; N] = {
    let mut lanes = [0.0; N];
    let mut s = 0;
    while s < N {
        lanes[s] = SPECIES[s].water as f64;
        s += 1;
    }
    lanes
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_in_the_order_that_the_code_expects() {
        let names = [
            (at::H, "H+"),
            (at::OH, "OH-"),
            (at::CO3, "CO3-2"),
            (at::HCO3, "HCO3-"),
            (at::CO2, "CO2"),
            (at::SO4, "SO4-2"),
            (at::PO4, "PO4-3"),
            (at::HPO4, "HPO4-2"),
            (at::NH4, "NH4+"),
            (at::NH3, "NH3"),
            (at::H2PO4, "H2PO4-"),
            (at::CASO4, "CaSO4"),
            (at::CAPO4, "CaPO4-"),
            (at::CAHPO4, "CaHPO4"),
            (at::MGSO4, "MgSO4"),
            (at::MGPO4, "MgPO4-"),
            (at::MGHPO4, "MgHPO4"),
            (at::CA, "Ca+2"),
            (at::MG, "Mg+2"),
        ];
        for (place, name) in names {
            assert_eq!(SPECIES[place].name, name);
        }
        let bare = ["Ca+2", "Mg+2", "Na+", "K+", "NH4+", "Cl-", "NO3-"];
        let mut end = FREE;
        for (range, name) in CARRIER_RANGES.iter().zip(bare) {
            assert_eq!(range.0, end);
            assert_eq!(SPECIES[range.0].name, name);
            end = range.1;
        }
        assert_eq!(end, N);
    }

    #[test]
    fn charge_is_the_sum_of_the_parts() {
        let carrier_charge = [2, 2, 1, 1, 1, -1, -1];
        for (s, row) in SPECIES.iter().enumerate() {
            let carrier = CARRIER_RANGES.iter().position(|r| (r.0..r.1).contains(&s));
            let parts = [1, -2, -2, -3];
            let sum: i8 = row.made_of.iter().zip(parts).map(|(n, z)| n * z).sum::<i8>()
                + carrier.map_or(0, |c| carrier_charge[c]);
            assert_eq!(sum, row.charge, "{}", row.name);
        }
    }
}
