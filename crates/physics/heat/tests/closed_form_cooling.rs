//! A tank left to itself: the closed form against hand arithmetic and against small steps of the curved equation.

use heat::{Body, Cooling, Cover, Room, latent_heat_kj_per_kg, vapour_pressure_kpa};

fn close(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b}");
}

fn tank() -> Body {
    Body {
        length_m: 0.8,
        width_m: 0.35,
        depth_m: 0.4,
        glass_mm: 6.0,
        litres: 112.0,
        cover: Cover::Open,
        rippled: false,
    }
}

#[test]
fn a_night_without_power_by_hand() {
    // Loss told as 10 W/K; 112 L x 1.05: 117.6 x 4180 = 491568 J/K; 13.65 h. From 25 in a room of 15, 24 h:
    // 15 + 10 exp(-24/13.655) = 15 + 10 x 0.17244 = 16.72. To 20: 13.655 ln 2 = 9.465 h.
    let cooling =
        Cooling { body: tank(), room: Room::at(15.0), start_c: 25.0, heat_w: 0.0, measured_w_per_k: Some(10.0) };
    close(cooling.time_constant_h().unwrap().value, 13.655, 0.001);
    close(cooling.after_c(24.0).unwrap().value, 16.724, 0.002);
    close(cooling.hours_to(20.0).unwrap().value, 9.465, 0.001);
    assert_eq!(cooling.hours_to(14.0).unwrap().low, f64::INFINITY);
    assert_eq!(cooling.hours_to(26.0).unwrap().high, 0.0);
}

/// The curved equation at its best estimate, in steps of ten seconds (Runge and Kutta, 4th order).
fn steps(start_c: f64, room_c: f64, heat_w: f64, hours: f64) -> f64 {
    let dry = 0.92 / (1.0 / 300.0 + 0.006 + 1.0 / 8.0) + 0.28 * (3.2 + 8.0);
    let holds = 112.0 * 1.05 * 4180.0;
    let slope = |c: f64| {
        let latent = latent_heat_kj_per_kg(c);
        let kg = 0.62 * 0.28 * (vapour_pressure_kpa(c) - 0.5 * vapour_pressure_kpa(room_c)).max(0.0) * 0.09682 / latent;
        (heat_w - dry * (c - room_c) - 1e3 * latent * kg) / holds
    };
    let (mut c, h) = (start_c, 10.0);
    for _ in 0..(hours * 360.0) as usize {
        let a = slope(c);
        let b = slope(c + 0.5 * h * a);
        let d = slope(c + 0.5 * h * b);
        c += h / 6.0 * (a + 2.0 * b + 2.0 * d + slope(c + h * d));
    }
    c
}

#[test]
fn the_straight_line_errs_by_less_than_a_tenth_of_a_degree() {
    // 0.1 °C: a thermometer of a household reads no finer.
    for (start_c, room_c, heat_w) in [(25.0, 15.0, 0.0), (25.0, 20.0, 0.0), (24.0, 30.0, 0.0), (25.0, 15.0, 100.0)] {
        let cooling = Cooling { body: tank(), room: Room::at(room_c), start_c, heat_w, measured_w_per_k: None };
        for hours in [1.0, 3.0, 6.0, 12.0, 24.0, 48.0] {
            close(cooling.after_c(hours).unwrap().value, steps(start_c, room_c, heat_w, hours), 0.1);
        }
    }
}

#[test]
fn hours_and_degrees_are_each_others_inverse() {
    let cooling = Cooling { body: tank(), room: Room::at(15.0), start_c: 25.0, heat_w: 0.0, measured_w_per_k: None };
    let hours = cooling.hours_to(20.0).unwrap();
    close(cooling.after_c(hours.value).unwrap().value, 20.0, 1e-9);
    // The end that loses most gets there first.
    assert!(hours.low < hours.value && hours.value < hours.high);
    close(cooling.after_c(hours.low).unwrap().low, 20.0, 1e-9);
}
