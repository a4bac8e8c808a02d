//! Heat lost for each degree over the room, from the heater's plug or from a cooling.
//!
//! What: W/K of the whole tank, evaporation in it, about the temperature at which it was measured.
//!
//! Equation: by the heater G = (E/t + P)/(T_w - T_r). By a cooling: G such that T1 = T_e + (T0 - T_e) exp(-G t/c) with T_e = T_r + P/G
//! and c = 4186 h V J/K, by halving; with P = 0 that is crate `heat`'s closed form.
//!
//! Symbols: G W/K; E Wh; t h; P W of pumps in the water; T °C; V litres; h heat held by water, glass and ground for that of the water.
//!
//! Range: a room that keeps its warmth; a few degrees over it, or the evaporation counts more than the difference.
//!
//! Harm: with animals at most 1 °C an hour and 2 °C a day (rule 6); the heater's plug needs no cooling at all.
//!
//! Source: balance of heat; Newton's law of cooling.
//!
//! Checked by: `tests/by_hand_measures.rs`, `tests/closed_form_cooling.rs` (small steps).

use heat::{Body, Cooling, Cover, Room, WATER_KJ_PER_L_K, loss_from_cooling_w_per_k};
use quantity::{Fault, Kind, Known};
use setup::{Tank, propagate};

use crate::say::{Pen, spread, why};
use crate::{Name, Readings, Value, Worked, figures};

/// Halvings of the range of G.
const HALVINGS: u32 = 60;
/// Least difference to the room, °C: below it the thermometers' errors are all that is left.
const LEAST_OVER_ROOM_C: f64 = 1.0;

/// Heat loss from what the heater took in a day.
pub(crate) fn by_heater(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let pen = Pen(&tank.units);
    let need = |key: &str| readings.need(Name::Heater, key);
    let (energy, hours, pump) = (need("watt_hours")?, need("hours")?, need("pump")?);
    let (water, room) = (need("water")?, need("room")?);
    over_room(water.value, room.value)?;
    let loss = propagate(&[energy, hours, pump, water, room], |[e, t, p, w, r]| (e / t + p) / (w - r));
    let sum = format!(
        "({} Wh ÷ {} h + {} W) ÷ ({} - {}) °C = {} W/K",
        pen.n(energy.value, 4),
        pen.n(hours.value, 3),
        pen.n(pump.value, 2),
        pen.n(water.value, 3),
        pen.n(room.value, 3),
        pen.n(loss.value, 3)
    );
    finish(tank, loss, sum, Vec::new())
}

/// Heat loss from a cooling.
pub(crate) fn by_cooling(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let pen = Pen(&tank.units);
    let need = |key: &str| readings.need(Name::Cooling, key);
    let (start, end, hours) = (need("start")?, need("end")?, need("hours")?);
    let (room, pump) = (need("room")?, need("pump")?);
    if start.low <= end.high {
        return Err(Fault::new("the water did not cool by more than the thermometer’s error")
            .expected("a fall that the thermometer sees")
            .hint("wait longer, or take the way by the heater’s plug"));
    }
    over_room(end.value, room.value)?;
    let inputs = [start, end, hours, room, pump, tank.geometry.true_l, figures().holds.known()];
    let loss = spread(&inputs, |[t0, t1, h, r, p, v, holds]| w_per_k(v * holds, *r, [*t0, *t1], *h, *p));
    let loss = loss.filter(|loss| loss.low > 0.0).ok_or_else(|| {
        Fault::new("the errors of the thermometers are as large as what they show")
            .expected("a larger fall, or a cooler room")
            .hint("the heater’s plug gives the same number without any cooling")
    })?;
    let sum = format!(
        "{} L cooled from {} to {} °C in {} h in a room of {} °C with {} W from pumps: {} W/K",
        pen.n(tank.geometry.true_l.value, 3),
        pen.n(start.value, 3),
        pen.n(end.value, 3),
        pen.n(hours.value, 3),
        pen.n(room.value, 3),
        pen.n(pump.value, 2),
        pen.n(loss.value, 3)
    );
    finish(tank, loss, sum, too_fast(tank, start.value - end.value, hours.value))
}

