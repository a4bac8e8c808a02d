//! Readings made by a known rate give that rate back. Judge: first order towards a level, `water::Exchange` and small steps.

use crate::common;

use crate::common::{tank, value};
use measure::Name;
use water::{Gas, Surface, oxygen_at_saturation_mg_per_l};

#[test]
fn oxygen_with_breathing_at_night() {
    let (k20, c, eaten) = (0.15, 25.0, 0.2);
    let k = Surface { oxygen_per_h_at_20: k20, exponent: 0.5 }.per_h(Gas::Oxygen, c);
    let air = oxygen_at_saturation_mg_per_l(c, 1.0).unwrap();
    // dC/dt = k (air - C) - eaten, in steps of a second.
    let after = |start: f64, hours: f64| {
        let mut now = start;
        for _ in 0..(3600.0 * hours) as u32 {
            now += (k * (air - now) - eaten) / 3600.0;
        }
        now
    };
    let (start, end, rest) = (10.5, after(10.5, 3.0), after(10.5, 200.0));
    let typed = [
        ("start", format!("{start:.3}")),
        ("end", format!("{end:.3}")),
        ("hours", "3".to_owned()),
        ("rest", format!("{rest:.3}")),
        ("water", format!("{c}")),
    ];
    let typed: Vec<(&str, &str)> = typed.iter().map(|(key, text)| (*key, text.as_str())).collect();
    let found = value(Name::Oxygen, &tank(""), &typed);
    assert!((found.value / k20 - 1.0).abs() < 0.005, "{found:?}");
    assert!(found.low < k20 && found.high > k20);
    let says = common::worked(Name::Oxygen, &tank(""), &typed).unwrap().says;
    assert!(says.iter().any(|says| says.contains("0.2 mg/L of oxygen an hour")), "{says:?}");
}
