//! "Really?": whether an entry of the log is far from what this tank usually gets, asked before it is written.
//!
//! **What.** A dose by its bottle, food and water by the usual, each with what the log has of that day already; readings and
//! packs by what is usual anywhere. What was given is written all the same once the keeper says so: the log tells the truth,
//! and a bottle of which too much was given rests.
//!
//! **Range.** Limits of a dose as its bottle has them (`recipe`), of food and water so many times the usual as
//! `data/amounts.toml` says.
//!
//! **Source.** Harm rule 10 (`data/harm.toml`), common practice.
//!
//! **Checked by** `tests/harm_really.rs`.

use jiff::SignedDuration;
use knowledge::book;
use logbook::{Entry, Filter, Kept, What, same_name};
use quantity::Volume;
use recipe::say::Pen;
use recipe::{Answer, Plan};
use setup::Tank;
use trouble::{Case, Told, harms};

use crate::food::{food, grams};
use crate::living::living;
use crate::missed::doubled;

/// Hours before and after an entry within which all of its day lies, whatever the zones.
const ROUND_H: i64 = 36;

/// Whether what is usual of this kind hangs on the recipe: else [`really`] needs no plan to be worked out.
pub fn hangs_on_plan(what: &What) -> bool {
    matches!(what, What::Dose { .. } | What::Change { .. } | What::Food { .. } | What::Animals { .. })
}

/// The entries that the question before an entry looks at: of its kind, round its day; for animals that come the tests before it too.
pub fn round(entry: &Entry) -> Filter {
    let at = entry.at.timestamp();
    let comes = matches!(entry.what, What::Animals { .. });
    let back = if comes { 24 * trouble::reads_days() } else { ROUND_H };
    let kinds = comes.then(|| "test".to_owned()).into_iter().chain([entry.what.kind().to_owned()]).collect();
    let hours = SignedDuration::from_hours;
    let (from, to) = (at.checked_sub(hours(back)).ok(), at.checked_add(hours(ROUND_H)).ok());
    Filter { from, to, kinds, ..Filter::default() }
}

/// The question before an entry is written, with what harms and from where on; `None`: it is as usual. `log`: those of [`round`],
/// without this one; of an answer that is still open, the first reading that asks.
pub fn really(answer: &Answer, entry: &Entry, log: &[Kept]) -> Option<String> {
    match answer {
        Answer::Settled { tank, plan } => of(tank, plan, entry, log),
        Answer::Open { outcomes, .. } => outcomes.iter().find_map(|outcome| really(&outcome.answer, entry, log)),
    }
}

/// What the log has of that day already, of one amount.
fn given(entry: &Entry, log: &[Kept], amount: impl Fn(&What) -> Option<f64>) -> f64 {
    let zone = entry.at.time_zone();
    let same = |kept: &&Kept| kept.entry.at.with_time_zone(zone.clone()).date() == entry.at.date();
    log.iter().filter(same).filter_map(|kept| amount(&kept.entry.what)).sum()
}

fn of(tank: &Tank, plan: &Plan, entry: &Entry, log: &[Kept]) -> Option<String> {
    let pen = Pen::new(&tank.units);
    let asked = match &entry.what {
        What::Dose { bottle, ml } => {
            let ml = ml + given(entry, log, |what| what.dose_of(bottle));
            unknown(tank, plan, bottle).or_else(|| dosed(tank, plan, bottle, ml, &pen))
        }
        What::Food { grams } => {
            let fed = |what: &What| if let What::Food { grams } = what { Some(*grams) } else { None };
            fed_too_much(tank, grams + given(entry, log, fed), &pen)
        }
        What::Change { litres } => {
            let changed = |what: &What| if let What::Change { litres } = what { Some(*litres) } else { None };
            changed_far(tank, plan, litres + given(entry, log, changed))
        }
        What::Animals { change, .. } if *change > 0 => into_harm(tank, plan, entry, log),
        _ => None,
    };
    asked.or_else(|| entry.remark())
}

