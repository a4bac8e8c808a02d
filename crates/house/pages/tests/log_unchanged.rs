//! Log of a tank whose water is never changed: its readings over its age.

use crate::common::Door;
use logbook::{Entry, Reading, Sure, What};
use setup::Shelf;

const LOG: &str = "/tank/1/log";

fn put(door: &mut Door, readings: &[(&str, f64)]) {
    let entry = |&(moment, value): &(&str, f64)| {
        let of = "nitrate".to_owned();
        let what = What::Test(Reading { of, value, below: false, error: None, kit: None, sure: Sure::Plain });
        Entry { at: logbook::moment(moment).unwrap(), what, note: String::new() }
    };
    door.shelf.log(1).unwrap().add(readings.iter().map(entry).collect()).unwrap();
}

/// A tank never changed for 14 months is 14 × 365.25 / 12 = 426 days old: its readings stand on those days, six of them ago on the 420th, over
/// the same reckoning as on Care, and the line ends today.
#[test]
fn readings_of_a_tank_never_changed_stand_over_its_age() {
    let soil = include_str!("../../../../examples/soil-tank.toml")
        .replace("change = \"20 %\"\nevery = \"14 days\"", "change = \"0 %\"")
        .replace("start_test_passed = true", "start_test_passed = true\nunchanged_months = 14");
    let mut door = Door::planned(&soil);
    put(&mut door, &[("2026-06-05T08:00:00Z", 20.0), ("2026-06-11T08:00:00Z", 20.0)]);
    let page = door.page(LOG);
    let table = page.split("Readings beside what was expected").nth(1).unwrap().split("</table>").next().unwrap();
    assert!(table.contains(">426<") && table.contains(">420<"), "{table}");
    assert!(page.contains("after 426 days?") && page.contains("by topping up") && !page.contains("- -"), "{page}");
    assert!(page.contains("28 days ago") && page.contains(">today<"), "{page}");
    assert!(door.page("/tank/1/care").contains("After 14 months without a change it may be"));
    // Nobody told how old it is: nothing is expected, and it says why.
    let mut door = Door::planned(&soil.replace("unchanged_months = 14", ""));
    put(&mut door, &[("2026-06-05T08:00:00Z", 20.0)]);
    assert!(door.page(LOG).contains("nobody told for how long the water is the same"));
}
