//! New water, by hand: conditioner, ammonia, temperature, buckets, salts.

use crate::common;

use crate::common::{exact, ranged, tank};
use quantity::{Ion, Kind, Known};
use recipe::plan;
use setup::Disinfectant;

#[test]
fn the_stock_and_its_dose() {
    // 25 L in three buckets of 8.333 L at 1 mg/L: 7.0 × 8.333 = 58.3 mg each, about 3 mL of a stock of 19.4 mg/mL:
    // 58.3 ÷ 3 × 150 = 2.92 g, up to 3.0 g. (3.0 - 0.05) × 0.99 ÷ 150 = 19.47 mg/mL; 58.3 ÷ 19.47 = 2.996 mL, up to 3.0.
    // 3.0 × 19.47 ÷ 7 ÷ 8.333 = 1.00 mg/L. Whole tank: 700 ÷ 19.47 = 35.95, up to 36.
    let mut tank = tank();
    tank.tap.disinfectant = Disinfectant::Unknown;
    tank.tap.total_chlorine_mg_per_l = Known::exact(0.0, Kind::Assumed);
    let plan = plan(&tank);
    let c = plan.new_water.conditioner.expect("a conditioner");
    assert_eq!((c.stock_g, c.stock_ml), (3.0, 150.0));
    assert_eq!((c.ml_a_bucket, c.ml_whole_tank, c.covers_mg_per_l), (3.0, 36.0, 1.0));
    // 1 mg/L ÷ 3 = 0.333 mg/L of nitrogen, a quarter of it in the tank.
    assert!((c.ammonia_n_mg_per_l - 1.0 / 3.0).abs() < 1e-12);
    assert!(
        (c.nh3_n_in_tank_mg_per_l - c.ammonia_n_mg_per_l * 0.25 * plan.aired.expect("solved").nh3_fraction.high).abs()
            < 1e-3
    );
}

#[test]
fn a_coarse_scale_gets_more_water_and_not_a_false_weight() {
    let mut tank = tank();
    tank.tap.disinfectant = Disinfectant::Chlorine;
    tank.tap.total_chlorine_mg_per_l = exact(0.2);
    tank.at_hand.scale_g = exact(1.0);
    let c = plan(&tank).new_water.conditioner.expect("a conditioner");
    assert!(c.stock_g >= 5.0, "five steps of the scale at the least: {}", c.stock_g);
    // Half a gram less than shown, and it is still enough.
    let bucket_l = 25.0 / 3.0;
    assert!((c.stock_g - 0.5) * 0.99 * 1000.0 / c.stock_ml * c.ml_a_bucket >= 7.0 * 0.2 * bucket_l - 1e-9);
}

#[test]
fn buckets() {
    // 25 % of 100 L are 25 L; 25 ÷ 9 = 2.8, so three buckets of 8.33 L.
    let change = plan(&tank()).change;
    assert_eq!((change.litres, change.buckets.0), (25.0, 3));
    assert!((change.buckets.1 - 25.0 / 3.0).abs() < 1e-12);
    let mut never = tank();
    never.habits.every_days = 0;
    assert_eq!(plan(&never).change.litres, 0.0);
}

#[test]
fn parts_of_a_limited_change_renew_the_same_water() {
    // The limit is a good third of the habit: three parts, every 7 ÷ 3 = 2.3, so every two days; 50 % × 2 ÷ 7 = 14.3 %.
    let mut tank = tank();
    tank.tap.disinfectant = Disinfectant::Chloramine;
    tank.tap.total_chlorine_mg_per_l = exact(2.0);
    tank.habits.change_share = exact(0.5);
    let change = plan(&tank).change;
    assert_eq!(change.every_days, 2, "{change:?}");
    assert!((change.share - 0.5 * 2.0 / 7.0).abs() < 1e-12);
}

#[test]
fn parts_fill_the_limit() {
    // The same limit, between 14.3 × 7 ÷ 6 and 14.3 × 1.5 %, is 17 to 21 %, a little under a quarter: 25 % × 5 ÷ 7 = 17.9 % fits,
    // and two halves a few days apart would be far under it.
    let mut tank = tank();
    tank.tap.disinfectant = Disinfectant::Chloramine;
    tank.tap.total_chlorine_mg_per_l = exact(2.0);
    let change = plan(&tank).change;
    assert!((change.share - 0.25 * f64::from(change.every_days) / 7.0).abs() < 1e-12, "{change:?}");
    assert!((4..=6).contains(&change.every_days), "{change:?}");
}

