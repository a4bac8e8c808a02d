//! Changes too small for what food leaves over: sums by hand, and what they may not be bought with.

use crate::common::{exact, says, sentences, tank, water};
use quantity::{Ion, Kind, Known};
use recipe::{Plan, Refused, plan};
use setup::Tank;

/// The hundred litres, food bringing 1.0 mg/L of nitrate a day where plants take 0.6: 0.4 are left over.
fn fed(percent: f64, every_days: u32) -> Tank {
    let mut tank = tank();
    tank.growth.food_mg_per_l_day.insert(Ion::Nitrate, exact(1.0));
    (tank.habits.change_share, tank.habits.every_days) = (exact(percent / 100.0), every_days);
    tank
}

fn habit(plan: &Plan) -> Option<&Refused> {
    plan.refused.iter().find(|refused| refused.wish.starts_with("Changes of"))
}

#[test]
fn what_is_left_over_piles_up_to_days_over_share() {
    // 0.4 × 7 ÷ 0.02 = 140 mg/L over the tap's, 350 days' worth; 10 %: 0.4 × 70 = 28. Three quarters of the food leave 0.15 × 350 = 52.5,
    // half of it nothing.
    let plan = plan(&fed(2.0, 7));
    let refused = habit(&plan).expect("350 days' worth are refused");
    assert_eq!(refused.wish, "Changes of 2 % every seven days");
    for words in
        ["nothing takes away what is left over", "350 days’ worth", "140 mg/L NO3", "50 mg/L is as much", "no source"]
    {
        assert!(refused.why.contains(words), "{words}: {}", refused.why);
    }
    let [change, feed] = &refused.ways[..] else { panic!("{:?}", refused.ways) };
    assert!(
        change.starts_with("Change 10 % (10 L) every seven days: what is left over comes to 28 mg/L NO3"),
        "{change}"
    );
    assert!(feed.contains("feed 50 % of what is fed now"), "{feed}");
    assert_eq!(plan.why("habit").expect("a why").sum, "0.4 mg/L a day × 7 days ÷ 2 % = 140 mg/L NO3");
}

#[test]
fn a_change_that_takes_it_away_is_not_refused() {
    // 0.4 × 7 ÷ x = 50 at x = 5.6 %.
    assert!(habit(&plan(&fed(5.5, 7))).is_some());
    assert!(habit(&plan(&fed(5.7, 7))).is_none());
    // The same share twice as often.
    assert!(habit(&plan(&fed(5.5, 3))).is_none());
    // Never changed: nothing settles, and that is told elsewhere. No animals: nobody is fed.
    assert!(habit(&plan(&fed(2.0, 0))).is_none());
    let mut empty = fed(2.0, 7);
    empty.animals = setup::Animals::default();
    assert!(!empty.animals.any() && habit(&plan(&empty)).is_none());
    // Plants that take all: small changes are a habit like another.
    let mut lean = fed(2.0, 7);
    lean.growth.food_mg_per_l_day.insert(Ion::Nitrate, exact(0.5));
    assert!(habit(&plan(&lean)).is_none());
}

/// A tap of 0.2 °dKH and next to no salts, 2 % a week, food that eats 0.016 meq/L a day.
fn soft() -> Tank {
    let mut tank = fed(2.0, 7);
    tank.tap = water("soft", &[(Ion::Calcium, 2.0), (Ion::Magnesium, 0.4)], 0.0714);
    tank.growth.alkalinity_eaten_meq_per_l_day = Known::ranged(0.005, 0.016, 0.033, Kind::Assumed);
    tank
}

#[test]
fn alkalinity_is_not_bought_with_water_stronger_than_taps_nor_with_potassium() {
    // 0.36 + 0.016 × 350 = 6 meq/L would have to be in the new water at the best estimate, 12 at the poorest: 7 are usual at the most
    // (`data/bounds.toml`), 15 mg/L of potassium, or the top of its band.
    let (tank, plan) = (soft(), plan(&soft()));
    // As it is chosen, before it is weighed: what a scale rounds is 350 days' worth too.
    let chosen = recipe::choose(&tank);
    let brings = |ion: Ion, into: recipe::Into| -> f64 {
        let doses = chosen.doses.iter().filter(|dose| dose.into == into).flat_map(|dose| &dose.brings);
        doses.filter(|(other, _)| *other == ion).map(|(_, mg)| mg).sum()
    };
    let level = |ion: Ion| {
        let (a_day, in_new) = (brings(ion, recipe::Into::Bottle), brings(ion, recipe::Into::NewWater));
        recipe::levels::level(&tank, ion, a_day, in_new, 0.0)
    };
    let potassium = level(Ion::Potassium);
    assert!(potassium.highest <= 16.0 * (1.0 + 1e-5) && potassium.new_water.value <= 16.0 + 1e-6, "{potassium:?}");
    let phosphate = level(Ion::Phosphate);
    assert!(phosphate.highest <= 1.2 * (1.0 + 1e-5), "nor with phosphate, which its salt brings along: {phosphate:?}");
    // Half a step of the scale, 0.05 g in 2 L: 50 ÷ 84.01 ÷ 2 = 0.3 meq/L of sodium bicarbonate.
    assert!(plan.alkalinity.new_water.value <= 7.0 + 0.3, "{:?}", plan.alkalinity.new_water);
    assert!(says(&sentences(&plan), "then more water at a change").is_some());
}

#[test]
fn alkalinity_that_no_tap_could_bring_so_slowly_is_reason_enough() {
    // 0.36 + 0.03 × 350 = 10.9 meq/L: more than the 7 that taps have; changes of a tenth, 0.36 + 0.03 × 70 = 2.5, do it. Plants take all
    // the nitrate.
    let mut tank = soft();
    tank.growth.alkalinity_eaten_meq_per_l_day = exact(0.03);
    tank.growth.food_mg_per_l_day.insert(Ion::Nitrate, exact(0.5));
    let plan = plan(&tank);
    let refused = habit(&plan).expect("refused");
    let why = &refused.why;
    assert!(why.contains("at least 0.36 meq/L") && why.contains("pH falls by itself") && !why.contains("NO3"), "{why}");
    let way = &refused.ways[0];
    assert!(way.starts_with("Change 10 % (10 L)") && way.contains("I begin with smaller ones"), "{way}");
}

#[test]
fn where_a_rule_of_harm_keeps_changes_small_no_bigger_one_is_a_way_out() {
    let mut tank = fed(2.0, 7);
    // 4 mg/L of ammonium: it keeps changes under the tenth that would do.
    tank.tap.ions.insert(Ion::Ammonium, exact(4.0));
    let limited = plan(&tank);
    let mut ten = tank;
    ten.habits.change_share = exact(0.1);
    assert!(plan(&ten).change.limited.is_some(), "the rule bites");
    let refused = habit(&limited).expect("refused");
    assert!(refused.ways.iter().all(|way| !way.starts_with("Change ")), "{:?}", refused.ways);
}
