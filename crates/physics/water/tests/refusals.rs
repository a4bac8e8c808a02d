//! What lies outside the model is refused with its name, and nothing panics.

use water::{Carbon, Constants, Refusal, Sample, Totals, oxygen_at_saturation_mg_per_l, solve};

fn plain() -> Sample {
    Sample {
        temperature_c: 20.0,
        totals: Totals([1e-3, 1e-4, 1e-3, 3e-4, 0.0, 1e-3, 3e-4, 2e-4, 1e-5]),
        alkalinity_eq_per_kg: None,
        carbon: Carbon::Ph(7.4),
    }
}

fn carbons(value: f64) -> [Carbon; 4] {
    [Carbon::Ph(value), Carbon::Pco2Atm(value), Carbon::Co2MolPerKg(value), Carbon::DicMolPerKg(value)]
}

#[test]
fn what_is_no_number_is_refused_everywhere() {
    assert!(solve(&plain()).is_ok());
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300] {
        assert!(solve(&Sample { temperature_c: bad, ..plain() }).is_err());
        assert!(solve(&Sample { alkalinity_eq_per_kg: Some(bad), ..plain() }).is_err());
        for i in 0..9 {
            let mut totals = plain().totals;
            totals.0[i] = bad;
            assert!(solve(&Sample { totals, ..plain() }).is_err());
        }
        for carbon in carbons(bad) {
            assert!(solve(&Sample { carbon, ..plain() }).is_err());
        }
    }
}

#[test]
fn the_refusal_says_what_and_where_the_range_ends() {
    let refused = solve(&Sample { temperature_c: 40.0, ..plain() }).unwrap_err();
    assert_eq!(refused.to_string(), "temperature in °C is 40, outside 0 to 35: the model is not made for it");
    let mut totals = plain().totals;
    totals.0[0] = 0.15;
    totals.0[5] = 0.15;
    let Err(Refusal::OutOfRange { what, value, high, .. }) = solve(&Sample { totals, ..plain() }) else { panic!() };
    assert_eq!((what, high), ("ionic strength in mol/kg", 0.1));
    assert!(value > 0.14);
    let lye = Sample { alkalinity_eq_per_kg: Some(0.02), carbon: Carbon::DicMolPerKg(1e-3), ..plain() };
    assert!(matches!(solve(&lye), Err(Refusal::OutOfRange { what: "pH", .. })));
    let sour = Sample { alkalinity_eq_per_kg: Some(-5e-3), carbon: Carbon::DicMolPerKg(1e-3), ..plain() };
    assert!(matches!(solve(&sour), Err(Refusal::OutOfRange { what: "pH", .. })));
}

#[test]
fn an_alkalinity_that_the_ph_excludes_is_impossible() {
    // pH 9.5 takes 32 µeq/kg of OH- alone.
    let sample = Sample {
        totals: Totals::default(),
        alkalinity_eq_per_kg: Some(1e-5),
        carbon: Carbon::Ph(9.5),
        temperature_c: 25.0,
    };
    let refused = solve(&sample).unwrap_err();
    assert_eq!(refused.to_string(), "no water has this alkalinity together with this pH");
}

#[test]
fn edges_of_the_range_are_answered() {
    for temperature_c in [0.0, 35.0] {
        for carbon in [Carbon::Ph(7.0), Carbon::Pco2Atm(1.0), Carbon::Pco2Atm(0.0), Carbon::DicMolPerKg(2e-3)] {
            let solved = solve(&Sample { temperature_c, carbon, ..plain() });
            // Without any CO2 the alkalinity is all hydroxide: pH above 11 is refused, below it is answered.
            assert!(solved.is_ok() || carbon == Carbon::Pco2Atm(0.0), "{temperature_c} {carbon:?} {solved:?}");
        }
    }
    for carbon in [Carbon::DicMolPerKg(0.0), Carbon::Co2MolPerKg(0.0), Carbon::Pco2Atm(0.0)] {
        let pure = Sample { totals: Totals::default(), alkalinity_eq_per_kg: None, carbon, temperature_c: 25.0 };
        let solved = solve(&pure).unwrap();
        assert!((solved.ph - 6.998).abs() < 0.001, "{}", solved.ph);
        assert_eq!(solved.si.calcite, None);
        assert_eq!(solved.charge_balance_percent, 0.0);
        assert!(solved.species().all(|(_, m)| m.is_finite()));
    }
    assert!(Constants::at(35.0).is_ok() && Constants::at(35.001).is_err());
    assert!(oxygen_at_saturation_mg_per_l(20.0, f64::NAN).is_err());
}
