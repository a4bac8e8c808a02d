//! What a household can buy and weigh: salts, chelates, trace mixes, conditioner (`data/products.toml`).

use std::collections::BTreeMap;

use quantity::{Fault, Ion};

use crate::{Sourced, molar_mass_g_per_mol};

/// What a product is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Nutrients that plants take in tenths of a gram: N, P, K, Mg.
    Feed,
    /// Raises calcium or magnesium.
    Hardness,
    /// Raises alkalinity.
    Alkalinity,
    /// Iron and other traces.
    Trace,
    /// Turns chlorine and chloramine harmless in new water.
    Conditioner,
    /// Ammonia for the start test of a tank without animals.
    StartTest,
}

/// Where a product goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Where {
    /// Dissolves well enough for a bottle.
    Bottle,
    /// Dissolves too little: as powder into the new water.
    NewWater,
}

/// What a gram holds.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Content {
    /// A pure salt, known by its formula.
    Salt(Salt),
    /// Mass percent of each element, as the label states it.
    Label(BTreeMap<Ion, Sourced<f64>>),
}

/// A pure salt.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Salt {
    /// Formula, hydrate water after a `·`.
    pub formula: String,
    /// mol of each ion that a mole brings; phosphate is all orthophosphate, whatever its protons.
    pub ions: BTreeMap<Ion, f64>,
    /// Equivalents of alkalinity that a mole brings.
    #[serde(default)]
    pub alkalinity_eq_per_mol: f64,
    /// mol of inorganic carbon that a mole brings.
    #[serde(default)]
    pub dic_mol_per_mol: f64,
    /// Share of the pure salt in what is sold, 0 to 1; a label that says otherwise goes first.
    pub assay: Sourced<f64>,
    /// Molar mass in g/mol, from the formula.
    #[serde(skip)]
    pub molar_mass_g_per_mol: f64,
}

/// How much dissolves.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Solubility {
    /// `[°C, g per 100 g of water]`, rising in °C; where sources differ, the lower.
    pub rows: Vec<[f64; 2]>,
    /// The formula that `rows` count, if it is not the salt as weighed (most tables count without hydrate water).
    #[serde(default)]
    pub counts: Option<String>,
    /// True where more dissolves the warmer the water is.
    pub rises: bool,
    /// Key of the source, or one of the words of [`Sourced`].
    pub source: String,
    /// What disagrees.
    #[serde(default)]
    pub note: Option<String>,
    /// Share by mass of `counts` in the salt as weighed; 1 where they are the same. From the formulas.
    #[serde(skip)]
    pub counted_share: f64,
}

/// The usual packet.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Pack {
    /// Grams.
    pub mass_g: f64,
    /// Euro cents; the keeper's own price goes first.
    pub price_cents: Sourced<f64>,
}

/// One thing to weigh.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Product {
    /// Key, for instance `potassium_nitrate`.
    #[serde(skip)]
    pub key: String,
    /// Name in a sentence.
    pub name: String,
    /// What it is for; empty where it is listed only to be refused by name.
    pub roles: Vec<Role>,
    /// Bottle or new water.
    pub goes: Where,
    /// What a gram holds.
    pub content: Content,
    /// How much dissolves; without it nothing is known.
    #[serde(default)]
    pub solubility: Option<Solubility>,
    /// For an iron chelate: the pH up to which it holds its iron.
    #[serde(default)]
    pub holds_to_ph: Option<Sourced<f64>>,
    /// True for iron that is held too weakly to share a bottle with phosphate.
    #[serde(default)]
    pub weak_iron: bool,
    /// True for iron held by EDTA, which calcium displaces.
    #[serde(default)]
    pub edta: bool,
    /// Keys of `data/cautions.toml`, in the order in which a label says them.
    pub cautions: Vec<String>,
    /// Why it is never given to a tank with animals, where that is so.
    #[serde(default)]
    pub never_with_animals: Option<String>,
    /// Usual packet and its price.
    pub pack: Pack,
    /// Months that a bottle made of it keeps.
    #[serde(default)]
    pub bottle_keeps_months: Option<Sourced<f64>>,
}

impl Product {
    /// mg of `ion` in a gram: of the pure salt, or by the label. 0 where it holds none. Multiply a salt by its assay.
    pub fn mg_per_g(&self, ion: Ion) -> f64 {
        match &self.content {
            Content::Salt(salt) => {
                let mol = salt.ions.get(&ion).copied().unwrap_or(0.0);
                1000.0 * mol * ion.molar_mass() / salt.molar_mass_g_per_mol
            }
            Content::Label(shares) => shares.get(&ion).map_or(0.0, |percent| 10.0 * percent.value),
        }
    }

