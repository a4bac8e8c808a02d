//! A test or more for each rule of harm from 6 on (1 to 5: `harm_water.rs`), on a tank where it bites: it fails without the rule.

use crate::common;

use crate::common::{exact, ranged, says, sentences, tank};
use quantity::Ion;
use recipe::{Plan, plan};
use setup::{Disinfectant, Feeding};

/// The per cent in the brackets of a sentence.
fn percent(text: &str) -> f64 {
    let bracket = text.split_once('(').and_then(|(_, rest)| rest.split_once(" %"));
    bracket.and_then(|(figure, _)| figure.parse().ok()).expect("per cent in brackets")
}

#[test]
fn rule_6_a_bigger_correction_comes_in_steps() {
    let mut tank = tank();
    tank.wish.alkalinity_meq_per_l = Some((4.8, 5.6));
    tank.tap.ions.insert(Ion::Sodium, exact(15.0 + 69.0));
    tank.tap.ions.insert(Ion::Chloride, exact(22.0 + 106.4));
    let raised = plan(&tank);
    assert!(
        raised.alkalinity.after_change.value > 4.0,
        "the wish is met at last: {:?}",
        raised.alkalinity.after_change
    );
    let all = sentences(&raised);
    assert!(says(&all, "a day apart").is_some(), "{:#?}", raised.new_water.notes);
    // By hand: from 2.80 meq/L at most 0.36 a day, so 0.36 ÷ (new water - 2.80) of the tank at a time, and of the salts as
    // much as that is of a quarter. (Much table salt, so that conductivity does not bind first.)
    let share = 0.36 / (raised.alkalinity.new_water.value - 2.80);
    let steps = raised.first_changes().expect("told");
    let said = percent(&steps.text) / 100.0;
    assert!(share < 0.25 && said <= share && said > 0.95 * share, "{share} in {}", steps.text);
    let salt = raised.new_water.salts.first().expect("a salt");
    let grams: f64 = steps.text.rsplit(": ").next().and_then(|s| s.split(' ').next()?.parse().ok()).expect("grams");
    assert!((grams - salt.grams_a_change * said / 0.25).abs() <= 0.051, "{grams} of {salt:?} in {}", steps.text);
    // (1 - s)^n × 25 % of the way no further than 0.36 meq/L: n = ln(s ÷ 0.25) ÷ ln(1 - s), 1.6 to 1.7: two.
    assert!(steps.text.contains("two times, a day apart"), "{}", steps.text);
    let told = raised.new_water.notes.iter().filter(|note| note.text.contains("at a time")).count();
    assert_eq!(told, 1, "one schedule: {:#?}", raised.new_water.notes);
    tank.wish.alkalinity_meq_per_l = None;
    assert!(says(&sentences(&plan(&tank)), "a day apart").is_none(), "nothing to correct, nothing said");
}

#[test]
fn rule_6_ten_times_a_dose_is_asked_or_refused_by_the_ceilings_of_a_day() {
    let plan = plan(&tank());
    assert!(!plan.bottles.is_empty());
    for bottle in &plan.bottles {
        assert!(bottle.ask_above_ml <= bottle.refuse_above_ml && bottle.daily_ml <= bottle.ask_above_ml, "{bottle:?}");
        let inside: Vec<&str> = bottle
            .weighed
            .iter()
            .map(|w| w.product.as_str())
            .chain(bottle.from_stock.iter().map(|s| s.product.as_str()))
            .collect();
        let rise = |ion: Ion| {
            let mg = plan.doses.iter().filter(|d| inside.contains(&d.product.as_str())).flat_map(|d| &d.brings);
            mg.filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum::<f64>() * bottle.refuse_above_ml / bottle.daily_ml
        };
        for (ion, most) in [(Ion::Nitrate, 10.0), (Ion::Potassium, 10.0), (Ion::Phosphate, 1.0), (Ion::Iron, 0.2)] {
            assert!(rise(ion) <= most + 1e-9, "{} of {}", rise(ion), ion.name());
        }
        assert!(bottle.slip.contains("no harm known to me below"), "{}", bottle.slip);
    }
}

