//! What the house has to say about the last rewriting and the last act.

use std::collections::BTreeMap;

use quantity::Fault;
use setup::Change;

/// Something typed that was not taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Refusal {
    /// As typed.
    pub typed: String,
    /// What is wrong with it.
    pub faults: Vec<Fault>,
}

/// A change against the compared revision, which is told on top if its field has no blank on the letter.
#[derive(Clone, Debug, PartialEq)]
pub struct Elsewhere {
    /// What changed.
    pub change: Change,
    /// It answers the question that was open there.
    pub answered: bool,
}

/// What the house has to say about the last rewriting.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// Sentences at the top.
    pub told: Vec<String>,
    /// Refused texts by field.
    pub refused: BTreeMap<String, Refusal>,
    /// The revision that the letter is compared with: "was ...".
    pub before: Option<u64>,
    /// What the changed blanks showed there; "assumed" where the keeper said that it is so.
    pub was: BTreeMap<String, String>,
    /// All that was changed since.
    pub elsewhere: Vec<Elsewhere>,
    /// What the worked-out numbers read there, by key.
    pub outs: BTreeMap<String, String>,
    /// The letter of the note to be shown open.
    pub why: Option<String>,
    /// The field whose question was met by "I don't know".
    pub unknown: Option<String>,
    /// What was typed into the fields of an act that was refused.
    pub typed: BTreeMap<String, String>,
    /// The writing of the log that the last act made.
    pub wrote: Option<u64>,
    /// The writing of the log that was just taken back.
    pub undone: Option<u64>,
}
