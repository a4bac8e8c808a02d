//! The routine: what is done how often, by the kind of tank (`data/routine.toml`).

use std::collections::BTreeMap;

use crate::Sourced;
use crate::named::named;

/// Kinds of tank that have a routine of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TankKind {
    /// Fed by the day, with large changes.
    Daily,
    /// Little light, slow growth, small changes.
    Slow,
    /// A soil tank: nothing is dosed, nothing changed by the calendar.
    Soil,
}

/// What a kind of tank is.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct KindRow {
    /// Name in a sentence.
    pub name: String,
    /// A sentence for the page.
    pub words: String,
    /// Share of the water that a change renews where nobody told, percent; none: as everywhere.
    #[serde(default)]
    pub change_percent: Option<Sourced<f64>>,
    /// Days from change to change where nobody told, 0 for never; none: as everywhere.
    #[serde(default)]
    pub change_every_days: Option<Sourced<f64>>,
}

/// What a tank must have for an act or a test to belong to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Needs {
    /// A filter.
    Filter,
    /// Carbon dioxide is given.
    CarbonDioxide,
    /// Water evaporates and is topped up.
    Evaporation,
    /// Animals, and a start test that was not told as passed.
    StartTest,
}

/// An act.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct ActRow {
    /// What to do: the words of its row.
    pub name: String,
    /// How.
    pub say: String,
    /// Days from one to the next, by kind of tank; a kind without a row never has it.
    pub every_days: BTreeMap<TankKind, Sourced<f64>>,
    /// What the tank must have.
    #[serde(default)]
    pub needs: Option<Needs>,
    /// It is done along with a change that falls due.
    #[serde(default)]
    pub with_change: bool,
    /// Hands go into the water: plugs first.
    #[serde(default)]
    pub hands_in_water: bool,
    /// Days after the day of the change, 0 to 6.
    #[serde(default)]
    pub after_change: u8,
    /// Week of a long interval, from 0.
    #[serde(default)]
    pub week: u8,
    /// The lower, the sooner where a day holds only one of two.
    pub rank: u8,
    /// Where day, week and rank come from.
    pub source: String,
    /// Rows of `data/harm.toml` whose sentences stand with the act.
    pub harm: Vec<String>,
}

/// A test.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct TestRow {
    /// Name in a sentence.
    pub name: String,
    /// Days from one to the next, by kind of tank.
    pub every_days: BTreeMap<TankKind, Sourced<f64>>,
    /// What the tank must have.
    #[serde(default)]
    pub needs: Option<Needs>,
    /// When, or why.
    pub say: String,
    /// Rows of `data/harm.toml` whose sentences stand with it.
    pub harm: Vec<String>,
}

named! {
    /// Numbers of the routine; the name carries the unit.
    RoutineNumbers of Sourced<f64> {
        /// Acts on one day, at most.
        acts_a_day,
        /// Hour of the morning's acts in the calendar.
        morning_hour,
        /// Hour of the evening's acts.
        evening_hour,
        /// Hour of a change.
        change_hour,
        /// Minutes in which food is gone.
        eat_minutes,
        /// Days by which an act may be early and still counts.
        grace_days,
        /// Days without a change after which a tank counts as long unchanged.
        unchanged_days,
        /// Days after the day of the change on which tests are read.
        tests_after_change_days,
        /// Days before something runs out at which it is said.
        warn_days,
        /// Water from the kettle, °C.
        kettle_c,
        /// Minutes for which trimmings drip before they are weighed.
        drip_minutes,
        /// L to carry at once, at most.
        carry_l,
        /// Days for which food of the log counts.
        food_reads_days,
        /// Share of a full cylinder that no tank takes in a day, 0 to 1.
        cylinder_lost_share,
        /// Days of the log that a sign may lean on.
        sign_reads_days,
        /// Days for which a reading that harms stands before the acts of the day.
        alarm_days,
        /// A change of more than so many times the tank's water is a slip of the pen.
        change_most_times,
        /// g of food on one day above which it is a slip of the pen.
        food_most_g,
    }
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Routine {
    /// Kinds of tank.
    pub kind: BTreeMap<TankKind, KindRow>,
    /// Numbers.
    pub number: RoutineNumbers,
    /// Acts by key.
    pub act: BTreeMap<String, ActRow>,
    /// Tests by key: what the logbook calls the reading.
    pub test: BTreeMap<String, TestRow>,
}
