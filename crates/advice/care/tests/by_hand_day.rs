//! A day by hand: what is due, what is done, what is carried on, what food brings.

use crate::days::{HOUSEHOLD, SOIL, dose, june, log, planned, sentences, without};
use care::{Care, Day, day};
use knowledge::TankKind;
use logbook::What;
use recipe::Answer;
use setup::Setup;

fn keys(day: &Day) -> Vec<&str> {
    day.today.iter().map(|act| act.key.as_str()).collect()
}

#[test]
fn a_day_holds_two_or_three_acts() {
    let (tank, plan) = planned(HOUSEHOLD);
    for n in 1..30 {
        let day = day(&tank, &plan, &[], &june(n, 8));
        // Tests of a day are one row beside.
        let (tests, acts): (Vec<&str>, Vec<&str>) = keys(&day).into_iter().partition(|key| key.starts_with("test"));
        assert!((2..=3).contains(&acts.len()) && tests.len() <= 1, "{n} June: {:?}", keys(&day));
        assert_eq!(day.week.len(), 6);
        for later in &day.week {
            let acts = later.acts.iter().filter(|act| !act.key.starts_with("test")).count();
            assert!(acts + usize::from(later.change) <= 1, "{}: {:?}", later.date, later.acts);
        }
    }
    // 13 June is a Saturday: what goes along with the change, and into the new water after it, stands on its sheet.
    let saturday = |kept: &[logbook::Kept]| day(&tank, &plan, kept, &june(13, 20));
    let day = saturday(&[]);
    assert_eq!(keys(&day), ["feed", "change"]);
    let after: Vec<&str> = day.change.iter().flat_map(|sheet| &sheet.after).map(|act| act.key.as_str()).collect();
    assert_eq!(after, ["dose_evening"]);
    assert_eq!(day.act("dose_evening").map(|act| act.writes.len()), Some(1), "one thumb, as ever");
    // The day is not done before it is given.
    let mut done = vec![(june(13, 9), What::Food { grams: 0.2 }), (june(13, 10), What::Change { litres: 36.3 })];
    let open = saturday(&log(done.clone()));
    assert!(!open.all_done(), "{:?}", keys(&open));
    done.push((june(13, 19), dose(5.0)));
    let given = saturday(&log(done));
    assert!(given.act("dose_evening").is_some_and(|act| act.done.is_some()), "{:?}", keys(&given));
    let along: Vec<&str> = day.change.iter().flat_map(|sheet| &sheet.along).map(|act| act.key.as_str()).collect();
    assert!(along.contains(&"glass"), "{along:?}");
}

/// The household with a second bottle for the morning: three acts every day, and what evaporates.
fn three_a_day(more: &[(&str, &str)]) -> (setup::Tank, recipe::Plan) {
    let text = more.iter().fold(HOUSEHOLD.replace("[habits]", "[habits]\ntop_up = \"0.5 L a day\""), |text, (a, b)| {
        assert!(text.contains(a), "{a}");
        text.replace(a, b)
    });
    let (tank, mut plan) = planned(&text);
    let mut second = plan.bottles[0].clone();
    (second.name, second.time_of_day) = ("Bottle two".to_owned(), "every morning".to_owned());
    plan.bottles.push(second);
    (tank, plan)
}

#[test]
fn a_day_of_three_acts_takes_no_fourth_and_the_rest_suits_any_day_of_the_week() {
    let (tank, plan) = three_a_day(&[]);
    let mut waits = 0;
    // Changed each Saturday, and nothing else is ever done.
    let changed = |until: i8| {
        let saturdays = [6, 13, 20, 27].into_iter().filter(|n| *n < until);
        let all = saturdays.map(|n| (june(n, 10), What::Change { litres: 36.3 }));
        log(std::iter::once((june(1, 7), What::Food { grams: 0.2 })).chain(all).collect())
    };
    for n in 2..30 {
        let day = day(&tank, &plan, &changed(n), &june(n, 8));
        assert!(day.today.len() <= 3, "{n}: {:?}", keys(&day));
        let also: Vec<&str> = day.also.iter().map(|act| act.key.as_str()).collect();
        assert!(also.iter().all(|key| day.act(key).is_some() && !keys(&day).contains(key)), "{n}: {also:?}");
        waits += also.len();
        // A test whose day it is stands in one of the two.
        let due = day.tests.iter().any(|kit| kit.decides && kit.due == Some(day.date));
        let row = keys(&day).iter().chain(&also).any(|key| key.starts_with("test") && *key != "test_button");
        assert_eq!(due, row, "{n}: {also:?}");
        // What no day has room for has its place all the same. By hand: a change fills up, and three days after it topping up is due.
        let filled = [(9, 12), (16, 19), (23, 26)].iter().any(|(from, to)| (*from..=*to).contains(&n));
        assert!(!filled || also.contains(&"top_up"), "{n}: {also:?}");
    }
    assert!(waits >= 12, "{waits}");
    // Ticked off there it stays there, done, and the day is as it was.
    let before = day(&tank, &plan, &changed(10), &june(10, 8));
    let ticked = log(vec![(june(6, 10), What::Change { litres: 36.3 }), (june(10, 9), What::TopUp { litres: 1.5 })]);
    let after = day(&tank, &plan, &ticked, &june(10, 10));
    assert_eq!(keys(&before), keys(&after));
    assert!(after.also.iter().any(|act| act.key == "top_up" && act.done.is_some()), "{:?}", after.also);
}

