//! What runs out when: bottles by the doses in the log, the conditioner by the changes, carbon dioxide by weight.
//!
//! **What.** A bottle holds what was mixed less what was given; it is poured out after its days, whichever is sooner.
//! Carbon dioxide goes by the first and the last weight since the cylinder was filled.
//!
//! **Equation.** left = V - Σ doses, days = left/daily; rate = (w_1 - w_n)/t, days = left/rate, with both weights moved
//! by their error against each other for the range.
//!
//! **Symbols.** V mL mixed; w g on the scale, t days between the first and the last weighing.
//!
//! **Range.** A weight that rises by more than the error is a new filling.
//!
//! **Source.** Balance; days that a bottle keeps in `data/defaults.toml`.
//!
//! **Checked by** `tests/by_hand_supplies.rs`.

use jiff::civil::Date;
use logbook::{Entry, What, same_name};
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;

use crate::day::Act;
use crate::due::{days_between, later};
use crate::log::{Past, is_act};

/// Something that runs out.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Supply {
    /// `bottle`, `conditioner` or `carbon_dioxide`.
    pub kind: String,
    /// Its name.
    pub name: String,
    /// What is left, mL or g; `None`: I can't tell.
    pub left: Option<f64>,
    /// The day on which it runs out or is poured out; `None`: I can't tell.
    pub until: Option<Date>,
    /// The earliest and the latest day that are likely, where they differ.
    pub likely: Option<(Date, Date)>,
    /// It ends within the days in which that is said.
    pub soon: bool,
    /// The sentence.
    pub says: String,
    /// The button that says that it was mixed anew.
    pub renew: Option<Act>,
}

/// Key of the act in the log: a bottle was mixed; the note is its name.
pub const BOTTLE_MIXED: &str = "bottle_mixed";
/// Key of the act in the log: the conditioner was mixed.
pub const CONDITIONER_MIXED: &str = "conditioner_mixed";
/// Key of the reading in the log: what the cylinder weighs, g.
pub const CYLINDER: &str = "cylinder";

/// All of it.
pub(crate) fn supplies(tank: &Tank, plan: &Plan, past: &Past, pen: &Pen) -> Vec<Supply> {
    let mut all: Vec<Supply> = plan.bottles.iter().map(|bottle| one_bottle(bottle, past, pen)).collect();
    all.extend(conditioner(tank, plan, past, pen));
    all.extend(carbon_dioxide(tank, past, pen));
    all
}

/// Whether an entry says that something was mixed: where it has a name, that or none stands in the note.
fn is_mixed(entry: &Entry, act: &str, name: &str) -> bool {
    let of = |note: &str| name.is_empty() || note.trim().is_empty() || same_name(note, name);
    is_act(&entry.what, act) && of(&entry.note)
}

/// The day on which something was mixed last.
fn mixed(past: &Past, act: &str, name: &str) -> Option<Date> {
    past.entries().rev().find(|(_, kept)| is_mixed(&kept.entry, act, name)).map(|(date, _)| date)
}

fn renew(key: String, name: String, act: &str, note: &str, past: &Past) -> Act {
    let mut renew = Act::new(&key, &name);
    renew.writes = vec![What::Done { act: act.to_owned() }];
    renew.note = note.to_owned();
    renew.done = past.today_written(|entry| is_mixed(entry, act, note));
    renew
}

fn soon(until: Date, today: Date) -> bool {
    days_between(today, until) as f64 <= knowledge::book().routine.number.warn_days.value
}

