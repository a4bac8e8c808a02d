//! The balance itself: which species a water of given totals holds.
//!
//! **What.** Finds the activities of H+, CO3-2, SO4-2, PO4-3 and the ionic strength so that all totals, the alkalinity
//! and the mass action of all 44 species hold at once.
//!
//! **Equation.** m = K aᵥ Π a_j^n_j / γ for each species, v its carrier (Ca, Mg, Na, K, NH4, Cl, NO3) if it has one.
//! As no species holds two carriers, a_v follows from the carrier's total: within a carrier's family the
//! species share the total in the ratio of their weights w = K Π a_j^n_j / γ. Four unknowns u_j = ln a_j are left, with
//! balances F_j = Σ n_j m - T_j. At fixed γ, F is the gradient of a convex function of u (its Jacobian is a sum of
//! covariances), so there is one answer. Newton's steps lead to it, or, where they are thrown to and fro, a bracket of the pH. The ionic strength I = ½ Σ m z² is solved along by
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
use crate::first_guess::first_guess;
use crate::linearise::{State, Sums, follow, linearise};
use crate::refusal::Refusal;
use crate::species::{COMPONENTS, MADE_OF, at};

/// Components' places in the unknowns.
const H: usize = 0;
const C: usize = 1;
const S: usize = 2;
const P: usize = 3;

/// ln a of a component that the water does not hold.
pub(crate) const ABSENT: f64 = -200.0;
/// The largest step in ln a.
const LONGEST_STEP: f64 = 4.0;
/// How near the balance has to come, in ln a and ln I: the stopping rule of the reference too.
pub(crate) const EXACT: f64 = 1e-8;
/// The same where only the conductivity is asked: far below what it is worth.
pub(crate) const FOR_CONDUCTIVITY: f64 = 3e-5;
/// The largest step that may be the last: the species follow it to second order.
const LAST_STEP: f64 = 1e-2;
/// More steps than Newton's method needs where it settles at all; beyond, the pH is bracketed first.
const MOST_STEPS: u32 = 25;
/// Halvings of the bracket, pH 1 to 14, until Newton's method is tried again.
const HALVINGS: u32 = 12;

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
fn rows(k: &Constants, p: &Problem, b: &State, l: &Sums) -> Rows {
    let mut r = Rows { f: [0.0; COMPONENTS], by_u: l.nn, by_i: [0.0; COMPONENTS] };
    for i in 0..COMPONENTS {
        r.by_i[i] = -l.n_slope[i];
        for j in 0..i {
            r.by_u[i][j] = l.nn[j][i];
        }
    }
    r.f[0] = 2.0 * l.n[C] + 2.0 * l.n[P] - l.n[H] - p.alkalinity;
    r.by_i[0] = 2.0 * r.by_i[C] + 2.0 * r.by_i[P] - r.by_i[H];
    for j in 0..COMPONENTS {
        r.by_u[0][j] = 2.0 * r.by_u[C][j] + 2.0 * r.by_u[P][j] - r.by_u[H][j];
    }
    match p.closure {
        Closure::Dic(dic) if dic > 0.0 => r.f[1] = l.n[C] - dic,
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
            r.f[component] = excess(l.n[component], total);
        } else {
            let mut row = [0.0; COMPONENTS];
            row[component] = 1.0;
            fix(&mut r, component, row, b.u[component] - ABSENT);
        }
    }
    r
}

/// How much a sum exceeds its total; from afar as sum ln(sum/total), which has the same slope and root, and which a
/// single step brings to zero where the sum grows by one power of the unknown.
#[inline(always)]
fn excess(sum: f64, total: f64) -> f64 {
    let difference = sum - total;
    if difference.abs() < 1e-3 * total { difference } else { sum * (sum / total).ln() }
}

/// Replaces a balance by a linear relation between the unknowns.
#[inline(always)]
fn fix(r: &mut Rows, row: usize, by_u: [f64; COMPONENTS], f: f64) {
    r.f[row] = f;
    r.by_u[row] = by_u;
    r.by_i[row] = 0.0;
}

