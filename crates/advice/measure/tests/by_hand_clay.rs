//! A clay in a jar, counted for a kilogram by hand. Judge: arithmetic.

use crate::common::{tank, worked};
use measure::{Name, Worked};

fn clay(more: &[(&str, &str)]) -> Worked {
    let mut typed = vec![("grams", "50"), ("litres", "0.5"), ("rubbed", "firm")];
    typed.extend(more);
    worked(Name::Clay, &tank(""), &typed).unwrap()
}

fn flag(worked: &Worked, field: &str) -> Option<bool> {
    worked.flags.iter().find(|flag| flag.field == field).map(|flag| flag.yes)
}

#[test]
fn ammonia_for_a_kilogram() {
    // 0.4 mg/L × 0.5 L = 0.2 mg from 50 g: 4 mg for a kilogram.
    let found = clay(&[("ammonia", "0.4")]);
    let value = found.values.iter().find(|value| value.unit == "mg N/kg").unwrap();
    assert!((value.known.value - 4.0).abs() < 1e-9);
    assert_eq!(value.field, None, "it is told and goes nowhere");
    assert_eq!(flag(&found, "measured.ground_ammonia"), Some(true));
    assert_eq!(flag(&clay(&[("ammonia", "0")]), "measured.ground_ammonia"), Some(false));
}

#[test]
fn alkalinity_for_a_kilogram() {
    // From 8 to 6 °dKH: 2 × 0.35665 = 0.7133 meq/L × 0.5 L ÷ 0.05 kg = 7.133 meq/kg taken up.
    let found = clay(&[("alkalinity_before", "8"), ("alkalinity_after", "6")]);
    let value = found.values.iter().find(|value| value.unit == "meq/kg").unwrap();
    assert!((value.known.value - 7.133).abs() < 0.001, "{value:?}");
}

#[test]
fn lime_by_the_drop_and_by_the_soak() {
    let lime = |more: &[(&str, &str)]| flag(&clay(more), "measured.ground_lime");
    assert_eq!(lime(&[("vinegar", "lively")]), Some(true));
    assert_eq!(lime(&[("vinegar", "none")]), Some(false));
    // A few bubbles decide nothing alone.
    assert_eq!(lime(&[("vinegar", "few")]), None);
    assert_eq!(lime(&[("vinegar", "few"), ("alkalinity_before", "4"), ("alkalinity_after", "6")]), Some(true));
    assert_eq!(lime(&[("vinegar", "few"), ("alkalinity_before", "4"), ("alkalinity_after", "4")]), Some(false));
    assert_eq!(lime(&[("vinegar", "none"), ("ph_before", "7"), ("ph_after", "8")]), Some(true));
}
