//! The tank with every value known: told, worked out, common practice or assumed.

use std::collections::BTreeMap;

use quantity::{Ion, Known, Why};

use crate::Question;

/// How much light, and so growth, the tank runs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Energy {
    /// Low light, no carbon dioxide given, slow growth.
    Low,
    /// Middling light.
    Medium,
    /// Much light, usually with carbon dioxide.
    High,
}

/// How richly the plants are to be fed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Feeding {
    /// Just enough.
    JustEnough,
    /// Comfortable.
    Comfortable,
    /// Plenty.
    Plenty,
    /// A soil tank: nothing is dosed.
    None,
}

/// What the supplier disinfects with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Disinfectant {
    /// The report or the supplier says there is none.
    None,
    /// Free chlorine.
    Chlorine,
    /// Chloramine.
    Chloramine,
    /// Nobody said: counts as chloramine.
    Unknown,
}

/// A water as the report or the keeper gives it. Low and high are the year's ends, each ion on its own.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct SourceWater {
    /// What the keeper calls it.
    pub name: String,
    /// mg/L of the ion, for every [`Ion::ALL`].
    pub ions: BTreeMap<Ion, Known<f64>>,
    /// meq/L.
    pub alkalinity_meq_per_l: Known<f64>,
    /// pH as it leaves the tap.
    pub ph: Known<f64>,
    /// °C over the year.
    pub temperature_c: Known<f64>,
    /// µS/cm at 25 °C as the report gives it, if it does.
    pub conductivity_25_us_per_cm: Option<Known<f64>>,
    /// Disinfectant.
    pub disinfectant: Disinfectant,
    /// mg/L as Cl2, free and bound together.
    pub total_chlorine_mg_per_l: Known<f64>,
}

impl SourceWater {
    /// mg/L of one ion.
    pub fn mg_per_l(&self, ion: Ion) -> Known<f64> {
        self.ions.get(&ion).copied().unwrap_or(Known::exact(0.0, quantity::Kind::Assumed))
    }
}

/// Sizes that follow from glass, ground and stones.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Geometry {
    /// Inner length (left to right), m.
    pub length_m: f64,
    /// Inner width (front to back), m.
    pub width_m: f64,
    /// Inner height, m.
    pub height_m: f64,
    /// Thickness of the glass, m.
    pub glass_m: f64,
    /// From the inner bottom to the waterline, m.
    pub waterline_m: f64,
    /// Ground at the front and the back, m.
    pub ground_front_m: f64,
    /// Ground at the back, m.
    pub ground_back_m: f64,
    /// What a seller would call it: inner length x width x height.
    pub nominal_l: f64,
    /// The water that is really in it.
    pub true_l: Known<f64>,
    /// Water surface, m².
    pub surface_m2: f64,
    /// Water, glass, ground, stones and wood, kg.
    pub mass_kg: Known<f64>,
    /// Mass over the tank's own footprint, kPa.
    pub pressure_kpa: Known<f64>,
}

impl Geometry {
    /// The sentence that states the load and asks; it never says that a floor or a glass holds.
    pub fn load_sentence(&self, units: &quantity::Units) -> String {
        let mass = quantity::amount::Mass::kilograms(self.mass_kg.high).print(units);
        let kpa = quantity::format_number(self.pressure_kpa.high, quantity::Digits::Significant(2));
        format!(
            "Filled, it weighs up to {mass} and presses on its footprint with up to {kpa} kPa, the stand not counted. \
             Stand it across the joists and by a load-bearing wall. Whether your floor and your furniture carry it I can't \
             tell: ask the landlord or a structural engineer."
        )
    }
}

/// Who lives in it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct Animals {
    /// Adult fish.
    pub fish: u32,
    /// Young fish or eggs are reared.
    pub young: bool,
    /// Shrimps.
    pub shrimps: u32,
    /// Snails.
    pub snails: u32,
    /// Others without a backbone.
    pub other_invertebrates: u32,
    /// The start test is passed: a filter that takes ammonia.
    pub start_test_passed: bool,
}

impl Animals {
    /// Anybody at all.
    pub fn any(&self) -> bool {
        self.fish > 0 || self.invertebrates() || self.young
    }
    /// Shrimps, snails or other invertebrates.
    pub fn invertebrates(&self) -> bool {
        // No sum: a head count of the log may be any number.
        [self.shrimps, self.snails, self.other_invertebrates].iter().any(|count| *count > 0)
    }
}

