//! Whether a number can be what was meant: a range that is usual, and a wider one outside which it is refused.
//!
//! The bounds themselves are data and stand elsewhere; here is only what they mean.

use crate::Fault;
use crate::number::{Digits, format_number};

/// Bounds of one input, all in `unit`. Usual lies inside possible; see [`Bound::is_ordered`].
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Bound {
    /// Below this the value is refused.
    pub low: f64,
    /// Above this the value is refused.
    pub high: f64,
    /// Below this it is asked about.
    pub usual_low: f64,
    /// Above this it is asked about.
    pub usual_high: f64,
    /// The unit of all four, as printed.
    pub unit: String,
}

/// What becomes of a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Taken as it is.
    Usual,
    /// Taken, and asked about: "Really?".
    Unusual,
    /// Not taken.
    Refused,
}

/// Judge a value that is in the bound's unit. What is no number is refused.
pub fn check(value: f64, bound: &Bound) -> Verdict {
    if !(bound.low..=bound.high).contains(&value) {
        Verdict::Refused
    } else if (bound.usual_low..=bound.usual_high).contains(&value) {
        Verdict::Usual
    } else {
        Verdict::Unusual
    }
}

impl Bound {
    /// low ≤ usual_low ≤ usual_high ≤ high, and all are numbers.
    pub fn is_ordered(&self) -> bool {
        self.low <= self.usual_low && self.usual_low <= self.usual_high && self.usual_high <= self.high
    }

    /// The question to ask of an unusual value of `what` ("the dose"), or nothing.
    ///
    /// # Errors
    /// A value that is refused; the fault names both ranges.
    pub fn judge(&self, what: &str, value: f64) -> Result<Option<String>, Fault> {
        let n = |v| format_number(v, Digits::Significant(3));
        let unit = if self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        let usual = format!("{} to {}{unit}", n(self.usual_low), n(self.usual_high));
        match check(value, self) {
            Verdict::Usual => Ok(None),
            Verdict::Unusual => Ok(Some(format!("Really? {what} is {}{unit}; usual is {usual}.", n(value)))),
            Verdict::Refused => Err(Fault::new(format!("{what} cannot be {}{unit}", n(value)))
                .expected(format!("{} to {}{unit}; usual is {usual}", n(self.low), n(self.high)))
                .hint("look at the unit and at the decimal sign")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn usual_unusual_refused() {
        let b = Bound { low: 0.0, high: 100.0, usual_low: 0.1, usual_high: 10.0, unit: "g".into() };
        assert!(b.is_ordered());
        assert_eq!([0.0, 0.1, 10.0, 10.1, 100.0].map(|v| check(v, &b)), {
            use Verdict::*;
            [Unusual, Usual, Usual, Unusual, Unusual]
        });
        for v in [-0.1, 100.1, f64::NAN, f64::INFINITY] {
            assert_eq!(check(v, &b), Verdict::Refused);
        }
        assert_eq!(b.judge("the dose", 5.0), Ok(None));
        assert_eq!(b.judge("the dose", 50.0).unwrap().unwrap(), "Really? the dose is 50 g; usual is 0.1 to 10 g.");
        assert!(b.judge("the dose", 500.0).unwrap_err().expected.unwrap().contains("0 to 100 g"));
    }
}
