//! Judges: the oxygen table of EN 25814, Weiss (1974) for CO2, Weiss & Price (1980) for water vapour, Emerson et al. (1975)
//! for ammonia at infinite dilution.

use water::{
    Carbon, Constants, Sample, Totals, co2_at_saturation_mg_per_l, oxygen_at_saturation_mg_per_l, pco2_atm_of_room,
    solve, vapour_pressure_atm,
};

/// EN 25814 (`en_25814`): mg/L at 1 atm. Half a digit of the print, and a little where the rounding is a toss-up.
#[test]
fn oxygen_agrees_with_the_standard_table() {
    for (celsius, printed, half_digit) in [
        (0.0, 14.6, 0.05),
        (5.0, 12.8, 0.05),
        (10.0, 11.3, 0.05),
        (15.0, 10.1, 0.05),
        (18.0, 9.47, 0.005),
        (20.0, 9.09, 0.005),
        (22.0, 8.74, 0.005),
        (24.0, 8.42, 0.005),
        (25.0, 8.26, 0.005),
        (26.0, 8.11, 0.005),
        (28.0, 7.83, 0.005),
        (30.0, 7.56, 0.005),
    ] {
        let got = oxygen_at_saturation_mg_per_l(celsius, 1.0).unwrap();
        assert!((got - printed).abs() <= half_digit + 1e-9, "{celsius}: {got} {printed}");
    }
}

/// At constant share of oxygen its level falls with pressure by a little more than in proportion, as vapour takes its
/// part: worked by hand from the same formula at 20 °C and 0.9 atm, 9.092 -> 8.162.
#[test]
fn oxygen_falls_with_pressure() {
    let got = oxygen_at_saturation_mg_per_l(20.0, 0.9).unwrap();
    assert!((got - 8.162).abs() < 0.001, "{got}");
}

/// ln K0 = -60.2409 + 93.4517 (100/T) + 23.3585 ln(T/100), mol/(kg atm) (`weiss_1974`, from memory). The two sets of
/// measurements differ by less than 0.6 % over the range.
#[test]
fn co2_agrees_with_weiss() {
    let mut worst = 0.0_f64;
    for celsius in 0..=35 {
        let t = (f64::from(celsius) + 273.15) / 100.0;
        let weiss = (-60.2409 + 93.4517 / t + 23.3585 * t.ln()).exp();
        let got = Constants::at(f64::from(celsius)).unwrap().co2_solubility_mol_per_kg_atm();
        worst = worst.max((got / weiss - 1.0).abs());
    }
    println!("CO2 solubility against Weiss: {:.2} %", worst * 100.0);
    assert!(worst < 0.006, "{worst}");
}

/// ln p = 24.4543 - 67.4509 (100/T) - 4.8489 ln(T/100), atm (`weiss_price_1980`, from memory).
#[test]
fn vapour_pressure_agrees_with_weiss_and_price() {
    for celsius in 0..=35 {
        let t = (f64::from(celsius) + 273.15) / 100.0;
        let other = (24.4543 - 67.4509 / t - 4.8489 * t.ln()).exp();
        let got = vapour_pressure_atm(f64::from(celsius));
        assert!((got / other - 1.0).abs() < 0.002, "{celsius}: {got} {other}");
    }
}

/// Water open to a room and the saturation of that room are the same CO2.
#[test]
fn aired_water_holds_what_saturation_says() {
    for (ppm, celsius) in [(420.0, 5.0), (800.0, 20.0), (1500.0, 28.0)] {
        let carbon = Carbon::Pco2Atm(pco2_atm_of_room(ppm, celsius));
        let pure = Sample { temperature_c: celsius, totals: Totals::default(), alkalinity_eq_per_kg: None, carbon };
        let held = solve(&pure).unwrap().co2_mg_per_l();
        let saturation = co2_at_saturation_mg_per_l(ppm, celsius).unwrap();
        assert!((held / saturation - 1.0).abs() < 1e-5, "{held} {saturation}");
    }
}

/// pKa = 0.09018 + 2729.92/T (`emerson_1975`, from memory) holds without salts. The water here has I near 1e-5, so an
/// activity coefficient of 0.996; 0.5 % of the share for that and for the two sets of constants.
#[test]
fn ammonia_agrees_with_emerson_at_infinite_dilution() {
    let share = |celsius: f64, ph: f64| {
        let sample = Sample {
            temperature_c: celsius,
            totals: Totals::default(),
            alkalinity_eq_per_kg: Some(2e-5),
            carbon: Carbon::Ph(ph),
        };
        solve(&sample).unwrap().nh3_fraction
    };
    let mut worst = 0.0_f64;
    for celsius in 0..=30 {
        for ph in [6.0, 6.5, 7.0, 7.5, 8.0, 8.5] {
            let t = f64::from(celsius) + 273.15;
            let emerson = 1.0 / (1.0 + 10_f64.powf(0.09018 + 2729.92 / t - ph));
            worst = worst.max((share(f64::from(celsius), ph) / emerson - 1.0).abs());
        }
    }
    println!("ammonia share against Emerson: {:.2} %", worst * 100.0);
    assert!(worst < 0.005, "{worst}");
    // Two entries of the printed table, from memory: 5.38 % and 0.396 %.
    assert!((share(25.0, 8.0) / 0.0538 - 1.0).abs() < 0.01 && (share(20.0, 7.0) / 0.00396 - 1.0).abs() < 0.01);
}
