//! What is weighed: the bottles, and what goes into the new water of a change.

use super::Note;

/// One bottle.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Bottle {
    /// "Bottle one", ...
    pub name: String,
    /// mL.
    pub volume_ml: f64,
    /// mL a day.
    pub daily_ml: f64,
    /// Days it lasts.
    pub lasts_days: f64,
    /// What is weighed in, rounded to the scale.
    pub weighed: Vec<Weighed>,
    /// What is too little for the scale and comes in from a stock; said in `handling` too.
    pub from_stock: Vec<FromStock>,
    /// "every morning", "every evening".
    pub time_of_day: String,
    /// Keep it dark, boil the water, shake ...: sentences.
    pub handling: Vec<String>,
    /// Hazard words of the label.
    pub hazards: Vec<String>,
    /// What ten times the dose, once, would do, and the number at which harm starts: a sentence.
    pub slip: String,
    /// Above this many mL a day it asks "really?", and above that it refuses.
    pub ask_above_ml: f64,
    /// mL a day above which it refuses.
    pub refuse_above_ml: f64,
}

/// A weighed amount.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Weighed {
    /// Key of the product.
    pub product: String,
    /// Name.
    pub name: String,
    /// g, a multiple of the scale's step.
    pub grams: f64,
    /// Error of the dose from scale and syringe, share either way.
    pub error_share: f64,
    /// g/L that dissolve at the coldest room temperature.
    pub soluble_g_per_l: f64,
    /// Key of the why-note.
    pub why: String,
}

/// An amount too small for the scale: weighed into a stock, of which some millilitres are taken.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct FromStock {
    /// Key of the product.
    pub product: String,
    /// Name.
    pub name: String,
    /// g weighed into the stock, a multiple of the scale's step.
    pub stock_g: f64,
    /// mL of the stock.
    pub stock_ml: f64,
    /// mL of the stock that go into the bottle, a multiple of the syringe's step.
    pub take_ml: f64,
    /// g that come into the bottle so.
    pub grams: f64,
    /// Error of the dose from scale and syringe, share either way.
    pub error_share: f64,
    /// How: sentence.
    pub sentence: String,
    /// Key of the why-note.
    pub why: String,
}

/// What goes into the new water.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct NewWater {
    /// Salts: name, grams a change and a bucket.
    pub salts: Vec<Salt>,
    /// Conditioner; `None`: the supplier says that there is no disinfectant.
    pub conditioner: Option<Conditioner>,
    /// What is said of tap, bucket, temperature and of the first changes.
    pub notes: Vec<Note>,
    /// The test that stands with its salts, where one of them raises pH and animals live: a sentence.
    #[serde(skip)]
    pub ph_test: Option<String>,
}

/// A salt of the new water.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Salt {
    /// Key of the product.
    pub product: String,
    /// Name.
    pub name: String,
    /// g for the whole change.
    pub grams_a_change: f64,
    /// g for one bucket: weighed so, or the even share of what is weighed for the whole change.
    pub grams_a_bucket: f64,
    /// Where it is too little for the scale: the stock that it comes from; said in `how` too.
    pub from_stock: Option<FromStock>,
    /// How: sentence.
    pub how: String,
    /// Key of the why-note.
    pub why: String,
}

/// The conditioner.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Conditioner {
    /// mg/L of total chlorine counted on.
    pub chlorine_mg_per_l: f64,
    /// Thiosulfate stock: g of pentahydrate in mL of water.
    pub stock_g: f64,
    /// mL.
    pub stock_ml: f64,
    /// mL of the stock for one bucket.
    pub ml_a_bucket: f64,
    /// mL for the whole tank (by hose: before the water).
    pub ml_whole_tank: f64,
    /// Days that the stock keeps.
    pub keeps_days: f64,
    /// mg/L of total chlorine that the rounded dose covers.
    pub covers_mg_per_l: f64,
    /// Ammonia-N left by chloramine and brought by the tap, mg/L in the new water.
    pub ammonia_n_mg_per_l: f64,
    /// Un-ionised, mg/L N in the tank right after the change, worst end.
    pub nh3_n_in_tank_mg_per_l: f64,
    /// Sentences: the act with its number first, then what must be known before it.
    pub sentences: Vec<String>,
    /// Sentences for who wants to know more: the other way of filling, how the ammonia adds up.
    pub more: Vec<String>,
    /// Above the ceiling: no recipe, ask the supplier.
    pub refused: Option<String>,
    /// Key of the why-note.
    pub why: String,
}
