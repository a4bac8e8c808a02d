//! Back from an absence: the missing water comes in portions that the plan's own limit allows, and none from a refused tap
//! (harm rules 3, 4).
//!
//! Judge: the plan's litres a change, by hand arithmetic.

use crate::start;

use crate::start::away;
use crate::start::{HOUSEHOLD, settled, under};
use care::away::Ask;

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
