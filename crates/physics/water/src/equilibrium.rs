//! The balance itself: which species a water of given totals holds.
//!
//! **What.** Finds the activities of H+, CO3-2, SO4-2, PO4-3 and the ionic strength so that all totals, the alkalinity
//! and the mass action of all 44 species hold at once.
//!
//! **Equation.** m = K aᵥ Π a_j^n_j / γ for each species, v its carrier (Ca, Mg, Na, K, NH4, Cl, NO3) if it has one.
//! As no species holds two carriers, a_v follows from the carrier's total: within a carrier's family the
//! species share the total in the ratio of their weights w = K Π a_j^n_j / γ. Four unknowns u_j = ln a_j are left, with
//! balances F_j = Σ n_j m - T_j. At fixed γ, F is the gradient of a convex function of u (its Jacobian is a sum of
//! covariances), so there is one answer and Newton's steps lead to it. The ionic strength I = ½ Σ m z² is solved along by
//! bordering the same system. Activity coefficients: `constants.rs`; activity of water 1 - 0.017 Σ m.
//!
//! Alkalinity = 2 DIC + 2 P - T_H, since each species counts 2 C + 2 P - H.
//!
//! **Symbols.** m molality, mol/kg; a activity; γ activity coefficient; n_j how many of component j a species holds.
//!
//! **Range.** I to 0.1 mol/kg, pH 3 to 11; beyond, it refuses.
//!
//! **Source.** `phreeqc_386` (equations of `parkhurst_appelo_2013`); `truesdell_jones_1974`, `davies_1962`; alkalinity `dickson_1981`.
//! The elimination of carriers is our own arrangement of the same equations.
//!
//! **Checked by** `tests/against_phreeqc.rs`, `tests/identities.rs`.

use crate::constants::Constants;
use crate::exponential::{exp, exp_all};
use crate::refusal::{Refusal, within};
use crate::species::{
    CARRIER_RANGES, CARRIER_TOTAL, CARRIERS, CHARGE_SQUARED, COMPONENTS, FREE, MADE_OF, N, WATER, at,
};

/// Components' places in the unknowns.
const H: usize = 0;
const C: usize = 1;
const S: usize = 2;
const P: usize = 3;

/// ln a of a component that the water does not hold.
const ABSENT: f64 = -200.0;
/// The largest step in ln a.
const LONGEST_STEP: f64 = 4.0;
/// Steps below this are the last: the error left is of the order of the square.
const SETTLED: f64 = 1e-6;
/// More steps than any water of the range was seen to need.
const MOST_STEPS: u32 = 100;

/// What closes the carbonate system, in the form the equations take.
#[derive(Clone, Copy)]
pub(crate) enum Closure {
    /// ln of the activity of H+.
    LnH(f64),
    /// ln of the activity of CO2.
    LnCo2Activity(f64),
    /// Molality of CO2.
    Co2(f64),
    /// All inorganic carbon, mol/kg.
    Dic(f64),
}

/// What is to be balanced, mol/kg.
#[derive(Clone, Copy)]
pub(crate) struct Problem {
    /// In the order of [`crate::Totals`].
    pub(crate) totals: [f64; 9],
    pub(crate) alkalinity: f64,
    pub(crate) closure: Closure,
}

/// A balanced water.
#[derive(Clone, Copy)]
pub(crate) struct Balance {
    /// ln activity of H+, CO3-2, SO4-2, PO4-3.
    pub(crate) u: [f64; COMPONENTS],
    /// Activities of the bare carriers.
    pub(crate) carriers: [f64; CARRIERS],
    /// Molalities.
    pub(crate) m: [f64; N],
    pub(crate) ionic_strength: f64,
    pub(crate) ln_water: f64,
    pub(crate) steps: u32,
    /// NH3 of all ammonia, also where there is none.
    pub(crate) nh3_fraction: f64,
}

