//! What the log holds goes before the plan, by hand: too much given, other amounts, no water yet, tests of the day.

use crate::days::{HOUSEHOLD, dose, june, log, planned};
use care::{Day, day};
use logbook::What;

fn keys(day: &Day) -> Vec<&str> {
    day.today.iter().map(|act| act.key.as_str()).collect()
}

#[test]
fn ten_doses_at_once_rest_for_nine_days() {
    let (tank, plan) = planned(HOUSEHOLD);
    let kept = log(vec![(june(1, 8), dose(50.0))]);
    // 50 / 5 - 1 = 9 days after the first: the 2nd to the 10th; the 11th is dosed again.
    for n in 2..=10 {
        let day = day(&tank, &plan, &kept, &june(n, 9));
        assert!(day.act("dose_evening").is_none(), "{n}: {:?}", keys(&day));
        let rest = day.act("rest_bottle_one").unwrap_or_else(|| panic!("{n}"));
        assert!(rest.writes.is_empty() && rest.amount == "none until 11 June", "{rest:?}");
        assert!(day.every_day.iter().any(|line| line.contains("none until 11 June")), "{:?}", day.every_day);
    }
    assert!(day(&tank, &plan, &kept, &june(11, 9)).act("dose_evening").is_some_and(|act| act.amount == "5 mL"));
    // On its day it is done, with what was given and how long it rests.
    let today = day(&tank, &plan, &kept, &june(1, 9));
    let act = today.act("dose_evening").unwrap_or_else(|| panic!());
    assert!(act.done.is_some() && act.amount == "50 mL" && act.says[0].contains("not again until 11 June"), "{act:?}");
    // A usual dose, a missed day and a little more rest nothing: 1 + 0.2 days' worth are no whole day.
    let usual = log(vec![(june(1, 8), dose(5.0)), (june(2, 8), dose(6.0))]);
    assert!(day(&tank, &plan, &usual, &june(3, 9)).act("dose_evening").is_some());
    // Days without a dose give it off: 15 mL on the 1st, nothing on the 2nd and 3rd.
    let off = log(vec![(june(1, 8), dose(15.0)), (june(4, 8), dose(5.0))]);
    assert!(day(&tank, &plan, &off, &june(5, 9)).act("dose_evening").is_some());
}

/// A keeper writes a bottle's name as they like; the log tells the same.
#[test]
fn a_bottle_is_known_by_its_name_in_small_letters_too() {
    let (tank, plan) = planned(HOUSEHOLD);
    let given = |ml: f64| What::Dose { bottle: " bottle ONE".to_owned(), ml };
    let mixed = |day| (june(day, 7), What::Done { act: care::BOTTLE_MIXED.to_owned() });
    let day = day(&tank, &plan, &log(vec![mixed(1), (june(1, 8), given(50.0))]), &june(2, 9));
    assert!(day.act("rest_bottle_one").is_some(), "{:?}", keys(&day));
    assert_eq!(day.supplies.iter().find(|supply| supply.kind == "bottle").and_then(|supply| supply.left), Some(250.0));
    let today = care::day(&tank, &plan, &log(vec![(june(1, 8), given(50.0))]), &june(1, 9));
    assert!(today.act("dose_evening").is_some_and(|act| act.done.is_some() && act.amount == "50 mL"));
    assert!(today.alarms.iter().any(|alarm| alarm.of == "dose"), "{:?}", today.alarms);
    let last = care::missed::last_doses(&plan, &log(vec![(june(1, 8), given(5.0))]), &june(4, 9));
    assert_eq!(last.first().map(|last| last.missed), Some(2));
}

#[test]
fn what_is_done_shows_what_was_logged() {
    let (tank, plan) = planned(HOUSEHOLD);
    let kept = log(vec![
        (june(13, 8), What::Change { litres: 10.0 }),
        (june(13, 8), What::Food { grams: 0.5 }),
        (june(13, 8), dose(4.0)),
    ]);
    let day = day(&tank, &plan, &kept, &june(13, 9));
    for (key, amount) in [("change", "10 L"), ("feed", "0.5 g"), ("dose_evening", "4 mL")] {
        assert!(
            day.act(key).is_some_and(|act| act.done.is_some() && act.amount == amount),
            "{key}: {:?}",
            day.act(key)
        );
    }
}