fn one_bottle(bottle: &recipe::Bottle, past: &Past, pen: &Pen) -> Supply {
    let key = format!("mixed_{}", bottle.name.to_lowercase().replace(' ', "_"));
    let renew = renew(key, format!("I mixed {} today", bottle.name.to_lowercase()), BOTTLE_MIXED, &bottle.name, past);
    let mut supply = Supply {
        kind: "bottle".to_owned(),
        name: bottle.name.clone(),
        left: None,
        until: None,
        likely: None,
        soon: false,
        says: format!("{}: tell me when you mix it, and I say when it ends.", bottle.name),
        renew: Some(renew),
    };
    let Some(since) = mixed(past, BOTTLE_MIXED, &bottle.name) else { return supply };
    let since_then = past.entries().filter(|(date, _)| *date >= since);
    let given = since_then.filter_map(|(_, kept)| kept.entry.what.dose_of(&bottle.name));
    let left = (bottle.volume_ml - given.sum::<f64>()).max(0.0);
    let lasts = if bottle.daily_ml > 0.0 { (left / bottle.daily_ml).floor() } else { 0.0 };
    let keeps = knowledge::book().defaults.bottle_keeps_days.value;
    let (empty, poured) = (later(past.today(), lasts as i64), later(since, keeps as i64));
    let until = empty.min(poured);
    supply.left = Some(left);
    supply.until = Some(until);
    supply.soon = soon(until, past.today());
    supply.says = if poured < empty {
        format!("{}: {} left, poured out on {} for its age.", bottle.name, pen.ml(left), short(poured))
    } else {
        format!("{}: {} left, until {}.", bottle.name, pen.ml(left), short(empty))
    };
    supply
}

fn conditioner(tank: &Tank, plan: &Plan, past: &Past, pen: &Pen) -> Option<Supply> {
    let c = plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none() && c.stock_ml > 0.0)?;
    let renew =
        renew(CONDITIONER_MIXED.to_owned(), "I mixed the conditioner today".to_owned(), CONDITIONER_MIXED, "", past);
    let mut supply = Supply {
        kind: "conditioner".to_owned(),
        name: "Conditioner".to_owned(),
        left: None,
        until: None,
        likely: None,
        soon: false,
        says: "Conditioner: tell me when you mix it, and I say when it ends.".to_owned(),
        renew: Some(renew),
    };
    let Some(since) = mixed(past, CONDITIONER_MIXED, "") else { return Some(supply) };
    let per_litre = crate::top_up::per_litre_ml(tank, plan);
    let used = past.entries().filter(|(date, _)| *date >= since).map(|(_, kept)| match kept.entry.what {
        What::Change { .. } if tank.at_hand.by_hose => c.ml_whole_tank,
        What::Change { litres } => litres * per_litre,
        What::TopUp { litres } if crate::top_up::from_tap(tank) => litres * per_litre,
        _ => 0.0,
    });
    let left = (c.stock_ml - used.sum::<f64>()).max(0.0);
    let until = later(since, c.keeps_days as i64);
    let a_change = if tank.at_hand.by_hose { c.ml_whole_tank } else { plan.change.litres * per_litre };
    let short_of = a_change > 0.0 && left < a_change;
    supply.left = Some(left);
    supply.until = Some(if short_of { past.today() } else { until });
    supply.soon = short_of || soon(until, past.today());
    supply.says = if short_of {
        format!("Conditioner: {} left, less than a change needs. Mix a new one before the next change.", pen.ml(left))
    } else {
        format!("Conditioner: {} left, poured out on {} for its age.", pen.ml(left), short(until))
    };
    Some(supply)
}

/// Weighings since the last filling: day, g, error.
fn weighings(past: &Past) -> Vec<(Date, f64, f64)> {
    let mut since: Vec<(Date, f64, f64)> = Vec::new();
    for (date, kept) in past.entries() {
        if let What::Test(reading) = &kept.entry.what
            && reading.of == CYLINDER
        {
            let error = reading.error.unwrap_or(0.0).max(0.0);
            if since.last().is_some_and(|(_, last, e)| reading.value > last + e.max(error)) {
                since.clear();
            }
            since.push((date, reading.value, error));
        }
    }
    since
}

/// A cylinder that lost more than a tank takes, or weighs less than an empty one.
pub(crate) struct Leak {
    /// The day of the weighing.
    pub date: Date,
    /// Hours since it.
    pub ago_h: f64,
    /// What the weights say.
    pub says: String,
}

