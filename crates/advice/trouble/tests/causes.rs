//! What the logbook speaks for, and in which order.

use crate::common;

use crate::common::with_log;
use knowledge::CauseKey;
use logbook::{Reading, Sure, What};

fn reading(of: &str, value: f64) -> What {
    What::Test(Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure: Sure::Plain })
}

fn keys(worked: &trouble::Worked) -> Vec<CauseKey> {
    worked.causes.iter().map(|cause| cause.key).collect()
}

#[test]
fn a_change_an_hour_ago_comes_first_and_it_says_why() {
    let log = [(1.0, What::Change { litres: 90.0 }), (70.0, What::Done { act: "sponge".to_owned() })];
    let worked = with_log("gasping", &[("tank.co2", "15 mg/L")], &[], &log);
    assert_eq!(keys(&worked), [CauseKey::Change, CauseKey::CarbonDioxide, CauseKey::Sponge]);
    let because: Vec<&str> = worked.causes.iter().map(|cause| cause.because.as_str()).collect();
    assert_eq!(because[0], "You changed 90 L 1 hour ago.");
    assert!(because[1].contains("15 mg/L") && because[1].contains("15:00"), "{because:?}");
    assert_eq!(because[2], "You washed the filter 3 days ago.");
}

#[test]
fn a_hot_day_shows_in_the_reading() {
    let worked = with_log("gasping", &[], &[], &[(2.0, reading("temperature", 29.0))]);
    assert_eq!(keys(&worked), [CauseKey::Warm]);
    assert_eq!(worked.causes[0].because, "29 °C (your log, 2 hours ago), 4 °C over your usual 25 °C.");
}

/// Two readings of one minute, in whatever order a log gives them: the one that was written last counts.
#[test]
fn of_two_readings_of_one_moment_the_later_entry_counts() {
    let of = |id, mg| common::kept(id, 1.0, reading("ammonia_n", mg));
    for log in [[of(1, 1.0), of(2, 0.0)], [of(2, 0.0), of(1, 1.0)]] {
        let mut told = trouble::Told::default();
        told.hear(&log, &common::now());
        assert_eq!(told.get("ammonia"), Some(0.0));
    }
}

#[test]
fn ammonia_that_harms_goes_before_all() {
    let log = [(1.0, What::Change { litres: 90.0 }), (3.0, reading("ammonia_n", 1.0)), (3.0, reading("ph", 8.0))];
    let worked = with_log("gasping", &[], &[], &log);
    assert_eq!(keys(&worked), [CauseKey::Ammonia, CauseKey::Change]);
}

#[test]
fn old_lines_and_readings_that_nobody_was_sure_of_speak_for_nothing() {
    let unsure = What::Test(Reading {
        of: "temperature".to_owned(),
        value: 33.0,
        below: false,
        error: None,
        kit: None,
        sure: Sure::NotSure,
    });
    let log = [(30.0, What::Change { litres: 90.0 }), (1.0, unsure), (-2.0, What::Change { litres: 90.0 })];
    assert!(with_log("gasping", &[], &[], &log).causes.is_empty());
}

#[test]
fn a_day_of_two_doses_or_twice_the_food() {
    let fields = [("feeding.wish", "plenty"), ("light.energy", "high"), ("food.per_day", "0.5 g a day")];
    let plan_bottle = |ml: f64| What::Dose { bottle: "Bottle one".to_owned(), ml };
    let log = [(1.0, plan_bottle(60.0)), (5.0, plan_bottle(60.0)), (2.0, What::Food { grams: 1.5 })];
    let worked = with_log("gasping", &fields, &[], &log);
    assert_eq!(keys(&worked), [CauseKey::Dose, CauseKey::Food]);
    assert!(worked.causes[1].because.contains("3 times the usual"), "{:?}", worked.causes[1]);
}

#[test]
fn without_a_log_only_the_setup_and_the_hour_speak() {
    assert!(with_log("gasping", &[], &[], &[]).causes.is_empty());
    assert!(with_log("power-cut", &[("tank.co2", "15 mg/L")], &[], &[]).causes.is_empty());
}

#[test]
fn an_overdose_is_counted_once() {
    let plan = common::answer(&[("feeding.wish", "comfortable")]);
    let all = trouble::outcomes(&plan);
    let bottle = all.first().and_then(|outcome| outcome.plan.bottles.first()).cloned();
    let Some(bottle) = bottle else { panic!("a bottle") };
    let dose = |times: f64| What::Dose { bottle: bottle.name.clone(), ml: times * bottle.daily_ml };
    // Ten in the last day, and one the evening before: within a day of the first ten, and yet no part of the last day.
    let log = [(8.0, dose(10.0)), (26.0, dose(1.0))];
    let said = |trouble: &str| with_log(trouble, &[("feeding.wish", "comfortable")], &[], &log);
    let gasping = said("gasping");
    let because = gasping.causes.iter().find(|cause| cause.key == CauseKey::Dose).map(|cause| cause.because.clone());
    let because = because.unwrap_or_default();
    assert!(because.contains(", 10 times the usual, 8 hours ago"), "{because}");
    assert!(said("overdose").sums.iter().any(|sum| sum.head.contains("10 times the dose")), "{:#?}", said("overdose"));
}
