//! A dose that was missed, and one that was given several times.
//!
//! **What.** After m missed doses a level lies m d lower than it would; every change takes its share of that too, so after k
//! changes m d (1 - x)^k is left of it. A dose given n times on a day lifts the level by n d on that day; the way back is that of a slip
//! (`recipe::way_back`), and the bottle rests for n - 1 days.
//!
//! **Symbols.** d what a day's dose brings, mg/L (alkalinity meq/L); x share of a change, 0 to 1.
//!
//! **Range.** Plants that take as much as before; a level falls by no more than it ever holds, and not below nothing. For ceilings the smallest litres count.
//!
//! **Source.** Balance of mass; ceilings `data/harm.toml` rules 4, 6 and 10.
//!
//! **Checked by** `tests/closed_form_missed.rs`, `tests/harm_away.rs`.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use knowledge::book;
use logbook::Kept;
use quantity::{Ion, Kind, Why};
use recipe::say::Pen;
use recipe::{Bottle, Ceiling, Level, Note, Plan, WayBack, ceilings_of, way_back};
use setup::Tank;

use crate::away::Ask;
use crate::dose::rests_days;
use crate::due::days_between;
use crate::log::Past;
use crate::start_waters::refused_tap;
use crate::start_words::{counted, day, days, keyed, note, source, up, why};

/// What missing did to one level.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Short {
    /// The ion.
    pub ion: Ion,
    /// mg/L that a day's dose brings.
    pub a_day: f64,
    /// mg/L lower than it would be, right after.
    pub lower: f64,
    /// The lowest of the cycle, had it been missed right before: mg/L, not below 0.
    pub lowest: f64,
    /// Lower edge of the band aimed at.
    pub band_low: Option<f64>,
    /// Days until a tenth of the gap is left; `None`: without changes it stays.
    pub days_to_a_tenth: Option<f64>,
}

/// Doses that were missed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Missed {
    /// How many days.
    pub days: u32,
    /// When each bottle was given last, by the log.
    pub last: Vec<Last>,
    /// Level by level.
    pub levels: Vec<Short>,
    /// What to do, in a sentence.
    pub answer: String,
    /// What happened, level by level.
    pub notes: Vec<Note>,
    /// Why-notes.
    pub whys: Vec<Why>,
}

/// A tenth of a gap is left after so many changes of share x: ln(0.1) ÷ ln(1 - x), in days from change to change.
fn days_to_a_tenth(plan: &Plan) -> Option<f64> {
    let (x, every) = (plan.change.share, plan.change.every_days);
    (every > 0 && x > 0.0 && x < 1.0).then(|| up(0.1_f64.ln() / (1.0 - x).ln()) * f64::from(every))
}

/// When each bottle of a plan was given last, by the log.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Last {
    /// The bottle.
    pub bottle: String,
    /// The day.
    pub on: Date,
    /// Whole days since without it: today, on which it may still come, is none.
    pub missed: u32,
    /// Days for which it rests yet, because more was given than its days ask for.
    pub rests: u32,
}

/// The bottles that the log knows, in their order.
pub fn last_doses(plan: &Plan, log: &[Kept], now: &ZonedDateTime) -> Vec<Last> {
    let past = Past::of(log, now);
    let last = |bottle: &Bottle| {
        let on = past.known(|what| what.dose_of(&bottle.name).is_some()).last?;
        Some(Last {
            bottle: bottle.name.clone(),
            on,
            missed: u32::try_from(days_between(on, past.today()) - 1).unwrap_or(0),
            rests: u32::try_from(rests_days(&bottle.name, bottle.daily_ml, &past, false)).unwrap_or(0),
        })
    };
    plan.bottles.iter().filter(|bottle| bottle.daily_ml > 0.0).filter_map(last).collect()
}

