//! The one change: from the likeliest cause, under the rules of harm.

use jiff::ToSpan;
use knowledge::{CauseRow, book};
use quantity::Ion;
use setup::Feeding;

use crate::facts::Facts;
use crate::finding::{Cause, OneChange, Standing};
use crate::{nutrients, water_causes};

/// The change for the first cause that the tank's numbers point to or allow; `None`: nothing does, or its change is none
/// that may be made here.
pub(crate) fn one(facts: &Facts, causes: &[Cause], of: Option<&str>) -> Option<OneChange> {
    let may = causes.iter().filter(|cause| matches!(cause.standing, Standing::Likely | Standing::Possible));
    may.filter_map(|cause| Some((cause, book().causes.get(&cause.key)?)))
        .find_map(|(cause, row)| Some(made(facts, &cause.key, &text(facts, &cause.key, row, of)?, row)))
}

/// A change with its days.
pub(crate) fn made(facts: &Facts, cause: &str, text: &str, row: &CauseRow) -> OneChange {
    let days = |value: f64| value.round().clamp(0.0, 1000.0) as u32;
    let judge = &row.judge_days;
    let on = facts.now.date().checked_add(i64::from(days(judge.value)).days()).unwrap_or(facts.now.date());
    OneChange {
        cause: cause.to_owned(),
        text: text.to_owned(),
        judge_days: (days(judge.low()), days(judge.value), days(judge.high())),
        judge_on: on,
    }
}

/// The words of a change with the cautions that belong into them. `None`: it may not be made here.
fn text(facts: &Facts, cause: &str, row: &CauseRow, of: Option<&str>) -> Option<String> {
    let harm = &book().harm;
    let (limit, rule) = (&harm.limit, &harm.rule);
    let mut text = row.change.clone();
    let mut add = |more: &str| {
        text.push(' ');
        text.push_str(more);
    };
    if let Some(ion) = nutrients::ion_of(cause).filter(|ion| !matches!(ion, Ion::Calcium | Ion::Iron)) {
        // Nothing richer is there, and more of everything is not one change.
        if matches!(facts.tank.feeding, Feeding::Plenty | Feeding::None) {
            return None;
        }
        match ion {
            Ion::Nitrate => {
                add(&limit.nitrate_step_mg_per_l.say);
                if facts.tender() {
                    add(&limit.nitrate_strict_mg_per_l.say);
                }
            }
            Ion::Phosphate => add(&limit.phosphate_step_mg_per_l.say),
            Ion::Potassium => add(&limit.potassium_step_mg_per_l.say),
            _ => {}
        }
    }
    match cause {
        "iron_short" => {
            add(&limit.iron_step_mg_per_l.say);
            if facts.tank.animals.invertebrates() {
                add(&rule.iron_alone.say);
            }
        }
        "plants_short" if facts.tank.feeding == Feeding::None => return None,
        "changes_few" if no_answer(facts, of) => {
            text = format!(
                "{} Fast plants, less food, no nitrate from a bottle; top up with water of low minerals.",
                recipe::tap_keeps_nitrate_says(&facts.pen, facts.new_water(Ion::Nitrate).high)
            );
        }
        "changes_few" if facts.tank.unchanged_months.is_some() => text = rule.old_acid_tank.say.clone(),
        "calcium_short" | "nitrification_eats" | "tap_brings_little" if facts.tank.animals.any() => {
            add(&rule.ph_frees_ammonia.say);
        }
        "surface_still" => add(&rule.filter_and_air_stay.say),
        "tap_brings" => {
            add(&rule.in_steps.say);
            if of == Some("copper") {
                add(&rule.copper_adds_up.say);
            }
        }
        _ => {}
    }
    if row.hands_in_water && !row.change.starts_with("None") {
        text = format!("{} {text}", rule.plugs_out.say);
    }
    Some(text)
}

/// Nitrate that the new water keeps up, whatever is changed.
fn no_answer(facts: &Facts, of: Option<&str>) -> bool {
    let ion = of.and_then(water_causes::ion_of);
    water_causes::no_answer(facts, ion, facts.new_water(Ion::Nitrate).high)
}