/// What the plants take and the food brings.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Growth {
    /// mg/L of the ion a day that the plants take, before what food gives back; range as "likely".
    pub uptake_mg_per_l_day: BTreeMap<Ion, Known<f64>>,
    /// mg/L of the ion a day that food brings (nitrogen as NO3, phosphorus as PO4).
    pub food_mg_per_l_day: BTreeMap<Ion, Known<f64>>,
    /// meq/L a day of alkalinity that nitrifying the food's nitrogen eats.
    pub alkalinity_eaten_meq_per_l_day: Known<f64>,
}

/// A liquid or powder of the keeper's own, from its label.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct OwnProduct {
    /// As the keeper calls it.
    pub name: String,
    /// mg of ion per mL (a liquid) or per g (a powder).
    pub ions_mg: BTreeMap<Ion, f64>,
    /// A liquid is dosed in mL, a powder weighed in g.
    pub liquid: bool,
}

/// What is at hand and how it is dosed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct AtHand {
    /// Keys of products owned.
    pub products: Vec<String>,
    /// The keeper's own liquids and powders.
    pub own: Vec<OwnProduct>,
    /// Step of the scale, g.
    pub scale_g: Known<f64>,
    /// Step of the syringe or dropper, mL.
    pub syringe_ml: Known<f64>,
    /// Bottle, mL.
    pub bottle_ml: Known<f64>,
    /// Daily dose from a bottle, mL.
    pub daily_ml: Known<f64>,
    /// Iron in the chelate, mass share (0 to 1), with the chelate's product key.
    pub chelate: String,
    /// Copper in the trace mix, mass share.
    pub trace_copper: Known<f64>,
    /// The coldest that bottles get, °C.
    pub coldest_room_c: Known<f64>,
    /// Bucket, L.
    pub bucket_l: Known<f64>,
    /// New water by hose straight into the tank.
    pub by_hose: bool,
    /// Doses are counted out by a dropper; its drop is the step of the syringe then.
    pub dropper: bool,
}

impl AtHand {
    /// [`drops`] of the keeper's dropper; `None` too where doses are drawn up by a syringe.
    pub fn drops(&self, ml: f64) -> Option<u32> {
        self.dropper.then(|| drops(ml, self.syringe_ml.value)).flatten()
    }
}

/// Whole drops of a size that make up so many millilitres; `None`: less than one, or more than anybody counts (our choice:
/// 100).
pub fn drops(ml: f64, drop_ml: f64) -> Option<u32> {
    const MOST: f64 = 100.0;
    let drops = (ml / drop_ml).round();
    (1.0..=MOST).contains(&drops).then_some(drops as u32)
}

/// What the keeper does.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Habits {
    /// Share of the water changed, 0 to 1.
    pub change_share: Known<f64>,
    /// Every so many days; 0: never.
    pub every_days: u32,
    /// Water that evaporates and is topped up, L a day.
    pub top_up_l_per_day: Known<f64>,
    /// Name of the water that tops up: `tap` or `low`.
    pub top_up_with: String,
}

/// What is wished beyond feeding.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Wish {
    /// A pH.
    pub ph: Option<f64>,
    /// Hardness at least and at most, meq/L.
    pub hardness_meq_per_l: Option<(f64, f64)>,
    /// Alkalinity at least and at most, meq/L.
    pub alkalinity_meq_per_l: Option<(f64, f64)>,
    /// Bands that the keeper set instead of the table's, mg/L of the ion.
    pub bands: BTreeMap<Ion, (f64, f64)>,
}

/// Something that nobody told.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Assumption {
    /// Field, for instance `glass.fill_below_rim`.
    pub field: String,
    /// In words for a beginner, with the value and unit.
    pub sentence: String,
    /// How much it could move what the keeper does: share by which the most sensitive answer moves over the range.
    pub weight: f64,
    /// Common practice or assumed.
    pub kind: quantity::Kind,
}

