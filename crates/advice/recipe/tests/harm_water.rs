//! Rules of harm 1 to 5, water that comes in, one test or more for each, named by its number. Each builds a tank on which the
//! rule bites, so that it fails if the rule is taken out.

use crate::common;

use crate::common::{exact, ranged, says, sentences, tank, with_chlorine};
use quantity::{Ion, Kind, Known};
use recipe::{Plan, plan};
use setup::{Disinfectant, Tank};

/// mg of thiosulfate pentahydrate that reach a bucket, at full weight.
fn thiosulfate_mg(plan: &Plan) -> f64 {
    let c = plan.new_water.conditioner.as_ref().expect("a conditioner");
    1000.0 * c.stock_g / c.stock_ml * c.ml_a_bucket
}

#[test]
fn rule_1_disinfectant_counts_until_the_supplier_says_no() {
    // Nobody said, and the file holds nothing: 1 mg/L in Europe and Great Britain, 4 in North America and elsewhere.
    for (country, counted) in [("eu", 1.0), ("gb", 1.0), ("us", 4.0), ("other", 4.0)] {
        let mut tank = with_chlorine(Disinfectant::Unknown, Known::exact(0.0, Kind::Assumed));
        tank.country = country.to_owned();
        let plan = plan(&tank);
        let c = plan.new_water.conditioner.as_ref().expect("counts as present");
        assert_eq!(c.chlorine_mg_per_l, counted, "{country}");
        assert!(c.ammonia_n_mg_per_l >= counted / 3.0, "counts as chloramine");
    }
    assert!(plan(&tank()).new_water.conditioner.is_none(), "the supplier says that there is none");
}

#[test]
fn rule_1_seven_milligrams_for_each_of_total_chlorine_at_the_upper_end() {
    let plan = plan(&with_chlorine(Disinfectant::Chlorine, ranged(0.1, 0.3, 0.6)));
    let bucket_l = plan.change.buckets.1;
    // 2 mol of Na2S2O3·5H2O (248.17 g/mol) for 1 mol of Cl2 (70.90 g/mol), sums of IUPAC weights: 7.0 mg for a mg.
    assert!(thiosulfate_mg(&plan) >= 2.0 * 248.17 / 70.90 * 0.6 * bucket_l);
    let c = plan.new_water.conditioner.expect("a conditioner");
    assert!(c.covers_mg_per_l >= 0.6);
    // What the label says it covers is really in the dose, with 1 % less than pure salt and half a step of the scale less.
    let weak = (c.stock_g - 0.05) * 0.99 * 1000.0 / c.stock_ml * c.ml_a_bucket;
    assert!(weak / 7.0 / bucket_l >= c.covers_mg_per_l - 1e-9);
    assert!(c.sentences.iter().any(|s| s.contains("covers")), "the label says what it covers");
}

#[test]
fn rule_1_above_five_there_is_no_recipe_and_no_change() {
    let plan = plan(&with_chlorine(Disinfectant::Chlorine, ranged(1.0, 3.0, 5.5)));
    let c = plan.new_water.conditioner.as_ref().expect("told");
    assert!(c.refused.as_ref().is_some_and(|r| r.contains("supplier")));
    assert_eq!((c.stock_g, c.ml_a_bucket, c.ml_whole_tank), (0.0, 0.0, 0.0));
    assert_eq!(plan.change.litres, 0.0);
}

#[test]
fn rule_1_an_own_conditioner_of_unknown_strength_is_asked_for_its_label() {
    let mut tank = with_chlorine(Disinfectant::Chlorine, exact(0.3));
    tank.at_hand.products.push("conditioner".to_owned());
    assert!(says(&sentences(&plan(&tank)), "what its label says").is_some_and(|s| s.starts_with("Your own")));
}

#[test]
fn rule_2_the_number_where_harm_starts_stands_in_the_sentence_of_the_dose() {
    let plan = plan(&with_chlorine(Disinfectant::Unknown, Known::exact(0.0, Kind::Assumed)));
    let c = plan.new_water.conditioner.expect("a conditioner");
    let dose = c.sentences.first().expect("the dose");
    assert!(dose.contains("0.02") && dose.contains("0.011") && dose.contains("wait 5 minutes"), "{dose}");
    assert!(c.sentences.iter().any(|s| s.contains("none of the chloramine")));
}

