//! The first weeks of a ground that gives off ammonia, as Care carries them out: the same rows as Start, by hand.
//!
//! Judge: hand arithmetic; the rhythm is common practice (`data/start.toml`).

use crate::start;

use crate::start::{EMPTY, Settled, kept, settled};
use care::start::{Bag, SET_UP};
use care::{Act, Day, day, events};
use jiff::ZonedDateTime;
use logbook::{Kept, Reading, Sure, What};

/// Nobody lives there, by the keeper's word.
const NOBODY: &str = "\n[animals]\nfish = 0\nshrimps = 0\nsnails = 0\nother_invertebrates = 0\n";

/// 200 L of water over 25 L of active ground, 185 L at 40 % pores; the habit is 25 % a week. Filled on Monday, 1 June.
fn active() -> (Settled, Vec<Kept>) {
    let s = settled(&(EMPTY.replace("kind = \"gravel\"", "kind = \"baked_soil\"") + NOBODY));
    assert!((s.tank.geometry.true_l.value - 185.0).abs() < 0.01);
    (s, vec![kept(0, What::Done { act: SET_UP.to_owned() })])
}

/// Eight in the morning of a day of June.
fn june(day: i64) -> ZonedDateTime {
    start::at(24 * (day - 1) - 4)
}

fn on(s: &Settled, log: &[Kept], d: i64) -> Day {
    day(&s.tank, &s.plan, log, &june(d))
}

/// Whether ammonia is tested among these acts, alone or with others.
fn tests_ammonia(acts: &[Act]) -> bool {
    acts.iter().any(|act| act.key.starts_with("test") && act.name.contains("ammonia"))
}

fn changed(d: i64, litres: f64) -> Kept {
    kept(24 * (d - 1) - 3, What::Change { litres })
}

/// Days of June on which the change is due, if each is done on its day.
fn changes(s: &Settled, log: &mut Vec<Kept>, until: i64) -> Vec<(i64, f64)> {
    let mut all = Vec::new();
    for d in 2..=until {
        let day = on(s, log, d);
        if let Some(What::Change { litres }) = day.act("change").and_then(|act| act.writes.first()) {
            assert!(tests_ammonia(&day.today), "{d}: a test before it");
            all.push((d, *litres));
            log.push(changed(d, *litres));
        }
    }
    all
}

#[test]
fn every_second_day_half_of_it_for_two_weeks_then_once_a_week() {
    let (s, mut log) = active();
    // By hand: filled on the 1st; 3, 5, 7, 9, 11, 13 are in the first two weeks (1 to 14 June); each 0.5 × 185 L = 92.5 L.
    let all = changes(&s, &mut log, 28);
    let often: Vec<i64> = all.iter().map(|(d, _)| *d).filter(|d| *d <= 14).collect();
    assert_eq!(often, [3, 5, 7, 9, 11, 13]);
    assert!(all.iter().all(|(_, litres)| (litres - 92.5).abs() < 0.3), "{all:?}");
    // Then by the week, on Saturdays: 20 and 27 June.
    let weekly: Vec<i64> = all.iter().map(|(d, _)| *d).filter(|d| *d > 14).collect();
    assert_eq!(weekly, [20, 27]);
}

#[test]
fn the_sheet_says_why_and_has_its_buckets() {
    let (s, log) = active();
    let day = on(&s, &log, 3);
    let sheet = day.change.clone().unwrap_or_else(|| panic!("{day:?}"));
    // 92.5 L ÷ 9 L = 10.3: eleven buckets of 8.41 L.
    assert_eq!(sheet.buckets.0, 11);
    assert!((sheet.litres - 92.5).abs() < 1e-9 && (sheet.buckets.1 - 92.5 / 11.0).abs() < 1e-9);
    let says = sheet.first.join(" ");
    // Harm rules 7 and 15: the number at which harm starts stands in the sentence, and that no animal is in it.
    assert!(
        says.contains("50 % every 2 days") && says.contains("no animal is in it") && says.contains("0.016"),
        "{says}"
    );
    assert_eq!(day.change_every_days, 2);
    // The day before has no change, and its week shows the ones that come: Wednesday, Friday, Sunday.
    let monday = on(&s, &log, 2);
    assert!(monday.act("change").is_none() && !tests_ammonia(&monday.today));
    let days: Vec<i8> = monday.week.iter().filter(|later| later.change).map(|later| later.date.day()).collect();
    assert_eq!(days, [3, 5, 7]);
    let tested: Vec<i8> =
        monday.week.iter().filter(|later| tests_ammonia(&later.acts)).map(|later| later.date.day()).collect();
    assert_eq!(tested, days);
}

