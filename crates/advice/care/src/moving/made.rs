//! How the new water of the way is made: conditioner and salts for each change, as the sheet of the change gives them.
//!
//! The millilitres of conditioner are the plan's stock for so many litres (harm rule 1), the salts the part of the plan's own change that
//! so many litres are.
//!
//! Checked by: `tests/by_hand_moving.rs`, `tests/harm_moving.rs`.

use knowledge::book;
use recipe::say::Pen;
use recipe::{Conditioner, Note, Plan, part_of_salts};
use setup::Tank;

use super::Moving;
use crate::start_words::note;

/// What goes into the first of the new water and what into the last.
pub(super) fn made(new: (&Tank, &Plan), m: &Moving, pen: &Pen) -> Option<Note> {
    let first_l = new.0.geometry.true_l.value - m.take_along_l;
    if m.stopped.is_some() || m.take_along_l <= 0.0 || first_l <= 0.0 {
        return None;
    }
    let last_l = m.steps.last().map(|step| step.litres).filter(|last| *last > 1.01 * first_l);
    let first = parts(new, first_l, pen);
    let other = new.1.new_water.conditioner.as_ref().filter(|_| conditioner(new.1).is_none());
    let other = other.and_then(|c| c.refused.as_ref().or(c.sentences.first())).cloned();
    if first.is_empty() {
        let none = || "It needs neither conditioner nor salts.".to_owned();
        return Some(note("The new water", other.unwrap_or_else(none)));
    }
    let mut says: Vec<String> = other.into_iter().collect();
    says.push(format!("Into the first {}: {}.", pen.litres(first_l), first.join("; ")));
    says.extend(last_l.map(|litres| {
        let last = parts(new, litres, pen).join("; ");
        format!("Into the last {}: {last}. Between them as much as the litres are.", pen.litres(litres))
    }));
    let limit = &book().harm.limit;
    says.extend(conditioner(new.1).map(|c| {
        format!(
            "Conditioner first: these millilitres are of {}, counted for {} of total chlorine; gills are hurt from about {} mg/L on within hours and from {} over \
             weeks. Stir, wait {} minutes, {}then pour.",
            Conditioner::NAMED,
            pen.mg(c.chlorine_mg_per_l),
            pen.n(limit.chlorine_acute_mg_per_l.value(), 1),
            pen.n(limit.chlorine_chronic_mg_per_l.value(), 2),
            pen.n(limit.conditioner_wait_min.value(), 2),
            if new.1.new_water.salts.is_empty() { "" } else { "stir the salts in until it is clear, " }
        )
    }));
    says.extend(new.1.new_water.ph_test.clone());
    Some(note("The new water", says.join(" ")))
}

/// The stock of the new plan, where it may be used and litres are told.
fn conditioner(plan: &Plan) -> Option<&Conditioner> {
    plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none() && c.stock_ml > 0.0)
}

/// Conditioner and salts for so many litres.
fn parts((tank, plan): (&Tank, &Plan), litres: f64, pen: &Pen) -> Vec<String> {
    let ml = conditioner(plan).map(|c| format!("{} of conditioner", pen.ml(c.for_litres(tank, litres).0)));
    let part = if plan.change.litres > 0.0 { litres / plan.change.litres } else { 0.0 };
    ml.into_iter().chain(part_of_salts(tank, plan, part)).collect()
}