/// One linearisation of the equations.
struct Linear {
    /// Σ n_j m of each component.
    sums: [f64; COMPONENTS],
    /// ∂ sums / ∂ u, symmetric.
    by_u: [[f64; COMPONENTS]; COMPONENTS],
    /// ∂ sums / ∂ I.
    by_i: [f64; COMPONENTS],
    /// ½ Σ m z², its derivatives by u and by I.
    strength: f64,
    strength_by_u: [f64; COMPONENTS],
    strength_by_i: f64,
    /// Σ m.
    all: f64,
}

/// One species' share in a [`Linear`], and in its family's.
#[inline(always)]
fn gather(linear: &mut Linear, s: usize, m: f64, slope: f64) {
    let row = &MADE_OF[s];
    let (mz, ml) = (0.5 * m * CHARGE_SQUARED[s], m * slope);
    for j in 0..COMPONENTS {
        let n = row[j] * m;
        linear.sums[j] += n;
        linear.by_i[j] -= row[j] * ml;
        linear.strength_by_u[j] += row[j] * mz;
        for k in 0..COMPONENTS {
            linear.by_u[j][k] += n * row[k];
        }
    }
    linear.strength += mz;
    linear.strength_by_i -= mz * slope;
    linear.all += m;
}

/// Molalities at the present unknowns, and the linearisation there.
#[inline(always)]
fn linearise(k: &Constants, p: &Problem, b: &mut Balance) -> Linear {
    let (mut ln_gamma, mut slope) = ([0.0; N], [0.0; N]);
    k.ln_gamma(b.ionic_strength, &mut ln_gamma, &mut slope);
    weigh(k, &ln_gamma, b);
    let mut l = Linear {
        sums: [0.0; COMPONENTS],
        by_u: [[0.0; COMPONENTS]; COMPONENTS],
        by_i: [0.0; COMPONENTS],
        strength: 0.0,
        strength_by_u: [0.0; COMPONENTS],
        strength_by_i: 0.0,
        all: 0.0,
    };
    for s in 0..FREE {
        gather(&mut l, s, b.m[s], slope[s]);
    }
    for (v, (from, to)) in CARRIER_RANGES.into_iter().enumerate() {
        let total = p.totals[CARRIER_TOTAL[v]];
        b.carriers[v] = share(&mut b.m, from, to, total);
        if total > 0.0 {
            family(&mut l, &b.m, &slope, from, to, total);
        }
    }
    l
}

/// Weights of all species: molalities where the carrier's activity is 1.
#[inline(always)]
fn weigh(k: &Constants, ln_gamma: &[f64; N], b: &mut Balance) {
    for s in 0..N {
        let n = &MADE_OF[s];
        b.m[s] = k.ln_k[s] - ln_gamma[s]
            + WATER[s] * b.ln_water
            + (n[H] * b.u[H] + n[C] * b.u[C])
            + (n[S] * b.u[S] + n[P] * b.u[P]);
    }
    exp_all(&mut b.m);
}

/// Shares a carrier's total among its family by weight; the carrier's activity.
#[inline(always)]
fn share(m: &mut [f64; N], from: usize, to: usize, total: f64) -> f64 {
    let weight: f64 = m[from..to].iter().sum();
    let activity = total / weight;
    for m in &mut m[from..to] {
        *m *= activity;
    }
    activity
}

/// A family's share in the linearisation: as for free species, less what the fixed total of the carrier takes away.
#[inline(always)]
fn family(l: &mut Linear, m: &[f64; N], slope: &[f64; N], from: usize, to: usize, total: f64) {
    let (mut sums, mut strength, mut slopes) = ([0.0; COMPONENTS], 0.0, 0.0);
    for s in from..to {
        gather(l, s, m[s], slope[s]);
        for j in 0..COMPONENTS {
            sums[j] += MADE_OF[s][j] * m[s];
        }
        strength += 0.5 * m[s] * CHARGE_SQUARED[s];
        slopes += m[s] * slope[s];
    }
    let per_total = 1.0 / total;
    for j in 0..COMPONENTS {
        let mean = sums[j] * per_total;
        l.by_i[j] += mean * slopes;
        l.strength_by_u[j] -= mean * strength;
        for k in 0..COMPONENTS {
            l.by_u[j][k] -= mean * sums[k];
        }
    }
    l.strength_by_i += strength * slopes * per_total;
}

