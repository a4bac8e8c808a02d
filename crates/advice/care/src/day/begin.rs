//! The smaller changes with which a plan begins, as Care hears of them in the log; Help now asks the same (`trouble::begins`).

use recipe::{Begin, Plan};
use setup::Tank;
use trouble::{Case, Told};

use crate::log::Past;

pub(crate) use trouble::begin_note as note;

/// The plan's beginning, as long as it is not through.
pub(crate) fn begins<'a>(tank: &Tank, plan: &'a Plan, past: &Past) -> Option<&'a Begin> {
    plan.begin.as_ref()?;
    let mut told = Told::default();
    told.hear(past.entries().map(|(_, kept)| kept), past.now());
    let share = trouble::begins(&Case { tank, plan, told: &told, litres_known: true })?.share;
    plan.begin.as_ref().filter(|begin| begin.share == share)
}
