//! Nitrate is high: what a change with this tap can do about it, and what it can't.
//!
//! What: the tap's own nitrate is a floor that no change goes below. Equation: after a change c - x (c - T); share of low-mineral
//! water for a level L: 1 - L/T; between two changes food, bottle and plants move it by r d. Range: as `dilution`. Source: balance of mass; `ccme_2012` and common practice for the levels.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use quantity::chem::atom;
use quantity::{Digits, Ion, format_number};

use crate::case::Case;
use crate::dilution::changes_needed;
use crate::most::{Why, most, most_at_once};
use crate::sum::{Sum, Urgency};

/// Whatever is not there after so many changes never is.
const MOST_CHANGES: u32 = 200;

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// What there is, what comes in, what is aimed at; mg/L.
struct Levels {
    tank: f64,
    tested: bool,
    tap: f64,
    goal: f64,
    /// Shrimps, snails or young: the strictest guideline counts.
    tender: bool,
}

impl Levels {
    fn who(&self) -> &'static str {
        if self.tender { "shrimps, snails and young" } else { "grown fish" }
    }

    /// A sum with the figures and the why that all answers share.
    fn sum(&self, case: &Case, urgency: Urgency, head: String) -> Sum {
        let pen = case.pen();
        let arithmetic = format!(
            "tank {}{}, new water {}; for {} {} ({})",
            pen.ion(Ion::Nitrate, self.tank),
            if self.tested { "".to_owned() } else { format!(" ({})", worked_out(case)) },
            pen.ion(Ion::Nitrate, self.tap),
            self.who(),
            pen.ion(Ion::Nitrate, self.goal),
            if self.tender { "the strictest guideline for wild animals" } else { "common practice" }
        );
        let words = "A change brings the tank towards what the new water holds, and never below it.";
        Sum::new("nitrate", urgency, head, arithmetic, words, &["ccme_2012"])
            .figure("tank_mg_per_l", self.tank)
            .figure("new_water_mg_per_l", self.tap)
            .figure("goal_mg_per_l", self.goal)
    }
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    // An older reading counts where it is more than what is worked out: it reassures nobody.
    let worked_out = case.plan_water().mg_per_l(Ion::Nitrate).high;
    let older = case.told.last("nitrate").map(|(mg, _)| mg).filter(|mg| *mg > worked_out);
    let told = case.told.get("nitrate").or(older);
    let tender = case.tank.animals.invertebrates() || case.tank.animals.young;
    let goal = if tender { &limit.nitrate_strict_mg_per_l } else { &limit.nitrate_practice_high_mg_per_l };
    let levels = Levels {
        tank: told.unwrap_or(worked_out),
        tested: told.is_some(),
        tap: case.told.get("tap_nitrate").unwrap_or_else(|| case.new_water().mg_per_l(Ion::Nitrate).high),
        goal: goal.value(),
        tender,
    };
    if levels.tank <= levels.goal {
        let (tank, goal) = (pen.ion(Ion::Nitrate, levels.tank), pen.ion(Ion::Nitrate, levels.goal));
        let head = format!("{tank}: no harm is known below {goal}");
        let sum = levels.sum(case, Urgency::LeaveItBe, head);
        return vec![sum.say("Leave it be. Less food, or less from the bottle, if it keeps rising.")];
    }
    // A tap at the mark or above: however often it is changed, the tank stays there or above; one that is rich already brings it
    // most of the way, and more changes are no answer either.
    let near = levels.tank <= case.numbers().far_tap_times.value * levels.tap;
    let sum = match recipe::tap_keeps_nitrate(levels.tap, levels.goal) {
        true if near || most_at_once(case) <= 0.0 => no_change_helps(case, &levels),
        true => down_to_the_tap(case, &levels),
        false => changes_help(case, &levels),
    };
    vec![match case.told.aged("nitrate").filter(|_| levels.tested) {
        Some(ago) => Sum { says: std::iter::once(crate::told::anew(&ago, "nitrate")).chain(sum.says).collect(), ..sum },
        None => sum,
    }]
}

