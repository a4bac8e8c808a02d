//! How far a measured value may be off, and which tests a household can buy (`data/methods.toml`).

use std::collections::BTreeMap;

use crate::Sourced;

/// The table.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Methods {
    /// By `laboratory`, `drops`, `colours`, `meter`.
    pub method: BTreeMap<String, Method>,
    /// What holds for every analysis.
    pub analysis: AnalysisRow,
    /// What parts two waters.
    pub two_waters: TwoWaters,
    /// What makes a test worth doing.
    pub next_test: NextTestRow,
    /// Tests that a household can buy.
    pub test: Vec<KitTest>,
}

/// How far one method is off.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Method {
    /// What it is, in plain words.
    pub words: String,
    /// Of an ion; the floor in mg/L.
    pub ion: MethodError,
    /// Of hardness and alkalinity; the floor in meq/L.
    pub hardness: MethodError,
    /// Of conductivity.
    pub conductivity: MethodError,
}

/// One standard deviation.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct MethodError {
    /// Share of the value.
    pub share: f64,
    /// And besides, in the unit of the value.
    pub floor: f64,
    /// Key of the source, or one of the words of [`Sourced`].
    pub source: String,
    /// How it was chosen.
    #[serde(default)]
    pub note: Option<String>,
}

/// What holds for every analysis.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct AnalysisRow {
    /// Charge that is not counted, as a share of the cations.
    pub uncounted_charge: Sourced<f64>,
    /// Samples behind a range that tells no number.
    pub samples_untold: Sourced<u32>,
    /// Share of values that are wrong altogether.
    pub slips: Sourced<f64>,
    /// How far regions lie apart in what their waters usually hold: ln, one standard deviation, the same for all main ions.
    pub regions: Sourced<f64>,
    /// Share of tap waters that hold sodium in place of a part of their hardness, by clay in the ground or by softening at the
    /// works.
    pub softened: Sourced<f64>,
}

/// What parts two waters, in ln of conductivity or hardness.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct TwoWaters {
    /// The narrowest gap.
    pub gap: Sourced<f64>,
    /// How many times wider than any other step it must be.
    pub times: Sourced<f64>,
    /// The least that a step counts as.
    pub step: Sourced<f64>,
}

/// What makes a test worth doing.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct NextTestRow {
    /// Width of alkalinity's range that changes the advice, meq/L.
    pub alkalinity_band: Sourced<f64>,
    /// A range no wider than so many bands is narrow enough.
    pub usable: Sourced<f64>,
    /// A test must narrow all ranges together by this share.
    pub worth: Sourced<f64>,
}

/// A test that a household can buy.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct KitTest {
    /// Name in a sentence.
    pub name: String,
    /// What it measures: an ion, `hardness`, `alkalinity` or `conductivity`.
    pub of: String,
    /// Key of [`Methods::method`].
    pub method: String,
}
