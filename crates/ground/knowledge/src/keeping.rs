//! Who lives in the tank, and waters that come without a report (`data/animals.toml`, `data/waters.toml`).

use std::collections::BTreeMap;

use quantity::Ion;

use crate::{Place, Sourced};

/// A class of animals, by the limits that hold for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AnimalClass {
    /// Grown fish.
    Fish,
    /// Eggs, fry, young fish.
    YoungFish,
    /// Shrimps and other crustaceans.
    Shrimps,
    /// Snails and mussels.
    Snails,
    /// Others without a backbone.
    OtherInvertebrates,
}

/// Which limits hold for a class.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Animals {
    /// Name in a sentence, plural.
    pub name: String,
    /// True where the copper limits hold (harm rule 4).
    pub copper: bool,
    /// True where the strict nitrate guideline is told (harm rule 16).
    pub strict_nitrate: bool,
    /// True where the ammonia criterion for snails counts too, if it is lower (harm rule 7).
    pub snail_ammonia: bool,
}

/// A water that comes without a report.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Water {
    /// Name in a sentence.
    pub name: String,
    /// mg/L of each ion with its usual range.
    pub ions: BTreeMap<Ion, Sourced<f64>>,
    /// meq/L.
    pub alkalinity_meq_per_l: Sourced<f64>,
    /// pH as it comes; the engine works out the one after airing.
    pub ph: Sourced<f64>,
    /// True where it holds disinfectant unless the supplier says no.
    pub disinfected: bool,
    /// What a keeper should know before using it.
    #[serde(default)]
    pub note: Option<String>,
}

/// What to assume for a determinand that a tap report leaves out.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Unreported {
    /// The ion.
    pub ion: Ion,
    /// Only there; without it, everywhere else.
    #[serde(default)]
    pub place: Option<Place>,
    /// mg/L of the ion.
    pub mg_per_l: Sourced<f64>,
}

/// The file of waters.
#[derive(Clone, Debug, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Waters {
    pub(crate) water: BTreeMap<String, Water>,
    pub(crate) unreported: Vec<Unreported>,
}