/// By hand: 5 mL bring D mg/L of potassium to 100 L and 100 ÷ 80 D to the 80 L that may be there.
#[test]
fn rule_6_the_ceilings_of_a_day_count_the_fewest_litres() {
    let mut tank = tank();
    tank.geometry.true_l = ranged(80.0, 100.0, 110.0);
    let plan = plan(&tank);
    let bottle = plan.bottles.first().expect("a bottle");
    let inside = |key: &str| bottle.weighed.iter().any(|w| w.product == key);
    for (ion, most) in [(Ion::Nitrate, 10.0), (Ion::Potassium, 10.0), (Ion::Phosphate, 1.0), (Ion::Iron, 0.2)] {
        let mg = plan.doses.iter().filter(|d| inside(&d.product)).flat_map(|d| &d.brings);
        let a_day: f64 = mg.filter(|(i, _)| *i == ion).map(|(_, mg)| mg).sum();
        let reached = a_day * 100.0 / 80.0 * bottle.refuse_above_ml / bottle.daily_ml;
        assert!(reached <= most + 1e-9, "{reached} of {}", ion.name());
    }
}

#[test]
fn rule_6_and_19_temperature_of_the_new_water() {
    // 24 - 0.25 × (24 - 8) = 20: 4 °C colder. Nothing colder than 24 - 1 / 0.25 = 20 at once, 24 - 2 / 0.25 = 16 in a day.
    let all = sentences(&plan(&tank()));
    let told = says(&all, "would cool the tank").expect("told");
    for figure in ["at 8 °C", "to 20 °C, by 4 °C", "colder than 20 °C", "colder than 16 °C"] {
        assert!(told.contains(figure), "{figure} in {told}");
    }
    assert!(says(&all, "New water feels like the tank or is not poured").is_some());
    let mut warm = tank();
    warm.tap.temperature_c = exact(23.0);
    assert!(says(&sentences(&plan(&warm)), "would cool the tank").is_none());
}

/// By hand: 0.30 meq/L in the tap, 0.03 a day eaten at the most, a quarter changed a week: before a change
/// 0.30 - 7 × 0.03 ÷ 0.25 = -0.54 meq/L. At least 0.36 asks for 0.90 meq/L more in the new water: in 25 L 22.5 meq, of
/// sodium bicarbonate (84.006 g/mol, 99 %) 1.91 g, of potassium bicarbonate (100.114) 2.28 g.
#[test]
fn rule_6_alkalinity_is_held_before_it_runs_out() {
    let mut tank = tank();
    tank.tap = common::water("soft", &[(Ion::Calcium, 12.0), (Ion::Sodium, 5.0), (Ion::Chloride, 18.0)], 0.30);
    tank.growth.alkalinity_eaten_meq_per_l_day = ranged(0.01, 0.02, 0.03);
    tank.at_hand.scale_g = exact(0.01);
    for feeding in [Feeding::Comfortable, Feeding::None] {
        tank.feeding = feeding;
        let plan = plan(&tank);
        assert!(plan.alkalinity.before_change.low >= 0.36 - 0.005, "{:?}", plan.alkalinity.before_change);
        let meq: f64 = plan
            .new_water
            .salts
            .iter()
            .map(|s| match s.product.as_str() {
                "sodium_bicarbonate" => s.grams_a_change * 990.0 / 84.006,
                "potassium_bicarbonate" => s.grams_a_change * 990.0 / 100.114,
                _ => 0.0,
            })
            .sum();
        assert!((meq - 22.5).abs() < 0.3, "{meq} meq from {:?}", plan.new_water.salts);
        let all = sentences(&plan);
        assert!(says(&all, "a day apart").is_some(), "it comes in steps");
        assert!(says(&all, "toxic share of ammonia from").is_some(), "and pH rises");
    }
    // Without animals nothing is held; where no water is changed it is said what to do.
    let mut empty = tank.clone();
    empty.animals.fish = 0;
    assert!(plan(&empty).new_water.salts.is_empty());
    tank.habits.every_days = 0;
    assert!(says(&sentences(&plan(&tank)), "no change brings any back").is_some());
}

#[test]
fn rule_7_what_raises_ph_is_told_before_and_after() {
    let mut tank = tank();
    tank.tap.alkalinity_meq_per_l = exact(0.6);
    tank.tap.ions.insert(Ion::Chloride, exact(100.0));
    tank.wish.alkalinity_meq_per_l = Some((2.0, 2.6));
    let all = sentences(&plan(&tank));
    assert!(says(&all, "toxic share of ammonia from").is_some(), "{all:#?}");
}

