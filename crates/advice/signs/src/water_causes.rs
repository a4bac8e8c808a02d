//! Causes of what was read in the water: tap, doses, changes, evaporation, lime, kit.

use logbook::Sure;
use quantity::{Ion, Kind, Known};

use crate::Standing::{self, Likely, Open, Possible, StruckOut};
use crate::facts::{Facts, figure};

/// Whether the new water brings so much nitrate that changes of it are no answer: as Salts and Help now say.
pub(crate) fn no_answer(facts: &Facts, ion: Option<Ion>, new_high: f64) -> bool {
    let mark = knowledge::book().harm.limit.nitrate_practice_high_mg_per_l.value();
    ion == Some(Ion::Nitrate) && recipe::tap_keeps_nitrate(new_high, if facts.tender() { strict() } else { mark })
}

fn strict() -> f64 {
    knowledge::book().harm.limit.nitrate_strict_mg_per_l.value()
}

/// How a cause stands for a reading, and why. `None`: there is no such cause.
pub(crate) fn stands(facts: &Facts, cause: &str, of: Option<&str>) -> Option<(Standing, String)> {
    let say = |standing: Standing, because: &str| (standing, because.to_owned());
    let ion = of.and_then(ion_of);
    Some(match cause {
        "tap_brings" => tap(facts, of, ion),
        "tap_brings_little" => tap_little(facts),
        "dosed_much" => dosed(facts, ion),
        "plants_few" => few_plants(facts),
        "changes_few" => changes(facts, of, ion),
        "evaporation" => {
            let (litres, tap) = (facts.tank.habits.top_up_l_per_day.value, facts.tank.habits.top_up_with == "tap");
            match litres > 0.0 && tap {
                true if facts.tank.unchanged_months.is_some() => (
                    Likely,
                    format!(
                        "{} L a day are topped up with tap water, its salts stay, and no change takes them out",
                        facts.pen.n(litres, 2)
                    ),
                ),
                true => (
                    Possible,
                    format!("{} L a day are topped up with tap water, and its salts stay", facts.pen.n(litres, 2)),
                ),
                false => say(StruckOut, "the tap does not top up"),
            }
        }
        "lime_in_tank" => match facts.tank.measured.ground_lime {
            Some(true) => say(Likely, "you measured lime in the ground"),
            Some(false) => say(Open, "the ground holds none; stones were not tested"),
            None => say(Open, "neither ground nor stones were tested"),
        },
        "nitrification_eats" => {
            let eaten = facts.tank.growth.alkalinity_eaten_meq_per_l_day;
            match eaten.value > 0.0 {
                true => (Likely, format!("your food eats {} a day", facts.pen.alkalinity(eaten.value))),
                false => say(StruckOut, "nothing is fed"),
            }
        }
        "ground_takes" => say(Open, "clays and soils take alkalinity until they are loaded"),
        "kit" => match of.and_then(|of| facts.reading(of)).map(|read| read.sure) {
            Some(Sure::Plain) => say(Open, "one reading is one reading"),
            _ => say(Possible, "you were not sure of the reading"),
        },
        _ => return None,
    })
}

/// The ion that a reading counts.
pub(crate) fn ion_of(of: &str) -> Option<Ion> {
    knowledge::book().readings.get(of)?.ion
}

/// What the new water of a change holds of what was read, and the reading; both in the reading's unit.
fn beside(facts: &Facts, of: Option<&str>, ion: Option<Ion>) -> Option<(Known<f64>, Known<f64>)> {
    let read = facts.reading(of?)?.known;
    let new = match (of?, ion) {
        ("alkalinity", _) => facts.plan.alkalinity.new_water,
        ("ammonia_n" | "nitrite_n", Some(ion)) => {
            let share = quantity::chem::atom::N / ion.molar_mass();
            facts.new_water(ion).map(|mg| mg * share)
        }
        (_, Some(ion)) => facts.new_water(ion),
        ("conductivity", None) => facts.tank.tap.conductivity_25_us_per_cm?,
        _ => return None,
    };
    Some((new, read))
}

