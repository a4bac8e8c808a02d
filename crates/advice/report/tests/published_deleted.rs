//! Judge: published analyses of groundwaters (`moreno_merino_2021`), each printed as it was measured, with readings deleted. What
//! was deleted must lie in its 90 % range as often as that claims. Nothing here was drawn from what the estimate takes for usual,
//! and the shares were worked out only when the estimate was settled.
//!
//! The table has no nitrate, conductivity or traces: they are never told, and not judged.

use std::collections::BTreeMap;

use crate::twin::Dice;
use crate::twin::published::{like_taps, row};
use knowledge::Place;
use quantity::Ion;
use report::estimate::{Decided, Evidence, Item, Origin, Quantity, Usual, estimate};

/// Deletions of each analysis.
const TIMES: usize = 8;
/// A half of the last printed figure, mg/L, meq/L of alkalinity and of hardness.
const ROUNDED: [f64; 3] = [0.5, 0.01, 0.05];

/// What a row says: the quantity, its value, and by how much rounding may have moved it.
fn printed(values: &[f64; 7]) -> Vec<(Quantity, f64, f64)> {
    let (ions, alkalinity) = row(values);
    let hard = |ion: Ion| values[usize::from(ion == Ion::Magnesium)] * 2.0 / ion.molar_mass();
    let hardness = hard(Ion::Calcium) + hard(Ion::Magnesium);
    let mut all: Vec<_> = ions.into_iter().map(|(ion, mg)| (Quantity::Ion(ion), mg, ROUNDED[0])).collect();
    all.extend([(Quantity::Alkalinity, alkalinity, ROUNDED[1]), (Quantity::Hardness, hardness, ROUNDED[2])]);
    all
}

/// A share of deleted values that their ranges hold, of all and of those that only the usual decided.
fn deleted(seed: u64) -> BTreeMap<Quantity, [u32; 4]> {
    let usual = Usual::at(Place::Other);
    let mut dice = Dice(seed);
    let mut counts: BTreeMap<Quantity, [u32; 4]> = BTreeMap::new();
    for values in like_taps() {
        for _ in 0..TIMES {
            let all = printed(values);
            let kept: Vec<bool> = all.iter().map(|_| dice.chance(0.5)).collect();
            let told = all.iter().zip(&kept).filter(|(_, kept)| **kept);
            let items = told.map(|((of, value, rounded), _)| Item::new(*of, *value, 2.0 * rounded, Origin::Laboratory));
            let found = estimate(&Evidence::of(items.collect()), &usual).unwrap();
            for ((of, value, rounded), _) in all.iter().zip(&kept).filter(|(_, kept)| !**kept) {
                let line = match of {
                    Quantity::Ion(ion) => found.ions[ion],
                    Quantity::Hardness => found.hardness,
                    _ => found.alkalinity,
                };
                let held = line.known.low <= value + rounded && value - rounded <= line.known.high;
                let by_usual = line.decided == Decided::Usual;
                let count = counts.entry(*of).or_default();
                let one = [true, held, by_usual, held && by_usual].map(u32::from);
                count.iter_mut().zip(one).for_each(|(sum, one)| *sum += one);
            }
        }
    }
    counts
}

#[test]
fn deleted_readings_lie_in_their_ranges() {
    println!("{} analyses, each {TIMES} times with half of its readings deleted", like_taps().len());
    for (of, [all, held, usual, held_usual]) in deleted(0x2611_A7E5_0031) {
        let share = |k: u32, n: u32| 100.0 * f64::from(k) / f64::from(n.max(1));
        println!(
            "{:12} {:5.1} % of {all}; by the usual {:5.1} % of {usual}",
            of.name(),
            share(held, all),
            share(held_usual, usual)
        );
        // 90 less twice the wavering of so few analyses, which are one draw however often each is deleted.
        assert!(share(held, all) >= 83.0, "{of:?}");
    }
}
