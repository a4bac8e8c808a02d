//! One answer of the arithmetic: a line in bold, what it means, its figures, and why.

use std::collections::BTreeMap;

pub use knowledge::Urgency;
use quantity::{Kind, Why};

/// One answer.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Sum {
    /// Its stable name.
    pub key: String,
    /// When to act.
    pub urgency: Urgency,
    /// The answer in a line.
    pub head: String,
    /// What it means and what to do, a paragraph each.
    pub says: Vec<String>,
    /// The paragraph of `says` that is its act of a change of water, if it has one.
    pub change: Option<String>,
    /// Figures by name with their unit in it.
    pub figures: BTreeMap<String, f64>,
    /// Why.
    pub why: Why,
}

impl Sum {
    /// A sum without figures yet. `arithmetic` is the sum in the keeper's figures, `words` a sentence for a beginner.
    pub(crate) fn new(
        key: &str,
        urgency: Urgency,
        head: String,
        arithmetic: String,
        words: &str,
        sources: &[&str],
    ) -> Sum {
        let known = |source: &&&str| knowledge::book().cite(source).is_some();
        Sum {
            key: key.to_owned(),
            urgency,
            why: Why {
                key: key.to_owned(),
                question: format!("why {}?", head.trim_end_matches('.')),
                sum: arithmetic,
                words: words.to_owned(),
                sources: sources.iter().filter(known).map(|source| (*source).to_owned()).collect(),
                kind: Kind::WorkedOut,
            },
            head,
            says: Vec::new(),
            change: None,
            figures: BTreeMap::new(),
        }
    }

    /// The same with one more paragraph.
    pub(crate) fn say(mut self, text: impl Into<String>) -> Sum {
        self.says.push(text.into());
        self
    }

    /// The same with one more paragraph, which is its act of a change of water.
    pub(crate) fn act_of_change(mut self, text: String) -> Sum {
        self.change = Some(text.clone());
        self.say(text)
    }

    /// The same with a figure.
    pub(crate) fn figure(mut self, name: &str, value: f64) -> Sum {
        self.figures.insert(name.to_owned(), value);
        self
    }

    /// The same with its answer only as well known as an input.
    pub(crate) fn only(mut self, kind: Kind) -> Sum {
        self.why.kind = self.why.kind.weaker(kind);
        self
    }
}
