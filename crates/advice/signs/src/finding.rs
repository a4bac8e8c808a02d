//! What is found: causes kept or struck out, one change, when to judge, what we don't know.

use jiff::civil::Date;
use knowledge::{Evidence, Sight, Urgency, book};

use crate::facts::Facts;
use crate::{About, cause, change};

/// How a cause stands against this tank's own numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// The tank's numbers point to it.
    Likely,
    /// The tank's numbers allow it.
    Possible,
    /// Nothing that I know decides.
    Open,
    /// This tank can't have it.
    StruckOut,
}

impl Standing {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Standing::Likely => "your numbers point to it",
            Standing::Possible => "your numbers allow it",
            Standing::Open => "open",
            Standing::StruckOut => "struck out",
        }
    }
}

/// A cause with its reason.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Cause {
    /// Key of `data/causes.toml`.
    pub key: String,
    /// In plain words.
    pub words: String,
    /// How it stands.
    pub standing: Standing,
    /// Why: this tank's own numbers.
    pub because: String,
    /// What would decide.
    pub decides: String,
}

/// The one change.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct OneChange {
    /// The cause that it is for; empty: it follows from a rule of harm.
    pub cause: String,
    /// What to change, with its caution.
    pub text: String,
    /// Days until it can be judged: not before, usually, at the latest.
    pub judge_days: (u32, u32, u32),
    /// The day on which to look again.
    pub judge_on: Date,
}

/// What is found.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Finding {
    /// What it is about.
    pub about: About,
    /// Its name in plain words.
    pub name: String,
    /// What it means, or how to know it.
    pub says: String,
    /// How urgent.
    pub urgency: Urgency,
    /// Causes, the likeliest first, those struck out last.
    pub causes: Vec<Cause>,
    /// The one change; `None`: something must decide first.
    pub change: Option<OneChange>,
    /// What we don't know; empty where nothing is to be said.
    pub unknown: String,
    /// How good the evidence is.
    pub evidence: Evidence,
    /// Where it comes from: a key of `data/sources.toml`, or "common practice".
    pub source: String,
}

impl Finding {
    /// Causes that this tank can have.
    pub fn kept(&self) -> impl Iterator<Item = &Cause> {
        self.causes.iter().filter(|cause| cause.standing != Standing::StruckOut)
    }

    /// Causes that this tank can't have.
    pub fn struck(&self) -> impl Iterator<Item = &Cause> {
        self.causes.iter().filter(|cause| cause.standing == Standing::StruckOut)
    }
}

/// The causes named, each held against the tank, the likeliest first. `of`: the reading that they are to explain.
pub(crate) fn causes(facts: &Facts, keys: &[String], of: Option<&str>) -> Vec<Cause> {
    let one = |key: &String| {
        let row = book().causes.get(key)?;
        let (standing, because) = cause::stands(facts, key, of)?;
        Some(Cause { key: key.clone(), words: row.words.clone(), standing, because, decides: row.decides.clone() })
    };
    let mut all: Vec<Cause> = keys.iter().filter_map(one).collect();
    all.sort_by_key(|cause| cause.standing);
    all
}

/// What a sight says.
pub(crate) fn of_sight(facts: &Facts, key: &str, sight: &Sight) -> Finding {
    let causes = causes(facts, &sight.causes, None);
    let change = change::one(facts, &causes, None);
    Finding {
        about: About::Sight { key: key.to_owned() },
        name: sight.name.clone(),
        says: sight.seen.clone(),
        urgency: if change.as_ref().is_none_or(|change| change.text.starts_with("None")) {
            Urgency::LeaveItBe
        } else {
            Urgency::WhenItSuits
        },
        causes,
        change,
        unknown: sight.unknown.clone(),
        evidence: sight.evidence,
        source: sight.source.clone(),
    }
}
