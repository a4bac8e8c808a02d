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

/// What the end of the year that differs most from the tank does to it.
struct Swing {
    tank_c: f64,
    new_c: f64,
    /// °C by which the change moves the tank; above 0 it cools.
    moves: f64,
    /// Most in an hour and in a day, °C.
    hour: f64,
    day: f64,
}

/// Sentences on temperature.
pub(crate) fn notes(desk: &Desk, change: &Change, water: &SourceWater) -> Vec<Note> {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit);
    if change.share <= 0.0 || !desk.animals() {
        return Vec::new();
    }
    let tank_c = desk.tank.temperature_c.value;
    let ends = [water.temperature_c.low, water.temperature_c.high].into_iter();
    let new_c = ends.max_by(|a, b| (a - tank_c).abs().total_cmp(&(b - tank_c).abs())).unwrap_or(tank_c);
    let swing = Swing {
        tank_c,
        new_c,
        moves: change.share * (tank_c - new_c),
        hour: limit.temperature_step_c_per_h.value(),
        day: limit.temperature_step_c.value(),
    };
    let (text, key) = if swing.moves.abs() <= swing.hour {
        let text = format!(
            "Straight from the tap at {} a change moves the tank by {}: at most {} an hour and {} a day.",
            pen.celsius(new_c),
            pen.kelvin(swing.moves.abs()),
            pen.kelvin(swing.hour),
            pen.kelvin(swing.day)
        );
        (text, "temperature_step_c_per_h".to_owned())
    } else {
        (too_sudden(desk, change, &swing), desk.why(why_mixed(desk, change, &swing, water)))
    };
    let feels = &desk.book.harm.rule.new_water_temperature.say;
    let note = |text: String, key: String| Note { about: "temperature".to_owned(), text, key: Some(key) };
    vec![note(feels.clone(), "new_water_temperature".to_owned()), note(text, key)]
}

impl Swing {
    /// The mildest new water that moves the tank by no more than a limit.
    fn mildest(&self, change: &Change, limit: f64) -> f64 {
        self.tank_c - self.moves.signum() * limit / change.share
    }
}

fn too_sudden(desk: &Desk, change: &Change, swing: &Swing) -> String {
    let pen = &desk.pen;
    let (verb, than) = if swing.moves > 0.0 { ("cool", "colder") } else { ("warm", "warmer") };
    let spread = if swing.moves.abs() > swing.day {
        format!("spread over a day nothing {than} than {}", pen.celsius(swing.mildest(change, swing.day)))
    } else {
        "spread over a day it may go in as it is".to_owned()
    };
    format!(
        "Nothing {than} than {} goes in at once; {spread}. Straight from the tap at {} this change would {verb} the tank from {} to {}, by {}: \
         more than {} in an hour or {} in a day is too much. Warming it with kettle water is common practice without a source: it scalds; into \
         the bucket, never into the tank; stir, then measure before pouring.",
        pen.celsius(swing.mildest(change, swing.hour)),
        pen.celsius(swing.new_c),
        pen.celsius(swing.tank_c),
        pen.celsius(swing.tank_c - swing.moves),
        pen.kelvin(swing.moves.abs()),
        pen.kelvin(swing.hour),
        pen.kelvin(swing.day),
    )
}

fn why_mixed(desk: &Desk, change: &Change, swing: &Swing, water: &SourceWater) -> quantity::Why {
    let (pen, litres) = (&desk.pen, desk.tank.geometry.true_l.value);
    why(
        "change-temperature",
        format!("why {}?", pen.celsius(swing.tank_c - swing.moves)),
        format!(
            "({} L × {} + {} L × {}) ÷ {} L = {}; {} − {} ÷ {} = {}",
            pen.n((1.0 - change.share) * litres, 4),
            pen.celsius(swing.tank_c),
            pen.n(change.litres, 4),
            pen.celsius(swing.new_c),
            pen.n(litres, 4),
            pen.celsius(swing.tank_c - swing.moves),
            pen.celsius(swing.tank_c),
            pen.kelvin(swing.moves.signum() * swing.hour),
            pen.n(change.share, 3),
            pen.celsius(swing.mildest(change, swing.hour))
        ),
        "Mixing by volume; glass and ground are left out, which errs to the cold side.".to_owned(),
        &[source(&desk.book.harm.limit.temperature_step_c_per_h)],
        Kind::WorkedOut.weaker(water.temperature_c.kind),
    )
}
