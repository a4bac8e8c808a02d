//! How well a number is known: one of four kinds, and the range that goes with it.

/// Every number is one of these four.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// The keeper, a laboratory or a published work measured it.
    Measured,
    /// A formula gave it; it is as good as its weakest input.
    WorkedOut,
    /// People do it so; no source says more.
    CommonPractice,
    /// Nobody said; Tapmere assumed it.
    Assumed,
}

impl Kind {
    /// The words of the interface.
    pub fn words(self) -> &'static str {
        match self {
            Kind::Measured => "measured",
            Kind::WorkedOut => "worked out",
            Kind::CommonPractice => "common practice",
            Kind::Assumed => "assumed",
        }
    }

    /// The weaker of two kinds: what a result that rests on both must say of its inputs.
    pub fn weaker(self, other: Kind) -> Kind {
        self.max(other)
    }
}

/// A value with how well it is known: best estimate, likely range (90 of 100) and kind.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Known<T> {
    /// Best estimate.
    pub value: T,
    /// Lower end of the range that holds it in 90 of 100 cases (or the year's minimum, where the doc says so).
    pub low: T,
    /// Upper end.
    pub high: T,
    /// How well it is known.
    pub kind: Kind,
}

impl<T: Copy> Known<T> {
    /// A value without a range.
    pub fn exact(value: T, kind: Kind) -> Self {
        Known { value, low: value, high: value, kind }
    }
    /// A value with its range.
    pub fn ranged(low: T, value: T, high: T, kind: Kind) -> Self {
        Known { value, low, high, kind }
    }
    /// The same value and range in another unit; `f` must be increasing.
    pub fn map<U>(self, f: impl Fn(T) -> U) -> Known<U> {
        Known { value: f(self.value), low: f(self.low), high: f(self.high), kind: self.kind }
    }
}