/// Rules of harm that a cooling has broken.
fn too_fast(tank: &Tank, fall_c: f64, hours: f64) -> Vec<String> {
    let (pen, limit) = (Pen(&tank.units), &knowledge::book().harm.limit);
    let (a_day, an_hour) = (limit.temperature_step_c.value(), limit.temperature_step_c_per_h.value());
    if !tank.animals.any() || (fall_c <= a_day && fall_c / hours <= an_hour) {
        return Vec::new();
    }
    vec![format!(
        "It fell {} °C, {} °C an hour: that is too much with animals in it ({} {}). Heater’s plug in now, warm no faster than it fell; the next time \
         take the way by the heater’s plug.",
        pen.n(fall_c, 2),
        pen.n(fall_c / hours, 2),
        limit.temperature_step_c_per_h.say,
        limit.temperature_step_c.say
    )]
}

/// What a cooling will do here, before it is begun.
pub(crate) fn brief(tank: &Tank, readings: &Readings) -> Vec<String> {
    let (pen, limit) = (Pen(&tank.units), &knowledge::book().harm.limit);
    let mut says = vec![format!(
        "{} {} Stop at a fall of 1 °C, whatever the clock says.",
        limit.temperature_step_c_per_h.say, limit.temperature_step_c.say
    )];
    let (Some(start), Some(room)) = (readings.find("start"), readings.find("room")) else { return says };
    let g = &tank.geometry;
    let body = Body {
        length_m: g.length_m,
        width_m: g.width_m,
        depth_m: g.waterline_m,
        glass_mm: 1000.0 * g.glass_m,
        litres: g.true_l.value,
        cover: Cover::Open,
        rippled: true,
    };
    let measured_w_per_k = tank.measured.heat_loss_w_per_k.map(|known| known.value);
    let cooling = Cooling { body, room: Room::at(room.value), start_c: start.value, heat_w: 0.0, measured_w_per_k };
    if let Ok(hours) = cooling.hours_to(start.value - 1.0)
        && hours.low.is_finite()
    {
        let high = if hours.high.is_finite() { format!("to {} ", pen.n(hours.high, 2)) } else { String::new() };
        says.push(format!("Here the first degree takes likely {} {high}hours.", pen.n(hours.low, 2)));
        if hours.low < 1.0 / limit.temperature_step_c_per_h.value() && tank.animals.any() {
            says.push("It may cool faster than 1 °C an hour: with animals in it take the way by the heater’s plug, and not this one.".to_owned());
        }
    }
    says
}

/// W/K from a cooling with `pump_w` given all the while; not a number where nothing fits.
fn w_per_k(litres: f64, room_c: f64, [start_c, end_c]: [f64; 2], hours: f64, pump_w: f64) -> f64 {
    let Some(without_pump) = loss_from_cooling_w_per_k(litres, room_c, start_c, end_c, hours) else { return f64::NAN };
    let holds = 1e3 * WATER_KJ_PER_L_K * litres;
    let end_at = |g: f64| {
        let towards = room_c + pump_w / g;
        towards + (start_c - towards) * (-g * 3600.0 * hours / holds).exp()
    };
    // The pump hides a part of the loss: the answer lies between the loss without it and that plus all of its heat.
    let (mut low, mut high) = (without_pump, without_pump + 2.0 * pump_w / (end_c - room_c));
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if end_at(middle) > end_c { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

fn over_room(water_c: f64, room_c: f64) -> Result<(), Fault> {
    if water_c - room_c >= LEAST_OVER_ROOM_C {
        return Ok(());
    }
    Err(Fault::new("the water is not warmer than the room by a degree")
        .expected("water that stands some degrees over the room")
        .hint("measure on a cool evening"))
}

fn finish(tank: &Tank, loss: Known<f64>, sum: String, mut says: Vec<String>) -> Result<Worked, Fault> {
    let pen = Pen(&tank.units);
    let known = Known { kind: Kind::Measured, ..loss };
    let hold = |over: f64| pen.n(over * known.high, 2);
    says.push(format!(
        "Ten degrees over the room cost up to {} W all the time. A heater is sized by the high end, and looked at for the day it sticks by the low one.",
        hold(10.0)
    ));
    let words =
        "What walls, floor, surface and evaporation take for each degree that the water is warmer than the room.";
    let value = Value {
        field: Some("measured.heat_loss".to_owned()),
        label: "heat lost for a degree over the room".to_owned(),
        unit: "W/K".to_owned(),
        known,
        why: why("heat-loss", format!("why {} W/K?", pen.n(known.value, 3)), sum, words, &[]),
    };
    Ok(Worked::one(value, says))
}
