//! Judges: the differential equation itself, integrated step by step; limits that can be worked out by hand; the Schmidt
//! numbers that Wanninkhof (1992) prints for 20 °C.

use water::{Bubbles, Exchange, Gas, Surface, Way};

/// Fourth-order Runge-Kutta of dC/dt = Σ k (C* - C) + s.
fn integrated(ways: &[Way], start: f64, hours: f64, source: f64) -> f64 {
    let rate = |c: f64| ways.iter().map(|w| w.per_h * (w.towards_mg_per_l - c)).sum::<f64>() + source;
    let steps = 4000;
    let h = hours / f64::from(steps);
    (0..steps).fold(start, |c, _| {
        let a = rate(c);
        let b = rate(c + 0.5 * h * a);
        let d = rate(c + 0.5 * h * b);
        let e = rate(c + h * d);
        c + h / 6.0 * (a + 2.0 * b + 2.0 * d + e)
    })
}

#[test]
fn the_closed_form_is_the_solution() {
    let ways = [Way { per_h: 0.1, towards_mg_per_l: 0.9 }, Way { per_h: 0.35, towards_mg_per_l: 1.4 }];
    let exchange = Exchange::of(&ways);
    for (start, hours, source) in [(25.0, 3.0, 0.0), (0.0, 12.0, 2.5), (8.0, 0.5, -1.0)] {
        let (closed, stepped) = (exchange.after(start, hours, source), integrated(&ways, start, hours, source));
        assert!((closed - stepped).abs() < 1e-9, "{closed} {stepped}");
    }
    let settled = exchange.settles_at_mg_per_l(2.5).unwrap();
    assert!((exchange.after(3.0, 1e3, 2.5) - settled).abs() < 1e-12);
    assert!((exchange.after(settled, 7.0, 2.5) - settled).abs() < 1e-12);
    // Half of the way in ln 2 / k.
    assert!(
        (exchange.after(20.0, 2_f64.ln() / 0.45, 0.0) - 0.5 * (20.0 + exchange.settles_at_mg_per_l(0.0).unwrap()))
            .abs()
            < 1e-12
    );
}

#[test]
fn without_exchange_only_the_source_counts() {
    let sealed = Exchange::of(&[]);
    assert_eq!(sealed.settles_at_mg_per_l(1.0), None);
    assert!((sealed.after(5.0, 4.0, -0.5) - 3.0).abs() < 1e-12);
}

/// By hand: 0.1 /h in 100 L holds 25 mg/L over a ceiling near 0.6 with (25 - 0.6) x 0.1 x 100 = 244 mg an hour.
#[test]
fn what_it_takes_to_hold_a_level() {
    let air = Exchange::of(&[Way { per_h: 0.1, towards_mg_per_l: 0.6 }]);
    let settled = air.settles_at_mg_per_l(244.0 / 100.0).unwrap();
    assert!((settled - 25.0).abs() < 1e-12);
}

/// Wanninkhof (1992): 530 for O2 and 600 for CO2 at 20 °C; so CO2 crosses a rippled surface 0.94 times as fast.
#[test]
fn schmidt_numbers() {
    assert!((Gas::Oxygen.schmidt(20.0) - 530.0).abs() < 1.0);
    assert!((Gas::CarbonDioxide.schmidt(20.0) - 600.0).abs() < 1.0);
    let rippled = Surface { oxygen_per_h_at_20: 0.2, exponent: 0.5 };
    assert!((rippled.per_h(Gas::CarbonDioxide, 20.0) / 0.2 - 0.94).abs() < 0.005);
    assert!((rippled.per_h(Gas::Oxygen, 20.0) - 0.2).abs() < 1e-15);
    let warmer = rippled.per_h(Gas::Oxygen, 30.0) / rippled.per_h(Gas::Oxygen, 20.0);
    assert!((warmer - 1.024_f64.powi(10)).abs() < 1e-12);
}

/// By hand at 25 °C: CO2 holds 1/(0.03402 x 0.08206 x 298.15) = 1.20 times as much in air as in water, so 1 L/min of air
/// through 100 L cannot pass 60 x 1.2/100 = 0.72 /h. For oxygen the same is near 32: bubbles are far from full.
#[test]
fn bubbles_have_a_ceiling_for_each_gas() {
    let ratio = Gas::CarbonDioxide.air_over_water(25.0).unwrap();
    assert!((ratio - 1.20).abs() < 0.005, "{ratio}");
    let oxygen = Gas::Oxygen.air_over_water(25.0).unwrap();
    assert!((31.0..33.0).contains(&oxygen), "{oxygen}");
    let of = |unfilled: f64| Bubbles { air_l_per_h: 60.0, water_l: 100.0, unfilled_oxygen_per_h_at_20: unfilled };
    assert!((of(1.0).ceiling_per_h(Gas::CarbonDioxide, 25.0).unwrap() - 0.72).abs() < 0.005);
    // Many small bubbles: CO2 reaches its ceiling, oxygen does not.
    let fine = of(3.0);
    assert!(
        fine.per_h(Gas::CarbonDioxide, 25.0).unwrap() > 0.95 * fine.ceiling_per_h(Gas::CarbonDioxide, 25.0).unwrap()
    );
    assert!(fine.per_h(Gas::Oxygen, 25.0).unwrap() > 3.0);
    // Few large ones: both follow the ratio of a surface.
    let coarse = of(1e-4);
    let pair = (coarse.per_h(Gas::CarbonDioxide, 20.0).unwrap(), coarse.per_h(Gas::Oxygen, 20.0).unwrap());
    assert!((pair.0 / pair.1 - 0.94).abs() < 0.005);
    let none = Bubbles { air_l_per_h: 0.0, ..fine };
    assert_eq!(none.per_h(Gas::Oxygen, 25.0).unwrap(), 0.0);
    assert!(Bubbles { water_l: 0.0, ..fine }.per_h(Gas::Oxygen, 25.0).is_err());
}
