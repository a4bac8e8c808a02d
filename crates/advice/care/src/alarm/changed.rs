//! A change of the last day that a rule of harm forbids: of water that is refused, of more than its ammonia allows, of more than a tenth at
//! once where the tank was long unchanged.
//!
//! **What.** One alarm, by the first of the three that holds. A test of ammonia after the change takes the place of the last two: then the
//! reading is judged.
//!
//! **Equation.** l > (1 + s) m, l litres of a day (of an hour, for the tenth: harm rule 8 lets another come an hour later), m the most.
//!
//! **Range.** The changes of a day as Help now hears them (`reading_fresh_h`), s by eye (`change_slack_share`: rows of `data/troubles.toml`).
//!
//! **Source.** `data/harm.toml` rules 1, 3, 4 and 8.
//!
//! **Checked by** `tests/harm_done.rs`, `tests/harm_alarm.rs`.

use knowledge::book;
use logbook::{Sure, What};
use recipe::say::Pen;
use trouble::{Case, Urgency, hours_ago, over};

use super::{Alarm, about};
use crate::due::days_between;
use crate::log::Past;
use crate::start_waters::refused_tap;

/// The alarm.
pub(super) fn forbidden(case: &Case, past: &Past, pen: &Pen) -> Option<Alarm> {
    let last = case.told.changes().iter().map(|(ago, _)| *ago).reduce(f64::min)?;
    let tested = || tested(past, last);
    let (why, until) = match refused(case, pen) {
        Some(why) => (why, "nothing more of this water, neither to top up"),
        None if tested() => return None,
        None => (ammonia(case, pen).or_else(|| tenth(case, past, pen))?, "no change until the test is low"),
    };
    let says = vec![
        why,
        book().harm.limit.ammonia_unionised_mg_n_per_l.say.clone(),
        format!(
            "Test ammonia and pH now, and watch how they breathe and whether shrimps and snails move; no food, and {until}."
        ),
    ];
    Some(about("change", past.today(), Urgency::AtOnce, "ammonia", says).of_gills(Some(0.0)))
}

/// Whether ammonia was read since the last change.
fn tested(past: &Past, last: f64) -> bool {
    past.entries().any(|(_, kept)| match &kept.entry.what {
        What::Test(reading) => {
            reading.of == "ammonia_n" && reading.sure != Sure::NotSure && hours_ago(kept, past.now()) < last
        }
        _ => false,
    })
}

/// Water that is refused with these animals (harm rules 1 and 4).
fn refused(case: &Case, pen: &Pen) -> Option<String> {
    let stops = refused_tap(case.tank, case.plan)?;
    Some(format!(
        "You changed {}, and this water is refused here. {stops} It was other water? Then nothing of this holds.",
        pen.litres(at_once(case))
    ))
}

/// More than this tap's ammonia allows in a day, as Help now counts it (harm rule 3).
fn ammonia(case: &Case, pen: &Pen) -> Option<String> {
    let (litres, change) = (trouble::changed_too_much(case)?, &case.plan.change);
    Some(format!(
        "You changed {}: more than this tap allows at once, {}. {}",
        pen.litres(litres),
        pen.litres(change.litres),
        change.limited.as_deref().unwrap_or_default()
    ))
}

/// More than a tenth at once of a tank long unchanged (harm rule 8).
fn tenth(case: &Case, past: &Past, pen: &Pen) -> Option<String> {
    let harm = &book().harm;
    let old = case.tank.unchanged_months.is_some() || (case.plan.change.every_days > 0 && paused(past));
    let tenth = harm.limit.old_tank_change_percent.value() / 100.0 * case.tank.geometry.true_l.value;
    let litres = at_once(case);
    (old && over(litres, tenth)).then(|| {
        format!(
            "You changed {} at once of a tank that was long unchanged: more than a tenth, {}. {}",
            pen.litres(litres),
            pen.litres(tenth),
            harm.rule.old_acid_tank.say
        )
    })
}

/// The most litres within an hour of the last day.
fn at_once(case: &Case) -> f64 {
    let changes = case.told.changes();
    let within = |from: f64| changes.iter().filter(move |(ago, _)| (from..from + 1.0).contains(ago)).map(|(_, l)| l);
    changes.iter().map(|(ago, _)| within(*ago).sum::<f64>()).fold(0.0, f64::max)
}

/// Whether by the log no water was changed for long before the last day.
fn paused(past: &Past) -> bool {
    let fresh = book().troubles.number.reading_fresh_h.value;
    let before = past
        .entries()
        .filter(|(_, kept)| matches!(kept.entry.what, What::Change { .. }) && hours_ago(kept, past.now()) > fresh);
    let last = before.map(|(date, _)| date).next_back().or(past.start());
    let most = book().routine.number.unchanged_days.value;
    last.is_some_and(|last| days_between(last, past.today()) as f64 > most)
}