/// Days without a dose by the log: of the bottle that was left away longest; one where it knows of none.
pub fn missed_by_log(plan: &Plan, log: &[Kept], now: &ZonedDateTime) -> u32 {
    let open = last_doses(plan, log, now).into_iter().filter(|last| last.rests == 0);
    open.map(|last| last.missed).max().unwrap_or(1)
}

/// What days without a dose did, and how to carry on: as many as are told, else by the log.
pub fn missed(tank: &Tank, plan: &Plan, told: Option<u32>, log: &[Kept], now: &ZonedDateTime) -> Missed {
    let pen = Pen::new(&tank.units);
    let last = last_doses(plan, log, now);
    let missed = told.unwrap_or_else(|| missed_by_log(plan, log, now));
    let fed = plan.levels.iter().filter(|level| level.dose_per_day > 0.0 && level.band.is_some());
    let levels: Vec<Short> = fed.filter_map(|level| short(plan, level, missed)).collect();
    let resting: Vec<String> = last.iter().filter(|last| last.rests > 0).map(rests_says).collect();
    let answer = match missed {
        _ if levels.is_empty() => "Nothing is dosed in this tank, so nothing was missed.".to_owned(),
        // A bottle of which too much was given is not missed (harm rule 10).
        _ if !resting.is_empty() => format!("{} Of any other today’s dose as ever.", resting.join(" ")),
        0 => "No dose was missed: today’s as ever.".to_owned(),
        n if n > Ask::most_days() => format!(
            "{} without a dose are no slip: test what is dosed, then today’s dose as ever, never what was missed on top of it.",
            recipe::say::capital(&days(f64::from(n)))
        ),
        _ => "Give today’s dose as ever and carry on: never what was missed on top of it.".to_owned(),
    };
    let mut notes: Vec<Note> = by_log(&last, told).into_iter().filter(|_| !levels.is_empty()).collect();
    if missed > 0 && !levels.is_empty() {
        notes.extend(levels.iter().map(|s| note(s.ion.name(), says(&pen, s))));
        notes.push(keyed(
            "Why not make up for it",
            format!(
                "It was {}: plants live on what they hold. Two doses at once lift the water by twice as much in a day, and every slip of the hand counts double.",
                days(f64::from(missed))
            ),
            "missed",
        ));
    }
    let whys = levels.first().filter(|_| missed > 0).map(|s| why_short(&pen, plan, s, missed)).into_iter().collect();
    Missed { days: missed, last, levels, answer, notes, whys }
}

fn rests_says(last: &Last) -> String {
    format!(
        "{} rests {} more, today with it: by your log more of it was given than its days ask for, and none was missed.",
        last.bottle,
        days(f64::from(last.rests))
    )
}

/// When the last dose was, in a sentence.
fn by_log(last: &[Last], told: Option<u32>) -> Option<Note> {
    if last.is_empty() {
        return None;
    }
    let of = |last: &Last| format!("{} on {}", last.bottle, day(last.on));
    let all = recipe::say::list(&last.iter().map(of).collect::<Vec<_>>());
    let counted = if told.is_some() { " Here stands what you told." } else { "" };
    Some(note("By your log", format!("Given last: {all}.{counted}")))
}

fn short(plan: &Plan, level: &Level, missed: u32) -> Option<Short> {
    // No lower than it ever stood: what is not there cannot be missing.
    let lower = (f64::from(missed) * level.dose_per_day).min(level.may_reach());
    Some(Short {
        ion: level.ion?,
        a_day: level.dose_per_day,
        lower,
        lowest: (level.lowest - lower).max(0.0),
        band_low: level.band.map(|band| band.0),
        days_to_a_tenth: days_to_a_tenth(plan),
    })
}

