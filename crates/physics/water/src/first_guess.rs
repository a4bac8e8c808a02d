//! A start for the balance, from the carbonate system alone.
//!
//! **What.** H+ from the quadratic of bicarbonate water, ligands from their main species. It need not be right: it saves steps.

use crate::constants::Constants;
use crate::equilibrium::{ABSENT, Closure, Problem};
use crate::exponential::exp;
use crate::linearise::State;
use crate::species::{CARRIERS, N, at};

/// ln γ of one species.
fn ln_gamma(k: &Constants, s: usize, i: f64) -> f64 {
    let root = i.sqrt();
    k.linear[s] * i - k.slope[s] * root / (1.0 + k.size[s] * root)
}

/// A start from the carbonate system alone.
pub(crate) fn first_guess(k: &Constants, p: &Problem) -> State {
    let t = &p.totals;
    let charges = t[0] + t[1] + 4.0 * (t[2] + t[3]) + t[4] + t[5] + 4.0 * t[6] + t[7] + 2.0 * t[8];
    let i = (0.5 * (charges + p.alkalinity.abs())).clamp(1e-7, 0.1);
    let conditional = |s: usize| exp(k.ln_k[s] - ln_gamma(k, s, i));
    let carbonate = [at::CO3, at::HCO3, at::CO2, at::OH].map(conditional);
    let [kc, kb, ka, kw] = carbonate;
    let alk = p.alkalinity;
    let co2 = match p.closure {
        Closure::LnCo2Activity(ln_a) => exp(ln_a - ln_gamma(k, at::CO2, i)),
        Closure::Co2(co2) => co2,
        Closure::LnH(_) | Closure::Dic(_) => 0.0,
    };
    let h = match p.closure {
        Closure::LnH(ln_h) => exp(ln_h),
        Closure::Dic(dic) => h_of_dic(alk, dic, carbonate),
        Closure::LnCo2Activity(_) | Closure::Co2(_) => h_of_co2(alk, co2, carbonate),
    };
    let h = h.clamp(1e-12, 1e-2);
    let c = match p.closure {
        Closure::LnH(_) => (alk + h - kw / h).max(1e-12) / (kb * h + 2.0 * kc),
        Closure::Dic(dic) => dic / (kc + kb * h + ka * h * h),
        Closure::LnCo2Activity(_) | Closure::Co2(_) => co2 / (ka * h * h),
    };
    let (ca, mg) = (t[2] * exp(ln_gamma(k, at::CA, i)), t[3] * exp(ln_gamma(k, at::MG, i)));
    let (mut s, mut ph, mut paired) = (ABSENT, ABSENT, 0.0);
    if t[6] > 0.0 {
        let free = conditional(at::SO4);
        let all = free + conditional(at::CASO4) * ca + conditional(at::MGSO4) * mg;
        s = (t[6] / all).ln();
        paired = t[6] * (1.0 - free / all);
    }
    if t[8] > 0.0 {
        let second = conditional(at::HPO4) + conditional(at::CAHPO4) * ca + conditional(at::MGHPO4) * mg;
        let third = conditional(at::CAPO4) * ca + conditional(at::MGPO4) * mg;
        ph = (t[8] / (third + h * (second + h * conditional(at::H2PO4)))).ln();
    }
    let c = if c > 1e-80 { c.ln() } else { ABSENT };
    State {
        u: [h.ln(), c, s, ph],
        ionic_strength: (i - 4.0 * paired).max(0.25 * i),
        ln_water: 0.0,
        m: [0.0; N],
        slope: [0.0; N],
        carriers: [0.0; CARRIERS],
        ammonia: [0.0; 3],
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

/// Turns a balanced water into a start for another temperature, closed: each buffer would move ln H+ by the shift of its own
/// constant; their mean by buffering goes. Carbonate and phosphate follow so that their totals stay.
pub(crate) fn carry_over(from: &Constants, to: &Constants, state: &mut State) {
    let m = &state.m;
    let moved = |s: usize| to.ln_k[s] - from.ln_k[s];
    let (mut pull, mut buffer) = (m[at::OH] * moved(at::OH), m[at::H] + m[at::OH] + 1e-12);
    for (acid, base) in [(at::CO2, at::HCO3), (at::HCO3, at::CO3), (at::H2PO4, at::HPO4), (at::NH4, at::NH3)] {
        let share = m[acid] * m[base] / (m[acid] + m[base] + 1e-30);
        pull += share * (moved(base) - moved(acid));
        buffer += share;
    }
    let h = pull / buffer;
    let follow = |forms: [usize; 3]| {
        let (mut change, mut all) = (0.0, 1e-30);
        for (n, s) in forms.into_iter().enumerate() {
            change += m[s] * (moved(s) + n as f64 * h);
            all += m[s];
        }
        change / all
    };
    let (carbonate, phosphate) = (follow([at::CO3, at::HCO3, at::CO2]), follow([at::PO4, at::HPO4, at::H2PO4]));
    state.u[0] += h;
    state.u[1] -= carbonate;
    state.u[3] -= phosphate;
}
