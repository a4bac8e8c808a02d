//! Another tap after a move: from the water that stands in the tank to the new one, in changes that animals bear.
//!
//! **What.** A change of share x moves each level by x (new - now). A day's change is the largest that keeps alkalinity, hardness,
//! conductivity and the rise of nutrients within a day's limit at either end of both waters' ranges; once the plan's own change keeps them too, the way
//! is over.
//!
//! **Equation.** x = min over levels of limit ÷ |new - now|, at most the plan's own share; now -> now + x (new - now). For
//! conductivity the limit is a tenth of now. Water taken along: on the first day the tank may be new water by x, now judged for a tank of
//! new water and its ammonia (`moving/first.rs`), so (1 - x) V goes along; all of it where the new tap is refused.
//!
//! **Symbols.** x 0 to 1, V true litres; meq/L, µS/cm at 25 °C.
//!
//! **Range.** Levels that mix in proportion; conductivity so within a few per cent. pH never mixes: it is solved at both ends. Plants
//! and food are left out: they move the levels by less than a day's limit.
//!
//! **Source.** Limits: `data/harm.toml` rules 3, 6, 7, 8, common practice.
//!
//! **Checked by** `tests/by_hand_moving.rs`, `tests/by_hand_moving_log.rs` (by hand), `tests/harm_away.rs`.

mod first;
mod lean;
mod made;
mod stands;
mod way;

use jiff::ZonedDateTime;
use knowledge::book;
use logbook::Kept;
use quantity::Why;
use recipe::say::Pen;
use recipe::{Indices, Note, Plan, aired, hardness_meq};
use setup::{SourceWater, Tank};

use self::first::{First, along, ammonia_share, first_day};
use self::lean::lean;
use self::stands::stands;
use self::way::{OLD, Way, binds, ways, why_first};
use crate::log::Past;
pub use crate::start_waters::with_tap;
use crate::start_waters::{new_water, refused_tap};
use crate::start_words::{days, keyed, note, range};

/// What is held within a day's limit, at the best estimate; `None`: nobody knows, for the tank was not changed for months and not read.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Marks {
    /// meq/L.
    pub alkalinity_meq_per_l: Option<f64>,
    /// meq/L.
    pub hardness_meq_per_l: Option<f64>,
    /// µS/cm at 25 °C.
    pub conductivity_25_us_per_cm: Option<f64>,
}

impl Marks {
    /// The three in their order.
    pub fn all(&self) -> [Option<f64>; 3] {
        [self.alkalinity_meq_per_l, self.hardness_meq_per_l, self.conductivity_25_us_per_cm]
    }

    fn of([alkalinity, hardness, conductivity]: [Option<f64>; 3]) -> Marks {
        Marks {
            alkalinity_meq_per_l: alkalinity,
            hardness_meq_per_l: hardness,
            conductivity_25_us_per_cm: conductivity,
        }
    }
}

/// The change of one day.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Step {
    /// 1, 2, 3 ...
    pub day: u32,
    /// Share of the water, 0 to 1.
    pub share: f64,
    /// L of it.
    pub litres: f64,
    /// The coldest that the new water may be, °C: the tank then moves by a degree.
    pub coldest_c: f64,
    /// After it.
    pub after: Marks,
}

impl Step {
    /// Whether a tap could bring water that is too cold: none is colder than ice.
    pub fn may_be_too_cold(&self) -> bool {
        self.coldest_c > 0.0
    }
}

