//! Spans of time: seconds to weeks.

use super::scalar::{arithmetic, in_units, no_such_unit, number_and_unit};
use crate::Fault;
use crate::number::{Digits, canonical};
use crate::units::Units;

/// A span of time, kept in seconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Duration(f64);

arithmetic!(Duration);
in_units! { Duration:
    seconds, in_seconds, 1.0, "seconds";
    minutes, in_minutes, 60.0, "minutes";
    hours, in_hours, 3600.0, "hours";
    days, in_days, 86400.0, "days of 24 hours";
    weeks, in_weeks, 604800.0, "weeks of seven days";
}

impl Duration {
    /// Read `30 s`, `5 min`, `8 h`, `7 days`, `2 weeks`.
    ///
    /// # Errors
    /// No number, no unit, or an unknown one ("m" is none: it may be a minute, a month or a metre).
    pub fn parse(text: &str) -> Result<Duration, Fault> {
        let (value, unit) = number_and_unit(text, "a span of time", "7 days")?;
        let duration = match unit.as_str() {
            "s" | "sec" | "second" | "seconds" => Duration::seconds(value),
            "min" | "minute" | "minutes" => Duration::minutes(value),
            "h" | "hour" | "hours" => Duration::hours(value),
            "d" | "day" | "days" => Duration::days(value),
            "week" | "weeks" => Duration::weeks(value),
            _ => return Err(no_such_unit(text, "a span of time", &unit, "s, min, h, days or weeks")),
        };
        Ok(Duration(canonical(duration.0)))
    }

    /// Three figures in the largest unit that is not above it: s, min, h, days. Weeks are never printed: 10 days is plainer
    /// than 1.43 weeks.
    pub fn print(self, units: &Units) -> String {
        self.print_with(units, Digits::Significant(3))
    }

    /// The same with other digits.
    pub fn print_with(self, units: &Units, digits: Digits) -> String {
        let size = self.0.abs();
        let (amount, name) = match size {
            _ if size >= 86400.0 => (self.in_days(), "days"),
            _ if size >= 3600.0 => (self.in_hours(), "h"),
            _ if size >= 60.0 => (self.in_minutes(), "min"),
            _ => (self.0, "s"),
        };
        let shown = units.number(amount, digits);
        let name = if shown == "1" && name == "days" { "day" } else { name };
        format!("{shown} {name}")
    }
}
