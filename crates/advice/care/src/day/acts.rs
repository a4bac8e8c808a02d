//! The acts that are no dose, no food and no change: from the table of the routine to what this tank has.

use jiff::civil::Date;
use knowledge::{ActRow, Needs};
use logbook::What;
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;

use crate::day::{Act, Ask};
use crate::due::{Known, Rhythm, days_between, later};
use crate::kits::Kit;
use crate::log::{Past, is_act};

/// An act with its rhythm.
pub(crate) struct Recurs {
    /// The act as it is today.
    pub act: Act,
    /// What it is on a later day, where that differs.
    pub later: Option<Act>,
    /// When.
    pub rhythm: Rhythm,
    /// What the log says of it.
    pub known: Known,
    /// It goes along with a change.
    pub with_change: bool,
    /// It falls on the day of a change, before it.
    pub before_change: bool,
    /// A rule of harm asks for it on its day.
    pub protects: bool,
    /// Which of two comes first.
    pub rank: u8,
}

/// All of this tank's, the most pressing first.
pub(crate) fn recurs(tank: &Tank, plan: &Plan, past: &Past, kits: &[Kit], pen: &Pen) -> Vec<Recurs> {
    let table = knowledge::book().routine.act.iter().filter(|(_, row)| has(tank, row.needs));
    let mut all: Vec<Recurs> = table.filter_map(|(key, row)| one(tank, plan, past, key, row, pen)).collect();
    all.extend(tests(past, kits));
    all.sort_by_key(|recurs| recurs.rank);
    all
}

/// Whether a tank has what a row of the routine needs.
pub(crate) fn has(tank: &Tank, needs: Option<Needs>) -> bool {
    match needs {
        Some(Needs::Filter) => tank.keeping.filter,
        Some(Needs::CarbonDioxide) => tank.co2_given_mg_per_l.is_some(),
        Some(Needs::Evaporation) => tank.habits.top_up_l_per_day.value > 0.0,
        Some(Needs::StartTest) => tank.animals.any() && !tank.animals.start_test_passed,
        None => true,
    }
}

fn one(tank: &Tank, plan: &Plan, past: &Past, key: &str, row: &ActRow, pen: &Pen) -> Option<Recurs> {
    let every = row.every_days.get(&tank.kind())?.value.max(0.0) as u32;
    let rhythm =
        Rhythm { every_days: every, weekday: (tank.keeping.change_day + 6 + row.after_change) % 7 + 1, week: row.week };
    let harm = &knowledge::book().harm;
    let mut act = Act::new(key, &row.name);
    let alone = !row.with_change || plan.change.every_days == 0;
    if row.hands_in_water && alone {
        act.says.push(harm.rule.plugs_out.say.clone());
    }
    act.says.push(row.say.clone());
    act.says.extend(row.harm.iter().filter_map(|key| harm.say(key)).map(str::to_owned));
    act.done = past.today_done(|what| is_act(what, key));
    act.writes = vec![What::Done { act: key.to_owned() }];
    let known = past.known(|what| is_act(what, key));
    let mut later = None;
    match key {
        "trim" => {
            act.says.extend(tank.weeds(&tank.plants));
            act.writes = vec![What::Trim { wet_grams: None }];
            let logged = |what: &What| if let What::Trim { wet_grams } = what { *wet_grams } else { None };
            act.amount = past.amount_today(logged).map_or_else(String::new, |g| format!("{} g", pen.n(g, 3)));
            act.asks =
                Some(Ask { says: "Wet trimmings, grams".to_owned(), unit: "g".to_owned(), value: None, most: None });
        }
        "cylinder" => act.read_off = true,
        "top_up" => later = Some(top_up(tank, plan, past, &rhythm, pen, &mut act)?),
        _ => {}
    }
    Some(Recurs {
        act,
        later,
        rhythm,
        known,
        with_change: row.with_change && plan.change.every_days > 0,
        before_change: false,
        protects: false,
        rank: row.rank,
    })
}

/// What evaporated since the last time: today's act, and the usual one for later days. `None`: this water is not used.
fn top_up(tank: &Tank, plan: &Plan, past: &Past, rhythm: &Rhythm, pen: &Pen, act: &mut Act) -> Option<Act> {
    let filled = past.known(|what| matches!(what, What::TopUp { .. } | What::Change { .. })).last;
    let usual = i64::from(rhythm.every_days);
    let days = filled.map_or(usual, |last| days_between(last, past.today())).clamp(1, 4 * usual);
    let mut later = act.clone();
    filled_up(tank, plan, usual, pen, &mut later)?;
    filled_up(tank, plan, days, pen, act)?;
    if act.done.is_some() {
        let logged = |what: &What| if let What::TopUp { litres } = what { Some(*litres) } else { None };
        act.amount = past.amount_today(logged).map_or_else(String::new, |litres| pen.litres(litres));
    }
    Some(later)
}

