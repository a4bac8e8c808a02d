//! A change of another size than the plan's, by hand: as strong a water, the same stock of conditioner.

/// The household of the examples.
const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

use recipe::{Answer, Plan, other_change};
use setup::{Setup, Tank};

fn planned(text: &str) -> (Tank, Plan) {
    match Setup::read("tank.toml", text).and_then(|setup| recipe::answer(&setup)) {
        Ok(Answer::Settled { tank, plan }) => (*tank, *plan),
        other => panic!("{other:?}"),
    }
}

#[test]
fn litres_buckets_and_conditioner_follow_the_share() {
    let (tank, plan) = planned(HOUSEHOLD);
    let half = other_change(&tank, &plan, 0.5, 2);
    let litres = tank.geometry.true_l.value;
    assert!((half.change.litres - 0.5 * litres).abs() < 1e-9 && half.change.every_days == 2);
    let (count, each) = half.change.buckets;
    assert!((f64::from(count) * each - half.change.litres).abs() < 1e-9 && each <= tank.at_hand.bucket_l.value);
    assert!(half.change.limited.is_none() && half.begin.is_none());
    // The stock that stands there already, and as much of it for each litre, up to a step of the syringe.
    let (old, new) = (plan.new_water.conditioner.as_ref(), half.new_water.conditioner.as_ref());
    let (old, new) = old.zip(new).unwrap_or_else(|| panic!("the household's tap has chlorine"));
    assert_eq!((old.stock_g, old.stock_ml), (new.stock_g, new.stock_ml));
    let step = tank.at_hand.syringe_ml.value;
    let (a, b) = (old.ml_a_bucket / plan.change.buckets.1, new.ml_a_bucket / each);
    assert!((a - b).abs() <= step / plan.change.buckets.1.min(each) + 1e-9, "{a} {b} mL/L");
    // What it covers is not less than what is counted on (harm rule 1).
    assert!(new.covers_mg_per_l >= new.chlorine_mg_per_l);
    // Nothing else of the plan moves.
    assert_eq!((&half.bottles, &half.levels), (&plan.bottles, &plan.levels));
}

#[test]
fn salts_of_the_new_water_are_as_strong_in_it() {
    let (tank, plan) = planned(&HOUSEHOLD.replace("[at_hand]", "[wish]\nalkalinity = \"9 to 12 °dH\"\n\n[at_hand]"));
    assert!(!plan.new_water.salts.is_empty());
    let half = other_change(&tank, &plan, 0.5, 2);
    assert_eq!(half.new_water.salts.len(), plan.new_water.salts.len());
    for (old, new) in plan.new_water.salts.iter().zip(&half.new_water.salts) {
        // By proportion, up to a step of the scale in each bucket.
        let (a, b) = (old.grams_a_change / plan.change.litres, new.grams_a_change / half.change.litres);
        let step = tank.at_hand.scale_g.value * f64::from(half.change.buckets.0) / half.change.litres;
        assert!((a - b).abs() <= 0.51 * step + 1e-9, "{}: {a} beside {b} g/L", old.name);
    }
}