    /// The same at the upper end of what the label may mean: for copper, which harms, this end counts.
    pub fn mg_per_g_high(&self, ion: Ion) -> f64 {
        match &self.content {
            Content::Salt(_) => self.mg_per_g(ion),
            Content::Label(shares) => shares.get(&ion).map_or(0.0, |percent| 10.0 * percent.high()),
        }
    }

    /// Milliequivalents of alkalinity that a gram of the pure salt brings.
    pub fn alkalinity_meq_per_g(&self) -> f64 {
        self.salt().map_or(0.0, |salt| 1000.0 * salt.alkalinity_eq_per_mol / salt.molar_mass_g_per_mol)
    }

    /// mmol of inorganic carbon that a gram of the pure salt brings.
    pub fn dic_mmol_per_g(&self) -> f64 {
        self.salt().map_or(0.0, |salt| 1000.0 * salt.dic_mol_per_mol / salt.molar_mass_g_per_mol)
    }

    /// Share of the pure salt in what is sold; 1 for a product known by its label.
    pub fn assay(&self) -> f64 {
        self.salt().map_or(1.0, |salt| salt.assay.value)
    }

    /// The salt, where the product is one.
    pub fn salt(&self) -> Option<&Salt> {
        match &self.content {
            Content::Salt(salt) => Some(salt),
            Content::Label(_) => None,
        }
    }

    /// The ions that it brings.
    pub fn ions(&self) -> impl Iterator<Item = Ion> + '_ {
        Ion::ALL.into_iter().filter(|ion| self.mg_per_g(*ion) > 0.0)
    }

    /// Whether it has this role.
    pub fn is(&self, role: Role) -> bool {
        self.roles.contains(&role)
    }

    /// Grams of the product as weighed that a litre of saturated solution holds at least, at `temperature_c`;
    /// none where nothing is known. `crystal_g_per_ml` is the density below which no crystal of a salt falls
    /// (`defaults.crystal_density_g_per_ml`).
    ///
    /// Tables give grams without hydrate water (s) per 100 g of water. With the share f of the counted part in
    /// the salt as weighed, 100 g of added water takes up h = 100 s / (100 f - (1 - f) s) grams of it. The litre
    /// is taken too large, as if the crystals kept all their room while they dissolve, so the grams err low.
    pub fn solubility_g_per_l(&self, temperature_c: f64, crystal_g_per_ml: f64) -> Option<f64> {
        let table = self.solubility.as_ref()?;
        let (s, f) = (table.at(temperature_c)?, table.counted_share);
        let water_g = 100.0 * f - (1.0 - f) * s;
        // A hydrate that melts in its own water has no limit of this kind; ten times its weight stands for it.
        let h = if water_g > 0.1 * s { 100.0 * s / water_g } else { 1000.0 };
        Some(1000.0 * h / (100.0 / WATER_G_PER_ML_LOWEST + h / crystal_g_per_ml))
    }
}

/// Density of water at 35 °C, g/mL, the lowest of the range (source key `wagner_pruss_2002`): a litre errs large.
const WATER_G_PER_ML_LOWEST: f64 = 0.994;

impl Solubility {
    /// g of the counted formula per 100 g of water, by straight lines between the rows; the nearest row outside them.
    fn at(&self, temperature_c: f64) -> Option<f64> {
        let first = self.rows.first()?;
        if temperature_c <= first[0] || self.rows.len() == 1 {
            return Some(first[1]);
        }
        for pair in self.rows.windows(2) {
            let ([t0, s0], [t1, s1]) = (pair[0], pair[1]);
            if temperature_c <= t1 {
                return Some(s0 + (s1 - s0) * (temperature_c - t0) / (t1 - t0));
            }
        }
        self.rows.last().map(|row| row[1])
    }
}

/// Fills in what follows from key and formulas.
///
/// # Errors
/// A formula that can't be read.
pub(crate) fn complete(products: &mut BTreeMap<String, Product>) -> Result<(), Fault> {
    for (key, product) in products {
        product.key.clone_from(key);
        let mut mass = None;
        if let Content::Salt(salt) = &mut product.content {
            salt.molar_mass_g_per_mol = molar_mass_g_per_mol(&salt.formula)?;
            mass = Some(salt.molar_mass_g_per_mol);
        }
        if let Some(table) = &mut product.solubility {
            table.counted_share = match (&table.counts, mass) {
                (Some(counted), Some(mass)) => molar_mass_g_per_mol(counted)? / mass,
                _ => 1.0,
            };
        }
    }
    Ok(())
}