#[test]
fn what_is_asked_of_the_supplier_is_what_nobody_told() {
    let asked = |disinfectant: Disinfectant| {
        let mut tank = tank();
        tank.tap.disinfectant = disinfectant;
        tank.tap.total_chlorine_mg_per_l = exact(0.3);
        tank.tap.ions.insert(Ion::Ammonium, Known::ranged(0.0, 0.05, 2.0, Kind::Assumed));
        tank.habits.change_share = exact(0.5);
        plan(&tank).change.limited.expect("limited by ammonium")
    };
    for told in [Disinfectant::Chlorine, Disinfectant::None] {
        let says = asked(told);
        assert!(
            says.contains("One number from your supplier ends this: ammonium") && !says.contains("kind of"),
            "{says}"
        );
    }
    assert!(asked(Disinfectant::Unknown).contains("the kind of chlorine"));
}

#[test]
fn only_told_chloramine_is_called_so() {
    let mut tank = tank();
    tank.tap.ions.insert(Ion::Ammonium, exact(0.1));
    tank.tap.total_chlorine_mg_per_l = exact(0.3);
    for (disinfectant, called) in [(Disinfectant::Chlorine, false), (Disinfectant::Chloramine, true)] {
        tank.tap.disinfectant = disinfectant;
        let all = common::sentences(&plan(&tank));
        assert_eq!(common::says(&all, "Conditioner breaks chloramine").is_some(), called);
        assert!(common::says(&all, "mg/L of it is toxic").is_some());
    }
}

#[test]
fn salts_of_the_new_water() {
    // Alkalinity from 0.6 to at least 2.0 meq/L: NaHCO3 brings 1 eq in 84.006 g, KHCO3 1 eq in 100.114 g (IUPAC weights).
    let mut tank = tank();
    tank.tap.alkalinity_meq_per_l = exact(0.6);
    tank.tap.ions.insert(Ion::Chloride, exact(100.0));
    tank.wish.alkalinity_meq_per_l = Some((2.0, 2.6));
    let plan = plan(&tank);
    let meq: f64 = plan
        .new_water
        .salts
        .iter()
        .map(|s| match s.product.as_str() {
            "sodium_bicarbonate" => s.grams_a_change * 0.99 * 1000.0 / 84.006,
            "potassium_bicarbonate" => s.grams_a_change * 0.99 * 1000.0 / 100.114,
            "calcium_carbonate" => s.grams_a_change * 0.99 * 2000.0 / 100.086,
            _ => 0.0,
        })
        .sum();
    assert!(meq > 0.0, "{:?}", plan.new_water.salts);
    let brought = plan.alkalinity.new_water.value - 0.6;
    assert!((meq / plan.change.litres - brought).abs() < 1e-3 * brought, "{} {brought}", meq / plan.change.litres);
    for salt in &plan.new_water.salts {
        assert!(
            (salt.grams_a_bucket * f64::from(plan.change.buckets.0) - salt.grams_a_change).abs() < 1e-9,
            "{salt:?}"
        );
    }
}

#[test]
fn mixing_of_temperatures() {
    // (75 × 24 + 25 × 8) ÷ 100 = 20 °C.
    let plan = plan(&tank());
    let why = plan.why("change-temperature").expect("a why");
    assert!(why.sum.contains("(75 L × 24 °C + 25 L × 8 °C) ÷ 100 L = 20 °C"), "{}", why.sum);
    // In a mild spring: (75 × 24 + 25 × 21) ÷ 100 = 23.25, within a degree.
    let mut mild = tank();
    mild.tap.temperature_c = ranged(21.0, 22.0, 23.0);
    assert!(recipe::plan(&mild).why("change-temperature").is_none());
}

#[test]
fn what_hardly_dissolves_goes_into_the_new_water() {
    // A litre holds 2.4 g of gypsum at 10 °C: a bottle of it would be sludge.
    let mut tank = tank();
    tank.wish.hardness_meq_per_l = Some((5.0, 6.0));
    let plan = plan(&tank);
    for dose in
        plan.doses.iter().filter(|d| d.product == "calcium_sulfate_dihydrate" || d.product == "calcium_carbonate")
    {
        assert_eq!(dose.into, recipe::Into::NewWater);
    }
}