/// Emerson et al. 1975 (infinite dilution): NH3 share = 1 / (1 + 10^(pKa - pH)), pKa = 0.09018 + 2729.92 / T, T in K; the
/// toxic share of 0.016 mg/L N (CCME) is reached at 0.016 ÷ share. Ions and two printed figures move it by some per cent.
#[test]
fn rule_7_ph_that_rises_as_carbon_dioxide_goes_is_told_with_its_ammonia() {
    let mut tank = tank();
    tank.co2_given_mg_per_l = Some(exact(15.0));
    let airs = |tank: &setup::Tank| says(&sentences(&plan(tank)), "When the carbon dioxide is off").cloned();
    let said = airs(&tank).expect("told");
    // Ideal: pH = 6.36 + log10(2.8 × 44.0 ÷ 15) = 7.27 by day; activities take a tenth of it at the most. Aired it stands above 8.
    let ph = |words: &str| -> f64 {
        let after = said.split(words).nth(1).and_then(|rest| rest.split([' ', ',']).next()).expect("a pH");
        after.parse().expect("a number")
    };
    assert!(
        (7.1..7.35).contains(&ph("pH rises from ")) && ph(&format!("pH rises from {} to ", ph("pH rises from "))) > 8.0,
        "{said}"
    );
    assert!(said.contains("harm starts at") && said.contains("test ammonia before and after"), "{said}");
    tank.co2_given_mg_per_l = None;
    assert_eq!(airs(&tank), None, "none is given");
}

#[test]
fn rule_7_a_salt_that_raises_ph_is_given_with_the_test_and_the_number() {
    let mut tank = tank();
    tank.tap.alkalinity_meq_per_l = exact(0.6);
    tank.tap.ions.insert(Ion::Chloride, exact(100.0));
    tank.wish.alkalinity_meq_per_l = Some((3.0, 3.8));
    let raised = plan(&tank);
    let salts: Vec<_> = raised.new_water.salts.iter().filter(|s| s.product.contains("bicarbonate")).collect();
    assert!(!salts.is_empty(), "{:?}", raised.new_water.salts);
    let first = &raised.first_changes().expect("in steps").text;
    for dose in salts.iter().map(|salt| &salt.how).chain([first]) {
        assert!(dose.contains("Test ammonia before and after"), "{dose}");
        let after = |words: &str| {
            let rest = dose.split_once(words).map(|(_, rest)| rest);
            rest.and_then(|rest| rest.split(' ').next()?.parse::<f64>().ok()).expect("a number")
        };
        let (ph, said) = (after("at pH "), after("harm starts at "));
        let pka = 0.09018 + 2729.92 / (24.0 + 273.15);
        let hand = 0.016 * (1.0 + 10f64.powf(pka - ph));
        assert!((said / hand - 1.0).abs() < 0.15, "{said} and {hand} in {dose}");
    }
    // Nobody lives in it: nobody is harmed.
    tank.animals = setup::Animals::default();
    assert!(says(&sentences(&plan(&tank)), "Test ammonia before and after").is_none());
}

#[test]
fn rule_7_snails_have_their_own_criterion_where_it_is_lower() {
    // Soft water near pH 7: the share criterion allows more total ammonia than snails bear (US EPA 2013: 1.4 mg/L at pH 7, 25 °C).
    let soft = |snails: u32| {
        let mut tank = tank();
        tank.tap = common::water("soft", &[(Ion::Calcium, 3.0), (Ion::Sodium, 2.0), (Ion::Chloride, 3.0)], 0.36);
        tank.room_co2_ppm = exact(4000.0);
        tank.tap.disinfectant = Disinfectant::Chloramine;
        tank.tap.total_chlorine_mg_per_l = exact(4.0);
        tank.tap.ions.insert(Ion::Ammonium, exact(1.0));
        tank.animals.snails = snails;
        tank.feeding = Feeding::None;
        tank.habits.change_share = exact(0.75);
        plan(&tank).change.share
    };
    assert!(soft(4) < soft(0), "{} {}", soft(4), soft(0));
}

#[test]
fn rule_8_an_old_acid_tank_gets_a_tenth() {
    let mut tank = tank();
    tank.unchanged_months = Some(9.0);
    let plan = plan(&tank);
    assert!(plan.change.share <= 0.10 && plan.change.litres <= 10.0, "{:?}", plan.change);
    assert!(plan.change.limited.as_ref().is_some_and(|s| s.contains("a tenth, again each hour, with an ammonia test")));
}

/// By hand: 2.0 meq/L in the tap, 0.4 a day eaten at the most, a quarter changed a week: 2.0 - 7 × 0.4 ÷ 0.25 = -9.2 meq/L:
/// it has run out, and the tank counts as an old acid one.
#[test]
fn rule_8_a_tank_whose_alkalinity_ran_out_begins_with_a_tenth() {
    let mut tank = tank();
    tank.growth.alkalinity_eaten_meq_per_l_day = ranged(0.2, 0.3, 0.4);
    let plan = plan(&tank);
    let first = plan.first_changes().expect("told");
    let litres: f64 =
        first.text["Begin smaller: ".len()..].split(' ').next().expect("litres").parse().expect("a number");
    assert!(litres <= 10.0, "{}", first.text);
    assert!(first.text.contains("ammonia") || litres < 10.0, "{}", first.text);
    tank.growth.alkalinity_eaten_meq_per_l_day = exact(0.0);
    assert!(recipe::plan(&tank).first_changes().is_none());
}

