//! How many changes bring an overdose below harm.
//!
//! What: each ion of the bottle, over what stands in the tank, against its limit for a day (harm rule 6; copper by rule 4). Equation
//! and source: `dilution`; what the log has changed since the dose is taken out first, a change of l litres leaves 1 − l ÷ V of it, V the most
//! litres that the tank may hold. Range: nothing taken up meanwhile, which errs to the side of too many changes.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use knowledge::Limits;
use quantity::{Digits, Ion, format_number};
use recipe::{Bottle, WayBack};

use crate::case::Case;
use crate::dilution::changes_needed;
use crate::most::{CHANGE_MOST, most_at_once, stops_because};
use crate::rain::low_minerals;
use crate::sum::{Sum, Urgency};

/// Shares of a change for which the number is said.
const SHARES: [f64; 3] = [0.5, 0.3, 0.1];

/// So many times the day's dose is no drop beside the spoon.
const MORE: f64 = 1.2;

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// What one ion may rise by, mg/L, and over what.
fn allowed(case: &Case, limit: &Limits, ion: Ion) -> Option<f64> {
    match ion {
        Ion::Nitrate => Some(limit.nitrate_step_mg_per_l.value()),
        Ion::Potassium => Some(limit.potassium_step_mg_per_l.value()),
        Ion::Phosphate => Some(limit.phosphate_step_mg_per_l.value()),
        Ion::Iron => Some(limit.iron_step_mg_per_l.value()),
        // With invertebrates the sum counts: what stands there already leaves less.
        Ion::Copper if case.tank.animals.invertebrates() => {
            let stands = case.tank_water().mg_per_l(Ion::Copper).high;
            Some((limit.copper_ask_mg_per_l.value() - stands).max(0.0))
        }
        _ => None,
    }
}

/// One answer for each bottle: for the one that was named, else for those of which the log has more than a day's dose, else for all.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    if case.litres().is_none() {
        return Vec::new();
    }
    let named = |bottle: &&Bottle| {
        case.told.bottle.as_ref().is_none_or(|name| bottle.name.to_lowercase().contains(&name.to_lowercase()))
    };
    let bottles: Vec<&Bottle> = case.plan.bottles.iter().filter(named).collect();
    if let Some(name) = case.told.bottle.as_ref().filter(|_| bottles.is_empty()) {
        return vec![unknown(case, name)];
    }
    let logged = |bottle: &&&Bottle| case.told.get("times").is_none() && in_the_log(case, bottle).is_some();
    let by_log: Vec<&Bottle> = bottles.iter().filter(logged).copied().collect();
    let asked = if by_log.is_empty() { bottles } else { by_log };
    asked.into_iter().map(|bottle| one(case, bottle, times_of(case, bottle))).collect()
}

/// A bottle that the plan does not have: nothing is worked out, and that is said.
fn unknown(case: &Case, name: &str) -> Sum {
    let names: Vec<String> = case.plan.bottles.iter().map(|bottle| bottle.name.clone()).collect();
    let yours = if names.is_empty() { "none".to_owned() } else { recipe::say::list(&names) };
    let head = format!("I know no bottle called “{name}”: nothing here is worked out");
    let words = "A bottle counts by its name on Salts.";
    Sum::new("overdose", Urgency::AtOnce, head, String::new(), words, &[]).say(format!(
        "Bottles of the plan: {yours}. Another one? Then the notice holds, and its label says what is in it."
    ))
}

/// mL of a bottle that the log has in the last day, where that is more than the day's dose and a hand's slip.
fn in_the_log(case: &Case, bottle: &Bottle) -> Option<f64> {
    let ml = case.told.dosed_ml(&bottle.name);
    (bottle.daily_ml > 0.0 && ml > MORE * bottle.daily_ml).then_some(ml)
}

/// How many times the day's dose of this bottle.
fn times_of(case: &Case, bottle: &Bottle) -> f64 {
    match (case.told.get("times"), in_the_log(case, bottle)) {
        (None, Some(ml)) => ml / bottle.daily_ml,
        _ => times(case),
    }
}

