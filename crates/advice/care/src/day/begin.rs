//! The changes with which a plan begins, as Care hears of them in the log; Help now asks the same (`trouble::begins`).

use recipe::Plan;
use setup::Tank;
use trouble::{Case, NextChange, Told, begin_note};

use crate::log::Past;

/// The next of them, as long as they are not through.
pub(crate) fn begins<'a>(tank: &Tank, plan: &'a Plan, past: &Past) -> Option<NextChange<'a>> {
    let begin = plan.begin.as_ref()?;
    let mut told = Told::default();
    told.hear(past.entries().map(|(_, kept)| kept), past.now());
    let next = trouble::begins(&Case { tank, plan, told: &told, litres_known: true })?;
    Some(NextChange { begin, ..next })
}

/// The note of the next change: which water it pours, that of the plan's own too, so that a logbook knows it a year later.
pub(crate) fn note(plan: &Plan, next: Option<NextChange>) -> String {
    let part = next.map_or(1.0, |next| next.part);
    plan.begin.as_ref().map_or_else(String::new, |begin| begin_note(begin, part))
}