#[test]
fn rule_9_no_acid() {
    let mut tank = tank();
    tank.wish.ph = Some(6.5);
    let plan = plan(&tank);
    assert!(plan.refused.iter().any(|r| r.wish == "pH 6.5" && r.why.contains("no recipe with acid")));
    assert!(says(&sentences(&plan), "No medicine").is_some());
}

#[test]
fn rule_10_no_ammonium_with_animals_and_true_litres() {
    let mut tank = tank();
    tank.at_hand.products =
        ["calcium_nitrate_double", "ammonium_sulfate", "urea", "ammonium_nitrate"].map(str::to_owned).to_vec();
    let with = plan(&tank);
    for dose in &with.doses {
        assert!(!dose.brings.iter().any(|(ion, mg)| *ion == Ion::Ammonium && *mg > 0.0), "{}", dose.product);
        assert_ne!(dose.product, "urea");
    }
    assert!(says(&sentences(&with), "true").is_some() || says(&sentences(&with), "really in the tank").is_some());
    // The same tank under a larger name weighs the same.
    tank.geometry.nominal_l = 200.0;
    let named = plan(&tank);
    assert_eq!(with.doses, named.doses);
}

#[test]
fn rule_12_the_upper_end_of_carbon_dioxide() {
    let given = |value: f64, high: f64, fish: u32| {
        let mut tank = tank();
        tank.co2_given_mg_per_l = Some(ranged(0.8 * value, value, high));
        tank.animals.fish = fish;
        plan(&tank)
    };
    let refused = |plan: &Plan| plan.refused.iter().any(|r| r.wish.contains("carbon dioxide"));
    // 22 × 10^0.1 × 1.1 = 30.5.
    assert!(refused(&given(22.0, 22.0, 10)));
    assert!(refused(&given(15.0, 31.0, 10)), "the keeper's own upper end counts");
    assert!(!refused(&given(20.0, 20.0, 10)), "20 × 1.385 = 27.7");
    assert!(!refused(&given(25.0, 25.0, 0)), "without animals nothing is refused");
    let aimed = given(28.0, 28.0, 10);
    assert!(aimed.under_co2.as_ref().is_some_and(|i| i.co2_mg_per_l.value < 15.5), "planned with the aim instead");
    let ok = sentences(&given(15.0, 18.0, 10));
    assert!(says(&ok, "Stress starts above 30").is_some());
}

#[test]
fn rule_13_filter_and_air_stay_on() {
    let mut tank = tank();
    tank.co2_given_mg_per_l = Some(exact(15.0));
    let all = sentences(&plan(&tank));
    assert!(says(&all, "never switched off for carbon dioxide").is_some());
    assert!(says(&all, "off at any fast breathing").is_some());
    tank.co2_given_mg_per_l = None;
    assert!(says(&sentences(&plan(&tank)), "never switched off for carbon dioxide").is_none());
}

#[test]
fn rule_15_no_animal_before_the_start_test() {
    let mut tank = tank();
    tank.animals.start_test_passed = false;
    let told = sentences(&plan(&tank));
    let told = says(&told, "before the start test is passed twice").expect("told");
    // 1 mg/L of ammonia-N, its product named, and what it is never made with.
    for words in ["snails included", "1 mg/L", "never a household cleaner", "never near bleach"] {
        assert!(told.contains(words), "{words}: {told}");
    }
    tank.animals.start_test_passed = true;
    assert!(says(&sentences(&plan(&tank)), "before the start test is passed twice").is_none());
}

#[test]
fn rule_16_a_tap_above_the_guideline_is_told() {
    let told = |nitrate: f64, shrimps: u32, young: bool| {
        let mut tank = tank();
        tank.feeding = Feeding::None;
        tank.tap.ions.insert(Ion::Nitrate, exact(nitrate));
        tank.animals.shrimps = shrimps;
        tank.animals.young = young;
        says(&sentences(&plan(&tank)), "strictest guideline for wild animals is 13 mg/L").is_some()
    };
    assert!(told(40.0, 5, false) && told(40.0, 0, true));
    assert!(!told(40.0, 0, false), "grown fish: common practice");
    assert!(!told(5.0, 5, false));
}

