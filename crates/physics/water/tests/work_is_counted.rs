//! Twenty thousand random waters: each is answered or refused with a reason, balances, and costs few Newton steps.
//! Steps are counted, not timed. A million: `cargo run --release -p water --example many -- 1000000`.

use water::{Refusal, solve};

#[path = "common/formula.rs"]
mod formula;
#[path = "common/waters.rs"]
mod waters;

#[test]
fn twenty_thousand_random_waters_settle_and_balance() {
    let (mut solved, mut outside, mut impossible) = (0_u32, 0_u32, 0_u32);
    let (mut steps, mut most, mut worst) = ([0_u32; 2], [0_u32; 2], 0.0_f64);
    let mut parts = Vec::new();
    for i in 0..20_000 {
        let sample = waters::random_water(1, i);
        match solve(&sample) {
            Ok(water) => {
                if parts.is_empty() {
                    parts.extend(water.species().map(|(name, _)| formula::parts(name)));
                }
                let (off, charge) = formula::imbalance(&water, &parts);
                assert!(off < formula::BALANCED, "number {i} is out of balance by {off:e}");
                if sample.alkalinity_eq_per_kg.is_none() {
                    assert!(
                        charge.abs() < formula::BALANCED * water.ionic_strength,
                        "number {i} carries a charge of {charge:e}"
                    );
                }
                worst = worst.max(off);
                for (k, n) in water.newton_steps().into_iter().enumerate() {
                    steps[k] += n;
                    most[k] = most[k].max(n);
                }
                solved += 1;
            }
            Err(Refusal::OutOfRange { .. }) => outside += 1,
            Err(Refusal::Impossible { .. }) => impossible += 1,
            Err(Refusal::NotSettled) => panic!("number {i} does not settle: {sample:?}"),
        }
    }
    println!(
        "{solved} solved, {outside} outside, {impossible} impossible; steps {steps:?}, most {most:?}; worst {worst:.1e}"
    );
    // Regression only: the work of this solver on these waters.
    assert!(solved > 19_000 && outside > 50 && impossible > 500);
    assert!(steps[0] < 3 * solved && steps[1] < 2 * solved);
    assert!(most[0] <= 10 && most[1] <= 4, "{most:?}");
}
