//! Changes so small that nothing takes away what is left over: such a habit is refused, with the change or the feeding that would do.
//!
//! What: what food brings and plants leave is thinned by changes alone, and settles at L = n r ÷ x over the tap. Refused where L is
//! more nitrate than whole tanks commonly hold, or where no water as taps are holds the alkalinity that goes with it.
//! Symbols: r mg/L of nitrate that a day leaves over; n days from change to change; x share changed; n ÷ x days' worth.
//! Range: animals, and water that is changed; the best estimate. Never changed: nothing settles, and what is said then stands elsewhere.
//! Source: balance of mass; `data/recipe.toml`, common practice.
//! Checked by: `tests/by_hand_habit.rs`.

use knowledge::book;
use quantity::{Ion, Kind, Known, Why};
use setup::Tank;

use crate::desk::why;
use crate::plan::{Plan, Refused};
use crate::say::Pen;

/// Key of the why-note.
const KEY: &str = "habit";
/// First words of the wish.
const CHANGES_OF: &str = "Changes of";

impl Plan {
    /// The keeper's habit of changes, where it is refused.
    pub fn refused_habit(&self) -> Option<&Refused> {
        self.refused.iter().find(|refused| refused.wish.starts_with(CHANGES_OF))
    }
}

/// Days' worth of what is left over that stand in the tank: n ÷ x. None where water is not changed.
fn days_worth(plan: &Plan) -> Option<f64> {
    let change = &plan.change;
    (change.every_days > 0 && change.share > 0.0).then(|| f64::from(change.every_days) / change.share)
}

/// Nitrate that a day leaves over, mg/L; 0 where plants take it all.
fn left_a_day(plan: &Plan) -> f64 {
    let level = plan.levels.iter().find(|level| level.ion == Some(Ion::Nitrate));
    level.map_or(0.0, |level| (-level.uptake_per_day.value).max(0.0))
}

/// Nitrate over the tap's, mg/L, that changes don't take away.
fn left_over(plan: &Plan) -> f64 {
    days_worth(plan).map_or(0.0, |days| days * left_a_day(plan))
}

/// The alkalinity of such water as taps are does not hold out between changes, though each lifts it by less than a day's limit.
fn runs_out(plan: &Plan) -> bool {
    let limit = &book().harm.limit;
    let eaten = plan.alkalinity.uptake_per_day.value;
    let gentle = f64::from(plan.change.every_days) * eaten <= limit.alkalinity_step_meq_per_l.value();
    let floor = limit.alkalinity_floor_meq_per_l.value() * book().recipe.worth.held_share.value;
    days_worth(plan).is_some() && gentle && eaten > 0.0 && plan.alkalinity.before_change.value < floor
}

fn holds(plan: &Plan) -> bool {
    left_over(plan) <= book().recipe.habit.leftover_mg_per_l.value && !runs_out(plan)
}

/// The habit, if it is refused, and its why-note. `again` plans a tank with another change or other food.
pub(crate) fn refused(told: &Tank, plan: &Plan, again: &dyn Fn(&Tank) -> Plan) -> Option<(Refused, Why)> {
    if !told.animals.any() || plan.change.share <= 0.0 || holds(plan) {
        return None;
    }
    let ways: Vec<String> = bigger(told, plan, again).into_iter().chain(less_food(told, again)).collect();
    // Where neither helps it is not the habit: nitrate and alkalinity are told for themselves.
    (!ways.is_empty()).then(|| said(told, plan, ways))
}

/// The smallest share tried, at the same days, that takes away what is left over.
fn bigger(told: &Tank, plan: &Plan, again: &dyn Fn(&Tank) -> Plan) -> Option<String> {
    let (pen, now) = (Pen::of(told), plan.change.share);
    let tried = book().recipe.worth.changes_tried_percent.value.iter().map(|percent| percent / 100.0);
    let does = tried.filter(|share| *share > now).find_map(|share| {
        let mut other = told.clone();
        other.habits.change_share = Known::exact(share, Kind::WorkedOut);
        let other = again(&other);
        // A rule of harm that keeps changes smaller goes before.
        (other.change.limited.is_none() && holds(&other)).then_some(other)
    })?;
    let begins = if does.begin.is_some() {
        " I begin with smaller ones, so that no animal is thrown into other water."
    } else {
        ""
    };
    let comes = match left_over(&does) {
        left if left > 0.0 => format!(": what is left over comes to {} then", pen.ion(Ion::Nitrate, left)),
        _ => ": that holds alkalinity".to_owned(),
    };
    Some(format!(
        "Change {} ({}) {}{comes}.{begins}",
        pen.percent(does.change.share),
        pen.litres(does.change.litres),
        crate::change::every(does.change.every_days)
    ))
}

/// The largest part of the food tried at which this habit holds.
fn less_food(told: &Tank, again: &dyn Fn(&Tank) -> Plan) -> Option<String> {
    let tried = book().recipe.habit.food_tried_percent.value.iter().map(|percent| percent / 100.0);
    let fed = tried.map(|part| (part, with_food(told, part))).find(|(_, tank)| holds(&again(tank)))?;
    Some(format!(
        "Keep to this change, and feed {} of what is fed now, for so many fewer animals; tell me so, and I plan it.",
        Pen::of(told).percent(fed.0)
    ))
}

fn with_food(told: &Tank, part: f64) -> Tank {
    let mut tank = told.clone();
    let growth = &mut tank.growth;
    growth.food_mg_per_l_day.values_mut().for_each(|mg| *mg = mg.map(|mg| part * mg));
    growth.alkalinity_eaten_meq_per_l_day = growth.alkalinity_eaten_meq_per_l_day.map(|meq| part * meq);
    tank
}

fn said(told: &Tank, plan: &Plan, ways: Vec<String>) -> (Refused, Why) {
    let (pen, most) = (Pen::of(told), book().recipe.habit.leftover_mg_per_l.value);
    let (share, days) = (plan.change.share, plan.change.every_days);
    let (left, worth) = (left_over(plan), days_worth(plan).unwrap_or(0.0));
    let mut says = vec![format!(
        "With changes this small nothing takes away what is left over: {} days’ worth of it stands in the tank.",
        pen.n(worth, 2)
    )];
    if left > most {
        says.push(format!(
            "Of what food brings and plants leave, nitrate alone comes to {} over the tap’s; {} is as much as whole tanks commonly hold \
             (common practice, no source).",
            pen.ion(Ion::Nitrate, left),
            pen.mg(most)
        ));
    }
    if runs_out(plan) {
        says.push(format!(
            "It eats the alkalinity, and no water as taps are brings that back so slowly. {}",
            book().harm.limit.alkalinity_floor_meq_per_l.say
        ));
    }
    let why = why(
        KEY,
        format!("why {}?", pen.ion(Ion::Nitrate, left)),
        format!(
            "{} mg/L a day × {days} days ÷ {} = {}",
            pen.n(left_a_day(plan), 2),
            pen.share(share),
            pen.ion(Ion::Nitrate, left)
        ),
        "What food brings and plants leave goes away with changed water alone, and piles up until a change takes out what came since the last.",
        &[],
        Kind::WorkedOut,
    );
    let wish = format!("{CHANGES_OF} {} {}", pen.share(share), crate::change::every(days));
    (Refused { wish, why: says.join(" "), ways }, why)
}
