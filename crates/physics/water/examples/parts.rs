//! tmp
#![allow(clippy::disallowed_methods)]
#[path = "../tests/common/waters.rs"]
mod waters;
fn main() {
    let n = 300000u64;
    let s = std::time::Instant::now();
    let mut x = 0.0;
    for i in 0..n {
        x += waters::random_water(1, i).temperature_c;
    }
    println!("gen {:.3} us {x}", s.elapsed().as_secs_f64() * 1e6 / n as f64);
    let s = std::time::Instant::now();
    let mut x = 0.0;
    for i in 0..n {
        let c = water::Constants::at(35.0 * (i as f64) / n as f64).unwrap();
        x += std::hint::black_box(&c).temperature_c();
    }
    println!("const {:.3} us {x}", s.elapsed().as_secs_f64() * 1e6 / n as f64);
    let w: Vec<_> = (0..1000).map(|i| waters::random_water(1, i)).filter(|w| water::solve(w).is_ok()).collect();
    let s = std::time::Instant::now();
    let mut x = 0.0;
    let mut st = 0;
    for _ in 0..200 {
        for w in &w {
            let r = water::solve(w).unwrap();
            x += r.ph;
            st += r.newton_steps()[0] + r.newton_steps()[1];
        }
    }
    let t = s.elapsed().as_secs_f64() * 1e6 / (200 * w.len()) as f64;
    println!("solve {:.3} us {x} steps {}", t, st as f64 / (200 * w.len()) as f64);
}
