//! What must not share a bottle (`data/pairs.toml`).

use quantity::Ion;

use crate::{Product, Role, Sourced};

/// A property by which a product can clash with another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Trait {
    /// Brings calcium.
    Calcium,
    /// Brings magnesium.
    Magnesium,
    /// Brings sulfate.
    Sulfate,
    /// Brings phosphate.
    Phosphate,
    /// Brings ammonium.
    Ammonium,
    /// Brings carbonate or bicarbonate.
    Carbonate,
    /// Makes a strongly alkaline solution (carbonate, bicarbonate, dipotassium phosphate).
    Alkaline,
    /// Brings iron that is held weakly.
    WeakIron,
    /// Brings iron held by EDTA.
    EdtaIron,
    /// Brings iron or other traces.
    Traces,
    /// The conditioner.
    Conditioner,
    /// Anything at all but the conditioner.
    Other,
}

impl Trait {
    /// Whether `product` has this property.
    pub fn of(self, product: &Product) -> bool {
        let brings = |ion| product.mg_per_g(ion) > 0.0;
        match self {
            Trait::Calcium => brings(Ion::Calcium),
            Trait::Magnesium => brings(Ion::Magnesium),
            Trait::Sulfate => brings(Ion::Sulfate),
            Trait::Phosphate => brings(Ion::Phosphate),
            Trait::Ammonium => brings(Ion::Ammonium),
            Trait::Carbonate => product.dic_mmol_per_g() > 0.0,
            Trait::Alkaline => product.alkalinity_meq_per_g() > 0.0,
            Trait::WeakIron => product.weak_iron,
            Trait::EdtaIron => product.edta,
            Trait::Traces => product.is(Role::Trace),
            Trait::Conditioner => product.is(Role::Conditioner),
            Trait::Other => !product.is(Role::Conditioner),
        }
    }
}

/// Two properties that must not meet in a bottle.
#[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Pair {
    /// One.
    pub one: Trait,
    /// The other.
    pub other: Trait,
    /// What happens, for a sentence: "gypsum falls out above about 15 mmol/L of each".
    pub why: String,
    /// The number behind it, in `unit`.
    #[serde(default)]
    pub number: Option<Sourced<f64>>,
    /// Unit of the number.
    #[serde(default)]
    pub unit: Option<String>,
    /// Key of the source, or one of the words of [`Sourced`].
    pub source: String,
}

/// Why two products may not share a bottle.
#[derive(Clone, Debug, serde::Serialize)]
pub struct Reason {
    /// Key of one product.
    pub one: String,
    /// Key of the other.
    pub other: String,
    /// The row that says so.
    pub pair: Pair,
}

/// The file.
#[derive(Clone, Debug, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct File {
    pub(crate) pairs: Vec<Pair>,
}

/// Whether these products may stand in one bottle; of several reasons the first of the file.
///
/// # Errors
/// The first pair that forbids it.
pub(crate) fn may_share(pairs: &[Pair], products: &[&Product]) -> Result<(), Box<Reason>> {
    for pair in pairs {
        for (i, one) in products.iter().enumerate() {
            for (j, other) in products.iter().enumerate() {
                if i != j && pair.one.of(one) && pair.other.of(other) {
                    let (one, other) = (one.key.clone(), other.key.clone());
                    return Err(Box::new(Reason { one, other, pair: pair.clone() }));
                }
            }
        }
    }
    Ok(())
}
