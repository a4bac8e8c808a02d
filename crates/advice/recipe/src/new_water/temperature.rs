//! The temperature of new water: how far a change cools or warms the tank, and the mildest new water that may be poured.
//!
//! What: mixing by volume, ΔT = x (T_tank - T_new); so new water of less than T_tank - limit ÷ x passes a limit.
//! Symbols: x share changed, 0 to 1; °C. Glass and ground are left out, which errs to the cold side.
//! Source: harm rules 6 and 19, common practice.
//! Checked by: `tests/by_hand_new_water.rs`, `tests/harm.rs`.

use quantity::Kind;
use setup::SourceWater;

use crate::desk::{Desk, source, why};
use crate::plan::{Change, Note};

/// Sentences on temperature.
pub(crate) fn notes(desk: &Desk, change: &Change, water: &SourceWater) -> Vec<Note> {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    let note = |text: String, key: &str| Note { about: "temperature".to_owned(), text, key: Some(key.to_owned()) };
    if change.share <= 0.0 || !desk.animals() {
        return Vec::new();
    }
    let tank_c = desk.tank.temperature_c.value;
    let (hour, day) = (limit.temperature_step_c_per_h.value(), limit.temperature_step_c.value());
    // The end of the year that differs most from the tank.
    let new_c = [water.temperature_c.low, water.temperature_c.high]
        .into_iter()
        .max_by(|a, b| (a - tank_c).abs().total_cmp(&(b - tank_c).abs()))
        .unwrap_or(water.temperature_c.value);
    let moves = change.share * (tank_c - new_c);
    let mildest = |limit: f64| tank_c - moves.signum() * limit / change.share;
    let mut notes = vec![note(desk.book.harm.rule.new_water_temperature.say.clone(), "new_water_temperature")];
    if moves.abs() <= hour {
        notes.push(note(
            format!(
                "Straight from the tap at {} a change moves the tank by {}: at most {} an hour and {} a day.",
                pen.celsius(new_c),
                pen.kelvin(moves.abs()),
                pen.kelvin(hour),
                pen.kelvin(day)
            ),
            "temperature_step_c_per_h",
        ));
        return notes;
    }
    let (verb, than) = if moves > 0.0 { ("cool", "colder") } else { ("warm", "warmer") };
    let key = desk.why(why(
        "change-temperature",
        format!("why {}?", pen.celsius(tank_c - moves)),
        format!(
            "({} × {} + {} × {}) ÷ {} = {} (litres and °C); {} − {} ÷ {} = {} °C",
            pen.n((1.0 - change.share) * desk.tank.geometry.true_l.value, 4),
            pen.n(tank_c, 3),
            pen.n(change.litres, 4),
            pen.n(new_c, 3),
            pen.n(desk.tank.geometry.true_l.value, 4),
            pen.n(tank_c - moves, 3),
            pen.n(tank_c, 3),
            pen.n(moves.signum() * hour, 2),
            pen.n(change.share, 3),
            pen.n(mildest(hour), 3)
        ),
        "Mixing by volume; glass and ground are left out, which errs to the cold side.".to_owned(),
        &[source(&limit.temperature_step_c_per_h)],
        Kind::WorkedOut.weaker(water.temperature_c.kind),
    ));
    let spread = if moves.abs() > day {
        format!("spread over a day nothing {than} than {}", pen.celsius(mildest(day)))
    } else {
        "spread over a day it may go in as it is".to_owned()
    };
    notes.push(note(
        format!(
            "Straight from the tap at {} this change would {verb} the tank from {} to {}, by {}: more than {} in an hour or {} in a day is too much. \
             Nothing {than} than {} goes in at once; {spread}. Warming it with kettle water is common practice \
             without a source: it scalds; into the bucket, never into the tank; stir, then measure before pouring.",
            pen.celsius(new_c),
            pen.celsius(tank_c),
            pen.celsius(tank_c - moves),
            pen.kelvin(moves.abs()),
            pen.kelvin(hour),
            pen.kelvin(day),
            pen.celsius(mildest(hour)),
        ),
        &key,
    ));
    notes
}
