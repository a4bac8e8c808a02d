//! Week by week: hours of light, changes, doses, tests. The first day has a date if the log knows it.

use jiff::ToSpan;
use jiff::civil::Date;
use knowledge::book;
use logbook::{Kept, What};
use recipe::say::Pen;
use recipe::{Note, Plan};
use setup::Tank;

use crate::start::ground::Path;
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
}

/// The day on which the tank was filled, by the log: the last entry that says so.
pub fn filled_on(log: &[Kept]) -> Option<Date> {
    let set_up = |kept: &&Kept| matches!(&kept.entry.what, What::Done { act } if act == SET_UP);
    log.iter().filter(set_up).map(|kept| &kept.entry.at).max().map(|at| at.date())
}

/// Hours of light in a week: they grow by a step a week up to the last.
pub fn light_h(week: u32) -> f64 {
    let start = &book().start;
    let grown = start.light_first_h.value + start.light_step_h.value * f64::from(week.saturating_sub(1));
    grown.min(start.light_last_h.value)
}

/// The weeks of a start.
pub(crate) fn weeks(tank: &Tank, plan: &Plan, path: Path, filled: Option<Date>) -> Vec<Week> {
    let last = book().start.weeks_shown.value as u32;
    (1..=last).map(|week| one(tank, plan, path, filled, week)).collect()
}

fn one(tank: &Tank, plan: &Plan, path: Path, filled: Option<Date>, week: u32) -> Week {
    let start = &book().start;
    let (change_share, every_days) = match path {
        Path::Leaching if f64::from(week) <= start.leach_often_weeks.value => {
            (start.leach_change_percent.value / 100.0, start.leach_every_days.value as u32)
        }
        Path::Leaching if f64::from(week) <= start.leach_weeks.high() => (start.leach_change_percent.value / 100.0, 7),
        // What limits the plan's change limits it for animals: none lives here yet.
        _ => (tank.habits.change_share.value, tank.habits.every_days),
    };
    let fed = plan.bottles.iter().any(|bottle| bottle.daily_ml > 0.0);
    let dose_share = match f64::from(week) {
        _ if !fed => 0.0,
        w if w < start.dose_from_week.value => 0.0,
        w if w < start.dose_full_week.value => start.dose_first_percent.value / 100.0,
        _ => 1.0,
    };
    Week {
        week,
        from: filled.and_then(|date| date.checked_add(i64::from(week - 1).weeks()).ok()),
        light_h: light_h(week),
        change_share: if every_days == 0 { 0.0 } else { change_share },
        change_l: if every_days == 0 { 0.0 } else { change_share * tank.geometry.true_l.value },
        every_days,
        dose_share,
        tests: tests(week, path).to_owned(),
    }
}

fn tests(week: u32, path: Path) -> &'static str {
    match (week, path) {
        (1, Path::Plain) => "temperature every day; pH and alkalinity once",
        (1, Path::Leaching) => "ammonia before each change; pH and alkalinity twice",
        (2, Path::Leaching) => "ammonia before each change",
        (_, Path::Leaching) => "ammonia before the change; the start test once it shows the lowest step by itself",
        _ => "the start test, until it is passed twice",
    }
}

/// What stands under the table.
pub(crate) fn notes(tank: &Tank, plan: &Plan, path: Path) -> Vec<Note> {
    let (pen, start, harm) = (Pen::new(&tank.units), &book().start, &book().harm);
    let mut notes = vec![note(
        "Light",
        format!(
            "{} hours in the first week, {} minutes more each week, {} in the end: more light than plants can use grows algae. More than {} is of no use to most plants.",
            pen.n(start.light_first_h.value, 2),
            pen.n(60.0 * start.light_step_h.value, 2),
            pen.n(start.light_last_h.value, 2),
            pen.n(start.light_last_h.high(), 2)
        ),
    )];
    if path == Path::Leaching {
        notes.extend(leaching(tank, &pen));
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
    if let Some(limited) = &plan.change.limited {
        notes.push(note("Once animals live there", format!("Changes get smaller: {limited}")));
    }
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
                "Filled, filter and heater on, no plant, no light, no change for {} weeks, longer if the test says so: bacteria take up the ammonia. When ammonia and nitrite show the lowest step, change nearly all the water once ({}), plant on that day, and count week one from there. Cheaper in water, slower to look at.",
                span(pen, start.dark_weeks.low(), start.dark_weeks.high()),
                pen.litres(start.dark_change_percent.value / 100.0 * litres)
            ),
        ),
    ]
}
