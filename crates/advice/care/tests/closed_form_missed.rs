//! A missed and a doubled dose against the recurrence, day by day, run by brute force in this file.
//!
//! Judge: the recurrence itself: change on its day, then dose, then uptake. Ceilings by hand.

use crate::start;

use crate::start::{HOUSEHOLD, Settled, settled, with};
use care::missed::{Doubled, doubled, missed};
use quantity::Ion;

/// Level at the end of each day, from `start`; `dose(day)` mg/L.
fn run(start: f64, tap: f64, share: f64, every: u32, uptake: f64, days: u32, dose: impl Fn(u32) -> f64) -> Vec<f64> {
    let mut level = start;
    let day = |day: u32| {
        if day > 0 && day.is_multiple_of(every) {
            level = (1.0 - share) * level + share * tap;
        }
        level = level + dose(day) - uptake;
        level
    };
    (0..days).map(day).collect()
}

/// A tank whose bottle brings potassium, by the plan.
fn household() -> Settled {
    settled(HOUSEHOLD)
}

#[test]
fn what_is_missing_fades_with_every_change() {
    let s = household();
    let answer = missed(&s.tank, &s.plan, Some(3), &[], &start::at(0));
    let (x, every) = (s.plan.change.share, s.plan.change.every_days);
    assert!(!answer.levels.is_empty());
    for short in &answer.levels {
        let level = s.plan.levels.iter().find(|l| l.ion == Some(short.ion)).expect("planned");
        let (from, tap, uptake) = (1000.0, level.new_water.value, level.uptake_per_day.value);
        let usual = run(from, tap, x, every, uptake, 70, |_| level.dose_per_day);
        let gap = run(from, tap, x, every, uptake, 70, |day| if day < 3 { 0.0 } else { level.dose_per_day });
        // Right after the third missed day, and after each of the changes since.
        assert!((usual[2] - gap[2] - short.lower).abs() < 1e-9, "{short:?}");
        for k in 1..=9 {
            let end = (k * every) as usize;
            let by_form = short.lower * (1.0 - x).powi(k as i32);
            assert!((usual[end] - gap[end] - by_form).abs() < 1e-9, "{k} changes");
        }
        // A tenth is left on the day that is said, and was not a change before.
        let days = short.days_to_a_tenth.expect("it is changed") as usize;
        assert!(usual[days] - gap[days] <= 0.1 * short.lower + 1e-12);
        assert!(usual[days - every as usize] - gap[days - every as usize] > 0.1 * short.lower);
    }
    assert!(answer.answer.contains("never what was missed on top"), "{}", answer.answer);
}

#[test]
fn without_changes_what_was_missed_stays_missing() {
    let s = settled(&HOUSEHOLD.replace("change = \"40 %\"", "change = \"0 %\""));
    let answer = missed(&s.tank, &s.plan, Some(2), &[], &start::at(0));
    assert!(answer.levels.iter().all(|short| short.days_to_a_tenth.is_none()));
    assert!(answer.notes.iter().any(|note| note.text.contains("stays so much lower")), "{:?}", answer.notes);
}

#[test]
fn a_doubled_dose_lifts_by_twice_a_day_in_the_smallest_litres() {
    let s = household();
    let two = doubled(&s.tank, &s.plan, 2.0);
    let litres = s.tank.geometry.true_l;
    assert!(litres.low < litres.value, "the bad end counts: {litres:?}");
    for bottle in &two {
        for rise in bottle.rises.iter().filter(|rise| rise.unit == "mg/L") {
            let level =
                s.plan.levels.iter().find(|l| l.ion.is_some_and(|ion| ion.name() == rise.what)).expect("planned");
            let by_hand = 2.0 * level.dose_per_day * litres.value / litres.low;
            assert!((rise.rise - by_hand).abs() < 1e-9, "{rise:?} {by_hand}");
        }
        assert_eq!(bottle.changes, 0);
        assert!(bottle.says.contains("no harm known to me below"), "{}", bottle.says);
        assert!(bottle.says.contains("Leave this bottle out for one day"), "{}", bottle.says);
    }
}

#[test]
fn too_much_is_brought_down_by_as_many_changes_as_it_takes() {
    // Much light, fed richly: the bottles bring much; a hundred times a dose is over every limit.
    let rich = HOUSEHOLD
        .replace("wish = \"comfortable\"", "wish = \"plenty\"")
        .replace("energy = \"medium\"", "energy = \"high\"");
    let s = settled(&rich);
    let share = s.plan.change.share;
    let all: Vec<_> = (2..200).flat_map(|times| doubled(&s.tank, &s.plan, f64::from(times))).collect();
    let far = |d: &Doubled| d.rises.iter().map(|r| r.rise / r.most).fold(0.0, f64::max);
    let made: Vec<_> = all.iter().filter(|d| d.changes > 0).collect();
    assert!((1..=3).all(|n| made.iter().any(|d| d.changes == n)), "one, two and three changes are made somewhere");
    for d in made {
        // far × (1 - x)^n comes to 1 or less with n changes, and not with one less.
        let left = |n: u32| far(d) * (1.0 - share).powi(n as i32);
        assert!(left(d.changes) <= 1.0 + 1e-9 && left(d.changes - 1) > 1.0, "{} {}", far(d), d.changes);
        assert!(
            d.says.contains("That is too much at once") && d.says.contains("conditioner in the new water"),
            "{}",
            d.says
        );
        assert_eq!(d.says.contains("a day apart"), d.changes > 1, "{}", d.says);
    }
    // More than three are no quick way: nothing is changed, and Help now goes first.
    for d in all.iter().filter(|d| far(d) * (1.0 - share).powi(3) > 1.0 + 1e-9) {
        assert_eq!(d.changes, 0);
        assert!(d.says.contains("can't take it out quickly") && d.says.contains("Help now"), "{}", d.says);
    }
}