/// The balances to be brought to zero with their derivatives by u and I: alkalinity, closure, sulfate, phosphate.
struct Rows {
    f: [f64; COMPONENTS],
    by_u: [[f64; COMPONENTS]; COMPONENTS],
    by_i: [f64; COMPONENTS],
}

/// Total sulfate's and phosphate's places in the totals.
const TOTAL_SO4: usize = 6;
const TOTAL_PO4: usize = 8;

#[inline(always)]
fn rows(k: &Constants, p: &Problem, b: &Balance, l: &Linear) -> Rows {
    let mut r = Rows { f: [0.0; COMPONENTS], by_u: l.by_u, by_i: l.by_i };
    r.f[0] = 2.0 * l.sums[C] + 2.0 * l.sums[P] - l.sums[H] - p.alkalinity;
    r.by_i[0] = 2.0 * l.by_i[C] + 2.0 * l.by_i[P] - l.by_i[H];
    for j in 0..COMPONENTS {
        r.by_u[0][j] = 2.0 * l.by_u[C][j] + 2.0 * l.by_u[P][j] - l.by_u[H][j];
    }
    match p.closure {
        Closure::Dic(dic) if dic > 0.0 => r.f[1] = l.sums[C] - dic,
        Closure::Dic(_) => fix(&mut r, 1, [0.0, 1.0, 0.0, 0.0], b.u[C] - ABSENT),
        Closure::LnH(ln_h) => fix(&mut r, 1, [1.0, 0.0, 0.0, 0.0], b.u[H] - ln_h),
        Closure::LnCo2Activity(ln_a) => fix(&mut r, 1, [2.0, 1.0, 0.0, 0.0], ln_co2_activity(k, b) - ln_a),
        Closure::Co2(co2) => {
            fix(
                &mut r,
                1,
                [2.0, 1.0, 0.0, 0.0],
                ln_co2_activity(k, b) - k.linear[at::CO2] * b.ionic_strength - co2.ln(),
            );
            r.by_i[1] = -k.linear[at::CO2];
        }
    }
    for (component, total) in [(S, TOTAL_SO4), (P, TOTAL_PO4)] {
        let total = p.totals[total];
        if total > 0.0 {
            r.f[component] = l.sums[component] - total;
        } else {
            let mut row = [0.0; COMPONENTS];
            row[component] = 1.0;
            fix(&mut r, component, row, b.u[component] - ABSENT);
        }
    }
    r
}

/// Replaces a balance by a linear relation between the unknowns.
#[inline(always)]
fn fix(r: &mut Rows, row: usize, by_u: [f64; COMPONENTS], f: f64) {
    r.f[row] = f;
    r.by_u[row] = by_u;
    r.by_i[row] = 0.0;
}

#[inline(always)]
fn ln_co2_activity(k: &Constants, b: &Balance) -> f64 {
    k.ln_k[at::CO2] + 2.0 * b.u[H] + b.u[C] - b.ln_water
}

/// Solves the 4 x 4 system for two right-hand sides. Phosphate and sulfate are eliminated first: their diagonal
/// is the largest of its row's own kind, so that no pivoting is needed; the 2 x 2 left is solved by its determinant.
#[inline(always)]
fn solve_rows(r: &mut Rows) -> ([f64; COMPONENTS], [f64; COMPONENTS]) {
    for pivot in [P, S] {
        let inverse = 1.0 / r.by_u[pivot][pivot];
        for row in 0..pivot {
            let factor = r.by_u[row][pivot] * inverse;
            for j in 0..pivot {
                r.by_u[row][j] -= factor * r.by_u[pivot][j];
            }
            r.f[row] -= factor * r.f[pivot];
            r.by_i[row] -= factor * r.by_i[pivot];
        }
    }
    let a = &r.by_u;
    let inverse = 1.0 / (a[0][0] * a[1][1] - a[0][1] * a[1][0]);
    let back = |f: &[f64; COMPONENTS]| {
        let h = (a[0][1] * f[1] - a[1][1] * f[0]) * inverse;
        let c = (a[1][0] * f[0] - a[0][0] * f[1]) * inverse;
        let s = -(f[S] + a[S][H] * h + a[S][C] * c) / a[S][S];
        let p = -(f[P] + a[P][H] * h + a[P][C] * c + a[P][S] * s) / a[P][P];
        [h, c, s, p]
    };
    (back(&r.f), back(&r.by_i))
}

