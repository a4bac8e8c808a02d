//! From the unknowns to the species, their sums, and the derivatives of the sums.
//!
//! **What.** The inner loop of `equilibrium.rs`. Each species is its own instance of [`Sums::gather`], so that the compiler
//! drops every product with a zero of the table: what is left is straight-line code.
//!
//! **Equation.** Without a carrier: ∂m/∂u_j = n_j m, ∂m/∂I = -λ m, λ = ∂ ln γ/∂I. In a carrier's family of total T
//! the same less the family's mean: Σ n_i n_j m - (Σ n_i m)(Σ n_j m)/T, and so on: covariances.
//!
//! **Symbols, range, source, check**: see `equilibrium.rs`.

use crate::constants::Constants;
use crate::exponential::exp_all;
use crate::species::{
    CARRIER_RANGES, CARRIER_TOTAL, CARRIERS, CHARGE_SQUARED, COMPONENTS, FREE, MADE_OF, N, PARTS, WATER,
};

/// The unknowns and what follows from them.
#[derive(Clone, Copy)]
pub(crate) struct State {
    /// ln activity of H+, CO3-2, SO4-2, PO4-3.
    pub(crate) u: [f64; COMPONENTS],
    /// mol/kg.
    pub(crate) ionic_strength: f64,
    /// ln of the activity of water.
    pub(crate) ln_water: f64,
    /// Molalities.
    pub(crate) m: [f64; N],
    /// ∂ ln γ/∂I.
    pub(crate) slope: [f64; N],
    /// Activities of the bare carriers.
    pub(crate) carriers: [f64; CARRIERS],
    /// Shares of NH4+, NH3 and NH4SO4- in all ammonia, also where there is none.
    pub(crate) ammonia: [f64; 3],
}

/// Sums over species and their derivatives; of all species, or of one family.
#[derive(Clone, Copy, Default)]
pub(crate) struct Sums {
    /// Σ n_j m.
    pub(crate) n: [f64; COMPONENTS],
    /// ∂ of these by u: Σ n_i n_j m. Upper triangle.
    pub(crate) nn: [[f64; COMPONENTS]; COMPONENTS],
    /// Σ n_j λ m: minus ∂ by I.
    pub(crate) n_slope: [f64; COMPONENTS],
    /// ½ Σ z² m.
    pub(crate) z: f64,
    /// ½ Σ z² n_j m.
    pub(crate) z_n: [f64; COMPONENTS],
    /// ½ Σ z² λ m.
    pub(crate) z_slope: f64,
    /// Σ λ m.
    slope: f64,
    /// Σ m.
    pub(crate) all: f64,
    /// ∂ of it by u: those of the species without a carrier, since a carrier's total stays.
    pub(crate) all_n: [f64; COMPONENTS],
}

impl Sums {
    /// Adds species `S`.
    #[allow(clippy::needless_range_loop)] // the same index runs over five arrays
    #[inline(always)]
    fn gather<const S: usize>(&mut self, state: &State) {
        let (m, slope) = (state.m[S], state.slope[S]);
        let m_slope = m * slope;
        let half_z2 = 0.5 * CHARGE_SQUARED[S];
        for i in 0..COMPONENTS {
            let n = MADE_OF[S][i];
            if n != 0.0 {
                self.n[i] += n * m;
                self.n_slope[i] += n * m_slope;
                for j in i..COMPONENTS {
                    if MADE_OF[S][j] != 0.0 {
                        self.nn[i][j] += n * MADE_OF[S][j] * m;
                    }
                }
                if half_z2 != 0.0 {
                    self.z_n[i] += half_z2 * n * m;
                }
            }
        }
        if half_z2 != 0.0 {
            self.z += half_z2 * m;
            self.z_slope += half_z2 * m_slope;
        }
        self.slope += m_slope;
    }

    /// Adds a family whose total is fixed: its sums, and its derivatives less those of the mean. `HOLDS` says by bits which
    /// components occur in it at all.
    #[inline(always)]
    fn add_family<const HOLDS: u8>(&mut self, family: &Sums, total: f64) {
        let holds = |j: usize| HOLDS >> j & 1 == 1;
        let per_total = 1.0 / total;
        for i in (0..COMPONENTS).filter(|i| holds(*i)) {
            let mean = family.n[i] * per_total;
            self.n[i] += family.n[i];
            self.n_slope[i] += family.n_slope[i] - mean * family.slope;
            self.z_n[i] += family.z_n[i] - mean * family.z;
            for j in (i..COMPONENTS).filter(|j| holds(*j)) {
                self.nn[i][j] += family.nn[i][j] - mean * family.n[j];
            }
        }
        self.z += family.z;
        self.z_slope += family.z_slope - family.z * family.slope * per_total;
    }
}

