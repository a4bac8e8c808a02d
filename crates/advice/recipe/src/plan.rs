//! The plan: what to weigh into which bottle, how much a day, what level follows, what was left out, and why.

mod weighed;

use quantity::{Ion, Known, Why};

pub use crate::steps::{BeginStep, Walk};
pub use weighed::*;

/// Everything that the recipe answers. Every number has its [`Why`] under the key named beside it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Plan {
    /// Water that is really in the tank, L.
    pub true_l: Known<f64>,
    /// The change.
    pub change: Change,
    /// Changes that come before the plan's own, where that would move the tank too far at once; `None`: none.
    pub begin: Option<Begin>,
    /// Share of low-mineral water in the new water, 0 to 1.
    pub low_share: f64,
    /// Levels of every ion that is fed, wished or limited.
    pub levels: Vec<Level>,
    /// Alkalinity, meq/L, with what nitrification eats.
    pub alkalinity: Level,
    /// The water in the tank, aired to the room.
    pub aired: Option<Indices>,
    /// The same water by day, under the carbon dioxide that is given; `None`: none is given.
    pub under_co2: Option<Indices>,
    /// What is given, product by product, as it is really weighed.
    pub doses: Vec<Dose>,
    /// Bottles, with what is weighed and what is given a day.
    pub bottles: Vec<Bottle>,
    /// What goes into the new water of a change.
    pub new_water: NewWater,
    /// What was left out and why, in sentences.
    pub left_out: Vec<Note>,
    /// Bands that could not be met: which, by how much, what would mend it.
    pub unmet: Vec<Unmet>,
    /// Wishes that are refused, with the honest ways instead.
    pub refused: Vec<Refused>,
    /// Sentences that stand beside the dose, each with the number at which harm starts.
    pub cautions: Vec<Note>,
    /// May it be bought here, product by product.
    pub law: Vec<Note>,
    /// What to buy, and what it costs.
    pub shopping: Vec<Purchase>,
    /// All why-notes, by key.
    pub whys: Vec<Why>,
    /// What of the search is proved.
    pub proof: Proof,
}

impl Plan {
    /// The why-note of a number.
    pub fn why(&self, key: &str) -> Option<&Why> {
        self.whys.iter().find(|w| w.key == key)
    }

    /// The doses that stand in a bottle.
    pub fn doses_in<'a>(&'a self, bottle: &'a Bottle) -> impl Iterator<Item = &'a Dose> {
        let holds = move |dose: &&Dose| {
            let weighed = bottle.weighed.iter().any(|w| w.product == dose.product);
            let stock = bottle.from_stock.iter().any(|s| s.product == dose.product);
            weighed || stock || crate::say::capital(&dose.name) == bottle.name
        };
        self.doses.iter().filter(|dose| dose.into == Into::Bottle).filter(holds)
    }

    /// By how much a day's dose of a bottle lifts each ion, mg/L, in the fewest litres that the tank may hold: what a dose
    /// given many times on a day is held against the limits of a day with.
    pub fn lifts_a_day(&self, bottle: &Bottle) -> Vec<(Ion, f64)> {
        let mut sum: Vec<(Ion, f64)> = Vec::new();
        let smaller = crate::bottles::slip::in_the_fewest(self.true_l);
        for (ion, mg) in self.doses_in(bottle).flat_map(|dose| &dose.brings) {
            match sum.iter_mut().find(|(known, _)| known == ion) {
                Some((_, all)) => *all += smaller * mg,
                None => sum.push((*ion, smaller * mg)),
            }
        }
        sum
    }

    /// The note on first changes that are smaller than the plan's, if any are: it stands with the litres of the change.
    pub fn first_changes(&self) -> Option<&Note> {
        self.new_water.notes.iter().find(|note| note.key.as_deref() == Some(FIRST_CHANGES))
    }
}

/// Key of the note on the first changes.
pub(crate) const FIRST_CHANGES: &str = "in_steps";

/// A change of water.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Change {
    /// Share of the true litres, 0 to 1.
    pub share: f64,
    /// Days from one to the next; 0: never.
    pub every_days: u32,
    /// L a change.
    pub litres: f64,
    /// Buckets a change and litres in each.
    pub buckets: (u32, f64),
    /// What limits the share, if anything (ammonia from chloramine, an old acid tank): a sentence.
    pub limited: Option<String>,
    /// The largest share that may be changed at once with this water, 0 to 1, whatever the habit is: what chlorine, copper and the
    /// ammonia of new water leave of it where animals live.
    pub share_most: f64,
    /// What limits that share, if anything: a sentence.
    pub most_because: Option<String>,
}

