//! How many changes bring an excess below harm.
//!
//! **What.** Each change of a share x leaves 1 - x of whatever the new water does not hold.
//!
//! **Equation.** n = ⌈ln r / ln(1 - x)⌉, r = allowed ÷ present, both over what the new water holds.
//!
//! **Symbols.** r and x as shares, 0 to 1.
//!
//! **Range.** Well stirred water; nothing taken up, bound or let go meanwhile. Where the new water itself holds as much as is
//! allowed, no number of changes helps.
//!
//! **Source.** Balance of mass.
//!
//! **Checked by** `tests/by_hand_dilution.rs`.

/// What a number of changes leaves of an excess, 0 to 1.
pub fn share_left(share: f64, changes: u32) -> f64 {
    (1.0 - share.clamp(0.0, 1.0)).powi(i32::try_from(changes).unwrap_or(i32::MAX))
}

/// How many changes of a share (over 0 to 1) bring `present` down to `allowed` or less, each counted over what the new
/// water holds. 0 where it is there already; `None` where no number does.
pub fn changes_needed(present: f64, allowed: f64, share: f64) -> Option<u32> {
    if present <= allowed {
        return Some(0);
    }
    if allowed <= 0.0 || !(share > 0.0 && share <= 1.0) || !present.is_finite() {
        return None;
    }
    if share == 1.0 {
        return Some(1);
    }
    // A hair below a whole number is that number: 0.5 × 0.5 is a quarter.
    let n = ((allowed / present).ln() / (1.0 - share).ln() - 1e-9).ceil();
    (n < 1000.0).then_some(n as u32)
}
