//! Sentences that stand beside the dose, each with the number at which harm starts.

use quantity::Ion;

use crate::desk::Desk;
use crate::plan::{Level, Note};

/// What is said of the plan as a whole; `weighs`: the keeper weighs something. What concerns copper, carbon dioxide and
/// new water is said there.
pub(crate) fn notes(desk: &Desk, levels: &[Level], alkalinity: &Level, weighs: bool) -> Vec<Note> {
    let rule = &desk.book.harm.rule;
    let note = |about: &str, text: String, key: &str| Note { about: about.to_owned(), text, key: Some(key.to_owned()) };
    let mut notes = Vec::new();
    notes.extend(nitrate(desk, levels));
    if weighs {
        notes.push(note("powders", rule.powders.say.clone(), "powders"));
        notes.push(note("bottles", rule.not_a_drink.say.clone(), "not_a_drink"));
    }
    notes.push(note(
        "litres",
        format!(
            "{} Here {} instead of {}.",
            rule.true_litres.say,
            desk.pen.litres(desk.tank.geometry.true_l.value),
            desk.pen.litres(desk.tank.geometry.nominal_l)
        ),
        "true_litres",
    ));
    if desk.animals() {
        notes.push(note("ammonium", rule.no_ammonium.say.clone(), "no_ammonium"));
        notes.push(note("medicine", rule.no_medicine.say.clone(), "no_medicine"));
        notes.push(note("plugs", rule.plugs_out.say.clone(), "plugs_out"));
    }
    if !desk.tank.animals.start_test_passed {
        notes.push(note(
            "animals",
            format!(
                "{} {} {}",
                rule.start_test.say, desk.book.harm.limit.start_test_mg_n_per_l.say, rule.no_cleaners.say
            ),
            "start_test",
        ));
    }
    notes.extend(alkalinity_falls(desk, alkalinity));
    notes
}

/// A tap above the strict guideline is told and not hidden (harm rule 16).
fn nitrate(desk: &Desk, levels: &[Level]) -> Option<Note> {
    let animals = &desk.tank.animals;
    let level = levels.iter().find(|l| l.ion == Some(Ion::Nitrate))?;
    let limit = &desk.book.harm.limit;
    let strict = limit.nitrate_strict_mg_per_l.value();
    let high = level.highest.max(level.after_change.high).max(level.before_change.high);
    if !(animals.invertebrates() || animals.young) || high <= strict {
        return None;
    }
    Some(Note {
        about: "nitrate".to_owned(),
        text: format!(
            "Nitrate may reach {}, of which the tap brings {}. {} {}",
            desk.pen.ion(Ion::Nitrate, high),
            desk.pen.ion(Ion::Nitrate, level.new_water.value),
            limit.nitrate_strict_mg_per_l.say,
            limit.nitrate_practice_low_mg_per_l.say
        ),
        key: Some("nitrate_strict_mg_per_l".to_owned()),
    })
}

/// Where alkalinity could be eaten up between changes, the pH goes with it.
fn alkalinity_falls(desk: &Desk, alkalinity: &Level) -> Option<Note> {
    let lowest = alkalinity.before_change.low.min(alkalinity.after_change.low);
    let act = desk.book.harm.limit.alkalinity_step_meq_per_l.value();
    (alkalinity.uptake_per_day.high > 0.0 && lowest < act).then(|| Note {
        about: "alkalinity".to_owned(),
        text: format!(
            "Test alkalinity every week, and under {} change water in small parts: with less than that pH falls by itself and the filter slows. \
             In the poorest case {} of alkalinity is left before a change, as what the food leaves eats up to {} a day.",
            desk.pen.alkalinity(act),
            if lowest > 0.0 { desk.pen.alkalinity(lowest) } else { "none".to_owned() },
            desk.pen.alkalinity(alkalinity.uptake_per_day.high)
        ),
        key: Some(alkalinity.why.clone()),
    })
}
