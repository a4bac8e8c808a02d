//! Mixing: sums by hand.

use heat::{Pour, mixed_c};

fn close(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b}");
}

#[test]
fn forty_litres_of_cold_tap() {
    // (40 x 12 + 47 x 25) / 87 = (480 + 1175) / 87 = 1655 / 87 = 19.02
    let mixed = mixed_c(&[(40.0, 12.0), (47.0, 25.0)]).unwrap();
    close(mixed, 19.0, 0.05);
    close(mixed, 1655.0 / 87.0, 1e-12);
}

#[test]
fn what_a_pour_does_and_what_would_be_mild_enough() {
    // 40 of 87 L: share 0.4598; 25 -> 19.02, by -5.98. At most 1 degree: 25 - 1/0.4598 = 25 - 2.175 = 22.825.
    let pour = Pour { tank_c: 25.0, new_c: 12.0, share: 40.0 / 87.0 };
    close(pour.after_c(), 19.023, 0.001);
    close(pour.moves_c(), -5.977, 0.001);
    close(pour.mildest_c(1.0), 22.825, 1e-9);
    // 5.977 / 1 -> 6 pours; at most 2 degrees: 3 pours; at once 1/13 of the tank (6.7 of 87 L).
    assert_eq!(pour.pours(1.0), 6.0);
    assert_eq!(pour.pours(2.0), 3.0);
    close(pour.share_most(1.0) * 87.0, 6.692, 0.001);
    // 4.18 kJ x 40 x 13 / 3600 = 0.6038 kWh
    close(pour.warming_kwh(40.0), 0.6038, 0.0001);
}

#[test]
fn warm_new_water_is_bounded_from_above() {
    // 30 % at 30 into 24: +1.8; at most 1: 24 + 1/0.3 = 27.33.
    let pour = Pour { tank_c: 24.0, new_c: 30.0, share: 0.3 };
    close(pour.moves_c(), 1.8, 1e-12);
    close(pour.mildest_c(1.0), 27.333, 0.001);
}

#[test]
fn nothing_poured_moves_nothing() {
    let pour = Pour { tank_c: 24.0, new_c: 10.0, share: 0.0 };
    assert_eq!((pour.moves_c(), pour.pours(1.0), pour.mildest_c(1.0)), (0.0, 1.0, 10.0));
    assert_eq!(mixed_c(&[]), None);
    assert_eq!(mixed_c(&[(0.0, 20.0)]), None);
    assert_eq!(mixed_c(&[(-1.0, 20.0), (5.0, 20.0)]), None);
}