/// What the keeper measured at this tank once; `None`: not measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub struct Measured {
    /// The water in the tank, L; [`Geometry::true_l`] is this where it is told.
    pub litres: Option<Known<f64>>,
    /// Heat lost for each degree over the room, surface and evaporation included, W/K.
    pub heat_loss_w_per_k: Option<Known<f64>>,
    /// Rate at which oxygen nears its level in balance with air, at 20 °C, through the surface and all else that stirs, 1/h.
    pub oxygen_per_h_at_20: Option<Known<f64>>,
    /// Photons of 400 to 700 nm on the ground, without the shade of plants, µmol/m²s.
    pub photons_umol_per_m2_s: Option<Known<f64>>,
    /// Flow at the filter's outlet, L/h.
    pub flow_l_per_h: Option<Known<f64>>,
    /// The ground holds lime.
    pub ground_lime: Option<bool>,
    /// The ground gives off ammonia.
    pub ground_ammonia: Option<bool>,
}

/// What keeps it warm and breathing, as far as the keeper told; `None`: not told, and whoever needs it says what it takes
/// instead.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub struct Warmth {
    /// °C of the room on its coldest day.
    pub coldest_room_c: Option<Known<f64>>,
    /// °C of the room on its hottest day.
    pub hottest_room_c: Option<Known<f64>>,
    /// W of one heater.
    pub heater_w: Option<Known<f64>>,
    /// How many heaters; with watts and without a number it is one.
    pub heaters: Option<u32>,
    /// A closed glass cover lies on it.
    pub covered: Option<bool>,
    /// An air pump runs.
    pub air_pump: Option<bool>,
    /// g of one grown fish.
    pub fish_g: Option<Known<f64>>,
}

/// The tank, everything known.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Tank {
    /// What the keeper calls it.
    pub name: String,
    /// Country of the law, as a key of `data/law.toml`: `eu`, `gb`, `us`, `other`.
    pub country: String,
    /// ISO 4217 code of the money.
    pub currency: String,
    /// The units the keeper reads.
    pub units: quantity::Units,
    /// Sizes.
    pub geometry: Geometry,
    /// What was measured at it.
    pub measured: Measured,
    /// What keeps it warm and breathing.
    pub warmth: Warmth,
    /// °C of the tank.
    pub temperature_c: Known<f64>,
    /// CO2 in the room's air, ppm.
    pub room_co2_ppm: Known<f64>,
    /// CO2 that is given, mg/L in the tank by day; `None`: not given.
    pub co2_given_mg_per_l: Option<Known<f64>>,
    /// The tap.
    pub tap: SourceWater,
    /// Rain, low-mineral or other water at hand.
    pub low: Option<SourceWater>,
    /// Copper that the house's pipes add after standing, mg/L.
    pub pipes_copper_mg_per_l: Known<f64>,
    /// Share of `low` in the new water, 0 to 1; `None`: the recipe may choose.
    pub low_share: Option<f64>,
    /// Light and growth.
    pub energy: Energy,
    /// Feeding.
    pub feeding: Feeding,
    /// Animals.
    pub animals: Animals,
    /// Uptake and food.
    pub growth: Growth,
    /// What grows in it, in the keeper's own words; may be empty.
    pub plants: String,
    /// Habits.
    pub habits: Habits,
    /// What the routine hangs on.
    pub keeping: crate::Keeping,
    /// At hand.
    pub at_hand: AtHand,
    /// Wishes.
    pub wish: Wish,
    /// Prices that the keeper gave, in hundredths of the currency, by product key.
    pub prices: BTreeMap<String, f64>,
    /// Months since water was changed, where it matters; `None`: changed regularly.
    pub unchanged_months: Option<f64>,
    /// What was assumed, the weightiest first.
    pub assumed: Vec<Assumption>,
    /// Questions that must be answered first.
    pub questions: Vec<Question>,
    /// Values far from usual: field and sentence.
    pub unusual: Vec<(String, String)>,
    /// Why-notes of the sizes and assumptions.
    pub whys: Vec<Why>,
}

/// Days of a month: a Julian year, 365.25 days, over twelve.
pub const MONTH_DAYS: f64 = 365.25 / 12.0;

impl Tank {
    /// Days since water was changed, where the keeper told the months; above 0.
    pub fn unchanged_days(&self) -> Option<f64> {
        self.unchanged_months.filter(|months| *months > 0.0).map(|months| MONTH_DAYS * months)
    }

    /// Water is changed by habit.
    pub fn is_changed(&self) -> bool {
        self.habits.every_days > 0 && self.habits.change_share.value > 0.0
    }
}
