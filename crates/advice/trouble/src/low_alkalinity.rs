//! Alkalinity is gone: how it comes back in steps, and what ammonia makes of the way up.
//!
//! What: the share of a change with this tap that raises alkalinity by the day's limit. Equation: x = limit/(A_new - A_tank); days by `dilution`.
//! Range: balance of charge, mixed by volume. Source: limits of harm rule 6, common practice; ammonia as in `toxic`.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use recipe::say::several;

use crate::begin::{NextChange, begins};
use crate::case::Case;
use crate::dilution::changes_needed;
use crate::most::{self, CHANGE_MOST, most_at_once, no_change};
use crate::sum::{Sum, Urgency};
use crate::toxic::{Toxic, harming, toxic};

/// How much is changed at once for alkalinity, where nobody gasps: nothing while ammonia shows, for each change raises pH; no more than the
/// smaller changes with which the plan begins; else what is changed at once in any trouble.
pub(crate) fn most_sums(case: &Case) -> Vec<Sum> {
    let pen = case.pen();
    let words = "Alkalinity comes back slowly: the smallest of all limits holds, and it stands in place of the share that the notice names.";
    let sum = |urgency, head: String, share: f64, because: &str| {
        let arithmetic = format!("at most {} of the water, because of {because}", pen.share(share));
        Sum::new(CHANGE_MOST, urgency, head, arithmetic, words, &[]).figure("share_most", share)
    };
    let shows = case.told.get("ammonia").filter(|_| case.told.shows("ammonia"));
    if shows.is_some() && harming(case).is_none() && !no_change(case) {
        let head = "In this tank: no change with this water while ammonia shows, whatever the notice says".to_owned();
        let floor = case.book().harm.limit.alkalinity_floor_meq_per_l.value();
        let gone = case.told.get("alkalinity").is_some_and(|meq| meq <= floor);
        let why = if gone { "Alkalinity is gone and ammonia shows" } else { "Ammonia shows" };
        let says = format!(
            "{why}: each change raises alkalinity and with it pH, which makes it toxic. Test it again tomorrow."
        );
        let sum = sum(Urgency::BeforeTheNextChange, head, 0.0, "ammonia, which a higher pH makes toxic");
        return vec![sum.figure("no_change", 1.0).say(says)];
    }
    let next = begins(case).filter(|next| next.share < most_at_once(case));
    let Some(NextChange { begin, share, .. }) = next else { return most::sums(case) };
    let much = case.litres().map_or_else(|| pen.share(share), |all| pen.litres(share * all));
    let head = format!(
        "In this tank: at most {much} at a time with this water, again after {} at the earliest",
        several(&begin.days_apart.to_string(), "day", "days")
    );
    let says = match begin.steps.is_empty() {
        false => {
            "The plan moves the water further than animals bear at once, so its new water gets a growing part of the salts: the same that Salts and Care give."
        }
        true => {
            "The plan moves the water further than animals bear at once, so it begins with smaller changes: the same that Salts and Care give."
        }
    };
    let sum = sum(Urgency::BeforeTheNextChange, head, share, "what salts move in a day").say(says);
    vec![sum.figure("again_after_hours", 24.0 * f64::from(begin.days_apart))]
}

/// Both waters, a day's step and the floor, meq/L, as the sum says them.
fn arithmetic(case: &Case, meq_per_l: [f64; 4]) -> String {
    let [tank, new, step, floor] = meq_per_l.map(|meq| case.pen().alkalinity(meq));
    format!("tank {tank}, new water {new}; at most {step} a day; at least {floor} is left with animals")
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let (tank, new) = (case.tank_water().alkalinity_meq_per_l.value, case.new_water().alkalinity_meq_per_l.value);
    let (floor, step) = (limit.alkalinity_floor_meq_per_l.value(), limit.alkalinity_step_meq_per_l.value());
    let arithmetic = arithmetic(case, [tank, new, step, floor]);
    let words =
        "Alkalinity holds pH. It comes back slowly, because pH follows it and turns ammonium into toxic ammonia.";
    let make = |urgency: Urgency, head: String| {
        let sum = Sum::new("alkalinity", urgency, head, arithmetic.clone(), words, &["emerson_1975"])
            .figure("tank_meq_per_l", tank)
            .figure("new_water_meq_per_l", new);
        match case.told.anew("alkalinity", "alkalinity, pH and ammonia") {
            Some(first) => sum.say(first),
            None => sum,
        }
    };
    if case.told.get("alkalinity").is_none() {
        return vec![unread(case, make, new)];
    }
    if tank > floor {
        return vec![make(Urgency::LeaveItBe, format!("Alkalinity stands at {}: it holds", pen.alkalinity(tank)))];
    }
    let test = tested_first(case);
    let waits = |head: &str| vec![make(Urgency::BeforeTheNextChange, head.to_owned()).say(test.clone())];
    let no_water = "Alkalinity waits: no change with this water now";
    if no_change(case) {
        return waits(no_water);
    }
    if case.told.shows("ammonia") {
        return waits("Alkalinity waits until ammonia is gone");
    }
    if new <= floor {
        let head = format!("Your new water holds {}: changing can’t bring alkalinity back", pen.alkalinity(new));
        let how = "Bicarbonate in steps of a day, of which Salts gives the grams, or a little lime rock.";
        return vec![make(Urgency::BeforeTheNextChange, head).say(test).say(how)];
    }
    let next = begins(case);
    let tested = |urgency, head| make(urgency, head).say(test.clone());
    if let Some(next) = next.filter(|next| !next.begin.steps.is_empty()) {
        return vec![growing(case, next, tested, [tank, new, step])];
    }
    let share = (step / (new - tank)).min(most_at_once(case)).min(next.map_or(1.0, |next| next.share));
    // To a step over the floor, or half of the way there where the new water holds no more.
    let aim = (floor + step).min(0.5 * (floor + new));
    match changes_needed(new - tank, new - aim, share) {
        Some(days) => vec![in_steps(case, share, f64::from(days.max(1)), tested, step)],
        None => waits(no_water),
    }
}

