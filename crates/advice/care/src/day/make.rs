//! From tank, plan and log to a day: what is due, what a day holds, what waits.
//!
//! A day holds the acts of every day and one or two others; what does not fit waits for the next. On the day of a change the
//! doses stand on its sheet, for they go into the new water. Tests stand on their day, in one row, however full it is. What
//! goes along with a change waits for it. A row that is done stays where it is, and nothing new takes its place.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use logbook::{Kept, What};
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;

use super::acts::{Recurs, gathered, is_test, recurs, six_more};
use super::begin::{begins, note};
use super::unchanged::long;
use super::{Act, Ask, Day, Later};
use crate::change::{ChangeSheet, Small, sheet, stopped};
use crate::due::{Known, Rhythm};
use crate::log::Past;
use crate::start::SET_UP;
use crate::{alarm, dose, food, kits, supplies, top_up};

/// What to do on the day of `now` and in the six days after it. `log` may hold any entries in any order; what it says of
/// later than `now` is not read.
pub fn day(tank: &Tank, plan: &Plan, log: &[Kept], now: &ZonedDateTime) -> Day {
    let (pen, past) = (Pen::new(&tank.units), Past::of(log, now));
    if !tank.animals.any() && past.start().is_none() {
        return not_set_up(tank, &past);
    }
    let eased = crate::start::eased(plan, log, now);
    let plan = eased.as_ref().unwrap_or(plan);
    let food = food::food(tank);
    let kits = kits::kits(tank, plan, &past, &pen);
    let settles = top_up::settles(tank, plan, &pen);
    let alarms = alarm::alarms(tank, plan, &past, &pen);
    let acts = |past: &Past| {
        let mut daily = dose::acts(tank, plan, past, &pen);
        daily.extend(food.as_ref().map(|food| food::act(tank, food, past, &pen)));
        daily
    };
    // The wall hangs for weeks: what the plan says, not what was given today.
    let every_day = acts(&past.before_today()).iter().map(every_day).collect();
    let mut daily = acts(&past);
    if alarms.iter().any(|alarm| alarm.no_food) {
        daily = daily.into_iter().map(|act| if act.key == "feed" { food::fasting(act) } else { act }).collect();
    }
    let mut planner = Planner::new(tank, plan, &past, &pen, &kits, daily.len());
    planner.read = alarms.iter().filter_map(|alarm| alarm.change_most).reduce(f64::min);
    planner.gills = alarms.iter().any(|alarm| alarm.no_food);
    let today = planner.today(daily);
    let week = six_more(past.today()).map(|date| planner.later(date)).collect();
    let change = planner.sheet.take().map(|sheet| planner.along(sheet));
    let change = change.or_else(|| stopped(tank, plan, past.today()));
    let mut whys: Vec<quantity::Why> = Vec::new();
    whys.extend(food.as_ref().map(|food| food::why(tank, food, &pen)));
    whys.extend(settles.as_ref().and_then(|settles| top_up::why(tank, plan, settles, &pen)));
    whys.extend(dose::piles_up(tank, plan).map(|piles| piles.why(plan, &pen)));
    whys.extend(change.as_ref().and_then(|sheet| Some(sheet.warmth?.why(sheet, &pen))));
    whys.extend(plan.why("change").cloned());
    Day {
        date: past.today(),
        kind: tank.kind(),
        kind_says: format!("{}{}", kind_says(tank), if crate::start::begins(log, now) { START_FIRST } else { "" }),
        alarms,
        today,
        week,
        every_day,
        change_every_days: plan.change.every_days,
        change_weekday: tank.keeping.change_day,
        change,
        food,
        top_up: settles,
        tests: kits,
        supplies: supplies::supplies(tank, plan, &past, &pen),
        whys,
    }
}

/// What goes before the routine while a tank begins.
const START_FIRST: &str =
    " In these first weeks the changes and tests of Start go before the usual ones here: look there for its week.";

fn kind_says(tank: &Tank) -> String {
    knowledge::book().routine.kind.get(&tank.kind()).map_or_else(String::new, |row| row.words.clone())
}

/// Nobody lives there and nothing was ever written down: there may be no water yet, so nothing is dosed, filled up or changed.
fn not_set_up(tank: &Tank, past: &Past) -> Day {
    let mut act = Act::new(SET_UP, "Set the tank up first");
    act.says = vec![
        "Start has its day and its first weeks. Doses, topping up and changes stand here once it tells that the tank is filled."
            .to_owned(),
    ];
    let later = |date| Later { date, acts: Vec::new(), change: false };
    Day {
        date: past.today(),
        kind: tank.kind(),
        kind_says: kind_says(tank),
        alarms: Vec::new(),
        today: vec![act],
        week: six_more(past.today()).map(later).collect(),
        every_day: Vec::new(),
        change_every_days: 0,
        change_weekday: tank.keeping.change_day,
        change: None,
        food: None,
        top_up: None,
        tests: Vec::new(),
        supplies: Vec::new(),
        whys: Vec::new(),
    }
}

