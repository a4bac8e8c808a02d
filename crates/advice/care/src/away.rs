//! Away from home: what to reduce, what lasts how long, and the card for whoever looks in.
//!
//! **What.** Light is shortened, meals become few and small, the bottles rest; the levels that this leaves are worked out day by day.
//!
//! **Equation.** uptake' = uptake h'/h; a level falls by uptake' - food' - g a day from where the last change left it, and runs out after
//! level ÷ that fall; evaporation e D litres sink the waterline by e D ÷ A and concentrate what is left by V ÷ (V - e D).
//!
//! **Symbols.** h hours of light, h' while away; food' the food's share still given; g what topping up brings, mg/L a day; e L a day; D days;
//! A surface, m²; V true litres.
//!
//! **Range.** Growth in proportion to the hours of light (our assumption); four weeks at most.
//!
//! **Source.** `data/away.toml` (common practice), limits `data/harm.toml` rules 6, 7, 13.
//!
//! **Checked by** `tests/by_hand_away.rs`, `tests/harm_away.rs`.

mod cans;
mod card;
mod lasts;
mod leave;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use knowledge::book;
use logbook::Kept;
use quantity::Why;
use recipe::say::Pen;
use recipe::{Note, Plan};
use setup::Tank;
use trouble::Urgency;

pub use card::{Card, Visit};
pub use lasts::{Lasts, Meals, Water};

use crate::alarm::{Alarm, alarms};
use crate::living::living;
use crate::log::Past;
use crate::start_words::{days, span};

/// What is asked of an absence.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Ask {
    /// Days away.
    pub days: u32,
    /// The day of leaving, if it is known.
    pub leaving: Option<Date>,
    /// Hours of light at home.
    pub light_h: f64,
}

impl Default for Ask {
    /// Two weeks, nobody knows when, the usual light.
    fn default() -> Self {
        let book = book();
        Ask { days: book.away.away_days.value as u32, leaving: None, light_h: book.start.light_last_h.value }
    }
}

impl Ask {
    /// The same with the hours of light that the keeper told.
    pub fn of(tank: &Tank) -> Ask {
        Ask { light_h: tank.keeping.light_h.value, ..Ask::default() }
    }

    /// Days that can be answered, at most: four weeks.
    pub fn most_days() -> u32 {
        book().away.away_days.high() as u32
    }

    /// Within what can be answered: at most four weeks, and some light.
    pub fn within(self) -> Ask {
        Ask { days: self.days.clamp(1, Ask::most_days()), light_h: self.light_h.clamp(1.0, 24.0), ..self }
    }
}

/// An absence.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Away {
    /// The answer in a sentence.
    pub answer: String,
    /// What was asked.
    pub ask: Ask,
    /// Hours of light while away.
    pub light_h: f64,
    /// What the log says that must not wait, as on Care: nobody leaves under it.
    pub alarms: Vec<Alarm>,
    /// How long each fed level lasts without a dose.
    pub lasts: Vec<Lasts>,
    /// Meals.
    pub meals: Meals,
    /// What evaporates.
    pub water: Water,
    /// meq/L of alkalinity that is left at the end, in the poorest case.
    pub alkalinity_left_meq_per_l: f64,
    /// What to do before, in order.
    pub before: Vec<Note>,
    /// What is reduced, with its arithmetic.
    pub reduced: Vec<Note>,
    /// The first days back.
    pub back: Vec<Note>,
    /// The sitter's card; `None`: nobody needs to look in.
    pub card: Option<Card>,
    /// Why-notes.
    pub whys: Vec<Why>,
}

impl Away {
    /// Whether an alarm says that nobody is fed.
    pub(crate) fn fasts(&self) -> bool {
        fasts(&self.alarms)
    }

    /// The why-note of a number.
    pub fn why(&self, key: &str) -> Option<&Why> {
        self.whys.iter().find(|why| why.key == key)
    }
}

/// An absence of a tank whose questions are settled. Under an alarm of its log nobody leaves, and while it forbids food there is none.
pub fn away(tank: &Tank, plan: &Plan, ask: Ask, log: &[Kept], now: &ZonedDateTime) -> Away {
    let ask = ask.within();
    let pen = Pen::new(&tank.units);
    let light_h = book().away.light_h.value.min(ask.light_h);
    let waits = |alarm: &Alarm| alarm.no_food || alarm.urgency != Urgency::WhenItSuits;
    let alarms = alarms(&living(tank, log, now), plan, &Past::of(log, now), &pen).into_iter().filter(waits);
    let alarms: Vec<Alarm> = alarms.collect();
    let meals = if fasts(&alarms) { lasts::Meals::NONE } else { lasts::meals(tank, ask.days) };
    let lasts = lasts::lasts(tank, plan, light_h / ask.light_h, meals.share);
    let water = lasts::water(tank, ask.days);
    let left = plan.alkalinity.left().low
        - f64::from(ask.days) * meals.share * tank.growth.alkalinity_eaten_meq_per_l_day.high;
    let visited = meals.count > 0 || water.visits > 0;
    let mut away = Away {
        answer: String::new(),
        ask,
        light_h,
        alarms,
        whys: lasts::whys(tank, &lasts, &water, ask.days),
        lasts,
        meals,
        water,
        alkalinity_left_meq_per_l: left,
        before: Vec::new(),
        reduced: Vec::new(),
        back: Vec::new(),
        card: None,
    };
    away.before = leave::before(tank, plan, &away, &pen);
    away.reduced = leave::reduced(tank, plan, &away, &pen);
    away.back = leave::back(tank, plan, &away, &pen);
    away.card = visited.then(|| card::card(tank, plan, &away, &pen));
    away.answer = answer(&away, &pen);
    away
}

/// Whether an alarm says that nobody is fed.
fn fasts(alarms: &[Alarm]) -> bool {
    alarms.iter().any(|alarm| alarm.no_food)
}

fn answer(away: &Away, pen: &Pen) -> String {
    let food = match away.meals.count {
        0 => "no food".to_owned(),
        n => format!("{} small meals", recipe::say::count(n)),
    };
    let sitter = match &away.card {
        None => "nobody needs to look in".to_owned(),
        Some(card) => format!(
            "somebody looks in {}",
            if card.visits.len() == 1 {
                "once".to_owned()
            } else {
                format!("{} times", recipe::say::count(card.visits.len() as u32))
            }
        ),
    };
    let first = if away.alarms.is_empty() { "" } else { "Don’t leave yet: your log has an alarm. " };
    let fed = if away.lasts.is_empty() { "" } else { ", no dose" };
    format!(
        "{first}{} away: {} hours of light{fed}, {food}; {sitter}.",
        recipe::say::capital(&days(f64::from(away.ask.days))),
        span(pen, away.light_h, away.light_h)
    )
}
