//! The unknowns of a water, and what follows from them.
//!
//! **What.** Ten numbers that may take any value, from which a water without charge follows: none of its ions is ever
//! negative, and its alkalinity is what the charge of the ions leaves.
//!
//! **Equation.** ci = exp(ui) for Na, K, NH4, Cl, SO4, NO3, PO4, NO2; H = exp(uH); Mg = r H, Ca = (1 - r) H with
//! r = 1/(1 + exp(-ur)); alkalinity = Na + K + NH4 + 2 Ca + 2 Mg - Cl - 2 SO4 - NO3 - NO2 - P in meq/L.
//!
//! **Symbols.** c mg/L of the ion; H hardness, meq/L; r magnesium's share of it; P all orthophosphate, counted once
//! (`dickson_1981`). Conductivity: crate `water`, µS/cm at 20 or 25 °C, nitrite as nitrate, mole for mole.
//!
//! **Range.** That of `water`: ionic strength to 0.1 mol/kg.
//!
//! **Source.** `dickson_1981`; conductivity `mccleskey_2012`.
//!
//! **Checked by** `tests/by_hand_estimate.rs`, and the slopes by differences below.

use quantity::Ion;
use water::{Carbon, Sample, TOTALS, Totals, solve};

use super::Quantity;
use super::linear::{Matrix, Vector};

/// How many unknowns there are. The places are those of [`Ion::ALL`]; hardness stands in place of calcium, the share of
/// magnesium in place of magnesium.
pub(super) const N: usize = 10;
/// Place of ln hardness.
pub(super) const HARDNESS: usize = Ion::Calcium as usize;
/// Place of the logit of magnesium's share.
pub(super) const SHARE: usize = Ion::Magnesium as usize;
/// Beyond exp(12) mg/L there is no fresh water; a step that goes there is refused.
const FAR: f64 = 12.0;

/// The ions of the unknowns.
pub(super) fn ions() -> impl Iterator<Item = (usize, Ion)> {
    Ion::ALL.into_iter().take(N).enumerate()
}

/// Signed equivalents per mg/L of an ion; phosphate counts once.
pub(super) fn meq_per_mg(ion: Ion) -> f64 {
    let charge = if ion == Ion::Phosphate { -1 } else { ion.charge() };
    f64::from(charge) / ion.molar_mass()
}

/// A water that follows from the unknowns.
#[derive(Clone, Copy, Debug)]
pub(super) struct Composition {
    /// mg/L in the order of [`Ion::ALL`].
    pub(super) mg_per_l: Vector,
    /// meq/L
    pub(super) hardness: f64,
    /// meq/L
    pub(super) alkalinity: f64,
}

impl Composition {
    /// The water of these unknowns; none where one of them is out of reach.
    pub(super) fn of(u: &Vector) -> Option<Composition> {
        if u.iter().any(|x| !x.is_finite() || *x > FAR || *x < -4.0 * FAR) {
            return None;
        }
        let hardness = u[HARDNESS].exp();
        let share = share(u);
        let mut mg_per_l = [0.0; N];
        let mut alkalinity = 0.0;
        for (i, ion) in ions() {
            mg_per_l[i] = match ion {
                Ion::Calcium => hardness * (1.0 - share) / meq_per_mg(ion),
                Ion::Magnesium => hardness * share / meq_per_mg(ion),
                _ => u[i].exp(),
            };
            alkalinity += mg_per_l[i] * meq_per_mg(ion);
        }
        Some(Composition { mg_per_l, hardness, alkalinity })
    }

    /// The value of a quantity in its unit; none where conductivity cannot be worked out.
    pub(super) fn value(&self, of: Quantity, ph: f64) -> Option<f64> {
        match of {
            Quantity::Ion(ion) => self.mg_per_l.get(ion.index()).copied(),
            Quantity::Hardness => Some(self.hardness),
            Quantity::Alkalinity => Some(self.alkalinity),
            Quantity::Conductivity20 => self.conductivity(ph, 20.0),
            Quantity::Conductivity | Quantity::ConductivityUntold => self.conductivity(ph, 25.0),
        }
    }

    /// µS/cm at a temperature; none outside the range of the model.
    fn conductivity(&self, ph: f64, temperature_c: f64) -> Option<f64> {
        let mut totals = Totals::default();
        for (i, ion) in ions() {
            let counted = if ion == Ion::Nitrite { Ion::Nitrate } else { ion };
            totals.add(counted, self.mg_per_l[i] / ion.molar_mass() / 1000.0);
        }
        debug_assert_eq!(TOTALS, 9);
        // A water on its way to the answer may lack all alkalinity, and yet this pH needs some: no less than phosphate,
        // ammonia and hydroxide alone can take up at it, so that no carbon is asked to be negative.
        let taken_up = 2.0 * totals.get(Ion::Phosphate) + totals.get(Ion::Ammonium) + 2.0 * 10_f64.powf(ph - 14.0);
        let alkalinity = (self.alkalinity / 1000.0).max(1e-5 + taken_up);
        let sample = Sample { temperature_c, totals, alkalinity_eq_per_kg: Some(alkalinity), carbon: Carbon::Ph(ph) };
        solve(&sample).ok().map(|solved| solved.conductivity_t_us_per_cm)
    }
}

/// Magnesium's share of hardness.
fn share(u: &Vector) -> f64 {
    1.0 / (1.0 + (-u[SHARE]).exp())
}

