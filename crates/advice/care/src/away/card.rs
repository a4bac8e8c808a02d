//! The sitter's card: what to do on which day, what never to do, what to do when something is wrong. Small enough to hang on the glass.

use jiff::ToSpan;
use jiff::civil::Date;
use knowledge::book;
use quantity::round_significant;
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;

use super::Away;
use super::cans::{Cans, Filled};
use crate::start_words::day;

/// One visit.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Visit {
    /// Day of the absence, from 1.
    pub day: u32,
    /// Its date, if the day of leaving is known.
    pub on: Option<Date>,
    /// The date, or "Day 4".
    pub when: String,
    /// What to do, in order.
    pub acts: Vec<String>,
}

/// The card.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Card {
    /// The tank's name.
    pub tank: String,
    /// Visits, in order.
    pub visits: Vec<Visit>,
    /// What is minded before any water is poured, in order; empty where none is.
    pub pouring: Vec<String>,
    /// What is looked at on every visit.
    pub look: Vec<String>,
    /// What is never done.
    pub never: Vec<String>,
    /// When something is wrong, in order.
    pub wrong: Vec<String>,
}

pub(super) fn card(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> Card {
    Card {
        tank: tank.name.clone(),
        visits: visits(away, pen),
        pouring: pouring(tank, plan, away, pen),
        look: look(tank, pen),
        never: never(away),
        wrong: wrong(tank),
    }
}

/// On which days: those of the meals, and those on which water is topped up, on the same days where it can be.
fn visits(away: &Away, pen: &Pen) -> Vec<Visit> {
    let total = away.ask.days;
    let meals: Vec<u32> = (1..=away.meals.count).map(|i| i * away.meals.every_days).collect();
    let tops = away.water.visits;
    let spread = |i: u32| (f64::from(i) * f64::from(total) / f64::from(tops + 1)).round().max(1.0) as u32;
    let near = |wanted: u32| meals.iter().copied().min_by_key(|meal| meal.abs_diff(wanted)).unwrap_or(wanted);
    let mut topping: Vec<u32> = (1..=tops).map(spread).map(near).collect();
    topping.dedup();
    let each = if topping.is_empty() { 0.0 } else { away.water.each_l * f64::from(tops) / topping.len() as f64 };
    let mut on: Vec<u32> = meals.iter().chain(&topping).copied().collect();
    on.sort_unstable();
    on.dedup();
    let visit = |n: u32| {
        let mut acts = Vec::new();
        if meals.contains(&n) {
            acts.push("one paper of food, nothing else".to_owned());
        }
        if topping.contains(&n) {
            acts.push(format!("about {} from the can, slowly, up to the mark", pen.litres(round_significant(each, 2))));
        }
        let date = away.ask.leaving.and_then(|leaving| leaving.checked_add(i64::from(n).days()).ok());
        Visit { day: n, on: date, when: date.map_or_else(|| format!("Day {n}"), day), acts }
    };
    on.into_iter().map(visit).collect()
}

/// What stands between a can and the tank: the label that says what is in it, and the heater's plug (harm rules 1, 2 and 18).
fn pouring(tank: &Tank, plan: &Plan, away: &Away, pen: &Pen) -> Vec<String> {
    if away.water.visits == 0 {
        return Vec::new();
    }
    let cans = Cans::of(tank, plan, away);
    let can = match cans.filled {
        Filled::Conditioned { ml, .. } => format!(
            "Only from a can labelled CONDITIONER IS IN ({} for its {}, stirred, {} minutes stood): add none. Water without it burns gills: no such label, pour nothing; call",
            pen.ml(ml),
            pen.litres(cans.each_l),
            pen.n(book().harm.limit.conditioner_wait_min.value(), 2)
        ),
        _ => "Only from a can labelled FOR THE TANK. None left: pour nothing; call".to_owned(),
    };
    let heater = format!(
        "Water below the heater’s mark: {} Plug back in when the water covers it",
        book().harm.limit.heater_wait_min.say
    );
    vec![can, heater]
}

fn look(tank: &Tank, pen: &Pen) -> Vec<String> {
    let t = tank.temperature_c;
    let step = book().harm.limit.temperature_step_c.value();
    let mut look = vec!["All breathe calmly and swim about".to_owned()];
    if tank.keeping.filter {
        look.push("The filter runs".to_owned());
    }
    look.push(format!("Between {} and {}", pen.celsius(t.value - step), pen.celsius(t.value + step)));
    look.push("Dry floor, dry sockets".to_owned());
    look
}

fn never(away: &Away) -> Vec<String> {
    let food = match away.fasts() {
        true => "No food at all, however hungry they look: the last test harms, and food makes more of it",
        false => "No other food, however hungry they look",
    };
    [
        food,
        "Nothing from any bottle: what the cans need is in them",
        "No water but that from the cans",
        "No hands in the water, nothing cleaned",
        "No plug pulled from filter or air pump, unless the floor is wet",
    ]
    .map(str::to_owned)
    .to_vec()
}

fn wrong(tank: &Tank) -> Vec<String> {
    let rule = &book().harm.rule;
    let mut wrong = vec![
        format!("A spark, a cable in the water: touch nothing wet. {}", rule.shocked.say),
        "Wet floor: stay off it; all plugs out with dry hands if you reach them on dry ground; then call.".to_owned(),
    ];
    let gasp = if tank.co2_given_mg_per_l.is_some() {
        "carbon dioxide off (valve closed), air pump on; none: the filter’s outlet lifted, or water lifted with a cup and poured back"
    } else if tank.keeping.filter {
        "air pump on, or the filter’s outlet lifted so that the surface moves"
    } else {
        "air pump on, or water lifted with a cup and poured back so that the surface moves"
    };
    wrong.push(format!("All hang at the surface or breathe fast: {gasp}, no food; call."));
    if tank.co2_given_mg_per_l.is_some() {
        wrong.push(
            "Hissing, headache, short breath: out of the room, door open, call; don’t go back for the valve."
                .to_owned(),
        );
    }
    let off = if tank.keeping.filter { "Filter and lamp are off" } else { "The lamp stays off" };
    wrong.push(format!("{off}: press the protective switch once. It trips again: leave it, call."));
    wrong.push("Too cold or too warm: touch nothing in the water; call.".to_owned());
    wrong.push("A dead one: out with a net, into the household waste; wash your hands.".to_owned());
    wrong
}
