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

#[test]
fn the_keepers_own_unit_stands_first() {
    use quantity::{HardnessUnit, Units};
    let pen = |hardness| recipe::say::Pen::new(&Units { hardness, ..Units::default() });
    // By hand: a German degree is 20 ÷ 56.077 = 0.35665 meq/L, so 3.2 meq/L are 8.97 of them, and 2.0 are 5.61.
    assert_eq!(pen(HardnessUnit::German).hardness(3.2), "9 °dH (3.2 meq/L)");
    assert_eq!(pen(HardnessUnit::German).span(None, 2.0, 3.2), "5.6 to 9 °dKH (3.2 meq/L)");
    assert_eq!(pen(HardnessUnit::Meq).hardness(3.2), "3.2 meq/L");
}
