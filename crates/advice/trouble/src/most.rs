//! The keeper's own number for "change water": how much at once here, and when again.
//!
//! What: the smallest of what is ever changed at once, the tenth of a tank long unchanged (harm rule 8), the share of a plan that
//! a rule of harm limits (ammonia from chloramine, chlorine, copper: harm rules 1, 3, 4) and what salts and pH bear in a day
//! (harm rule 6). None at all where this water makes the ammonia that was read worse.
//! Source: the plan (crate `recipe`); `harm.toml`, `troubles.toml`, common practice.
//! Checked by: `tests/harm_most.rs`.

use recipe::Conditioner;
use recipe::say::several;

use crate::case::Case;
use crate::half_change::salts_most;
use crate::sum::{Sum, Urgency};
use crate::toxic::{Halving, halving, toxic};

/// Key of the sum that says how much may be changed at once: it stands before all others, in place of the notice's share.
pub const CHANGE_MOST: &str = "change-most";

const HOURS_A_DAY: f64 = 24.0;

/// What limits a change.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Limit {
    /// Nothing of this tank.
    Nothing,
    /// It was not changed for months.
    Old,
    /// Its alkalinity is gone and ammonia shows, or it may be gone on this tap: a change raises pH.
    Acid,
    /// The plan's own limit.
    Plan,
    /// What this water brings, though the usual change stays below it.
    Water,
    /// A figure that would jump.
    Salts(&'static str),
}

/// The largest share at once, 0 to 1; hours until the next, where they are known; what limits it.
fn most(case: &Case) -> (f64, Option<f64>, Limit) {
    let mut out = (case.numbers().most_at_once_percent.value / 100.0, None, Limit::Nothing);
    if let Some(limit) = acid(case) {
        out = (case.book().harm.limit.old_tank_change_percent.value() / 100.0, Some(1.0), limit);
    }
    let change = &case.plan.change;
    // A plan limited by the months alone spreads the usual change over days; in need its tenth comes each hour (harm rule 8).
    let by_months_alone = case.old() && change.share > 0.0 && case.plan.why("change-ammonia").is_none();
    if change.limited.is_some() && change.share < out.0 && !by_months_alone {
        out = (change.share, Some(HOURS_A_DAY * f64::from(change.every_days.max(1))), Limit::Plan);
    }
    if change.share_most < out.0 {
        out = (change.share_most, Some(HOURS_A_DAY), Limit::Water);
    }
    match salts_most(case) {
        Some((share, name)) if share < out.0 => (share, Some(HOURS_A_DAY), Limit::Salts(name)),
        _ => out,
    }
}

/// Whether pH is low and may jump: not changed for months, or by the readings.
fn acid(case: &Case) -> Option<Limit> {
    let floor = case.book().harm.limit.alkalinity_floor_meq_per_l.value();
    let gone = case.told.get("alkalinity").is_some_and(|meq| meq <= floor);
    let shows = case.told.get("ammonia").is_some_and(|total| total > 0.0);
    // A tap that brings hardly any leaves none in a tank that nobody tested, whatever the plan leads to.
    let may_be_gone = case.told.get("alkalinity").is_none() && case.tank.tap.alkalinity_meq_per_l.low < floor;
    case.old().then_some(Limit::Old).or((gone && shows || may_be_gone).then_some(Limit::Acid))
}

/// The largest share that is changed at once.
pub(crate) fn most_at_once(case: &Case) -> f64 {
    most(case).0
}

