//! Nitrate that the new water itself brings: whether changing water is an answer. Salts, Help now and Signs ask the same and say the same.
//!
//! What: new water that holds half or more of what is borne brings the tank most of the way there: neither more water nor more often is an
//! answer then (harm rule 16). Source: balance of mass; the half is common practice (`rich_tap_share` of `data/troubles.toml`).
//! Checked by: `tests/by_hand_nitrate.rs`.

use quantity::Ion;

use crate::say::Pen;

/// Whether changes of water are no answer to nitrate: `new` what the new water holds at its upper end, `mark` what is borne; mg/L NO3.
pub fn tap_keeps_nitrate(new: f64, mark: f64) -> bool {
    new >= knowledge::book().troubles.number.rich_tap_share.value * mark
}

/// The sentence of it.
pub fn tap_keeps_nitrate_says(pen: &Pen, new: f64) -> String {
    format!(
        "Your new water brings {} itself, and no change goes below that: more water at once, or more often, is no answer.",
        pen.ion(Ion::Nitrate, new)
    )
}