#[test]
fn a_tank_without_animals_and_without_a_line_in_its_log_is_set_up_first() {
    let (mut tank, plan) = planned(HOUSEHOLD);
    assert!(day(&tank, &plan, &[], &june(13, 9)).act("change").is_some(), "animals are told: as ever");
    (tank.animals.fish, tank.animals.shrimps) = (0, 0);
    let first = day(&tank, &plan, &[], &june(13, 9));
    assert_eq!(keys(&first), ["set_up"]);
    assert!(first.change.is_none() && first.every_day.is_empty() && first.week.iter().all(|later| !later.change));
    let kept = log(vec![(june(12, 9), What::Done { act: "set_up".to_owned() })]);
    // Week 1 of the start has no dose, weeks 2 and 3 half of it, week 4 the whole, here as in the weeks of Start.
    let dose = |d: i8| day(&tank, &plan, &kept, &june(d, 9)).act("dose_evening").map(|act| act.amount.clone());
    // Filled on Friday: nobody changes on the Saturday after it, but on the next.
    assert!(day(&tank, &plan, &kept, &june(13, 9)).act("change").is_none());
    assert!(day(&tank, &plan, &kept, &june(20, 9)).act("change").is_some());
    assert_eq!(dose(15), None);
    assert_eq!(dose(22).as_deref(), Some("2.5 mL"));
    let begins = |d: i8| day(&tank, &plan, &kept, &june(d, 9)).kind_says.contains("are those of Start");
    assert!(begins(15) && !day(&tank, &plan, &[], &june(15, 9)).kind_says.contains("are those of Start"));
    // The calendar outlives those weeks.
    let events = care::events(&tank, &plan, &kept, &june(22, 9));
    let summary = events.iter().find(|event| event.key == "dose_evening").map(|event| event.summary.as_str());
    assert!(summary.is_some_and(|says| says.ends_with("as Care says in the first weeks")), "{summary:?}");
    let long_ago = log(vec![(june(1, 9), What::Done { act: "set_up".to_owned() })]);
    let whole = day(&tank, &plan, &long_ago, &june(24, 9));
    assert_eq!(whole.act("dose_evening").map(|act| act.amount.as_str()), Some("5 mL"));
}

#[test]
fn tests_that_are_due_today_stand_in_today() {
    let (tank, plan) = planned(HOUSEHOLD);
    let mut met = false;
    for n in 1..30 {
        // A log since May, in which nothing was read.
        let kept = log(vec![(june(1, 7), What::Food { grams: 0.2 })]);
        let day = day(&tank, &plan, &kept, &june(n, 9));
        let due = |kit: &&care::Kit| kit.decides && kit.at_hand != Some(false) && kit.due == Some(day.date);
        let (due, row) = (day.tests.iter().any(|kit| due(&kit)), keys(&day).iter().any(|key| key.starts_with("test")));
        assert_eq!(due, row, "{}: {:?}", day.date, keys(&day));
        met |= due;
    }
    assert!(met, "no test was due in a month");
}

#[test]
fn wall_and_calendar_say_what_the_plan_gives_whatever_was_given_today() {
    let (tank, plan) = planned(HOUSEHOLD);
    for ml in [15.0, 60.0] {
        let kept = log(vec![(june(13, 8), dose(ml)), (june(13, 8), What::Food { grams: 3.0 })]);
        let now = june(13, 9);
        let wall = day(&tank, &plan, &kept, &now).every_day;
        assert!(
            wall.contains(&"Every evening: 5 mL".to_owned()) || wall.iter().any(|l| l.ends_with("5 mL")),
            "{wall:?}"
        );
        assert!(!wall.iter().any(|line| line.contains(&format!("{ml} mL")) || line.contains("3 g")), "{wall:?}");
        let events = care::events(&tank, &plan, &kept, &now);
        let event = events.iter().find(|event| event.key == "dose_evening").unwrap_or_else(|| panic!("{events:?}"));
        assert!(event.summary.ends_with(": 5 mL"), "{}", event.summary);
        assert!(!event.says.join(" ").contains("not again until"), "{:?}", event.says);
        // 15 mL are today and two days more: the first of them all again is the 16th; 60 mL rest for eleven, so the 25th.
        let first = if ml == 15.0 { 16 } else { 25 };
        assert_eq!(event.first.date(), june(first, 9).date());
        assert!(!events.iter().any(|event| event.key == "feed" && event.summary.contains("3 g")));
    }
}
