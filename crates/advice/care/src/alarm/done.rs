//! What was done or weighed that must not wait: a change that the rules forbid, far too much of a bottle or of food, a cylinder that
//! loses too much, and a reading of which the keeper was not sure.
//!
//! **Range.** The last day of the log; of readings the last days (a row of `data/routine.toml`).
//!
//! **Source.** `data/harm.toml` rules 4, 7, 8, 10 and 14.
//!
//! **Checked by** `tests/harm_done.rs`.

use jiff::civil::Date;
use knowledge::book;
use logbook::{Reading, Sure, What};
use recipe::say::Pen;
use setup::Tank;
use trouble::{Case, Urgency, hours_ago};

use super::{Alarm, about};
use crate::due::days_between;
use crate::log::Past;
use crate::missed::doubled;
use crate::really;
use crate::start_waters::refused_tap;
use crate::supplies::{CYLINDER, leaks};

const HOURS_A_DAY: f64 = 24.0;
/// More than this over what is allowed was changed, and not by a bucket's rounding.
const OVER: f64 = 1.1;

/// Hours ago and litres of the changes of the last day.
fn changes(past: &Past) -> Vec<(f64, f64)> {
    let change = |what: &What| if let What::Change { litres } = what { Some(*litres) } else { None };
    let all = past.entries().filter_map(|(_, kept)| Some((hours_ago(kept, past.now()), change(&kept.entry.what)?)));
    all.filter(|(ago, _)| (0.0..=HOURS_A_DAY).contains(ago)).collect()
}

/// Whether by the log no water was changed for long before the last day.
fn paused(past: &Past) -> bool {
    let before = past.entries().filter(|(_, kept)| {
        matches!(kept.entry.what, What::Change { .. }) && hours_ago(kept, past.now()) > HOURS_A_DAY
    });
    let last = before.map(|(date, _)| date).next_back().or(past.start());
    let most = book().routine.number.unchanged_days.value;
    last.is_some_and(|last| days_between(last, past.today()) as f64 > most)
}

/// A change with water that is refused (harm rule 4), or more than a tenth at once of a tank long unchanged (harm rule 8). For
/// the second a test of ammonia after it takes its place.
pub(super) fn forbidden_change(case: &Case, past: &Past, pen: &Pen) -> Option<Alarm> {
    let (tank, plan, harm) = (case.tank, case.plan, &book().harm);
    let changes = changes(past);
    let within = |from: f64| changes.iter().filter(move |(ago, _)| (from..from + 1.0).contains(ago)).map(|(_, l)| l);
    let litres = changes.iter().map(|(ago, _)| within(*ago).sum::<f64>()).fold(0.0, f64::max);
    let last = changes.iter().map(|(ago, _)| *ago).reduce(f64::min)?;
    let tested = past.entries().any(|(_, kept)| match &kept.entry.what {
        What::Test(reading) => {
            reading.of == "ammonia_n" && reading.sure != Sure::NotSure && hours_ago(kept, past.now()) < last
        }
        _ => false,
    });
    let old = tank.unchanged_months.is_some() || (plan.change.every_days > 0 && paused(past));
    let tenth = harm.limit.old_tank_change_percent.value() / 100.0 * tank.geometry.true_l.value;
    let stops = refused_tap(tank, plan);
    let why = match &stops {
        Some(stops) => format!(
            "You changed {}, and this water is refused here. {stops} It was other water? Then nothing of this holds.",
            pen.litres(litres)
        ),
        None if old && !tested && litres > OVER * tenth => format!(
            "You changed {} at once of a tank that was long unchanged: more than a tenth, {}. {}",
            pen.litres(litres),
            pen.litres(tenth),
            harm.rule.old_acid_tank.say
        ),
        None => return None,
    };
    let until = if stops.is_some() {
        "nothing more of this water, neither to top up"
    } else {
        "no change until the test is low"
    };
    let says = vec![
        why,
        harm.limit.ammonia_unionised_mg_n_per_l.say.clone(),
        format!(
            "Test ammonia and pH now, and watch how they breathe and whether shrimps and snails move; no food, and {until}."
        ),
    ];
    Some(about("change", past.today(), Urgency::AtOnce, "ammonia", says).of_gills(Some(0.0)))
}

/// Whether it lifts anything over its limit for a day, or copper to where it is refused, whatever changes can take out.
fn too_much(doubled: &crate::missed::Doubled) -> bool {
    let refuse = book().harm.limit.copper_refuse_mg_per_l.value();
    doubled.rises.iter().any(crate::missed::Rise::over) || doubled.copper_mg_per_l.is_some_and(|mg| mg > refuse)
}

/// Far more of a bottle than a day's dose, today (harm rule 10).
pub(super) fn overdosed(case: &Case, past: &Past, pen: &Pen) -> Vec<Alarm> {
    let one = |bottle: &recipe::Bottle| {
        let ml = |what: &What| match what {
            What::Dose { bottle: name, ml } if *name == bottle.name => Some(*ml),
            _ => None,
        };
        let given = past.amount_today(ml)?;
        let says = really::dosed(case.tank, case.plan, &bottle.name, given, pen)?;
        let harms = doubled(case.tank, case.plan, given / bottle.daily_ml);
        let at_once = harms.iter().any(|doubled| doubled.bottle == bottle.name && too_much(doubled));
        let urgency = if at_once { Urgency::AtOnce } else { Urgency::WhenItSuits };
        Some(about("dose", past.today(), urgency, "overdose", vec![told(&says)]))
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
    let fresh = book().routine.number.alarm_days.value as i64;
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
        (shows && days_between(date, past.today()) < fresh).then(|| {
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

/// A cylinder that loses more than any tank takes (harm rule 14): it concerns people, whoever lives in the tank.
pub(super) fn cylinder(tank: &Tank, past: &Past, pen: &Pen) -> Option<Alarm> {
    let leak = leaks(tank, past, pen)?;
    let fresh = book().routine.number.alarm_days.value as i64;
    let harm = &book().harm;
    let says = vec![leak.says.clone(), format!("Open the window now. {}", harm.rule.co2_room.say)];
    (days_between(leak.date, past.today()) < fresh)
        .then(|| about(CYLINDER, leak.date, Urgency::AtOnce, "cylinder", says))
}