#[inline(always)]
fn ln_co2_activity(k: &Constants, b: &State) -> f64 {
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

/// Balances a water, from a start in `state`, to within `tolerance`; the number of steps.
///
/// # Errors
/// [`Refusal::Impossible`] where no carbon, however little, gives this alkalinity at this pH.
pub(crate) fn balance(k: &Constants, p: &Problem, state: &mut State, tolerance: f64) -> Result<u32, Refusal> {
    match newton(k, p, state, tolerance, None) {
        Err(Refusal::NotSettled) if !matches!(p.closure, Closure::LnH(_)) => {
            bracketed(k, p, state)?;
            newton(k, p, state, tolerance, None).map(|steps| MOST_STEPS + steps)
        }
        other => other,
    }
}

/// A start near the answer where Newton's method was thrown to and fro, as next to no buffer between two strong ones can:
/// with H+ held, all other balances are well behaved, and the alkalinity falls as H+ rises, so halving finds it.
#[cold]
fn bracketed(k: &Constants, p: &Problem, state: &mut State) -> Result<(), Refusal> {
    let (mut low, mut high) = (-14.0 * std::f64::consts::LN_10, -std::f64::consts::LN_10);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        *state = first_guess(k, p);
        newton(k, p, state, 1e-3, Some(middle))?;
        let alkalinity: f64 = state.m.iter().zip(&MADE_OF).map(|(m, n)| m * (2.0 * n[C] + 2.0 * n[P] - n[H])).sum();
        if alkalinity > p.alkalinity { low = middle } else { high = middle }
    }
    Ok(())
}

/// Newton's steps, from a start in `state`; with `held`, at that ln a of H+ and whatever alkalinity results.
///
/// The steps shrink as their squares: after steps p and q the next would be about q² (q/p²). The factor in
/// brackets counts as at least 0.1, and as 1 where there is no step before.
fn newton(k: &Constants, p: &Problem, state: &mut State, tolerance: f64, held: Option<f64>) -> Result<u32, Refusal> {
    let (mut steps, mut before) = (0, 0.0_f64);
    loop {
        let sums = linearise(k, &p.totals, state);
        let mut r = rows(k, p, state, &sums);
        carbon_is_possible(p, &sums, r.f[0])?;
        if let Some(ln_h) = held {
            fix(&mut r, 0, [1.0, 0.0, 0.0, 0.0], state.u[H] - ln_h);
        }
        let (a, by_i) = solve_rows(&mut r);
        let (mut pull, mut share) = (sums.z - state.ionic_strength, 1.0 + sums.z_slope);
        for j in 0..COMPONENTS {
            pull += sums.z_n[j] * a[j];
            share -= sums.z_n[j] * by_i[j];
        }
        let di = step_of_strength(state.ionic_strength, pull / share, sums.z);
        let mut longest = (di / state.ionic_strength).abs();
        let mut du = [0.0; COMPONENTS];
        for j in 0..COMPONENTS {
            du[j] = (a[j] + by_i[j] * di).clamp(-LONGEST_STEP, LONGEST_STEP);
            state.u[j] += du[j];
            longest = longest.max(du[j].abs());
        }
        state.ionic_strength += di;
        let all = sums.all + (0..COMPONENTS).map(|j| sums.all_n[j] * du[j]).sum::<f64>();
        let moved = ln_water(all) - state.ln_water;
        state.ln_water += moved;
        steps += 1;
        let shrinks = if steps == 1 { 1.0 } else { (longest / (before * before)).max(0.1) };
        if longest < LAST_STEP && longest * longest * shrinks < tolerance && moved.abs() < 10.0 * tolerance {
            follow(state, &du, di);
            break;
        }
        before = longest;
        if steps >= MOST_STEPS || longest.is_nan() {
            return Err(Refusal::NotSettled);
        }
    }
    Ok(steps)
}

/// ln(1 - 0.017 Σ m), by its series: 1e-10 off at most in range.
#[inline(always)]
fn ln_water(all: f64) -> f64 {
    let x = (0.017 * all).clamp(0.0, 0.5);
    -x * (1.0 + x * (0.5 + x * (1.0 / 3.0)))
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
fn carbon_is_possible(p: &Problem, l: &Sums, too_much: f64) -> Result<(), Refusal> {
    let none_left = matches!(p.closure, Closure::LnH(_)) && l.n[C] < 1e-14;
    if none_left && too_much > 1e-11 { Err(Refusal::Impossible { what: "this pH" }) } else { Ok(()) }
}