/// The way to another water.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Moving {
    /// The answer in a sentence.
    pub answer: String,
    /// Before the first change.
    pub from: Marks,
    /// The new water of a change, with the salts stirred into it.
    pub to: Marks,
    /// What keeps a tank of new water from going in at once: `alkalinity`, `hardness`, `conductivity`, a nutrient that rises, `ammonia`,
    /// `an old tank`; `None`: nothing does.
    pub limited_by: Option<&'static str>,
    /// What forbids the new tap with these animals: then there are no steps.
    pub stopped: Option<String>,
    /// A change a day; empty where the new plan's own change is within all limits at once.
    pub steps: Vec<Step>,
    /// The way would take more days than anybody keeps to.
    pub too_long: bool,
    /// L of the old water to carry along, so that the first filling is within the limits; all of it where the tap is refused.
    pub take_along_l: f64,
    /// What must be known: ammonia, the day of the move.
    pub notes: Vec<Note>,
    /// Why-notes.
    pub whys: Vec<Why>,
}

/// From the tank as it stands by its log, else under its plan, to the new water of the same tank at another tap under its plan there.
pub fn moving(old: (&Tank, &Plan), new: (&Tank, &Plan), log: &[Kept], now: &ZonedDateTime) -> Moving {
    let (tank, pen) = (old.0, Pen::new(&old.0.units));
    let stands = stands(old.0, old.1, &Past::of(log, now));
    let to_water = new_water(new.0, new.1);
    let (before, after) = (aired(tank, &stands.water), aired(tank, &to_water));
    let us = |indices: &Option<Indices>| indices.as_ref().map_or(0.0, |i| i.conductivity_25_us_per_cm.value);
    let us = (stands.us_per_cm.unwrap_or(us(&before)), us(&after));
    let (from, to) = (marks(&stands.water, us.0, stands.known), marks(&to_water, us.1, [true; 3]));
    let mut ways = ways(&stands.water, &to_water, us);
    let ammonia = ammonia_share(new, [before.as_ref(), after.as_ref()]);
    let enough = enough(new.1).min(ammonia);
    let tenth = tenth(tank, &stands.water);
    let stopped = refused_tap(new.0, new.1).filter(|_| tank.animals.any());
    let binds = binds(&ways, enough, tenth);
    let first = first_day(new, &ways, tenth, ammonia);
    let first = if stopped.is_some() { First { share: 0.0, by: None } } else { first };
    let steps = if tank.animals.any() && stopped.is_none() {
        steps(tank, &mut ways, (from, to), enough, tenth)
    } else {
        Vec::new()
    };
    let too_long = steps.len() as f64 >= book().away.days_most.value;
    let mut moving = Moving {
        answer: String::new(),
        from,
        to,
        limited_by: first.by.filter(|_| tank.animals.any()),
        stopped,
        take_along_l: if tank.animals.any() { (1.0 - first.share) * tank.geometry.true_l.value } else { 0.0 },
        whys: steps.first().zip(binds).map(|(step, way)| why_first(&pen, step, way)).into_iter().collect(),
        steps,
        too_long,
        notes: Vec::new(),
    };
    moving.answer = answer(tank, &pen, &moving, stands.ph_known());
    let ph =
        if stands.ph_known() { ammonia_says(tank, &pen, before.as_ref(), after.as_ref()) } else { ph_untold(tank) };
    moving.notes = notes(old, new, &moving, ph);
    moving.notes.splice(0..0, stands.notes);
    moving
}

fn marks(water: &SourceWater, us: f64, known: [bool; 3]) -> Marks {
    let all = [water.alkalinity_meq_per_l.value, hardness_meq(water).value, us];
    let mut all = all.into_iter().zip(known).map(|(mark, known)| known.then_some(mark));
    Marks::of([(); 3].map(|()| all.next().flatten()))
}

/// The change with which the way is over: the new plan's own, which the ammonia of the new water limits already; at most half.
fn enough(plan: &Plan) -> f64 {
    let most = book().away.change_most_percent.value / 100.0;
    if plan.change.share > 0.0 { plan.change.share.min(most) } else { most }
}

/// An old acid tank that was long unchanged gets a tenth at most (harm rule 8).
fn tenth(tank: &Tank, now: &SourceWater) -> Option<f64> {
    let old_acid = tank.unchanged_months.is_some() || now.alkalinity_meq_per_l.low <= 0.0;
    old_acid.then(|| book().harm.limit.old_tank_change_percent.value() / 100.0)
}

