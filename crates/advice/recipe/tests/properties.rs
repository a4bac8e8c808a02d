//! Random tanks: no panic, no harm exceeded, nothing weighed that the scale can't show.

use crate::common;

use crate::common::{exact, sentences, tank};
use proptest::prelude::*;
use quantity::{Ion, Kind, Known};
use recipe::{Into, Plan, plan};
use setup::{Disinfectant, Energy, Feeding, Tank};

fn known(low: f64, high: f64) -> impl Strategy<Value = Known<f64>> {
    (low..high, 0.3f64..1.0, 1.0f64..2.0).prop_map(|(v, down, up)| Known::ranged(v * down, v, v * up, Kind::Measured))
}

prop_compose! {
    fn tap()(
        calcium in known(1.0, 120.0), magnesium in known(0.2, 25.0), potassium in known(0.2, 8.0),
        nitrate in known(0.0, 50.0), phosphate in known(0.0, 5.0), sulfate in known(1.0, 90.0),
        ammonium in known(0.0, 0.6), copper in known(0.0, 0.02), iron in known(0.0, 0.1),
        alkalinity in known(0.05, 6.0), chlorine in 0.0f64..6.0, kind in 0usize..4,
        cold in 3.0f64..14.0,
    ) -> setup::SourceWater {
        let mut tap = common::tap();
        let ions = [
            (Ion::Calcium, calcium), (Ion::Magnesium, magnesium), (Ion::Potassium, potassium), (Ion::Nitrate, nitrate),
            (Ion::Phosphate, phosphate), (Ion::Sulfate, sulfate), (Ion::Ammonium, ammonium), (Ion::Copper, copper), (Ion::Iron, iron),
        ];
        tap.ions.extend(ions);
        tap.alkalinity_meq_per_l = alkalinity;
        // Sodium and chloride close the charge.
        let open: f64 = alkalinity.value
            - tap.ions.iter().filter(|(ion, _)| !matches!(ion, Ion::Sodium | Ion::Chloride))
                .map(|(ion, k)| k.value / ion.molar_mass() * f64::from(if *ion == Ion::Phosphate { -1 } else { ion.charge() })).sum::<f64>();
        tap.ions.insert(Ion::Sodium, exact(open.max(0.0) * 22.990 + 3.0));
        tap.ions.insert(Ion::Chloride, exact((-open).max(0.0) * 35.45 + 3.0 / 22.990 * 35.45));
        tap.disinfectant = [Disinfectant::None, Disinfectant::Chlorine, Disinfectant::Chloramine, Disinfectant::Unknown][kind];
        tap.total_chlorine_mg_per_l = exact(chlorine);
        tap.temperature_c = Known::ranged(cold, cold + 4.0, cold + 9.0, Kind::Measured);
        tap
    }
}

prop_compose! {
    fn tanks()(
        tap in tap(), litres in 10.0f64..600.0, share in 0.0f64..0.9, every in 0u32..15,
        scale in prop::sample::select(vec![0.001, 0.01, 0.1, 1.0, 5.0]),
        syringe in prop::sample::select(vec![0.05, 0.1, 0.2, 0.5, 1.0]),
        fish in 0u32..20, shrimps in 0u32..3, snails in 0u32..3, tested in any::<bool>(), young in any::<bool>(),
        energy in 0usize..3, feeding in 0usize..4, country in prop::sample::select(vec!["eu", "gb", "us", "other"]),
        co2 in prop::option::of(known(5.0, 35.0)), ph in prop::option::of(5.0f64..9.0),
        alkalinity in prop::option::of((0.2f64..4.0, 0.2f64..2.0)), months in prop::option::of(2.0f64..24.0),
        hose in any::<bool>(), temperature in 18.0f64..29.0, low in any::<bool>(), room in 4.0f64..18.0,
    ) -> Tank {
        let mut tank = tank();
        tank.tap = tap;
        tank.geometry.true_l = Known::ranged(0.95 * litres, litres, 1.05 * litres, Kind::WorkedOut);
        tank.habits.change_share = exact(share);
        tank.habits.every_days = every;
        (tank.at_hand.scale_g, tank.at_hand.syringe_ml) = (exact(scale), exact(syringe));
        (tank.at_hand.by_hose, tank.at_hand.coldest_room_c) = (hose, exact(room));
        tank.animals = setup::Animals { fish, young, shrimps, snails, other_invertebrates: 0, start_test_passed: tested };
        tank.energy = [Energy::Low, Energy::Medium, Energy::High][energy];
        tank.feeding = [Feeding::JustEnough, Feeding::Comfortable, Feeding::Plenty, Feeding::None][feeding];
        tank.country = country.to_owned();
        tank.co2_given_mg_per_l = co2;
        tank.wish.ph = ph;
        tank.wish.alkalinity_meq_per_l = alkalinity.map(|(least, width)| (least, least + width));
        tank.unchanged_months = months;
        tank.temperature_c = exact(temperature);
        tank.low = low.then(|| common::water("rain", &[(Ion::Calcium, 0.8), (Ion::Sodium, 0.8), (Ion::Chloride, 1.4)], 0.03));
        tank.low_share = if low { None } else { Some(0.0) };
        tank
    }
}

