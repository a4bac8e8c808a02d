//! What a file said.

use crate::{Place, Reading, Refusal};

/// A zone, a works, a tap or a date whose values stand in a column, or in rows, of their own.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Sample {
    /// Name as printed; the date as printed where only dates tell the samples apart.
    pub name: Option<String>,
    /// Date, `YYYY-MM-DD`, where one is printed that can be meant in one way only.
    pub date: Option<String>,
}

/// A row with a value whose name nobody understood. Kept and shown.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct UnknownRow {
    /// The row.
    pub text: String,
    /// Where it stands.
    pub source: Place,
}

/// What the keeper must answer.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Question {
    /// Key of `data/determinands.toml`; none where it is about the report.
    pub determinand: Option<String>,
    /// The question.
    pub text: String,
    /// What can be answered.
    pub choices: Vec<String>,
}

/// A place where the report disagrees with itself.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Contradiction {
    /// What disagrees, with both numbers.
    pub text: String,
}

/// What a file said.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Report {
    /// Name of the file.
    pub file: String,
    /// `en`, `de`, `fr`, `nl` or `es`; none where the words don't tell.
    pub language: Option<String>,
    /// Zones, works or dates side by side.
    pub samples: Vec<Sample>,
    /// Which of the samples is proposed: the latest, or the first where dates don't tell.
    pub proposed: Option<usize>,
    /// The values.
    pub readings: Vec<Reading>,
    /// Rows that were not understood.
    pub unknown_rows: Vec<UnknownRow>,
    /// What must be asked.
    pub questions: Vec<Question>,
    /// Where it disagrees with itself.
    pub contradictions: Vec<Contradiction>,
    /// Why it, or a part of it, could not be read.
    pub errors: Vec<Refusal>,
}
