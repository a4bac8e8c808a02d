//! Judge: whole analyses of waters whose truth is known, in which the nitrate is counted wrongly: whether the balance shows
//! it, and whether the odds ever prove the wrong way.

use crate::twin::{Dice, NO3_PER_N, Truth, WATERS, measured};
use knowledge::Place;
use quantity::Ion;
use report::estimate::{Evidence, Meaning, Mend, Origin, Quantity, Usual, basis_odds, clashes};

/// A whole analysis, in which only the basis of nitrate is in doubt.
fn whole(dice: &mut Dice, truth: &Truth) -> Evidence {
    let ions = Ion::ALL.into_iter().take(10).map(Quantity::Ion);
    let rows = ions.chain([Quantity::Alkalinity, Quantity::Conductivity20]);
    let items = rows.map(|of| measured(dice, truth, of, Origin::Laboratory, 0.0));
    Evidence { ph: Some(truth.ph), ..Evidence::of(items.collect()) }
}

fn nitrate(evidence: &Evidence) -> usize {
    evidence.items.iter().position(|item| item.of == Quantity::Ion(Ion::Nitrate)).unwrap()
}

/// The nitrate of an analysis as it comes when its number is counted wrongly: `times` too large, and the other way
/// told.
fn counted(evidence: &Evidence, times: f64, settled: bool) -> Evidence {
    let mut evidence = evidence.clone();
    let place = nitrate(&evidence);
    let item = &mut evidence.items[place];
    let truth = item.value;
    item.value *= times;
    item.sd *= times;
    item.settled = settled;
    item.counted = "as printed".to_owned();
    item.otherwise = vec![Meaning { words: "otherwise".to_owned(), of: item.of, value: truth }];
    evidence
}

/// The error of the balance, meq/L, by hand from the errors of its values.
fn balance_error(evidence: &Evidence) -> f64 {
    let squares = evidence.items.iter().map(|item| match item.of {
        Quantity::Ion(ion) => (item.sd * f64::from(ion.charge()) / ion.molar_mass()).powi(2),
        Quantity::Alkalinity => item.sd.powi(2),
        _ => 0.0,
    });
    squares.sum::<f64>().sqrt()
}

#[test]
fn a_swapped_basis_is_caught_where_the_balance_shows_it() {
    let usual = Usual::at(Place::Other);
    let mut dice = Dice(0x2611_A7E5_0003);
    // By how many errors of the balance the swap moves it: under 2, 2 to 4, 4 to 6, above.
    let mut bins = [[0_u32; 4]; 4];
    let mut alarms = 0;
    let mut proven = [0_u32; 2];
    for i in 0..WATERS {
        let truth = Truth::usual(&mut dice);
        let sound = whole(&mut dice, &truth);
        alarms += u32::from(!clashes(&sound, &usual).is_empty());
        // Half are N printed as NO3, half NO3 printed as N.
        let times = if i % 2 == 0 { 1.0 / NO3_PER_N } else { NO3_PER_N };
        let swapped = counted(&sound, times, true);
        let item = &swapped.items[nitrate(&swapped)];
        let moved = (item.value - item.otherwise[0].value).abs() / Ion::Nitrate.molar_mass();
        let shown = moved / balance_error(&swapped);
        let bin = &mut bins[[2.0, 4.0, 6.0].iter().filter(|edge| shown > **edge).count()];
        let found = clashes(&swapped, &usual);
        let is_named = |mend: &Mend| matches!(mend, Mend::Basis { item, .. } if *item == nitrate(&swapped));
        bin[0] += 1;
        bin[1] += u32::from(!found.is_empty());
        bin[2] += u32::from(found.iter().any(|clash| clash.mends.iter().any(is_named)));
        // Left open, it is settled by the odds or asked.
        let open = counted(&sound, times, false);
        let odds = basis_odds(&open, nitrate(&open), &usual).unwrap();
        if odds.is_proven {
            let right = odds.ways[0].0 == "otherwise";
            proven[usize::from(right)] += 1;
            bin[3] += u32::from(right);
            if !right {
                println!("proven wrongly: {} (at {shown:.1} errors)", odds.text);
                println!(
                    "{:?} {:?}",
                    truth.ions,
                    open.items.iter().map(|i| (i.of.name(), i.value)).collect::<Vec<_>>()
                );
            }
        }
    }
    println!("false alarms in {WATERS} sound analyses: {alarms}");
    for (bin, name) in bins.iter().zip(["under 2", "2 to 4", "4 to 6", "above 6"]) {
        let [n, shares @ ..] = bin.map(f64::from);
        let [caught, named, proven] = shares.map(|share| 100.0 * share / n);
        println!("{name:8} errors: {n:4} swaps, caught {caught:5.1} %, named {named:5.1} %, proven {proven:5.1} %");
    }
    let [wrong, right] = proven;
    println!("basis proven by the odds: rightly in {right} of {WATERS}, wrongly in {wrong}");
    // Odds of 100 to 1 may be wrong once in a hundred.
    assert!(f64::from(wrong) <= 0.01 * f64::from(right), "{wrong} of {right}");
    assert!(alarms <= 10, "{alarms}");
    // Beyond six errors the balance shows it. What is named is one of the single changes that mend the clash.
    let [n, caught, named, proven] = bins[3].map(f64::from);
    assert!(caught >= 0.99 * n && named >= 0.95 * n && proven >= 0.95 * n, "{:?}", bins[3]);
}