fn steps(value: f64, step: f64) -> bool {
    (value / step - (value / step).round()).abs() < 1e-5
}

fn a_day(plan: &Plan, ion: Ion) -> f64 {
    let doses = plan.doses.iter().filter(|d| d.into == Into::Bottle);
    doses.flat_map(|d| &d.brings).filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum()
}

fn check(tank: &Tank) -> Result<(), TestCaseError> {
    let plan = plan(tank);
    let animals = tank.animals.any();
    // Rule 3: ammonia; rule 8: an old tank; rule 1: no change with too much chlorine.
    if let Some(c) = &plan.new_water.conditioner {
        prop_assert!(!animals || c.nh3_n_in_tank_mg_per_l <= 0.016 + 1e-9, "ammonia {}", c.nh3_n_in_tank_mg_per_l);
        prop_assert!(c.refused.is_some() || c.covers_mg_per_l >= c.chlorine_mg_per_l - 1e-9);
        prop_assert!(c.refused.is_some() == (c.chlorine_mg_per_l > 5.0));
        prop_assert!(c.refused.is_none() || !animals || plan.change.litres == 0.0);
        prop_assert!(
            steps(c.stock_g, tank.at_hand.scale_g.value) && steps(c.ml_a_bucket, tank.at_hand.syringe_ml.value)
        );
    } else {
        // Rain alone holds none; and where nothing is changed nor topped up from the tap, none comes in.
        let none_comes = plan.change.every_days == 0 && tank.habits.top_up_l_per_day.value <= 0.0;
        prop_assert!(tank.tap.disinfectant == Disinfectant::None || plan.low_share > 0.999_999 || none_comes);
    }
    prop_assert!(!(animals && tank.unchanged_months.is_some()) || plan.change.share <= 0.1 + 1e-12);
    prop_assert!(plan.change.share <= tank.habits.change_share.value + 1e-12);
    prop_assert!(plan.change.buckets.1 <= 10.0 + 1e-9);
    // Rule 6 and 10: ceilings of a day, no ammonium. Rule 4: no copper for invertebrates beyond the limit.
    for (ion, most) in [(Ion::Nitrate, 10.0), (Ion::Potassium, 10.0), (Ion::Phosphate, 1.0), (Ion::Iron, 0.2)] {
        prop_assert!(a_day(&plan, ion) <= most * 1.1, "{} {}", ion.name(), a_day(&plan, ion));
    }
    prop_assert!(!animals || a_day(&plan, Ion::Ammonium) == 0.0);
    if tank.animals.invertebrates() && a_day(&plan, Ion::Copper) > 0.0 {
        let sum = tank.tap.mg_per_l(Ion::Copper).high
            + a_day(&plan, Ion::Copper) * f64::from(plan.change.every_days) / plan.change.share;
        prop_assert!(sum <= 0.008 + 1e-9, "copper {sum}");
    }
    // Rule 12: with animals nothing above the ceiling is planned.
    if let (true, Some(under)) = (animals, &plan.under_co2) {
        prop_assert!(under.co2_mg_per_l.value <= 20.1 && under.co2_mg_per_l.high <= 30.1, "{:?}", under.co2_mg_per_l);
    }
    weighed(tank, &plan)?;
    told(&plan)
}

/// Everything weighed is what scale and syringe show, dissolves, and has its why.
fn weighed(tank: &Tank, plan: &Plan) -> Result<(), TestCaseError> {
    let (scale, syringe) = (tank.at_hand.scale_g.value, tank.at_hand.syringe_ml.value);
    for bottle in &plan.bottles {
        prop_assert!(steps(bottle.daily_ml, syringe));
        prop_assert!(
            bottle.daily_ml <= bottle.ask_above_ml + 1e-9
                && bottle.ask_above_ml <= bottle.refuse_above_ml.max(bottle.daily_ml) + 1e-9
        );
        for w in &bottle.weighed {
            prop_assert!(steps(w.grams, scale), "{w:?}");
            prop_assert!(w.grams / bottle.volume_ml * 1000.0 <= w.soluble_g_per_l + 1e-9);
            prop_assert!(plan.why(&w.why).is_some());
        }
        for s in &bottle.from_stock {
            prop_assert!(steps(s.stock_g, scale) && steps(s.take_ml, syringe));
            prop_assert!(plan.why(&s.why).is_some());
        }
    }
    for salt in &plan.new_water.salts {
        prop_assert!(salt.from_stock.is_some() || steps(salt.grams_a_change, scale));
        prop_assert!(plan.why(&salt.why).is_some());
    }
    Ok(())
}

/// Every level has its why; every sentence its words.
fn told(plan: &Plan) -> Result<(), TestCaseError> {
    for level in plan.levels.iter().chain([&plan.alkalinity]) {
        prop_assert!(plan.why(&level.why).is_some() && level.before_change.value.is_finite(), "{level:?}");
    }
    for text in sentences(plan) {
        let lower = text.to_lowercase();
        let mut words = lower.split(|c: char| !c.is_alphabetic());
        prop_assert!(!words.any(|w| w == "safe" || w == "gas" || w == "nan" || w == "inf"), "{text}");
        prop_assert!(!text.contains('∞'), "{text}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_tank_is_harmed(tank in tanks()) {
        check(&tank)?;
    }
}