fn says(pen: &Pen, s: &Short) -> String {
    let back = s.days_to_a_tenth.map_or_else(
        || "Without changes it stays so much lower.".to_owned(),
        |n| format!("After {} a tenth of that is left.", days(n)),
    );
    let lowest = match s.band_low {
        _ if s.lowest <= 0.0 => "It ran out for a while.".to_owned(),
        Some(low) if s.lowest < low => {
            format!("At its lowest {}, under the {} aimed at.", pen.ion(s.ion, s.lowest), pen.n(low, 2))
        }
        _ => format!("At its lowest {}: still enough.", pen.ion(s.ion, s.lowest)),
    };
    format!("Lower by {}. {lowest} {back}", pen.ion(s.ion, s.lower))
}

fn why_short(pen: &Pen, plan: &Plan, s: &Short, missed: u32) -> Why {
    let x = plan.change.share;
    why(
        "missed",
        format!("why {} lower?", pen.ion(s.ion, s.lower)),
        format!(
            "{missed} × {} mg/L, at most what it ever holds: {} mg/L; after k changes × {}^k",
            pen.n(s.a_day, 3),
            pen.n(s.lower, 3),
            pen.n(1.0 - x, 3)
        ),
        "What was not given is missing from the water; each change takes its share of the gap as of everything else."
            .to_owned(),
        &[],
        Kind::WorkedOut,
    )
}

/// What one bottle, given several times on a day, does to one thing that it brings.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Rise {
    /// What rises: an ion's name, `hardness` or `alkalinity`.
    pub what: String,
    /// By so much on that day, in `unit`, in the smallest litres that the tank may hold.
    pub rise: f64,
    /// Most in a day.
    pub most: f64,
    /// `mg/L` or `meq/L`.
    pub unit: &'static str,
}

impl Rise {
    /// More than a day's limit.
    pub fn over(&self) -> bool {
        self.rise > self.most
    }
}

/// One bottle given several times.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Doubled {
    /// The bottle.
    pub bottle: String,
    /// How many times.
    pub times: f64,
    /// What has a ceiling.
    pub rises: Vec<Rise>,
    /// mg/L of copper after it, where shrimps, snails or others without a backbone live there.
    pub copper_mg_per_l: Option<f64>,
    /// Changes of the plan's share until the rise is under its ceiling; 0: none.
    pub changes: u32,
    /// What to do: sentences.
    pub says: String,
    /// Why so many changes.
    pub why: Why,
}

/// Each bottle of a plan, given `times` times on one day.
pub fn doubled(tank: &Tank, plan: &Plan, times: f64) -> Vec<Doubled> {
    let given = plan.bottles.iter().filter(|bottle| bottle.daily_ml > 0.0);
    given.map(|bottle| one(tank, plan, bottle, times)).collect()
}

/// What a day's dose of a bottle given so many times lifts, each with its limit.
fn rises(tank: &Tank, plan: &Plan, bottle: &Bottle, times: f64) -> Vec<Rise> {
    let rise = |c: Ceiling| Rise { what: c.what.to_owned(), rise: times * c.rise, most: c.most, unit: c.unit };
    ceilings_of(tank, plan, bottle).into_iter().map(rise).collect()
}

/// mg/L of copper that a day's dose of a bottle brings, in the fewest litres; a label that does not say counts as the worst.
fn copper_a_day(tank: &Tank, plan: &Plan, bottle: &Bottle) -> f64 {
    let litres = tank.geometry.true_l;
    let smaller = if litres.low > 0.0 { (litres.value / litres.low).max(1.0) } else { 1.0 };
    smaller * plan.doses_in(bottle).map(|dose| recipe::copper_a_day_mg_per_l(tank, dose)).sum::<f64>()
}

