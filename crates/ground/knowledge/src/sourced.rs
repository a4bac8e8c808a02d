//! A value with its range and with where it comes from.

use quantity::{Kind, Known};

/// A value of `data/` with its source beside it.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Sourced<T> {
    /// Best estimate, in the unit that the name of the row or its doc states.
    pub value: T,
    /// Lower end of the likely range (90 of 100), where one is known.
    #[serde(default = "none")]
    pub low: Option<T>,
    /// Upper end of the likely range.
    #[serde(default = "none")]
    pub high: Option<T>,
    /// A key of `data/sources.toml`, or one of [`Sourced::PRACTICE`], [`Sourced::ASSUMED`], [`Sourced::WORKED_OUT`].
    pub source: String,
    /// What a reader should know: how the value was chosen, what disagrees.
    #[serde(default)]
    pub note: Option<String>,
}

fn none<T>() -> Option<T> {
    None
}

impl<T> Sourced<T> {
    /// People do it so; no source says more.
    pub const PRACTICE: &'static str = "common practice";
    /// Nobody said; we assumed it.
    pub const ASSUMED: &'static str = "assumed";
    /// Arithmetic from other values; the note says which.
    pub const WORKED_OUT: &'static str = "worked out";

    /// How well the value is known. A value with a source key is "measured", by whoever published it.
    pub fn kind(&self) -> Kind {
        kind_of(&self.source)
    }

    /// The source key, or none where the value is practice, assumed or worked out.
    pub fn source_key(&self) -> Option<&str> {
        (self.kind() == Kind::Measured).then_some(self.source.as_str())
    }
}

impl<T: Copy> Sourced<T> {
    /// Value, range and kind together. Where no range is known, both ends are the value.
    pub fn known(&self) -> Known<T> {
        Known::ranged(self.low(), self.value, self.high(), self.kind())
    }

    /// Lower end of the range, or the value.
    pub fn low(&self) -> T {
        self.low.unwrap_or(self.value)
    }

    /// Upper end of the range, or the value.
    pub fn high(&self) -> T {
        self.high.unwrap_or(self.value)
    }
}

/// The kind that a `source` field stands for.
pub(crate) fn kind_of(source: &str) -> Kind {
    match source {
        Sourced::<()>::PRACTICE => Kind::CommonPractice,
        Sourced::<()>::ASSUMED => Kind::Assumed,
        Sourced::<()>::WORKED_OUT => Kind::WorkedOut,
        _ => Kind::Measured,
    }
}