/// This water makes the ammonia that was read worse, or the tap may not be used at all: no line may offer a change.
pub(crate) fn no_change(case: &Case) -> bool {
    let harms = |total: f64| toxic(case, total).is_some_and(|toxic| toxic.harms());
    let total = case.told.get("ammonia").filter(|total| *total > 0.0 && harms(*total));
    let worse = total.is_some_and(|total| matches!(halving(case, total), Some(Halving::Worse(..))));
    worse || most_at_once(case) <= 0.0
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let (pen, (share, hours, limit)) = (case.pen(), most(case));
    let words = "The smallest of all that limits a change here. It stands in place of the share that the notice names.";
    let sum = |urgency, head: String| {
        let arithmetic = format!("at most {} of the water, because of {}", pen.share(share), because(limit));
        Sum::new(CHANGE_MOST, urgency, head, arithmetic, words, &[]).figure("share_most", share)
    };
    if no_change(case) {
        let sum = sum(Urgency::AtOnce, "In this tank: no change with this water, whatever the notice says".to_owned());
        let change = &case.plan.change;
        let limited = change.limited.clone().or_else(|| change.most_because.clone()).filter(|_| share <= 0.0);
        return vec![sum.figure("no_change", 1.0).say(limited.unwrap_or_else(|| {
            "It would leave more toxic ammonia than there is now; the sum below says what helps.".to_owned()
        }))];
    }
    let much = case.litres().map_or_else(|| pen.share(share), |all| pen.litres(share * all));
    let again = match (limit, hours) {
        (Limit::Old | Limit::Acid, _) => "again each hour, with an ammonia test each time".to_owned(),
        (_, Some(hours)) if hours > 2.0 * HOURS_A_DAY => {
            let days = several(&pen.n(hours / HOURS_A_DAY, 3), "day", "days");
            format!("again after {days} at the earliest")
        }
        (_, Some(hours)) => format!("again after {} at the earliest", several(&pen.n(hours, 3), "hour", "hours")),
        (_, None) => "again some hours later, with a test before".to_owned(),
    };
    let mut sum = sum(Urgency::AtOnce, format!("In this tank: at most {much} at a time with this tap, {again}"));
    for (name, value) in [("litres_most", case.litres().map(|all| share * all)), ("again_after_hours", hours)] {
        if let Some(value) = value {
            sum = sum.figure(name, value);
        }
    }
    let sum = match (limit, &case.plan.change.limited) {
        (Limit::Plan, Some(says)) => sum.say(format!("This holds in place of the notice’s share: {says}")),
        (Limit::Water, _) => {
            let says = case.plan.change.most_because.clone().unwrap_or_default();
            sum.say(format!("This holds in place of the notice’s share: {says}"))
        }
        (Limit::Acid, _) => sum.say(
            "Alkalinity is gone, or may be: this tap brings hardly any and nobody read it. A larger change may raise pH and turn ammonium toxic, so an \
             ammonia test before each.",
        ),
        (Limit::Salts(name), _) => {
            sum.say(format!("This holds in place of the notice’s share: more would move {name} too far for a day."))
        }
        (Limit::Old, _) => {
            sum.say("It was not changed for months: a larger change may raise pH and turn its ammonium toxic.")
        }
        _ => {
            let third = case
                .litres()
                .map_or_else(String::new, |all| format!("The notice’s third is {} here. ", pen.litres(all / 3.0)));
            sum.say(format!("{third}No more at once than the first line says, as warm as the tank."))
        }
    };
    vec![match &case.plan.new_water.conditioner {
        Some(c) => sum.say(conditioner(case, c)),
        None => sum.say("No conditioner is needed: you told that there is no disinfectant in this water."),
    }]
}

fn because(limit: Limit) -> String {
    match limit {
        Limit::Nothing => "common practice: more is never changed at once".to_owned(),
        Limit::Old => "months without a change".to_owned(),
        Limit::Acid => "pH, which may jump".to_owned(),
        Limit::Plan | Limit::Water => "what the new water brings".to_owned(),
        Limit::Salts(name) => format!("{name}, by its limit for a day"),
    }
}

/// The keeper's own millilitres.
fn conditioner(case: &Case, c: &Conditioner) -> String {
    let (pen, limit, (count, each)) = (case.pen(), &case.book().harm.limit, case.plan.change.buckets);
    let bucket = if count > 0 {
        format!("{} for each bucket of {}, or ", pen.ml(c.ml_a_bucket), pen.litres(each))
    } else {
        String::new()
    };
    if c.ml_whole_tank <= 0.0 {
        return "Conditioner as its label says, before the water meets the fish.".to_owned();
    }
    format!(
        "Conditioner, the stock that Salts gives: {bucket}{} for the whole tank (by hose, or when new water is in already); stirred, {} minutes \
         before it is poured, since chlorine hurts gills from about {} mg/L on. One that you bought: as its label says.",
        pen.ml(c.ml_whole_tank),
        pen.n(limit.conditioner_wait_min.value(), 2),
        pen.n(limit.chlorine_acute_mg_per_l.value(), 1)
    )
}