/// Other changes to begin with (harm rules 6 and 8): smaller ones, or as large ones whose new water gets a growing part of the salts.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Begin {
    /// Share of the true litres of the first, 0 to 1.
    pub share: f64,
    /// L of it.
    pub litres: f64,
    /// How many; `None`: as long as a test before it shows too little alkalinity.
    pub changes: Option<u32>,
    /// Days from one small one to the next, at the least.
    pub days_apart: u32,
    /// What each is, where the new water gets a growing part of the salts; empty: all are alike, with all of the salts.
    pub steps: Vec<BeginStep>,
    /// The reading that tells whether the tank is there already: conductivity (µS/cm at 25 °C), alkalinity or hardness (meq/L).
    pub reading: BeginReading,
    /// What the plan's new water has of it.
    pub new_water: f64,
    /// Conductivity of the new water without its salts, µS/cm at 25 °C.
    pub plain_us_per_cm: f64,
    /// The same with all of them: by it a logbook knows which water was poured; 0 where it can't be told.
    pub new_us_per_cm: f64,
    /// What they are and why: sentences.
    pub says: String,
    /// Where the tank stands before the first.
    #[serde(skip)]
    pub walk: Walk,
}

/// What tells whether the beginning is through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BeginReading {
    /// meq/L.
    Alkalinity,
    /// meq/L.
    Hardness,
    /// µS/cm at 25 °C.
    Conductivity,
}

/// A level over the repeating cycle. mg/L of the ion, but for alkalinity (meq/L).
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Level {
    /// The ion; `None` for alkalinity.
    pub ion: Option<Ion>,
    /// What the new water brings.
    pub new_water: Known<f64>,
    /// Given a day (bottles).
    pub dose_per_day: f64,
    /// Taken a day, net of food (negative: it rises by itself).
    pub uptake_per_day: Known<f64>,
    /// What topping up brings a day.
    pub top_up_per_day: Known<f64>,
    /// Days since the last whole renewal over which it is reckoned; `None`: water is changed by habit.
    pub unchanged_days: Option<u32>,
    /// Right after a change, before the dose; where water is never changed, right after that renewal.
    pub after_change: Known<f64>,
    /// Right before a change; where water is never changed, today.
    pub before_change: Known<f64>,
    /// The cycle's lowest and highest at the best estimate.
    pub lowest: f64,
    /// Highest, doses included.
    pub highest: f64,
    /// The band aimed at, if any.
    pub band: Option<(f64, f64)>,
    /// Day of the cycle on which it runs out, at the best estimate.
    pub runs_out_day: Option<f64>,
    /// Day of the cycle on which it runs out in the poorest case.
    pub runs_out_day_poorest: Option<f64>,
    /// Best estimate hour by day: (day, mg/L) points of two cycles for the drawing, the vertical strokes of changes included.
    pub tide: Vec<(f64, f64)>,
    /// Lower and upper ends of the likely range at the same days.
    pub likely: Vec<(f64, f64, f64)>,
    /// Key of the why-note.
    pub why: String,
}

impl Level {
    /// As it is told: below nothing there is nothing, what acid is left over is no level.
    pub(crate) fn not_below_zero(mut self) -> Self {
        for known in [&mut self.new_water, &mut self.after_change, &mut self.before_change] {
            *known = known.map(|value| value.max(0.0));
        }
        (self.lowest, self.highest) = (self.lowest.max(0.0), self.highest.max(0.0));
        self.tide.iter_mut().for_each(|(_, value)| *value = value.max(0.0));
        self.likely.iter_mut().for_each(|(_, low, high)| (*low, *high) = (low.max(0.0), high.max(0.0)));
        self
    }

    /// What the next days begin with: what a change leaves; where none is made, what stands today.
    pub fn left(&self) -> Known<f64> {
        if self.unchanged_days.is_some() { self.before_change } else { self.after_change }
    }

