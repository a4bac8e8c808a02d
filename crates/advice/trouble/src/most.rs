//! The keeper's own number for "change water": how much at once here, and when again.
//!
//! What: the smallest of what is ever changed at once, the tenth of a tank long unchanged (harm rule 8), the share of a plan that
//! a rule of harm limits (ammonia from chloramine, chlorine, copper: harm rules 1, 3, 4) and what salts and pH bear in a day
//! (harm rule 6). Where ammonia was read and harms, the comparison of `remedy` stands in place of what the tap's ammonia alone would limit.
//! None at all where this water makes it worse, may not be used, or more than a day's share went in since the last test.
//! Source: the plan (crate `recipe`); `harm.toml`, `troubles.toml`, common practice.
//! Checked by: `tests/harm_most.rs`, `tests/by_hand_remedy.rs`.

use recipe::Conditioner;
use recipe::say::{several, two_figures_down};

use crate::case::Case;
use crate::half_change::salts_most;
use crate::remedy::{effect, tap_test};
use crate::sum::{Sum, Urgency};
use crate::toxic::{bears_aired, harming};

/// Key of the sum that says how much may be changed at once: it stands before all others, in place of the notice's share.
pub const CHANGE_MOST: &str = "change-most";

const HOURS_A_DAY: f64 = 24.0;

/// What limits a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Why {
    /// Nothing of this tank.
    Nothing,
    /// It was not changed for months.
    Old,
    /// Its alkalinity was read, is gone, and ammonia shows: a change raises pH.
    Gone,
    /// Nobody read its alkalinity, and this tap brings hardly any.
    MayBeGone,
    /// The plan's own limit.
    Plan,
    /// What this water brings, though the usual change stays below it.
    Water,
    /// A figure that would jump.
    Salts(&'static str),
    /// More of it would leave more toxic ammonia.
    Toxic,
    /// Any of it would, or as good as.
    Worse,
    /// This water may not be used at all.
    Refused,
    /// More than a day's share went in since the last test.
    ChangedToday,
    /// The ammonia that harms was not read today.
    OldReading,
}

/// The largest share at once, 0 to 1; hours until the next, where they are known; what limits it.
pub(crate) fn most(case: &Case) -> (f64, Option<f64>, Why) {
    if changed_too_much(case).is_some() && (case.told.get("ammonia").is_none() || case.told.before_a_change("ammonia"))
    {
        return (0.0, None, Why::ChangedToday);
    }
    let bears = bears(case);
    if bears.0 <= 0.0 {
        return (0.0, None, Why::Refused);
    }
    if case.told.is_old("ammonia") && harming(case).is_some() {
        return (0.0, None, Why::OldReading);
    }
    let Some(effect) = harming(case).and_then(|total| effect(case, total, bears.0)) else { return bears };
    match effect.best {
        Some(best) if best.share < bears.0 - 1e-9 => (best.share, None, Why::Toxic),
        Some(_) => bears,
        None => (0.0, None, Why::Worse),
    }
}

/// The same before the ammonia in the tank is looked at.
fn bears(case: &Case) -> (f64, Option<f64>, Why) {
    let mut out = (case.numbers().most_at_once_percent.value / 100.0, None, Why::Nothing);
    if let Some(why) = acid(case) {
        out = (case.book().harm.limit.old_tank_change_percent.value() / 100.0, Some(1.0), why);
    }
    let change = &case.plan.change;
    let stops = change.share_most <= 0.0;
    // What the tap's ammonia limits gives way to a reading: of the tank where it harms, or of the new water.
    let read = case.told.get("tap_ammonia");
    let today = harming(case).filter(|_| !case.told.before_a_change("ammonia"));
    let weighed = !stops && (read.is_some() || today.is_some());
    // A plan limited by the months alone spreads the usual change over days; in need its tenth comes each hour (harm rule 8).
    let by_months_alone = case.old() && change.share > 0.0 && case.plan.why("change-ammonia").is_none();
    if change.limited.is_some() && change.share < out.0 && !by_months_alone && !weighed {
        out = (change.share, Some(HOURS_A_DAY), Why::Plan);
    }
    if change.share_most < out.0 && !weighed {
        out = (change.share_most, Some(HOURS_A_DAY), Why::Water);
    }
    if let Some(share) = read.and_then(|read| brought_most(case, read))
        && share < out.0
        && harming(case).is_none()
    {
        out = (share, Some(HOURS_A_DAY), Why::Toxic);
    }
    match salts_most(case) {
        Some((share, name)) if share < out.0 => (share, Some(HOURS_A_DAY), Why::Salts(name)),
        _ => out,
    }
}