/// ln of mg/L of each ion.
pub(super) fn logs(u: &Vector) -> Vector {
    let mut logs = *u;
    // ln(1 - r) and ln r, where r itself may be too near an end to be told from it.
    logs[HARDNESS] = u[HARDNESS] - u[SHARE].exp().ln_1p() - meq_per_mg(Ion::Calcium).ln();
    logs[SHARE] = u[HARDNESS] - (-u[SHARE]).exp().ln_1p() - meq_per_mg(Ion::Magnesium).ln();
    logs
}

/// The unknowns of these ln of mg/L.
pub(super) fn unknowns(logs: &Vector) -> Vector {
    let mut u = *logs;
    let meq = |ion: Ion| meq_per_mg(ion) * logs[ion.index()].exp();
    u[HARDNESS] = (meq(Ion::Calcium) + meq(Ion::Magnesium)).ln();
    u[SHARE] = (meq(Ion::Magnesium) / meq(Ion::Calcium)).ln();
    u
}

/// How [`logs`] moves with the unknowns.
pub(super) fn log_slopes(u: &Vector) -> Matrix {
    let mut slopes: Matrix = std::array::from_fn(|i| std::array::from_fn(|k| if i == k { 1.0 } else { 0.0 }));
    let share = share(u);
    (slopes[HARDNESS][SHARE], slopes[SHARE][HARDNESS], slopes[SHARE][SHARE]) = (-share, 1.0, 1.0 - share);
    slopes
}

/// How the ions move with the unknowns: d(mg/L of i)/du.
fn slopes(u: &Vector, at: &Composition) -> Matrix {
    let mut slopes = [[0.0; N]; N];
    for (i, _) in ions() {
        slopes[i][i] = at.mg_per_l[i];
    }
    let moved = at.hardness * share(u) * (1.0 - share(u));
    slopes[SHARE][HARDNESS] = at.mg_per_l[SHARE];
    slopes[SHARE][SHARE] = moved / meq_per_mg(Ion::Magnesium);
    slopes[HARDNESS][SHARE] = -moved / meq_per_mg(Ion::Calcium);
    slopes
}

/// How a quantity moves with the unknowns; conductivity by differences. None where it cannot be worked out.
pub(super) fn gradient(of: Quantity, u: &Vector, at: &Composition, ph: f64) -> Option<Vector> {
    let mut gradient = [0.0; N];
    match of {
        Quantity::Ion(ion) => return slopes(u, at).get(ion.index()).copied(),
        Quantity::Hardness => gradient[HARDNESS] = at.hardness,
        Quantity::Alkalinity => {
            let slopes = slopes(u, at);
            for (i, ion) in ions() {
                for (sum, slope) in gradient.iter_mut().zip(&slopes[i]) {
                    *sum += slope * meq_per_mg(ion);
                }
            }
        }
        Quantity::Conductivity | Quantity::Conductivity20 | Quantity::ConductivityUntold => {
            let here = at.value(of, ph)?;
            for (i, slope) in gradient.iter_mut().enumerate() {
                let mut beside = *u;
                beside[i] += STEP;
                *slope = (Composition::of(&beside)?.value(of, ph)? - here) / STEP;
            }
        }
    }
    Some(gradient)
}

/// How a conductivity moves with each ion, µS/cm per mg/L, the alkalinity going along so that no charge is left.
pub(super) fn conductivity_slopes(of: Quantity, at: &Composition, ph: f64) -> Option<Vector> {
    let here = at.value(of, ph)?;
    let mut slopes = [0.0; N];
    for (i, ion) in ions() {
        let more = 0.01 * at.mg_per_l[i] + 0.01;
        let mut beside = *at;
        beside.mg_per_l[i] += more;
        beside.alkalinity += more * meq_per_mg(ion);
        slopes[i] = (beside.value(of, ph)? - here) / more;
    }
    Some(slopes)
}

/// Step of the differences, in units of ln: large beside the solver's own error, small beside the curvature.
const STEP: f64 = 1e-3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn logs_are_those_of_the_ions_and_turn_back() {
        let u: Vector = std::array::from_fn(|i| 0.3 * i as f64 - 1.0);
        let (at, logs) = (Composition::of(&u).unwrap(), logs(&u));
        for i in 0..N {
            assert!((logs[i] - at.mg_per_l[i].ln()).abs() < 1e-12, "{i}");
            assert!((unknowns(&logs)[i] - u[i]).abs() < 1e-12, "{i}");
            for k in 0..N {
                let mut beside = u;
                beside[k] += 1e-6;
                assert!(((super::logs(&beside)[i] - logs[i]) / 1e-6 - log_slopes(&u)[i][k]).abs() < 1e-5, "{i} {k}");
            }
        }
    }

    #[test]
    fn slopes_are_those_of_differences() {
        let u: Vector = std::array::from_fn(|i| 0.3 * i as f64 - 1.0);
        let at = Composition::of(&u).unwrap();
        let all =
            [Quantity::Hardness, Quantity::Alkalinity, Quantity::Ion(Ion::Calcium), Quantity::Ion(Ion::Magnesium)];
        for of in all.into_iter().chain([Quantity::Ion(Ion::Nitrate)]) {
            let gradient = gradient(of, &u, &at, 7.5).unwrap();
            for i in 0..N {
                let at = |step: f64| {
                    let mut v = u;
                    v[i] += step;
                    Composition::of(&v).unwrap().value(of, 7.5).unwrap()
                };
                assert!((gradient[i] - (at(1e-5) - at(-1e-5)) / 2e-5).abs() < 1e-6, "{of:?} {i}");
            }
        }
    }
}