#[test]
fn care_and_start_say_the_same_rows() {
    let (s, log) = active();
    for d in [2, 4, 9, 14, 15, 22, 30, 36, 43, 50, 55] {
        let start = care::start::start(&s.setup, &s.tank, &s.plan, &log, &june(d), &Bag::default());
        let week = start.weeks.iter().rfind(|week| week.from.is_some_and(|from| from <= june(d).date()));
        let week = week.or(start.weeks.first()).unwrap_or_else(|| panic!());
        assert_eq!(on(&s, &log, d).change_every_days, week.every_days, "{d}");
        let event = events(&s.tank, &s.plan, &log, &june(d)).into_iter().find(|event| event.key == "change");
        assert_eq!(event.map(|event| event.every_days), Some(week.every_days), "{d}");
        let tested = on(&s, &log, d).tests.iter().any(|kit| kit.key == "ammonia_n");
        assert_eq!(tested, week.tests.contains("ammonia before"), "{d}: {}", week.tests);
    }
    // Week nine is no week of Start.
    let later = on(&s, &log, 57);
    assert_eq!(later.change_every_days, 7);
    assert!(!later.tests.iter().any(|kit| kit.key == "ammonia_n"), "{:?}", later.tests);
    assert!(!later.kind_says.contains("first weeks"));
}

#[test]
fn a_ground_that_gives_off_nothing_keeps_the_usual_rhythm() {
    let s = settled(&format!("{EMPTY}{NOBODY}"));
    let log = [kept(0, What::Done { act: SET_UP.to_owned() })];
    assert_eq!(on(&s, &log, 3).change_every_days, 7);
    // What was measured in a glass of water goes before the table.
    let s = settled(&format!("{EMPTY}{NOBODY}\n[measured]\nground_ammonia = true\n"));
    assert_eq!(on(&s, &log, 3).change_every_days, 2);
}

#[test]
fn harm_rule_6_where_animals_live_it_stays_with_the_plan_and_tests_every_day() {
    let (mut s, mut log) = active();
    s.tank.animals.snails = 3;
    // Listed, and nothing says whether they have come: half, but the sentence asks first and names the plan's own litres.
    let sheet = on(&s, &log, 3).change.unwrap_or_else(|| panic!());
    let says = sheet.first.join(" ");
    // By hand: the habit's 25 % of 185 L.
    assert!((s.plan.change.litres - 46.25).abs() < 1e-9);
    assert!(says.contains("Does one live in it already?") && says.contains("46.2 L and no more"), "{says}");
    log.push(kept(1, What::Animals { who: "snails".to_owned(), change: 3, counted: None }));
    let day = on(&s, &log, 3);
    assert_eq!(day.change_every_days, 7);
    assert!(day.change.iter().all(|sheet| (sheet.litres - 46.25).abs() < 1e-9));
    for d in 2..8 {
        let day = on(&s, &log, d);
        let row = day.act("tests").or(day.act("test_ammonia_n")).unwrap_or_else(|| panic!("{d}"));
        assert!(row.name.contains("ammonia") && row.name.contains("nitrite"), "{row:?}");
    }
}

#[test]
fn harm_rule_1_its_conditioner_is_for_its_own_buckets_from_the_same_stock() {
    let text = EMPTY.replace("kind = \"gravel\"", "kind = \"baked_soil\"");
    let s =
        settled(&text.replace("disinfectant = \"none\"", "disinfectant = \"chlorine\"\ntotal_chlorine = \"0.8 mg/L\""));
    let log = [kept(0, What::Done { act: SET_UP.to_owned() })];
    let c = s.plan.new_water.conditioner.clone().unwrap_or_else(|| panic!());
    let sheet = on(&s, &log, 3).change.unwrap_or_else(|| panic!());
    let ml = sheet.conditioner_ml.unwrap_or_else(|| panic!());
    // By hand: 0.8 mg/L × 7.0 mg × 8.41 L = 47.1 mg of thiosulfate in each bucket, and what a mL of the plan's stock holds (at most
    // its grams); rounded up by no more than a step of the syringe.
    let need_mg = 0.8 * 7.0 * 92.5 / 11.0;
    let mg_per_ml = 1000.0 * c.stock_g / c.stock_ml;
    let step = s.tank.at_hand.syringe_ml.value;
    assert!(ml * mg_per_ml >= need_mg, "{ml} mL × {mg_per_ml} < {need_mg}");
    assert!(ml <= 1.3 * need_mg / mg_per_ml + 2.0 * step, "{ml} mL × {mg_per_ml} beside {need_mg}");
}

#[test]
fn a_test_of_the_day_is_ticked_by_its_reading() {
    let (s, mut log) = active();
    let reading =
        Reading { of: "ammonia_n".to_owned(), value: 2.0, below: false, error: None, kit: None, sure: Sure::Plain };
    log.push(kept(24 * 2 - 5, What::Test(reading)));
    let day = on(&s, &log, 3);
    assert!(day.act("test_ammonia_n").is_some_and(|act| act.done.is_some()), "{:?}", day.today);
    assert!(day.act("change").is_some_and(|act| act.done.is_none()));
}
