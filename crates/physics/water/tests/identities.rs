//! Relations that hold whatever the constants: round robin of inputs, mixing, doses of nothing, directions of change.

use quantity::Ion;
use water::{Acid, Carbon, Conserved, Constants, Refusal, Sample, Solved, Totals, blend, solve, solve_with, titrate};

use crate::waters;

/// Solved random waters of a seed.
fn solved(seed: u64, many: usize) -> Vec<(Sample, Solved)> {
    (0..)
        .map(|i| waters::random_water(seed, i))
        .filter_map(|sample| solve(&sample).ok().map(|solved| (sample, solved)))
        .take(many)
        .collect()
}

fn close(got: f64, expected: f64, tolerance: f64, what: &str, sample: &Sample) {
    let scale = expected.abs().max(1e-12);
    assert!((got - expected).abs() <= tolerance * scale, "{what}: {got} {expected} {sample:?}");
}

/// Whichever of the four closes the carbonate system, the water is the same one.
#[test]
fn any_of_the_four_carbon_inputs_gives_the_same_water() {
    let mut compared = 0;
    for (sample, w) in solved(2, 2_000) {
        // Where H+, OH-, phosphate or ammonia hold nearly all the alkalinity, pH and alkalinity say little of carbon.
        let bicarbonate = w.molality("HCO3-").unwrap() + 2.0 * w.molality("CO3-2").unwrap();
        if bicarbonate < 1e-2 * w.molality("H+").unwrap() || bicarbonate < 1e-6 {
            continue;
        }
        compared += 1;
        for carbon in [
            Carbon::Ph(w.ph),
            Carbon::Pco2Atm(w.pco2_atm),
            Carbon::Co2MolPerKg(w.co2_mol_per_kg),
            Carbon::DicMolPerKg(w.dic_mol_per_kg),
        ] {
            let again = solve(&Sample { carbon, ..sample }).unwrap();
            assert!((again.ph - w.ph).abs() < 1e-5, "{} {} {carbon:?} {sample:?}", again.ph, w.ph);
            close(again.dic_mol_per_kg, w.dic_mol_per_kg, 1e-5, "carbon", &sample);
            close(again.ionic_strength, w.ionic_strength, 1e-6, "ionic strength", &sample);
            close(again.conductivity_25_us_per_cm, w.conductivity_25_us_per_cm, 1e-5, "conductivity", &sample);
        }
    }
    assert!(compared > 1_500, "{compared}");
}

#[test]
fn ready_made_constants_change_nothing() {
    for (sample, w) in solved(3, 200) {
        let constants = Constants::at(sample.temperature_c).unwrap();
        assert_eq!(solve_with(&constants, &sample).unwrap(), w);
        let other = Constants::at(12.5).unwrap();
        assert!(matches!(solve_with(&other, &sample), Err(Refusal::OutOfRange { .. })));
    }
}

/// The conductivity at 25 °C is that of the same closed water, solved there.
#[test]
fn conductivity_at_25_is_that_of_the_closed_water_warmed() {
    for (sample, w) in solved(4, 1_000) {
        let warm = w.conserved().at_temperature(25.0).closed();
        // Warming may carry the pH over the end of the range.
        let Ok(warmed) = solve(&warm) else { continue };
        // It stops at 1e-5 where only the conductivity is asked.
        close(w.conductivity_25_us_per_cm, warmed.conductivity_t_us_per_cm, 2e-5, "conductivity at 25", &sample);
        assert_eq!(warmed.conductivity_25_us_per_cm, warmed.conductivity_t_us_per_cm);
    }
}

#[test]
fn blending_conserves_and_knows_no_order() {
    let waters = solved(5, 400);
    for pair in waters.chunks_exact(2) {
        let [(_, a), (_, b)] = pair else { unreachable!() };
        let (a, b) = (a.conserved(), b.conserved());
        let one = blend(&[(3.0, a), (1.0, b)]);
        let other = blend(&[(0.25, b), (0.75, a)]);
        for ion in Ion::MAJOR {
            let expected = 0.75 * a.totals.get(ion) + 0.25 * b.totals.get(ion);
            assert!((one.totals.get(ion) - expected).abs() <= 1e-12 * expected);
            assert!((other.totals.get(ion) - expected).abs() <= 1e-12 * expected);
        }
        let same = blend(&[(2.0, a), (5.0, a)]);
        assert!((same.alkalinity_eq_per_kg - a.alkalinity_eq_per_kg).abs() <= 1e-12 * a.alkalinity_eq_per_kg.abs());
        assert!((same.dic_mol_per_kg - a.dic_mol_per_kg).abs() <= 1e-12 * a.dic_mol_per_kg);
        assert!((same.temperature_c - a.temperature_c).abs() <= 1e-12 * a.temperature_c);
    }
    assert!(solve(&blend(&[]).closed()).is_err());
}

/// Mixing is no mean of pH: CO2-rich soft water in hard water ends far from the middle.
#[test]
fn ph_of_a_blend_is_not_the_mean() {
    let hard = Totals::from_mg_per_l(&[20.0, 3.0, 110.0, 15.0, 0.0, 40.0, 60.0, 10.0, 0.0]);
    let of =
        |totals, carbon| solve(&Sample { temperature_c: 20.0, totals, alkalinity_eq_per_kg: None, carbon }).unwrap();
    let (a, b) = (of(hard, Carbon::Ph(8.0)), of(Totals::default(), Carbon::Co2MolPerKg(1e-3)));
    let mixed = solve(&blend(&[(1.0, a.conserved()), (1.0, b.conserved())]).closed()).unwrap();
    let mean = 0.5 * (a.ph + b.ph);
    assert!(mixed.ph > mean + 0.4, "{} {} -> {}", a.ph, b.ph, mixed.ph);
}

