//! Week by week: hours of light, changes, doses, tests. The first day has a date if the log knows it.
//!
//! Where animals live, or may live, changes are the plan's own, which the rules of harm limit (harm rules 3, 4, 6 and 8); a tap that is
//! refused is in no week, and no ammonia is given.
//!
//! Checked by `tests/harm_start.rs`.

use jiff::ToSpan;
use jiff::civil::Date;
use knowledge::book;
use logbook::{Kept, What};
use recipe::say::Pen;
use recipe::{Note, Plan};
use setup::Tank;

use crate::start::ground::Path;
use crate::start_waters::refused_tap;
use crate::start_words::{days, keyed, note, span, up};

/// The act of the logbook that says on which day the tank was filled.
pub const SET_UP: &str = "set_up";

/// One week.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Week {
    /// 1, 2, 3 ...
    pub week: u32,
    /// Its first day, if the log says when the tank was filled.
    pub from: Option<Date>,
    /// Hours of light a day.
    pub light_h: f64,
    /// Share of the water changed at a time, 0 to 1; 0: none.
    pub change_share: f64,
    /// L of it.
    pub change_l: f64,
    /// Days from one change to the next; 0: none.
    pub every_days: u32,
    /// Share of the daily dose, 0 to 1.
    pub dose_share: f64,
    /// What is tested.
    pub tests: String,
    /// When ammonia is.
    pub ammonia: Ammonia,
}

/// When ammonia is tested in a week of the start.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Ammonia {
    /// With nitrite every day: animals live in a tank that never passed the start test.
    EveryDay,
    /// Before each change: the ground gives it off.
    BeforeEachChange,
    /// In the days after each new animal.
    AfterNewcomers,
    /// With the start test.
    StartTest,
}

/// The day on which the tank was filled, by the log: the last entry that says so.
pub fn filled_on(log: &[Kept]) -> Option<Date> {
    let set_up = |kept: &&Kept| matches!(&kept.entry.what, What::Done { act } if act == SET_UP);
    log.iter().filter(set_up).map(|kept| &kept.entry.at).max().map(|at| at.date())
}

/// Hours of light in a week: they grow by a step a week up to those of the keeper, where these are of use to plants.
pub fn light_h(tank: &Tank, week: u32) -> f64 {
    let start = &book().start;
    let grown = start.light_first_h.value + start.light_step_h.value * f64::from(week.saturating_sub(1));
    grown.min(last_h(tank))
}

/// Hours of light in the end.
fn last_h(tank: &Tank) -> f64 {
    tank.keeping.light_h.value.min(book().start.light_last_h.high())
}

/// The weeks of a start.
pub(crate) fn weeks(tank: &Tank, plan: &Plan, path: Path, filled: Option<Date>, lives: Option<bool>) -> Vec<Week> {
    let last = book().start.weeks_shown.value as u32;
    (1..=last).map(|week| one(tank, plan, path, filled, week, lives)).collect()
}

/// Share and days of a week's changes.
fn change(tank: &Tank, plan: &Plan, path: Path, week: u32, lives: Option<bool>) -> (f64, u32) {
    let start = &book().start;
    let leaches = start.leach_change_percent.value / 100.0;
    match path {
        _ if refused_tap(tank, plan).is_some() => (0.0, 0),
        Path::Leaching if lives == Some(true) => (plan.change.share, plan.change.every_days),
        Path::Leaching if f64::from(week) <= start.leach_often_weeks.value => {
            (leaches, start.leach_every_days.value as u32)
        }
        Path::Leaching if f64::from(week) <= start.leach_weeks.high() => (leaches, 7),
        // What limits the plan's change limits it for animals.
        _ if lives == Some(false) => (tank.habits.change_share.value, tank.habits.every_days),
        _ => (plan.change.share, plan.change.every_days),
    }
}

/// Share of the daily dose in a week, 0 to 1; 0 where nothing is dosed.
pub(crate) fn dose_share(plan: &Plan, week: u32) -> f64 {
    let start = &book().start;
    match f64::from(week) {
        _ if !plan.bottles.iter().any(|bottle| bottle.daily_ml > 0.0) => 0.0,
        w if w < start.dose_from_week.value => 0.0,
        w if w < start.dose_full_week.value => start.dose_first_percent.value / 100.0,
        _ => 1.0,
    }
}

