//! A tank whose water was never changed: one reckoning over its age, and the test that decides. By hand.

use crate::days::{SOIL, june, log, planned, sentences};
use care::{Kit, day, unchanged_days};
use logbook::{Kept, What};
use quantity::Ion;

/// The soil tank of the examples, never changed for so many months.
fn never(months: &str) -> (setup::Tank, recipe::Plan) {
    planned(
        &SOIL
            .replace("change = \"20 %\"\nevery = \"14 days\"", "change = \"0 %\"")
            .replace("start_test_passed = true", &format!("start_test_passed = true\n{months}")),
    )
}

fn kit(of: &(setup::Tank, recipe::Plan), log: &[Kept], key: &str) -> Kit {
    day(&of.0, &of.1, log, &june(20, 8)).tests.into_iter().find(|kit| kit.key == key).unwrap()
}

/// 14 months of 365.25 / 12 days are 426.1 days; 31 May to 20 June are 20 days, and half of the water changed on the tenth of
/// them leaves 5 of the ten before.
#[test]
fn days_by_the_setup_and_by_the_log() {
    let (tank, _) = never("unchanged_months = 14");
    let now = june(20, 8);
    assert_eq!(unchanged_days(&tank, &[], &now, &now), Some(426.0));
    let half = tank.geometry.true_l.value / 2.0;
    let filled = (june(1, 9), What::Done { act: "set_up".to_owned() });
    let all = log(vec![filled.clone(), (june(11, 9), What::Change { litres: half })]);
    assert_eq!(unchanged_days(&tank, &all, &now, &now), Some(14.0));
    assert_eq!(unchanged_days(&tank, &all, &now, &june(10, 12)), Some(9.0));
    let (untold, _) = never("");
    assert_eq!(unchanged_days(&untold, &[], &now, &now), None);
    assert_eq!(unchanged_days(&untold, &log(vec![filled]), &now, &now), Some(19.0));
}

/// What Care says of nitrate and alkalinity is the plan's own level over 426 days, and topping up alone is in it:
/// c_tap × e × 426 ÷ V.
#[test]
fn one_number_over_the_whole_age_and_the_test_decides() {
    let old = never("unchanged_months = 14");
    let (tank, plan) = &old;
    let nitrate = plan.levels.iter().find(|level| level.ion == Some(Ion::Nitrate)).unwrap();
    assert_eq!(nitrate.unchanged_days, Some(426));
    let tap = tank.tap.mg_per_l(Ion::Nitrate).value;
    let piled = tap * tank.habits.top_up_l_per_day.value * 426.0 / tank.geometry.true_l.value;
    assert!((426.0 * nitrate.top_up_per_day.value - piled).abs() < 1e-9);
    let by_hand = (tap + piled - 426.0 * nitrate.uptake_per_day.value).max(0.0);
    assert!((nitrate.before_change.value - by_hand).abs() < 1e-9, "{} {by_hand}", nitrate.before_change.value);
    for key in ["nitrate", "alkalinity", "hardness"] {
        let kit = kit(&old, &[], key);
        assert!(kit.decides && kit.says.contains("14 months"), "{key}: {}", kit.says);
    }
    let one = day(tank, plan, &[], &june(20, 8));
    assert!(one.tests.iter().take(3).all(|kit| kit.decides), "those that decide come first");
    assert!(!sentences(&one).iter().any(|say| say.contains("after a change")), "there is none");
    let high = recipe::say::Pen::new(&tank.units).ion(Ion::Nitrate, nitrate.before_change.high);
    assert!(kit(&old, &[], "nitrate").says.contains(&high), "{high}");
}

/// A tank filled a fortnight ago is reckoned over a fortnight, not over four weeks; with no age told only a test can say.
#[test]
fn a_young_one_is_young_and_an_untold_one_is_tested() {
    let untold = never("");
    assert!(
        kit(&untold, &[], "nitrate").decides && kit(&untold, &[], "nitrate").says.contains("nobody told since when")
    );
    let filled = log(vec![(june(6, 9), What::Done { act: "set_up".to_owned() })]);
    let level = &untold.1.alkalinity;
    let (low, high) = (level.drifted(14.0).low, level.drifted(14.0).high);
    let says = kit(&untold, &filled, "alkalinity").says;
    let span = recipe::say::Pen::new(&untold.0.units).span(None, low, high);
    assert!(says.contains(&span) && says.contains("by now"), "{says} {span}");
}

/// Changed by habit, yet not for 14 months: the plan's level is not what stands there.
#[test]
fn where_changes_paused_the_plan_says_nothing_of_today() {
    let text = SOIL.replace("start_test_passed = true", "start_test_passed = true\nunchanged_months = 14");
    let old = planned(&text);
    assert!(old.1.change.every_days > 0);
    let says = kit(&old, &[], "alkalinity");
    assert!(says.decides && says.says.contains("Not changed for 14 months"), "{}", says.says);
}
