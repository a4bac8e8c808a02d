//! A trace mix weighed by hand: its copper is what a label says, whatever the recipe would choose.

use quantity::{Ion, Kind, Known};
use recipe::{Dose, Into, Plan, Weighed};
use setup::Tank;

/// 0.01 g a day of a mix into 100 L by the first bottle; `copper` is its share of a gram, 0 to 1: 0.0001 mg/L a day for each 0.1 %.
pub fn weigh_trace_mix(tank: &mut Tank, plan: &mut Plan, copper: Known<f64>) {
    tank.geometry.true_l = Known::exact(100.0, Kind::Measured);
    tank.at_hand.trace_copper = copper;
    plan.doses.push(Dose {
        product: "trace_mix".to_owned(),
        name: "dry trace mix".to_owned(),
        into: Into::Bottle,
        amount: 0.01,
        owned: true,
        brings: vec![(Ion::Iron, 0.007)],
    });
    plan.bottles[0].weighed.push(Weighed {
        product: "trace_mix".to_owned(),
        name: "dry trace mix".to_owned(),
        grams: 0.6,
        error_share: 0.1,
        soluble_g_per_l: 10.0,
        why: String::new(),
    });
}