#[test]
fn a_doubled_dose_says_what_the_slip_of_its_bottle_says() {
    // Ten times a dose is the slip: the same limits, the same changes, the same rest.
    let rich = HOUSEHOLD
        .replace("wish = \"comfortable\"", "wish = \"plenty\"")
        .replace("energy = \"medium\"", "energy = \"high\"");
    for text in [
        HOUSEHOLD.to_owned(),
        rich.clone(),
        rich.replace("start_test_passed", "unchanged_months = 9\nstart_test_passed"),
    ] {
        let s = settled(&text);
        for (bottle, ten) in s.plan.bottles.iter().zip(doubled(&s.tank, &s.plan, 10.0)) {
            let says =
                bottle.slip.split("That is too much at once").nth(1).and_then(|rest| rest.split(" Leave").next());
            match says {
                Some(says) => assert!(ten.says.contains(says), "{says} | {}", ten.says),
                None => assert!(ten.says.contains("Nothing needs to be done"), "{}", ten.says),
            }
            assert!(bottle.slip.contains("next nine doses") && ten.says.contains("for nine days"), "{}", ten.says);
        }
    }
}

#[test]
fn potassium_by_hand() {
    // 185 L; the plan's dose d of potassium, three days missed: 3 d lower. At 25 % a week ln 0.1 ÷ ln 0.75 = 8.004: nine changes, 63 days.
    let s = settled(&with("[feeding]\nwish = \"comfortable\"\n[animals]\nfish = 6\nstart_test_passed = true"));
    let answer = missed(&s.tank, &s.plan, Some(3), &[], &start::at(0));
    let short = answer.levels.iter().find(|short| short.ion == Ion::Potassium).expect("fed");
    assert!((short.lower - 3.0 * short.a_day).abs() < 1e-12);
    if s.plan.change.share == 0.25 {
        assert_eq!(short.days_to_a_tenth, Some(63.0));
    }
}

#[test]
fn the_log_knows_when_the_last_dose_was() {
    let s = settled(HOUSEHOLD);
    let bottle = s.plan.bottles.first().expect("a bottle").clone();
    let dose = |hours: i64, ml: f64| start::kept(hours, logbook::What::Dose { bottle: bottle.name.clone(), ml });
    // Given on the 1st; on the 5th the 2nd, 3rd and 4th are missed, and today's may still come.
    let now = start::at(4 * 24);
    let by_log = missed(&s.tank, &s.plan, None, &[dose(-48, bottle.daily_ml), dose(0, bottle.daily_ml)], &now);
    assert_eq!((by_log.days, by_log.last[0].missed, by_log.last[0].on.day()), (3, 3, 1));
    assert!(start::under(&by_log.notes, "By your log").contains("on Monday, 1 June"), "{:?}", by_log.notes);
    let told = missed(&s.tank, &s.plan, Some(3), &[], &now);
    assert_eq!(by_log.levels, told.levels);
    // What is told goes before the log; without either it is one day.
    assert_eq!(missed(&s.tank, &s.plan, Some(2), &[dose(0, bottle.daily_ml)], &now).days, 2);
    assert_eq!(missed(&s.tank, &s.plan, None, &[], &now).days, 1);
    // Today's or yesterday's is none missed.
    for hours in [3 * 24, 4 * 24] {
        let none = missed(&s.tank, &s.plan, None, &[dose(hours, bottle.daily_ml)], &now);
        assert!(none.days == 0 && none.answer.starts_with("No dose was missed"), "{}", none.answer);
    }
}

#[test]
fn harm_rule_10_a_bottle_that_rests_was_not_missed() {
    let s = settled(HOUSEHOLD);
    let bottle = s.plan.bottles.first().expect("a bottle").clone();
    // Ten doses on the 1st: by hand it rests on the 2nd to the 10th; on the 5th for six days more, today with it.
    let dose = logbook::What::Dose { bottle: bottle.name.clone(), ml: 10.0 * bottle.daily_ml };
    let resting = missed(&s.tank, &s.plan, None, &[start::kept(0, dose)], &start::at(4 * 24));
    assert_eq!(resting.last[0].rests, 6);
    assert!(resting.answer.contains("rests six days more") && !resting.answer.contains("Give"), "{}", resting.answer);
}