#[test]
fn harm_rule_15_a_test_that_protects_stands_in_the_fullest_day() {
    let (tank, plan) = three_a_day(&[("start_test_passed = true", "start_test_passed = false")]);
    let met = (1..30).filter(|n| {
        let day = day(&tank, &plan, &[], &june(*n, 8));
        let due = day.tests.iter().any(|kit| kit.key == "ammonia_n" && kit.due == Some(day.date));
        let row = day.today.iter().any(|act| act.key.starts_with("test") && act.name.contains("ammonia"));
        assert_eq!(due, row, "{n}: {:?}", keys(&day));
        due && day.today.len() == 4
    });
    assert!(met.count() > 5);
}

#[test]
fn the_food_of_a_day_by_hand() {
    let (tank, plan) = planned(HOUSEHOLD);
    let day = day(&tank, &plan, &[], &june(10, 8));
    let food = day.food.clone().map(|food| (food.grams, food.nitrogen_mg, food.phosphorus_mg));
    // 0.2 g x 35 % protein / 6.25 = 0.0112 g of nitrogen; 0.2 g x 1 % = 0.002 g of phosphorus.
    let (grams, nitrogen, phosphorus) = food.unwrap_or_default();
    assert_eq!(grams, 0.2);
    assert!((nitrogen - 11.2).abs() < 1e-9 && (phosphorus - 2.0).abs() < 1e-9, "{nitrogen} {phosphorus}");
    let said = day.act("feed").map(|act| act.says.join(" ")).unwrap_or_default();
    assert!(said.contains("11 mg of nitrogen and 2 mg of phosphorus") && said.contains("all 12 fish"), "{said}");
}

#[test]
fn what_is_done_stays_with_its_hour_and_nothing_takes_its_place() {
    let (tank, plan) = planned(HOUSEHOLD);
    let before = day(&tank, &plan, &[], &june(10, 8));
    let kept = log(vec![(june(10, 7), dose(5.0)), (june(10, 8), What::Food { grams: 0.2 })]);
    let after = day(&tank, &plan, &kept, &june(10, 9));
    assert_eq!(keys(&before), keys(&after));
    let done = after.act("dose_evening").and_then(|act| act.done.clone());
    assert_eq!(done.map(|done| (done.at.hour(), done.ids)), Some((7, vec![1])));
    assert_eq!(after.act("feed").and_then(|act| act.done.clone()).map(|done| done.ids), Some(vec![2]));
    // Yesterday's dose is not today's.
    let next = day(&tank, &plan, &kept, &june(11, 9));
    assert!(next.act("dose_evening").is_some_and(|act| act.done.is_none()));
    // What the log says of later than now is not read.
    let early = day(&tank, &plan, &kept, &june(10, 6));
    assert!(early.today.iter().all(|act| act.done.is_none()));
}

#[test]
fn missed_acts_are_carried_on_and_never_doubled() {
    let (tank, plan) = planned(HOUSEHOLD);
    // Changed on 6 June, nothing since; it is Tuesday the 16th.
    let kept = log(vec![(june(6, 10), What::Change { litres: 36.3 })]);
    let day = day(&tank, &plan, &kept, &june(16, 8));
    let change = day.act("change").unwrap_or_else(|| panic!("{:?}", keys(&day)));
    assert_eq!(change.since, Some(june(13, 0).date()));
    assert_eq!(change.amount, "36.3 L", "one change, not two");
    assert_eq!(day.act("dose_evening").map(|act| act.amount.as_str()), Some("5 mL"), "ten days without a dose");
    assert!(matches!(change.writes.as_slice(), [What::Change { litres }] if *litres == 36.3));
}

#[test]
fn the_same_log_in_any_order_gives_the_same_day() {
    let (tank, plan) = planned(HOUSEHOLD);
    let mut kept = log(vec![
        (june(6, 10), What::Change { litres: 36.3 }),
        (june(9, 10), What::TopUp { litres: 1.4 }),
        (june(12, 8), dose(5.0)),
    ]);
    let one = day(&tank, &plan, &kept, &june(12, 9));
    kept.reverse();
    assert_eq!(one, day(&tank, &plan, &kept, &june(12, 9)));
}

