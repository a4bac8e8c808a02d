//! The daily dose: one act for all bottles of an hour, with the caution in it.
//!
//! **What.** Copper that a bottle brings piles up from change to change where animals without a backbone live: the sum is
//! said with the dose, or the dose is not given (harm rule 4).
//!
//! **Equation.** Peak = D n/x + W, without changes W + D t; D mg/L a day, n days from change to change, x share changed,
//! W what tap and pipes bring at their upper ends, t days.
//!
//! What was given over the usual is left away: b days of it stand over at the end of a day, b' = max(0, b + g/d - 1), g given
//! and d the daily dose, mL. While a whole day's stands over, the bottle rests.
//!
//! **Range.** No plant takes any: the bad end. A change of water between is not counted, which errs to the longer rest.
//!
//! **Source.** Balance of mass; limits in `data/harm.toml`.
//!
//! **Checked by** `tests/by_hand_day.rs`, `tests/harm.rs`.

use jiff::civil::Date;
use logbook::What;
use quantity::{Ion, Kind, Why};
use recipe::say::{Pen, capital, list};
use recipe::{Bottle, Into, Plan};
use setup::Tank;

use crate::day::Act;
use crate::due::{days_between, later};
use crate::log::Past;

/// What a dose of copper comes to.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PilesUp {
    /// mg/L a day.
    pub a_day: f64,
    /// mg/L of tap and pipes, upper ends.
    pub water: f64,
    /// mg/L right before a change; infinite without changes.
    pub peak: f64,
}

/// Copper of the daily doses; `None`: nobody lives there whom it harms first, or no dose brings any.
pub(crate) fn piles_up(tank: &Tank, plan: &Plan) -> Option<PilesUp> {
    let dosed = plan.doses.iter().filter(|dose| dose.into == Into::Bottle);
    let a_day: f64 = dosed.map(|dose| recipe::copper_a_day_mg_per_l(tank, dose)).sum();
    if !tank.animals.invertebrates() || a_day <= 0.0 {
        return None;
    }
    let new = recipe::blended(tank, plan.low_share);
    let water = new.mg_per_l(Ion::Copper).high + (1.0 - plan.low_share) * tank.pipes_copper_mg_per_l.high;
    let (share, days) = (plan.change.share, f64::from(plan.change.every_days));
    let dosed = if share * days > 0.0 { a_day * days / share } else { f64::INFINITY };
    Some(PilesUp { a_day, water, peak: water + dosed })
}

impl PilesUp {
    /// Whether the dose is not given at all.
    fn refused(&self) -> bool {
        self.peak > knowledge::book().harm.limit.copper_refuse_mg_per_l.value()
    }

    fn says(&self, plan: &Plan, pen: &Pen) -> String {
        let limit = &knowledge::book().harm.limit;
        let (ask, refuse) = (limit.copper_ask_mg_per_l.value(), limit.copper_refuse_mg_per_l.value());
        let first = format!("This brings {} mg/L of copper a day", pen.n(self.a_day, 2));
        let sum = if self.peak.is_finite() {
            format!(
                "{first} and piles up: {} × {} days ÷ {} + {} of tap and pipes = {} mg/L before a change.",
                pen.n(self.a_day, 2),
                plan.change.every_days,
                pen.share(plan.change.share),
                pen.n(self.water, 2),
                pen.n(self.peak, 3)
            )
        } else {
            let days = ((refuse - self.water).max(0.0) / self.a_day).floor();
            format!(
                "{first}, and nothing takes it out: {} mg/L are passed after {}.",
                pen.n(refuse, 1),
                recipe::say::several(&pen.n(days, 3), "day", "days")
            )
        };
        format!(
            "{sum} Shrimps and snails are harmed by copper first: above {} mg/L I ask, above {} I refuse.",
            pen.n(ask, 1),
            pen.n(refuse, 1)
        )
    }

    /// Why so much.
    pub(crate) fn why(&self, plan: &Plan, pen: &Pen) -> Why {
        let limit = &knowledge::book().harm.limit.copper_ask_mg_per_l;
        Why {
            key: "copper-piles-up".to_owned(),
            question: format!("why {} mg/L of copper?", pen.n(self.peak, 3)),
            sum: self.says(plan, pen),
            words: "No plant is counted on to take any, and tap and pipes count at their upper ends.".to_owned(),
            sources: limit.is.source_key().map(str::to_owned).into_iter().collect(),
            kind: Kind::Assumed,
        }
    }
}

/// Days from today on for which a bottle rests, because more of it was given than its days ask for; 0: none.
/// `through`: today's own entries count too, and the days are those after today.
pub(crate) fn rests_days(bottle: &str, daily_ml: f64, past: &Past, through: bool) -> i64 {
    if daily_ml <= 0.0 {
        return 0;
    }
    let (mut over, mut seen): (f64, Option<Date>) = (0.0, None);
    let end = later(past.today(), i64::from(through));
    for (date, kept) in past.entries().filter(|(date, _)| *date < end) {
        let Some(ml) = kept.entry.what.dose_of(bottle).filter(|ml| ml.is_finite()) else { continue };
        // Each day up to this one took its own dose.
        over = (over - seen.map_or(0, |seen| days_between(seen, date)) as f64).max(0.0) + ml.max(0.0) / daily_ml;
        seen = Some(date);
    }
    let past_days = seen.map_or(0, |seen| days_between(seen, end)) as f64;
    (over - past_days + 1e-9).max(0.0).floor() as i64
}

/// Days from today on without a dose, today's own entries counted: 0 where today has or had its usual one.
pub(crate) fn rests_from_today(bottle: &str, daily_ml: f64, past: &Past) -> i64 {
    match rests_days(bottle, daily_ml, past, true) {
        0 => rests_days(bottle, daily_ml, past, false),
        after => after + 1,
    }
}

