//! Bringing animals home: the water in the bag and the water in the tank, and the way from one to the other.
//!
//! **What.** Breath makes a closed bag acid and its ammonia nearly harmless; in open water the carbon dioxide leaves, pH rises to
//! that of the tank, and the same ammonia turns toxic. Where that would pass the limit of harm rule 7 the animals go from the
//! bag into the tank at once, without its water; else drop by drop. What differs more than a day's limit (harm rule 6) needs days.
//!
//! **Equation.** toxic = c f(pH, T), f from the speciation; hours = |ΔT| ÷ (1 °C an hour);
//! days of a tub = ln(κ_tank ÷ κ_bag) ÷ ln(1 ± 0.1).
//!
//! **Symbols.** c all ammonia in the bag, mg/L as N; f its toxic share, 0 to 1; κ conductivity at 25 °C, µS/cm.
//!
//! **Range.** That of the speciation; the bag's other ions count as the tank's. At the tank's pH the upper end of its range counts.
//!
//! **Source.** `data/harm.toml` rules 6, 7, 15, 16; the rest common practice (`data/start.toml`).
//!
//! **Checked by** `tests/by_hand_start.rs`, `tests/harm_start.rs`.

use knowledge::book;
use quantity::{Ion, Kind, Why};
use recipe::say::Pen;
use recipe::{Level, Note, Plan};
use setup::Tank;

use crate::start_waters::{self as waters, nh3_share};
use crate::start_words::{counted, days, keyed, note, range, source, up, why};

/// What was measured in the bag; what nobody measured counts as usual, at its bad end.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub struct Bag {
    /// °C.
    pub temperature_c: Option<f64>,
    /// pH.
    pub ph: Option<f64>,
    /// All ammonia, mg/L as N.
    pub ammonia_mg_n_per_l: Option<f64>,
    /// µS/cm at 25 °C.
    pub conductivity_25_us_per_cm: Option<f64>,
}

/// How the animals come from the bag into the tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// At once, without the bag's water: opened, its ammonia would harm.
    AtOnce,
    /// Drop by drop.
    Slowly,
}

/// Bringing animals home.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Home {
    /// mg/L as N of toxic ammonia in the closed bag.
    pub toxic_closed_mg_n_per_l: Option<f64>,
    /// The same once the water is open and has the tank's pH.
    pub toxic_open_mg_n_per_l: Option<f64>,
    /// The way; `None`: the speciation does not reach this water.
    pub way: Option<Way>,
    /// Hours until the bag may have the tank's temperature; `None`: nobody measured the bag.
    pub hours: Option<f64>,
    /// Days in a tub until the conductivity is the tank's; `None`: nobody measured it, or the tank was long unchanged. 0: it may be poured.
    pub tub_days: Option<f64>,
    /// In order.
    pub steps: Vec<Note>,
}

/// Who lives in the tank.
#[derive(Clone, Copy, Debug, Default)]
pub struct Who<'a> {
    /// The keeper told who lives or shall live there.
    pub listed: bool,
    /// Whether animals live there; `None`: nothing says so.
    pub lives: Option<bool>,
    /// Why none comes now.
    pub waits: Option<&'a str>,
}

/// The way home into this tank. A bag without readings counts as usual.
pub fn home(tank: &Tank, plan: &Plan, bag: &Bag, who: &Who) -> (Home, Vec<Why>) {
    let start = &book().start;
    let water = waters::in_tank(tank, plan);
    let ammonia = bag.ammonia_mg_n_per_l.unwrap_or(start.bag_ammonia_mg_n_per_l.value);
    let (ph, at) = (bag.ph.unwrap_or(start.bag_ph.value), bag.temperature_c.unwrap_or(tank.temperature_c.value));
    let closed = nh3_share(&water, ph, at).map(|share| ammonia * share);
    let share = plan.aired.as_ref().map(|aired| aired.nh3_fraction.high);
    let open = share.map(|share| ammonia * share);
    let limit = book().harm.limit.ammonia_unionised_mg_n_per_l.value();
    let way = open.map(|open| if open > limit { Way::AtOnce } else { Way::Slowly });
    let hours = bag
        .temperature_c
        .map(|t| (t - tank.temperature_c.value).abs() / book().harm.limit.temperature_step_c_per_h.value());
    let tank_us = stands_us(tank, plan);
    let tub_days = bag.conductivity_25_us_per_cm.zip(tank_us).map(|(bag, tank)| tub_days(bag, tank));
    let mut home =
        Home { toxic_closed_mg_n_per_l: closed, toxic_open_mg_n_per_l: open, way, hours, tub_days, steps: Vec::new() };
    home.steps = steps(tank, plan, bag, &home, ammonia, ph, who);
    (home, why_open(tank, bag, ammonia, share, open).into_iter().collect())
}