fn steps(tank: &Tank, ways: &mut [Way], (from, to): (Marks, Marks), enough: f64, tenth: Option<f64>) -> Vec<Step> {
    let (limit, litres) = (&book().harm.limit, tank.geometry.true_l.value);
    let most_days = book().away.days_most.value as u32;
    let (mut steps, mut left) = (Vec::new(), 1.0);
    for day in 1..=most_days {
        // A tenth until the usual change moves the tank no further than the first tenth did, and is within all limits.
        let bears = ways.iter().map(Way::share_most).fold(enough, f64::min);
        let old = tenth.filter(|tenth| left > tenth / enough || bears < enough - 1e-9).unwrap_or(f64::INFINITY);
        let share = bears.min(old);
        if share >= enough - 1e-9 {
            break;
        }
        for way in ways.iter_mut() {
            way.now += share * (way.new - way.now);
        }
        left *= 1.0 - share;
        let at = |a: Option<f64>, b: Option<f64>| a.zip(b).map(|(a, b)| b + left * (a - b));
        let ends = (from.all(), to.all());
        let after = Marks::of([0, 1, 2].map(|i: usize| at(ends.0.get(i).copied()?, ends.1.get(i).copied()?)));
        let pour = heat::Pour { tank_c: tank.temperature_c.value, new_c: 0.0, share };
        steps.push(Step {
            day,
            share,
            litres: share * litres,
            coldest_c: pour.mildest_c(limit.temperature_step_c_per_h.value()),
            after,
        });
    }
    steps
}

fn answer(tank: &Tank, pen: &Pen, m: &Moving, known: bool) -> String {
    if !tank.animals.any() {
        return "No animal lives in it: change to the new water at once.".to_owned();
    }
    if let Some(stopped) = &m.stopped {
        return format!("Not with this tap: {stopped}");
    }
    match (m.steps.first(), m.steps.last()) {
        _ if m.too_long => {
            "The two waters are too far apart for a walk of weeks: make the new water like the old one.".to_owned()
        }
        (Some(first), Some(last)) if !known && first.day != last.day => format!(
            "Test your tank first. Up to {}: a change a day, from {} to {}; then as ever.",
            days(f64::from(last.day)),
            pen.litres(first.litres),
            pen.litres(last.litres)
        ),
        (Some(first), Some(last)) if first.day != last.day => format!(
            "{}: a change a day, from {} to {}; then as ever.",
            recipe::say::capital(&days(f64::from(last.day))),
            pen.litres(first.litres),
            pen.litres(last.litres)
        ),
        (Some(first), _) => format!("One smaller change first, {}; then as ever.", pen.litres(first.litres)),
        _ if m.take_along_l <= 0.0 => "The new water is near enough: change as ever.".to_owned(),
        _ => format!(
            "Go over in small changes: never more than {} of the new water in a day. {} keeps it so small; the new tap's own changes, below, stay within it.",
            pen.litres((tank.geometry.true_l.value - m.take_along_l).max(0.0)),
            recipe::say::capital(m.limited_by.unwrap_or("the new water"))
        ),
    }
}

