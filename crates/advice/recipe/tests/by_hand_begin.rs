//! A tank on very soft water whose plan raises it: whole changes with a growing part of the salts, none of which moves it further than a day
//! may (harm rules 6 and 8). By hand: mixing by volume, from the waters of the plan alone.

use crate::common::{exact, ranged, tank, water};
use quantity::Ion;
use recipe::{BeginReading, Plan, plan};
use setup::Tank;

/// Ten litres with shrimps on a tap with next to no salts.
fn cube() -> Tank {
    let mut tank = tank();
    let ions =
        [(Ion::Calcium, 5.0), (Ion::Magnesium, 1.3), (Ion::Sodium, 4.0), (Ion::Chloride, 4.0), (Ion::Sulfate, 8.0)];
    tank.tap = water("soft", &ions, 0.25);
    tank.geometry.true_l = exact(10.0);
    tank.habits.change_share = exact(0.4);
    tank.animals.shrimps = 15;
    tank
}

/// Every change of the beginning and the first of the plan's own, each with the conductivity of its new water mixed by hand.
fn walked(plan: &Plan) -> Vec<(f64, f64)> {
    let begin = plan.begin.as_ref().expect("soft water is raised by and by");
    let own = recipe::BeginStep { share: plan.change.share, part: 1.0 };
    let us = |part: f64| begin.plain_us_per_cm + part * (begin.new_us_per_cm - begin.plain_us_per_cm);
    begin.steps.iter().chain([&own]).map(|step| (step.share, us(step.part))).collect()
}

#[test]
fn rule_6_no_change_moves_conductivity_by_more_than_a_tenth_and_few_are_needed() {
    let plan = plan(&cube());
    let begin = plan.begin.as_ref().expect("soft water is raised by and by");
    assert_eq!(begin.reading, BeginReading::Conductivity);
    // All of the salts at once would let so little be changed, and so often, that nobody does it.
    let now = recipe::aired(&cube(), &cube().tap).expect("in range").conductivity_25_us_per_cm.value;
    let all_at_once = 0.1 * now / (begin.new_us_per_cm - now);
    assert!(all_at_once < 0.1, "{all_at_once}");
    assert!(begin.share >= plan.change.share - 1e-9, "{begin:?}");
    // From 1 to r of the way by a tenth each time: ln r ÷ ln 1.1 changes, and a few more, for a little is kept to spare.
    let fewest = (begin.new_us_per_cm / now / 1.25).ln() / 1.1f64.ln();
    assert!((begin.steps.len() as f64) < fewest + 6.0 && begin.steps.len() > 7, "{fewest} {begin:?}");
    let mut stands = now;
    for (share, us) in walked(&plan) {
        let moves = share * (us - stands);
        assert!(moves <= 0.1 * stands * (1.0 + 1e-9), "{moves} from {stands}");
        stands += moves;
    }
    let first = plan.first_changes().expect("told");
    assert!(first.text.contains("a little more, up to") || first.text.contains(" % of the salts"), "{}", first.text);
    assert!(first.text.contains("On your usual days") && first.text.contains("Into the first: "), "{}", first.text);
}

#[test]
fn rule_6_alkalinity_moves_by_no_more_than_its_step() {
    let plan = plan(&cube());
    let begin = plan.begin.as_ref().expect("in steps");
    let (plain, new) = (0.25, plan.alkalinity.new_water.value);
    let mut stands: f64 = 0.25;
    for step in &begin.steps {
        let moves = step.share * (plain + step.part * (new - plain) - stands);
        assert!(moves <= 0.36, "{moves}");
        stands += moves;
    }
}

/// Alkalinity that may be gone: a tenth at a time until by the lowest that is known it is not, and no hurry after that.
#[test]
fn rule_8_a_tenth_while_alkalinity_may_be_gone_then_whole_changes() {
    let mut tank = cube();
    tank.growth.alkalinity_eaten_meq_per_l_day = ranged(0.001, 0.003, 0.03);
    let plan = plan(&tank);
    let begin = plan.begin.as_ref().expect("in steps");
    let small = begin.steps.iter().take_while(|step| step.share <= 0.1 + 1e-9).count();
    assert!(small > 0 && begin.steps[small..].iter().all(|step| step.share > 0.1), "{begin:?}");
    let text = &plan.first_changes().expect("told").text;
    assert!(text.starts_with("Begin smaller: 1 L (10 %)") && text.contains("Test ammonia before each"), "{text}");
    assert!(text.contains("ends these small ones"), "{text}");
    // The lowest that is known has none left; each tenth mixes its water in.
    let (plain, new, mut low) = (0.25, plan.alkalinity.new_water.value, 0.0f64);
    for step in begin.steps.iter().take(small) {
        assert!(low < 0.36, "{low}");
        low += step.share * (plain + step.part * (new - plain) - low);
    }
}