/// Conductivity of the tank by its plan, µS/cm at 25 °C; `None`: a tank long unchanged went its own way, and only a meter knows.
fn stands_us(tank: &Tank, plan: &Plan) -> Option<f64> {
    let us = plan.aired.as_ref().map(|aired| aired.conductivity_25_us_per_cm.value);
    us.filter(|_| tank.unchanged_months.is_none())
}

/// Days by a tenth a day from one conductivity to another; 0 where it is within a tenth.
fn tub_days(from: f64, to: f64) -> f64 {
    let tenth = book().harm.limit.conductivity_step_percent.value() / 100.0;
    if from <= 0.0 || to <= 0.0 || (to / from - 1.0).abs() <= tenth {
        return 0.0;
    }
    let factor = if to > from { 1.0 + tenth } else { 1.0 - tenth };
    up((to / from).ln() / factor.ln())
}

fn why_open(tank: &Tank, bag: &Bag, ammonia: f64, share: Option<f64>, open: Option<f64>) -> Option<Why> {
    let (share, open) = (share?, open?);
    let (pen, limit) = (Pen::new(&tank.units), &book().harm.limit.ammonia_unionised_mg_n_per_l);
    let kind = if bag.ammonia_mg_n_per_l.is_some() { Kind::WorkedOut } else { Kind::Assumed };
    Some(why(
        "bag-ammonia",
        format!("why {} mg/L?", pen.n(open, 2)),
        format!("{} mg/L × {} % = {} mg/L", pen.n(ammonia, 2), pen.n(100.0 * share, 2), pen.n(open, 2)),
        format!("The toxic share at the tank’s own pH, the upper end of its range. {}", limit.say),
        &[source(limit), "phreeqc_386"],
        kind,
    ))
}

fn steps(tank: &Tank, plan: &Plan, bag: &Bag, home: &Home, ammonia: f64, ph: f64, who: &Who) -> Vec<Note> {
    let (pen, harm, start) = (Pen::new(&tank.units), &book().harm, &book().start);
    let mut steps = vec![keyed("Before you go", before(tank, &pen, who), "start_test")];
    steps.extend(ask_the_seller(tank, plan, &pen));
    steps.push(note(
        "On the way",
        "Dark, in a box that keeps its warmth, straight home. Keep the bag closed: closed it is acid, and its ammonia is nearly harmless.",
    ));
    steps.push(keyed("Hands", harm.rule.plugs_out.say.clone(), "plugs_out"));
    steps.push(keyed("Warmth, the bag still closed", warmth(tank, bag, home, &pen), "temperature_step_c_per_h"));
    steps.push(ammonia_says(bag, home, ammonia, ph, &pen));
    let shrimps = range(&pen, &start.drip_shrimps_min);
    let tub = tub(tank, plan, bag, home, &pen);
    let place = if tub.is_some() { "tub" } else { "tank" };
    steps.extend(tub);
    steps.push(match home.way {
        Some(Way::AtOnce) => note(
            "At once, without its water",
            format!(
                "Open the bag, net the animals out and into the {place} within minutes. No dripping, no {place} water into the bag: it would only make the ammonia toxic sooner. Snails too."
            ),
        ),
        _ => note(
            "Slowly",
            format!(
                "Open the bag into a clean bucket used for nothing else; let water of the {place} drip in over {} minutes until there is {} times as much ({} minutes for shrimps, and for all where the conductivity differs by more than {} %). Then net them over into the {place}.",
                range(&pen, &start.drip_min),
                range(&pen, &start.drip_times),
                shrimps,
                pen.n(start.slow_percent.value, 2)
            ),
        ),
    });
    steps.push(note("The bag’s water", "Never into the tank: down the drain. Lamp off until tomorrow, no food today."));
    steps.extend(nitrate(tank, plan, &pen));
    steps.extend(copper(tank, &pen));
    steps.push(keyed(
        "Then",
        format!(
            "Test ammonia and nitrite on each of the first days; the next animals {} days later at the earliest. {}",
            pen.n(start.between_groups_days.value, 2),
            harm.limit.ammonia_unionised_mg_n_per_l.say
        ),
        "ammonia_unionised_mg_n_per_l",
    ));
    steps
}

