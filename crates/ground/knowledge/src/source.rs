//! The publications that values come from, and how each was read.

/// How a source was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
pub enum Read {
    /// The text itself, or its published abstract, was opened.
    #[serde(rename = "itself")]
    Itself,
    /// The value was read in another work that quotes it.
    #[serde(rename = "secondary")]
    Secondary,
    /// The source exists, but the value was written from memory.
    #[serde(rename = "from memory")]
    FromMemory,
}

impl Read {
    /// The words that stand after a citation; nothing where the text itself was opened.
    pub fn words(self) -> &'static str {
        match self {
            Read::Itself => "",
            Read::Secondary => ", read in another work",
            Read::FromMemory => ", from memory",
        }
    }
}

/// One publication.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Author or body, year, title, where it stands.
    pub cite: String,
    /// The name in a sentence, for instance `CCME 2012`.
    pub short: String,
    /// How it was read.
    pub read: Read,
}

impl Source {
    /// Name for a sentence and how it was read, for instance `CCME 2012, from memory`.
    pub fn words(&self) -> String {
        format!("{}{}", self.short, self.read.words())
    }
}
