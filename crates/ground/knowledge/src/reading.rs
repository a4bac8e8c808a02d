//! What a test or an instrument reads, and how much of something the logbook can mean (`data/readings.toml`,
//! `data/amounts.toml`).

use std::collections::BTreeMap;

use quantity::Ion;
use quantity::bounds::Bound;

/// What a reading counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Counts {
    /// mg/L of an ion.
    Ion,
    /// mg/L of an ion's element: ammonia and nitrite as N.
    Element,
    /// Alkalinity, meq/L.
    Alkalinity,
    /// Hardness, meq/L.
    Hardness,
    /// µS/cm at 25 °C.
    Conductivity,
    /// °C.
    Temperature,
    /// pH.
    Ph,
    /// g.
    Mass,
    /// mg/L of something that is counted in one way only.
    Plain,
}

/// How far a kind of kit or instrument is off.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct KitRow {
    /// What it is, in plain words.
    pub words: String,
    /// Half width within which 90 of 100 readings lie, as a share of what is read.
    pub share: f64,
    /// The same, at least, in the unit of the reading.
    pub least: f64,
    /// The lowest step that it shows, in the unit of the reading.
    #[serde(default)]
    pub lowest: Option<f64>,
    /// Key of the source, or one of the words of [`crate::Sourced`].
    pub source: String,
}

impl KitRow {
    /// Half width within which 90 of 100 readings of `value` lie, in its unit.
    pub fn error(&self, value: f64) -> f64 {
        (self.share * value.abs()).max(self.least)
    }
}

/// What can be read.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct ReadingRow {
    /// Its name in a sentence.
    pub name: String,
    /// What it counts.
    pub how: Counts,
    /// The ion, where it counts one.
    #[serde(default)]
    pub ion: Option<Ion>,
    /// Possible and usual values; `is.unit` is the unit in which the logbook keeps it.
    pub is: Bound,
    /// What stands behind them.
    pub why: String,
    /// Key of the source, or one of the words of [`crate::Sourced`].
    pub source: String,
    /// Kinds of kits and instruments by key, the widest error where none is named.
    pub kit: BTreeMap<String, KitRow>,
}

impl ReadingRow {
    /// Half width within which 90 of 100 readings lie, in the reading's unit: of the kind of kit named, else the widest.
    pub fn error(&self, kit: Option<&str>, value: f64) -> f64 {
        let named = kit.and_then(|kit| self.kit.get(kit));
        named.map_or_else(|| self.kit.values().map(|kit| kit.error(value)).fold(0.0, f64::max), |kit| kit.error(value))
    }
}

/// How much of something a line of the logbook can mean.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct AmountRow {
    /// Its name in a sentence.
    pub name: String,
    /// At most so many times the litres of the tank, where the amount is of its water.
    #[serde(default)]
    pub tank_times: Option<f64>,
    /// From so many times what this tank usually gets in a day it is asked about.
    #[serde(default)]
    pub asks_times: Option<f64>,
    /// Possible and usual amounts.
    pub is: Bound,
    /// What stands behind them.
    pub why: String,
    /// Key of the source, or one of the words of [`crate::Sourced`].
    pub source: String,
}
