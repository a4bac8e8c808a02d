//! A cheap clay: acid drop, soak, crumble.
//!
//! What: whether a clay holds lime, gives off ammonia, takes up alkalinity, washes out salts, stays firm; and what a whole bed
//! of it would bring to this tank.
//!
//! Equation: a change in the jar, less that of the jar with water alone, x for a litre: x v/m for a kilogram; of a bed x v/m B/V for a litre of the tank.
//!
//! Symbols: v litres and m kilograms in the jar; B kilograms of the bed, V litres in the tank.
//!
//! Range: a week's soak in tap water; what takes longer, or what no household test sees, is not found.
//!
//! Harm: the vinegar never meets the tank (rule 9); ammonia (rules 7 and 15), alkalinity a day (rule 6).
//!
//! Source: common practice.
//!
//! Checked by: `tests/by_hand_clay.rs`, `tests/harm.rs`.

use quantity::Fault;
use quantity::{Digits, Kind, Known, Measure, format_number};
use setup::{Tank, propagate};

use crate::say::{Pen, rule, why};
use crate::{Flag, Name, Readings, Value, Worked, figures};

/// kg of a bed as deep as this tank's ground, of fired clay.
fn bed_kg(tank: &Tank) -> Option<f64> {
    let g = &tank.geometry;
    let bulk = knowledge::book().substrates.get("fired_clay")?.bulk_density_kg_per_l.value;
    let litres = 1000.0 * g.surface_m2 * (g.ground_front_m + g.ground_back_m) / 2.0;
    (litres > 0.0).then_some(litres * bulk)
}

/// How much of it this tank would take.
pub(crate) fn brief(tank: &Tank) -> Vec<String> {
    let pen = Pen(&tank.units);
    let bed = bed_kg(tank).map(|kg| format!("A bed as deep as yours would be about {} kg of it.", pen.n(kg, 2)));
    bed.into_iter().collect()
}

/// What the tests of a clay say.
pub(crate) fn work(tank: &Tank, readings: &Readings) -> Result<Worked, Fault> {
    let (grams, litres) = (readings.need(Name::Clay, "grams")?, readings.need(Name::Clay, "litres")?);
    let mut worked = Worked::default();
    rubbed(readings, &mut worked);
    ammonia(tank, readings, [grams, litres], &mut worked);
    let taken = alkalinity(tank, readings, [grams, litres], &mut worked);
    lime(readings, taken, &mut worked);
    washed_out(readings, &mut worked);
    Ok(worked)
}

/// A change from one blank to another, with its errors: after less before.
fn change(readings: &Readings, before: &str, after: &str) -> Option<Known<f64>> {
    let (before, after) = (readings.find(before)?, readings.find(after)?);
    Some(propagate(&[before, after], |[b, a]| a - b))
}

fn rubbed(readings: &Readings, worked: &mut Worked) {
    match readings.word(Name::Clay, "rubbed").as_str() {
        "mud" => worked.says.push("It turns to mud: not into a tank, whatever else it does.".to_owned()),
        "soft" => worked.says.push(
            "It is soft: it will crumble to dust within a year or two, and clog. Only under sand, or not at all."
                .to_owned(),
        ),
        "firm" => worked.says.push("It stayed firm.".to_owned()),
        _ => worked.says.push("Rub it again after two weeks: firm is what counts.".to_owned()),
    }
}

/// mg of nitrogen for a kilogram, and what the bed would do.
fn ammonia(tank: &Tank, readings: &Readings, [grams, litres]: [Known<f64>; 2], worked: &mut Worked) {
    let (pen, shows) = (Pen(&tank.units), figures().ammonia_shows_mg_n_per_l.value);
    let Some(read) = readings.find("ammonia") else {
        worked.says.push("Ammonia was not tested: until it was, count on it.".to_owned());
        return;
    };
    let yes = read.value >= shows;
    worked.flags.push(Flag {
        field: "measured.ground_ammonia".to_owned(),
        label: "the ground gives off ammonia".to_owned(),
        yes,
    });
    if !yes {
        worked
            .says
            .push(format!("In a week it gave off less ammonia than the test shows ({} mg/L N).", pen.n(shows, 1)));
        return;
    }
    let a_kg = propagate(&[read, grams, litres], |[n, g, l]| n * l / g * 1000.0);
    let a_kg = Known { kind: Kind::Measured, ..a_kg };
    let sum = format!(
        "{} mg/L × {} L ÷ {} g × 1000 = {} mg of nitrogen for a kilogram",
        pen.n(read.value, 2),
        pen.n(litres.value, 3),
        pen.n(grams.value, 4),
        pen.n(a_kg.value, 2)
    );
    let in_tank = bed_kg(tank)
        .filter(|_| tank.geometry.true_l.value > 0.0)
        .map(|kg| a_kg.value * kg / tank.geometry.true_l.value);
    if let Some(mg) = in_tank {
        worked.says.push(format!(
            "A bed of it would bring about {} mg/L of ammonia (as N) into this tank in a week, and go on. {} {} Soak it in buckets, with the water poured away \
             every other day, until the test shows nothing.",
            pen.n(mg, 2),
            knowledge::book().harm.limit.ammonia_unionised_mg_n_per_l.say,
            rule("start_test")
        ));
    }
    worked.values.push(told(
        "ammonia for a kilogram in a week",
        "mg N/kg",
        a_kg,
        why(
            "clay-ammonia",
            format!("why {} mg?", pen.n(a_kg.value, 2)),
            sum,
            "What left the clay in the jar, counted for a kilogram.",
            &[],
        ),
    ));
}

