//! The sheet of a change by hand: litres, buckets, warmth, hot water from the kettle.

use crate::days::{HOUSEHOLD, june, planned};
use care::day;
use quantity::{Kind, Known};

fn close(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-9, "{a} is not {b}");
}

#[test]
fn forty_of_eighty_seven_litres_at_12_into_25_degrees() {
    let (mut tank, mut plan) = planned(HOUSEHOLD);
    tank.geometry.true_l = Known::exact(87.0, Kind::Measured);
    tank.temperature_c = Known::exact(25.0, Kind::Measured);
    tank.tap.temperature_c = Known::exact(12.0, Kind::Measured);
    plan.change.share = 40.0 / 87.0;
    plan.change.litres = 40.0;
    plan.change.buckets = (4, 10.0);
    let sheet = day(&tank, &plan, &[], &june(13, 8)).change.unwrap_or_else(|| panic!());
    let warmth = sheet.warmth.unwrap_or_else(|| panic!());
    // (40 x 12 + 47 x 25) / 87 = 1655 / 87 = 19.0229885...
    close(warmth.mixed_c, 1655.0 / 87.0);
    close(warmth.moves_c, 1655.0 / 87.0 - 25.0);
    assert!(warmth.too_much);
    // No more than a degree: 25 - 87 / 40 = 22.825 °C.
    close(warmth.mildest_c, 25.0 - 87.0 / 40.0);
    // A bucket of 10 L from 12 to 22.825 °C by water of 95 °C: 10 x 10.825 / 83 = 1.3042 L.
    close(warmth.kettle_l, 10.0 * 10.825 / 83.0);
    let said: Vec<&String> = sheet.steps.iter().flat_map(|step| step.minds.iter().chain([&step.say])).collect();
    for words in ["from 25 °C to 19 °C", "1.3 L of a bucket", "feel like the tank, and is never colder than 22.8 °C"]
    {
        assert!(said.iter().any(|say| say.contains(words)), "{words}: {said:?}");
    }
}

#[test]
fn the_household_changes_36_litres_in_five_buckets() {
    let (tank, plan) = planned(HOUSEHOLD);
    let sheet = day(&tank, &plan, &[], &june(13, 8)).change.unwrap_or_else(|| panic!());
    // 76 x 36 x 37 cm - grains of the ground, rock and wood: the litres are tested where they are made; 40 % of them here.
    close(sheet.litres, 0.4 * tank.geometry.true_l.value);
    // 36.2 L by buckets of 9 L: five of them, evenly.
    assert_eq!(sheet.buckets.0, 5);
    close(sheet.buckets.1, sheet.litres / 5.0);
}

#[test]
fn warm_tap_water_is_not_warmed() {
    let (mut tank, plan) = planned(HOUSEHOLD);
    tank.tap.temperature_c = Known::exact(23.0, Kind::Measured);
    let sheet = day(&tank, &plan, &[], &june(13, 8)).change.unwrap_or_else(|| panic!());
    let warmth = sheet.warmth.unwrap_or_else(|| panic!());
    // 0.4 x (23 - 24) = -0.4 °C.
    close(warmth.moves_c, -0.4);
    assert!(!warmth.too_much && warmth.kettle_l == 0.0);
    assert!(!sheet.steps.iter().any(|step| step.minds.iter().any(|say| say.contains("kettle"))));
}
