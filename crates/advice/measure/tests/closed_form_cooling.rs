//! A cooling with a pump that warms, made in small steps of the balance of heat, gives its loss back.

use crate::common::{tank, value};
use measure::Name;

#[test]
fn a_pump_hides_no_loss() {
    for (loss_w_per_k, pump_w, hours) in [(6.0, 5.0, 4.0), (15.0, 0.0, 2.0), (4.0, 10.0, 8.0)] {
        // 100 L × 4.18 kJ × 1.05, as heat is held by water, glass and ground.
        let holds = 1.05 * 100.0 * 4180.0;
        let mut water: f64 = 26.0;
        for _ in 0..(3600.0 * hours) as u32 {
            water += (pump_w - loss_w_per_k * (water - 18.0)) / holds;
        }
        let typed = [
            ("start", "26".to_owned()),
            ("end", format!("{water:.4}")),
            ("hours", hours.to_string()),
            ("room", "18".to_owned()),
            ("pump", pump_w.to_string()),
        ];
        let typed: Vec<(&str, &str)> = typed.iter().map(|(key, text)| (*key, text.as_str())).collect();
        let found = value(Name::Cooling, &tank(""), &typed);
        // What the last digit of the temperature is worth.
        assert!((found.value / loss_w_per_k - 1.0).abs() < 1e-3, "{loss_w_per_k} {pump_w}: {found:?}");
    }
}
