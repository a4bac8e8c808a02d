//! Levels to aim at, in mg/L of the ion, by the keeper's wish and by the light (`data/levels.toml`).

use std::collections::BTreeMap;

use quantity::Ion;

use crate::Energy;

/// How richly the plants are to be fed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Feeding {
    /// No more than plants need to stay well.
    JustEnough,
    /// Some in store.
    Comfortable,
    /// Never short, at more salt and more trimming.
    Plenty,
}

impl Feeding {
    /// All of them, least first.
    pub const ALL: [Feeding; 3] = [Feeding::JustEnough, Feeding::Comfortable, Feeding::Plenty];

    /// The words of the interface.
    pub fn words(self) -> &'static str {
        match self {
            Feeding::JustEnough => "just enough",
            Feeding::Comfortable => "comfortable",
            Feeding::Plenty => "plenty",
        }
    }
}

/// A band to stay in, mg/L of the ion.
#[derive(Clone, Copy, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// Lower edge.
    pub low: f64,
    /// Upper edge.
    pub high: f64,
}

/// The bands of one wish in one light.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Levels {
    /// How richly.
    pub feeding: Feeding,
    /// The light.
    pub energy: Energy,
    /// Bands by ion, mg/L of the ion in the tank.
    pub bands: BTreeMap<Ion, Band>,
    /// Where the bands come from; "common practice" in every row so far.
    pub source: String,
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct File {
    pub(crate) levels: Vec<Levels>,
}
