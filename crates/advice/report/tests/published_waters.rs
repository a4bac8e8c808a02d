//! Judge: measured natural waters. Stuyfzand (1987), report SWE 87.006, table 3.1, through a public copy
//! (`stuyfzand_1987`).
//!
//! A pH of exactly 7 in the table probably stands for "not given"; it moves conductivity by less than 1 %.
#![allow(clippy::type_complexity)] // rows of a printed table

use knowledge::Place;
use quantity::Ion;
use report::estimate::{Decided, Equation, Evidence, Item, Origin, Quantity, Usual, clashes, estimate};
use water::{Carbon, Sample, Totals, solve};

/// Number; Cl, HCO3, SO4, NO3; pH; Na, K, Ca, Mg, NH4, all mg/L; µS/cm measured at 20 °C.
#[rustfmt::skip]
const NATURAL: [(u32, [f64; 4], f64, [f64; 5], f64); 14] = [
    (2,  [32.0, 171.0, 0.0, 0.1],    7.91, [23.0, 10.9, 14.0, 21.0, 0.4],   326.0),
    (4,  [17.7, 55.0, 38.4, 0.0],    7.0,  [16.1, 3.9, 20.0, 4.9, 0.0],     212.0),
    (8,  [16.3, 113.0, 21.0, 24.8],  7.57, [6.0, 0.66, 53.3, 3.0, 0.1],     282.0),
    (9,  [33.0, 307.0, 1.0, 0.1],    7.34, [20.0, 6.3, 79.0, 7.9, 2.3],     486.0),
    (10, [196.0, 716.0, 6.0, 0.0],   7.77, [350.0, 7.4, 29.0, 10.0, 3.0],   1445.0),
    (11, [39.0, 101.0, 116.0, 0.6],  7.0,  [23.0, 2.8, 58.0, 13.0, 0.0],    458.0),
    (12, [11.0, 415.0, 437.0, 0.0],  7.0,  [297.0, 3.9, 20.0, 26.7, 0.0],   1204.0),
    (13, [113.0, 32.0, 62.0, 0.0],   6.2,  [62.0, 3.7, 29.0, 9.1, 0.4],     505.0),
    (14, [476.0, 226.0, 17.0, 0.0],  8.0,  [165.0, 22.8, 112.0, 52.0, 1.4], 1660.0),
    (15, [42.0, 185.0, 63.0, 69.5],  7.57, [26.0, 1.9, 101.0, 5.0, 0.1],    585.0),
    (16, [34.0, 352.0, 140.0, 372.0], 7.04, [19.0, 0.3, 285.0, 4.1, 0.1],   1248.0),
    (17, [128.0, 201.0, 48.0, 0.0],  7.0,  [161.0, 0.0, 18.0, 0.0, 0.0],    735.0),
    (18, [206.0, 212.0, 100.0, 0.0], 7.53, [103.0, 2.4, 121.0, 4.7, 0.3],   1021.0),
    (19, [190.0, 917.0, 5.0, 0.0],   7.26, [170.0, 13.1, 200.0, 12.5, 26.4], 1680.0),
];

/// g/mol of HCO3 (`iupac_2022`).
const HCO3: f64 = 61.017;

fn ions(row: usize) -> Vec<(Quantity, f64)> {
    let (_, [cl, hco3, so4, no3], _, [na, k, ca, mg, nh4], _) = NATURAL[row];
    let ions = [
        (Ion::Sodium, na),
        (Ion::Potassium, k),
        (Ion::Calcium, ca),
        (Ion::Magnesium, mg),
        (Ion::Ammonium, nh4),
        (Ion::Chloride, cl),
        (Ion::Sulfate, so4),
        (Ion::Nitrate, no3),
    ];
    let mut all: Vec<_> = ions.into_iter().map(|(ion, mg)| (Quantity::Ion(ion), mg)).collect();
    all.push((Quantity::Alkalinity, hco3 / HCO3));
    all
}

/// The analysis without some of its values.
fn evidence(row: usize, without: &[Quantity]) -> Evidence {
    let (_, _, ph, _, kappa) = NATURAL[row];
    let all = ions(row).into_iter().chain([(Quantity::Conductivity20, kappa)]);
    let kept = all.filter(|(of, _)| !without.contains(of));
    let step = |of| if matches!(of, Quantity::Ion(_)) { 0.1 } else { 0.01 };
    let items = kept.map(|(of, value)| Item::new(of, value, step(of), Origin::Laboratory)).collect();
    Evidence { ph: Some(ph), ..Evidence::of(items) }
}

