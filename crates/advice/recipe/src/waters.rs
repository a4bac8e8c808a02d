//! The waters of a plan: the new water of a change, and the water that comes to stand in the tank.
//!
//! What: new water = (1 - s) tap + s low-mineral water, ion by ion and end by end, plus the salts stirred into it;
//! tank water = the levels between changes where a level is known, else the new water.
//! Range: mixing by volume; pH is never mixed (it is solved, `indices`).

use std::collections::BTreeMap;

use quantity::{Ion, Kind, Known};
use setup::{SourceWater, Tank};

use crate::plan::{Dose, Into, Level};

/// `a` and `b` in the shares 1 - s and s, ends and kind too.
pub(crate) fn mix(a: Known<f64>, b: Known<f64>, s: f64) -> Known<f64> {
    let kind = match s {
        0.0 => a.kind,
        1.0 => b.kind,
        _ => a.kind.weaker(b.kind).weaker(Kind::WorkedOut),
    };
    // Written so that rounding never turns the ends around.
    let at = |x: f64, y: f64| (1.0 - s) * x + s * y;
    Known::ranged(at(a.low, b.low), at(a.value, b.value), at(a.high, b.high), kind)
}

/// Every number raised by the same amount; at and above 0.
pub(crate) fn raised(a: Known<f64>, by: f64) -> Known<f64> {
    if by == 0.0 { a } else { Known::ranged(a.low + by, a.value + by, a.high + by, a.kind.weaker(Kind::WorkedOut)) }
}

/// The new water of a change before salts: the tap with a share of the low-mineral water.
pub fn blended(tank: &Tank, low_share: f64) -> SourceWater {
    let tap = &tank.tap;
    let Some(low) = tank.low.as_ref().filter(|_| low_share > 0.0) else { return tap.clone() };
    let ions = Ion::ALL.into_iter().map(|ion| (ion, mix(tap.mg_per_l(ion), low.mg_per_l(ion), low_share))).collect();
    SourceWater {
        name: format!("{} with {}", tap.name, low.name),
        ions,
        alkalinity_meq_per_l: mix(tap.alkalinity_meq_per_l, low.alkalinity_meq_per_l, low_share),
        temperature_c: mix(tap.temperature_c, low.temperature_c, low_share),
        conductivity_25_us_per_cm: None,
        ..tap.clone()
    }
}

/// The new water with the salts that are stirred into it. Alkalinity of a product counts too.
pub fn salted(mut water: SourceWater, doses: &[Dose]) -> SourceWater {
    for dose in doses.iter().filter(|dose| dose.into == Into::NewWater) {
        for (ion, mg) in &dose.brings {
            let was = water.mg_per_l(*ion);
            water.ions.insert(*ion, raised(was, *mg));
        }
        water.alkalinity_meq_per_l = raised(water.alkalinity_meq_per_l, alkalinity_meq(dose));
    }
    water
}

/// meq/L that a dose brings: a day into the tank is told by the caller's litres, here for a g per L of new water.
pub(crate) fn alkalinity_meq(dose: &Dose) -> f64 {
    let product = knowledge::book().product(&dose.product);
    product.map_or(0.0, |p| dose.amount * p.alkalinity_meq_per_g() * p.assay())
}

/// The water that comes to stand in the tank. Between after and before a change it stands in the middle; where none is changed, at
/// what gathered until today.
pub fn in_tank(new_water: &SourceWater, levels: &[Level], alkalinity: &Level) -> SourceWater {
    let middle = |level: &Level| {
        let (a, b) = (level.after_change, level.before_change);
        let value = if level.unchanged_days.is_some() { b.value } else { (a.value + b.value) / 2.0 };
        Known::ranged(a.low.min(b.low), value, a.high.max(b.high), a.kind.weaker(b.kind))
    };
    let mut ions: BTreeMap<Ion, Known<f64>> = new_water.ions.clone();
    for level in levels {
        if let Some(ion) = level.ion {
            ions.insert(ion, middle(level));
        }
    }
    // Without alkalinity the bacteria that eat it stop: the sums may go below none, the water does not.
    let alkalinity = middle(alkalinity).map(|meq| meq.max(0.0));
    SourceWater { ions, alkalinity_meq_per_l: alkalinity, ..new_water.clone() }
}

/// meq/L of hardness: twice the mmol/L of calcium and magnesium, each at its own end.
pub fn hardness_meq(water: &SourceWater) -> Known<f64> {
    let of = |ion: Ion| water.mg_per_l(ion).map(|mg| mg / ion.molar_mass() * f64::from(ion.charge()));
    let (ca, mg) = (of(Ion::Calcium), of(Ion::Magnesium));
    Known::ranged(ca.low + mg.low, ca.value + mg.value, ca.high + mg.high, ca.kind.weaker(mg.kind))
}
