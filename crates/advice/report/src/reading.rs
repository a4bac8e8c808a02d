//! One value of a report, with everything that was read beside it.

use quantity::Comparator;

use crate::{Place, Unit};

/// What a value is counted as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
pub enum Basis {
    /// The substance as itself: nitrate as NO3, phosphate and total phosphorus as PO4, iron as Fe.
    #[serde(rename = "ion")]
    Ion,
    /// As nitrogen.
    N,
    /// As phosphorus.
    P,
    /// As phosphorus pentoxide.
    P2O5,
    /// As sulfur.
    S,
    /// As ammonia.
    NH3,
    /// As silica.
    SiO2,
    /// As silicon.
    Si,
    /// As calcium carbonate.
    CaCO3,
    /// As calcium oxide.
    CaO,
    /// As bicarbonate.
    HCO3,
    /// Hardness given as calcium.
    Ca,
    /// Alkalinity as the acid taken up to pH 4.3.
    #[serde(rename = "acid_capacity")]
    AcidCapacity,
    /// Conductivity at 20 °C.
    #[serde(rename = "20C")]
    At20C,
    /// Conductivity at 25 °C.
    #[serde(rename = "25C")]
    At25C,
}

/// Whether the basis of a value is settled.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub enum Counted {
    /// The report says it, or proves it.
    As(Basis),
    /// There is nothing to say (pH, temperature, degrees of hardness), or a range is carried (conductivity without a
    /// reference temperature).
    Plainly,
    /// Not told and not proven: one of these. Nothing may be computed on the value until the keeper answers.
    Open(Vec<Basis>),
}

impl Counted {
    /// The basis, if there is one and it is settled.
    pub fn basis(&self) -> Option<Basis> {
        match self {
            Counted::As(basis) => Some(*basis),
            _ => None,
        }
    }
}

/// Which number of a set of samples a value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Statistic {
    /// The lowest.
    Min,
    /// The mean.
    Mean,
    /// The middle one.
    Median,
    /// The highest.
    Max,
    /// 95 of 100 lie at or below.
    P95,
    /// 90 of 100 lie at or below.
    P90,
    /// 10 of 100 lie at or below.
    P10,
    /// 5 of 100 lie at or below.
    P5,
    /// The one result of a sample.
    Single,
}

/// A regulator's limit, as the row prints it.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Limit {
    /// Its text.
    pub text: String,
    /// Its number, in the unit of the row; none where it is a range or not a number.
    pub value: Option<f64>,
}

/// One value of a report.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Reading {
    /// Key of `data/determinands.toml`.
    pub determinand: String,
    /// The name as the report prints it.
    pub as_written: String,
    /// Which number of its samples.
    pub statistic: Statistic,
    /// The number in the unit as printed; none below a detection limit.
    pub value: Option<f64>,
    /// [`Comparator::Below`]: under [`Reading::detection_limit`]; [`Comparator::Above`]: over the value.
    pub comparator: Comparator,
    /// What the method can see, in the same unit, where the value is below it and the report says it.
    pub detection_limit: Option<f64>,
    /// The unit; none where the report gives none.
    pub unit: Option<Unit>,
    /// The unit as the report prints it.
    pub unit_text: String,
    /// What it is counted as.
    pub counted: Counted,
    /// Place in [`crate::Report::samples`]; none where there is only one.
    pub sample: Option<usize>,
    /// Where it was read.
    pub place: Place,
    /// Number of samples behind it.
    pub samples: Option<u32>,
    /// Number of samples over the limit.
    pub failing: Option<u32>,
    /// The regulator's limit of the row.
    pub limit: Option<Limit>,
    /// How sure the reader is that this is what the report says, 0 to 1.
    pub confidence: f64,
    /// What the keeper must answer before the value is used.
    pub question: Option<String>,
    /// Why the basis is taken as settled where the report does not print it.
    pub because: Option<String>,
}

impl Reading {
    /// Whether the value may be computed with.
    pub fn is_settled(&self) -> bool {
        self.question.is_none() && !matches!(self.counted, Counted::Open(_))
    }

    /// Whether it lies under what the method can see.
    pub fn is_below_detection(&self) -> bool {
        self.comparator == Comparator::Below
    }
}
