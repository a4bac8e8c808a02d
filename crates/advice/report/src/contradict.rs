//! Where a report disagrees with itself.
//!
//! What: ions against ions, conductivity against ions, hardness against calcium and magnesium. Wider than the
//! errors of an analysis, so that means of different samples pass: balance 10 % of the sum (half as much is allowed
//! for one sample: source key `standard_methods_1030`), conductivity 20 %, hardness 15 % and 0.4 meq/L (common
//! practice, no source).

use crate::analysis::Analysis;
use crate::{Contradiction, Reading, Sample};

/// Largest imbalance, percent of cations and anions together.
const BALANCE_PERCENT: f64 = 10.0;
/// Smallest difference that counts, meq/L.
const BALANCE_MEQ: f64 = 0.4;
/// Largest share by which the conductivity may be off.
const CONDUCTIVITY: f64 = 0.20;
/// Largest share by which hardness may be off.
const HARDNESS: f64 = 0.15;

/// All contradictions, sample by sample.
pub(crate) fn all(readings: &[Reading], samples: &[Sample]) -> Vec<Contradiction> {
    let mut out = Vec::new();
    for at in 0..samples.len().max(1) {
        let own = readings.iter().filter(|r| r.sample.unwrap_or(0) == at);
        let analysis = Analysis::of(own);
        let whose = samples.get(at).filter(|_| samples.len() > 1).and_then(|s| s.name.as_deref());
        let told = whose.map(|w| format!("{w}: ")).unwrap_or_default();
        out.extend(one(&analysis).into_iter().map(|text| Contradiction { text: format!("{told}{text}") }));
    }
    out
}

fn one(a: &Analysis) -> Vec<String> {
    let mut out = Vec::new();
    if let Some((cations, anions)) = a.sides() {
        let percent = 100.0 * (cations - anions) / (cations + anions);
        if percent.abs() > BALANCE_PERCENT && (cations - anions).abs() > BALANCE_MEQ {
            let (more, less) = if percent > 0.0 { ("anion", "cation") } else { ("cation", "anion") };
            out.push(format!(
                "Cations make {cations:.2} meq/L, anions {anions:.2}: {:.0} % apart. An {more} is missing or too low, \
                 or a {less} is too high or counted by another basis.",
                percent.abs()
            ));
        }
    }
    if let (Some((low, high)), Some(carried)) = (a.conductivity, a.carried()) {
        let off = if carried < low {
            low / carried - 1.0
        } else if carried > high {
            high / carried - 1.0
        } else {
            0.0
        };
        if off.abs() > CONDUCTIVITY {
            let (way, why) = if off > 0.0 {
                ("above", "an ion is missing, or one is counted by another basis")
            } else {
                ("below", "an ion is too high, or counted by another basis")
            };
            out.push(format!(
                "The conductivity is {:.0} % {way} what the ions carry ({carried:.0} µS/cm at 25 °C): {why}.",
                100.0 * off.abs()
            ));
        }
    }
    if let (Some(stated), Some(sum)) = (a.hardness, a.calcium_and_magnesium())
        && (stated - sum).abs() > (HARDNESS * sum).max(0.4)
    {
        out.push(format!(
            "The hardness of {stated:.2} meq/L is not that of calcium and magnesium together ({sum:.2} meq/L)."
        ));
    }
    out
}
