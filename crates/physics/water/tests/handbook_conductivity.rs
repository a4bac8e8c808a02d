//! Judges: the KCl standard, equivalent conductivities of single salts, and measured natural waters.
#![allow(clippy::type_complexity)] // rows of handbook tables

use water::{Carbon, Sample, Totals, solve};

/// µS/cm at a temperature of totals in mol/kg, without carbon.
fn salt(temperature_c: f64, totals: [f64; 9]) -> f64 {
    let carbon = Carbon::DicMolPerKg(0.0);
    let solved = solve(&Sample { temperature_c, totals: Totals(totals), alkalinity_eq_per_kg: None, carbon }).unwrap();
    solved.conductivity_t_us_per_cm
}

/// The standard of 0.01 mol/L KCl at 25 °C, 1412 to 1413 µS/cm (from memory).
#[test]
fn potassium_chloride_standard() {
    let kappa = salt(25.0, [0.0, 0.01, 0.0, 0.0, 0.0, 0.01, 0.0, 0.0, 0.0]);
    assert!((kappa / 1412.5 - 1.0).abs() < 0.01, "{kappa}");
}

/// S cm²/eq at 0.001, 0.01 and 0.05 eq/L, 25 °C (`crc_conductivity`, from memory). What McCleskey's equation misses of them
/// is asserted, salt by salt: most in MgCl2 and Na2SO4 at 0.05 eq/L, more than fresh waters hold of them.
#[test]
fn single_salts() {
    let salts: [(&str, [f64; 9], [f64; 3], [f64; 3]); 5] = [
        ("KCl", [0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0], [146.88, 141.20, 133.30], [0.01, 0.01, 0.01]),
        ("NaCl", [1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0], [123.68, 118.45, 111.01], [0.01, 0.01, 0.02]),
        ("CaCl2", [0.0, 0.0, 0.5, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0], [130.30, 120.30, 108.42], [0.01, 0.01, 0.02]),
        ("MgCl2", [0.0, 0.0, 0.0, 0.5, 0.0, 1.0, 0.0, 0.0, 0.0], [124.15, 114.49, 103.03], [0.02, 0.03, 0.06]),
        ("Na2SO4", [1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.5, 0.0, 0.0], [124.09, 112.38, 97.70], [0.01, 0.02, 0.10]),
    ];
    for (name, ions, handbook, tolerances) in salts {
        for (k, eq) in [0.001, 0.01, 0.05].into_iter().enumerate() {
            let kappa = salt(25.0, ions.map(|n| n * eq));
            let lambda = kappa * 1e-3 / eq;
            println!(
                "{name:6} {eq:5}: {lambda:.2}, handbook {:.2}, {:+.1} %",
                handbook[k],
                (lambda / handbook[k] - 1.0) * 100.0
            );
            assert!((lambda / handbook[k] - 1.0).abs() < tolerances[k], "{name} {eq}: {lambda}");
        }
    }
}

/// Ions in mg/L: Cl, HCO3, SO4, NO3; pH; Na, K, Ca, Mg, NH4; µS/cm measured at 20 °C.
/// Stuyfzand (1987), report SWE 87.006, table 3.1, through a public copy (`stuyfzand_1987`).
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

#[test]
fn natural_waters() {
    let mut off: Vec<(f64, u32)> = NATURAL
        .iter()
        .map(|(number, [cl, hco3, so4, no3], ph, [na, k, ca, mg, nh4], measured)| {
            let sample = Sample {
                temperature_c: 20.0,
                totals: Totals::from_mg_per_l(&[*na, *k, *ca, *mg, *nh4, *cl, *so4, *no3, 0.0]),
                alkalinity_eq_per_kg: Some(hco3 / 61_016.0),
                carbon: Carbon::Ph(*ph),
            };
            let kappa = solve(&sample).unwrap().conductivity_t_us_per_cm;
            println!("{number:2}: {kappa:6.0}, measured {measured:6.0}, {:+.1} %", (kappa / measured - 1.0) * 100.0);
            ((kappa / measured - 1.0).abs(), *number)
        })
        .collect();
    off.sort_by(|a, b| a.0.total_cmp(&b.0));
    // A real report is worth 3 to 4 %. Number 12 is a sodium-sulfate water, where the equation is known to fail;
    // number 16 lies as far off by PHREEQC's earlier equation.
    assert!(off[7].0 < 0.035, "median {:?}", off[7]);
    assert!(off[11].0 < 0.05, "{off:?}");
    assert_eq!((off[12].1, off[13].1), (16, 12));
    assert!(off[13].0 < 0.16, "{off:?}");
}
