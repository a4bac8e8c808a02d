//! The starting doses of a tank whose water is never changed: together under the ceiling of a day.

use crate::common::{exact, tank};
use quantity::Ion;
use recipe::plan;

/// Rules 6 and 10. Potassium from 2 to 12 mg/L and nitrate from 0 to 12, both of potassium nitrate: a gram holds 0.387 g of the one and
/// 0.613 g of the other. 10 mg/L of potassium in 100 L want 2.6 g, which bring 16 mg/L of nitrate: that is all, on two days at least.
#[test]
fn one_salt_has_one_starting_dose() {
    let mut tank = tank();
    tank.habits.every_days = 0;
    tank.tap.ions.insert(Ion::Nitrate, exact(0.0));
    tank.at_hand.products = vec!["potassium_nitrate".to_owned()];
    tank.wish.bands.extend([(Ion::Potassium, (12.0, 30.0)), (Ion::Nitrate, (12.0, 30.0))]);
    for shrimps in [0, 10] {
        tank.animals.shrimps = shrimps;
        let plan = plan(&tank);
        let says: Vec<&str> = plan.unmet.iter().map(|unmet| unmet.text.as_str()).collect();
        let of_it: Vec<&&str> = says.iter().filter(|text| text.contains("g of potassium nitrate")).collect();
        assert_eq!(of_it.len(), 1, "{says:?}");
        assert!(says.iter().any(|text| text.contains("The starting dose for potassium lifts it too")), "{says:?}");
        let grams = of_it[0].split("lifts it: ").nth(1).and_then(|text| text.split(' ').next()).expect("an amount");
        let grams: f64 = grams.parse().expect("a number");
        assert!(0.613 * 0.99 * grams * 1000.0 / 100.0 <= 10.0, "in a day: {says:?}");
        assert!(of_it[0].contains("on two days") && (2.0 * grams - 2.65).abs() < 0.25, "{says:?}");
        // Rule 16: over 13 mg/L it is told where shrimps live.
        assert_eq!(of_it[0].contains("13 mg/L of nitrate"), shrimps > 0, "{says:?}");
    }
}