/// The largest share at once by all but ammonia: what is ever changed, the tenth, what salts and pH bear; 0 where this water may not be used.
pub(crate) fn all_else(case: &Case) -> f64 {
    if case.plan.change.share_most <= 0.0 {
        return 0.0;
    }
    let tenth = acid(case).map_or(1.0, |_| case.book().harm.limit.old_tank_change_percent.value() / 100.0);
    let salts = salts_most(case).map_or(1.0, |(share, _)| share);
    (case.numbers().most_at_once_percent.value / 100.0).min(tenth).min(salts)
}

/// The test of new water that lifts what its ammonia may bring, where nobody read it: the ammonia below which all else limits, mg/L N, and so
/// how much. It is the first act, for a minute's test is quicker than days of small changes.
fn bucket(case: &Case, (share, why): (f64, Why)) -> Option<(f64, f64)> {
    let by_ammonia = matches!(why, Why::Plan | Why::Water) && case.plan.why("change-ammonia").is_some();
    let full = all_else(case);
    if !by_ammonia || case.told.get("tap_ammonia").is_some() || full <= share + 1e-9 {
        return None;
    }
    let (bears, tank) = (bears_aired(case)?, case.told.get("ammonia").unwrap_or(0.0));
    // Mixed: tank + full (b - tank) = bears.
    (bears > tank).then(|| (tank + (bears - tank) / full, full))
}

/// The sentence of it.
fn bucket_says(case: &Case, (below, full): (f64, f64)) -> String {
    let pen = case.pen();
    let litres = case.litres().map_or_else(String::new, |all| format!(", {}", pen.litres(full * all)));
    format!(
        "Test a bucket of new water for ammonia now, conditioner in it, for nobody read what this tap brings: below {} mg/L (as N) change up to {}{litres} at \
         once, as warm as the tank; at that or more, or until you know, no more than the first line says.",
        pen.n(two_figures_down(below), 2),
        pen.percent(full)
    )
}

/// The largest share of new water in which so much ammonia was read (mg/L N) that keeps the tank under the amount where it harms once it is
/// aired: (bears - tank) ÷ (brought - tank); `None`: it limits nothing.
fn brought_most(case: &Case, brought: f64) -> Option<f64> {
    let (bears, tank) = (bears_aired(case)?, case.told.get("ammonia").unwrap_or(0.0));
    (brought > bears).then(|| ((bears - tank) / (brought - tank)).clamp(0.0, 1.0))
}

/// Litres that were changed in the last day, where that is more than this tap's ammonia allows in one; Care asks the same.
pub fn changed_too_much(case: &Case) -> Option<f64> {
    let change = &case.plan.change;
    change.limited.as_ref().filter(|_| change.litres > 0.0)?;
    // The change of yesterday and that of today, where water is changed each day.
    let days = if change.every_days == 1 { 2.0 } else { 1.0 };
    let litres = case.told.changed_l();
    over(litres, days * change.litres).then_some(litres)
}

/// Whether so many litres are more than a limit, and not by a bucket's rounding.
pub fn over(litres: f64, limit: f64) -> bool {
    litres > (1.0 + knowledge::book().troubles.number.change_slack_share.value) * limit
}

