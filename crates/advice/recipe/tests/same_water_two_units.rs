//! The same water typed in German degrees and in mg/L as CaCO3 gives the same plan to the last digit.

use recipe::{Answer, Plan, answer};
use setup::Setup;

const DEGREES: &str = include_str!("../../../../examples/same-water-degrees.toml");
const CACO3: &str = include_str!("../../../../examples/same-water-caco3.toml");

fn plan(text: &str) -> Plan {
    match answer(&Setup::read("tank.toml", text).expect("reads")).expect("an answer") {
        Answer::Settled { plan, .. } => *plan,
        Answer::Open { question, .. } => panic!("{question:?}"),
    }
}

#[test]
fn to_the_last_digit() {
    let (a, b) = (plan(DEGREES), plan(CACO3));
    let print = |plan: &Plan| serde_json::to_string_pretty(plan).expect("json");
    assert_eq!(print(&a), print(&b));
    // It is a real plan, and not two empty ones.
    assert!(!a.bottles.is_empty() && a.aired.is_some());
}

#[test]
fn another_water_gives_another_plan() {
    let other = CACO3.replacen("151.7", "181.7", 1);
    assert_ne!(other, CACO3);
    assert_ne!(plan(CACO3), plan(&other));
}
