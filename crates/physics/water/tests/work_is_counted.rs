//! Twenty thousand random waters, and as many extreme ones: each is answered or refused with a reason, balances, and costs few Newton steps.
//! Steps are counted, not timed. A million: `cargo run --release -p water --example many -- 1000000`.

use water::{Carbon, Refusal, Sample, Totals, solve};

use crate::formula;
use crate::waters;

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

#[test]
fn twenty_thousand_extreme_waters_settle_and_balance() {
    let (mut solved, mut bracketed) = (0_u32, 0_u32);
    let mut parts = Vec::new();
    for i in 0..20_000 {
        let sample = waters::extreme_water(1, i);
        match solve(&sample) {
            Ok(water) => {
                if parts.is_empty() {
                    parts.extend(water.species().map(|(name, _)| formula::parts(name)));
                }
                let (off, _) = formula::imbalance(&water, &parts);
                assert!(off < formula::BALANCED, "number {i} is out of balance by {off:e}");
                bracketed += u32::from(water.newton_steps()[0] > 25);
                solved += 1;
            }
            Err(refusal) => assert_ne!(refusal, Refusal::NotSettled, "number {i}: {sample:?}"),
        }
    }
    println!("{solved} solved, {bracketed} by bracketing the pH first");
    assert!(solved > 12_000);
}

/// Two waters between whose buffers Newton's method alone is thrown to and fro for ever: the bracket of the pH is at work.
#[test]
fn hard_waters_settle_by_their_bracket() {
    let between_buffers = Sample {
        temperature_c: 16.5588,
        totals: Totals([1.0276e-3, 3.358e-4, 5.8536e-3, 2.118e-2, 1.607e-5, 1.0864e-2, 1.0409e-2, 2.565e-4, 3.0904e-4]),
        alkalinity_eq_per_kg: Some(1.12008e-4),
        carbon: Carbon::DicMolPerKg(1.2806e-10),
    };
    let dihydrogen_phosphate = Sample {
        temperature_c: 25.59,
        totals: Totals([0.0, 2.2e-9, 1.1545e-3, 2.2e-6, 0.0, 2.4e-9, 1.9e-5, 9.6e-7, 4.21667e-2]),
        alkalinity_eq_per_kg: Some(5.9558e-4),
        carbon: Carbon::DicMolPerKg(3.0915e-4),
    };
    for sample in [between_buffers, dihydrogen_phosphate] {
        let water = solve(&sample).unwrap();
        let parts: Vec<_> = water.species().map(|(name, _)| formula::parts(name)).collect();
        assert!(formula::imbalance(&water, &parts).0 < formula::BALANCED);
        assert!(water.newton_steps()[0] > 25, "{:?}", water.newton_steps());
    }
}
