//! Away: what lasts how long, what evaporates, what is fed, by hand.
//!
//! Judge: hand arithmetic beside each check.

use crate::start;

use crate::start::away;
use crate::start::{EMPTY, HOUSEHOLD, settled, with};
use care::away::Ask;
use quantity::Ion;

/// Two weeks, at eight hours of light.
fn ask(days: u32) -> Ask {
    Ask { days, leaving: Some("2026-07-01".parse().expect("a date")), light_h: 8.0 }
}

#[test]
fn a_level_lasts_as_long_as_what_is_there_over_what_is_taken() {
    let s = settled(HOUSEHOLD);
    let a = away(&s.tank, &s.plan, ask(14));
    let potassium = a.lasts.iter().find(|l| l.ion == Ion::Potassium).expect("fed");
    // Six of eight hours: three quarters of the uptake; food brings no potassium here; topping up brings tap × litres a day ÷ litres.
    let taken = 0.75 * s.tank.growth.uptake_mg_per_l_day[&Ion::Potassium].value;
    let brought = 3.0 * s.tank.habits.top_up_l_per_day.value / s.tank.geometry.true_l.value;
    let from = s.plan.levels.iter().find(|l| l.ion == Some(Ion::Potassium)).expect("planned").after_change.value;
    let days = from / (taken - brought);
    assert!((potassium.days.expect("it falls") - days).abs() < 1e-9, "{potassium:?} {days}");
    assert!(potassium.days_poorest.expect("it falls") < days);
    // Only what is aimed at: what comes along with a salt is taken by nobody and lasts for ever.
    let aimed = |ion: Ion| s.plan.levels.iter().any(|l| l.ion == Some(ion) && l.band.is_some());
    assert!(a.lasts.iter().all(|l| aimed(l.ion)) && !a.lasts.iter().any(|l| l.ion == Ion::Chloride), "{:?}", a.lasts);
    assert!(a.reduced.iter().any(|note| note.text.contains("None is given while you are away")));
}

#[test]
fn the_waterline_falls_by_litres_over_square_metres() {
    // 100 × 50 cm of surface; 0.4 L a day for 14 days are 5.6 L: ÷ 0.5 m² = 11.2 mm. 5.6 ÷ (185 - 5.6) = 3.1 %: nobody needs to top up.
    let s = settled(&with("").replace("every = \"7 days\"", "every = \"7 days\"\ntop_up = \"0.4 L a day\""));
    let water = away(&s.tank, &s.plan, ask(14)).water;
    assert!((water.lost_l.value - 5.6).abs() < 1e-9 && (water.falls_mm.value - 11.2).abs() < 1e-9, "{water:?}");
    assert!((water.stronger_percent - 100.0 * 5.6 / 179.4).abs() < 1e-9, "{water:?}");
    assert_eq!(water.visits, 0);
    // 2 L a day: 28 L, 28 ÷ 157 = 17.8 %, over a tenth. A visit every third day: 14 ÷ 3 = 4.7: five, the last at home: four; 28 ÷ 5 L in a
    // visit at most: six; 28 L in seven parts, the last at home.
    let s = settled(&EMPTY.replace("every = \"7 days\"", "every = \"7 days\"\ntop_up = \"2 L a day\""));
    let water = away(&s.tank, &s.plan, ask(14)).water;
    assert_eq!(water.visits, 6);
    assert!((water.each_l - 4.0).abs() < 1e-9, "{water:?}");
}

#[test]
fn meals_are_few_and_small_and_none_where_a_week_is_borne() {
    let s = settled(HOUSEHOLD);
    // 14 days: on days 3, 6, 9 and 12, half of 0.2 g each: 4 × 0.1 ÷ (14 × 0.2) = 14 % of what is given at home.
    let a = away(&s.tank, &s.plan, ask(14));
    assert_eq!((a.meals.count, a.meals.every_days), (4, 3));
    assert!((a.meals.grams - 0.1).abs() < 1e-9 && (a.meals.share - 4.0 * 0.1 / (14.0 * 0.2)).abs() < 1e-9);
    let card = a.card.expect("somebody looks in");
    let days: Vec<u32> = card.visits.iter().map(|visit| visit.day).collect();
    assert_eq!(days, [3, 6, 9, 12]);
    // 1 July and three days: Saturday the 4th.
    assert_eq!(card.visits[0].when, "Saturday, 4 July");
    let week = away(&s.tank, &s.plan, ask(7));
    assert_eq!(week.meals.count, 0);
    // Young fish are never left without.
    let young = settled(&HOUSEHOLD.replace("fish = 12", "fish = 12\nyoung = true"));
    let a = away(&young.tank, &young.plan, ask(5));
    assert!(a.meals.young && a.before.iter().any(|note| note.about == "Young fish"), "{:?}", a.before);
}

#[test]
fn alkalinity_that_would_run_out_is_said() {
    let s = settled(start::SOFT);
    let a = away(&s.tank, &s.plan, ask(28));
    let by_hand =
        s.plan.alkalinity.after_change.low - 28.0 * a.meals.share * s.tank.growth.alkalinity_eaten_meq_per_l_day.high;
    assert!((a.alkalinity_left_meq_per_l - by_hand).abs() < 1e-12);
    let told = a.reduced.iter().any(|note| note.about == "Alkalinity");
    assert_eq!(told, by_hand < 0.36, "{by_hand}");
}

#[test]
fn an_absence_is_kept_within_what_can_be_answered() {
    let s = settled(HOUSEHOLD);
    let a = away(&s.tank, &s.plan, Ask { days: 4000, leaving: None, light_h: 0.0 });
    assert_eq!((a.ask.days, a.ask.light_h), (28, 1.0));
    assert!(a.answer.starts_with("28 days away"), "{}", a.answer);
}
