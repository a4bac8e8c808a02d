//! Another tap, begun from what the log has read of the tank, by hand; and a tank of which nobody knows what stands in it.

use crate::start;

use crate::start::{Settled, at, bicarbonate_tap, kept, settled, texts, under};
use care::moving::{Moving, moving};
use logbook::{Kept, Reading, Sure, What};

fn tap(meq: f64, more: &str, top_up: &str) -> Settled {
    settled(&bicarbonate_tap(meq, more, top_up))
}

fn read(hours: i64, of: &str, value: f64) -> Kept {
    start::read(hours, of, value, false)
}

/// To a tap of 4.2 meq/L, ten days after noon of 1 June.
fn way(old: &Settled, log: &[Kept]) -> Moving {
    let new = tap(4.2, "", "0");
    moving((&old.tank, &old.plan), (&new.tank, &new.plan), log, &at(10 * 24))
}

fn now(m: &Moving) -> [f64; 3] {
    m.from.all().map(|mark| mark.unwrap_or(f64::NAN))
}

#[test]
fn the_last_readings_go_before_what_the_plan_would_hold() {
    let old = tap(3.0, "", "0");
    // By its plan the tank holds its tap's 3.0 of both.
    let plain = now(&way(&old, &[]));
    assert!((plain[0] - 3.0).abs() < 1e-6 && (plain[1] - 3.0).abs() < 1e-3, "{plain:?}");
    let log = [read(24, "alkalinity", 0.5), read(9 * 24, "alkalinity", 2.0), read(9 * 24, "hardness", 2.4)];
    let m = way(&old, &log);
    let marks = now(&m);
    assert!((marks[0] - 2.0).abs() < 1e-9 && (marks[1] - 2.4).abs() < 1e-9, "the latest of each: {marks:?}");
    let says = under(&m.notes, "By your log");
    assert!(says.contains("lkalinity 2 meq/L") || says.contains("lkalinity 5.6"), "{says}");
    assert!(says.contains("on Wednesday, 10 June"), "{says}");
    // By hand: 2.0 to 4.2 are 2.2 apart, 0.36 a day: 16.4 %; hardness 2.4 to 4.2: 0.3566 ÷ 1.8 = 19.8 %; so at most 16.4 %.
    let first = m.steps.first().expect("steps");
    assert!(first.share <= 0.36 / 2.2 + 1e-9 && first.share > 0.1, "{first:?}");
    // Too old, or not sure: the plan's.
    let unsure =
        Reading { of: "alkalinity".into(), value: 1.0, below: false, error: None, kit: None, sure: Sure::NotSure };
    for log in [read(-5 * 24, "alkalinity", 1.0), kept(9 * 24, What::Test(unsure))] {
        assert!((now(&way(&old, &[log]))[0] - 3.0).abs() < 1e-6);
    }
    // A conductivity that was read stands as it was read.
    assert!((now(&way(&old, &[read(9 * 24, "conductivity", 700.0)]))[2] - 700.0).abs() < 1e-9);
}

#[test]
fn water_that_was_changed_since_a_reading_is_counted() {
    let old = tap(3.0, "", "0");
    let half = |hours: i64| kept(hours, What::Change { litres: 92.5 });
    // By hand: read 1.0; half of 185 L changed with 3.0: 3 + (1 - 3) × 0.5 = 2.0; twice: 2.5. A change before it tells nothing.
    for (log, by_hand) in [
        (vec![read(5 * 24, "alkalinity", 1.0), half(6 * 24)], 2.0),
        (vec![read(5 * 24, "alkalinity", 1.0), half(6 * 24), half(7 * 24)], 2.5),
        (vec![half(4 * 24), read(5 * 24, "alkalinity", 1.0)], 1.0),
    ] {
        let found = now(&way(&old, &log))[0];
        assert!((found - by_hand).abs() < 1e-9, "{found} beside {by_hand}");
    }
}

#[test]
fn harm_rules_6_to_8_no_figure_of_now_stands_for_a_tank_that_nobody_changed() {
    for top_up in ["0", "1"] {
        let old = tap(3.0, "unchanged_months = 8", top_up);
        let m = way(&old, &[]);
        assert_eq!(m.from.all(), [None; 3]);
        assert!(m.steps.iter().all(|step| step.after.all() == [None; 3]), "{:?}", m.steps);
        let first = under(&m.notes, "Test your tank first");
        assert!(first.contains("I can’t tell") && first.contains("none stands here as now"), "{first}");
        assert_eq!(first.contains("up to"), top_up == "1", "{first}");
        // Nor a pH or toxic share that follows from it; the number at which harm starts stands all the same.
        let ammonia = under(&m.notes, "Ammonia");
        assert!(ammonia.contains("I can’t tell") && ammonia.contains("0.016"), "{ammonia}");
        assert!(!texts(&m.notes).contains("pH rises from"), "{:?}", m.notes);
        assert!(m.answer.starts_with("Test your tank first. Up to"), "{}", m.answer);
        assert!(m.steps.iter().all(|step| step.share <= 0.1 + 1e-9));
        // Once both are read, they stand; what nobody read does not.
        let read_both = [read(9 * 24, "alkalinity", 0.9), read(9 * 24, "hardness", 6.0)];
        let m = way(&old, &read_both);
        let marks = m.from.all();
        assert!((marks[0].expect("read") - 0.9).abs() < 1e-9 && (marks[1].expect("read") - 6.0).abs() < 1e-9);
        assert_eq!(marks[2], None);
        assert!(
            under(&m.notes, "Test your tank first").is_empty() && !m.answer.contains("Test your tank"),
            "{}",
            m.answer
        );
        // One of two is half the way.
        let m = way(&old, &[read(9 * 24, "hardness", 6.0)]);
        assert!(m.from.all()[0].is_none() && m.from.all()[1].is_some());
        assert!(under(&m.notes, "Test your tank first").starts_with("Its alkalinity, ammonia"), "{:?}", m.notes);
    }
}