    /// What stands so many days after a whole renewal, none changed since: T + t (D - U + g), the poorest, best and richest case.
    pub fn drifted(&self, days: f64) -> Known<f64> {
        let (new, taken, gained) = (self.new_water, self.uptake_per_day, self.top_up_per_day);
        let at = |new: f64, taken: f64, gained: f64| (new + days * (self.dose_per_day - taken + gained)).max(0.0);
        let kind = new.kind.weaker(taken.kind).weaker(quantity::Kind::WorkedOut);
        let (low, high) = (at(new.low, taken.high, gained.low), at(new.high, taken.low, gained.high));
        Known::ranged(low, at(new.value, taken.value, gained.value), high, kind)
    }

    /// What it may reach: the cycle's highest, and the upper end of the likely range before and after a change.
    pub fn may_reach(&self) -> f64 {
        self.highest.max(self.after_change.high).max(self.before_change.high)
    }
}

/// pH and saturation of the tank's water, aired.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Indices {
    /// pH over the room's range of CO2 and the tap's balanced draws.
    pub ph: Known<f64>,
    /// Calcite's saturation index.
    pub calcite: Known<f64>,
    /// µS/cm at 25 °C.
    pub conductivity_25_us_per_cm: Known<f64>,
    /// Share of ammonia that is toxic (NH3), 0 to 1.
    pub nh3_fraction: Known<f64>,
    /// Free CO2, mg/L.
    pub co2_mg_per_l: Known<f64>,
}

/// Where a dose goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Into {
    /// Into a bottle, and from there a little every day.
    Bottle,
    /// Into the new water of a change (hardness, alkalinity, what hardly dissolves).
    NewWater,
}

/// One product's dose.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Dose {
    /// Key of `data/products.toml`, or the name of the keeper's own product.
    pub product: String,
    /// Its name.
    pub name: String,
    /// Where it goes.
    pub into: Into,
    /// g a day (mL a day for an own liquid) for a bottle; g per L of new water for a change.
    pub amount: f64,
    /// It is owned already.
    pub owned: bool,
    /// What it brings: mg/L of the ion a day, or per L of new water.
    pub brings: Vec<(Ion, f64)>,
}

/// A sentence about something, with the key of its rule or reason.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Note {
    /// What it is about: an ion, a product, a wish.
    pub about: String,
    /// The sentence.
    pub text: String,
    /// Key in `data/harm.toml`, or of a why-note, if any.
    pub key: Option<String>,
}

/// Where the sentence of a rule stands in a letter: beside the decision that it is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// Before the first thing is weighed.
    Weighing,
    /// At the change of water.
    Change,
    /// Among what to mind.
    Mind,
    /// At the end: a rule that binds the program and asks nothing of the keeper.
    Mine,
}

impl Note {
    /// Where it stands, by the rule that it says.
    pub fn stands(&self) -> Stands {
        match self.key.as_deref() {
            Some("powders" | "not_a_drink") => Stands::Weighing,
            Some("plugs_out") => Stands::Change,
            Some("true_litres" | "no_ammonium" | "no_medicine") => Stands::Mine,
            _ => Stands::Mind,
        }
    }
}

/// A band that could not be met.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Unmet {
    /// The ion; `None`: alkalinity or hardness.
    pub ion: Option<Ion>,
    /// What was wished.
    pub band: (f64, f64),
    /// What is reached over the tap's range: lowest and highest.
    pub reached: (f64, f64),
    /// In words: by how much, and what would mend it.
    pub text: String,
}

/// A wish that is refused.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Refused {
    /// The wish in words.
    pub wish: String,
    /// Why, with its number.
    pub why: String,
    /// The honest ways instead.
    pub ways: Vec<String>,
}

/// Something to buy.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Purchase {
    /// Key of the product or thing.
    pub product: String,
    /// Name with the pack.
    pub name: String,
    /// Price of a pack in minor units.
    pub price_minor: Known<f64>,
    /// How long a pack lasts, days; `None`: a tool.
    pub lasts_days: Option<f64>,
    /// Minor units a month.
    pub a_month_minor: f64,
    /// Owned already.
    pub owned: bool,
}

/// What of the search is proved.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Proof {
    /// Stages in order of worth, each with whether it is proved.
    pub stages: Vec<(String, bool)>,
    /// Nodes of the search, all stages.
    pub nodes: u64,
}