fn tap(facts: &Facts, of: Option<&str>, ion: Option<Ion>) -> (Standing, String) {
    let Some((new, read)) = beside(facts, of, ion) else {
        return (Open, "the same test on the tap would tell".to_owned());
    };
    let both = format!("your new water holds {}, the tank {}", facts.pen.n(new.value, 2), facts.pen.n(read.value, 2));
    let share = figure().tap_share.value;
    match new.value / read.value.max(f64::MIN_POSITIVE) {
        ratio if ratio >= share => (Likely, both),
        ratio if ratio >= 0.5 * share && new.kind != Kind::Assumed => (Possible, both),
        _ if new.high < 0.5 * read.low => (StruckOut, both),
        _ if new.kind == Kind::Assumed => (Open, format!("{both}, but nobody told what the tap holds")),
        _ => (Open, both),
    }
}

fn tap_little(facts: &Facts) -> (Standing, String) {
    let floor = knowledge::book().harm.limit.alkalinity_floor_meq_per_l.value();
    let new = facts.plan.alkalinity.new_water;
    let shown = format!("your new water holds {}", facts.pen.alkalinity(new.value));
    if new.value < 2.0 * floor { (Likely, shown) } else { (StruckOut, shown) }
}

fn dosed(facts: &Facts, ion: Option<Ion>) -> (Standing, String) {
    let Some(ion) = ion else { return (Open, "look at what goes in".to_owned()) };
    match facts.planned(ion).map(|level| level.dose_per_day) {
        Some(dose) if dose > 0.0 => {
            let taken = facts.tank.growth.uptake_mg_per_l_day.get(&ion).map_or(0.0, |known| known.value);
            let both = format!(
                "the bottles bring {} mg/L a day, I count on plants taking {}",
                facts.pen.n(dose, 2),
                facts.pen.n(taken, 2)
            );
            (Possible, both)
        }
        _ if facts.tank.at_hand.own.iter().any(|own| own.ions_mg.contains_key(&ion)) => {
            (Possible, "a liquid or powder of your own holds it".to_owned())
        }
        _ => (StruckOut, "nothing that I plan brings it".to_owned()),
    }
}

fn few_plants(facts: &Facts) -> (Standing, String) {
    let growth = &facts.tank.growth;
    let of =
        |map: &std::collections::BTreeMap<Ion, Known<f64>>| map.get(&Ion::Nitrate).map_or(0.0, |known| known.value);
    let (food, taken) = (of(&growth.food_mg_per_l_day), of(&growth.uptake_mg_per_l_day));
    let measured = growth.uptake_mg_per_l_day.get(&Ion::Nitrate).is_some_and(|known| known.kind == Kind::Measured);
    let both =
        format!("they take {} mg/L of nitrate a day, food brings {}", facts.pen.n(taken, 2), facts.pen.n(food, 2));
    match (measured, taken > food) {
        (true, true) => (StruckOut, format!("you weighed it: {both}")),
        (true, false) => (Likely, format!("you weighed it: {both}")),
        (false, true) => (Open, format!("I count that {both}; weigh the trimmings")),
        (false, false) => (Possible, format!("I count that {both}")),
    }
}

/// Changing more helps only where the new water holds less: a rule of harm and of arithmetic. Where no water is changed at all, what stands
/// above the new water has gathered all the same, though the cure is another ([`no_answer`]).
fn changes(facts: &Facts, of: Option<&str>, ion: Option<Ion>) -> (Standing, String) {
    let habits = &facts.tank.habits;
    let none = habits.every_days == 0 || habits.change_share.value <= 0.0 || facts.tank.unchanged_months.is_some();
    if let Some((new, read)) = beside(facts, of, ion)
        && (new.high >= figure().tap_share.value * read.value || (!none && no_answer(facts, ion, new.high)))
    {
        return (
            StruckOut,
            format!(
                "your new water holds {} itself: more of it is no cure for {}",
                facts.pen.n(new.value, 2),
                facts.pen.n(read.value, 2)
            ),
        );
    }
    if habits.every_days == 0 {
        return (Likely, "no water is changed".to_owned());
    }
    let every =
        if habits.every_days == 1 { "every day".to_owned() } else { format!("every {} days", habits.every_days) };
    let share = format!("{} {every}", facts.pen.percent(habits.change_share.value));
    if facts.tank.unchanged_months.is_some() {
        return (Likely, "no water was changed for months".to_owned());
    }
    (Possible, format!("you change {share}"))
}