/// By so many changes, a day apart, with all of the salts.
fn in_steps(case: &Case, share: f64, days: f64, make: impl Fn(Urgency, String) -> Sum, step: f64) -> Sum {
    let pen = case.pen();
    let litres = case.litres().map_or_else(String::new, |all| format!(" ({})", pen.litres(share * all)));
    let head = format!("A change of {} a day brings it back in steps", pen.share(share));
    make(Urgency::BeforeTheNextChange, head).figure("share_a_day", share).figure("days", days).say(format!(
        "{}{litres} a day, conditioner in it and as warm as the tank: each raises alkalinity by no more than {}, the most that animals bear in a \
         day. About {}.",
        pen.share(share),
        pen.alkalinity(step),
        several(&pen.n(days, 2), "day", "days")
    ))
}

/// The next of the changes whose new water gets a growing part of the salts; never more than today's limit, nor than raises alkalinity by a
/// day's step.
fn growing(case: &Case, next: NextChange, make: impl Fn(Urgency, String) -> Sum, [tank, new, step]: [f64; 3]) -> Sum {
    let (pen, plan) = (case.pen(), case.plan);
    let plain = recipe::blended(case.tank, plan.low_share).alkalinity_meq_per_l.value;
    let most = step / (plain + next.part * (new - plain) - tank).max(f64::MIN_POSITIVE);
    let share = next.share.min(most_at_once(case)).min(most);
    let litres = case.litres().map_or_else(String::new, |all| format!(" ({})", pen.litres(share * all)));
    let salts = recipe::part_of_salts(case.tank, plan, next.part * share / plan.change.share);
    let test = plan.new_water.ph_test.as_deref().unwrap_or_default();
    let salts = if salts.is_empty() { String::new() } else { format!(" Into this one: {}. {test}", salts.join("; ")) };
    let head = format!(
        "Changes of {}, a day apart at the least, bring it back with a growing part of the salts",
        pen.share(share)
    );
    make(Urgency::BeforeTheNextChange, head)
        .figure("share_a_day", share)
        .figure("salts_part", next.part)
        .say(format!(
            "{}{litres} each, conditioner in it and as warm as the tank: it raises alkalinity by no more than {} and conductivity by no more than a tenth, the \
             most that animals bear in a day. Tick each in Care, which gives the salts of the next.{salts}",
            pen.share(share),
            pen.alkalinity(step)
        ))
}

/// Nobody read it: the plan's water is where its changes lead to, not what is there.
fn unread(case: &Case, make: impl Fn(Urgency, String) -> Sum, new: f64) -> Sum {
    let pen = case.pen();
    let head = match case.tank.unchanged_months.filter(|months| *months > 0.0) {
        Some(months) => format!(
            "Not changed for {}: how much alkalinity is left I can’t tell",
            several(&pen.n(months, 2), "month", "months")
        ),
        None => "Without a reading I can’t tell how much alkalinity is left".to_owned(),
    };
    let last = case.told.last("alkalinity").map_or_else(String::new, |(meq, from)| {
        format!("The last reading, {} ({from}), is none of today. ", pen.alkalinity(meq))
    });
    let leads = case.plan_water().alkalinity_meq_per_l.value;
    make(Urgency::AtOnce, head)
        .say(
            "Test alkalinity, pH and ammonia now, before anything else: food and filter eat alkalinity month by month, and an old acid tank \
             never gets a big change.",
        )
        .say(format!(
            "{last}The plan leads to {} in the tank; new water holds {}.",
            pen.alkalinity(leads),
            pen.alkalinity(new)
        ))
}

/// The test that comes before anything that raises pH.
fn tested_first(case: &Case) -> String {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let ammonia = case.told.get("ammonia").filter(|_| case.told.shows("ammonia"));
    match ammonia.and_then(|total| toxic(case, total)) {
        Some(Toxic { total_mg_n_per_l, .. }) => format!(
            "Ammonia shows ({} mg/L as N): no alkalinity salt and no hard water yet. Harm starts at {} mg/L of its toxic share, and that grows \
             tenfold with one step of pH. Go on under ammonia.",
            pen.n(total_mg_n_per_l, 2),
            pen.n(limit.ammonia_unionised_mg_n_per_l.value(), 2)
        ),
        None => "Test ammonia first, and again after each step: where it shows, nothing that raises pH.".to_owned(),
    }
}
