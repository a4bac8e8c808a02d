//! Sentences on handling, for labels and for the letter (`data/cautions.toml`).

/// One caution.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// The sentence as a label says it.
    pub say: String,
    /// True where every label says it.
    #[serde(default)]
    pub everywhere: bool,
    /// Hazard statements that it stands for, for instance `H272`; empty where it stands for none.
    #[serde(default)]
    pub statements: Vec<String>,
    /// Key of the source, or one of the words of [`crate::Sourced`].
    pub source: String,
}
