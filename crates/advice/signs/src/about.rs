//! What a finding is about.

/// What was seen or read.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum About {
    /// Something seen.
    Sight {
        /// Key of `data/sights.toml`.
        key: String,
    },
    /// A reading.
    Reading {
        /// Key of `data/readings.toml`.
        of: String,
        /// The value, in the unit of that table.
        value: f64,
        /// Half width within which 90 of 100 such readings lie.
        error: f64,
    },
}