#[test]
fn rule_2_by_hose_the_whole_tank_is_dosed_before_the_water() {
    let mut tank = with_chlorine(Disinfectant::Chlorine, exact(0.5));
    tank.geometry.true_l = ranged(90.0, 100.0, 110.0);
    let plan = plan(&tank);
    let c = plan.new_water.conditioner.expect("a conditioner");
    // The upper end of the litres counts.
    assert!(1000.0 * c.stock_g / c.stock_ml * c.ml_whole_tank >= 7.0 * 0.5 * 110.0);
    assert!(c.more.iter().any(|s| s.contains("before the water")), "told to who fills by bucket too");
    tank.at_hand.by_hose = true;
    let by_hose = recipe::plan(&tank).new_water.conditioner.expect("a conditioner");
    assert!(by_hose.sentences.first().is_some_and(|s| s.contains("before the water") && s.contains("0.02 mg/L")));
}

#[test]
fn rule_3_chloramine_limits_the_share_that_is_changed() {
    let mut tank = with_chlorine(Disinfectant::Chloramine, exact(2.0));
    tank.habits.change_share = exact(0.5);
    let limited = plan(&tank);
    let c = limited.new_water.conditioner.as_ref().expect("a conditioner");
    assert!((c.ammonia_n_mg_per_l - 2.0 / 3.0).abs() < 1e-9, "Cl2:N of 3:1, the bad end");
    assert!(limited.change.share < 0.5 && limited.change.limited.is_some(), "{}", limited.change.share);
    assert!(c.nh3_n_in_tank_mg_per_l <= 0.016);
    // The tap's own ammonium is added: 0.5 mg/L NH4 are 0.388 mg/L N.
    tank.tap.ions.insert(Ion::Ammonium, exact(0.5));
    let more = plan(&tank);
    let both = more.new_water.conditioner.as_ref().expect("a conditioner").ammonia_n_mg_per_l;
    assert!((both - 2.0 / 3.0 - 0.5 * 14.007 / 18.039).abs() < 1e-9);
    assert!(more.change.share < limited.change.share);
    // Without an animal nothing is limited.
    tank.animals.fish = 0;
    assert_eq!(plan(&tank).change.share, 0.5);
}

#[test]
fn rule_3_the_filter_counts_only_after_the_start_test() {
    let mut tank = with_chlorine(Disinfectant::Chloramine, exact(1.0));
    assert!(says(&sentences(&plan(&tank)), "Your filter has passed the start test").is_some());
    tank.keeping.filter = false;
    assert!(
        says(&sentences(&plan(&tank)), "Your filter has passed").is_none(),
        "a tank without one has none to count on"
    );
    tank.keeping.filter = true;
    tank.animals.start_test_passed = false;
    let untested = sentences(&plan(&tank));
    assert!(says(&untested, "Your filter has passed the start test").is_none());
    assert!(says(&untested, "only if it has passed").is_some());
}

#[test]
fn rule_4_copper_is_added_up_asked_and_refused() {
    let copper = |tap: f64, shrimps: u32| {
        let mut tank = tank();
        tank.animals.shrimps = shrimps;
        tank.tap.ions.insert(Ion::Copper, exact(tap));
        sentences(&plan(&tank)).into_iter().find(|s| s.starts_with("Copper, the harm"))
    };
    // 0.001 of the pipes is on top in each.
    assert!(copper(0.001, 5).is_some_and(|s| s.contains("up to 0.002") && s.contains("I ask above 0.004")));
    assert!(copper(0.004, 5).is_some_and(|s| s.contains("That is above 0.004")));
    assert!(copper(0.0075, 5).is_some_and(|s| s.contains("That is above 0.008") && s.contains("no change is planned")));
    assert_eq!(copper(0.0075, 0), None, "with fish alone nothing is said");
    // A guess about the pipes is said to be one, apart from what was read: 0.0046 + 0.0954 = 0.1.
    let mut tank = tank();
    tank.animals.shrimps = 5;
    tank.tap.ions.insert(Ion::Copper, exact(0.0046));
    tank.pipes_copper_mg_per_l = Known::ranged(0.0, 0.0, 0.0954, Kind::Assumed);
    let told = sentences(&plan(&tank));
    let told = says(&told, "Copper, the harm").expect("told");
    for words in [
        "up to 0.0046 mg/L",
        "pipes may add up to 0.095 after standing (assumed)",
        "up to 0.1 with",
        "That is above 0.008",
    ] {
        assert!(told.contains(words), "{words} in {told}");
    }
}