/// The share of it that the changes of the log since left, 0 to 1; 1 where the keeper tells how much it was, for then nobody knows when.
fn left(case: &Case, bottle: &Bottle) -> f64 {
    match (case.told.get("times"), in_the_log(case, bottle)) {
        (None, Some(_)) => case.told.left_of(&bottle.name, case.tank.geometry.true_l.high),
        _ => 1.0,
    }
}

/// How many times the day's dose: as told, else what a misread decimal point gives.
pub(crate) fn times(case: &Case) -> f64 {
    case.told.get("times").unwrap_or(case.book().harm.limit.dose_times_usual.value()).max(1.0)
}

/// No bottle lifts anything by what is too much in a day: this stands in place of the notice's step.
pub(crate) fn nothing_to_change(case: &Case) -> Sum {
    let times = case.plan.bottles.iter().map(|bottle| times_of(case, bottle)).fold(1.0, f64::max);
    let head = format!("In this tank: no change of water is needed for {} times the day’s dose", n(times));
    let words =
        "Each bottle is counted below, in the fewest litres that the tank may hold, against the limit of a day.";
    Sum::new(CHANGE_MOST, Urgency::LeaveItBe, head, String::new(), words, &[]).say(format!(
        "This holds in place of the notice’s step that changes water, whose share is for a tank that nobody worked out. {} You gave \
         more, or from a bottle that I don’t know? Then the notice holds.",
        left_out((times - 1.0).ceil())
    ))
}

/// The ion that is furthest over what a day allows: it, its rise on that day and what is allowed, mg/L.
fn worst(case: &Case, bottle: &Bottle, times: f64) -> Option<(Ion, f64, f64)> {
    let limit = &case.book().harm.limit;
    // All that was given counts: the limit is on what rises in a day, the day's own dose with it.
    let excess = (case.plan.lifts_a_day(bottle).into_iter())
        .filter_map(|(ion, mg)| Some((ion, times * mg, allowed(case, limit, ion)?)))
        .filter(|(_, excess, _)| *excess > 0.0);
    let ratio = |(_, excess, allowed): &(Ion, f64, f64)| excess / allowed.max(1e-12);
    excess.max_by(|a, b| ratio(a).total_cmp(&ratio(b)))
}

fn one(case: &Case, bottle: &Bottle, times: f64) -> Sum {
    let (pen, left) = (case.pen(), left(case, bottle));
    let Some((ion, over, may)) = worst(case, bottle, left * times) else {
        let head = format!("{}: nothing in it has a limit for a day", bottle.name);
        let words = "No harm is known; leave the next doses out.";
        return Sum::new("overdose", Urgency::LeaveItBe, head, String::new(), words, &[]);
    };
    let most = most_at_once(case);
    let changes: Vec<(f64, Option<u32>)> =
        SHARES.iter().map(|share| (*share, changes_needed(over, may, *share))).collect();
    let needed = over > may;
    let given = match in_the_log(case, bottle).filter(|_| case.told.get("times").is_none()) {
        Some(ml) if left < 1.0 => format!(
            "{}, {} in a day by your log, {} times the dose, of which your changes since left {}",
            bottle.name,
            pen.ml(ml),
            n(times),
            pen.percent(left)
        ),
        Some(ml) => format!("{}, {} in a day by your log, {} times the dose", bottle.name, pen.ml(ml), n(times)),
        None => format!("{}, {} times the dose", bottle.name, n(times)),
    };
    let back = back(case, over / may);
    let list = counted(case, (over, may), most);
    let head = match needed {
        true if back.changes == 1 && most > 0.0 => {
            format!("{given}: one change of {}", pen.litres(usual_share(case) * case.litres().unwrap_or_default()))
        }
        true if list.is_empty() => format!("{given}: too much for a day"),
        true => format!("{given}: {}", list.join(", or ")),
        false => format!("{given}: below harm without a change"),
    };
    let arithmetic = format!(
        "{} rises by {}{} × {} = {} in the fewest litres; {} is the most for a day; changes = ln({} ÷ {}) ÷ ln(1 − share)",
        ion.name(),
        n(times),
        if left < 1.0 { format!(" × {} left by the changes since", pen.percent(left)) } else { String::new() },
        pen.mg(over / (left * times).max(f64::MIN_POSITIVE)),
        pen.ion(ion, over),
        pen.ion(ion, may),
        n(may),
        n(over)
    );
    let words = "Each change takes out its share of what is left. Plants take some too; that is not counted.";
    let urgency = if needed { Urgency::AtOnce } else { Urgency::LeaveItBe };
    let mut sum = Sum::new("overdose", urgency, head, arithmetic, words, &[])
        .figure("excess_mg_per_l", over)
        .figure("allowed_mg_per_l", may);
    for (share, count) in &changes {
        sum = sum.figure(&format!("changes_of_{:.0}_percent", 100.0 * share), count.map_or(f64::INFINITY, f64::from));
    }
    said(case, sum, (ion, over, may), ((times - 1.0).ceil(), &back))
}

