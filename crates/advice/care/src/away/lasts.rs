//! How long levels, food and water last while nobody is there.

use knowledge::book;
use quantity::{Ion, Kind, Known, Why};
use recipe::levels::top_up_per_day;
use recipe::say::Pen;
use recipe::{Level, Plan};
use setup::Tank;

use crate::start_words::{days, up, why};

/// How long a level lasts without a dose.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Lasts {
    /// The ion.
    pub ion: Ion,
    /// mg/L right after the last change.
    pub from: Known<f64>,
    /// mg/L that it falls by a day, food and topping up counted; below 0 it rises.
    pub falls: Known<f64>,
    /// Days until it runs out, at the best estimate; `None`: it does not fall.
    pub days: Option<f64>,
    /// The same in the poorest case.
    pub days_poorest: Option<f64>,
}

/// Meals while away.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Meals {
    /// How many.
    pub count: u32,
    /// Days from one to the next.
    pub every_days: u32,
    /// g of each.
    pub grams: f64,
    /// Share of the food at home that this is, over the whole time.
    pub share: f64,
    /// Young fish live there: they can't be left so.
    pub young: bool,
}

impl Meals {
    /// None at all, while nobody is fed.
    pub(super) const NONE: Meals = Meals { count: 0, every_days: 1, grams: 0.0, share: 0.0, young: false };
}

/// Water that evaporates.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Water {
    /// L in all.
    pub lost_l: Known<f64>,
    /// mm by which the waterline would fall.
    pub falls_mm: Known<f64>,
    /// What is left would hold so many per cent more, at the upper end.
    pub stronger_percent: f64,
    /// Visits on which somebody tops up.
    pub visits: u32,
    /// L a visit, at the best estimate.
    pub each_l: f64,
}

/// Levels that a bottle feeds, with the light and the food cut to these shares.
pub(super) fn lasts(tank: &Tank, plan: &Plan, light: f64, food: f64) -> Vec<Lasts> {
    plan.levels
        .iter()
        .filter(|level| level.dose_per_day > 0.0 && level.band.is_some())
        .filter_map(|level| one(tank, level, light, food))
        .collect()
}

fn one(tank: &Tank, level: &Level, light: f64, food: f64) -> Option<Lasts> {
    let ion = level.ion?;
    let none = Known::exact(0.0, Kind::WorkedOut);
    let taken = tank.growth.uptake_mg_per_l_day.get(&ion).copied().unwrap_or(none);
    let brought = tank.growth.food_mg_per_l_day.get(&ion).copied().unwrap_or(none);
    let gained = top_up_per_day(tank, ion);
    let falls = Known::ranged(
        light * taken.low - food * brought.high - gained.high,
        light * taken.value - food * brought.value - gained.value,
        light * taken.high - food * brought.low - gained.low,
        taken.kind.weaker(brought.kind).weaker(Kind::WorkedOut),
    );
    let lasts = |level: f64, falls: f64| (falls > 0.0).then(|| level.max(0.0) / falls);
    let from = level.left();
    Some(Lasts { ion, from, falls, days: lasts(from.value, falls.value), days_poorest: lasts(from.low, falls.high) })
}

/// Meals for so many days: none where grown animals do without, else small ones.
pub(super) fn meals(tank: &Tank, days: u32) -> Meals {
    let away = &book().away;
    let animals = &tank.animals;
    let every_days = away.food_every_days.value.max(1.0) as u32;
    let grazers_only = animals.fish == 0 && !animals.young;
    let without = if grazers_only { away.without_visit_days.value } else { away.without_food_days.value };
    let count = if !animals.any() || f64::from(days) <= without { 0 } else { days.saturating_sub(1) / every_days };
    let grams = tank.keeping.food_g_per_day.value * away.food_percent.value / 100.0;
    let share = if days == 0 { 0.0 } else { f64::from(count) / f64::from(days) * away.food_percent.value / 100.0 };
    Meals { count, every_days, grams, share, young: animals.young }
}

/// What evaporates in so many days, and on how many visits somebody tops up.
pub(super) fn water(tank: &Tank, days: u32) -> Water {
    let away = &book().away;
    let litres = tank.geometry.true_l.value;
    let lost_l = tank.habits.top_up_l_per_day.map(|a_day| a_day * f64::from(days));
    let surface = tank.geometry.surface_m2;
    let falls_mm = lost_l.map(|l| if surface > 0.0 { l / surface } else { 0.0 });
    let left = (litres - lost_l.high).max(f64::MIN_POSITIVE);
    let stronger_percent = if litres > 0.0 { 100.0 * (lost_l.high / left).min(10.0) } else { 0.0 };
    let needed = stronger_percent > book().harm.limit.conductivity_step_percent.value();
    let by_time = up(f64::from(days) / away.visit_days.value.max(1.0)) - 1.0;
    let by_litres = up(lost_l.value / away.card_litres_most.value);
    let visits = if needed { by_time.max(by_litres).max(1.0).min(f64::from(days)) as u32 } else { 0 };
    let visits = if f64::from(days) > away.without_visit_days.value { visits.max(1) } else { visits };
    let each_l = if visits > 0 { lost_l.value / f64::from(visits + 1) } else { 0.0 };
    Water { lost_l, falls_mm, stronger_percent, visits, each_l }
}

/// Why a level lasts so long, and why the water falls so far.
pub(super) fn whys(tank: &Tank, lasts: &[Lasts], water: &Water, days_away: u32) -> Vec<Why> {
    let pen = Pen::new(&tank.units);
    let of = |l: &Lasts| {
        let days_left = l.days?;
        Some(why(
            &format!("lasts-{}", l.ion.name()),
            format!("why {}?", days(days_left.floor())),
            format!("{} ÷ {} mg/L a day = {} days", pen.ion(l.ion, l.from.value), pen.n(l.falls.value, 2), pen.n(days_left, 2)),
            "What the last change leaves, over what plants take in the shorter light, less what food and topping up bring.".to_owned(),
            &[],
            l.falls.kind,
        ))
    };
    let mut whys: Vec<Why> = lasts.iter().filter_map(of).collect();
    whys.push(why(
        "evaporates",
        format!("why {} mm?", pen.n(water.falls_mm.value, 2)),
        format!(
            "{} L a day × {days_away} = {} L; ÷ {} m² = {} mm",
            pen.n(tank.habits.top_up_l_per_day.value, 2),
            pen.n(water.lost_l.value, 2),
            pen.n(tank.geometry.surface_m2, 2),
            pen.n(water.falls_mm.value, 2)
        ),
        "A litre over a square metre is a millimetre. A cover keeps most of it in.".to_owned(),
        &[],
        tank.habits.top_up_l_per_day.kind.weaker(Kind::WorkedOut),
    ));
    whys
}
