//! How a keeper measures the own tank once (`data/measures.toml`).

use std::collections::BTreeMap;

use quantity::Ion;

use crate::Sourced;
use crate::named::named;

/// What is typed into a protocol.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct MeasureBlank {
    /// Its key in the protocol.
    pub key: String,
    /// What it is, for the middle of a sentence.
    pub says: String,
    /// Its unit, where the keeper's own units don't tell it.
    #[serde(default)]
    pub unit: String,
    /// What turns the number from the keeper's unit.
    #[serde(default)]
    pub kind: BlankKind,
    /// The least that can be meant, in the unit (°C, L, meq/L for the kinds).
    #[serde(default)]
    pub least: Option<f64>,
    /// The most that can be meant.
    #[serde(default)]
    pub most: Option<f64>,
    /// Half width that 90 of 100 readings keep; `None`: the sum knows it otherwise.
    #[serde(default)]
    pub error: Option<f64>,
    /// It may be left empty.
    #[serde(default)]
    pub optional: bool,
    /// Words to choose among: key and words.
    #[serde(default)]
    pub choices: Vec<[String; 2]>,
    /// The table of the file whose rows are the choices: `salt` or `lamp`.
    #[serde(default)]
    pub among: Option<String>,
    /// Where its numbers come from.
    #[serde(default)]
    pub source: Option<String>,
}

/// What turns a typed number into the unit of the sums.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BlankKind {
    /// Nothing: the unit stands beside it.
    #[default]
    Plain,
    /// °C or °F.
    Temperature,
    /// L or gallons.
    Volume,
    /// The keeper's degrees of alkalinity.
    Alkalinity,
}

/// One protocol.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Measure {
    /// Its name.
    pub name: String,
    /// The keeper's question.
    pub asks: String,
    /// What must be at hand.
    pub at_hand: Vec<String>,
    /// What is done, in order.
    pub steps: Vec<String>,
    /// Rules of `data/harm.toml` that are said with it.
    pub cautions: Vec<String>,
    /// Fields of the setup that it can write.
    pub writes: Vec<String>,
    /// What the number means and does not mean.
    pub note: String,
    /// What is typed.
    pub blank: Vec<MeasureBlank>,
}

/// A salt that raises the conductivity.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct MeasureSalt {
    /// Its name.
    pub name: String,
    /// Formula, with its water.
    pub formula: String,
    /// Moles of each ion in a mole.
    pub ions: BTreeMap<Ion, f64>,
}

/// A kind of lamp.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Lamp {
    /// Its name.
    pub name: String,
    /// Photons of 400 to 700 nm in µmol/s for 1,000 lm.
    pub per_klm: Sourced<f64>,
}

/// Words for a span of light.
#[derive(Clone, Debug, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct LightBand {
    /// What it is called.
    pub words: String,
    /// From, µmol/m²s.
    pub low: f64,
    /// To, µmol/m²s.
    pub high: f64,
    /// Where it comes from.
    pub source: String,
}

named! {
    /// The figures of the sums.
    MeasureFigures of Sourced<f64> {
        /// Most rise of conductivity where nobody lives, percent.
        rise_without_animals_percent,
        /// Salt in what is weighed as salt, share.
        salt_assay,
        /// What a meter shows of a true rise, share.
        meter_slope,
        /// What the equation of conductivity misses of a salt's rise, share.
        salt_slope,
        /// True lux for a phone's lux.
        phone,
        /// Light on the ground under water for light on the dry ground.
        dry_ground,
        /// Light on the ground for light over the cover glass.
        over_water,
        /// Heat held by water, glass and ground for heat held by the water.
        holds,
        /// Carbon dioxide at rest over its balance with the room, mg/L.
        rest_over_air_mg_per_l,
        /// Oxygen at rest under its balance with air, mg/L.
        rest_under_air_mg_per_l,
        /// Exponent of the ratio of Schmidt numbers.
        exchange_exponent,
        /// Plants in what is weighed as dabbed plants, share.
        wet_weight,
        /// Dry matter of wet plants, share.
        dry_share,
        /// Nitrogen of dry matter, percent.
        nitrogen_percent,
        /// Phosphorus of dry matter, percent.
        phosphorus_percent,
        /// Potassium of dry matter, percent.
        potassium_percent,
        /// A change of alkalinity that a test shows, meq/L.
        alkalinity_shows_meq_per_l,
        /// Ammonia that a test shows, mg/L N.
        ammonia_shows_mg_n_per_l,
        /// A change of conductivity that means something, percent.
        conductivity_shows_percent,
        /// A change of pH in a jar that means something.
        ph_shows,
    }
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Measures {
    /// Protocols by key.
    pub measure: BTreeMap<String, Measure>,
    /// Salts by key.
    pub salt: BTreeMap<String, MeasureSalt>,
    /// Kinds of lamp by key.
    pub lamp: BTreeMap<String, Lamp>,
    /// Figures of the sums.
    pub figure: MeasureFigures,
    /// Words for light, from the least on.
    pub band: Vec<LightBand>,
}

impl Measures {
    /// The words for so many photons on the ground, µmol/m²s.
    pub fn light_words(&self, photons: f64) -> &str {
        let band = self.band.iter().find(|band| (band.low..band.high).contains(&photons));
        band.map_or("", |band| &band.words)
    }
}