/// Fills in what evaporates in some days, never more than one carries.
fn filled_up(tank: &Tank, plan: &Plan, days: i64, pen: &Pen, act: &mut Act) -> Option<()> {
    let most = knowledge::book().routine.number.carry_l.value;
    let litres = quantity::round_significant((days as f64 * tank.habits.top_up_l_per_day.value).min(most), 2);
    let minds = crate::top_up::minded(tank, plan, litres, pen).ok()?;
    act.amount = format!("about {}", pen.litres(litres));
    act.says.extend(minds);
    act.writes = vec![What::TopUp { litres }];
    let most = Some(tank.geometry.true_l.value);
    act.asks = Some(Ask { says: "Topped up, litres".to_owned(), unit: "L".to_owned(), value: Some(litres), most });
    Some(())
}

/// Tests that are due on the same day are one act. One that would decide nothing is none, nor is one whose kit is not at hand.
fn tests(past: &Past, kits: &[Kit]) -> Vec<Recurs> {
    let mine = kits.iter().filter(|kit| kit.decides && kit.at_hand != Some(false));
    mine.map(|kit| {
        let is = |what: &What| matches!(what, What::Test(reading) if reading.of == kit.key);
        let mut act = Act::new(&format!("test_{}", kit.key), &format!("Test {}", kit.name));
        act.says = vec![kit.says.clone()];
        act.says.extend(kit.minds.clone());
        act.read_off = true;
        act.done = past.today_done(is);
        let (known, before_change, protects) = (past.known(is), kit.before_change, kit.protects);
        let rhythm = kit.rhythm;
        Recurs { act, later: None, rhythm, known, with_change: false, before_change, protects, rank: LAST }
    })
    .collect()
}

/// Rank of a test: after the acts.
const LAST: u8 = u8::MAX;

/// Whether it is the reading of a kit.
pub(crate) fn is_test(key: &str) -> bool {
    key.starts_with("test_") && key != "test_button"
}

/// Several tests of one day in one row.
pub(crate) fn gathered(acts: Vec<Act>) -> Vec<Act> {
    let (tests, mut others): (Vec<Act>, Vec<Act>) = acts.into_iter().partition(|act| is_test(&act.key));
    let open: Vec<Act> = tests.iter().filter(|test| test.done.is_none()).cloned().collect();
    others.extend(tests.into_iter().filter(|test| test.done.is_some()));
    match open.as_slice() {
        [] => {}
        [one] => others.push(one.clone()),
        [first, ..] => {
            let names: Vec<String> = open.iter().map(|act| act.name.trim_start_matches("Test ").to_owned()).collect();
            let mut act = Act::new("tests", &format!("Test {}", recipe::say::list(&names)));
            let says = open.iter().map(|act| {
                let name = act.name.trim_start_matches("Test ");
                format!("{}: {}", recipe::say::capital(name), act.says.first().map_or("", String::as_str))
            });
            act.says = says.collect();
            act.read_off = true;
            act.since = first.since;
            others.push(act);
        }
    }
    others
}

impl Recurs {
    /// Since when it is due on a day, if it was done on `planned` days in between.
    pub(crate) fn due(&self, planned: Option<Date>, on: Date) -> Option<Date> {
        let known = Known { last: planned.or(self.known.last), ..self.known };
        let grace = knowledge::book().routine.number.grace_days.value as u32;
        self.rhythm.due_since(known, on, grace)
    }

    /// The act on a day; carried on, if it was due before. What was done today is to be done again later.
    pub(crate) fn on(&self, date: Date, since: Date, today: Date) -> Act {
        let since = (since < date).then_some(since);
        match &self.later {
            _ if date == today => Act { since, ..self.act.clone() },
            Some(later) => Act { since, done: None, ..later.clone() },
            None => Act { since, done: None, ..self.act.clone() },
        }
    }
}

/// The days of a week from a date on, without it.
pub(crate) fn six_more(date: Date) -> impl Iterator<Item = Date> {
    (1..7).map(move |n| later(date, n))
}