#[test]
fn rule_4_water_measured_above_the_refusal_is_not_changed() {
    let mut tank = tank();
    tank.animals.shrimps = 20;
    tank.pipes_copper_mg_per_l = exact(0.0);
    tank.tap.ions.insert(Ion::Copper, exact(0.012));
    let stopped = plan(&tank);
    assert_eq!(stopped.change.litres, 0.0, "{:?}", stopped.change);
    // (0.012 - 0.008) ÷ 0.012 = 33.3 %, up to 34; (0.012 - 0.004) ÷ 0.012 = 66.7 %, up to 67.
    let why = stopped.change.limited.as_ref().expect("told");
    for words in
        ["0.012 mg/L of copper", "34 % of low-mineral water", "67 % of low-mineral water", "above 0.008 I refuse"]
    {
        assert!(why.contains(words), "{words} in {why}");
    }
    assert!(says(&sentences(&stopped), "have it measured at your own tap").is_none(), "it was measured");
    // With such water at hand it is changed: by hand 67 % come to 0.00396 mg/L.
    tank.low = Some(common::water("low-mineral water", &[], 0.1));
    tank.low_share = None;
    let thinned = plan(&tank);
    assert!(thinned.change.litres > 0.0 && thinned.low_share >= 2.0 / 3.0 - 1e-6, "{}", thinned.low_share);
    tank.low_share = Some(0.2);
    assert_eq!(plan(&tank).change.litres, 0.0, "a fifth is too little");
    // Fish alone, or a guess: the change stands.
    (tank.low, tank.low_share) = (None, Some(0.0));
    tank.animals.shrimps = 0;
    assert!(plan(&tank).change.litres > 0.0);
    tank.animals.shrimps = 20;
    tank.tap.ions.insert(Ion::Copper, Known::exact(0.012, Kind::Assumed));
    assert!(plan(&tank).change.litres > 0.0);
}

/// A good figure weighs no worse than none, and a second water that nobody measured stops no tap that is good: 0.002 mg/L told, up to
/// 0.098 of pipes and 0.1 of a roof assumed.
#[test]
fn rule_4_what_nobody_measured_stops_no_change() {
    let mut tank = tank();
    tank.animals.snails = 12;
    tank.tap.ions.insert(Ion::Copper, exact(0.002));
    tank.pipes_copper_mg_per_l = Known::ranged(0.0, 0.0, 0.098, Kind::Assumed);
    let mut rain = common::water("rain water", &[], 0.1);
    rain.ions.insert(Ion::Copper, Known::ranged(0.001, 0.005, 0.1, Kind::Assumed));
    (tank.low, tank.low_share) = (Some(rain), None);
    let told = plan(&tank);
    assert!(told.change.litres > 0.0 && told.low_share < 1e-6, "{} {:?}", told.low_share, told.change.limited);
    let mut untold = tank.clone();
    untold.tap.ions.insert(Ion::Copper, Known::ranged(0.002, 0.02, 0.1, Kind::Assumed));
    untold.pipes_copper_mg_per_l = Known::exact(0.0, Kind::Assumed);
    assert_eq!(told.change.litres, plan(&untold).change.litres);
    // A bad figure stops it, and names the second water for what it is.
    tank.tap.ions.insert(Ion::Copper, exact(0.02));
    let stopped = plan(&tank);
    let why = stopped.change.limited.as_ref().expect("told");
    assert!(stopped.change.litres == 0.0 && why.contains("Your rain water may hold up to 0.1 mg/L"), "{why}");
    // Measured at 0.001 it is blended: (0.02 - 0.008) ÷ (0.02 - 0.001) = 63.2 %.
    if let Some(rain) = &mut tank.low {
        rain.ions.insert(Ion::Copper, exact(0.001));
    }
    tank.pipes_copper_mg_per_l = exact(0.0);
    let thinned = plan(&tank);
    assert!(thinned.change.litres > 0.0 && thinned.low_share >= 0.632 - 1e-3, "{}", thinned.low_share);
    // All of it from the roof, none stood in the pipes: 0.001 mg/L, though the pipes add 0.05.
    (tank.pipes_copper_mg_per_l, tank.low_share) = (exact(0.05), Some(1.0));
    let roof = plan(&tank);
    assert!(roof.change.litres > 0.0);
    assert!(says(&sentences(&roof), "bring up to 0.001 mg/L").is_some());
}