/// A week of a tank.
pub(crate) fn one(tank: &Tank, plan: &Plan, path: Path, filled: Option<Date>, week: u32, lives: Option<bool>) -> Week {
    let (change_share, every_days) = change(tank, plan, path, week, lives);
    let ammonia = match path {
        _ if lives == Some(true) && tank.animals.start_test_passed => Ammonia::AfterNewcomers,
        _ if lives == Some(true) => Ammonia::EveryDay,
        Path::Leaching => Ammonia::BeforeEachChange,
        Path::Plain => Ammonia::StartTest,
    };
    Week {
        week,
        from: filled.and_then(|date| date.checked_add(i64::from(week - 1).weeks()).ok()),
        light_h: light_h(tank, week),
        change_share: if every_days == 0 { 0.0 } else { change_share },
        change_l: if every_days == 0 { 0.0 } else { change_share * tank.geometry.true_l.value },
        every_days,
        dose_share: dose_share(plan, week),
        tests: tests(week, ammonia).to_owned(),
        ammonia,
    }
}

fn tests(week: u32, ammonia: Ammonia) -> &'static str {
    match (ammonia, week) {
        (Ammonia::AfterNewcomers, _) => "ammonia and nitrite in the days after each new animal",
        (Ammonia::EveryDay, _) => "ammonia and nitrite every day",
        (Ammonia::StartTest, 1) => "temperature every day; pH and alkalinity once",
        (Ammonia::BeforeEachChange, 1) => "ammonia before each change; pH and alkalinity twice",
        (Ammonia::BeforeEachChange, 2) => "ammonia before each change",
        (Ammonia::BeforeEachChange, _) => {
            "ammonia before the change; the start test once it shows the lowest step by itself"
        }
        (Ammonia::StartTest, _) => "the start test, until it is passed twice",
    }
}

/// What stands under the table.
pub(crate) fn notes(tank: &Tank, plan: &Plan, path: Path, lives: Option<bool>) -> Vec<Note> {
    let (pen, start, harm) = (Pen::new(&tank.units), &book().start, &book().harm);
    let mut notes = vec![note(
        "Light",
        format!(
            "{}: more light than plants can use grows algae. More than {} is of no use to most plants.",
            if light_h(tank, 1) < last_h(tank) {
                format!(
                    "{} hours in the first week, {} minutes more each week, {} in the end",
                    pen.n(light_h(tank, 1), 2),
                    pen.n(60.0 * start.light_step_h.value, 2),
                    pen.n(last_h(tank), 2)
                )
            } else {
                format!("{} hours from the first week on", pen.n(last_h(tank), 2))
            },
            pen.n(start.light_last_h.high(), 2)
        ),
    )];
    match path {
        Path::Leaching if lives == Some(true) && tank.animals.start_test_passed => {}
        Path::Leaching if lives == Some(true) => notes.push(leaches_on_animals()),
        Path::Leaching => notes.extend(leaching(tank, &pen)),
        Path::Plain => {}
    }
    if plan.bottles.iter().any(|bottle| bottle.daily_ml > 0.0) {
        notes.push(note(
            "Bottles",
            format!(
                "No dose in the first week, half from week {} on, the whole from week {} on: new plants first grow roots and live on what they hold.",
                pen.n(start.dose_from_week.value, 2),
                pen.n(start.dose_full_week.value, 2)
            ),
        ));
    }
    notes.extend(changes(tank, plan, path, lives, &pen));
    if tank.co2_given_mg_per_l.is_some() {
        let text = format!(
            "Without an animal it may run from the first day, at {} mg/L. Before the first animal comes it goes off for a day, then is raised over days: {} {} {} {}",
            pen.n(harm.limit.co2_aim_mg_per_l.value(), 2),
            harm.limit.co2_most_mg_per_l.say,
            harm.rule.co2_upper_end.say,
            harm.rule.co2_never_raised.say,
            harm.rule.filter_and_air_stay.say
        );
        notes.push(keyed("Carbon dioxide", text, "co2_upper_end"));
    }
    notes.push(note(
        "Brown dust and threads",
        "Both are usual in new tanks and go by themselves. Wipe the glass, take threads out by hand, change nothing else. Leaves that plants had in air melt: cut them off.",
    ));
    notes.push(keyed("Hands in the water", format!("{} {}", harm.rule.plugs_out.say, harm.rule.siphon.say), "siphon"));
    notes
}

