//! The exponential of a whole array at once.
//!
//! **What.** exp(x) for every lane, branch-free, so that the compiler works on several lanes at a time; the same
//! last digit on every machine, since no system library is called.
//!
//! **Equation.** exp(x) = 2^k exp(r), k = round(x / ln 2), r = x - k ln 2; exp(r) by its power series to r^11.
//!
//! **Range.** -708 to 708; beyond, the value at the end of the range. Relative error below 2e-14.
//!
//! **Checked by** the standard library's `exp` (test below).

/// Adding this to a small number leaves its nearest integer in the lowest bits.
const ROUND: f64 = 6_755_399_441_055_744.0;
/// ln 2, its first 32 bits.
const LN2_HIGH: f64 = 6.931_471_803_691_238e-1;
/// ln 2, the rest.
const LN2_LOW: f64 = 1.908_214_929_270_587_7e-10;

/// exp of one number, see the top of the file.
#[inline(always)]
pub(crate) fn exp(x: f64) -> f64 {
    let x = if x > -708.0 { x } else { -708.0 };
    let x = if x < 708.0 { x } else { 708.0 };
    let shifted = x * std::f64::consts::LOG2_E + ROUND;
    let k = shifted - ROUND;
    let r = (x - k * LN2_HIGH) - k * LN2_LOW;
    // The series in pairs, so that the products do not wait for each other (Estrin's scheme).
    let (r2, r4) = (r * r, r * r * (r * r));
    let low = (1.0 + r) + r2 * (0.5 + r * (1.0 / 6.0));
    let middle = (1.0 / 24.0 + r * (1.0 / 120.0)) + r2 * (1.0 / 720.0 + r * (1.0 / 5_040.0));
    let high = (1.0 / 40_320.0 + r * (1.0 / 362_880.0)) + r2 * (1.0 / 3_628_800.0 + r * (1.0 / 39_916_800.0));
    let sum = low + r4 * (middle + r4 * high);
    sum * f64::from_bits(shifted.to_bits().wrapping_add(1023) << 52)
}

/// exp of every lane.
#[inline(always)]
pub(crate) fn exp_all<const N: usize>(x: &mut [f64; N]) {
    for lane in x.iter_mut() {
        *lane = exp(*lane);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn agrees_with_the_standard_library() {
        let mut worst: f64 = 0.0;
        for i in -70_000..70_000 {
            let x = f64::from(i) * 0.01;
            worst = worst.max((exp(x) / x.exp() - 1.0).abs());
        }
        assert!(worst < 2e-14, "{worst}");
        assert_eq!(exp(f64::NEG_INFINITY), exp(-708.0));
        assert_eq!(exp(f64::INFINITY), exp(708.0));
    }
}