fn one(tank: &Tank, plan: &Plan, bottle: &Bottle, times: f64) -> Doubled {
    let pen = Pen::new(&tank.units);
    let rises = rises(tank, plan, bottle, times);
    let limit = &book().harm.limit;
    let copper = copper_a_day(tank, plan, bottle);
    let stands = plan.levels.iter().find(|level| level.ion == Some(Ion::Copper));
    let copper_mg_per_l = stands
        .filter(|_| tank.animals.invertebrates() && copper > 0.0)
        .map(|level| level.may_reach() + (times - 1.0) * copper);
    let share = if plan.change.every_days > 0 { plan.change.share } else { 0.0 };
    let worst = rises.iter().map(|r| r.rise / r.most).fold(0.0, f64::max);
    let copper_over = copper_mg_per_l.map_or(0.0, |mg| mg / limit.copper_refuse_mg_per_l.value());
    let far = worst.max(copper_over);
    let back = way_back(tank, share, far);
    let stopped = refused_tap(tank, plan).filter(|_| tank.animals.any() && far > 1.0);
    let changes = if stopped.is_some() { 0 } else { back.changes };
    let mut doubled = Doubled {
        bottle: bottle.name.clone(),
        times,
        rises,
        copper_mg_per_l,
        changes,
        says: String::new(),
        why: why_changes(&pen, far, share, &back),
    };
    doubled.says = doubled_says(&pen, &doubled, &back, stopped);
    doubled
}

fn why_changes(pen: &Pen, far: f64, share: f64, back: &WayBack) -> Why {
    let limit = &book().harm.limit.nitrate_step_mg_per_l;
    let needed = if back.needed.is_finite() { pen.n(back.needed, 3) } else { "none is planned".to_owned() };
    why(
        "doubled",
        format!("why {}?", counted(f64::from(back.changes), "change", "changes")),
        format!(
            "{} of the most in a day; ln({}) ÷ −ln(1 − {}) → {needed}",
            pen.n(far, 2),
            pen.n(far.max(1.0), 2),
            pen.n(share, 2)
        ),
        "Each change takes its share of what is too much; more than a few are no quick way.".to_owned(),
        &[source(limit)],
        Kind::CommonPractice,
    )
}

fn doubled_says(pen: &Pen, d: &Doubled, back: &WayBack, stopped: Option<String>) -> String {
    let limit = &book().harm.limit;
    let lifted = |r: &Rise| {
        format!(
            "{} by {} {} (no harm known to me below {} {} in a day)",
            r.what,
            pen.n(r.rise, 2),
            r.unit,
            pen.n(r.most, 2),
            r.unit
        )
    };
    let over: Vec<String> = d.rises.iter().filter(|r| r.over()).map(lifted).collect();
    let nearest = d.rises.iter().max_by(|a, b| (a.rise / a.most).total_cmp(&(b.rise / b.most)));
    let mut says = match (over.is_empty(), nearest) {
        (true, None) => "It lifts nothing that has a limit.".to_owned(),
        (true, Some(nearest)) => format!("It lifts {}; nothing else comes as near to its limit.", lifted(nearest)),
        (false, _) => format!("It lifts {}.", recipe::say::list(&over)),
    };
    if let Some(mg) = d.copper_mg_per_l {
        says += &format!(
            " Copper comes to {} mg/L: shrimps and snails are harmed from {} mg/L on, and above {} I change water at once.",
            pen.n(mg, 2),
            pen.n(limit.copper_ask_mg_per_l.value(), 1),
            pen.n(limit.copper_refuse_mg_per_l.value(), 1)
        );
    }
    says += &match stopped {
        _ if back.needed <= 0.0 => " Nothing needs to be done.".to_owned(),
        Some(stops) => format!(
            " That is too much at once. No change with your tap: {stops} More air, and watch how the animals breathe."
        ),
        None if d.changes > 0 => {
            format!(" {} Plugs out first, conditioner in the new water, and as warm as the tank.", back.says)
        }
        None => format!(" {}", back.says),
    };
    if back.needed > book().recipe.slip.changes_most.value {
        says += " That is far more than a slip: read Help now, “I gave far too much from a bottle”, first.";
    }
    if d.times <= 1.0 {
        return "That is a day’s dose: nothing needs to be done.".to_owned();
    }
    // What changes take out is not counted, which errs to the longer rest.
    format!("{says} Leave this bottle out for {}, then carry on.", days(up(d.times - 1.0).max(1.0)))
}