/// What limits the changes, and what holds while no animal is in it.
fn changes(tank: &Tank, plan: &Plan, path: Path, lives: Option<bool>, pen: &Pen) -> Option<Note> {
    let refused = refused_tap(tank, plan);
    let says = plan.change.limited.clone().or_else(|| refused.clone())?;
    let habits = &tank.habits;
    let until = format!(
        " While no animal is in it, snails included: {} every {}, as you told.",
        pen.litres(habits.change_share.value * tank.geometry.true_l.value),
        days(f64::from(habits.every_days))
    );
    Some(match (lives, refused) {
        (Some(true), _) => keyed("Changes", says, "in_steps"),
        (_, Some(_)) => {
            note("Changes", format!("{says} What is filled in with it now still stands there when the animals come."))
        }
        (None, None) if path == Path::Plain => {
            keyed("Changes", format!("With animals in it: {says}{until}"), "in_steps")
        }
        _ => keyed("Once animals live there", format!("Changes get smaller: {says}"), "in_steps"),
    })
}

/// A ground that gives off ammonia under animals: no half changes, but tests.
fn leaches_on_animals() -> Note {
    let limit = &book().harm.limit;
    keyed(
        "This ground gives off ammonia",
        format!(
            "And animals live in it: test ammonia and nitrite every day, feed little, bring no further animal, and change no more than stands \
             above. {} If it shows: Help now.",
            limit.ammonia_unionised_mg_n_per_l.say
        ),
        "ammonia_unionised_mg_n_per_l",
    )
}

/// Two ways for a ground that gives off ammonia, with the water that each takes.
fn leaching(tank: &Tank, pen: &Pen) -> Vec<Note> {
    let (start, litres) = (&book().start, tank.geometry.true_l.value);
    let share = start.leach_change_percent.value / 100.0;
    let often = up(7.0 * start.leach_often_weeks.value / start.leach_every_days.value);
    let weekly = (start.leach_weeks.high() - start.leach_often_weeks.value).max(0.0);
    let (from, to) = (start.leach_ammonium_mg_per_l.high(), start.leach_ammonium_mg_per_l.low());
    let halvings = up((to / from).ln() / (1.0 - share).ln());
    vec![
        keyed(
            "This ground gives off ammonia",
            format!(
                "For {} weeks, {} mg/L of ammonium without soaking. A change of {} % halves it: from {} to {} mg/L that is {} changes, if nothing new comes. No animal meanwhile, snails included; then the start test as everywhere.",
                span(pen, start.leach_weeks.low(), start.leach_weeks.high()),
                span(pen, to, from),
                pen.n(start.leach_change_percent.value, 2),
                pen.n(from, 2),
                pen.n(to, 2),
                recipe::say::count(halvings as u32)
            ),
            "start_test",
        ),
        note(
            "Way one: planted at once",
            format!(
                "{} every {} for {} weeks, then once a week until a test before the change shows the lowest step: {} changes, {} of water in all, each with conditioner.",
                pen.litres(share * litres),
                if start.leach_every_days.value <= 1.0 { "day".to_owned() } else { days(start.leach_every_days.value) },
                pen.n(start.leach_often_weeks.value, 2),
                pen.n(often + weekly, 2),
                pen.litres((often + weekly) * share * litres)
            ),
        ),
        note(
            "Way two: in the dark",
            format!(
                "Filled, {}, no plant, no light, no change for {} weeks, longer if the test says so: bacteria take up the ammonia. When ammonia and nitrite show the lowest step, change nearly all the water once ({}), plant on that day, and count week one from there. Cheaper in water, slower to look at.",
                if tank.keeping.filter { "filter and heater on" } else { "heater on" },
                span(pen, start.dark_weeks.low(), start.dark_weeks.high()),
                pen.litres(start.dark_change_percent.value / 100.0 * litres)
            ),
        ),
    ]
}
