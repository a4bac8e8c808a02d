//! Troubles: what to do this minute, how to find out, how to prevent, and the numbers of the arithmetic with a tank
//! (`data/troubles.toml`).

use std::collections::BTreeMap;

use crate::Sourced;
use crate::named::named;

named! {
    /// Numbers of the arithmetic; the name carries the unit.
    TroubleNumbers of Sourced<f64> {
        /// Oxygen below which animals are in trouble, mg/L.
        oxygen_least_mg_per_l,
        /// Oxygen when the power goes out, share of what water in balance with air holds.
        oxygen_start_share,
        /// Oxygen that fish use, mg for a kg of fish an hour.
        fish_oxygen_mg_per_kg_h,
        /// A grown fish, g.
        fish_g,
        /// Oxygen that plants in the dark, ground and filter use, mg/L an hour.
        life_oxygen_mg_per_l_h,
        /// How fast a still surface passes oxygen, cm/h at 20 °C.
        still_surface_cm_per_h,
        /// The room on its coldest day, where nobody told, °C.
        room_coldest_c,
        /// The room on its hottest day, where nobody told, °C.
        room_hottest_c,
        /// Water that is too warm, °C.
        too_warm_c,
        /// Water in which fish of warm tanks begin to die, °C.
        lethal_near_c,
        /// The most that a thermometer of a tank in trouble is believed to show, °C.
        thermometer_most_c,
        /// A change takes out at least this share of what clean water like the tank's would, or it is not worth its risk, 0 to 1.
        change_worth_share,
        /// Heaters on sale, W: the usual one, the smallest and the largest of whoever did not tell theirs.
        heater_w,
        /// Hour from which the light, and with it carbon dioxide, is usually on.
        light_from_hour,
        /// Hour from which it is usually off.
        light_to_hour,
        /// Hour from which oxygen is lowest.
        dawn_from_hour,
        /// Hour from which light brings it back.
        dawn_to_hour,
        /// Hours of breath over which it is said to last for days.
        breath_long_h,
        /// Hours for which a reading is today's.
        reading_fresh_h,
        /// The most that is changed at once, percent.
        most_at_once_percent,
        /// So much over a limit is a bucket filled by eye, share.
        change_slack_share,
        /// Days for which the log is read back.
        reads_days,
        /// Share of the nitrate that is borne from which on a tap counts as rich, 0 to 1.
        rich_tap_share,
        /// Nitrate at more than so many times what a rich tap brings is far above it.
        far_tap_times,
        /// Nitrate up to so many times what the tap brings stands near it.
        near_tap_times,
    }
}

/// Nitrite that harms in water of some chloride.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct NitriteRow {
    /// It holds from this chloride on, mg/L.
    pub chloride_from_mg_per_l: f64,
    /// Over weeks, mg/L as N.
    pub long_mg_n_per_l: f64,
    /// At any time, mg/L as N.
    pub once_mg_n_per_l: f64,
    /// Key of the source.
    pub source: String,
}

/// What can speak for a cause: the logbook, the setup, the hour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CauseKey {
    /// A reading of ammonia or nitrite over its limit.
    Ammonia,
    /// A change of water.
    Change,
    /// A reading of the thermometer.
    Warm,
    /// Carbon dioxide is given.
    CarbonDioxide,
    /// A dose far over the usual.
    Dose,
    /// Food far over the usual.
    Food,
    /// A washed sponge.
    Sponge,
    /// Animals brought home.
    Newcomer,
    /// The hour.
    Dawn,
}

/// A cause that something can speak for.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct TroubleCause {
    /// What speaks for it.
    pub key: CauseKey,
    /// In plain words.
    pub title: String,
    /// The larger, the likelier.
    pub weight: f64,
    /// The same where a reading of today says that it harms; none: no reading tells more than the rest.
    #[serde(default)]
    pub weight_read: Option<f64>,
    /// Hours for which it counts.
    pub within_h: f64,
    /// How much of it: times the usual day's, or °C; none: any.
    #[serde(default)]
    pub least: Option<f64>,
    /// What to do about it.
    pub check: String,
    /// Key of the source, or one of the words of [`Sourced`].
    pub source: String,
}

/// What stands before the fish: strong words, and what follows them.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct PersonRow {
    /// The strong words.
    pub head: String,
    /// The sentence behind them.
    pub say: String,
    /// Rules of harm that it says.
    pub rules: Vec<u8>,
    /// Key of the source, or one of the words of [`Sourced`].
    pub source: String,
}

/// One step, numbered by its place.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct StepRow {
    /// What to do.
    pub head: String,
    /// How, a paragraph each.
    pub say: Vec<String>,
    /// Rules of harm that it says.
    pub rules: Vec<u8>,
    /// Key of the source, or one of the words of [`Sourced`].
    pub source: String,
}

/// One trouble.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct TroubleRow {
    /// Its word in addresses and on the command line.
    pub key: String,
    /// As it stands in the list.
    pub title: String,
    /// What is seen.
    pub sign: String,
    /// Keys of what stands before the steps.
    pub first: Vec<String>,
    /// Between that and the steps.
    pub then: String,
    /// Keys of what stands under the steps.
    pub last: Vec<String>,
    /// How to find out.
    pub find_out: Vec<String>,
    /// How to prevent.
    pub prevent: Vec<String>,
    /// Steps, in order.
    pub step: Vec<StepRow>,
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Troubles {
    /// Numbers.
    pub number: TroubleNumbers,
    /// Nitrite by chloride, from little chloride to much.
    pub nitrite: Vec<NitriteRow>,
    /// What can speak for a cause.
    pub cause: Vec<TroubleCause>,
    /// Sentences that several steps share, by key.
    pub shared: BTreeMap<String, String>,
    /// What stands before the fish, by key.
    pub person: BTreeMap<String, PersonRow>,
    /// Troubles in the order of the list.
    pub trouble: Vec<TroubleRow>,
}