/// Balances a water, from `start` where a near one is known.
///
/// # Errors
/// [`Refusal::OutOfRange`] for I above 0.1 mol/kg or pH outside 3 to 11; [`Refusal::Impossible`] where no carbon, however
/// little, gives this alkalinity at this pH.
pub(crate) fn balance(k: &Constants, p: &Problem, start: Option<&Balance>) -> Result<Balance, Refusal> {
    let mut b = match start {
        Some(near) => *near,
        None => first_guess(k, p),
    };
    b.steps = 0;
    loop {
        let l = linearise(k, p, &mut b);
        b.ln_water = (1.0 - 0.017 * l.all).max(0.5).ln();
        let mut r = rows(k, p, &b, &l);
        carbon_is_possible(p, &l, r.f[0])?;
        let (a, by_i) = solve_rows(&mut r);
        let (mut pull, mut share) = (l.strength - b.ionic_strength, 1.0 - l.strength_by_i);
        for j in 0..COMPONENTS {
            pull += l.strength_by_u[j] * a[j];
            share -= l.strength_by_u[j] * by_i[j];
        }
        let di = step_of_strength(b.ionic_strength, pull / share, l.strength);
        let mut longest = (di / b.ionic_strength).abs();
        for j in 0..COMPONENTS {
            let du = (a[j] + by_i[j] * di).clamp(-LONGEST_STEP, LONGEST_STEP);
            b.u[j] += du;
            longest = longest.max(du.abs());
        }
        b.ionic_strength += di;
        b.steps += 1;
        if longest < SETTLED {
            break;
        }
        if b.steps >= MOST_STEPS || longest.is_nan() {
            return Err(Refusal::NotSettled);
        }
    }
    finish(k, p, &mut b);
    within("ionic strength in mol/kg", b.ionic_strength, 0.0, 0.1)?;
    within("pH", -b.u[H] / std::f64::consts::LN_10, 3.0, 11.0)?;
    Ok(b)
}

/// The step of I, held within a factor of four and to at most 1 mol/kg; where the linearisation points
/// nowhere, straight to the strength of the present species.
#[inline(always)]
fn step_of_strength(i: f64, step: f64, strength: f64) -> f64 {
    let wanted = if step.is_finite() && i + step > 0.0 { i + step } else { strength };
    wanted.clamp(0.25 * i, 4.0 * i).clamp(1e-9, 1.0) - i
}

/// With pH given, the carbon that the alkalinity asks for may be less than none.
#[inline(always)]
fn carbon_is_possible(p: &Problem, l: &Linear, too_much: f64) -> Result<(), Refusal> {
    let none_left = matches!(p.closure, Closure::LnH(_)) && l.sums[C] < 1e-14;
    if none_left && too_much > 1e-11 { Err(Refusal::Impossible { what: "this pH" }) } else { Ok(()) }
}

/// Molalities at the settled unknowns.
fn finish(k: &Constants, p: &Problem, b: &mut Balance) {
    let (mut ln_gamma, mut slope) = ([0.0; N], [0.0; N]);
    k.ln_gamma(b.ionic_strength, &mut ln_gamma, &mut slope);
    weigh(k, &ln_gamma, b);
    let ammonia: f64 = b.m[at::NH4..at::NH4 + 3].iter().sum();
    b.nh3_fraction = b.m[at::NH3] / ammonia;
    for (v, (from, to)) in CARRIER_RANGES.into_iter().enumerate() {
        b.carriers[v] = share(&mut b.m, from, to, p.totals[CARRIER_TOTAL[v]]);
    }
}