/// A tap that keeps nitrate high, and a tank far above it: changes bring it near the tap's level, n = ln(r)/ln(1 - x), and no further.
fn down_to_the_tap(case: &Case, levels: &Levels) -> Sum {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let share = most_at_once(case);
    let aim = case.numbers().near_tap_times.value * levels.tap;
    let count = changes_needed(levels.tank - levels.tap, aim - levels.tap, share).unwrap_or(MOST_CHANGES);
    let after = levels.tank - share * (levels.tank - levels.tap);
    let (tap, near) = (pen.ion(Ion::Nitrate, levels.tap), pen.ion(Ion::Nitrate, aim));
    let changes = recipe::say::several(&recipe::say::count(count), "change", "changes");
    let head = format!(
        "{}: {changes} of {} bring it to {near}, near the {tap} of your new water",
        stands(case, levels),
        pen.share(share)
    );
    let litres = case.litres().map_or_else(String::new, |all| format!(" ({})", pen.litres(share * all)));
    let sum = levels.sum(case, Urgency::BeforeTheNextChange, head);
    let sum = match topped_up(case, levels) {
        Some((a_day, says)) => sum.figure("topped_up_mg_per_l_day", a_day).say(says),
        None => sum,
    };
    sum
        .figure("change_share", share)
        .figure("after_one_mg_per_l", after)
        .figure("changes", f64::from(count))
        .say(format!(
            "Begin today: {}{litres} a day, conditioner in it and as warm as the tank. The first leaves {}. No larger one, for salts and pH move with \
             it; test ammonia before each.",
            pen.share(share),
            pen.ion(Ion::Nitrate, after)
        ))
        .say(format!(
            "Then stop: {} Plants that grow fast, less food, no nitrate from a bottle, or water of low minerals as part of the new water bring it further.",
            recipe::tap_keeps_nitrate_says(&pen, levels.tap)
        ))
        .say(format!(
            "Harm for {} starts at {} over long times at the strictest, and {} is the most in common practice.",
            levels.who(),
            pen.ion(Ion::Nitrate, levels.goal),
            pen.ion(Ion::Nitrate, limit.nitrate_practice_high_mg_per_l.value())
        ))
}

/// Why no water is changed.
fn not_now(case: &Case) -> &'static str {
    match most(case).2 {
        Why::Refused => "This water may not be changed here: Salts says why, and what would help.",
        _ => {
            "No change with this water now, because of ammonia: Help now says under “Ammonia or nitrite shows” what comes first."
        }
    }
}

/// Where a level that nobody read comes from: where no water is changed, over how long it is reckoned.
fn worked_out(case: &Case) -> String {
    match (case.tank.is_changed(), case.tank.unchanged_months.filter(|_| case.tank.unchanged_days().is_some())) {
        (true, _) => "worked out: test it".to_owned(),
        (false, Some(months)) => {
            format!(
                "at most, worked out over {} without a change: only a test can say",
                recipe::say::several(&case.pen().n(months, 2), "month", "months")
            )
        }
        (false, None) => "worked out over four weeks, for nobody told how old it is: only a test can say".to_owned(),
    }
}

/// "100 mg/L NO3 (you said)".
fn stands(case: &Case, levels: &Levels) -> String {
    let read = case.told.last("nitrate").filter(|_| levels.tested);
    let from = read.map_or_else(|| worked_out(case), |(_, from)| from.to_owned());
    format!("{} ({from})", case.pen().ion(Ion::Nitrate, levels.tank))
}

