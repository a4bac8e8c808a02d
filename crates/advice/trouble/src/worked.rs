//! What a tank gives to a trouble: causes and sums.

use jiff::ZonedDateTime;
use logbook::Kept;

use crate::ask::{Ask, asks};
use crate::case::Case;
use crate::causes::{Cause, causes};
use crate::most::{CHANGE_MOST, no_change};
use crate::sum::{Sum, Urgency};
use crate::{
    breath, carbon_dioxide, half_change, low_alkalinity, most, nitrate, nitrite, overdose, too_warm, toxic, warmth,
};

/// Key of what a half change does, and of what cold water does.
const HALF: &str = "half-change";
const COLD: &str = "new-water-temperature";

/// What a tank gives to a trouble.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Worked {
    /// Key of the trouble.
    pub trouble: String,
    /// What the logbook, the setup and the hour speak for; empty where nothing does, or where the trouble has one cause.
    pub causes: Vec<Cause>,
    /// The sums, what must be done at once first.
    pub sums: Vec<Sum>,
    /// What could still be read.
    pub asks: &'static [Ask],
}

/// Work out what a tank gives to a trouble; `log` may be empty, its entries in any order. Nothing for a trouble of people.
pub fn worked(trouble: &str, case: &Case, log: &[Kept], now: &ZonedDateTime) -> Worked {
    let found = match trouble {
        "gasping" | "lying" => causes(case, log, now),
        _ => Vec::new(),
    };
    let mut sums = sums(trouble, case);
    let acts = |sum: &Sum| {
        ["overdose", "toxic-ammonia", "nitrite"].contains(&sum.key.as_str()) && sum.urgency == Urgency::AtOnce
    };
    if ["overdose", "ammonia"].contains(&trouble)
        && case.told.get("new_temperature").is_none()
        && !sums.iter().any(acts)
    {
        // Nothing is changed: what a change would do is no matter.
        sums.retain(|sum| sum.key != HALF && sum.key != COLD);
    }
    if trouble == "overdose" && sums.iter().any(|sum| sum.key == "overdose") && !sums.iter().any(acts) {
        sums.retain(|sum| sum.key != CHANGE_MOST);
        sums.push(overdose::nothing_to_change(case));
    }
    if trouble == "ammonia" && sums.iter().any(|sum| sum.key != CHANGE_MOST) && !sums.iter().any(acts) {
        sums.retain(|sum| sum.key != CHANGE_MOST);
    }
    // What a change does is no act of its own: it stands behind what it belongs to.
    let place = |sum: &Sum| match sum.key.as_str() {
        CHANGE_MOST => 0,
        COLD => 2,
        HALF => 3,
        _ => 1,
    };
    sums.sort_by_key(|sum| (place(sum), sum.urgency));
    Worked { trouble: trouble.to_owned(), causes: found, sums, asks: asks(trouble) }
}

/// One part of the arithmetic.
type Part = fn(&Case) -> Vec<Sum>;

/// The parts of a trouble in which water is changed against what gills meet.
const CHANGES: &[Part] = &[most::sums, toxic::sums, nitrite::sums, half_change::temperature_sums, half_change::sums];

fn sums(trouble: &str, case: &Case) -> Vec<Sum> {
    let parts: &[Part] = match trouble {
        "gasping" | "lying" | "ammonia" => CHANGES,
        "power-cut" => &[breath::sums, warmth::cooling_sums],
        "heater-on" => &[too_warm::sums, warmth::stuck_sums],
        "heater-dead" => &[warmth::cooling_sums, warmth::stuck_sums],
        "carbon-dioxide" => &[carbon_dioxide::water_sums, toxic::sums],
        "cylinder" => &[carbon_dioxide::room_sums],
        "overdose" => &[most::sums, overdose::sums, half_change::temperature_sums, half_change::sums],
        "nitrate" => &[nitrate::sums],
        "alkalinity" => &[low_alkalinity::most_sums, low_alkalinity::sums, toxic::sums],
        "leak" => &[leak],
        _ => &[],
    };
    let mut sums: Vec<Sum> = parts.iter().flat_map(|part| part(case)).collect();
    if no_change(case) {
        // Nothing else may offer what the first line forbids.
        sums.retain(|sum| sum.key != HALF && sum.key != COLD);
    }
    sums
}

/// How much water a centimetre holds.
fn leak(case: &Case) -> Vec<Sum> {
    let Some(litres) = case.litres() else { return Vec::new() };
    let (pen, surface) = (case.pen(), case.tank.geometry.surface_m2);
    let a_cm = 10.0 * surface;
    let bucket = case.tank.at_hand.bucket_l.value.min(case.book().harm.limit.bucket_l.value());
    let head = format!("Each centimetre of height is {}; all of it is {}", pen.litres(a_cm), pen.litres(litres));
    let arithmetic = format!("{} m² × 1 cm = {}", pen.n(surface, 3), pen.litres(a_cm));
    let words = "Ground, stones and wood are left out, which errs to the side of more water.";
    vec![
        Sum::new("leak", Urgency::AtOnce, head, arithmetic, words, &[])
            .figure("litres_a_cm", a_cm)
            .figure("buckets", (litres / bucket).ceil())
            .say(format!(
                "All of it goes into {} of {}; at most {} to carry, and never the filled tank. Lids half on: a child can drown in one.",
                recipe::say::several(&pen.n((litres / bucket).ceil(), 3), "bucket", "buckets"),
                pen.litres(bucket),
                pen.litres(case.book().harm.limit.bucket_l.value())
            )),
    ]
}
