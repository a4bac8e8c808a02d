//! What plants take a day and what food brings (`data/uptake.toml`).

use std::collections::BTreeMap;

use quantity::Ion;

use crate::Sourced;

/// How much the tank is driven: light, with or without added carbon dioxide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Energy {
    /// Little light, no carbon dioxide added.
    Low,
    /// Middling light.
    Medium,
    /// Much light, carbon dioxide added.
    High,
}

impl Energy {
    /// All of them, least first.
    pub const ALL: [Energy; 3] = [Energy::Low, Energy::Medium, Energy::High];

    /// The word in keys and files.
    pub fn word(self) -> &'static str {
        match self {
            Energy::Low => "low",
            Energy::Medium => "medium",
            Energy::High => "high",
        }
    }
}

/// What one energy level means.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct EnergyRow {
    /// A sentence by which a beginner finds the own tank.
    pub words: String,
    /// mg/L of nitrate (as NO3) that a fully planted tank takes in a day.
    pub nitrate_mg_per_l_day: Sourced<f64>,
}

/// What food holds and what comes back of it.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Food {
    /// Protein, percent of the food as given.
    pub protein_percent: Sourced<f64>,
    /// Mass of protein for a mass of nitrogen.
    pub protein_per_nitrogen: Sourced<f64>,
    /// Phosphorus (as P), percent of the food as given.
    pub phosphorus_percent: Sourced<f64>,
    /// Share of the food's nitrogen that ends in the water as nitrate, 0 to 1.
    pub nitrogen_returned: Sourced<f64>,
    /// Share of the food's phosphorus that ends in the water as phosphate, 0 to 1.
    pub phosphorus_returned: Sourced<f64>,
    /// Grams of food a day for a gram of fish.
    pub per_fish_mass: Sourced<f64>,
    /// Equivalents of alkalinity eaten for a mole of organic nitrogen that becomes nitrate.
    pub alkalinity_eq_per_mol_nitrogen: Sourced<f64>,
}

impl Food {
    /// mg of nitrogen in a gram of food.
    pub fn nitrogen_mg_per_g(&self) -> f64 {
        10.0 * self.protein_percent.value / self.protein_per_nitrogen.value
    }

    /// mg of phosphorus in a gram of food.
    pub fn phosphorus_mg_per_g(&self) -> f64 {
        10.0 * self.phosphorus_percent.value
    }
}

/// The file: uptake by energy, its ratios, food.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Uptake {
    /// Rows by energy.
    pub energy: BTreeMap<Energy, EnergyRow>,
    /// The likely range of a given tank, as a factor on the row: `low` to `high` around 1.
    pub likely_factor: Sourced<f64>,
    /// mg of each ion taken with a mg of nitrate (as NO3). Nitrate itself stands at 1.
    pub per_nitrate: BTreeMap<Ion, Sourced<f64>>,
    /// Equivalents of alkalinity that plants give back for a mole of nitrate.
    pub alkalinity_eq_per_mol_nitrate: Sourced<f64>,
    /// Food.
    pub food: Food,
}

impl Uptake {
    /// mg/L a day of `ion` at this energy: best estimate; multiply by `likely_factor` for the range. 0 where no row is.
    pub fn mg_per_l_day(&self, energy: Energy, ion: Ion) -> f64 {
        let nitrate = self.energy.get(&energy).map_or(0.0, |row| row.nitrate_mg_per_l_day.value);
        nitrate * self.per_nitrate.get(&ion).map_or(0.0, |ratio| ratio.value)
    }
}