fn no_change_helps(case: &Case, levels: &Levels) -> Sum {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let low = 1.0 - levels.goal / levels.tap;
    let tap = pen.ion(Ion::Nitrate, levels.tap);
    let head = format!(
        "{}; your new water brings {tap}: changing water can’t bring the tank below that",
        stands(case, levels)
    );
    let used = most_at_once(case) > 0.0;
    let changes = case.plan.change.share > 0.0 && case.plan.change.every_days > 0;
    let says = recipe::tap_keeps_nitrate_says(&pen, levels.tap);
    let usual = match (used, changes) {
        (true, true) => format!("{says} Keep to the rhythm that you have."),
        (true, false) => format!("{says} No water is changed here, and that need not begin today."),
        (false, _) => not_now(case).to_owned(),
    };
    let blend = format!(
        " Or water of low minerals as part of the new water: {} of it or more, in steps of at most {} of the conductivity a day.",
        pen.percent(low),
        pen.percent(limit.conductivity_step_percent.value() / 100.0)
    );
    let sum = levels.sum(case, Urgency::WhenItSuits, head).figure("low_mineral_share", low.max(0.0));
    let sum = match topped_up(case, levels) {
        Some((a_day, says)) => sum.figure("topped_up_mg_per_l_day", a_day).say(says),
        None => sum,
    };
    sum.say(usual)
        .say(format!(
            "What helps: plants that grow fast, with the trimmings taken out; less food; no nitrate from a bottle.{}",
            // Where the tap stands at the mark itself, a blend is no way down.
            if low > 0.0 && used && changes { blend.as_str() } else { "" }
        ))
        .say(format!(
            "Harm for {} starts at {} over long times at the strictest; nothing must happen today.",
            levels.who(),
            pen.ion(Ion::Nitrate, levels.goal)
        ))
}

/// What topping up with the tap leaves behind, mg/L a day, and what to do about it.
fn topped_up(case: &Case, levels: &Levels) -> Option<(f64, String)> {
    let (pen, habits) = (case.pen(), &case.tank.habits);
    let (top_up_l, litres) = (habits.top_up_l_per_day.value, case.litres()?);
    let a_day = Some(top_up_l * levels.tap / litres).filter(|mg| *mg > 0.0 && habits.top_up_with == "tap")?;
    let days = case.tank.unchanged_days();
    let since = case.tank.unchanged_months.zip(days).map_or_else(String::new, |(months, days)| {
        let months = recipe::say::several(&pen.n(months, 2), "month", "months");
        format!(", {} over {months}", pen.ion(Ion::Nitrate, a_day * days))
    });
    let none = days.is_some() || case.plan.change.every_days == 0 || case.plan.change.share <= 0.0;
    let cause = if none { "The likeliest cause, for no change takes it out" } else { "It adds to it" };
    Some((
        a_day,
        format!(
            "{cause}: {} a day are topped up with this tap, and its nitrate stays behind: {} a day{since}. Top up with water of low minerals or \
             clean rain.",
            pen.litres(top_up_l),
            pen.ion(Ion::Nitrate, a_day)
        ),
    ))
}

/// What keeps a change smaller than the plan's, where something does; else how much is never exceeded.
fn smaller(case: &Case, most_share: f64) -> String {
    let (pen, planned, why) = (case.pen(), case.plan.change.share, most(case).2);
    match most_share < planned - 1e-9 {
        false => format!(", and never more than {} at once", pen.share(most_share)),
        true if why == Why::MayBeGone => format!(
            ", and {} in place of the plan’s {} until alkalinity is read: it may be gone, and then a larger change raises pH",
            pen.share(most_share),
            pen.share(planned)
        ),
        true => {
            format!(", and for now {} at once in place of the plan’s {}", pen.share(most_share), pen.share(planned))
        }
    }
}

/// Right after the k-th change: c ← (c + r d)(1 - x) + x T, r mg/L a day and d days from change to change. How many until it is at the goal or
/// below; `None`: it never is.
fn changes_until(levels: &Levels, share: f64, rise: f64) -> Option<u32> {
    let mut left = levels.tank;
    for count in 1..=MOST_CHANGES {
        left = left * (1.0 - share) + share * levels.tap;
        if left <= levels.goal + 1e-9 {
            return Some(count);
        }
        left = (left + rise).max(0.0);
    }
    None
}

/// Where it settles right after a change: T + r d (1 - x)/x.
fn settles(levels: &Levels, share: f64, rise: f64) -> f64 {
    (levels.tap + rise * (1.0 - share) / share).max(0.0)
}