/// The question about animals that come while the last reading of ammonia or nitrite harms (harm rule 15).
fn into_harm(tank: &Tank, plan: &Plan, entry: &Entry, log: &[Kept]) -> Option<String> {
    let come = Kept { id: u64::MAX, entry: entry.clone() };
    let tank = living(tank, &[log, &[come]].concat(), &entry.at);
    let mut told = Told::default();
    told.hear(log, &entry.at);
    let case = Case { tank: &tank, plan, told: &told, litres_known: false };
    let harms = |(of, key): (&str, &str)| harms(&case, of, told.get(key)?, &entry.at);
    let harms = [("ammonia_n", "ammonia"), ("nitrite_n", "nitrite")].into_iter().find_map(harms)?;
    Some(format!(
        "Really? By the last reading no animal comes into this water now. {}. {} Test again first.",
        harms.head,
        book().harm.limit.ammonia_unionised_mg_n_per_l.say
    ))
}

/// The question about a bottle that is none of the plan's where shrimps, snails or their kin live: it may bring copper (harm rule 4).
fn unknown(tank: &Tank, plan: &Plan, name: &str) -> Option<String> {
    let limit = &book().harm.limit;
    let strange = !plan.bottles.iter().any(|bottle| same_name(&bottle.name, name));
    (strange && tank.animals.invertebrates()).then(|| {
        format!(
            "Really? “{}” is none of this tank’s bottles, so I can’t tell what it brings. Read its label for copper before more of it goes in: {} {} {}",
            name.trim(),
            limit.copper_ask_mg_per_l.say,
            limit.copper_refuse_mg_per_l.say,
            limit.copper_unknown_percent.say
        )
    })
}

fn times(pen: &Pen, amount: f64, usual: f64) -> String {
    format!("{} times", pen.n(amount / usual, 2))
}

/// The question about mL of a bottle in a day.
pub(crate) fn dosed(tank: &Tank, plan: &Plan, name: &str, ml: f64, pen: &Pen) -> Option<String> {
    let bottle = plan.bottles.iter().find(|bottle| same_name(&bottle.name, name) && bottle.daily_ml > 0.0)?;
    if ml <= bottle.ask_above_ml {
        return None;
    }
    let many = ml / bottle.daily_ml;
    let harms = doubled(tank, plan, many).into_iter().find(|doubled| doubled.bottle == bottle.name)?;
    Some(format!(
        "Really? {} of {} in a day is {} the usual {}. {}",
        pen.ml(ml),
        bottle.name,
        times(pen, ml, bottle.daily_ml),
        pen.ml(bottle.daily_ml),
        harms.says
    ))
}

/// Whether an amount is so many times the usual, or more, that its row asks; a hair under it is a rounded figure.
fn far(kind: &str, amount: f64, usual: f64) -> bool {
    let asks = book().amounts.get(kind).and_then(|row| row.asks_times).unwrap_or(f64::INFINITY);
    usual > 0.0 && amount >= asks * usual * (1.0 - 1e-9)
}

/// The question about g of food in a day, from so many times the usual on.
pub(crate) fn fed_too_much(tank: &Tank, fed: f64, pen: &Pen) -> Option<String> {
    let usual = food(tank)?.grams;
    far("food", fed, usual).then(|| {
        format!(
            "Really? {} of food in a day is {} the usual {}. What they leave turns into ammonia: take it out. {}",
            grams(pen, fed),
            times(pen, fed, usual),
            grams(pen, usual),
            book().harm.limit.ammonia_unionised_mg_n_per_l.say
        )
    })
}

fn changed_far(tank: &Tank, plan: &Plan, litres: f64) -> Option<String> {
    let volume = |litres: f64| Volume::litres(litres).print(&tank.units);
    let change = &plan.change;
    // What limits the usual change limits this one, as Care counts it.
    let (share, because) = match &change.limited {
        Some(limited) if change.share < change.share_most => (change.share, Some(limited)),
        _ => (change.share_most, change.most_because.as_ref()),
    };
    let (most, because) = (share * tank.geometry.true_l.value, because.map_or("", String::as_str));
    if tank.animals.any() && share < 1.0 && trouble::over(litres, most) {
        let asked = match most > 0.0 {
            false => {
                format!("Really? {} changed, and none of this water may be changed here now. {because}", volume(litres))
            }
            true => format!(
                "Really? {} changed in a day is more than the {} that may be changed at once with this water. {because}",
                volume(litres),
                volume(most)
            ),
        };
        return Some(asked.trim_end().to_owned());
    }
    let usual = plan.change.litres;
    far("change", litres, usual).then(|| {
        let rule = &book().harm.limit.alkalinity_step_meq_per_l.say;
        format!("Really? {} changed in a day is far more than the usual {}. {rule}", volume(litres), volume(usual))
    })
}