/// meq that a kilogram takes up (below 0: gives off), where the readings show it.
fn alkalinity(tank: &Tank, readings: &Readings, [grams, litres]: [Known<f64>; 2], worked: &mut Worked) -> Option<f64> {
    let (pen, shows) = (Pen(&tank.units), figures().alkalinity_shows_meq_per_l.value);
    let change = change(readings, "alkalinity_before", "alkalinity_after")?;
    if change.value.abs() < shows {
        worked.says.push("Alkalinity stayed where it was, as far as the test shows.".to_owned());
        return Some(0.0);
    }
    let taken = propagate(&[change, grams, litres], |[d, g, l]| -d * l / g * 1000.0);
    let taken = Known { kind: Kind::Measured, ..taken };
    let in_tank = bed_kg(tank)
        .filter(|_| tank.geometry.true_l.value > 0.0)
        .map(|kg| taken.value * kg / tank.geometry.true_l.value);
    let shown = |meq: f64| {
        let unit = tank.units.hardness;
        format!("{} {}", pen.n(unit.from_meq_per_l(meq.abs(), Measure::Alkalinity), 2), unit.name(Measure::Alkalinity))
    };
    if let Some(meq) = in_tank.filter(|_| taken.value > 0.0) {
        worked.says.push(format!(
            "A bed of it would take {} of alkalinity out of this tank's water, and again after each change until it is loaded. With animals {} So load it in \
             buckets of tap water first, until the alkalinity over it holds for two days.",
            shown(meq),
            knowledge::book().harm.limit.alkalinity_step_meq_per_l.say.replacen("At most", "at most", 1)
        ));
    }
    let words = if taken.value > 0.0 {
        "alkalinity that a kilogram takes up"
    } else {
        "alkalinity that a kilogram gives off (below nought)"
    };
    let sum = format!(
        "{} meq/L × {} L ÷ {} g × 1000 = {} meq for a kilogram",
        pen.n(-change.value, 2),
        pen.n(litres.value, 3),
        pen.n(grams.value, 4),
        pen.n(taken.value, 2)
    );
    worked.values.push(told(
        words,
        "meq/kg",
        taken,
        why(
            "clay-alkalinity",
            format!("why {} meq?", pen.n(taken.value, 2)),
            sum,
            "The change over the clay less the change of water alone, counted for a kilogram.",
            &[],
        ),
    ));
    Some(taken.value)
}

/// Lime: by the drop, and where that leaves it open by the soak.
fn lime(readings: &Readings, taken: Option<f64>, worked: &mut Worked) {
    let rose = taken.is_some_and(|meq| meq < 0.0)
        || change(readings, "ph_before", "ph_after").is_some_and(|change| change.value >= figures().ph_shows.value);
    let yes = match (readings.word(Name::Clay, "vinegar").as_str(), taken) {
        ("lively", _) => Some(true),
        ("few", None) => None,
        ("few", Some(_)) => Some(rose),
        _ => Some(rose),
    };
    let Some(yes) = yes else {
        worked.says.push("A few bubbles may be air from the pores or a trace of lime: the alkalinity over the clay decides, before and after a week.".to_owned());
        return;
    };
    worked.says.push(if yes {
        "It holds lime: hardness and alkalinity will rise, most where carbon dioxide is given. Not for soft water; nothing to fear in hard water.".to_owned()
    } else {
        "No lime showed.".to_owned()
    });
    worked.flags.push(Flag {
        field: "measured.ground_lime".to_owned(),
        label: "the ground holds lime".to_owned(),
        yes,
    });
}

/// Salts that wash out.
fn washed_out(readings: &Readings, worked: &mut Worked) {
    let (Some(change), Some(before)) =
        (change(readings, "conductivity_before", "conductivity_after"), readings.find("conductivity_before"))
    else {
        return;
    };
    let percent = if before.value > 0.0 { 100.0 * change.value / before.value } else { 100.0 };
    if percent > figures().conductivity_shows_percent.value {
        worked.says.push(format!(
            "Salts wash out of it (conductivity up by {} %): rinse until the water over it stands still. {}",
            format_number(percent, Digits::Significant(2)),
            knowledge::book().harm.limit.conductivity_step_percent.say
        ));
    }
}

fn told(label: &str, unit: &str, known: Known<f64>, why: quantity::Why) -> Value {
    Value { field: None, label: label.to_owned(), unit: unit.to_owned(), known, why }
}
