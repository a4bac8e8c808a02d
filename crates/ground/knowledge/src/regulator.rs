//! Regulators' limits for water that is supplied to people, and what plants, fish and shrimps bear (`data/limits.toml`).
//!
//! The two are kept apart: a regulator's limit binds the supplier and is never a limit for an animal.

use std::collections::BTreeMap;

/// Who sets a limit for suppliers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Regulator {
    /// The European Union.
    Eu,
    /// Great Britain.
    Gb,
    /// Germany.
    De,
    /// The United States.
    Us,
    /// The World Health Organization, whose guidelines bind nobody.
    Who,
}

impl Regulator {
    /// All of them, in the order of a table.
    pub const ALL: [Regulator; 5] = [Regulator::Eu, Regulator::Gb, Regulator::De, Regulator::Us, Regulator::Who];

    /// Name in a table's head.
    pub fn name(self) -> &'static str {
        match self {
            Regulator::Eu => "European Union",
            Regulator::Gb => "Great Britain",
            Regulator::De => "Germany",
            Regulator::Us => "United States",
            Regulator::Who => "WHO",
        }
    }
}

/// How strictly a limit is meant.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Strict {
    /// The supplier must keep it.
    #[default]
    Binding,
    /// A sign that something is to be looked into.
    Indicator,
    /// For taste, colour and pipes; not enforced.
    Secondary,
    /// Reached by too many taps, it makes the supplier act.
    #[serde(rename = "action level")]
    ActionLevel,
    /// Advice to regulators.
    Guideline,
}

impl Strict {
    /// In a sentence or a cell; empty for the common case.
    pub fn words(self) -> &'static str {
        match self {
            Strict::Binding => "",
            Strict::Indicator => "indicator",
            Strict::Secondary => "secondary",
            Strict::ActionLevel => "action level",
            Strict::Guideline => "guideline",
        }
    }
}

/// One regulator's limit.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct SupplyLimit {
    /// Not below this, in the unit of the row.
    #[serde(default)]
    pub least: Option<f64>,
    /// Not above this, in the unit of the row.
    #[serde(default)]
    pub most: Option<f64>,
    /// How strictly it is meant.
    #[serde(default)]
    pub kind: Strict,
    /// As the act prints it, or what comes next.
    #[serde(default)]
    pub note: Option<String>,
    /// Key of the source.
    pub source: String,
}

/// The limits of one determinand.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct SupplyLimits {
    /// mg/L of the ion itself, µS/cm at 25 °C, or empty for pH.
    pub unit: String,
    eu: Option<SupplyLimit>,
    gb: Option<SupplyLimit>,
    de: Option<SupplyLimit>,
    us: Option<SupplyLimit>,
    who: Option<SupplyLimit>,
}

impl SupplyLimits {
    /// The limit of one regulator; none where it sets none, or none was read.
    pub fn of(&self, regulator: Regulator) -> Option<&SupplyLimit> {
        match regulator {
            Regulator::Eu => self.eu.as_ref(),
            Regulator::Gb => self.gb.as_ref(),
            Regulator::De => self.de.as_ref(),
            Regulator::Us => self.us.as_ref(),
            Regulator::Who => self.who.as_ref(),
        }
    }
}

/// Who bears it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Life {
    /// Plants under water.
    Plants,
    /// Grown fish.
    Fish,
    /// Shrimps, snails and young.
    Shrimps,
}

impl Life {
    /// In a cell or a sentence.
    pub fn words(self) -> &'static str {
        match self {
            Life::Plants => "plants",
            Life::Fish => "fish",
            Life::Shrimps => "shrimps, snails, young",
        }
    }
}

/// What somebody bears of a determinand over weeks.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Bears {
    /// Who.
    pub who: Life,
    /// Key of `data/determinands.toml`.
    pub determinand: String,
    /// mg/L of the ion itself, meq/L of hardness, or empty for pH.
    pub unit: String,
    /// Harm is known below this.
    #[serde(default)]
    pub least: Option<f64>,
    /// Harm is known, or guarded against, above this.
    #[serde(default)]
    pub most: Option<f64>,
    /// The sentence for the page, with the number.
    pub say: String,
    /// Key of the source, or "common practice".
    pub source: String,
}

/// What a hardness or an alkalinity is called.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct WaterWord {
    /// `hardness_total` or `alkalinity`.
    pub determinand: String,
    /// Below so many meq/L; none for the last word.
    #[serde(default)]
    pub below: Option<f64>,
    /// The word: "soft", "well buffered".
    pub word: String,
    /// What it does, in the middle of a sentence.
    pub say: String,
    /// Key of the source, or "common practice".
    pub source: String,
}

/// Numbers that reports print as limits, in any country: they tell a column of limits from one of results.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
pub struct PrintedLimits {
    /// Key of the source, or "common practice".
    pub source: String,
    /// By determinand, mg/L, µS/cm or pH as printed, however it is counted.
    #[serde(flatten)]
    pub of: BTreeMap<String, Vec<f64>>,
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct WaterLimits {
    /// Numbers that reports print as limits.
    pub printed: PrintedLimits,
    /// Regulators' limits, by determinand.
    pub regulator: BTreeMap<String, SupplyLimits>,
    /// What plants and animals bear.
    pub bears: Vec<Bears>,
    /// Words for hardness and alkalinity, from the least on.
    pub word: Vec<WaterWord>,
    /// Phosphate that works add against lead in pipes, mg/L PO4.
    pub phosphate_dosed_mg_per_l: crate::Sourced<f64>,
}

impl WaterLimits {
    /// The word for so many meq/L of `hardness_total` or `alkalinity`, or for a `ph`.
    pub fn word(&self, determinand: &str, value: f64) -> Option<&WaterWord> {
        let mut words = self.word.iter().filter(|word| word.determinand == determinand);
        words.find(|word| word.below.is_none_or(|end| value < end))
    }
}
