//! The water is too warm: how near harm is, and what cools it.
//!
//! What: the reading against where harm starts and where fish die; the oxygen that such water holds at most; what the room takes away by
//! itself. Only cold that is added has a limit (harm rule 6). Range: that of crates `heat` and `water`. Source: `benson_krause_1984` for
//! oxygen; the marks are common practice and memory. Checked by: `tests/by_hand_power.rs`, `tests/harm.rs`.

use quantity::{Digits, format_number};
use water::oxygen_at_saturation_mg_per_l;

use crate::case::Case;
use crate::sum::{Sum, Urgency};
use crate::warmth::hottest_after_c;

/// Hours after which it is said how far the room brings it.
const HOURS: f64 = 6.0;

/// The formula of oxygen ends here, °C.
const FORMULA_MOST_C: f64 = 35.0;

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// The answer; nothing without a reading.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let Some(read) = case.told.get("temperature") else { return Vec::new() };
    let (pen, numbers, limit) = (case.pen(), case.numbers(), &case.book().harm.limit);
    let (warm, dies) = (&numbers.too_warm_c, &numbers.lethal_near_c);
    let marks = format!(
        "fish of warm tanks are harmed from about {} to {} on, and die somewhere between {} and {}",
        pen.celsius(warm.low()),
        pen.celsius(warm.high()),
        pen.celsius(dies.low()),
        pen.celsius(dies.high())
    );
    let (urgency, verdict) = match read {
        c if c >= dies.low() => (Urgency::AtOnce, "here fish die: every minute counts"),
        c if c > warm.high() => (Urgency::AtOnce, "it harms now"),
        c if c >= warm.low() => (Urgency::BeforeTheNextChange, "harm begins about here"),
        _ => (Urgency::LeaveItBe, "no harm of warmth is known below that"),
    };
    let head = format!("{}: {verdict}", pen.celsius(read));
    let words = "Warm water holds less oxygen while fish need more of it. What the room takes away cools evenly; what is added may shock.";
    let sum = Sum::new("too-warm", urgency, head, marks.clone(), words, &["benson_krause_1984"]).figure("read_c", read);
    let sum = match case.told.anew("temperature", "the thermometer") {
        Some(anew) => sum.say(anew),
        None => sum,
    };
    let sum = sum.say(format!("{}.", recipe::say::capital(&marks)));
    let sum = match breath(case, read) {
        Some((now, usual, says)) => sum.figure("oxygen_mg_per_l", now).figure("oxygen_usual_mg_per_l", usual).say(says),
        None => sum,
    };
    let sum = match hottest_after_c(case, read, HOURS) {
        Some((room_c, said, after)) if after.value < read - 0.1 => sum.figure("after_6_h_c", after.value).say(format!(
            "With the heater’s plug out a room of {}{} brings it to about {} in {} hours by itself: that is right, however fast.",
            pen.celsius(room_c),
            if said { "" } else { " (assumed: tell me yours)" },
            pen.celsius(after.value),
            n(HOURS)
        )),
        _ => sum,
    };
    vec![sum.say(format!(
        "Only what you add (a bottle of cold water, a fan, new water) has a limit: {} in an hour and {} in a day.",
        pen.kelvin(limit.temperature_step_c_per_h.value()),
        pen.kelvin(limit.temperature_step_c.value())
    ))]
}

/// The oxygen that the water holds at most, now and as warm as usual, mg/L.
fn breath(case: &Case, read: f64) -> Option<(f64, f64, String)> {
    let usual = case.tank.temperature_c.value;
    let counted = read.min(FORMULA_MOST_C);
    let (now, before) =
        (oxygen_at_saturation_mg_per_l(counted, 1.0).ok()?, oxygen_at_saturation_mg_per_l(usual, 1.0).ok()?);
    let less = if counted < read { "less than" } else { "at most" };
    let says = format!(
        "Air on, lid off: water of {} holds {less} {} mg/L of oxygen, at your usual {} it is {}.",
        case.pen().celsius(read),
        n(now),
        case.pen().celsius(usual),
        n(before)
    );
    (read > usual).then_some((now, before, says))
}
