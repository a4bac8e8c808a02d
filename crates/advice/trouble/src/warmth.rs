//! How long warmth lasts without power, and how warm a heater that stays on makes the water.
//!
//! What: crate `heat` with this tank's sizes. Cooling counts the most loss, an open tank and the coldest room; a heater stuck on
//! the least loss, a covered tank and the hottest room (harm rule 18): the bad end of each.
//! Range: that of `heat`. A loss that the keeper measured goes before the worked-out one.
//! Checked by: `tests/by_hand_warmth.rs`, `tests/harm.rs`.

use heat::{Body, Cooling, Cover, MOST_C, Room};
use quantity::{Digits, Known, format_number};
use recipe::Plan;
use setup::Tank;

use crate::case::Case;
use crate::sum::{Sum, Urgency};
use crate::told::Told;

const SOURCES: [&str; 3] = ["en_673", "ashrae_applications", "smith_1998"];

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

fn body(case: &Case, cover: Cover) -> Option<Body> {
    let g = &case.tank.geometry;
    Some(Body {
        length_m: g.length_m,
        width_m: g.width_m,
        depth_m: g.waterline_m,
        glass_mm: 1000.0 * g.glass_m,
        litres: case.litres()?,
        cover,
        rippled: false,
    })
}

/// °C of the room: as read now, as told of its extreme, else assumed; and whether somebody said it.
fn room(case: &Case, told: Option<Known<f64>>, assumed: Known<f64>, bad: fn(Known<f64>) -> f64) -> (f64, bool) {
    match (case.told.get("room"), told) {
        (Some(c), _) => (c, true),
        (None, Some(known)) => (bad(known), true),
        (None, None) => (bad(assumed), false),
    }
}

/// The water after some hours without heat: by the loss that was measured, else by the worked-out range.
fn after_c(case: &Case, room_c: f64, start_c: f64, hours: f64) -> Option<Known<f64>> {
    let cover = if case.tank.warmth.covered == Some(true) { Cover::Glass } else { Cover::Open };
    let body = body(case, cover)?;
    let cooling = |measured_w_per_k: Option<f64>| {
        let cooling = Cooling { body, room: Room::at(room_c), start_c, heat_w: 0.0, measured_w_per_k };
        cooling.after_c(hours).ok()
    };
    let Some(loss) = case.tank.measured.heat_loss_w_per_k else { return cooling(None) };
    let (most, likely, least) = (cooling(Some(loss.high))?, cooling(Some(loss.value))?, cooling(Some(loss.low))?);
    Some(Known::ranged(most.low.min(least.low), likely.value, most.high.max(least.high), loss.kind))
}

/// Without power, or with a dead heater.
pub(crate) fn cooling_sums(case: &Case) -> Vec<Sum> {
    let numbers = case.numbers();
    let assumed = numbers.room_coldest_c.known();
    let (room_c, said) = room(case, case.tank.warmth.coldest_room_c, assumed, |known| known.low);
    let start_c = case.temperature_c().value;
    let at = |hours: f64| after_c(case, room_c, start_c, hours);
    let (Some(six), Some(twelve), Some(day)) = (at(6.0), at(12.0), at(24.0)) else { return Vec::new() };
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let step = limit.temperature_step_c.value();
    // Hour by hour, until the colder end has moved by the day's limit.
    let first = (1..=72).map(f64::from).find(|hours| at(*hours).is_some_and(|c| start_c - c.low >= step));
    let urgency = if first.is_some() { Urgency::AtOnce } else { Urgency::LeaveItBe };
    let head = format!(
        "Warmth: from {} to about {} in 12 hours (likely {} to {})",
        pen.celsius(start_c),
        pen.celsius(twelve.value),
        pen.celsius(twelve.low),
        pen.celsius(twelve.high)
    );
    let arithmetic = format!(
        "room {}{}; after 6 hours {} to {}, after 24 hours {} to {}",
        pen.celsius(room_c),
        if said { "" } else { " (assumed: tell me yours)" },
        pen.celsius(six.low),
        pen.celsius(six.high),
        pen.celsius(day.low),
        pen.celsius(day.high)
    );
    let words = "Water, glass and surface lose heat for each degree over the room. A blanket keeps some of it; a lid too, but air must get in.";
    let sum = Sum::new("warmth-hours", urgency, head, arithmetic, words, &SOURCES)
        .figure("room_c", room_c)
        .figure("after_12_h_c", twelve.value)
        .figure("after_12_h_low_c", twelve.low)
        .figure("after_24_h_c", day.value);
    let sum = match first {
        Some(hours) => sum.figure("hours_to_day_limit", hours).say(format!(
            "At worst it is {} colder after {}, which is the most for a day: the blanket goes round before that. Warming it up again: at most {} in an hour and {} in a day.",
            pen.kelvin(step),
            recipe::say::several(&n(hours), "hour", "hours"),
            pen.kelvin(limit.temperature_step_c_per_h.value()),
            pen.kelvin(step)
        )),
        None => sum.say("It does not cool by more than a day’s limit within three days: watch the thermometer and leave it be."),
    };
    vec![sum]
}