/// When water is changed by the plan: on the keeper's day where it goes by weeks.
pub(crate) fn change_rhythm(tank: &Tank, plan: &Plan) -> Rhythm {
    Rhythm { every_days: plan.change.every_days, weekday: tank.keeping.change_day, week: 0 }
}

struct Planner<'a> {
    tank: &'a Tank,
    plan: &'a Plan,
    past: &'a Past<'a>,
    pen: &'a Pen,
    recurs: Vec<Recurs>,
    /// The day on which each is planned, by key.
    planned: BTreeMap<String, Date>,
    change: Rhythm,
    changed: Known,
    daily: usize,
    /// The first change from today on.
    sheet: Option<ChangeSheet>,
    /// What goes along with it.
    with: Vec<Act>,
    /// The doses of today, where they go into the new water of today's change.
    after: Vec<Act>,
    /// The most at once by the latest readings, 0 to 1.
    read: Option<f64>,
    /// Ammonia or nitrite shows, or may.
    gills: bool,
}

impl<'a> Planner<'a> {
    fn new(tank: &'a Tank, plan: &'a Plan, past: &'a Past<'a>, pen: &'a Pen, kits: &[kits::Kit], daily: usize) -> Self {
        Planner {
            tank,
            plan,
            past,
            pen,
            recurs: recurs(tank, plan, past, kits, pen),
            planned: BTreeMap::new(),
            change: change_rhythm(tank, plan),
            changed: past.known(|what| matches!(what, What::Change { .. })),
            daily,
            sheet: None,
            with: Vec::new(),
            after: Vec::new(),
            read: None,
            gills: false,
        }
    }

    /// Acts of a day beside those of every day, at most.
    fn room(&self) -> usize {
        let most = knowledge::book().routine.number.acts_a_day.value as usize;
        most.saturating_sub(self.daily).max(1)
    }

    /// Since when a change is due on a day.
    fn change_due(&self, on: Date) -> Option<Date> {
        let last = self.planned.get("change").copied().or(self.changed.last);
        let grace = knowledge::book().routine.number.grace_days.value as u32;
        let small = long(self.tank, self.plan, self.past, on).is_some_and(|long| long.changes > 0);
        let rhythm = match begins(self.tank, self.plan, self.past) {
            _ if small => Rhythm::DAILY,
            // The first falls on the usual day, the next follow it.
            Some(begin) if self.poured(begin) => Rhythm { every_days: begin.days_apart, ..Rhythm::DAILY },
            _ => self.change,
        };
        rhythm.due_since(Known { last, ..self.changed }, on, grace)
    }

    /// Whether the last change in the log is one with which the plan begins.
    fn poured(&self, begin: &recipe::Begin) -> bool {
        let last = self.past.entries().rev().find(|(_, kept)| matches!(kept.entry.what, What::Change { .. }));
        last.is_some_and(|(_, kept)| kept.entry.note == note(begin))
    }

    fn today(&mut self, mut daily: Vec<Act>) -> Vec<Act> {
        let date = self.past.today();
        let mut acts = std::mem::take(&mut daily);
        let done = self.past.today_done(|what| matches!(what, What::Change { .. }));
        let due = self.change_due(date);
        let mut room = self.room();
        if let Some(since) = due.or(done.as_ref().map(|_| date)) {
            if let Some(change) = self.change_on(date, since, done) {
                // A dose given before would go out with the old water: it belongs to the change, and stands on its sheet.
                (self.after, acts) = acts.into_iter().partition(|act| act.key.starts_with("dose"));
                acts.push(change);
            }
            room = 0;
        }
        // What was done stays; what is due fills the rest.
        let done: Vec<Act> =
            self.recurs.iter().filter(|r| r.act.done.is_some() && !self.waits(r)).map(|r| r.act.clone()).collect();
        for act in &done {
            self.planned.insert(act.key.clone(), date);
        }
        room = room.saturating_sub(done.len());
        let mut others = done;
        others.extend(self.due_on(date, room));
        acts.extend(gathered(others));
        acts
    }

    fn later(&mut self, date: Date) -> Later {
        let change = self.change_due(date);
        let stopped = |sheet: &ChangeSheet| sheet.stop.is_some();
        let mut room = self.room();
        if let Some(since) = change {
            self.change_on(date, since, None);
            room = 0;
        }
        let acts = gathered(self.due_on(date, room));
        let change = change.is_some() && !self.sheet.as_ref().is_some_and(stopped);
        Later { date, acts, change }
    }