fn notes(old: (&Tank, &Plan), new: (&Tank, &Plan), m: &Moving, ph: Option<Note>) -> Vec<Note> {
    let (tank, pen) = (old.0, Pen::new(&old.0.units));
    let (harm, away) = (&book().harm, &book().away);
    let mut notes = Vec::new();
    if !m.steps.is_empty() {
        let slower = "A day left out harms nobody: the next change stays as large.";
        notes.push(keyed("Each day", format!("{} {} {slower}", harm.rule.in_steps.say, limits_say()), "in_steps"));
    }
    if m.too_long {
        notes.push(note("Too far apart", "Let the Salts letter make the new water: give the hardness and alkalinity that the tank has now as your wish, or cut the new tap with low-mineral water, and come down over months."));
    }
    if m.stopped.is_none() {
        notes.extend(lean(tank, m));
        notes.extend(ph);
    }
    if m.limited_by == Some(OLD) || tank.unchanged_months.is_some() {
        let says = format!(
            "{} The hour is for an emergency; without one the litres here are for a day.",
            harm.rule.old_acid_tank.say
        );
        notes.push(keyed("An old tank", says, "old_acid_tank"));
    }
    notes.extend(made::made(new, m, &pen));
    if let Some(c) = new.1.new_water.conditioner.as_ref().filter(|_| m.stopped.is_none() && m.take_along_l <= 0.0) {
        notes.extend(c.sentences.first().map(|says| note("The new tap", says.clone())));
    }
    if let Some(says) = &new.1.change.limited {
        notes.push(note("Its changes", says.clone()));
    }
    if tank.animals.any() {
        notes.extend(the_day(new.0, m, &pen));
        notes.push(keyed(
            "After the move",
            format!(
                "Ammonia and nitrite every day for {}: the filter counts as new until they stay at the lowest step. Little food. Animals give off ammonia, and \
                 new water may bring some. {}",
                days(away.test_days.value),
                harm.rule.filter_after_test.say
            ),
            "filter_after_test",
        ));
    }
    notes
}

fn limits_say() -> String {
    let limit = &book().harm.limit;
    [
        &limit.alkalinity_step_meq_per_l,
        &limit.hardness_step_dh,
        &limit.conductivity_step_percent,
        &limit.nitrate_step_mg_per_l,
        &limit.temperature_step_c,
    ]
    .map(|limit| limit.say.as_str())
    .join(" ")
}

/// Toxic share before and after, where pH rises (harm rule 7).
fn ammonia_says(tank: &Tank, pen: &Pen, before: Option<&Indices>, after: Option<&Indices>) -> Option<Note> {
    let (before, after) = (before?, after?);
    (tank.animals.any() && after.ph.value > before.ph.value)
        .then(|| keyed("Ammonia", recipe::ph_rises(pen, before, after), "ph_frees_ammonia"))
}

/// The same where nobody knows what stands in the tank.
fn ph_untold(tank: &Tank) -> Option<Note> {
    let harm = &book().harm;
    let says = || {
        format!(
            "pH may rise, and by how much I can’t tell before alkalinity and hardness are tested. {} {}",
            harm.rule.ph_frees_ammonia.say, harm.limit.ammonia_unionised_mg_n_per_l.say
        )
    };
    tank.animals.any().then(|| keyed("Ammonia", says(), "ph_frees_ammonia"))
}

/// The day on which the glass itself is moved.
fn the_day(tank: &Tank, m: &Moving, pen: &Pen) -> Vec<Note> {
    let (harm, away) = (&book().harm, &book().away);
    let mut all = vec![
        keyed(
            "Moving house: first",
            format!(
                "No food for {} hours. {} {}",
                pen.n(away.no_food_before_h.value, 2),
                harm.rule.plugs_out.say,
                harm.rule.heater_plug.say
            ),
            "plugs_out",
        ),
        along(tank, m, pen),
    ];
    all.extend(tank.keeping.filter.then(|| {
        note(
            "Filter",
            format!(
                "Its sponge in a bucket of tank water, with air through it; without moving water it keeps for {} minutes. Never rinsed in the tap, never dried.",
                range(pen, &away.sponge_out_min)
            ),
        )
    }));
    all.extend([
        keyed(
            "Glass",
            format!("Empty of water and stones before anybody lifts it. At the new place: {}", harm.rule.load.say),
            "load",
        ),
        note(
            "Set up",
            "As on the first day: loops in the cables, plugs last; the heater when the water is over its mark.",
        ),
    ]);
    all
}
