//! The answer to "why?": formula, inputs with units, result, sources, kind.
//!
//! One [`Why`] serves the note in the margin of a page, `--explain` on the command line and the docs.

use crate::Kind;

/// Why a number is what it is, in the keeper's own figures.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Why {
    /// A stable name, for instance `bottle-1-potassium-nitrate`.
    pub key: String,
    /// The question as it is asked, for instance "why 3.9 g?".
    pub question: String,
    /// The sum in figures, for instance "3.2 mg/L × 96 L × 60 days ÷ 0.613 = 30.1 g".
    pub sum: String,
    /// One or two sentences for a beginner.
    pub words: String,
    /// Keys of `data/sources.toml`; empty where only practice or an assumption exists.
    pub sources: Vec<String>,
    /// How well the result is known: its weakest input counts.
    pub kind: Kind,
}

/// Whatever can say why.
pub trait Explain {
    /// Formula with figures, words, sources and kind.
    fn explain(&self) -> Why;
}
