//! What was done or weighed that must not wait: far too much of a bottle or of food, a cylinder that loses too much, and a reading of
//! which the keeper was not sure.
//!
//! **Range.** The last day of the log; a weight that tells of a leak until the next that does not, or until the keeper says that it is done;
//! an unsure reading until the next of the same thing.
//!
//! **Source.** `data/harm.toml` rules 4, 7, 10 and 14.
//!
//! **Checked by** `tests/harm_done.rs`.

use jiff::civil::Date;
use knowledge::book;
use logbook::{Kept, Reading, Sure, What};
use recipe::say::Pen;
use setup::Tank;
use trouble::{Case, Urgency};

use super::{Alarm, about};
use crate::log::Past;
use crate::missed::doubled;
use crate::really;
use crate::supplies::{CYLINDER, leaks};

/// Whether it lifts anything over its limit for a day, or copper to where it is refused, whatever changes can take out.
fn too_much(doubled: &crate::missed::Doubled) -> bool {
    let refuse = book().harm.limit.copper_refuse_mg_per_l.value();
    doubled.rises.iter().any(crate::missed::Rise::over) || doubled.copper_mg_per_l.is_some_and(|mg| mg > refuse)
}

/// Far more of a bottle than a day's dose, today (harm rule 10).
pub(super) fn overdosed(case: &Case, past: &Past, pen: &Pen) -> Vec<Alarm> {
    let one = |bottle: &recipe::Bottle| {
        let given = past.amount_today(|what| what.dose_of(&bottle.name))?;
        let says = told(&really::dosed(case.tank, case.plan, &bottle.name, given, pen)?);
        let left = case.told.left_of(&bottle.name, case.tank.geometry.true_l.high);
        let times = left * given / bottle.daily_ml;
        let harms = doubled(case.tank, case.plan, times).into_iter().find(|doubled| doubled.bottle == bottle.name)?;
        let urgency = if too_much(&harms) { Urgency::AtOnce } else { Urgency::WhenItSuits };
        let says = match left < 1.0 {
            true => format!(
                "{} of {} in a day, of which the water that you changed since left {}: as if {} times the usual {}. {}",
                pen.ml(given),
                bottle.name,
                pen.percent(left),
                pen.n(times, 2),
                pen.ml(bottle.daily_ml),
                harms.says
            ),
            false => says,
        };
        Some(about("dose", past.today(), urgency, "overdose", vec![says]))
    };
    case.plan.bottles.iter().filter_map(one).collect()
}

/// Far more food than a day's, today.
pub(super) fn overfed(case: &Case, past: &Past, pen: &Pen) -> Option<Alarm> {
    let food = |what: &What| if let What::Food { grams } = what { Some(*grams) } else { None };
    let says = really::fed_too_much(case.tank, past.amount_today(food)?, pen)?;
    let then = "No food until a test of ammonia, today and tomorrow, is low.".to_owned();
    Some(about("food", past.today(), Urgency::AtOnce, "ammonia", vec![told(&says), then]).of_gills(None))
}

/// What is asked before an entry is written, said once it is.
fn told(asked: &str) -> String {
    asked.trim_start_matches("Really? ").to_owned()
}

/// Ammonia or nitrite that the keeper was not sure of and did not read again: it decides no change, and is no quiet day.
pub(super) fn unsure(past: &Past, pen: &Pen) -> Vec<Alarm> {
    let latest = |of: &str| -> Option<(Date, Reading)> {
        past.entries().rev().find_map(|(date, kept)| match &kept.entry.what {
            What::Test(reading) if reading.of == of => Some((date, reading.clone())),
            _ => None,
        })
    };
    let one = |of: &str, name: &str| {
        let (date, reading) = latest(of)?;
        let least = book().harm.limit.start_test_pass_mg_n_per_l.value();
        let shows = reading.sure == Sure::NotSure && !reading.below && reading.value > least;
        shows.then(|| {
            let says = format!(
                "{} mg/L of {name} (as N), and you were not sure: test again now. Until then no food, and nothing that raises pH. {}",
                pen.n(reading.value, 2),
                book().harm.limit.ammonia_unionised_mg_n_per_l.say
            );
            about(of, date, Urgency::BeforeTheNextChange, "ammonia", vec![says]).of_gills(None)
        })
    };
    [one("ammonia_n", "ammonia"), one("nitrite_n", "nitrite")].into_iter().flatten().collect()
}

/// A cylinder that loses more than any tank takes (harm rule 14): it concerns people, whoever lives in the tank. It ends by the next weight
/// that is in order, or by the keeper's word.
pub(super) fn cylinder(tank: &Tank, past: &Past, pen: &Pen) -> Option<Alarm> {
    let leak = leaks(tank, past, pen)?;
    let told = |kept: &Kept| matches!(&kept.entry.what, What::Done { act } if act == CYLINDER);
    let (weight, since) = (leak.ago_h, |kept: &Kept| trouble::hours_ago(kept, past.now()));
    if past.entries().any(|(_, kept)| told(kept) && since(kept) <= weight) {
        return None;
    }
    let mut says: Vec<String> = trouble::anew_after(weight, "the weight of the cylinder").into_iter().collect();
    says.push(leak.says.clone());
    says.push(format!("Open the window now. {}", book().harm.rule.co2_room.say));
    says.push(
        "This stands here until a new weight is in order, or until you write on Log, under what was done: cylinder."
            .to_owned(),
    );
    Some(about(CYLINDER, leak.date, Urgency::AtOnce, "cylinder", says))
}