/// The water after some hours in the room as told, else on its hottest day, without a heater: °C of the room, whether somebody said it, and
/// the water.
pub(crate) fn hottest_after_c(case: &Case, start_c: f64, hours: f64) -> Option<(f64, bool, Known<f64>)> {
    let assumed = case.numbers().room_hottest_c.known();
    let (room_c, said) = room(case, case.tank.warmth.hottest_room_c, assumed, |known| known.high);
    Some((room_c, said, after_c(case, room_c, start_c, hours)?))
}

/// Where one heater stuck on leads in the hottest room: likely and warmest end, °C.
pub(crate) fn stuck_c(case: &Case, watts: f64, room_c: f64) -> Option<Known<f64>> {
    if let Some(loss) = case.tank.measured.heat_loss_w_per_k {
        let at = |w_per_k: f64| (room_c + watts / w_per_k).min(MOST_C);
        return Some(Known::ranged(at(loss.high), at(loss.value), at(loss.low), loss.kind));
    }
    let cover = if case.tank.warmth.covered == Some(false) { Cover::Open } else { Cover::Glass };
    body(case, cover)?.warmest_c(watts, &Room::at(room_c)).ok()
}

/// Where a heater that sticks on brings this tank, before one is bought (harm rule 18); `None`: no glass, or no water that it can be
/// worked out for.
pub fn heater_stuck(tank: &Tank, plan: &Plan) -> Option<Sum> {
    let told = Told::default();
    stuck_sums(&Case { tank, plan, told: &told, litres_known: true }).into_iter().next()
}

/// A heater stuck on.
pub(crate) fn stuck_sums(case: &Case) -> Vec<Sum> {
    let numbers = case.numbers();
    let (room_c, said) =
        room(case, case.tank.warmth.hottest_room_c, numbers.room_hottest_c.known(), |known| known.high);
    let (pen, too_warm) = (case.pen(), numbers.too_warm_c.low());
    let told = case.told.get("watts").or(case.tank.warmth.heater_w.map(|watts| watts.high));
    let usual = &numbers.heater_w;
    let watts = told.map_or_else(|| vec![usual.low(), usual.value, usual.high()], |watts| vec![watts]);
    let all: Vec<(f64, Known<f64>)> = watts.iter().filter_map(|w| Some((*w, stuck_c(case, *w, room_c)?))).collect();
    let Some((_, worst)) = all.last().copied() else { return Vec::new() };
    let up_to = |known: Known<f64>| match known.high >= MOST_C {
        true => format!("{} or more", pen.celsius(MOST_C)),
        false => pen.celsius(known.high),
    };
    let list: Vec<String> = all.iter().map(|(w, c)| format!("{} W: up to {}", n(*w), up_to(*c))).collect();
    let head = match told {
        Some(_) => format!("Stuck on, one heater brings the water to as much as {}", up_to(worst)),
        None => format!("Stuck on, a heater brings the water to: {}", list.join("; ")),
    };
    let arithmetic = format!(
        "hottest room {}{}; {}; least loss counts; lamp and pump come on top",
        pen.celsius(room_c),
        if said { "" } else { " (assumed: tell me yours)" },
        list.join("; ")
    );
    let words = "A heater that sticks on warms until walls and surface lose as much as it gives. Small heaters end sooner: two of half the watts, each with its own thermostat.";
    let harms = worst.high >= too_warm;
    let urgency = if harms { Urgency::BeforeTheNextChange } else { Urgency::LeaveItBe };
    let sum = Sum::new("heater-stuck", urgency, head, arithmetic, words, &SOURCES)
        .figure("room_c", room_c)
        .figure("warmest_c", worst.high)
        .figure("watts", watts.last().copied().unwrap_or(0.0));
    let sum = match harms {
        true => sum.say(format!(
            "From about {} to {} on fish of warm tanks are harmed: smaller heaters, two rather than one.",
            pen.celsius(too_warm),
            pen.celsius(numbers.too_warm_c.high())
        )),
        false => sum.say(format!("No harm is known below about {}.", pen.celsius(too_warm))),
    };
    vec![if told.is_none() { sum.say("Tell me the watts of yours: they stand on its glass.") } else { sum }]
}
