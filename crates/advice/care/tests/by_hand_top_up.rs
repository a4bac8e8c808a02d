//! Topping up with a hard tap: where hardness settles, by hand and by recurrence.

use crate::days::{HOUSEHOLD, SOIL, june, planned, without};
use care::day;
use quantity::{Kind, Known};

#[test]
fn hardness_settles_where_the_sum_says() {
    let (mut tank, plan) = planned(HOUSEHOLD);
    tank.geometry.true_l = Known::exact(90.0, Kind::Measured);
    tank.habits.top_up_l_per_day = Known::exact(0.9, Kind::Measured);
    let settles = day(&tank, &plan, &[], &june(10, 8)).top_up.unwrap_or_else(|| panic!());
    // 48 mg/L Ca x 2 / 40.078 + 6.0 mg/L Mg x 2 / 24.305 = 2.39533 + 0.49373 = 2.88906 meq/L in tap and new water.
    let tap = 48.0 * 2.0 / 40.078 + 6.0 * 2.0 / 24.305;
    assert!((settles.water_meq_per_l - tap).abs() < 1e-6, "{}", settles.water_meq_per_l);
    // 0.9 L x 7 days / 90 L = 0.07 of the tank's water a week; / 0.4 = 0.175 of the tap's hardness on top.
    let before = settles.before_change_meq_per_l.unwrap_or_default();
    assert!((before - 1.175 * tap).abs() < 1e-6, "{before}");
    // The recurrence: a week adds 0.07 tap, a change takes 0.4 of all and brings 0.4 tap.
    let mut level = tap;
    for _ in 0..200 {
        level = 0.6 * (level + 0.07 * tap) + 0.4 * tap;
    }
    assert!((level + 0.07 * tap - before).abs() < 1e-9, "{level}");
    // 3.3947 meq/L are 9.51 German degrees (2.8 a meq).
    assert!(settles.says.contains("9.5 °dH (3.39 meq/L)"), "{}", settles.says);
}

#[test]
fn without_changes_it_settles_nowhere() {
    let (tank, plan) = planned(&without(&without(SOIL, "change ="), "every ="));
    let settles = day(&tank, &plan, &[], &june(10, 8)).top_up.unwrap_or_else(|| panic!());
    assert_eq!(settles.before_change_meq_per_l, None);
    let month = settles.water_meq_per_l * settles.a_day_l * 30.0 / tank.geometry.true_l.value;
    assert!((settles.a_month_meq_per_l - month).abs() < 1e-9);
    assert!(settles.says.contains("settles nowhere"), "{}", settles.says);
}

#[test]
fn rain_leaves_next_to_nothing() {
    let text = HOUSEHOLD.replace(
        "[habits]",
        "[low_water]\nkind = \"demineralised\"\nshare = \"0 %\"\n\n[habits]\ntop_up_with = \"low_water\"",
    );
    let (tank, plan) = planned(&text);
    let settles = day(&tank, &plan, &[], &june(10, 8)).top_up.unwrap_or_else(|| panic!());
    let before = settles.before_change_meq_per_l.unwrap_or_default();
    assert!(before - settles.new_meq_per_l < 0.05, "{settles:?}");
}