/// By hand: (45 - 13) ÷ 45 = 71.1 %, up to 72; (70 - 50) ÷ 70 = 28.6 %, up to 29. Food that brings 3 mg/L a day to a tap of 5, a
/// quarter changed a week: 5 + 7 × 3 ÷ 0.25 = 89 mg/L.
#[test]
fn rule_16_nitrate_above_what_is_common_is_told_with_what_lowers_it() {
    let told = |nitrate: f64, food: f64, shrimps: u32| {
        let mut tank = tank();
        (tank.feeding, tank.animals.shrimps) = (Feeding::None, shrimps);
        tank.growth.uptake_mg_per_l_day.clear();
        tank.growth.food_mg_per_l_day.insert(Ion::Nitrate, exact(food));
        tank.tap.ions.insert(Ion::Nitrate, exact(nitrate));
        plan(&tank).cautions.into_iter().find(|note| note.about == "nitrate").map(|note| note.text)
    };
    assert!(told(45.0, 0.0, 5).is_some_and(|s| s.contains("72 % of low-mineral water")));
    assert!(told(70.0, 0.0, 0).is_some_and(|s| s.contains("29 % of low-mineral water") && s.contains("20 to 50")));
    // (13.1 - 13) ÷ 13.1 = 0.8 %: no blend of so little is named, and the nitrate is told all the same.
    let edge = told(13.1, 0.0, 5).expect("told");
    assert!(!edge.contains("low-mineral") && edge.contains("less food"), "{edge}");
    // Of 12 on the mean and 26 at the most, half is thinned on the days of 26: (26 - 13) ÷ 26.
    let mut swings = tank();
    (swings.feeding, swings.animals.shrimps) = (Feeding::None, 5);
    swings.tap.ions.insert(Ion::Nitrate, quantity::Known::ranged(5.0, 12.0, 26.0, quantity::Kind::Measured));
    let told_of = plan(&swings).cautions.into_iter().find(|note| note.about == "nitrate").expect("told").text;
    assert!(told_of.contains("When it brings 26 mg/L NO3, 50 % of low-mineral water"), "{told_of}");
    let fed = told(5.0, 3.0, 0).expect("told");
    assert!(fed.contains("89 mg/L") && fed.contains("Less food") && fed.contains("more frequent changes"), "{fed}");
    assert_eq!(told(5.0, 1.0, 0), None, "33 mg/L is common");
}

#[test]
fn rule_20_22_and_23_people() {
    let mut tank = tank();
    tank.tap.ions.insert(Ion::Nitrate, exact(0.0));
    let plan_ = plan(&tank);
    let all = sentences(&plan_);
    for words in [
        "Plugs of everything in or over the water out",
        "15 minutes' wait before the water falls",
        "Never in a drinks bottle",
        "poison centre",
        "dust mask and gloves",
    ] {
        assert!(says(&all, words).is_some(), "{words}");
    }
    for bottle in &plan_.bottles {
        assert!(bottle.handling.iter().any(|s| s.contains("drinks bottle")), "each label: {}", bottle.name);
    }
    let nitrate = plan_.bottles.iter().find(|b| b.weighed.iter().any(|w| w.product == "potassium_nitrate"));
    let fire = |h: &String| h.starts_with("Feeds a fire") && h.contains("H272");
    assert!(nitrate.is_some_and(|b| b.hazards.iter().any(fire)), "an oxidiser says so, in words too");
    tank.at_hand.by_hose = true;
    assert!(says(&sentences(&plan(&tank)), "A hose never ends under water").is_some());
}

#[test]
fn a_tap_rich_in_nitrate_is_never_met_with_a_bigger_change() {
    for (low, mean, high) in [(8.0, 14.0, 21.0), (20.0, 30.0, 45.0), (5.0, 9.0, 18.0)] {
        let mut tank = tank();
        tank.tap.ions.insert(Ion::Nitrate, ranged(low, mean, high));
        for share in [0.1, 0.25, 0.4, 0.6] {
            tank.habits.change_share = exact(share);
            let plan = plan(&tank);
            let about = plan.unmet.iter().filter(|u| u.ion == Some(Ion::Nitrate)).map(|u| &u.text);
            let left = plan.left_out.iter().filter(|n| n.about == "nitrate").map(|n| &n.text);
            for text in about.chain(left) {
                assert!(!text.contains("A bigger change would"), "{text}");
            }
        }
    }
    // Where a smaller one lowers it, that is said.
    let mut tank = tank();
    tank.tap.ions.insert(Ion::Nitrate, exact(40.0));
    tank.habits.change_share = exact(0.5);
    let all = sentences(&plan(&tank));
    assert!(
        says(&all, "A smaller change lowers it").is_some_and(|s| s.contains("a bigger change lifts it")),
        "{all:#?}"
    );
}
