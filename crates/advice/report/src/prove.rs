//! An open basis, settled only where the report's own numbers prove it.
//!
//! # What
//! How much likelier one reading of a number is than the next, given what else the report says.
//! # Equation
//! Each item of evidence under a hypothesis weighs max(exp(-z²/2), e), z = misfit / its error; odds = best product /
//! next product.
//! # Symbols
//! z: misfit in standard errors. e = 0.005: an item may be wrong for a reason that nobody thought of.
//! # Range
//! Odds of 100 and more settle; the best hypothesis must itself fit within 2.5 errors, and no single item can give
//! more than 200.
//! # Source
//! Errors: ion balance 3 % of the larger side and 0.1 meq/L (`standard_methods_1030` allows 2 to 5 %), conductivity 6 %,
//! hardness 3 % and 0.05 meq/L (common practice, no source).
//! # Checked by
//! `tests/by_hand_basis.rs`.

use crate::analysis::Analysis;
use crate::ask;
use crate::reading::{Basis, Counted, Reading};

/// Odds that settle.
pub(crate) const SETTLES: f64 = 100.0;
/// What an item of evidence weighs at least.
const FLOOR: f64 = 0.005;

/// How far a number is from what it should be, and how far it may be by its error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Misfit {
    /// Found less expected, in any unit.
    pub off: f64,
    /// Standard error, same unit, above zero.
    pub error: f64,
}

/// What speaks for or against one hypothesis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    /// Ion balance, conductivity, hardness: those that the report has.
    pub misfits: Vec<Misfit>,
}

impl Evidence {
    fn weight(&self) -> f64 {
        self.misfits.iter().map(|m| (-0.5 * (m.off / m.error).powi(2)).exp().max(FLOOR)).product()
    }

    fn fits(&self) -> bool {
        !self.misfits.is_empty() && self.misfits.iter().all(|m| m.error > 0.0 && (m.off / m.error).abs() < 2.5)
    }
}

/// The likeliest of the hypotheses with its odds against the next; none where it does not fit, or with fewer than two.
pub fn basis_odds(hypotheses: &[Evidence]) -> Option<(usize, f64)> {
    let mut ranked: Vec<(usize, f64)> = hypotheses.iter().map(Evidence::weight).enumerate().collect();
    ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
    match ranked[..] {
        [(best, weight), (_, next), ..] if hypotheses.get(best)?.fits() && next > 0.0 => Some((best, weight / next)),
        _ => None,
    }
}

/// Settle what can be proven, sample by sample.
pub(crate) fn settle(readings: &mut [Reading], samples: usize) {
    for at in 0..samples.max(1) {
        let own = |r: &Reading| r.sample.unwrap_or(0) == at;
        let open: Vec<usize> = (0..readings.len())
            .filter(|&i| {
                readings.get(i).is_some_and(|r| own(r) && r.is_central() && matches!(r.counted, Counted::Open(_)))
            })
            .collect();
        // With two unknowns one number proves neither.
        let [one] = open[..] else { continue };
        let rest = Analysis::of(readings.iter().filter(|r| own(r)));
        let Some(asked) = readings.get(one) else { continue };
        let Counted::Open(choices) = asked.counted.clone() else { continue };
        let evidence: Vec<Evidence> = choices.iter().map(|b| evidence(&rest, asked, *b)).collect();
        if let Some((best, odds)) = basis_odds(&evidence)
            && odds >= SETTLES
            && let Some(&basis) = choices.get(best)
        {
            let key = (asked.determinand.clone(), asked.as_written.clone(), asked.place.line);
            let same = |r: &Reading| own(r) && (r.determinand.clone(), r.as_written.clone(), r.place.line) == key;
            readings.iter_mut().filter(|r| same(r)).for_each(|r| proven(r, basis, odds));
        }
    }
}

/// The open reading and its minimum and maximum, counted by the proven basis.
fn proven(reading: &mut Reading, basis: Basis, odds: f64) {
    let counted = std::mem::replace(&mut reading.counted, Counted::As(basis));
    let mut asked = Reading { counted, question: None, ..reading.clone() };
    ask::open(&mut asked);
    // Another question on the same reading stays.
    if asked.question == reading.question {
        reading.question = None;
        reading.confidence = odds / (1.0 + odds);
    }
    let way = ask::choice(&reading.determinand, basis);
    reading.because = Some(format!(
        "{way} the report's own ions, hardness and conductivity fit {odds:.0} times better than any other way"
    ));
}

/// What the report says if the open reading is counted by this basis.
fn evidence(rest: &Analysis, asked: &Reading, basis: Basis) -> Evidence {
    let mut analysis = rest.clone();
    let mut misfits = Vec::new();
    match asked.determinand.as_str() {
        "alkalinity" | "hardness_carbonate" => analysis.alkalinity = asked.meq_per_l_as(Some(basis)).map(|m| m * 1e-3),
        "hardness_total" => {
            if let (Some(stated), Some(sum)) = (asked.meq_per_l_as(Some(basis)), rest.calcium_and_magnesium()) {
                misfits.push(Misfit { off: stated - sum, error: 0.05 + 0.03 * sum });
            }
            return Evidence { misfits };
        }
        _ => {
            if let (Some(ion), Some(mmol)) = (asked.ion(), asked.mmol_per_l_as(basis)) {
                analysis.totals.add(ion, mmol * 1e-3);
            }
        }
    }
    if let Some((cations, anions)) = analysis.sides() {
        misfits.push(Misfit { off: cations - anions, error: 0.1 + 0.03 * cations.max(anions) });
    }
    if let (Some((low, high)), Some(carried)) = (analysis.conductivity, analysis.carried()) {
        let off = if carried < low {
            carried - low
        } else if carried > high {
            carried - high
        } else {
            0.0
        };
        misfits.push(Misfit { off, error: 0.06 * high });
    }
    Evidence { misfits }
}