/// What the last two weighings say of a leak; `None`: nothing. The scale's errors count for the cylinder.
pub(crate) fn leaks(tank: &Tank, past: &Past, pen: &Pen) -> Option<Leak> {
    let cylinder = tank.keeping.cylinder?;
    let mut weighed = past.entries().rev().filter_map(|(date, kept)| match &kept.entry.what {
        What::Test(read) if read.of == CYLINDER => Some((date, trouble::hours_ago(kept, past.now()), read.clone())),
        _ => None,
    });
    let (date, ago, last) = weighed.next()?;
    let error = last.error.unwrap_or(0.0).max(0.0);
    let empty = cylinder.full_g - cylinder.holds_g;
    let under = (last.value < empty - error).then(|| {
        format!("it weighs {} g, {} g less than an empty one", pen.n(last.value, 4), pen.n(empty - last.value, 3))
    });
    let fell = weighed.next().and_then(|(_, before_ago, before)| {
        let (hours, lost) = (before_ago - ago, before.value - last.value);
        let errors = error + before.error.unwrap_or(0.0).max(0.0);
        let share = knowledge::book().routine.number.cylinder_lost_share.value;
        let most = share * cylinder.holds_g * (hours / 24.0).max(1.0) + errors;
        let within = recipe::say::several(&pen.n(hours.max(1.0), 2), "hour", "hours");
        (lost > most).then(|| format!("it lost {} g within {within}, more than any tank takes", pen.n(lost, 3)))
    });
    let said: Vec<String> = fell.into_iter().chain(under).collect();
    (!said.is_empty()).then(|| Leak {
        date,
        ago_h: ago,
        says: format!(
            "By its weight the cylinder is no longer as told: {}. A leak, a wrong scale or another cylinder: weigh it again.",
            recipe::say::list(&said)
        ),
    })
}

fn carbon_dioxide(tank: &Tank, past: &Past, pen: &Pen) -> Option<Supply> {
    let cylinder = tank.keeping.cylinder?;
    let mut supply = Supply {
        kind: "carbon_dioxide".to_owned(),
        name: "Carbon dioxide".to_owned(),
        left: None,
        until: None,
        likely: None,
        soon: false,
        says: "Carbon dioxide: weigh the cylinder twice, two weeks apart, and I say when it ends.".to_owned(),
        renew: None,
    };
    let weighed = weighings(past);
    let Some((last, weight, error)) = weighed.last().copied() else { return Some(supply) };
    if let Some(leak) = leaks(tank, past, pen) {
        supply.soon = true;
        supply.says = format!(
            "Carbon dioxide: {} Until then I can’t say when it ends.",
            leak.says.replacen("By its weight the", "by its weight the", 1)
        );
        return Some(supply);
    }
    let left = cylinder.left_g(weight);
    supply.left = Some(left);
    supply.says = format!("Carbon dioxide: about {} g left. Weigh again, and I say when it ends.", pen.n(left, 2));
    let Some((first, began, error_first)) = weighed.first().copied() else { return Some(supply) };
    let (days, gone) = (days_between(first, last) as f64, began - weight);
    if days <= 0.0 || gone <= 0.0 {
        return Some(supply);
    }
    let spread = error + error_first;
    let ends = |gone: f64, left: f64| {
        (gone > 0.0).then(|| later(last, (left.max(0.0) * days / gone).floor().min(36_500.0) as i64))
    };
    let until = ends(gone, left);
    supply.until = until;
    supply.soon = until.is_some_and(|until| soon(until, past.today()));
    let range = ends(gone + spread, left - error).zip(ends(gone - spread, left + error));
    supply.likely = range.filter(|(a, b)| a != b);
    if let Some(until) = until {
        supply.says = format!(
            "Carbon dioxide: about {} g left, {} g a day, until about {}.",
            pen.n(left, 2),
            pen.n(gone / days, 2),
            short(until)
        );
    }
    Some(supply)
}

/// "11 June".
pub(crate) fn short(date: Date) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let month = MONTHS.get(usize::from(date.month().unsigned_abs()).wrapping_sub(1)).copied().unwrap_or("");
    format!("{} {month}", date.day())
}
