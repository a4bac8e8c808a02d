//! What is seen and read, and why it may be so (`data/sights.toml`, `data/causes.toml`, `data/meanings.toml`).

use std::collections::BTreeMap;

use quantity::Ion;

use crate::Sourced;
use crate::named::named;

/// Where a sight belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SightGroup {
    /// Algae on glass, ground, leaves.
    Algae,
    /// The water or what stands in it.
    Water,
    /// Old leaves, new ones sound.
    OldLeaves,
    /// New leaves, old ones sound.
    NewLeaves,
    /// Leaves of any age.
    Leaves,
}

impl SightGroup {
    /// All of them, as a page lists them.
    pub const ALL: [SightGroup; 5] =
        [SightGroup::Algae, SightGroup::Water, SightGroup::OldLeaves, SightGroup::NewLeaves, SightGroup::Leaves];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            SightGroup::Algae => "On glass, ground and leaves",
            SightGroup::Water => "The water, and what stands in it",
            SightGroup::OldLeaves => "Old leaves, the new ones sound",
            SightGroup::NewLeaves => "New leaves, the old ones sound",
            SightGroup::Leaves => "Leaves of any age",
        }
    }
}

/// How good the evidence is that the causes make the sight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Evidence {
    /// Nobody has tested it in tanks.
    Poor,
    /// Common practice.
    Practice,
    /// A source stands behind it.
    Known,
}

/// Something seen.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Sight {
    /// In plain words.
    pub name: String,
    /// Where it belongs.
    pub group: SightGroup,
    /// How to know it.
    pub seen: String,
    /// Keys of causes, the likeliest by practice first.
    pub causes: Vec<String>,
    /// How good the evidence is.
    pub evidence: Evidence,
    /// What we don't know; empty: nothing is to be said.
    pub unknown: String,
    /// Where it comes from.
    pub source: String,
}

/// A cause.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct CauseRow {
    /// In plain words.
    pub words: String,
    /// The one change to make; "None ..." where nothing is to be done.
    pub change: String,
    /// The change takes hands in the water.
    #[serde(default)]
    pub hands_in_water: bool,
    /// Days until it can be judged.
    pub judge_days: Sourced<f64>,
    /// What would decide whether this is it.
    pub decides: String,
}

/// For whom a bound counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Who {
    /// Always.
    All,
    /// Where any animal lives.
    Animals,
    /// Where shrimps, snails, others without a backbone or young live.
    Tender,
    /// For the plants.
    Plants,
}

/// The four words for urgency.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Urgency {
    /// At once.
    AtOnce,
    /// Before the next change.
    BeforeTheNextChange,
    /// When it suits.
    WhenItSuits,
    /// Leave it be.
    LeaveItBe,
}

impl Urgency {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Urgency::AtOnce => "at once",
            Urgency::BeforeTheNextChange => "before the next change",
            Urgency::WhenItSuits => "when it suits",
            Urgency::LeaveItBe => "leave it be",
        }
    }
}

/// What a reading beyond a bound means.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Meaning {
    /// Its key.
    pub key: String,
    /// What was read, as the logbook calls it.
    pub reading: String,
    /// The bound, in the reading's unit; `None`: [`Meaning::limit`] names it.
    #[serde(default)]
    pub bound: Option<f64>,
    /// Key of the bound in `data/harm.toml`.
    #[serde(default)]
    pub limit: Option<String>,
    /// It counts above the bound; else below it.
    pub above: bool,
    /// For whom.
    pub who: Who,
    /// How urgent.
    pub urgency: Urgency,
    /// What it means, with its number.
    pub says: String,
    /// Keys of causes.
    pub causes: Vec<String>,
    /// Where it comes from.
    pub source: String,
}

named! {
    /// Figures by which causes are struck out.
    SignFigures of Sourced<f64> {
        /// Days for which a reading counts.
        counts_days,
        /// Days for which a tank counts as young.
        young_days,
        /// Days for which a plant counts as new.
        planted_days,
        /// Much light without added carbon dioxide, µmol/m²s.
        much_light_umol,
        /// Much light with it, µmol/m²s.
        much_light_with_co2_umol,
        /// Little light, µmol/m²s.
        little_light_umol,
        /// Carbon dioxide that most plants are content with, mg/L.
        enough_co2_mg_per_l,
        /// Turnover below which corners stand still, 1/h.
        least_turnover_per_h,
        /// Much food, mg for a litre and day.
        much_food_mg_per_l_day,
        /// Hardness below which calcium can be short, °dH.
        soft_hardness_dh,
        /// Alkalinity below which no lime falls on leaves, meq/L.
        crust_alkalinity_meq_per_l,
        /// The tap's share of a reading from which the tap is its cause.
        tap_share,
        /// Warm for most plants, °C.
        well_warm_c,
        /// Cool for most plants, °C.
        well_cool_c,
    }
}

/// The file of meanings.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Meanings {
    /// mg/L below which a nutrient can be short.
    pub short: BTreeMap<Ion, Sourced<f64>>,
    /// Figures.
    pub figure: SignFigures,
    /// Bounds of readings.
    pub meaning: Vec<Meaning>,
}