/// A start from the carbonate system alone.
fn first_guess(k: &Constants, p: &Problem) -> Balance {
    let t = &p.totals;
    let i =
        0.5 * (t[0] + t[1] + 4.0 * (t[2] + t[3]) + t[4] + t[5] + 4.0 * t[6] + t[7] + 2.0 * t[8] + p.alkalinity.abs());
    let i = i.clamp(1e-7, 0.1);
    let (mut ln_gamma, mut slope) = ([0.0; N], [0.0; N]);
    k.ln_gamma(i, &mut ln_gamma, &mut slope);
    let conditional = |s: usize| exp(k.ln_k[s] - ln_gamma[s]);
    let (kc, kb, ka, kw) = (conditional(at::CO3), conditional(at::HCO3), conditional(at::CO2), conditional(at::OH));
    let alk = p.alkalinity;
    let h = match p.closure {
        Closure::LnH(ln_h) => exp(ln_h),
        Closure::Dic(dic) => h_of_dic(alk, dic, [kc, kb, ka, kw]),
        Closure::LnCo2Activity(ln_a) => h_of_co2(alk, exp(ln_a - ln_gamma[at::CO2]), [kc, kb, ka, kw]),
        Closure::Co2(co2) => h_of_co2(alk, co2, [kc, kb, ka, kw]),
    };
    let h = h.clamp(1e-12, 1e-2);
    let rest = (alk + h - kw / h).max(1e-12);
    let c = match p.closure {
        Closure::LnH(_) => rest / (kb * h + 2.0 * kc),
        Closure::Dic(dic) => dic / (kc + kb * h + ka * h * h),
        Closure::LnCo2Activity(ln_a) => exp(ln_a - ln_gamma[at::CO2]) / (ka * h * h),
        Closure::Co2(co2) => co2 / (ka * h * h),
    };
    let (ca, mg) = (t[2] * exp(ln_gamma[12]), t[3] * exp(ln_gamma[21]));
    let sulfate = conditional(at::SO4) + conditional(at::CASO4) * ca + conditional(at::MGSO4) * mg;
    let phosphate = conditional(at::HPO4) * h + conditional(at::H2PO4) * h * h;
    let ln_or_absent = |x: f64| if x > 1e-80 { x.ln() } else { ABSENT };
    Balance {
        u: [h.ln(), ln_or_absent(c), ln_or_absent(t[6] / sulfate), ln_or_absent(t[8] / phosphate)],
        carriers: [0.0; CARRIERS],
        m: [0.0; N],
        ionic_strength: i,
        ln_water: 0.0,
        steps: 0,
        nh3_fraction: 0.0,
    }
}

/// H+ of a carbonate water from alkalinity and carbon: the quadratic without OH- and H+, or what is left where
/// these rule.
fn h_of_dic(alk: f64, dic: f64, [kc, kb, ka, kw]: [f64; 4]) -> f64 {
    let acid = kb / ka;
    if alk <= 1e-5 {
        let half = 0.5 * alk;
        return -half + (half * half + acid * dic + kw).sqrt();
    }
    if alk >= 1.99 * dic {
        return kw / (alk - 1.9 * dic);
    }
    let (a, b, c) = (ka * alk, kb * (alk - dic), kc * (alk - 2.0 * dic));
    let root = (b * b - 4.0 * a * c).max(0.0).sqrt();
    if b > 0.0 { -2.0 * c / (b + root) } else { (root - b) / (2.0 * a) }
}

/// H+ of a carbonate water from alkalinity and free CO2: alk h² - K1 CO2 h - 2 K1 K2 CO2 = 0 and its acid limit.
fn h_of_co2(alk: f64, co2: f64, [kc, kb, ka, kw]: [f64; 4]) -> f64 {
    let (first, second) = (kb / ka * co2 + kw, 2.0 * kc / ka * co2);
    if alk <= 1e-5 {
        let half = 0.5 * alk;
        return -half + (half * half + first).sqrt();
    }
    (first + (first * first + 4.0 * alk * second).sqrt()) / (2.0 * alk)
}
