//! The long test: `cargo run --release -p water --example many -- 1000000` solves a million random waters of the range and
//! checks the balances of each. It fails where one does not settle or does not balance, and prints the work done.
#![allow(clippy::disallowed_methods)]

use std::collections::BTreeMap;

use water::{Refusal, solve};

#[allow(dead_code, reason = "takes a part of what the tests share")]
#[path = "../tests/common/formula.rs"]
mod formula;
#[allow(dead_code, reason = "takes a part of what the tests share")]
#[path = "../tests/common/waters.rs"]
mod waters;

fn main() {
    let wanted: u64 = std::env::args().nth(1).and_then(|n| n.parse().ok()).unwrap_or(20_000);
    let seed: u64 = std::env::args().nth(2).and_then(|n| n.parse().ok()).unwrap_or(1);
    let (mut solved, mut drawn, mut worst, mut failed) = (0, 0, 0.0_f64, 0);
    let mut steps = [BTreeMap::new(), BTreeMap::new()];
    let mut refused: BTreeMap<String, u64> = BTreeMap::new();
    let mut parts = Vec::new();
    while solved < wanted {
        let sample = waters::random_water(seed, drawn);
        match solve(&sample) {
            Ok(water) => {
                if parts.is_empty() {
                    parts.extend(water.species().map(|(name, _)| formula::parts(name)));
                }
                let (off, _) = formula::imbalance(&water, &parts);
                worst = worst.max(off);
                if off > formula::BALANCED {
                    failed += 1;
                    if failed < 10 {
                        println!("number {drawn} is out of balance by {off:e}: {sample:?}")
                    };
                }
                for (steps, n) in steps.iter_mut().zip(water.newton_steps()) {
                    *steps.entry(n).or_insert(0_u64) += 1;
                }
                solved += 1;
            }
            Err(refusal) => {
                if refusal == Refusal::NotSettled {
                    failed += 1;
                    println!("number {drawn} does not settle: {sample:?}");
                }
                let what = match refusal {
                    Refusal::OutOfRange { what, .. } => what.to_owned(),
                    other => other.to_string(),
                };
                *refused.entry(what).or_insert(0) += 1;
            }
        }
        drawn += 1;
    }
    println!("{solved} solved of {drawn} drawn; worst imbalance {worst:.1e}; {failed} failed");
    println!("outside the range: {refused:?}");
    println!("Newton steps at T {:?}\nNewton steps at 25 °C {:?}", steps[0], steps[1]);
    std::process::exit(i32::from(failed > 0));
}
