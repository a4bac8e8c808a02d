//! What is possible and what is usual for each input (`data/bounds.toml`).

use quantity::bounds::Bound;

/// Bounds of one input.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct BoundRow {
    /// Possible and usual, in one unit; [`Bound::judge`] judges a value by them.
    pub is: Bound,
    /// What stands behind them, for the message.
    pub why: String,
    /// Key of the source, or one of the words of [`crate::Sourced`].
    pub source: String,
}
