//! From tank, plan and log to a day: what is due, what a day holds, what waits.
//!
//! A day holds at most three acts: first those of every day, or the change, then the tests, then what else is due. What finds no room
//! stands under this week, to be done when it suits. Only tests that a rule of harm asks for (ammonia, nitrite, an alkalinity that may
//! have run out) stand in the day however full it is. On the day of a change the doses stand on its sheet, for they go into the new
//! water, and nothing but tests stands beside it. Tests are one row. What goes along with a change waits for it. A row that is done
//! stays where it is, and nothing new takes its place.

use std::borrow::Cow;
use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use logbook::{Kept, What};
use recipe::Plan;
use recipe::say::Pen;
use setup::Tank;
use trouble::NextChange;

use super::acts::{Recurs, gathered, is_test, recurs, six_more};
use super::begin::{begins, note};
use super::rows::{START_FIRST, change_act, every_day, kind_says, not_set_up};
use super::unchanged::long;
use super::{Act, Day, Later};
use crate::change::{ChangeSheet, Small, sheet, stopped};
use crate::due::{Known, Rhythm};
use crate::living::living;
use crate::log::Past;
use crate::start::Begun;
use crate::{alarm, dose, food, kits, supplies, top_up};

/// What to do on the day of `now` and in the six days after it. `log` may hold any entries in any order; what it says of
/// later than `now` is not read.
pub fn day(tank: &Tank, plan: &Plan, log: &[Kept], now: &ZonedDateTime) -> Day {
    let (pen, past) = (Pen::new(&tank.units), Past::of(log, now));
    if !tank.animals.any() && past.start().is_none() {
        return not_set_up(tank, &past);
    }
    let begun = Begun::of(tank, log, now);
    let usual = plan;
    let of_week = begun.map(|begun| begun.plan(tank, plan, past.today()));
    let plan = of_week.as_ref().unwrap_or(plan);
    let food = food::food(tank);
    let alarms = alarm::alarms(&living(tank, log, now), plan, &past, &pen);
    let kits = kits::kits(tank, plan, &past, begun, &alarms, &pen);
    let settles = top_up::settles(tank, plan, &pen);
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
    planner.begin(begun, usual);
    planner.read = alarms.iter().filter_map(|alarm| alarm.change_most).reduce(f64::min);
    planner.gills = alarms.iter().any(|alarm| alarm.no_food);
    let (today, also) = planner.today(daily);
    let week = six_more(past.today()).map(|date| planner.later(date)).collect();
    let change = planner.sheet.take().map(|sheet| planner.along(sheet));
    let change = change.or_else(|| stopped(tank, plan, past.today()));
    let whys = whys((tank, plan), food.as_ref(), settles.as_ref(), change.as_ref(), &pen);
    Day {
        date: past.today(),
        kind: tank.kind(),
        kind_says: format!("{}{}", kind_says(tank), if begun.is_some() { START_FIRST } else { "" }),
        alarms,
        today,
        also,
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

/// The why-notes of a day.
fn whys(
    (tank, plan): (&Tank, &Plan),
    food: Option<&food::Food>,
    settles: Option<&top_up::Settles>,
    change: Option<&ChangeSheet>,
    pen: &Pen,
) -> Vec<quantity::Why> {
    let mut whys: Vec<quantity::Why> = Vec::new();
    whys.extend(food.map(|food| food::why(tank, food, pen)));
    whys.extend(settles.and_then(|settles| top_up::why(tank, plan, settles, pen)));
    whys.extend(dose::piles_up(tank, plan).map(|piles| piles.why(plan, pen)));
    whys.extend(change.and_then(|sheet| Some(sheet.warmth?.why(sheet, pen))));
    whys.extend(plan.why("change").cloned());
    whys
}

/// When water is changed by the plan: on the keeper's day where it goes by weeks.
pub(crate) fn change_rhythm(tank: &Tank, plan: &Plan) -> Rhythm {
    Rhythm { every_days: plan.change.every_days, weekday: tank.keeping.change_day, week: 0 }
}

/// When water was changed last; the filling of a tank in its first weeks counts as one.
pub(crate) fn changed(past: &Past, begun: Option<Begun>) -> Known {
    let known = past.known(|what| matches!(what, What::Change { .. }));
    Known { last: known.last.max(begun.map(|begun| begun.filled)), ..known }
}

struct Planner<'a> {
    tank: &'a Tank,
    plan: &'a Plan,
    past: &'a Past<'a>,
    pen: &'a Pen,
    recurs: Vec<Recurs>,
    /// The first weeks, and the plan that follows them.
    begun: Option<(Begun, &'a Plan)>,
    /// The day on which each is planned, by key.
    planned: BTreeMap<String, Date>,
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
            begun: None,
            planned: BTreeMap::new(),
            changed: changed(past, None),
            daily,
            sheet: None,
            with: Vec::new(),
            after: Vec::new(),
            read: None,
            gills: false,
        }
    }

    /// In its first weeks a tank has another change from week to week.
    fn begin(&mut self, begun: Option<Begun>, usual: &'a Plan) {
        self.begun = begun.map(|begun| (begun, usual));
        self.changed = changed(self.past, begun);
    }

    /// The plan as it is on a day.
    fn plan_on(&self, date: Date) -> Cow<'a, Plan> {
        match self.begun.filter(|_| date != self.past.today()) {
            Some((begun, usual)) => Cow::Owned(begun.plan(self.tank, usual, date)),
            None => Cow::Borrowed(self.plan),
        }
    }

    /// When water is changed by the plan of a day.
    fn rhythm_on(&self, date: Date) -> Rhythm {
        let usual = change_rhythm(self.tank, self.plan);
        match self.begun {
            Some((begun, plan)) => Rhythm { every_days: begun.every_days(self.tank, plan, date), ..usual },
            None => usual,
        }
    }

    /// Acts of a later day beside those of every day, at most.
    fn room(&self) -> usize {
        acts_a_day().saturating_sub(self.daily).max(1)
    }

    /// Since when a change is due on a day.
    fn change_due(&self, on: Date) -> Option<Date> {
        let last = self.planned.get("change").copied().or(self.changed.last);
        let grace = knowledge::book().routine.number.grace_days.value as u32;
        let small = long(self.tank, self.plan, self.past, on).is_some_and(|long| long.changes > 0);
        let rhythm = match begins(self.tank, self.plan, self.past) {
            _ if small => Rhythm::DAILY,
            // The first falls on the usual day, the next follow it; where nothing hurries they keep to the usual days.
            Some(NextChange { begin, on_usual_days: false, .. }) if self.poured(begin) => {
                Rhythm { every_days: begin.days_apart, ..Rhythm::DAILY }
            }
            _ => self.rhythm_on(on),
        };
        rhythm.due_since(Known { last, ..self.changed }, on, grace)
    }

    /// Whether the last change in the log is one with which the plan begins.
    fn poured(&self, begin: &recipe::Begin) -> bool {
        let last = self.past.entries().rev().find(|(_, kept)| matches!(kept.entry.what, What::Change { .. }));
        last.is_some_and(|(_, kept)| match kept.entry.what {
            // One that was written down without its water is one of them if it is no larger.
            What::Change { litres } => match trouble::poured_us(&kept.entry.note) {
                Some(us) => trouble::part_poured(begin, us).is_some(),
                None => !trouble::over(litres, begin.litres),
            },
            _ => false,
        })
    }

    /// The acts of today, and those that find no room in it.
    fn today(&mut self, daily: Vec<Act>) -> (Vec<Act>, Vec<Act>) {
        let date = self.past.today();
        let (mut acts, mut most) = (daily, usize::MAX);
        let done = self.past.today_done(|what| matches!(what, What::Change { .. }));
        let due = self.change_due(date);
        if let Some(since) = due.or(done.as_ref().map(|_| date)) {
            if let Some(change) = self.change_on(date, since, done) {
                // A dose given before would go out with the old water: it belongs to the change, and stands on its sheet.
                (self.after, acts) = acts.into_iter().partition(|act| act.key.starts_with("dose"));
                acts.push(change);
            }
            most = 0;
        }
        // What is done has the place that it had while it was due.
        let done = self.recurs.iter().filter(|r| r.act.done.is_some() && !self.waits(r));
        let mut others: Vec<(u8, Act)> = done.map(|r| (r.rank, r.act.clone())).collect();
        for (_, act) in &others {
            self.planned.insert(act.key.clone(), date);
        }
        others.extend(self.due_on(date, most));
        others.sort_by_key(|(rank, _)| *rank);
        let (rows, also) = self.placed(others, acts_a_day().saturating_sub(acts.len()));
        acts.extend(rows);
        read_first(&mut acts);
        (acts, also)
    }

    /// What has room in a day, the tests as one row before all else, and what has none.
    fn placed(&self, due: Vec<(u8, Act)>, room: usize) -> (Vec<Act>, Vec<Act>) {
        let due = due.into_iter().map(|(_, act)| act);
        let (tests, mut rows): (Vec<Act>, Vec<Act>) = due.partition(|act| is_test(&act.key));
        let protects = |act: &Act| self.recurs.iter().any(|r| r.protects && r.act.key == act.key);
        let tests_fit = room > 0 || tests.iter().any(protects);
        let left = room.saturating_sub(usize::from(tests_fit && !tests.is_empty()));
        let mut also = rows.split_off(left.min(rows.len()));
        if tests_fit {
            rows.extend(tests);
        } else {
            also.extend(tests);
        }
        (gathered(rows), gathered(also))
    }

    fn later(&mut self, date: Date) -> Later {
        let change = self.change_due(date);
        let stopped = |sheet: &ChangeSheet| sheet.stop.is_some();
        let mut room = self.room();
        if let Some(since) = change {
            self.change_on(date, since, None);
            room = 0;
        }
        let acts = gathered(self.due_on(date, room).into_iter().map(|(_, act)| act).collect());
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
        let plan = self.plan_on(date);
        let mut sheet = sheet(self.tank, &plan, date, carried, small, self.pen)?;
        let says = self.begun.filter(|_| sheet.stop.is_none());
        sheet.first.extend(says.and_then(|(begun, usual)| begun.says(self.tank, usual, date)));
        let with: Vec<Act> = self.along_on(date);
        // Without its salts it is not the plan's new water.
        let note = if small.no_salts { String::new() } else { note(self.plan, begin) };
        let act = change_act(self.tank, &sheet, done, self.past, note);
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

    /// Since when a change is planned on a day and not done yet.
    fn before_change(&self, date: Date) -> Option<Date> {
        let done = self.changed.last == Some(date);
        self.planned.get("change").copied().filter(|planned| *planned == date && !done)
    }

    /// What is due on a day with its rank, as much as there is room for, and its tests, which are one row beside.
    fn due_on(&mut self, date: Date, room: usize) -> Vec<(u8, Act)> {
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
            let due = if recurs.before_change { self.before_change(date) } else { recurs.due(planned, date) };
            let Some(since) = due else { continue };
            // A test tells most on its day: a full day takes it too.
            if !is_test(&recurs.act.key) {
                if rows >= room {
                    continue;
                }
                rows += 1;
            }
            acts.push((recurs.rank, recurs.on(date, since, self.past.today())));
            self.planned.insert(recurs.act.key.clone(), date);
        }
        acts
    }
}

/// Acts that a day holds.
fn acts_a_day() -> usize {
    knowledge::book().routine.number.acts_a_day.value as usize
}

/// What is read stands before the change: it says whether the change may be, and is of the water that stands there (harm rule 3).
fn read_first(acts: &mut [Act]) {
    let at = |acts: &[Act], which: fn(&Act) -> bool| acts.iter().position(which);
    let change = at(acts, |act| act.key == "change" && act.done.is_none());
    if let (Some(change), Some(test)) = (change, at(acts, |act| is_test(&act.key)))
        && change < test
    {
        acts[change..=test].rotate_right(1);
    }
}
