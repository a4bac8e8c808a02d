//! No ammonia where animals live, and no newcomer while ammonia or nitrite shows (harm rule 15); each test fails when its rule is taken out.

use crate::start::{EMPTY, HOUSEHOLD, Settled, at, done, kept, read, settled, under, with};
use care::start::{AMMONIA, Bag, GIVEN, NITRITE, Start};
use logbook::{Kept, What};

fn begin(s: &Settled, log: &[Kept], hours: i64) -> Start {
    care::start::start(&s.setup, &s.tank, &s.plan, log, &at(hours), &Bag::default())
}

/// A round begun at an hour, read a day later.
fn round(hours: i64, ammonia: f64, nitrite: f64) -> Vec<Kept> {
    vec![done(hours, GIVEN), read(hours + 24, AMMONIA, ammonia, false), read(hours + 24, NITRITE, nitrite, false)]
}

#[test]
fn rule_15_with_animals_no_sentence_says_give_the_ammonia() {
    let snails = kept(10, What::Animals { who: "snails".into(), change: 2, counted: None });
    let says = |log: &[Kept]| begin(&settled(EMPTY), log, 60).test.says;
    for log in [round(0, 0.02, 0.02), round(0, 0.2, 0.02), vec![done(0, GIVEN)]] {
        assert!(says(&log).contains("give the ammonia again"), "{}", says(&log));
        let sold = kept(0, What::Animals { who: "fish".into(), change: 0, counted: Some(0) });
        assert!(says(&[log.clone(), vec![sold]].concat()).contains("Give the ammonia again"), "{}", says(&log));
        let lived_in = [log, vec![snails.clone()]].concat();
        let says = says(&lived_in);
        assert!(!says.to_lowercase().contains("give the ammonia") && says.contains("give no ammonia"), "{says}");
        assert!(!says.contains("Wait ") && !says.contains("hours later"), "{says}");
    }
    // Animals in the setup alone: only while none is in it.
    let listed = settled(&with("[animals]\nfish = 6"));
    assert!(begin(&listed, &round(0, 0.2, 0.02), 60).test.says.contains("Only while no animal is in it"));
}

#[test]
fn rule_15_no_animal_comes_while_ammonia_shows() {
    let s = settled(HOUSEHOLD);
    let calm = begin(&s, &[], 100);
    assert!(calm.waits.is_none());
    // Animals live there: a third first is for a tank that begins.
    let before = under(&calm.home.steps, "Before you go").to_owned();
    assert!(!before.contains("third") && before.contains("few new ones at a time"), "{before}");
    for of in [AMMONIA, NITRITE] {
        let start = begin(&s, &[read(0, of, 0.5, false)], 100);
        assert!(start.answer.starts_with("No animal comes now: the log has 0.5 mg/L"), "{}", start.answer);
        assert!(under(&start.home.steps, "Before you go").starts_with("No animal comes now"));
        // It stands until a test is low again, or until weeks have passed.
        assert!(begin(&s, &[read(0, of, 0.5, false), read(50, of, 0.02, false)], 100).waits.is_none());
    }
}

#[test]
fn rule_15_animals_that_the_log_brings_into_toxic_water_are_an_alarm() {
    let s = settled(&with("[animals]\nfish = 0\nshrimps = 0\nsnails = 0"));
    assert!(!s.tank.animals.any());
    let toxic = [read(0, AMMONIA, 2.0, false), read(0, NITRITE, 0.5, false)];
    let came = kept(8, What::Animals { who: "shrimps".into(), change: 20, counted: None });
    let alarms = |log: &[Kept]| care::day(&s.tank, &s.plan, log, &at(9)).alarms;
    assert!(alarms(&toxic).is_empty());
    let found = alarms(&[&toxic[..], std::slice::from_ref(&came)].concat());
    for of in [AMMONIA, NITRITE] {
        assert!(found.iter().any(|a| a.of == of && a.urgency == trouble::Urgency::AtOnce && a.no_food), "{found:#?}");
    }
    // It is asked before it is written, and not where the water is low.
    let answer = recipe::Answer::Settled { tank: Box::new(s.tank.clone()), plan: Box::new(s.plan.clone()) };
    let asked = care::really(&answer, &came.entry, &toxic).unwrap_or_default();
    assert!(asked.starts_with("Really? By the last reading no animal comes into this water"), "{asked}");
    assert!(asked.contains("0.016"), "{asked}");
    assert_eq!(care::really(&answer, &came.entry, &[read(0, AMMONIA, 0.0, false)]), None);
    let gone = kept(8, What::Animals { who: "shrimps".into(), change: -2, counted: None });
    assert_eq!(care::really(&answer, &gone.entry, &toxic), None);
    // The entries that the question looks at hold the test.
    assert!(care::round(&came.entry).lets_through(&toxic[0].entry));
}

/// Nobody counts so many; but whoever mistypes a head count keeps the alarm.
#[test]
fn rule_15_no_head_count_is_so_large_that_nobody_is_left() {
    let s = settled(&with("[animals]\nfish = 0\nshrimps = 0\nsnails = 0"));
    let counted = |who: &str, n| kept(8, What::Animals { who: who.into(), change: 0, counted: Some(n) });
    let log = [read(0, AMMONIA, 2.0, false), counted("shrimps", u32::MAX), counted("snails", 1)];
    let alarms = care::day(&s.tank, &s.plan, &log, &at(9)).alarms;
    assert!(alarms.iter().any(|alarm| alarm.of == AMMONIA && alarm.no_food), "{alarms:#?}");
}

/// Two entries of one minute count in the order in which they were written, and one of tomorrow has not happened.
#[test]
fn rule_15_who_lives_there_is_counted_in_order_and_up_to_now() {
    let s = settled(EMPTY);
    let animals =
        |hours, id, change, counted| Kept { id, ..kept(hours, What::Animals { who: "fish".into(), change, counted }) };
    let lives = |log: &[Kept]| begin(&s, log, 60).test.animals_in;
    // Counted none, then five came: a log lists the latest first.
    let one_minute = [animals(10, 2, 5, None), animals(10, 1, 0, Some(0))];
    assert_eq!(lives(&one_minute), Some(true));
    let gone_tomorrow = [animals(80, 2, 0, Some(0)), animals(10, 1, 5, None)];
    assert_eq!(lives(&gone_tomorrow), Some(true));
}
