//! Which salts, and how much of each: the tank put into rows and columns, solved stage after stage.

use quantity::{Ion, Why};
use setup::Tank;

use crate::plan::{Dose, Proof, Unmet};

/// What was chosen.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Choice {
    /// The doses, in the order of the product table.
    pub doses: Vec<Dose>,
    /// Share of low-mineral water in the new water, 0 to 1.
    pub low_share: f64,
    /// Share of the additions (and of `low_share`) that the first changes get, so that no rule of harm on the change in
    /// a day is passed; empty: the whole of it from the first change on.
    pub ramp: Vec<f64>,
    /// Bands that could not be met.
    pub unmet: Vec<Unmet>,
    /// What was left out, and why.
    pub left_out: Vec<LeftOut>,
    /// What of the search is proved.
    pub proof: Proof,
    /// Why-notes of the doses; the key of a dose is `dose-` and its product, with `-new-water` behind it for new water.
    pub whys: Vec<Why>,
}

/// What something was left out about.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Subject {
    /// An ion.
    Ion(Ion),
    /// A product, by its key or the keeper's name for it.
    Product(String),
    /// Feeding as a whole.
    Feeding,
}

/// Something that was left out.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct LeftOut {
    /// What.
    pub subject: Subject,
    /// Why, with its numbers.
    pub reason: Reason,
}

/// Why something was left out.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reason {
    /// The tap alone exceeds the band. Levels in mg/L.
    TapCovers {
        /// The band.
        band: (f64, f64),
        /// Right before and right after a change, without any dose, best estimate.
        settles: (f64, f64),
        /// A smaller share of change, 0 to 1, at which the level right before a change comes down to the band's top, if one does.
        smaller_share: Option<f64>,
        /// Share of low-mineral water that brings it down to the band's top, if there is such water at hand and one does.
        low_share: Option<f64>,
    },
    /// A soil tank: nothing is dosed.
    SoilTank,
    /// The wished feeding has no row in this light; that of the nearest wish was taken.
    NearestWish {
        /// In words.
        used: String,
    },
    /// Never with animals.
    NeverWithAnimals {
        /// Why.
        why: String,
    },
    /// May not be bought here.
    Law {
        /// The sentence.
        say: String,
    },
    /// Copper: what it would add to the tap's is over the limit for invertebrates, mg/L.
    Copper {
        /// What the tap brings at its highest.
        tap: f64,
        /// What one would add at the lower end of the iron band.
        adds: f64,
        /// The limit.
        limit: f64,
    },
}

/// Choose salts and doses for a tank.
pub fn choose(_tank: &Tank) -> Choice {
    Choice {
        doses: Vec::new(),
        low_share: 0.0,
        ramp: Vec::new(),
        unmet: Vec::new(),
        left_out: Vec::new(),
        proof: Proof::default(),
        whys: Vec::new(),
    }
}
