//! "May I buy this here?" by country (`data/law.toml`). Law changes: every answer says to check the current text.

use std::collections::BTreeMap;

/// Whose law.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// European Union.
    Eu,
    /// Great Britain.
    Gb,
    /// United States.
    Us,
    /// Anywhere else.
    Other,
}

impl Place {
    /// All of them.
    pub const ALL: [Place; 4] = [Place::Eu, Place::Gb, Place::Us, Place::Other];

    /// The place that the word for a country in a tank file stands for (`eu`, `gb`, `us`); anywhere else for any other word.
    pub fn of(country: &str) -> Place {
        match country {
            "eu" => Place::Eu,
            "gb" => Place::Gb,
            "us" => Place::Us,
            _ => Place::Other,
        }
    }

    /// Name in a sentence.
    pub fn words(self) -> &'static str {
        match self {
            Place::Eu => "the European Union",
            Place::Gb => "Great Britain",
            Place::Us => "the United States",
            Place::Other => "your country",
        }
    }
}

/// The answer, gentlest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// No rule known to us.
    Allowed,
    /// Free to buy; the seller reports what looks suspicious, and so do you a loss or theft.
    Reported,
    /// Not known to us: ask before you order.
    Ask,
    /// Only with a licence.
    Licence,
    /// Not for the public.
    Refused,
}

/// One rule.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct LawRow {
    /// Whose law.
    pub place: Place,
    /// Keys of the products that it holds for.
    pub products: Vec<String>,
    /// What it says.
    pub verdict: Verdict,
    /// The act.
    pub act: String,
    /// Since when, as the act or our memory of it says; empty where unknown.
    pub since: String,
    /// Key of the source, or one of the words of [`crate::Sourced`].
    pub source: String,
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Law {
    /// Said with every answer.
    pub(crate) check: String,
    /// What each verdict means, in a sentence.
    pub(crate) words: BTreeMap<Verdict, String>,
    /// Rules; what stands in none is allowed as far as we know.
    pub(crate) rules: Vec<LawRow>,
}

/// The answer for one product in one place.
#[derive(Clone, Debug, serde::Serialize)]
pub struct Purchase {
    /// What the law says, as far as we know.
    pub verdict: Verdict,
    /// The rule behind it, if one is known.
    pub rule: Option<LawRow>,
    /// The sentence for the page; ends with the advice to check the current text.
    pub say: String,
}

impl Law {
    pub(crate) fn may_buy(&self, place: Place, product: &str) -> Purchase {
        let rule = self
            .rules
            .iter()
            .filter(|rule| rule.place == place && rule.products.iter().any(|key| key == product))
            .max_by_key(|rule| rule.verdict);
        let verdict = rule.map_or(Verdict::Allowed, |rule| rule.verdict);
        let mut say = self.words.get(&verdict).cloned().unwrap_or_default();
        if let Some(rule) = rule {
            say.push_str(&format!(" ({})", rule.act));
        }
        say.push_str(". ");
        say.push_str(&self.check);
        Purchase { verdict, rule: rule.cloned(), say }
    }
}
