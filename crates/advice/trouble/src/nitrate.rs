//! Nitrate is high: what a change with this tap can do about it, and what it can't.
//!
//! What: the tap's own nitrate is a floor that no change goes below. Equation: after a change c - x (c - T); share of low-mineral
//! water for a level L: 1 - L/T. Range: as `dilution`. Source: balance of mass; `ccme_2012` and common practice for the levels.
//! Checked by: `tests/by_hand_dilution.rs`, `tests/harm.rs`.

use quantity::{Digits, Ion, format_number};

use crate::case::Case;
use crate::dilution::changes_needed;
use crate::sum::{Sum, Urgency};

fn n(value: f64) -> String {
    format_number(value, Digits::Significant(2))
}

/// The answer.
pub(crate) fn sums(case: &Case) -> Vec<Sum> {
    let (pen, limit) = (case.pen(), &case.book().harm.limit);
    let tap = case.told.get("tap_nitrate").unwrap_or_else(|| case.new_water().mg_per_l(Ion::Nitrate).high);
    let told = case.told.get("nitrate");
    let tank = told.unwrap_or_else(|| case.tank_water().mg_per_l(Ion::Nitrate).high);
    let tender = case.tank.animals.invertebrates() || case.tank.animals.young;
    let goal =
        if tender { limit.nitrate_strict_mg_per_l.value() } else { limit.nitrate_practice_high_mg_per_l.value() };
    let share = case.plan.change.share;
    let who = if tender { "shrimps, snails and young" } else { "grown fish" };
    let arithmetic = format!(
        "tank {}{}, new water {}; for {who} {} ({})",
        pen.ion(Ion::Nitrate, tank),
        if told.is_none() { " (worked out: test it)" } else { "" },
        pen.ion(Ion::Nitrate, tap),
        pen.ion(Ion::Nitrate, goal),
        if tender { "the strictest guideline for wild animals" } else { "common practice" }
    );
    let words = "A change brings the tank towards what the new water holds, and never below it.";
    let make = |key: &str, urgency: Urgency, head: String| {
        Sum::new(key, urgency, head, arithmetic.clone(), words, &["ccme_2012"])
            .figure("tank_mg_per_l", tank)
            .figure("new_water_mg_per_l", tap)
            .figure("goal_mg_per_l", goal)
    };
    if tank <= goal {
        let head = format!("{}: no harm is known below {}", pen.ion(Ion::Nitrate, tank), pen.ion(Ion::Nitrate, goal));
        return vec![
            make("nitrate", Urgency::LeaveItBe, head)
                .say("Leave it be. Less food, or less from the bottle, if it keeps rising."),
        ];
    }
    if tap >= goal {
        // However often it is changed, it stays at the tap or above.
        let low = 1.0 - goal / tap;
        let head = format!(
            "Your new water brings {}: changing water can’t bring the tank below that",
            pen.ion(Ion::Nitrate, tap)
        );
        return vec![
            make("nitrate", Urgency::WhenItSuits, head)
                .figure("low_mineral_share", low)
                .say(format!(
                    "What helps: plants that grow fast, with the trimmings taken out; less food; no nitrate from a bottle. Or water of low \
                     minerals as part of the new water: {} of it or more, in steps of at most {} of the conductivity a day.",
                    pen.percent(low),
                    pen.percent(limit.conductivity_step_percent.value() / 100.0)
                ))
                .say(format!("Harm for {who} starts at {} over long times at the strictest; nothing must happen today.", pen.ion(Ion::Nitrate, goal))),
        ];
    }
    let needed = changes_needed(tank - tap, goal - tap, share);
    let after = tank - share * (tank - tap);
    let head = match needed {
        Some(count) => format!(
            "{} usual change{} bring it to {} or less",
            recipe::say::capital(&recipe::say::count(count)),
            if count == 1 { "" } else { "s" },
            pen.ion(Ion::Nitrate, goal)
        ),
        None => "No usual change is planned here".to_owned(),
    };
    vec![
        make("nitrate", Urgency::WhenItSuits, head)
            .figure("after_one_mg_per_l", after)
            .figure("changes", needed.map_or(f64::INFINITY, f64::from))
            .say(format!(
                "A change of {} leaves {}; the new water itself holds {}. In the usual rhythm: no hurry, and never more than {} at once.",
                pen.percent(share),
                pen.ion(Ion::Nitrate, after),
                pen.ion(Ion::Nitrate, tap),
                pen.percent(case.numbers().most_at_once_percent.value / 100.0)
            ))
            .say(format!("Less food and less from the bottle keep it there. For {who} {} is the mark ({} mg/L as N).", pen.ion(Ion::Nitrate, goal), n(goal * 14.007 / 62.004))),
    ]
}
