//! Nitrate is high: what a change with this tap can do about it, and what it can't.
//!
//! What: the tap's own nitrate is a floor that no change goes below. Equation: after a change c - x (c - T); share of low-mineral
//! water for a level L: 1 - L/T. Range: as `dilution`. Source: balance of mass; `ccme_2012` and common practice for the levels.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use quantity::chem::atom;
use quantity::{Digits, Ion, format_number};

use crate::case::Case;
use crate::dilution::changes_needed;
use crate::most::most_at_once;
use crate::sum::{Sum, Urgency};

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
            if self.tested { "" } else { " (worked out: test it)" },
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
    let told = case.told.get("nitrate");
    let tender = case.tank.animals.invertebrates() || case.tank.animals.young;
    let goal = if tender { &limit.nitrate_strict_mg_per_l } else { &limit.nitrate_practice_high_mg_per_l };
    let levels = Levels {
        tank: told.unwrap_or_else(|| case.tank_water().mg_per_l(Ion::Nitrate).high),
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
    let rich = levels.tap >= case.numbers().rich_tap_share.value * levels.goal;
    vec![if rich { no_change_helps(case, &levels) } else { changes_help(case, &levels) }]
}

fn no_change_helps(case: &Case, levels: &Levels) -> Sum {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let low = 1.0 - levels.goal / levels.tap;
    let tap = pen.ion(Ion::Nitrate, levels.tap);
    let head = format!("Your new water brings {tap}: changing water can’t bring the tank below that");
    let used = most_at_once(case) > 0.0;
    let usual = match used {
        true => "Keep to the rhythm that you have: more water at once, or more often, is no answer.",
        false => "This water may not be changed here: Salts says why, and what would help.",
    };
    let blend = format!(
        " Or water of low minerals as part of the new water: {} of it or more, in steps of at most {} of the conductivity a day.",
        pen.percent(low),
        pen.percent(limit.conductivity_step_percent.value() / 100.0)
    );
    levels
        .sum(case, Urgency::WhenItSuits, head)
        .figure("low_mineral_share", low.max(0.0))
        .say(usual)
        .say(format!(
            "What helps: plants that grow fast, with the trimmings taken out; less food; no nitrate from a bottle.{}",
            // Where the tap stands at the mark itself, a blend is no way down.
            if low > 0.0 && used { blend.as_str() } else { "" }
        ))
        .say(format!(
            "Harm for {} starts at {} over long times at the strictest; nothing must happen today.",
            levels.who(),
            pen.ion(Ion::Nitrate, levels.goal)
        ))
}

fn changes_help(case: &Case, levels: &Levels) -> Sum {
    let (pen, share) = (case.pen(), case.plan.change.share);
    let most = most_at_once(case);
    let needed = changes_needed(levels.tank - levels.tap, levels.goal - levels.tap, share);
    let after = levels.tank - share * (levels.tank - levels.tap);
    let goal = pen.ion(Ion::Nitrate, levels.goal);
    let head = match needed {
        Some(1) => format!("One usual change brings it to {goal} or less"),
        Some(count) => {
            format!("{} usual changes bring it to {goal} or less", recipe::say::capital(&recipe::say::count(count)))
        }
        None => "No usual change is planned here".to_owned(),
    };
    let as_n = levels.goal * atom::N / Ion::Nitrate.molar_mass();
    levels
        .sum(case, Urgency::WhenItSuits, head)
        .figure("after_one_mg_per_l", after)
        .figure("changes", needed.map_or(f64::INFINITY, f64::from))
        .say(if share > 0.0 && most > 0.0 {
            format!(
                "A change of {} leaves {}; the new water itself holds {}. In the usual rhythm: no hurry, and never more than {} at once.",
                pen.percent(share),
                pen.ion(Ion::Nitrate, after),
                pen.ion(Ion::Nitrate, levels.tap),
                pen.share(most)
            )
        } else if most > 0.0 {
            format!("If you change some all the same: never more than {} at once, conditioner in it.", pen.share(most))
        } else {
            "This water may not be changed here: Salts says why, and what would help.".to_owned()
        })
        .say(format!(
            "Less food and less from the bottle keep it there. For {} {goal} is the mark ({} mg/L as N).",
            levels.who(),
            n(as_n)
        ))
}