fn changes_help(case: &Case, levels: &Levels) -> Sum {
    let (pen, change) = (case.pen(), &case.plan.change);
    let most = most_at_once(case);
    let (share, goal) = (change.share.min(most), pen.ion(Ion::Nitrate, levels.goal));
    let planned = share > 0.0 && change.every_days > 0;
    if !planned {
        return none_planned(case, levels, most);
    }
    // What food, bottle and plants do between two changes.
    let level = case.plan.levels.iter().find(|level| level.ion == Some(Ion::Nitrate));
    let a_day = level.map_or(0.0, |level| level.dose_per_day - level.uptake_per_day.value);
    let rise = a_day * f64::from(change.every_days);
    let needed = changes_until(levels, share, rise);
    let after = levels.tank - share * (levels.tank - levels.tap);
    let head = match needed {
        Some(1) => format!("{}: one usual change brings it to {goal} or less", stands(case, levels)),
        Some(count) => {
            format!("{}: {} usual changes bring it to {goal} or less", stands(case, levels), recipe::say::count(count))
        }
        None => format!("{}: the usual changes never bring it to {goal}", stands(case, levels)),
    };
    let moves = match a_day > 0.0 {
        true => {
            format!("; between two of them it rises by {} a day, which is counted in", pen.ion(Ion::Nitrate, a_day))
        }
        false => String::new(),
    };
    let sum = levels
        .sum(case, Urgency::WhenItSuits, head)
        .figure("change_share", share)
        .figure("after_one_mg_per_l", after)
        .figure("rises_mg_per_l_day", a_day)
        .figure("changes", needed.map_or(f64::INFINITY, f64::from))
        .say(format!(
            "A change of {} leaves {}; the new water itself holds {}{moves}. In the usual rhythm: no hurry{}.",
            pen.percent(share),
            pen.ion(Ion::Nitrate, after),
            pen.ion(Ion::Nitrate, levels.tap),
            smaller(case, most)
        ));
    let sum = if needed.is_none() { never(case, levels, (share, a_day), sum) } else { sum };
    kept_there(levels, &goal, sum)
}

/// The usual rhythm does not do it: where it settles, and the rhythm that does, x (L - T) ÷ (r (1 - x)) days.
fn never(case: &Case, levels: &Levels, (share, a_day): (f64, f64), sum: Sum) -> Sum {
    let (pen, every) = (case.pen(), case.plan.change.every_days);
    let at = settles(levels, share, a_day * f64::from(every));
    let days = (share * (levels.goal - levels.tap) / (a_day * (1.0 - share)) + 1e-9).floor();
    let often = match days >= 1.0 {
        true => format!(" The same change every {} does it.", day_words(days)),
        false => String::new(),
    };
    sum.figure("settles_mg_per_l", at).figure("every_days", days).say(format!(
        "In this rhythm it settles at {} right after a change: less food is the first answer.{often}",
        pen.ion(Ion::Nitrate, at)
    ))
}

fn day_words(days: f64) -> String {
    if days == 1.0 { "day".to_owned() } else { format!("{} days", recipe::say::count(days as u32)) }
}

fn none_planned(case: &Case, levels: &Levels, most: f64) -> Sum {
    let pen = case.pen();
    let sum =
        levels.sum(case, Urgency::WhenItSuits, format!("{}: no usual change is planned here", stands(case, levels)));
    let sum = match topped_up(case, levels) {
        Some((a_day, says)) => sum.figure("topped_up_mg_per_l_day", a_day).say(says),
        None => sum,
    };
    let sum = sum.figure("changes", f64::INFINITY).say(if most > 0.0 {
        format!("If you change some all the same: never more than {} at once, conditioner in it.", pen.share(most))
    } else {
        not_now(case).to_owned()
    });
    kept_there(levels, &pen.ion(Ion::Nitrate, levels.goal), sum)
}

fn kept_there(levels: &Levels, goal: &str, sum: Sum) -> Sum {
    let as_n = levels.goal * atom::N / Ion::Nitrate.molar_mass();
    sum.say(format!(
        "Less food and less from the bottle keep it there. For {} {goal} is the mark ({} mg/L as N).",
        levels.who(),
        n(as_n)
    ))
}
