//! Flow at the filter's outlet, by bucket and watch.
//!
//! What: litres an hour, and how often the tank passes through in an hour.
//! Equation: Q = 3600 v / s; turnover = Q / V.
//! Symbols: v water caught, L; s seconds; V litres in the tank.
//! Range: an outlet that can be lifted over the rim; a little less than what runs under water.
//! Source: arithmetic.
//! Checked by: `tests/by_hand_measures.rs`.

use quantity::{Fault, Kind, Known};
use setup::{Tank, propagate};

use crate::say::{Pen, why};
use crate::{Name, Readings, Value, Worked};

/// Seconds in an hour.
const SECONDS: f64 = 3600.0;

/// Flow from the readings.
pub(crate) fn work(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let pen = Pen(&tank.units);
    let (caught, seconds) = (readings.need(Name::Flow, "caught")?, readings.need(Name::Flow, "seconds")?);
    let flow = propagate(&[caught, seconds], |[l, s]| SECONDS * l / s);
    let flow = Known { kind: Kind::Measured, ..flow };
    let turnover = propagate(&[flow, tank.geometry.true_l], |[q, v]| q / v);
    let sum =
        format!("{} L ÷ {} s × 3600 = {} L/h", pen.n(caught.value, 3), pen.n(seconds.value, 3), pen.n(flow.value, 3));
    let words =
        "What comes out of the outlet in an hour. The figure on the box is for a pump without filter, hose and height.";
    let mut says = vec![format!(
        "The whole tank passes the filter {} times an hour ({}).",
        pen.n(turnover.value, 2),
        pen.likely(turnover)
    )];
    let least = &knowledge::book().meanings.figure.least_turnover_per_h;
    if turnover.value < least.value {
        says.push(format!(
            "Below {} times an hour corners may stand still: look where dust settles, and turn the outlet there.",
            pen.n(least.value, 2)
        ));
    }
    let value = Value {
        field: Some("measured.flow".to_owned()),
        label: "flow at the outlet".to_owned(),
        unit: "L/h".to_owned(),
        known: flow,
        why: why("flow", format!("why {} L/h?", pen.n(flow.value, 3)), sum, words, &[]),
    };
    Ok(Worked::one(value, says))
}