/// How many come first, and only after the test.
fn before(tank: &Tank, pen: &Pen, who: &Who) -> String {
    let (harm, start) = (&book().harm, &book().start);
    if let Some(waits) = who.waits {
        return waits.to_owned();
    }
    if who.lives == Some(true) {
        return format!(
            "Animals live in it: few new ones at a time, ammonia and nitrite at the lowest step before them, the next {} later at the earliest.",
            days(start.between_groups_days.value)
        );
    }
    let share = start.first_part_percent.value / 100.0;
    let part =
        |n: u32, one: &str, many: &str| (n > 0 && who.listed).then(|| counted(up(share * f64::from(n)), one, many));
    let animals = &tank.animals;
    let first: Vec<String> = [
        part(animals.fish, "fish", "fish"),
        part(animals.shrimps, "shrimp", "shrimps"),
        part(animals.snails, "snail", "snails"),
    ]
    .into_iter()
    .flatten()
    .collect();
    let first = if first.is_empty() {
        format!("At most {} % of those that you plan first", pen.n(start.first_part_percent.value, 2))
    } else {
        format!("Bring a third of them first: {}", recipe::say::list(&first))
    };
    format!("{} {first}. {}", harm.rule.start_test.say, carries(tank, pen))
}

/// What the passed test shows that the filter takes, in food.
fn carries(tank: &Tank, pen: &Pen) -> String {
    let (harm, food) = (&book().harm, &book().uptake.food);
    let litres = tank.geometry.true_l.value;
    let mg = harm.limit.start_test_mg_n_per_l.value() * litres;
    let per_g = food.nitrogen_mg_per_g() * food.nitrogen_returned.high();
    if per_g <= 0.0 {
        return String::new();
    }
    format!(
        "The test shows that at least {} mg of ammonia-nitrogen are taken in a day: as much as comes of {} g of food.",
        pen.n(mg, 2),
        pen.n(mg / per_g, 2)
    )
}

/// The numbers to ask for, each with what this tank has.
fn ask_the_seller(tank: &Tank, plan: &Plan, pen: &Pen) -> Option<Note> {
    let aired = plan.aired.as_ref()?;
    let tenth = book().harm.limit.conductivity_step_percent.value() / 100.0;
    let Some(us) = stands_us(tank, plan) else { return Some(ask_both(tank, pen)) };
    Some(keyed(
        "Ask the seller, or measure the bag",
        format!(
            "Temperature, pH, conductivity, ammonia. Yours are {}, pH {}, {} µS/cm. Between {} and {} µS/cm they need no steps. {}",
            pen.celsius(tank.temperature_c.value),
            pen.n(aired.ph.value, 2),
            pen.n(us, 3),
            pen.n(us / (1.0 + tenth), 3),
            pen.n(us / (1.0 - tenth), 3),
            book().harm.limit.conductivity_step_percent.say
        ),
        "conductivity_step_percent",
    ))
}

/// In a tank long unchanged the keeper measures both.
fn ask_both(tank: &Tank, pen: &Pen) -> Note {
    let harm = &book().harm;
    keyed(
        "Measure the bag and your tank",
        format!(
            "Temperature, pH, conductivity, ammonia of both. Yours was not changed for {}: its conductivity and pH I can’t tell, and it may be \
             acid. Within a tenth of the same conductivity they need no steps; further apart they go into a lidded tub with a sponge filter and \
             heater, never straight into the tank, and from there by a tenth a day. {} {} Better: bring none before it has had its tenths. {}",
            recipe::say::several(&pen.n(tank.unchanged_months.unwrap_or(0.0), 2), "month", "months"),
            harm.limit.conductivity_step_percent.say,
            harm.rule.ph_frees_ammonia.say,
            harm.rule.old_acid_tank.say
        ),
        "conductivity_step_percent",
    )
}

fn warmth(tank: &Tank, bag: &Bag, home: &Home, pen: &Pen) -> String {
    let (limit, start) = (&book().harm.limit, &book().start);
    let a_day = limit.temperature_step_c.value();
    let float = format!("let it float for {} minutes, the lamp off", range(pen, &start.float_min));
    let Some((t, hours)) = bag.temperature_c.zip(home.hours) else {
        return format!(
            "Measure it. Within {} of the tank: {float}. Further off: leave it closed in its box beside the tank. {} {}",
            pen.kelvin(limit.temperature_step_c_per_h.value()),
            limit.temperature_step_c_per_h.say,
            limit.temperature_step_c.say
        );
    };
    let apart = (t - tank.temperature_c.value).abs();
    if hours <= 1.0 + 1e-9 {
        return format!("{} apart: {float}.", recipe::say::capital(&pen.kelvin(apart)));
    }
    if apart <= a_day + 1e-9 {
        return format!(
            "{} apart: leave it closed in its box beside the tank for {}, then float it. {}",
            pen.kelvin(apart),
            counted(up(hours), "hour", "hours"),
            limit.temperature_step_c_per_h.say
        );
    }
    format!(
        "{} apart is too much for one day. {} Not here yet: set the tank to within {} of them before they come, and bring it back over {}. Here already: \
         the same with a tub that has its own heater, the bag closed in its box until it is set.",
        pen.kelvin(apart),
        limit.temperature_step_c.say,
        pen.kelvin(a_day),
        days(up((apart - a_day) / a_day))
    )
}

