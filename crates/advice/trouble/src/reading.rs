//! A reading that must not wait: what it says in a line, and the trouble that it belongs to. Care and the log ask the same.
//!
//! What: ammonia by its toxic share, nitrite by the chloride of this water, alkalinity at its floor, as Help now works them out; temperature
//! outside what tanks are kept at and what this one is told to be kept at. Where a pH is missing, so that the share can't be told, ammonia that
//! shows counts: the bad end.
//! Source: `data/harm.toml`, `data/troubles.toml`, `data/bounds.toml`.
//! Checked by: `crates/advice/care/tests/harm_alarm.rs`.

use jiff::ZonedDateTime;

use crate::case::Case;
use crate::sum::{Sum, Urgency};
use crate::worked::worked;

/// What a reading says.
#[derive(Clone, Debug, PartialEq)]
pub struct Harms {
    /// The line, without a full stop.
    pub head: String,
    /// When to act.
    pub urgency: Urgency,
    /// Key of the trouble.
    pub trouble: &'static str,
    /// The sum of Help now from which it follows, if it does.
    pub sum: Option<Sum>,
}

/// What a reading says, by its key in `data/readings.toml` and its value in that row's unit; the case has been told of it. `None`: nothing
/// that can't wait.
pub fn harms(case: &Case, of: &str, value: f64, now: &ZonedDateTime) -> Option<Harms> {
    match of {
        "ammonia_n" => summed(case, "ammonia", "toxic-ammonia", now),
        "nitrite_n" => summed(case, "ammonia", "nitrite", now),
        "alkalinity" => alkalinity(case, value, now),
        "temperature" => warmth(case, value),
        _ => None,
    }
}

/// The sum of Help now, where it says "at once".
fn summed(case: &Case, trouble: &'static str, key: &str, now: &ZonedDateTime) -> Option<Harms> {
    let sums = worked(trouble, case, &[], now).sums;
    let sum = sums.into_iter().find(|sum| sum.key == key && sum.urgency == Urgency::AtOnce)?;
    Some(Harms { head: sum.head.clone(), urgency: sum.urgency, trouble, sum: Some(sum) })
}

/// As urgent as Help now says, with its test first.
fn alkalinity(case: &Case, meq_per_l: f64, now: &ZonedDateTime) -> Option<Harms> {
    let sums = worked("alkalinity", case, &[], now).sums;
    let sum = sums.into_iter().find(|sum| sum.key == "alkalinity" && sum.urgency != Urgency::LeaveItBe)?;
    let head = format!("Alkalinity is gone, or nearly: {}", case.pen().alkalinity(meq_per_l));
    Some(Harms { head, urgency: sum.urgency, trouble: "alkalinity", sum: Some(sum) })
}

fn warmth(case: &Case, celsius: f64) -> Option<Harms> {
    let (pen, told, usual) = (case.pen(), case.tank.temperature_c, &case.book().bound("tank_temperature")?.is);
    let (low, high) = (usual.usual_low.min(told.low), usual.usual_high.max(told.high));
    let harms = |head: String, trouble| Some(Harms { head, urgency: Urgency::AtOnce, trouble, sum: None });
    if celsius > high {
        harms(format!("Too warm: tanks are kept at no more than {}", pen.celsius(high)), "heater-on")
    } else if celsius < low {
        harms(format!("Too cold: tanks are kept at no less than {}", pen.celsius(low)), "heater-dead")
    } else {
        None
    }
}