/// Gathers the species named into `sums`.
macro_rules! gather {
    ($sums:expr, $state:expr, $($s:literal)*) => { $($sums.gather::<$s>($state);)* };
}

/// Shares a carrier's total among its family, and gathers it unless the water holds none of it.
macro_rules! family {
    ($sums:expr, $state:expr, $totals:expr, $carrier:literal, $holds:literal, $($s:literal)*) => {
        let weight = 0.0 $(+ $state.m[$s])*;
        let total = $totals[CARRIER_TOTAL[$carrier]];
        let activity = total / weight;
        if $carrier == AMMONIA {
            $state.ammonia = [$state.m[38] / weight, $state.m[39] / weight, $state.m[40] / weight];
        }
        $($state.m[$s] *= activity;)*
        $state.carriers[$carrier] = activity;
        if total > 0.0 {
            let mut family = Sums::default();
            gather!(family, $state, $($s)*);
            $sums.add_family::<$holds>(&family, total);
            $sums.all += total;
        }
    };
}

/// Ammonia's place among the carriers.
const AMMONIA: usize = 4;

/// Molalities at the present unknowns, and all sums.
#[inline(always)]
pub(crate) fn linearise(k: &Constants, totals: &[f64; 9], state: &mut State) -> Sums {
    weigh(k, state);
    let mut sums = Sums::default();
    gather!(sums, state, 0 1 2 3 4 5 6 7 8 9 10 11);
    sums.all = state.m[..FREE].iter().sum();
    sums.all_n = sums.n;
    family!(sums, state, totals, 0, 0b1111, 12 13 14 15 16 17 18 19 20);
    family!(sums, state, totals, 1, 0b1111, 21 22 23 24 25 26 27 28 29);
    family!(sums, state, totals, 2, 0b1111, 30 31 32 33);
    family!(sums, state, totals, 3, 0b1111, 34 35 36 37);
    family!(sums, state, totals, 4, 0b0101, 38 39 40);
    family!(sums, state, totals, 5, 0b0001, 41 42);
    family!(sums, state, totals, 6, 0b0000, 43);
    sums
}

/// Weights of all species (molalities where the carrier's activity is 1) into `state.m`.
#[inline(always)]
fn weigh(k: &Constants, state: &mut State) {
    let i = state.ionic_strength;
    let root = i.sqrt();
    let half = 0.5 / root;
    let [h, c, s, p] = state.u;
    for lane in 0..N {
        let inverse = 1.0 / (1.0 + k.size[lane] * root);
        let screened = k.slope[lane] * inverse;
        let ln_gamma = k.linear[lane] * i - screened * root;
        state.slope[lane] = k.linear[lane] - screened * inverse * half;
        state.m[lane] = (k.ln_k[lane] - ln_gamma + WATER[lane] * state.ln_water)
            + (PARTS[0][lane] * h + PARTS[1][lane] * c)
            + (PARTS[2][lane] * s + PARTS[3][lane] * p);
    }
    exp_all(&mut state.m);
}

/// Lets the species follow a last, small step: to second order, and every carrier's total kept.
#[inline(always)]
pub(crate) fn follow(state: &mut State, du: &[f64; COMPONENTS], di: f64) {
    let mut factor = [0.0; N];
    for lane in 0..N {
        let d = (PARTS[0][lane] * du[0] + PARTS[1][lane] * du[1]) + (PARTS[2][lane] * du[2] + PARTS[3][lane] * du[3])
            - state.slope[lane] * di;
        factor[lane] = 1.0 + d * (1.0 + 0.5 * d);
    }
    let mut all = 0.0;
    for (share, factor) in state.ammonia.iter_mut().zip(&factor[CARRIER_RANGES[AMMONIA].0..]) {
        *share *= factor;
        all += *share;
    }
    for share in &mut state.ammonia {
        *share /= all;
    }
    let before = state.m;
    for (m, factor) in state.m.iter_mut().zip(factor) {
        *m *= factor;
    }
    for (v, (from, to)) in CARRIER_RANGES.into_iter().enumerate() {
        let total: f64 = before[from..to].iter().sum();
        if total > 0.0 {
            let correction = total / state.m[from..to].iter().sum::<f64>();
            state.carriers[v] *= correction;
            for m in &mut state.m[from..to] {
                *m *= correction;
            }
        }
    }
}