/// Whether pH is low and may jump: not changed for months, or by the readings.
fn acid(case: &Case) -> Option<Why> {
    let floor = case.book().harm.limit.alkalinity_floor_meq_per_l.value();
    if case.old() {
        return Some(Why::Old);
    }
    match case.told.get("alkalinity") {
        Some(meq) if meq > floor => None,
        Some(_) if case.told.shows("ammonia") => Some(Why::Gone),
        Some(_) => case.told.is_old("alkalinity").then_some(Why::MayBeGone),
        // A tap that brings hardly any leaves none in a tank that nobody tested, whatever the plan leads to.
        None => (case.tank.tap.alkalinity_meq_per_l.low < floor).then_some(Why::MayBeGone),
    }
}

/// The largest share that is changed at once.
pub(crate) fn most_at_once(case: &Case) -> f64 {
    most(case).0
}

/// What keeps every change with this water away, in words.
pub(crate) fn stops_because(case: &Case) -> String {
    because(most(case).2)
}

/// No line may offer a change with this water.
pub(crate) fn no_change(case: &Case) -> bool {
    most_at_once(case) <= 0.0
}

/// Tenths that come one an hour: how many today, by what salts bear in a day, and never more than is ever changed at once.
fn tenths_today(case: &Case, tenth: f64) -> f64 {
    let most = case.numbers().most_at_once_percent.value / 100.0;
    let bears = salts_most(case).map_or(most, |(share, _)| share.min(most));
    ((1.0 - bears).ln() / (1.0 - tenth).ln() + 1e-9).floor().max(1.0)
}

/// When the same change again, and when to stop.
pub(crate) fn often(case: &Case, until: &str) -> String {
    let (pen, (share, hours, why)) = (case.pen(), most(case));
    match (why, hours) {
        (Why::Old | Why::Gone | Why::MayBeGone, _) => format!(
            "Again each hour until {until}, at most {} today, a test of ammonia between; stop when it shows more than before, or they \
             breathe faster.",
            several(&pen.n(tenths_today(case, share), 2), "time", "times")
        ),
        (_, Some(hours)) => {
            format!("Again after {} until {until}, a test before each.", several(&pen.n(hours, 3), "hour", "hours"))
        }
        (_, None) => format!("Test two hours later; once more if it is needed, until {until}."),
    }
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let (pen, (share, hours, why)) = (case.pen(), most(case));
    let words = "The smallest of all that limits a change here. It stands in place of the share that the notice names.";
    let sum = |urgency, head: String| {
        let arithmetic = format!("at most {} of the water, because of {}", pen.share(share), because(why));
        Sum::new(CHANGE_MOST, urgency, head, arithmetic, words, &[]).figure("share_most", share)
    };
    if share <= 0.0 {
        let head = match why == Why::Worse && harming(case).and_then(|total| tap_test(case, total)).is_some() {
            true => "In this tank: no change before you tested the new water for ammonia",
            false => "In this tank: no change with this water, whatever the notice says",
        };
        let sum = sum(Urgency::AtOnce, head.to_owned());
        return vec![sum.figure("no_change", 1.0).say(none(case, why))];
    }
    let much = case.litres().map_or_else(|| pen.share(share), |all| pen.litres(share * all));
    let again = match (why, hours) {
        (Why::Old | Why::Gone | Why::MayBeGone, _) => format!(
            "again each hour, with an ammonia test each time, at most {} today",
            several(&pen.n(tenths_today(case, share), 2), "time", "times")
        ),
        (_, Some(hours)) => format!("again after {} at the earliest", several(&pen.n(hours, 3), "hour", "hours")),
        (_, None) => "again some hours later, with a test before".to_owned(),
    };
    let mut sum = sum(Urgency::AtOnce, format!("In this tank: at most {much} at a time with this tap, {again}"));
    for (name, value) in [("litres_most", case.litres().map(|all| share * all)), ("again_after_hours", hours)] {
        if let Some(value) = value {
            sum = sum.figure(name, value);
        }
    }
    let sum = match bucket(case, (share, why)) {
        Some(test) => {
            sum.figure("bucket_mg_n_per_l", test.0).figure("bucket_share", test.1).say(bucket_says(case, test))
        }
        None => sum,
    };
    let sum = sum.say(limited(case, why));
    vec![match &case.plan.new_water.conditioner {
        Some(c) => sum.say(conditioner(case, c)),
        None => sum.say("No conditioner is needed: you told that there is no disinfectant in this water."),
    }]
}

