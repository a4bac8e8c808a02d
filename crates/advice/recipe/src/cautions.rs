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
        let plugs = format!("{} {}", rule.plugs_out.say, rule.heater_plug.say);
        notes.push(note("plugs", plugs, "plugs_out"));
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

/// Nitrate over a guideline is told and not hidden (harm rule 16): the strict one for invertebrates and young, the upper end
/// of what is common for grown fish; with what lowers it.
fn nitrate(desk: &Desk, levels: &[Level]) -> Option<Note> {
    let animals = &desk.tank.animals;
    let level = levels.iter().find(|l| l.ion == Some(Ion::Nitrate))?;
    let limit = &desk.book.harm.limit;
    let tender = animals.invertebrates() || animals.young;
    let row = if tender { &limit.nitrate_strict_mg_per_l } else { &limit.nitrate_practice_high_mg_per_l };
    let high = level.may_reach();
    if !animals.any() || high <= row.value() {
        return None;
    }
    let mut says = vec![
        format!(
            "Nitrate may reach {}, of which the new water brings {}.",
            desk.pen.ion(Ion::Nitrate, high),
            desk.pen.ion(Ion::Nitrate, level.new_water.value)
        ),
        row.say.clone(),
    ];
    if tender {
        says.push(limit.nitrate_practice_low_mg_per_l.say.clone());
    }
    says.push(lowers_nitrate(desk, level, row.value()));
    Some(Note {
        about: "nitrate".to_owned(),
        text: says.join(" "),
        key: Some(if tender { "nitrate_strict_mg_per_l" } else { "nitrate_practice_high_mg_per_l" }.to_owned()),
    })
}

/// What lowers nitrate: low-mineral water where the new water itself is over the mark, by (new - mark) ÷ (new - low); else
/// less food and more water changed, for the new water holds less than the tank.
fn lowers_nitrate(desk: &Desk, level: &Level, most: f64) -> String {
    let new = level.new_water.high;
    if new > most {
        let low = desk.tank.low.as_ref().map_or(0.0, |low| low.mg_per_l(Ion::Nitrate).high);
        let share = (new - most) / (new - low);
        // A few parts in a hundred are less than the tap moves by from day to day.
        return if share < desk.book.recipe.worth.low_mineral_least_share.value {
            "The tap alone stands at that edge: less food and more plants keep it there.".to_owned()
        } else if new > low && share <= 1.0 {
            // The mean may lie under the mark: then the days are named that pass it.
            let on = if level.new_water.value > most {
                String::new()
            } else {
                format!("When it brings {}, ", desk.pen.ion(Ion::Nitrate, new))
            };
            format!(
                "{on}{} % of low-mineral water in it bring it to {} before the tank adds its own.",
                desk.pen.n((100.0 * share - 1e-9).ceil(), 3),
                desk.pen.ion(Ion::Nitrate, most)
            )
        } else {
            "More plants lower it.".to_owned()
        };
    }
    if desk.tank.habits.every_days == 0 && crate::copper::stops_change(desk).is_some() {
        return "Less food and more plants lower it.".to_owned();
    }
    if crate::nitrate::tap_keeps_nitrate(new, most) {
        return format!(
            "{} Less food and more plants lower it.",
            crate::nitrate::tap_keeps_nitrate_says(&desk.pen, new)
        );
    }
    let how = if desk.tank.habits.every_days > 0 { "do more frequent changes" } else { "does changing water" };
    format!(
        "Less food lowers it, and so {how} in small parts, for the new water holds less than the tank: each takes its own share of the nitrate away."
    )
}

fn lowest(alkalinity: &Level) -> f64 {
    alkalinity.before_change.low.min(alkalinity.after_change.low)
}

/// In the poorest case alkalinity falls under its floor, animals in it.
pub(crate) fn runs_out(desk: &Desk, alkalinity: &Level) -> bool {
    let floor = desk.book.harm.limit.alkalinity_floor_meq_per_l.value() * desk.book.recipe.worth.held_share.value;
    desk.animals() && alkalinity.uptake_per_day.high > 0.0 && lowest(alkalinity) < floor
}

/// Where alkalinity could be eaten up between changes all the same, the pH goes with it: said with the act.
fn alkalinity_falls(desk: &Desk, alkalinity: &Level) -> Option<Note> {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit.alkalinity_floor_meq_per_l);
    let falls = runs_out(desk, alkalinity);
    let lowest = lowest(alkalinity);
    let changes = desk.tank.is_changed();
    let left = if lowest > 0.0 {
        format!("only {} is left {}", pen.alkalinity(lowest), if changes { "before a change" } else { "by now" })
    } else if let Some(day) = alkalinity.runs_out_day_poorest.filter(|_| alkalinity.after_change.low > 0.0) {
        let since = if changes { "a change" } else { "it was filled" };
        format!("none is left {} days after {since}", pen.n(day, 2))
    } else {
        "none is left".to_owned()
    };
    let eaten_between = f64::from(desk.tank.habits.every_days) * alkalinity.uptake_per_day.value;
    let act = if !changes {
        "No water is changed, so no change brings any back: a little water, changed every week, would, and I plan it if you tell me so."
    } else if eaten_between > desk.book.harm.limit.alkalinity_step_meq_per_l.value() {
        "Less food first, then smaller changes more often: what would have to go into the new water of this change moves the tank too far at once."
    } else {
        "Less food first, then more water at a change: to hold it by changes this small, new water would have to be stronger than taps are, or brings too much along."
    };
    falls.then(|| Note {
        about: "alkalinity".to_owned(),
        text: format!(
            "Alkalinity runs out here. {} In the poorest case {left}, as what the food leaves eats up to {} a day. Test it today and every week. {act}",
            limit.say,
            pen.alkalinity(alkalinity.uptake_per_day.high)
        ),
        key: Some(alkalinity.why.clone()),
    })
}