#[test]
fn each_kind_of_tank_has_its_own_routine() {
    let slow = without(HOUSEHOLD, "energy").replace("[light]", "[light]\nenergy = \"low\"");
    let slow = without(&without(&slow, "change ="), "every =");
    let soil = without(&without(SOIL, "change ="), "every =");
    let kinds =
        [(HOUSEHOLD, TankKind::Daily, 7, 0.4), (&slow, TankKind::Slow, 14, 0.2), (&soil, TankKind::Soil, 0, 0.0)];
    for (text, kind, every, share) in kinds {
        let (tank, plan) = planned(text);
        assert_eq!(tank.kind(), kind);
        assert_eq!(plan.change.every_days, every);
        assert!((plan.change.share - share).abs() < 1e-9, "{kind:?}: {}", plan.change.share);
    }
}

#[test]
fn a_soil_tank_is_neither_dosed_nor_changed_by_the_calendar() {
    let soil = without(&without(SOIL, "change ="), "every =");
    for text in [SOIL, &soil] {
        let (tank, plan) = planned(text);
        let told = plan.change.every_days > 0;
        for n in 1..30 {
            let day = day(&tank, &plan, &[], &june(n, 8));
            assert_eq!(day.kind, TankKind::Soil);
            assert!(!day.today.iter().any(|act| act.key.starts_with("dose")), "{:?}", keys(&day));
            let acts = day.today.iter().chain(day.week.iter().flat_map(|later| &later.acts));
            assert!(!acts.flat_map(|act| &act.writes).any(|what| matches!(what, What::Dose { .. })));
            assert_eq!(day.change.is_some(), told, "only where its keeper told of changes");
            assert!(day.change.iter().all(|sheet| sheet.share < 0.25), "no half change");
            assert!(!sentences(&day).iter().any(|say| say.contains("sponge")), "no filter");
        }
    }
}

#[test]
fn while_a_question_is_open_each_reply_has_its_own_day() {
    let text = include_str!("../../../../examples/household/tank-question.toml");
    let Ok(answer) = Setup::read("tank.toml", text).and_then(|setup| recipe::answer(&setup)) else {
        panic!("no answer")
    };
    assert!(matches!(answer, Answer::Open { .. }));
    let Care::Open { question, outcomes } = care::care(&answer, &[], &june(10, 8)) else {
        panic!("a headline on an open question")
    };
    assert_eq!(outcomes.len(), question.replies.len());
    for outcome in outcomes {
        assert!(matches!(*outcome.care, Care::Settled { .. }));
    }
}

#[test]
fn nothing_else_today_is_a_finished_day() {
    let (tank, plan) = planned(HOUSEHOLD);
    let kept = log(vec![(june(10, 7), dose(5.0)), (june(10, 8), What::Food { grams: 0.2 })]);
    let wednesday = day(&tank, &plan, &kept, &june(10, 9));
    let open: Vec<&str> = wednesday.today.iter().filter(|act| act.done.is_none()).map(|act| act.key.as_str()).collect();
    assert_eq!(wednesday.all_done(), open.is_empty(), "{open:?}");
}

#[test]
fn what_evaporates_is_counted_from_the_last_time() {
    let (tank, plan) = planned(&HOUSEHOLD.replace("[habits]", "[habits]\ntop_up = \"0.5 L a day\""));
    // Changed on Saturday the 6th, topped up on Tuesday the 9th: on the 12th three days, 1.5 L.
    let mut kept = vec![
        (june(6, 10), What::Change { litres: 36.3 }),
        (june(9, 10), What::TopUp { litres: 1.5 }),
        (june(12, 7), dose(5.0)),
    ];
    let today = day(&tank, &plan, &log(kept.clone()), &june(12, 8));
    assert_eq!(today.act("top_up").map(|act| act.amount.as_str()), Some("about 1.5 L"));
    // Done with a litre: the row says what was poured, and the next counts from here.
    kept.push((june(12, 9), What::TopUp { litres: 1.0 }));
    let done = day(&tank, &plan, &log(kept), &june(12, 10));
    assert_eq!(done.act("top_up").map(|act| (act.amount.as_str(), act.done.is_some())), Some(("1 L", true)));
    let next = done.week.iter().find_map(|later| later.acts.iter().find(|act| act.key == "top_up"));
    let next = next.map(|act| (act.amount.as_str(), act.done.is_some()));
    assert!(next.is_none_or(|next| next == ("about 1.5 L", false)), "{next:?}");
}
