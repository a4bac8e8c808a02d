//! Solving asks the allocator for nothing, whether it answers or refuses.

use std::hint::black_box;

use allocation_counter::measure;
use water::{Constants, solve, solve_with};

use crate::waters;

#[test]
fn solving_does_not_allocate() {
    let samples: Vec<_> = (0..2_000).map(|i| waters::random_water(11, i)).collect();
    let constants = Constants::at(samples[0].temperature_c).unwrap();
    let counted = measure(|| {
        for sample in &samples {
            let _ = black_box(solve(black_box(sample)));
        }
        let _ = black_box(solve_with(&constants, &samples[0]));
    });
    assert_eq!(counted.count_total, 0);
    // The counter does count.
    assert_eq!(measure(|| drop(black_box(vec![1.0_f64; 8]))).count_total, 1);
}