    /// The act of a change; nothing where this water is not used.
    fn change_on(&mut self, date: Date, since: Date, done: Option<super::Done>) -> Option<Act> {
        self.planned.insert("change".to_owned(), date);
        let carried = (since < date).then_some(since);
        let begin = begins(self.tank, self.plan, self.past);
        let long = long(self.tank, self.plan, self.past, date);
        let small = Small { long, begin, read: self.read, no_salts: self.gills };
        let sheet = sheet(self.tank, self.plan, date, carried, small, self.pen)?;
        let with: Vec<Act> = self.along_on(date);
        let act = change_act(&sheet, done, self, small.bare());
        if self.sheet.is_none() {
            (self.sheet, self.with) = (Some(sheet), with);
        }
        act
    }

    /// What goes along with a change on a day, done or due.
    fn along_on(&mut self, date: Date) -> Vec<Act> {
        let mut along = Vec::new();
        // What lives in the sponge is needed while ammonia or nitrite shows.
        let rests = |r: &Recurs| self.gills && r.act.key == "sponge" && r.act.done.is_none();
        for recurs in self.recurs.iter().filter(|r| r.with_change && !rests(r)) {
            let planned = self.planned.get(&recurs.act.key).copied();
            let done = recurs.act.done.is_some() && date == self.past.today();
            if let Some(since) = recurs.due(planned, date).or(done.then_some(date)) {
                along.push(Act { since: None, ..recurs.on(date, since, self.past.today()) });
                self.planned.insert(recurs.act.key.clone(), date);
            }
        }
        along
    }

    fn along(&mut self, sheet: ChangeSheet) -> ChangeSheet {
        let along = if sheet.stop.is_some() { Vec::new() } else { std::mem::take(&mut self.with) };
        ChangeSheet { along, after: std::mem::take(&mut self.after), ..sheet }
    }

    /// Whether it goes along with the change, and has no row of its own.
    fn waits(&self, recurs: &Recurs) -> bool {
        recurs.with_change && self.plan.change.share > 0.0
    }

    /// What is due on a day, as much as there is room for, and its tests, which are one row beside.
    fn due_on(&mut self, date: Date, room: usize) -> Vec<Act> {
        let (mut acts, mut rows) = (Vec::new(), 0);
        for recurs in &self.recurs {
            let done_today = recurs.act.done.is_some() && date == self.past.today();
            if self.waits(recurs) || done_today || (self.gills && recurs.act.key == "sponge") {
                continue;
            }
            // A change fills up too.
            let planned = self.planned.get(&recurs.act.key).copied();
            let changed = self.planned.get("change").copied().or(self.changed.last);
            let planned =
                if recurs.act.key == "top_up" { planned.max(changed.max(recurs.known.last)) } else { planned };
            let Some(since) = recurs.due(planned, date) else { continue };
            // A test tells most on its day: a full day takes it too.
            if !is_test(&recurs.act.key) {
                if rows >= room {
                    continue;
                }
                rows += 1;
            }
            acts.push(recurs.on(date, since, self.past.today()));
            self.planned.insert(recurs.act.key.clone(), date);
        }
        acts
    }
}

/// "Every evening, bottle one: 5 mL".
fn every_day(act: &Act) -> String {
    match act.name.strip_prefix("This ") {
        Some(name) => format!("Every {name}: {}", act.amount),
        None => format!("Every day, {}: {}", act.name.to_lowercase(), act.amount),
    }
}

/// The row of a change.
fn change_act(sheet: &ChangeSheet, done: Option<super::Done>, planner: &Planner, bare: bool) -> Option<Act> {
    if sheet.stop.is_some() {
        return None;
    }
    let mut act = Act::new("change", "Change water");
    // What is done shows what was done.
    let logged = |what: &What| if let What::Change { litres } = what { Some(*litres) } else { None };
    let logged = done.as_ref().and_then(|_| planner.past.amount_today(logged));
    act.amount = planner.pen.litres(logged.unwrap_or(sheet.litres));
    act.says =
        vec!["In the order of the sheet below: plugs out with dry hands, 15 minutes, conditioner first.".to_owned()];
    act.since = sheet.since;
    act.done = done;
    act.writes = vec![What::Change { litres: quantity::round_significant(sheet.litres, 3) }];
    act.says.extend(top_up::copper_untold(planner.tank));
    // Without its salts it is not the plan's new water.
    act.note = planner.plan.begin.as_ref().filter(|_| !bare).map(note).unwrap_or_default();
    act.asks = Some(Ask {
        says: "Changed, litres".to_owned(),
        unit: "L".to_owned(),
        value: Some(quantity::round_significant(sheet.litres, 3)),
        most: Some(knowledge::book().routine.number.change_most_times.value * planner.tank.geometry.true_l.value),
    });
    Some(act)
}
