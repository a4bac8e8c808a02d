//! Back from an absence: the missing water comes in portions that the plan's own limit allows, and none from a refused tap
//! (harm rules 3, 4); and the copper of the water that is poured counts at its upper end (harm rule 4).
//!
//! Judge: the plan's litres a change and sums of copper, by hand arithmetic.

use crate::days::june;
use crate::start;

use crate::start::away;
use crate::start::{HOUSEHOLD, settled, under};
use care::away::Ask;
use quantity::{Ion, Kind, Known};

#[test]
fn rules_3_and_4_portions_of_the_missing_water_keep_the_taps_limit() {
    let lost = HOUSEHOLD.replace("every = \"7 days\"", "every = \"7 days\"\ntop_up = \"2 L a day\"");
    let mut s = settled(&lost);
    let back = |s: &start::Settled| under(&away(&s.tank, &s.plan, Ask::default()).back, "Top up slowly").to_owned();
    // A tenth of this tank holds it: one portion, and nothing is apart.
    assert!(back(&s).contains("in one portion: "), "{}", back(&s));
    // The plan lets 2.5 L of this tap in, every day, and no more at a time.
    (s.plan.change.litres, s.plan.change.every_days) = (2.5, 1);
    s.plan.change.limited = Some("2.5 L every day, and no more at a time.".to_owned());
    let says = back(&s);
    assert!(says.contains("No portion is more than 2.5 L") && says.contains("a day apart"), "{says}");
    let missing: f64 = says.split("up to ").nth(1).and_then(|t| t.split(' ').next()?.parse().ok()).expect("litres");
    let words = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    let said = says.split(", in ").nth(1).and_then(|t| t.split(' ').next()).expect("portions");
    let portions =
        words.iter().position(|word| *word == said).map_or_else(|| said.parse().expect("a number"), |i| i + 1);
    // What is missing is told in three figures.
    assert!(portions as f64 * 2.5 >= missing - 0.1, "{portions} for {missing}");
    let copper = settled(&lost.replace("copper = \"0.002 mg/L\"", "copper = \"0.03 mg/L\""));
    assert!(back(&copper).contains("Not from your tap"), "{}", back(&copper));
}

#[test]
fn rule_4_copper_that_nobody_measured_counts_at_its_upper_end() {
    // With shrimps 0.004 mg/L is where harm starts. Likely 0.001 of the tap and none of the pipes; the upper ends, 0.005 + 0 and 0.001 + 0.006, count.
    let says = |tap: f64, pipes: f64| {
        let mut s = settled(HOUSEHOLD);
        s.tank.tap.ions.insert(Ion::Copper, Known::ranged(0.0, 0.001, tap, Kind::Assumed));
        s.tank.pipes_copper_mg_per_l = Known::ranged(0.0, 0.0, pipes, Kind::Assumed);
        let sheet = care::day(&s.tank, &s.plan, &[], &june(13, 8)).change.expect("a Saturday");
        sheet.first.join(" ")
    };
    for (tap, pipes, by_hand) in [(0.005, 0.0, "0.005"), (0.001, 0.006, "0.007"), (0.005, 0.006, "0.011")] {
        let said = says(tap, pipes);
        assert!(said.contains(&format!("it may be up to {by_hand} mg/L")), "{by_hand}: {said}");
        assert!(said.contains("harmed from 0.004 mg/L on, above 0.008 I refuse"), "{said}");
    }
    // 0.001 + 0.002 = 0.003: nothing to tell.
    assert!(!says(0.001, 0.002).contains("Nobody measured the copper"), "{}", says(0.001, 0.002));
}
