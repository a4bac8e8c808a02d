//! One day of a tank: at most three acts, but for what a rule of harm asks for, and the week under them.

pub(crate) mod acts;
pub(crate) mod begin;
mod make;
mod rows;
mod unchanged;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use knowledge::TankKind;
use logbook::What;
use quantity::Why;

use crate::alarm::Alarm;
use crate::change::ChangeSheet;
use crate::food::Food;
use crate::kits::Kit;
use crate::supplies::Supply;
use crate::top_up::Settles;

pub use make::day;
pub(crate) use make::{change_rhythm, changed};
pub(crate) use unchanged::{Long, long};

/// What to do today, and this week.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Day {
    /// Today, by the keeper's clock.
    pub date: Date,
    /// Whose routine it is.
    pub kind: TankKind,
    /// What that means: a sentence.
    pub kind_says: String,
    /// What the latest readings say that must not wait; it stands before the acts.
    pub alarms: Vec<Alarm>,
    /// The acts of today, in their order; those that are done stay, with their hour.
    pub today: Vec<Act>,
    /// What is due and finds no room today: on whichever day of this week suits.
    pub also: Vec<Act>,
    /// The six days after today: what is done beside the acts of every day.
    pub week: Vec<Later>,
    /// What is done every day, in short words, for the sheet on the wall.
    pub every_day: Vec<String>,
    /// Days from one change of water to the next; 0: none is planned.
    pub change_every_days: u32,
    /// The keeper's day of the week for it, 1 Monday to 7 Sunday.
    pub change_weekday: u8,
    /// The next change of water, as one sheet; `None`: the routine has none.
    pub change: Option<ChangeSheet>,
    /// What food brings; `None`: nobody is fed.
    pub food: Option<Food>,
    /// What topping up leaves behind; `None`: nothing is topped up.
    pub top_up: Option<Settles>,
    /// Tests: when each is due, and which would decide something. The most telling first.
    pub tests: Vec<Kit>,
    /// What runs out when.
    pub supplies: Vec<Supply>,
    /// Why-notes, by key.
    pub whys: Vec<Why>,
}

impl Day {
    /// The why-note of a number.
    pub fn why(&self, key: &str) -> Option<&Why> {
        self.whys.iter().find(|why| why.key == key)
    }

    /// Whether all of today is done.
    pub fn all_done(&self) -> bool {
        let after = self.change.iter().flat_map(|sheet| &sheet.after);
        self.today.iter().chain(after).all(|act| act.done.is_some())
    }

    /// What closes the list of today: that nothing else is to be done, but never under a reading that must not wait.
    pub fn closes(&self) -> &'static str {
        match (self.alarms.is_empty(), self.today.is_empty()) {
            (false, _) => "First of all what stands at the top.",
            (true, true) => "Nothing today.",
            (true, false) => "Nothing else today.",
        }
    }

    /// An act of today or of this week, of those along with the change or after it, or of the bottles that are mixed, by its key.
    pub fn act(&self, key: &str) -> Option<&Act> {
        let along = self.change.iter().flat_map(|sheet| sheet.along.iter().chain(&sheet.after));
        let mixed = self.supplies.iter().filter_map(|supply| supply.renew.as_ref());
        self.today.iter().chain(&self.also).chain(along).chain(mixed).find(|act| act.key == key)
    }
}

/// One act.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Act {
    /// Its key: what a button sends.
    pub key: String,
    /// What to do, in a few words.
    pub name: String,
    /// How much, as it is measured off: "5 mL"; empty where there is nothing to measure.
    pub amount: String,
    /// How, and what to mind, with the number at which harm starts: sentences.
    pub says: Vec<String>,
    /// The day from which it was carried on; `None`: it is today's own.
    pub since: Option<Date>,
    /// Done today.
    pub done: Option<Done>,
    /// What goes into the logbook when it is done, and the note with it.
    pub writes: Vec<What>,
    /// The note of the entry.
    pub note: String,
    /// An amount that the keeper may write with it.
    pub asks: Option<Ask>,
    /// It is read and written into the logbook, not ticked off.
    pub read_off: bool,
}

impl Act {
    pub(crate) fn new(key: &str, name: &str) -> Act {
        Act {
            key: key.to_owned(),
            name: name.to_owned(),
            amount: String::new(),
            says: Vec::new(),
            since: None,
            done: None,
            writes: Vec::new(),
            note: String::new(),
            asks: None,
            read_off: false,
        }
    }

    /// What goes into the logbook where the keeper wrote an amount of their own, in the unit that was asked for.
    pub fn writes_with(&self, amount: Option<f64>) -> Vec<What> {
        let Some(amount) = amount.filter(|amount| amount.is_finite() && *amount >= 0.0) else {
            return self.writes.clone();
        };
        let with = |what: &What| match what {
            What::Change { .. } => What::Change { litres: amount },
            What::TopUp { .. } => What::TopUp { litres: amount },
            What::Food { .. } => What::Food { grams: amount },
            What::Trim { .. } => What::Trim { wet_grams: Some(amount) },
            other => other.clone(),
        };
        self.writes.iter().map(with).collect()
    }
}

/// An amount that the keeper may write.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Ask {
    /// What it is, for whoever can't see the sentence.
    pub says: String,
    /// The unit: `g` or `L`.
    pub unit: String,
    /// What stands there already; `None`: nothing.
    pub value: Option<f64>,
    /// More than that is a slip of the pen; `None`: no bound.
    pub most: Option<f64>,
}

/// When an act of today was done, and by which entries of the log.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Done {
    /// The moment.
    pub at: ZonedDateTime,
    /// Numbers of the entries.
    pub ids: Vec<u64>,
}

/// A day later in the week.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Later {
    /// The day.
    pub date: Date,
    /// What is done beside the acts of every day.
    pub acts: Vec<Act>,
    /// Water is changed on it.
    pub change: bool,
}
