//! Tests of a tank whose water was not changed for long: what gathered there is a sum over months, and where that is too wide to act on
//! only a test can say.
//!
//! **What.** Nitrate, phosphate, alkalinity and hardness over the days since the last whole renewal (`since.rs`). Nobody told since when,
//! or the range is too wide: a test decides, the wider the earlier. Else it is judged as the others are.
//!
//! **Range.** Tanks never changed; tanks that are changed by habit and were not, until their changes have brought them back.
//!
//! **Source.** Balance of mass (`recipe::Level::drifted`); the mark of "too wide" is a row of `data/recipe.toml`.
//!
//! **Checked by** `tests/by_hand_unchanged.rs`.

use recipe::levels::only_a_test;
use recipe::say::{Pen, several};
use recipe::{Level, Plan};
use setup::Tank;

use super::Verdict;
use crate::log::Past;
use crate::since::days;
use crate::top_up::piled_up_over;

/// The verdict; `None`: the plan's own levels are judged.
pub(super) fn verdict(tank: &Tank, plan: &Plan, past: &Past, pen: &Pen, key: &str) -> Option<Verdict> {
    let level = match key {
        "nitrate" => plan.levels.iter().find(|level| level.ion == Some(quantity::Ion::Nitrate))?,
        "phosphate" => plan.levels.iter().find(|level| level.ion == Some(quantity::Ion::Phosphate))?,
        "alkalinity" | "hardness" => &plan.alkalinity,
        _ => return None,
    };
    let since = days(tank, past);
    if plan.change.every_days > 0 && level.unchanged_days.is_none() {
        let most = knowledge::book().routine.number.unchanged_days.value;
        let old = since.filter(|days| tank.unchanged_days().is_some() && *days > most)?;
        let says = format!(
            "Not changed for {}: what stands there now is not what the plan leads to. Only a test can say.",
            age(old, pen)
        );
        return Some(decides(old, says));
    }
    let Some(since) = since else {
        let says = "No water is changed here, and nobody told since when: only a test can say. Write on Log when it was filled, or on Tank for \
                    how many months no water was changed.";
        return Some(decides(f64::MAX, says.to_owned()));
    };
    match key {
        "hardness" => hardness(tank, since, pen),
        _ => wide(level, since, pen),
    }
}

/// The range of a level as it stands before a change, or by now where none is made, and those words.
pub(super) fn stands(level: &Level, tank: &Tank, past: &Past) -> (f64, f64, &'static str) {
    let known = match (level.unchanged_days, days(tank, past)) {
        (Some(_), Some(since)) => level.drifted(since),
        _ => level.before_change,
    };
    (known.low, known.high, if level.unchanged_days.is_some() { "by now" } else { "before a change" })
}

fn decides(telling: f64, says: String) -> Verdict {
    Verdict { decides: true, telling, says }
}

/// "14 months", "40 days".
pub(super) fn age(days: f64, pen: &Pen) -> String {
    let months = days / setup::MONTH_DAYS;
    match months {
        months if months >= 2.0 => several(&pen.n(months, 2), "month", "months"),
        _ => several(&pen.n(days.round(), 2), "day", "days"),
    }
}

/// A sum that is too wide.
fn wide(level: &Level, since: f64, pen: &Pen) -> Option<Verdict> {
    let stands = level.drifted(since);
    only_a_test(stands).then(|| {
        let span = pen.span(level.ion, stands.low, stands.high);
        let says = format!(
            "After {} without a change it may be {span}, by what food and topping up bring and plants and filter take: too wide to act on. \
             Only a test can say.",
            age(since, pen)
        );
        decides(stands.high / stands.low.max(f64::MIN_POSITIVE), says)
    })
}

/// Hardness follows topping up; from where that is more than the mark a change moves it too far.
fn hardness(tank: &Tank, since: f64, pen: &Pen) -> Option<Verdict> {
    let times = piled_up_over(tank, since)?;
    (times > knowledge::book().recipe.worth.tells_times.value).then(|| {
        let says = format!(
            "By {} of topping up {} times what the tap holds may stand there: a test decides how small a first change must be.",
            age(since, pen),
            pen.n(times, 2)
        );
        decides(times, says)
    })
}