fn median(mut all: Vec<f64>) -> f64 {
    all.sort_by(f64::total_cmp);
    0.5 * (all[(all.len() - 1) / 2] + all[all.len() / 2])
}

/// The balance as printed, and the conductivity that the reconciled ions carry, made without the measured one.
#[test]
fn balance_and_conductivity() {
    let usual = Usual::at(Place::Eu);
    let (mut balances, mut conductivities, mut outliers) = (Vec::new(), Vec::new(), Vec::new());
    for (row, (number, anions, ph, cations, measured)) in NATURAL.iter().enumerate() {
        let [cl, hco3, so4, no3] = *anions;
        let [na, k, ca, mg, nh4] = *cations;
        let printed = Totals::from_mg_per_l(&[na, k, ca, mg, nh4, cl, so4, no3, 0.0]);
        let balance = printed.charge_balance_percent(hco3 / HCO3 / 1000.0);
        let found = estimate(&evidence(row, &[Quantity::Conductivity20]), &usual).unwrap();
        let mg_per_l = Ion::MAJOR.map(|ion| found.ions[&ion].known.value);
        let sample = Sample {
            temperature_c: 20.0,
            totals: Totals::from_mg_per_l(&mg_per_l),
            alkalinity_eq_per_kg: Some(found.alkalinity.known.value / 1000.0),
            carbon: Carbon::Ph(*ph),
        };
        let error = 100.0 * (solve(&sample).unwrap().conductivity_t_us_per_cm / measured - 1.0);
        println!("{number:2}: balance {balance:+.1} %, conductivity {error:+.1} %");
        balances.push(balance.abs());
        conductivities.push(error.abs());
        if balance.abs() > 4.0 || error.abs() > 5.0 {
            outliers.push(*number);
        }
    }
    println!("median: balance {:.2} %, conductivity {:.2} %", median(balances.clone()), median(conductivities.clone()));
    assert!(median(balances) <= 4.0);
    assert!(median(conductivities) <= 4.0);
    // 12: a sodium-sulfate water, where the equation of conductivity is known to fail (its paper's own ion pairs).
    // 16: six times the nitrate that a tap may hold; the earlier equation of PHREEQC is as far off, so the measured
    // value may be.
    assert_eq!(outliers, [12, 16]);
}

/// A sound analysis is no clash: only the two outliers may be told to contradict themselves, and only on conductivity.
#[test]
fn sound_analyses_do_not_clash() {
    let usual = Usual::at(Place::Eu);
    for (row, (number, ..)) in NATURAL.iter().enumerate() {
        for clash in clashes(&evidence(row, &[]), &usual) {
            println!("{number}: {}", clash.text);
            assert!([12, 16].contains(number) && clash.equation == Equation::Conductivity, "{number}: {}", clash.text);
        }
    }
}

/// One value of a real analysis withheld: how often does the range made from the others hold it, where an equation
/// decides it? Real waters, so nothing here was drawn from what the estimate takes for usual. (What only the usual
/// decides is not judged here: these are ground waters of every kind, and no taps.)
#[test]
fn a_withheld_value_lies_in_its_range() {
    let usual = Usual::at(Place::Eu);
    let (mut held, mut tried) = (0, 0);
    for (row, (number, ..)) in NATURAL.iter().enumerate() {
        for (of, truth) in ions(row) {
            let found = estimate(&evidence(row, &[of]), &usual).unwrap();
            let line = match of {
                Quantity::Ion(ion) => found.ions[&ion],
                _ => found.alkalinity,
            };
            if line.decided == Decided::Usual {
                continue;
            }
            let known = line.known;
            // A printed 0 stands for anything that rounds to it.
            let inside = known.low <= truth + 0.05 && truth <= known.high;
            if !inside {
                let name = of.name();
                println!("{number}: {name} {truth:.2}, range {} to {}, {:?}", known.low, known.high, line.decided);
            }
            (held, tried) = (held + i32::from(inside), tried + 1);
        }
    }
    println!("{held} of {tried} withheld values lie in their 90 % range");
    // 90 of 100 less twice the wavering of so few cases (2 × 2.7); among them waters far outside what taps hold.
    assert!(f64::from(held) >= 0.85 * f64::from(tried), "{held} of {tried}");
}