fn ammonia_says(bag: &Bag, home: &Home, ammonia: f64, ph: f64, pen: &Pen) -> Note {
    let limit = &book().harm.limit.ammonia_unionised_mg_n_per_l;
    let guessed = match (bag.ammonia_mg_n_per_l, bag.ph) {
        (Some(_), Some(_)) => "",
        _ => " Nobody measured the bag: this is what hours of breath usually leave.",
    };
    let text = match (home.toxic_closed_mg_n_per_l, home.toxic_open_mg_n_per_l) {
        (Some(closed), Some(open)) => format!(
            "{} mg/L of ammonia-nitrogen at pH {} holds {} mg/L of the toxic form. In open water at your pH it would be up to {} mg/L; harm starts at {} mg/L.{guessed}",
            pen.n(ammonia, 2),
            pen.n(ph, 2),
            pen.n(closed, 2),
            pen.n(open, 2),
            pen.n(limit.value(), 2)
        ),
        _ => format!(
            "I can’t tell what its ammonia does in your water, for it lies outside what I can work out. {}",
            limit.say
        ),
    };
    keyed("Its ammonia", text, "bag-ammonia")
}

/// A tub of its own where the conductivities differ by more than a day's step.
fn tub(tank: &Tank, plan: &Plan, bag: &Bag, home: &Home, pen: &Pen) -> Option<Note> {
    let (limit, n) = (&book().harm.limit, home.tub_days.filter(|n| *n > 0.0)?);
    let from = bag.conductivity_25_us_per_cm?;
    let to = stands_us(tank, plan)?;
    let made = if from < to {
        format!("{} parts of tank water in ten, the rest low-mineral water", pen.n(10.0 * from / to, 2))
    } else {
        format!("tank water with hardness salts until it reads {} µS/cm", pen.n(from, 3))
    };
    Some(keyed(
        "Their water is not yours",
        format!(
            "{} µS/cm in the bag, {} in the tank. {} So not into the tank today: into a lidded tub with a sponge filter and heater, filled with {made}, and from there by a tenth a day: {}. Or ask for animals that live in water like yours: that is easier on them.",
            pen.n(from, 3),
            pen.n(to, 3),
            limit.conductivity_step_percent.say,
            days(n)
        ),
        "conductivity_step_percent",
    ))
}

/// Nitrate over the strict guideline is told to whoever brings shrimps, snails or young (harm rule 16).
fn nitrate(tank: &Tank, plan: &Plan, pen: &Pen) -> Option<Note> {
    let limit = &book().harm.limit;
    let strict = limit.nitrate_strict_mg_per_l.value();
    let tap = tank.tap.mg_per_l(Ion::Nitrate);
    let level = plan.levels.iter().find(|level| level.ion == Some(Ion::Nitrate));
    let high = level.map_or(tap.high, Level::may_reach);
    (high > strict).then(|| {
        keyed(
            "Shrimps, snails, young fish",
            format!(
                "Your tap brings up to {}, the tank may reach {}. {} {}",
                pen.ion(Ion::Nitrate, tap.high),
                pen.ion(Ion::Nitrate, high),
                limit.nitrate_strict_mg_per_l.say,
                limit.nitrate_practice_low_mg_per_l.say
            ),
            "nitrate_strict_mg_per_l",
        )
    })
}

/// Copper of tap and pipes over the mark at which it is asked is told to whoever brings shrimps or snails (harm rule 4).
fn copper(tank: &Tank, pen: &Pen) -> Option<Note> {
    let limit = &book().harm.limit;
    let most = tank.tap.mg_per_l(Ion::Copper).high + tank.pipes_copper_mg_per_l.high;
    (most > limit.copper_ask_mg_per_l.value()).then(|| {
        keyed(
            "Shrimps and snails: copper",
            format!(
                "Your tap and pipes bring up to {} mg/L. {} {} Ask your supplier, let the tap run, or bring none.",
                pen.n(most, 2),
                limit.copper_ask_mg_per_l.say,
                limit.copper_refuse_mg_per_l.say
            ),
            "copper_ask_mg_per_l",
        )
    })
}