#[test]
fn a_dose_of_nothing_changes_nothing() {
    for (_, w) in solved(6, 100) {
        let c = w.conserved();
        let mut dosed = c.with_acid(0.0).with_base(0.0).with_bicarbonate(0.0).with_carbonate(0.0).with_co2(0.0);
        for ion in Ion::ALL {
            dosed = dosed.with_added(ion, 0.0);
        }
        assert_eq!(dosed, c);
        assert_eq!(Acid::Sulfuric.added_to(Acid::Hydrochloric.added_to(c, 0.0), 0.0), c);
        // What the speciation does not know is left out.
        assert_eq!(c.with_added(Ion::Iron, 1e-5), c);
    }
}

/// Acid and its counterpart undo each other; carbonate is bicarbonate and base.
#[test]
fn additions_add_up() {
    let c = Conserved {
        totals: Totals([1e-3; 9]),
        alkalinity_eq_per_kg: 2e-3,
        dic_mol_per_kg: 2.1e-3,
        temperature_c: 20.0,
    };
    let near = |a: Conserved, b: Conserved| {
        (a.alkalinity_eq_per_kg - b.alkalinity_eq_per_kg).abs() < 1e-15
            && (a.dic_mol_per_kg - b.dic_mol_per_kg).abs() < 1e-15
    };
    assert!(near(c.with_acid(1e-3).with_base(1e-3), c));
    assert!(near(c.with_carbonate(1e-3), c.with_bicarbonate(1e-3).with_base(1e-3)));
    assert!(near(c.with_bicarbonate(1e-3).with_acid(1e-3), c.with_co2(1e-3)));
    // Neutral salts leave the alkalinity that charge demands where it is; carbonates raise it by what they add.
    let neutral = c.totals;
    let mut dosed = neutral;
    dosed.add(Ion::Magnesium, 1e-4);
    dosed.add(Ion::Sulfate, 1e-4);
    assert!((dosed.alkalinity_by_charge() - neutral.alkalinity_by_charge()).abs() < 1e-15);
}

#[test]
fn changes_go_the_way_they_must() {
    for (sample, w) in solved(7, 1_000) {
        // Over the rest of the list the water must stay inside the range.
        if !(5.0..9.0).contains(&w.ph) || w.ionic_strength > 0.08 || w.alkalinity_eq_per_kg < 1e-4 {
            continue;
        }
        let c = w.conserved();
        let ph = |c: Conserved| solve(&c.closed()).unwrap().ph;
        assert!(ph(c.with_co2(1e-5)) < w.ph, "{sample:?}");
        assert!(ph(c.with_acid(1e-6)) < w.ph, "{sample:?}");
        assert!(ph(c.with_base(1e-6)) > w.ph, "{sample:?}");
        assert!(solve(&c.open_to(w.pco2_atm * 0.5)).unwrap().ph > w.ph, "{sample:?}");
        let at_ph = |ph: f64, t: f64| solve(&Sample { carbon: Carbon::Ph(ph), temperature_c: t, ..sample });
        if let (Ok(here), Ok(above)) = (at_ph(w.ph, 20.0), at_ph(w.ph + 0.2, 20.0)) {
            assert!(above.nh3_fraction > here.nh3_fraction && above.co2_mol_per_kg < here.co2_mol_per_kg);
            assert!(above.si.calcite >= here.si.calcite, "{sample:?}");
        }
        if let (Ok(cold), Ok(warm)) = (at_ph(w.ph, 10.0), at_ph(w.ph, 30.0)) {
            assert!(warm.nh3_fraction > cold.nh3_fraction);
            assert!(warm.conductivity_t_us_per_cm > cold.conductivity_t_us_per_cm);
        }
    }
}

#[test]
fn a_titration_falls_all_the_way_and_ends_where_the_alkalinity_ends() {
    let totals = Totals::from_mg_per_l(&[69.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0]);
    let water =
        solve(&Sample { temperature_c: 25.0, totals, alkalinity_eq_per_kg: None, carbon: Carbon::Pco2Atm(4.2e-4) })
            .unwrap()
            .conserved();
    let amounts: Vec<f64> = (0..=20).map(|i| water.alkalinity_eq_per_kg * f64::from(i) / 20.0).collect();
    let sealed = titrate(&water, Acid::Hydrochloric, &amounts, None).unwrap();
    let aired = titrate(&water, Acid::Sulfuric, &amounts, Some(4.2e-4)).unwrap();
    for curve in [&sealed, &aired] {
        assert!(curve.windows(2).all(|w| w[1].ph < w[0].ph));
        assert!(curve[20].alkalinity_eq_per_kg.abs() < 1e-15);
        assert!(curve.iter().all(|w| w.charge_balance_percent.abs() < 1e-9));
    }
    // Airing drives out the CO2 that the acid frees.
    assert!(aired[10].ph > sealed[10].ph + 1.0);
    // Nothing left: a solution of CO2 alone, near pH 4.5 sealed and 5.6 aired.
    assert!((4.2..4.8).contains(&sealed[20].ph) && (5.5..5.7).contains(&aired[20].ph));
}
