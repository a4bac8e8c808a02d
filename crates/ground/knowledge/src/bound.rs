//! What is possible and what is usual for each input (`data/bounds.toml`).

/// Possible and usual values, all in `unit`. Usual lies inside possible.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Bound {
    /// Below this the value is refused.
    pub low: f64,
    /// Above this the value is refused.
    pub high: f64,
    /// Below this it is asked about.
    pub usual_low: f64,
    /// Above this it is asked about.
    pub usual_high: f64,
    /// The unit of all four, as printed.
    pub unit: String,
}

/// Bounds of one input. [`Bound`] judges a value by them.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct BoundRow {
    /// Possible and usual, in one unit.
    pub is: Bound,
    /// What stands behind them, for the message.
    pub why: String,
    /// Key of the source, or one of the words of [`crate::Sourced`].
    pub source: String,
}