/// Never changed, 0.03 meq/L a day eat 0.36 in 12 days: then none is left, and no less than none is told.
#[test]
fn alkalinity_is_never_told_below_nothing() {
    let mut tank = tank();
    tank.tap.alkalinity_meq_per_l = exact(0.36);
    tank.growth.alkalinity_eaten_meq_per_l_day = Known::ranged(0.02, 0.03, 0.04, Kind::Assumed);
    tank.habits.every_days = 0;
    let level = plan(&tank).alkalinity;
    assert_eq!((level.lowest, level.before_change.low, level.before_change.value), (0.0, 0.0, 0.0));
    assert!(level.tide.iter().all(|(_, meq)| *meq >= 0.0) && level.likely.iter().all(|(_, low, _)| *low >= 0.0));
}

#[test]
fn rule_4_with_invertebrates_no_product_brings_copper() {
    let mut tank = tank();
    tank.animals.snails = 3;
    tank.at_hand.products.push("trace_mix".to_owned());
    let with = plan(&tank);
    let copper =
        |plan: &Plan| plan.doses.iter().any(|d| d.brings.iter().any(|(ion, mg)| *ion == Ion::Copper && *mg > 0.0));
    assert!(!copper(&with), "{:?}", with.doses);
    assert!(says(&sentences(&with), "iron chelate alone").is_some());
}

#[test]
fn rule_4_no_copper_is_bought_for_shrimps_and_what_is_used_up_is_summed() {
    let mut tank = tank();
    (tank.animals.shrimps, tank.at_hand.trace_copper) = (5, exact(0.001));
    // A price that would make the mix the cheapest iron.
    tank.prices.insert("trace_mix".to_owned(), 1.0);
    let brings = |plan: &Plan| {
        plan.doses.iter().find(|dose| dose.brings.iter().any(|(ion, mg)| *ion == Ion::Copper && *mg > 0.0)).cloned()
    };
    let bought = plan(&tank);
    assert_eq!(brings(&bought), None, "iron chelate alone goes before");
    assert!(says(&sentences(&bought), "give iron chelate alone").is_some());
    // Nor where the water is so acid that every chelate holds.
    let acid = |tank: &Tank| recipe::choose_at(tank, Some(5.0), true).doses.iter().any(|d| d.product == "trace_mix");
    let fish = Tank { animals: setup::Animals { shrimps: 0, ..tank.animals }, ..tank.clone() };
    assert!(acid(&fish) && !acid(&tank), "for fish alone it is the cheaper one");
    // Owned, its label under the limit: it is used up, and the same note says what piles up instead.
    tank.at_hand.products = vec!["trace_mix".to_owned()];
    tank.at_hand.trace_copper = exact(0.0005);
    let owned = plan(&tank);
    let dose = brings(&owned).expect("used up");
    // g × 0.05 % × 1000 ÷ 100 L a day; × 7 ÷ 0.25.
    let piled = dose.amount * 0.0005 * 1000.0 / 100.0 * 7.0 / 0.25;
    let note = sentences(&owned).into_iter().find(|s| s.starts_with("Copper, the harm")).expect("told");
    let digits = quantity::format_number(piled, quantity::Digits::Significant(2));
    assert!(
        note.contains(&format!("× 7 days ÷ 25 % = {digits} mg/L that pile up before a change")),
        "{digits}: {note}"
    );
    assert!(note.contains("iron chelate alone brings none") && !note.contains("give iron chelate alone"), "{note}");
}

#[test]
fn rule_5_cold_tap_notice_bucket_and_ten_litres() {
    let mut tank = tank();
    tank.at_hand.bucket_l = exact(15.0);
    let plan = plan(&tank);
    let all = sentences(&plan);
    for words in ["never take the hot tap", "no change today, air only", "a child can drown in it"] {
        assert!(says(&all, words).is_some(), "{words}");
    }
    assert!(plan.change.buckets.1 <= 10.0, "{:?}", plan.change.buckets);
    assert!((f64::from(plan.change.buckets.0) * plan.change.buckets.1 - plan.change.litres).abs() < 1e-9);
}

#[test]
fn rule_3_and_8_an_old_tank_on_chloramine_has_one_schedule() {
    let mut tank = with_chlorine(Disinfectant::Chloramine, exact(2.0));
    tank.habits.change_share = exact(0.5);
    tank.unchanged_months = Some(12.0);
    let plan = plan(&tank);
    let says = plan.change.limited.as_ref().expect("told");
    assert!(plan.change.share <= 0.1);
    // 50 % a week in tenths: 7 × 0.1 ÷ 0.5 = 1.4, so every day 50 ÷ 7 = 7.1 %.
    assert!(says.starts_with("7.14 L every day instead of 50 L every seven days."), "{says}");
    assert_eq!(says.matches(" L ").count(), 2, "no other litres: {says}");
}
