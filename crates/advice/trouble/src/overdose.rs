//! How many changes bring an overdose below harm.
//!
//! What: each ion of the bottle, over what stands in the tank, against its limit for a day (harm rule 6; copper by rule 4). Equation
//! and source: `dilution`. Range: nothing taken up meanwhile, which errs to the side of too many changes.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use knowledge::Limits;
use quantity::{Digits, Ion, format_number};
use recipe::{Bottle, Into};

use crate::case::Case;
use crate::dilution::changes_needed;
use crate::sum::{Sum, Urgency};
use crate::toxic::most_at_once;

/// Shares of a change for which the number is said.
const SHARES: [f64; 3] = [0.5, 0.3, 0.1];

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

/// mg/L of each ion that a day's dose of a bottle brings.
fn brings(case: &Case, bottle: &Bottle) -> Vec<(Ion, f64)> {
    let mut sum: Vec<(Ion, f64)> = Vec::new();
    let holds = |product: &str| {
        bottle.weighed.iter().any(|w| w.product == product) || bottle.from_stock.iter().any(|s| s.product == product)
    };
    for dose in case.plan.doses.iter().filter(|dose| dose.into == Into::Bottle && holds(&dose.product)) {
        for (ion, mg) in &dose.brings {
            match sum.iter_mut().find(|(known, _)| known == ion) {
                Some((_, all)) => *all += mg,
                None => sum.push((*ion, *mg)),
            }
        }
    }
    sum
}

/// One answer for each bottle, or for the one that was named.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    if case.litres().is_none() {
        return Vec::new();
    }
    let times = case.told.get("times").unwrap_or(case.book().harm.limit.dose_times_usual.value()).max(1.0);
    let named = |bottle: &&Bottle| {
        case.told.bottle.as_ref().is_none_or(|name| bottle.name.to_lowercase().contains(&name.to_lowercase()))
    };
    case.plan.bottles.iter().filter(named).map(|bottle| one(case, bottle, times)).collect()
}

/// The ion that is furthest over what a day allows: it, its excess and what is allowed, mg/L.
fn worst(case: &Case, bottle: &Bottle, times: f64) -> Option<(Ion, f64, f64)> {
    let limit = &case.book().harm.limit;
    // A usual dose was due today: the rest is the excess.
    let excess = brings(case, bottle)
        .into_iter()
        .filter_map(|(ion, mg)| Some((ion, (times - 1.0) * mg, allowed(case, limit, ion)?)))
        .filter(|(_, excess, _)| *excess > 0.0);
    let ratio = |(_, excess, allowed): &(Ion, f64, f64)| excess / allowed.max(1e-12);
    excess.max_by(|a, b| ratio(a).total_cmp(&ratio(b)))
}

fn one(case: &Case, bottle: &Bottle, times: f64) -> Sum {
    let pen = case.pen();
    let Some((ion, over, may)) = worst(case, bottle, times) else {
        let head = format!("{}: nothing in it has a limit for a day", bottle.name);
        let words = "No harm is known; leave the next doses out.";
        return Sum::new("overdose", Urgency::LeaveItBe, head, String::new(), words, &[]);
    };
    let most = most_at_once(case);
    let changes: Vec<(f64, Option<u32>)> =
        SHARES.iter().map(|share| (*share, changes_needed(over, may, *share))).collect();
    let may_be = changes.iter().filter(|(share, _)| *share <= most + 1e-9);
    let list: Vec<String> =
        may_be.map(|(share, count)| format!("{} of {}", count_words(*count), pen.percent(*share))).collect();
    let needed = over > may;
    let head = match needed {
        true => format!("{}, {} times the dose: {}", bottle.name, n(times), list.join(", or ")),
        false => format!("{}, {} times the dose: below harm without a change", bottle.name, n(times)),
    };
    let arithmetic = format!(
        "{} rises by ({} − 1) × {} = {}; {} is the most for a day; changes = ln({} ÷ {}) ÷ ln(1 − share)",
        ion.name(),
        n(times),
        pen.mg(over / (times - 1.0).max(1e-9)),
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
    said(case, sum, (ion, over, may), (times - 1.0).ceil())
}

/// What to do about it.
fn said(case: &Case, sum: Sum, (ion, over, may): (Ion, f64, f64), doses_left_out: f64) -> Sum {
    let pen = case.pen();
    let rises = format!(
        "{} rises by {}; more than {} in a day is too much.",
        recipe::say::capital(ion.name()),
        pen.ion(ion, over),
        pen.ion(ion, may)
    );
    if over <= may {
        return sum.say(format!("Leave the next {} doses out. {rises}", n(doses_left_out)));
    }
    let old = if case.old() { " (it was not changed for months), each hour, with an ammonia test" } else { "" };
    sum.say(format!(
        "{rises} At most {} at once{old}, hours apart, conditioner in it and as warm as the tank; the tap smells, is brown, or there is a notice: \
         air only.",
        pen.percent(most_at_once(case))
    ))
    .say("Look at what the new water itself does, below, before the second change: smaller ones more often jump less.")
}

fn count_words(count: Option<u32>) -> String {
    match count {
        None => "no number of changes".to_owned(),
        Some(0) => "no change".to_owned(),
        Some(1) => "one change".to_owned(),
        Some(count) => format!("{} changes", recipe::say::count(count)),
    }
}
