//! Which test would decide something, by hand.

use crate::days::{HOUSEHOLD, june, log, planned};
use care::{Kit, day};
use jiff::civil::date;
use logbook::{Reading, Sure, What};
use quantity::{Ion, Kind, Known};

fn kit(tank: &setup::Tank, plan: &recipe::Plan, key: &str) -> Kit {
    let day = day(tank, plan, &[], &june(10, 8));
    day.tests.into_iter().find(|kit| kit.key == key).unwrap_or_else(|| panic!("no {key}"))
}

#[test]
fn a_test_decides_where_its_range_lies_across_a_number_that_matters() {
    let (mut tank, mut plan) = planned(HOUSEHOLD);
    let set = |plan: &mut recipe::Plan, low: f64, high: f64| {
        let level = plan.levels.iter_mut().find(|level| level.ion == Some(Ion::Nitrate)).unwrap_or_else(|| panic!());
        level.before_change = Known::ranged(low, 0.5 * (low + high), high, Kind::WorkedOut);
        level.band = Some((6.0, 16.0));
    };
    // With shrimps the strict guideline of 13 mg/L counts too: 7 to 12 lies on one side of 6, 13, 16 and 50.
    set(&mut plan, 7.0, 12.0);
    assert!(!kit(&tank, &plan, "nitrate").decides);
    set(&mut plan, 7.0, 15.0);
    let said = kit(&tank, &plan, "nitrate");
    assert!(said.decides && said.says.contains("13 mg/L"), "{}", said.says);
    // 30 to 61 lies across 50, and all of it is more than 6 to 16 and than the 13 of shrimps; 60 to 90 is over every mark.
    set(&mut plan, 30.0, 61.0);
    let said = kit(&tank, &plan, "nitrate");
    assert!(said.says.contains("it is more") && !said.says.contains("that it is."), "{}", said.says);
    assert!(said.decides && said.says.contains("13 mg/L"), "{}", said.says);
    set(&mut plan, 60.0, 90.0);
    let said = kit(&tank, &plan, "nitrate");
    assert!(!said.decides && said.says.contains("13 mg/L"), "{}", said.says);
    // Fish alone: 7 to 15 lies within the band.
    (tank.animals.shrimps, tank.animals.snails) = (0, 0);
    assert!(!kit(&tank, &plan, "nitrate").decides);
    set(&mut plan, 4.0, 15.0);
    let said = kit(&tank, &plan, "nitrate");
    assert!(said.decides && said.says.contains("your plants take more than I count on."), "{}", said.says);
    // Right on the number is on one side.
    set(&mut plan, 6.0, 16.0);
    assert!(!kit(&tank, &plan, "nitrate").decides);
}

#[test]
fn alkalinity_decides_where_it_may_run_out() {
    let (tank, mut plan) = planned(HOUSEHOLD);
    assert!(!kit(&tank, &plan, "alkalinity").decides);
    plan.alkalinity.before_change = Known::ranged(0.2, 0.5, 0.9, Kind::WorkedOut);
    assert!(kit(&tank, &plan, "alkalinity").decides);
}

#[test]
fn what_decides_comes_first_and_a_kit_that_is_not_at_hand_makes_no_act() {
    let (mut tank, plan) = planned(HOUSEHOLD);
    let one = day(&tank, &plan, &[], &june(10, 8));
    let decides: Vec<bool> = one.tests.iter().map(|kit| kit.decides).collect();
    let mut sorted = decides.clone();
    sorted.sort_by(|a, b| b.cmp(a));
    assert_eq!(decides, sorted);
    assert!(one.tests.iter().all(|kit| kit.at_hand.is_none()), "nobody said");
    tank.keeping.kits = vec!["ph".to_owned()];
    for n in 1..30 {
        let day = day(&tank, &plan, &[], &june(n, 8));
        let acts = day.today.iter().chain(day.week.iter().flat_map(|later| &later.acts));
        assert!(!acts.map(|act| &act.name).any(|name| name.contains("nitrate")), "{n}");
    }
}

#[test]
fn tests_are_due_the_day_before_the_change_and_not_again_when_read() {
    let (tank, plan) = planned(HOUSEHOLD);
    // Changes on Saturdays: tests on Fridays, of which the nitrate test has every second.
    let due = kit(&tank, &plan, "nitrate").due.unwrap_or_else(|| panic!());
    assert_eq!(due.weekday(), jiff::civil::Weekday::Friday);
    let read = What::Test(Reading {
        of: "nitrate".to_owned(),
        value: 12.0,
        below: false,
        error: None,
        kit: None,
        sure: Sure::Plain,
    });
    let at = due.at(18, 0, 0, 0).to_zoned_datetime(june(1, 0).time_zone().clone()).unwrap_or_else(|e| panic!("{e}"));
    let kept = log(vec![(at.clone(), read)]);
    let day = day(&tank, &plan, &kept, &at);
    let kit = day.tests.iter().find(|kit| kit.key == "nitrate").unwrap_or_else(|| panic!());
    assert_eq!(kit.last, Some(due));
    assert_eq!(kit.due, due.checked_add(jiff::ToSpan::days(14)).ok());
    assert!(due >= date(2026, 6, 10));
}

#[test]
fn alkalinity_under_its_floor_is_not_far_from_it() {
    // Harm rule 6: 0.36 meq/L hold pH. By hand: all of -0.85 to -0.06 and part of 0.2 to 0.5 lie under it, 0.4 to 2 lies over.
    let (tank, mut plan) = planned(HOUSEHOLD);
    for (low, high, decides) in [(-0.85, -0.06, true), (0.2, 0.5, true), (0.4, 2.0, false)] {
        plan.alkalinity.before_change = Known::ranged(low, 0.5 * (low + high), high, Kind::WorkedOut);
        let kit = kit(&tank, &plan, "alkalinity");
        assert_eq!(kit.decides, decides, "{low} to {high}: {}", kit.says);
        assert!(!kit.says.contains("far from"), "{}", kit.says);
    }
}
