//! Carbon dioxide that is given: its range and the ceiling of that range.
//!
//! What: a reading by pH and alkalinity is worth pH ± 0.1 and alkalinity ± 10 %: its upper end is c × 10^0.1 × 1.1 (or the
//! keeper's own upper end, if that is higher). It stays at or under 30 mg/L with animals; nothing is planned above 20.
//! Symbols: c mg/L.
//! Source: harm rules 12 and 13; Timmons & Ebeling 2010, from memory.
//! Checked by: `tests/harm.rs`.

use quantity::Known;

use crate::desk::{Desk, source, why};
use crate::plan::{Note, Refused};

/// What is planned with, and what is said.
#[derive(Clone, Debug, Default)]
pub(crate) struct Given {
    /// mg/L by day that the plan counts with; `None`: none is given.
    pub planned: Option<Known<f64>>,
    /// Sentences.
    pub notes: Vec<Note>,
    /// The wish, if it is refused.
    pub refused: Option<Refused>,
}

/// What the errors of pH and alkalinity may make of a figure.
fn factor() -> f64 {
    let limit = &knowledge::book().harm.limit;
    10f64.powf(limit.co2_ph_error.value()) * (1.0 + limit.co2_alkalinity_error_percent.value() / 100.0)
}

/// What carbon dioxide that is given by pH and alkalinity may be, mg/L: its upper end (harm rule 12).
pub fn may_be_mg_per_l(told: Known<f64>) -> f64 {
    told.high.max(told.value * factor())
}

/// Look at the carbon dioxide that is given.
pub(crate) fn given(desk: &Desk) -> Given {
    let Some(told) = desk.tank.co2_given_mg_per_l else { return Given::default() };
    let (pen, limit, rule) = (&desk.pen, &desk.book.harm.limit, &desk.book.harm.rule);
    let (factor, upper) = (factor(), may_be_mg_per_l(told));
    let (most, plan_most, aim) =
        (limit.co2_most_mg_per_l.value(), limit.co2_plan_most_mg_per_l.value(), limit.co2_aim_mg_per_l.value());
    let mut out = Given { planned: Some(told), ..Given::default() };
    let key = desk.why(why(
        "carbon-dioxide",
        format!("why up to {} mg/L?", pen.n(upper, 2)),
        format!(
            "{} mg/L × 10^{} × {} = {} mg/L",
            pen.n(told.value, 3),
            pen.n(limit.co2_ph_error.value(), 2),
            pen.n(1.0 + limit.co2_alkalinity_error_percent.value() / 100.0, 3),
            pen.n(told.value * factor, 3)
        ),
        format!("{} {}", rule.co2_upper_end.say, rule.co2_reading_errs.say),
        &[source(&limit.co2_plan_most_mg_per_l)],
        told.kind.weaker(quantity::Kind::WorkedOut),
    ));
    let note = |text: String, key: &str| Note { about: "carbon dioxide".to_owned(), text, key: Some(key.to_owned()) };
    if desk.animals() && (upper > most || told.value > plan_most) {
        out.planned = Some(Known::ranged(aim / factor, aim, aim * factor, told.kind));
        out.refused = Some(Refused {
            wish: format!("{} mg/L of carbon dioxide", pen.n(told.value, 3)),
            why: format!(
                "pH is worth 0.1 and alkalinity 10 % either way, so it can be {} mg/L. {} {}",
                pen.n(upper, 2),
                limit.co2_most_mg_per_l.say,
                limit.co2_plan_most_mg_per_l.say
            ),
            ways: vec![
                format!("Aim at {} mg/L: its upper end is then {}.", pen.n(aim, 2), pen.n(aim * factor, 2)),
                "Or give none, and choose plants that live on the carbon dioxide of the room.".to_owned(),
            ],
        });
    } else {
        out.notes.push(note(
            format!(
                "You give {} mg/L of carbon dioxide by day: it can be {}. Stress starts above {} mg/L; I aim at {} and never plan above {}.",
                pen.n(told.value, 3),
                pen.n(upper, 2),
                pen.n(most, 2),
                pen.n(aim, 2),
                pen.n(plan_most, 2)
            ),
            &key,
        ));
    }
    out.notes.push(note(rule.co2_never_raised.say.clone(), "co2_never_raised"));
    out.notes.push(note(rule.filter_and_air_stay.say.clone(), "filter_and_air_stay"));
    out
}