/// The acts of dosing, and bottles that rest.
pub(crate) fn acts(tank: &Tank, plan: &Plan, past: &Past, pen: &Pen) -> Vec<Act> {
    let rests = |bottle: &Bottle| rests_days(&bottle.name, bottle.daily_ml, past, false) > 0;
    let (resting, given): (Vec<Bottle>, Vec<Bottle>) = plan.bottles.iter().cloned().partition(rests);
    let mut acts = usual(tank, &Plan { bottles: given, ..plan.clone() }, past, pen);
    acts.extend(resting.iter().map(|bottle| rest(bottle, past, pen)));
    acts
}

/// A bottle that rests: nothing of it is given, and when it goes on.
fn rest(bottle: &Bottle, past: &Past, pen: &Pen) -> Act {
    let name = bottle.name.to_lowercase();
    let days = rests_days(&bottle.name, bottle.daily_ml, past, false);
    let until = later(past.today(), days).strftime("%-d %B").to_string();
    let key = format!("rest_{}", name.replace(' ', "_"));
    let mut act = Act::new(&key, &format!("{}, {name}", this(&bottle.time_of_day)));
    act.amount = format!("none until {until}");
    act.says = vec![
        format!(
            "By your log more was given than {} a day: leave it away {} more, today with it. Another dose would come on top.",
            pen.ml(bottle.daily_ml),
            crate::start_words::days(days as f64)
        ),
        bottle.slip.clone(),
    ];
    act
}

/// The acts of dosing, one for each time of day, in the order of the bottles. Nothing where the plan has no bottle.
pub(crate) fn usual(tank: &Tank, plan: &Plan, past: &Past, pen: &Pen) -> Vec<Act> {
    let mut times: Vec<&str> = Vec::new();
    for bottle in &plan.bottles {
        if !times.contains(&bottle.time_of_day.as_str()) {
            times.push(&bottle.time_of_day);
        }
    }
    // The morning comes before the evening, whatever the numbers of the bottles.
    times.sort_by_key(|time| !time.contains("morning"));
    let copper = piles_up(tank, plan);
    times
        .into_iter()
        .map(|time| {
            let bottles: Vec<&Bottle> = plan.bottles.iter().filter(|b| b.time_of_day == time).collect();
            act(tank, plan, time, &bottles, copper.as_ref(), past, pen)
        })
        .collect()
}

/// Words of a time of day for the start of a sentence: "every evening" is "This evening".
fn this(time: &str) -> String {
    time.strip_prefix("every ").map_or_else(|| capital(time), |part| format!("This {part}"))
}

fn act(
    tank: &Tank,
    plan: &Plan,
    time: &str,
    bottles: &[&Bottle],
    copper: Option<&PilesUp>,
    past: &Past,
    pen: &Pen,
) -> Act {
    let word = time.rsplit(' ').next().unwrap_or(time);
    let names: Vec<String> = bottles.iter().map(|b| b.name.to_lowercase()).collect();
    let mut act = Act::new(&format!("dose_{word}"), &format!("{}, {}", this(time), list(&names)));
    let given = |b: &Bottle| past.amount_today(|what| what.dose_of(&b.name));
    // What is done shows what was given.
    let all = bottles.iter().all(|b| given(b).is_some());
    let shown = |b: &Bottle| given(b).filter(|_| all).unwrap_or(b.daily_ml);
    let amounts: Vec<String> = bottles.iter().map(|b| pen.ml(shown(b))).collect();
    let alike = amounts.windows(2).all(|pair| pair[0] == pair[1]);
    act.amount = match (alike, amounts.len()) {
        (_, 1) => amounts.concat(),
        (true, _) => format!("{} of each", amounts.first().map_or("", String::as_str)),
        (false, _) => list(&amounts),
    };
    for bottle in bottles {
        let days = rests_days(&bottle.name, bottle.daily_ml, past, true);
        if days > 0 {
            let until = later(past.today(), days + 1).strftime("%-d %B");
            act.says.push(format!("More than a day’s of {}: not again until {until}.", bottle.name.to_lowercase()));
        }
        act.says.push(bottle.slip.clone());
    }
    // Copper is summed over all bottles, and said with each that brings some.
    let brings = bottles.iter().any(|bottle| brings_copper(tank, plan, bottle));
    match copper.filter(|_| brings) {
        Some(piles) => {
            act.says.push(piles.says(plan, pen));
            if piles.refused() {
                act.says.push("So it is not given.".to_owned());
                act.amount = "none".to_owned();
                return act;
            }
        }
        None if tank.animals.invertebrates() => {
            let limit = &knowledge::book().harm.limit.copper_ask_mg_per_l;
            act.says.push(format!("No trace mix beside it, it brings copper. {}", limit.say));
        }
        None => {}
    }
    act.writes = bottles.iter().map(|b| What::Dose { bottle: b.name.clone(), ml: b.daily_ml }).collect();
    let mine = |what: &What| bottles.iter().any(|b| what.dose_of(&b.name).is_some());
    act.done = past.today_done(mine).filter(|_| all);
    act
}

/// Whether anything that is weighed into a bottle brings copper.
fn brings_copper(tank: &Tank, plan: &Plan, bottle: &Bottle) -> bool {
    let products = bottle.weighed.iter().map(|w| &w.product).chain(bottle.from_stock.iter().map(|s| &s.product));
    products
        .filter_map(|key| plan.doses.iter().find(|dose| dose.product == *key))
        .any(|dose| recipe::copper_a_day_mg_per_l(tank, dose) > 0.0)
}
