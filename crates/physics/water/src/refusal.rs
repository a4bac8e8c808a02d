//! Why a water was not solved.

/// Why a water was not solved.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Something lies outside the range of the model.
    #[error("{what} is {value}, outside {low} to {high}: the model is not made for it")]
    OutOfRange {
        /// The quantity's name with its unit.
        what: &'static str,
        /// As given, or as it came out.
        value: f64,
        /// Least.
        low: f64,
        /// Most.
        high: f64,
    },
    /// Alkalinity and pH exclude each other.
    #[error("no water has this alkalinity together with {what}")]
    Impossible {
        /// The input that contradicts the alkalinity.
        what: &'static str,
    },
    /// The equations did not settle. Not seen in any of the million waters of the long test.
    #[error("the equations for this water did not settle")]
    NotSettled,
}

/// Nothing, if `low <= value <= high`; NaN lies outside.
pub(crate) fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<(), Refusal> {
    if value >= low && value <= high { Ok(()) } else { Err(Refusal::OutOfRange { what, value, low, high }) }
}
