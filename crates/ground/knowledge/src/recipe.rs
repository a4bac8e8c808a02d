//! How the recipe weighs, fills and pours, and what is worth saying (`data/recipe.toml`).

use crate::Sourced;
use crate::named::named;

/// An amount too small for the scale goes through a stock.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct StockFigures {
    /// mL of a stock, from the smallest on.
    pub sizes_ml: Sourced<Vec<f64>>,
    /// Steps of the syringe that are taken of it, at the least.
    pub take_steps_least: Sourced<f64>,
    /// Share of the bottle it goes into that may come from it, 0 to 1.
    pub take_share_most: Sourced<f64>,
    /// Jar in which a portion for the tank itself is made up, mL.
    pub jar_ml: Sourced<f64>,
}

named! {
    /// A bottle from which a little is given every day.
    BottleFigures of Sourced<f64> {
        /// How many times the usual millilitres a day may be given; a whole number.
        daily_times_most,
        /// Days that it lasts, at the least.
        lasts_days_least,
        /// One that is not filled up is filled to a multiple of this, mL.
        filled_to_ml,
        /// Share of it that is given while it keeps below which it is not filled up, 0 to 1.
        given_share_least,
    }
}

named! {
    /// The new water of a change.
    NewWaterFigures of Sourced<f64> {
        /// Jug in which salts for several buckets are dissolved, L.
        jug_l,
        /// Share of an amount by which the scale may round it, 0 to 1.
        rounded_share_most,
        /// mL of which a stock for a change may make up [`StockFigures::take_share_most`].
        stock_for_ml,
        /// Share of the tank, 0 to 1, from which on a change may run in by hose.
        hose_from_share,
        /// Smaller changes with which a plan may begin, at most.
        begin_most_changes,
        /// Share of a day's limit that a change with a part of the salts may use, 0 to 1.
        begin_limit_share,
        /// Changes of which each part of the salts is told, at most.
        begin_told_most,
    }
}

/// The conditioner's bottle.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct ConditionerFigures {
    /// Dose for a bucket that is easily drawn up, mL.
    pub dose_ml: Sourced<f64>,
    /// Steps of the syringe in a dose, at the least.
    pub dose_steps_least: Sourced<f64>,
    /// Sizes of the bottle, times the usual one, from the smallest on.
    pub bottle_times: Sourced<Vec<f64>>,
}

named! {
    /// A slip of the hand, and the way back.
    SlipFigures of Sourced<f64> {
        /// How many times the dose is given by it; a whole number.
        times,
        /// Share of the way to the refusal from which on it asks, 0 to 1.
        asked_from_share,
        /// Changes of water that are a quick way down, at the most.
        changes_most,
        /// Share of the tank, 0 to 1, below which a change is not done oftener than planned.
        small_change_share,
    }
}

/// A habit of changes that takes away too little.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct HabitFigures {
    /// Nitrate over the tap's that changes may leave standing, mg/L NO3.
    pub leftover_mg_per_l: Sourced<f64>,
    /// Parts of the food that are tried, percent, from the largest on.
    pub food_tried_percent: Sourced<Vec<f64>>,
}

/// What is worth saying, giving or doing.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct WorthFigures {
    /// Share of a band's lower edge, 0 to 1, that a kit for the home shows.
    pub shown_share: Sourced<f64>,
    /// Share of a band's lower edge, 0 to 1, below which a shortfall is rounding.
    pub rounded_share: Sourced<f64>,
    /// Share of alkalinity's floor, 0 to 1, from which on it counts as held.
    pub held_share: Sourced<f64>,
    /// meq/L of alkalinity from which on nothing is given that raises it further.
    pub alkaline_meq_per_l: Sourced<f64>,
    /// Share of the tank, 0 to 1, below which no change is proposed.
    pub change_least_share: Sourced<f64>,
    /// Shares of change that are tried where a band is not met, percent.
    pub changes_tried_percent: Sourced<Vec<f64>>,
    /// Share of low-mineral water, 0 to 1, below which none is advised.
    pub low_mineral_least_share: Sourced<f64>,
    /// Steps of pH within which a wish is met.
    pub ph_met: Sourced<f64>,
    /// Steps of pH between tank and new water beyond which a change swings the tank.
    pub ph_far: Sourced<f64>,
    /// Years beyond which a pack outlasts most tanks.
    pub pack_years: Sourced<f64>,
    /// Rise of pH from which on it is told.
    pub ph_rises: Sourced<f64>,
    /// A range whose upper end is more than so many times its lower tells nothing to act on.
    pub tells_times: Sourced<f64>,
    /// Share of a band from which on what a salt brings along is as wide as the band.
    pub wide_share: Sourced<f64>,
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct RecipeFigures {
    /// Stocks.
    pub stock: StockFigures,
    /// Bottles.
    pub bottle: BottleFigures,
    /// New water.
    pub new_water: NewWaterFigures,
    /// The conditioner.
    pub conditioner: ConditionerFigures,
    /// Slips.
    pub slip: SlipFigures,
    /// Habits.
    pub habit: HabitFigures,
    /// What is worth it.
    pub worth: WorthFigures,
}