/// Why none is made.
fn none(case: &Case, why: Why) -> String {
    let change = &case.plan.change;
    match why {
        Why::ChangedToday => format!(
            "You changed {} within a day: more than this tap’s ammonia allows, {}. Test ammonia and pH now, and no more of this water before the \
             test is low.",
            case.pen().litres(case.told.changed_l()),
            case.pen().litres(change.litres)
        ),
        Why::OldReading => format!(
            "What harms was read {}: test ammonia and pH now, and the new reading says how much may be changed.",
            case.told.aged("ammonia").unwrap_or_default()
        ),
        Why::Worse => {
            match harming(case).and_then(|total| tap_test(case, total)) {
                Some(_) => "By what this tap may bring it might leave as much toxic ammonia as there is now, or more: the sum below says from how \
                            much on."
                    .to_owned(),
                None => {
                    "It would leave as much toxic ammonia as there is now, or more; the sum below says what helps.".to_owned()
                }
            }
        }
        _ => change
            .limited
            .clone()
            .or_else(|| change.most_because.clone())
            .unwrap_or_else(|| "This water may not be used with animals: Salts says why.".to_owned()),
    }
}

/// What limits it, in a sentence.
fn limited(case: &Case, why: Why) -> String {
    let (pen, change) = (case.pen(), &case.plan.change);
    let instead = |says: &str| format!("This holds in place of the notice’s share: {says}");
    match why {
        Why::Plan | Why::Water => instead(
            change.most_because.as_deref().or(change.limited.as_deref()).filter(|says| !says.is_empty()).unwrap_or(
                "new water may bring ammonia, and more of it at once would harm at this tank’s pH. Test ammonia before each.",
            ),
        ),
        Why::Toxic => instead("more of this water would leave more toxic ammonia."),
        Why::Gone => "Alkalinity is gone and ammonia shows: a larger change may raise pH and turn ammonium toxic, so an ammonia test before \
                      each."
            .to_owned(),
        Why::MayBeGone => "Alkalinity may be gone: this tap brings hardly any and nobody read it. A larger change may raise pH and turn \
                           ammonium toxic, so an ammonia test before each."
            .to_owned(),
        Why::Salts(name) => instead(&format!("more would move {name} too far for a day.")),
        Why::Old => "It was not changed for months: a larger change may raise pH and turn its ammonium toxic.".to_owned(),
        _ => {
            let third = case
                .litres()
                .map_or_else(String::new, |all| format!("The notice’s third is {} here. ", pen.litres(all / 3.0)));
            format!("{third}No more at once than the first line says, as warm as the tank.")
        }
    }
}

fn because(why: Why) -> String {
    match why {
        Why::Nothing => "common practice: more is never changed at once".to_owned(),
        Why::Old => "months without a change".to_owned(),
        Why::Gone | Why::MayBeGone => "pH, which may jump".to_owned(),
        Why::Plan | Why::Water | Why::Refused => "what the new water brings".to_owned(),
        Why::Salts(name) => format!("{name}, by its limit for a day"),
        Why::Toxic | Why::Worse => "the toxic ammonia that it would leave".to_owned(),
        Why::ChangedToday => "what was changed since yesterday".to_owned(),
        Why::OldReading => "a reading that is no longer today’s".to_owned(),
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