/// The share of a usual change, and never more than may be changed at once now.
fn usual_share(case: &Case) -> f64 {
    let planned = if case.plan.change.every_days > 0 { case.plan.change.share } else { 0.0 };
    planned.min(most_at_once(case))
}

/// The way back from so many times a day's limit: the same that Care and Salts say of a slip.
fn back(case: &Case, far: f64) -> WayBack {
    recipe::way_back(case.tank, usual_share(case), far)
}

/// How many changes of which size: only of sizes that may be changed at once.
fn counted(case: &Case, (over, may): (f64, f64), most: f64) -> Vec<String> {
    let mut may_be: Vec<f64> = SHARES.into_iter().filter(|share| *share <= most + 1e-9).collect();
    // Less than the smallest of them is changed at once: then the number is said for that alone.
    if may_be.is_empty() && most > 0.0 {
        may_be.push(most);
    }
    let of =
        |share: &f64| format!("{} of {}", count_words(changes_needed(over, may, *share)), case.pen().percent(*share));
    may_be.iter().map(of).collect()
}

/// What to do about it.
fn said(case: &Case, sum: Sum, (ion, over, may): (Ion, f64, f64), (doses_left_out, back): (f64, &WayBack)) -> Sum {
    let pen = case.pen();
    let rises = format!(
        "{} rises by {}; more than {} in a day is too much.",
        recipe::say::capital(ion.name()),
        pen.ion(ion, over),
        pen.ion(ion, may)
    );
    if over <= may {
        return sum.say(format!("{} {rises}", left_out(doses_left_out)));
    }
    if most_at_once(case) <= 0.0 {
        return sum.say(format!(
            "{rises} No change with this tap, because of {}. {} Air on. Instead: {}",
            stops_because(case),
            left_out(doses_left_out),
            low_minerals(case)
        ));
    }
    if back.changes == 1 {
        return sum.say(format!(
            "{rises} {} {} Conditioner in the new water, as warm as the tank; the tap smells, is brown, or there is a notice: air only.",
            back.says,
            left_out(doses_left_out)
        ));
    }
    let old = if case.old() { " (it was not changed for months), with an ammonia test before each" } else { "" };
    sum.say(format!(
        "{rises} {} At most {} at once{old}, as far apart as the first line says, conditioner in it and as warm as the tank; the tap smells, is brown, or there is a notice: \
         air only.",
        left_out(doses_left_out),
        pen.percent(most_at_once(case))
    ))
}

/// What was given too much is not given again.
fn left_out(doses: f64) -> String {
    match n(doses).as_str() {
        "0" => "Go on with the usual dose tomorrow.".to_owned(),
        "1" => "Leave the next dose out.".to_owned(),
        many => format!("Leave the next {many} doses out."),
    }
}

fn count_words(count: Option<u32>) -> String {
    match count {
        None => "no number of changes".to_owned(),
        Some(0) => "no change".to_owned(),
        Some(1) => "one change".to_owned(),
        Some(count) => format!("{} changes", recipe::say::count(count)),
    }
}
