//! Judges: textbook exercises, standard buffers and the printed examples of the PHREEQC manual.
//!
//! Values marked "from memory" were written down without the book at hand.

use water::{Carbon, Sample, Solved, Totals, solve};

const MICRO: f64 = 1e-6;

/// A solved water from totals in mol/kg.
fn water(temperature_c: f64, totals: [f64; 9], alkalinity: Option<f64>, carbon: Carbon) -> Solved {
    solve(&Sample { temperature_c, totals: Totals(totals), alkalinity_eq_per_kg: alkalinity, carbon }).unwrap()
}

/// Calcium that pure water takes up until calcite is just saturated, by bisection.
fn calcite_water(carbon: impl Fn(f64) -> Carbon) -> Solved {
    let with = |ca: f64| {
        let mut totals = [0.0; 9];
        totals[2] = ca;
        water(25.0, totals, None, carbon(ca))
    };
    let (mut low, mut high) = (1.0 * MICRO, 15_000.0 * MICRO);
    for _ in 0..60 {
        let middle = (low * high).sqrt();
        match with(middle).si.calcite {
            Some(si) if si < 0.0 => low = middle,
            _ => high = middle,
        }
    }
    with(low)
}

/// Stumm & Morgan (`stumm_morgan_1996`), Appelo & Postma (`appelo_postma_2005`): pH to the printed decimal, from memory;
/// calcium at 1 atm "about 9 mmol", Plummer & Busenberg (`plummer_busenberg_1982`), from memory.
#[test]
fn calcite_in_pure_water() {
    // Closed: the calcite brings its own carbon.
    let closed = calcite_water(Carbon::DicMolPerKg);
    assert!((closed.ph - 9.9).abs() < 0.05, "{}", closed.ph);
    for (pco2, ph) in [(10_f64.powf(-3.5), 8.3), (1e-2, 7.3), (1.0, 6.0)] {
        let open = calcite_water(|_| Carbon::Pco2Atm(pco2));
        assert!((open.ph - ph).abs() < 0.05, "{pco2} {}", open.ph);
        if pco2 == 1.0 {
            assert!((open.totals.0[2] / 9e-3 - 1.0).abs() < 0.05, "{}", open.totals.0[2]);
        }
    }
}

/// Textbook value 5.65, from memory.
#[test]
fn pure_water_in_air() {
    let air = water(25.0, [0.0; 9], None, Carbon::Pco2Atm(10_f64.powf(-3.5)));
    assert!((air.ph - 5.65).abs() < 0.02, "{}", air.ph);
}

/// Solubility of gypsum 15.2 mmol/kg, handbook, from memory; handbooks differ by 1 to 2 %.
#[test]
fn gypsum_in_pure_water() {
    let si =
        |mol: f64| water(25.0, [0.0, 0.0, mol, 0.0, 0.0, 0.0, mol, 0.0, 0.0], None, Carbon::DicMolPerKg(0.0)).si.gypsum;
    assert!(si(15.2e-3 * 0.98) < Some(0.0) && si(15.2e-3 * 1.02) > Some(0.0));
}

/// Standard buffers (`nist_buffers`), from memory. The database's constants differ from those of the
/// standards by up to 0.025, which PHREEQC shows as well; the tolerance is that, rounded up.
#[test]
fn standard_buffers() {
    for (celsius, phosphate, carbonate) in
        [(5.0, 6.951, 10.245), (15.0, 6.900, 10.118), (25.0, 6.865, 10.012), (30.0, 6.853, 9.966), (35.0, 6.844, 9.925)]
    {
        // KH2PO4 0.025 and Na2HPO4 0.025 mol/kg.
        let totals = [0.05, 0.025, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.05];
        let ph = water(celsius, totals, None, Carbon::DicMolPerKg(0.0)).ph;
        assert!((ph - phosphate).abs() < 0.03, "{celsius} {ph} {phosphate}");
        // NaHCO3 0.025 and Na2CO3 0.025 mol/kg.
        let totals = [0.075, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
        let ph = water(celsius, totals, None, Carbon::DicMolPerKg(0.05)).ph;
        assert!((ph - carbonate).abs() < 0.03, "{celsius} {ph} {carbonate}");
    }
}

/// Two springs of example 16 of the PHREEQC manual (`parkhurst_appelo_2013`, printed output of an older database, read
/// second-hand). Half a digit of the print; silica, which is left out, would take 0.0005 mmol of carbon; 0.02 in the indices for
/// the older database.
#[test]
fn springs_of_the_manual() {
    let springs = [
        ([0.134, 0.028, 0.078, 0.029, 0.0, 0.014, 0.010], 0.328, 6.2, [0.7825, 0.454], [-3.30, -3.44, -4.62]),
        ([0.259, 0.040, 0.260, 0.071, 0.0, 0.030, 0.025], 0.895, 6.8, [1.199, 0.305], [-1.78, -1.92, -3.77]),
    ];
    for (ions, alkalinity, ph, [dic, co2], si) in springs {
        let mut totals = [0.0; 9];
        for (total, mmol) in totals.iter_mut().zip(ions) {
            *total = mmol * 1e-3;
        }
        let spring = water(25.0, totals, Some(alkalinity * 1e-3), Carbon::Ph(ph));
        let (got_dic, got_co2) = (spring.dic_mol_per_kg * 1e3, spring.co2_mol_per_kg * 1e3);
        assert!((got_dic - dic).abs() < 1.5e-3, "{got_dic} {dic}");
        assert!((got_co2 - co2).abs() < 1e-3, "{got_co2} {co2}");
        let got = [spring.si.calcite, spring.si.aragonite, spring.si.gypsum];
        for (got, printed) in got.into_iter().zip(si) {
            assert!((got.unwrap() - printed).abs() < 0.02, "{got:?} {printed}");
        }
    }
}

/// Rain of Central Oklahoma, example 4 of the manual: pH 4.5 in air gives alkalinity -0.03185 meq/kg. Here the other way.
#[test]
fn rain_of_the_manual() {
    let n = 18.039 / 14.007;
    let mg_per_l = [0.141, 0.036, 0.384, 0.043, 0.208 * n, 0.236, 1.3, 0.237 * 62.004 / 14.007, 0.0];
    let totals = Totals::from_mg_per_l(&mg_per_l).0;
    let rain = water(25.0, totals, Some(-0.03185e-3), Carbon::Pco2Atm(10_f64.powf(-3.5)));
    assert!((rain.ph - 4.5).abs() < 0.005, "{}", rain.ph);
    assert!((rain.si.calcite.unwrap() + 9.21).abs() < 0.02 && (rain.si.gypsum.unwrap() + 5.35).abs() < 0.02);
}
