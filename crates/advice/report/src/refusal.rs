//! Why a file, or a part of it, could not be read.

/// The kind of a refusal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RefusalKind {
    /// Pages that are pictures: there is no text to read.
    Scanned,
    /// A password is needed to open it.
    Encrypted,
    /// Not a sound file of its kind.
    Damaged,
    /// Too large, or unpacks to too much, or takes too long.
    TooLarge,
    /// Nothing in it.
    Empty,
    /// Read, but no water values were found.
    NotAReport,
}

/// A refusal in words.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Refusal {
    /// Which one.
    pub kind: RefusalKind,
    /// What it is, and how to mend it.
    pub text: String,
}

impl Refusal {
    /// A refusal of this kind.
    pub fn new(kind: RefusalKind, text: impl Into<String>) -> Refusal {
        Refusal { kind, text: text.into() }
    }
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.text)
    }
}
