//! What an amount in mass units is counted as: the ion, its element, an oxide, calcium carbonate.
//!
//! Factors are sums of atomic weights (source key `iupac_2022`) and nothing else: 62.004 mg of NO3 hold 14.007 mg of N.

use crate::chem::{Ion, atom};

/// Molar masses of what is counted by, g/mol; sums of atomic weights (source key `iupac_2022`).
pub mod molar_mass {
    #![allow(missing_docs)]
    use crate::chem::atom::*;
    pub const CACO3: f64 = CA + C + 3.0 * O;
    pub const CAO: f64 = CA + O;
    pub const MGO: f64 = MG + O;
    pub const K2O: f64 = 2.0 * K + O;
    pub const P2O5: f64 = 2.0 * P + 5.0 * O;
    pub const SO3: f64 = S + 3.0 * O;
    pub const HCO3: f64 = H + C + 3.0 * O;
    pub const NH3: f64 = N + 3.0 * H;
    pub const CO2: f64 = C + 2.0 * O;
}

/// What an amount is counted as. Not every basis exists for every ion: see [`possible_bases`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Basis {
    /// The ion itself: NO3, PO4, NH4, SO4, Ca.
    AsIon,
    /// The element that counts: N, P, S.
    AsElement,
    /// The oxide of fertiliser labels: P2O5, K2O, CaO, MgO, SO3.
    AsOxide,
    /// Ammonium counted as NH3.
    AsAmmonia,
    /// Calcium or magnesium counted as calcium carbonate, mole for mole.
    #[serde(rename = "as_caco3")]
    AsCaCO3,
    /// Equivalents of charge (meq/L): no mass is meant.
    AsCharge,
}

impl Basis {
    /// Formula of what is weighed, for instance `P2O5`; `None` where this basis does not exist for the ion.
    pub fn formula(self, ion: Ion) -> Option<&'static str> {
        self.form(ion).map(|(formula, _)| formula)
    }

    /// Grams of [`Basis::formula`] that one mole of the ion counts for; `None` as above.
    pub fn grams_per_mole(self, ion: Ion) -> Option<f64> {
        self.form(ion).map(|(_, grams)| grams)
    }

    fn form(self, ion: Ion) -> Option<(&'static str, f64)> {
        use molar_mass::*;
        Some(match (self, ion) {
            (Basis::AsIon, _) => (ion.formula(), ion.molar_mass()),
            (Basis::AsElement, Ion::Nitrate | Ion::Nitrite | Ion::Ammonium) => ("N", atom::N),
            (Basis::AsElement, Ion::Phosphate) => ("P", atom::P),
            (Basis::AsElement, Ion::Sulfate) => ("S", atom::S),
            (Basis::AsAmmonia, Ion::Ammonium) => ("NH3", NH3),
            (Basis::AsOxide, Ion::Phosphate) => ("P2O5", P2O5 / 2.0),
            (Basis::AsOxide, Ion::Potassium) => ("K2O", K2O / 2.0),
            (Basis::AsOxide, Ion::Calcium) => ("CaO", CAO),
            (Basis::AsOxide, Ion::Magnesium) => ("MgO", MGO),
            (Basis::AsOxide, Ion::Sulfate) => ("SO3", SO3),
            (Basis::AsCaCO3, Ion::Calcium | Ion::Magnesium) => ("CaCO3", CACO3),
            _ => return None,
        })
    }
}

/// Every way in which an amount of this ion in mass units may be meant, the ion itself first.
pub fn possible_bases(ion: Ion) -> &'static [Basis] {
    use Basis::*;
    match ion {
        Ion::Nitrate | Ion::Nitrite => &[AsIon, AsElement],
        Ion::Ammonium => &[AsIon, AsElement, AsAmmonia],
        Ion::Phosphate => &[AsIon, AsElement, AsOxide],
        Ion::Sulfate => &[AsIon, AsElement, AsOxide],
        Ion::Calcium | Ion::Magnesium => &[AsIon, AsOxide, AsCaCO3],
        Ion::Potassium => &[AsIon, AsOxide],
        _ => &[AsIon],
    }
}

/// Whether a bare amount in mass units is asked for its basis. Reports and kits print nitrogen and phosphorus both as
/// the ion and as the element; the rest is the ion unless it says otherwise (common practice, no source).
pub fn needs_basis(ion: Ion) -> bool {
    matches!(ion, Ion::Nitrate | Ion::Nitrite | Ion::Ammonium | Ion::Phosphate)
}

/// Equivalents of charge in one mole, for amounts in meq/L. `None` where an analysis fixes none: traces in chelates,
/// boron, and phosphate, whose charge moves with the pH.
pub fn equivalents_per_mole(ion: Ion) -> Option<f64> {
    match (ion, ion.charge()) {
        (Ion::Phosphate, _) | (_, 0) => None,
        (_, z) => Some(f64::from(z.abs())),
    }
}

/// `amount` (any mass unit) of `ion` counted by `from`, counted by `to`. `None` where a basis does not exist for the ion.
pub fn convert(amount: f64, ion: Ion, from: Basis, to: Basis) -> Option<f64> {
    Some(crate::number::canonical(amount * to.grams_per_mole(ion)? / from.grams_per_mole(ion)?))
}
