//! What is said of lime says of which water, and why the tank's does otherwise than the tap's.

use crate::common::{exact, tank};
use quantity::Known;
use recipe::{Lime, plan, tap_aired};

#[test]
fn a_verdict_needs_both_ends_on_one_side() {
    let si = |low: f64, high: f64| Some(Known::ranged(low, (low + high) / 2.0, high, quantity::Kind::WorkedOut));
    let all = [si(0.1, 0.5), si(-0.2, 0.3), si(-0.9, -0.1), None].map(Lime::of);
    assert_eq!(all, [Lime::Leaves, Lime::Near, Lime::Dissolves, Lime::Dissolves]);
}

/// A hard tap whose alkalinity is eaten in the tank: the tap's water leaves lime, the tank's does not, and the sentence says why.
#[test]
fn the_tank_says_why_it_does_otherwise_than_the_tap() {
    let mut tank = tank();
    tank.tap.alkalinity_meq_per_l = exact(2.0);
    tank.room_co2_ppm = exact(450.0);
    let said = |tank: &setup::Tank| {
        let plan = plan(tank);
        plan.left_out.into_iter().find(|note| note.text.starts_with("pH gets nothing")).expect("told").text
    };
    assert_eq!(Lime::of(tap_aired(&tank).expect("in range").calcite), Lime::Leaves);
    tank.growth.alkalinity_eaten_meq_per_l_day = exact(0.05);
    let text = said(&tank);
    assert!(text.contains("the tank's water stands at pH "), "{text}");
    assert!(
        !text.contains(", and leaves lime") && text.contains("Your tap's water by itself, aired as well, leaves lime"),
        "{text}"
    );
    assert!(text.contains("the filter has eaten of its alkalinity"), "{text}");
    // Where both do the same, one verdict is enough.
    tank.growth.alkalinity_eaten_meq_per_l_day = exact(0.0);
    let text = said(&tank);
    assert_eq!(text.contains("Your tap's water by itself"), !text.contains(", and leaves lime"), "{text}");
}
