//! Charge: what a water's ions leave open, and which unknown ion closes it.
//!
//! What: electroneutrality of an analysis, with alkalinity on the side of the anions.
//!
//! Equation: Na + K + NH4 + 2 Ca + 2 Mg = Cl + NO3 + NO2 + 2 SO4 + P + alkalinity, all in mmol/L, alkalinity in meq/L.
//!
//! Symbols: P is all orthophosphate, counted once: with alkalinity as the excess of proton acceptors over H2PO4-,
//! each mole of phosphate leaves one charge, whatever the pH (Dickson 1981, source key `dickson_1981`).
//!
//! Range: fresh water; traces in chelates and boric acid carry no charge here.
//!
//! Source: Standard Methods 1030 E (source key `standard_methods_1030`) for the balance in percent.
//!
//! Checked by: `tests/by_hand_balance.rs`.

use std::collections::BTreeMap;

use quantity::{Ion, Known};

/// Equivalents that a mole adds to the side of its charge: as [`Ion::charge`], phosphate once.
pub(crate) fn equivalents(ion: Ion) -> f64 {
    if ion == Ion::Phosphate { -1.0 } else { f64::from(ion.charge()) }
}

/// meq/L of charge, with its sign, for an amount in mg/L of the ion.
pub(crate) fn charge_meq_per_l(ion: Ion, mg_per_l: f64) -> f64 {
    equivalents(ion) * mg_per_l / ion.molar_mass()
}

/// Cations less anions less alkalinity, meq/L: 0 in a water without error.
pub fn open_charge_meq_per_l(ions: &BTreeMap<Ion, Known<f64>>, alkalinity_meq_per_l: f64) -> f64 {
    let charges = ions.iter().map(|(ion, known)| charge_meq_per_l(*ion, known.value));
    charges.sum::<f64>() - alkalinity_meq_per_l
}

/// 100 (cations - anions)/(cations + anions), % (Standard Methods 1030 E); `None` without any ion.
pub fn charge_balance_percent(ions: &BTreeMap<Ion, Known<f64>>, alkalinity_meq_per_l: f64) -> Option<f64> {
    let charges = ions.iter().map(|(ion, known)| charge_meq_per_l(*ion, known.value).abs());
    let all = charges.sum::<f64>() + alkalinity_meq_per_l.abs();
    (all > 0.0).then(|| 100.0 * open_charge_meq_per_l(ions, alkalinity_meq_per_l) / all)
}

/// The ions that may close a balance, in the order in which they are asked: those that reports leave out most.
const CLOSERS: [Ion; 6] = [Ion::Sodium, Ion::Chloride, Ion::Sulfate, Ion::Magnesium, Ion::Calcium, Ion::Potassium];

/// Move assumed ions, within their ranges, until the charge is closed as far as they reach. A known ion is never
/// touched. Returns the ions that were moved.
///
/// Each closer goes as far as it can before the next one is asked, so that as few as possible leave their best guess.
pub(crate) fn close(ions: &mut BTreeMap<Ion, Known<f64>>, alkalinity_meq_per_l: f64, assumed: &[Ion]) -> Vec<Ion> {
    let mut moved = Vec::new();
    for ion in CLOSERS.into_iter().filter(|ion| assumed.contains(ion)) {
        let open = open_charge_meq_per_l(ions, alkalinity_meq_per_l);
        let Some(known) = ions.get_mut(&ion) else { continue };
        let wished = known.value - open / equivalents(ion) * ion.molar_mass();
        let reached = quantity::number::canonical(wished.clamp(known.low, known.high));
        if (reached - known.value).abs() > 1e-9 {
            known.value = reached;
            moved.push(ion);
        }
    }
    moved
}
