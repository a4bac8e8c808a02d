//! Many random waters in a row: counts what was answered, refused, and how many Newton steps it took.
#![allow(clippy::disallowed_methods)]

use std::collections::BTreeMap;

use water::{Refusal, solve};

#[path = "../tests/common/waters.rs"]
mod waters;

fn main() {
    let wanted: u64 = std::env::args().nth(1).and_then(|n| n.parse().ok()).unwrap_or(20_000);
    let (mut solved, mut i) = (0, 0);
    let mut steps = [BTreeMap::new(), BTreeMap::new()];
    let mut refused: BTreeMap<String, u64> = BTreeMap::new();
    let start = std::time::Instant::now();
    while solved < wanted {
        let sample = waters::random_water(1, i);
        match solve(&sample) {
            Ok(water) => {
                solved += 1;
                for (steps, n) in steps.iter_mut().zip(water.newton_steps()) {
                    *steps.entry(n).or_insert(0_u64) += 1;
                    if n > 12 {
                        println!("{n} {:?} {}", water.newton_steps(), i);
                    }
                }
            }
            Err(refusal) => {
                let what = match &refusal {
                    Refusal::OutOfRange { what, .. } => (*what).to_owned(),
                    other => other.to_string(),
                };
                if refusal == Refusal::NotSettled {
                    println!("{i} {sample:?}");
                }
                *refused.entry(what).or_insert(0) += 1;
            }
        }
        i += 1;
    }
    println!("{solved} solved of {i}; refused {refused:?}");
    println!("steps {steps:?}; {:.2} us per water", start.elapsed().as_secs_f64() * 1e6 / i as f64);
}
