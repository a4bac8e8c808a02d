//! What a tank is made of and what is bought once (`data/substrates.toml`, `materials.toml`, `tools.toml`).

use crate::Sourced;
use crate::named::named;

/// What the ground is made of.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Substrate {
    /// Name in a sentence.
    pub name: String,
    /// Share of the bed's volume that water fills, 0 to 1, pores inside the grains included.
    pub porosity: Sourced<f64>,
    /// Mass of a litre of the dry bed, kg.
    pub bulk_density_kg_per_l: Sourced<f64>,
    /// True where it neither gives to the water nor takes from it.
    pub inert: bool,
    /// True where it gives off ammonia in its first weeks.
    pub leaches_ammonia: bool,
    /// True where it feeds the plants: such a tank gets no recipe of nutrients.
    pub feeds: bool,
    /// True where it gives off lime in acid or carbon-dioxide-rich water.
    pub lime: bool,
    /// What else a keeper should know.
    #[serde(default)]
    pub note: Option<String>,
}

named! {
    /// Densities in kg/m3 of what a tank is made of and filled with.
    Materials of Sourced<f64> {
        /// Float glass.
        glass_kg_per_m3,
        /// Acrylic sheet.
        acrylic_kg_per_m3,
        /// Rock.
        rock_kg_per_m3,
        /// Wood that has soaked until it sinks.
        wood_kg_per_m3,
        /// Fresh water at tank temperature.
        water_kg_per_m3,
    }
}

/// A thing bought once.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Tool {
    /// Name in a sentence.
    pub name: String,
    /// Euro cents; the keeper's own price goes first.
    pub price_cents: Sourced<f64>,
}
