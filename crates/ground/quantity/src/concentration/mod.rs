//! Amounts dissolved in water, read with their basis: "12.5 mg/L NO3", "<0.05 mg P/l", "0.8 mmol/l Ca", "10 to 25 mg/L".
//!
//! A text may name the substance before or behind the number, inside the unit ("mg N/L"), or behind "as". A formula
//! (NO3, N, P2O5) is a basis; a plain name (nitrate) says what is meant but not how it is counted. Without a unit mg/L is
//! taken, and [`Reading::unit_assumed`] says so.

mod read;

use crate::basis::{Basis, equivalents_per_mole};
use crate::chem::Ion;
use crate::number::{Digits, canonical, format_number, read_back};
use crate::units::{NutrientBasis, Units};
use crate::{Explain, Kind, Known, Why};

pub use crate::comparator::Comparator;
pub use read::{parse_concentration, possible_readings};

/// An amount of one ion in a litre of water, as somebody wrote it. Ends and value are in mol/L of the ion, kept to 12
/// figures, never negative.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Reading {
    /// Of what.
    pub ion: Ion,
    /// How it stands to the written number.
    pub comparator: Comparator,
    /// Lower end: of a range, zero for [`Comparator::Below`], else the value.
    pub low_mol_per_l: f64,
    /// The value; the middle of a range, half of the bound for [`Comparator::Below`] (common practice, no source).
    pub mol_per_l: f64,
    /// Upper end: of a range, infinite for [`Comparator::Above`] (null in JSON), else the value.
    pub high_mol_per_l: f64,
    /// What it was counted as.
    pub basis: Basis,
    /// No unit was written, and mg/L was taken.
    pub unit_assumed: bool,
    /// The text.
    pub as_written: String,
}

impl Reading {
    /// mg of the ion in a litre.
    pub fn mg_per_l(&self) -> f64 {
        mg_per_l(self.mol_per_l, self.ion)
    }

    /// The value and its ends in mg of the ion in a litre.
    pub fn known_mg_per_l(&self, kind: Kind) -> Known<f64> {
        Known::ranged(self.low_mol_per_l, self.mol_per_l, self.high_mol_per_l, kind).map(|mol| mg_per_l(mol, self.ion))
    }

    /// mg in a litre counted by another basis; `None` where that does not exist for the ion.
    pub fn mg_per_l_as(&self, basis: Basis) -> Option<f64> {
        Some(read_back(self.mol_per_l * 1e3 * basis.grams_per_mole(self.ion)?))
    }

    /// The reading in the keeper's way of counting, for instance `<0.05 mg/L PO4`.
    pub fn print(&self, units: &Units) -> String {
        self.show(keepers_basis(self.ion, units), units)
    }

    /// Number, range or bound as counted by `basis`, with unit and formula. A basis that does not exist shows as the ion.
    fn show(&self, basis: Basis, units: &Units) -> String {
        let (grams, unit) = match (basis, equivalents_per_mole(self.ion)) {
            (Basis::AsCharge, Some(z)) => (z, format!("meq/L {}", self.ion.formula())),
            _ => {
                let basis = if basis.formula(self.ion).is_some() { basis } else { Basis::AsIon };
                let formula = basis.formula(self.ion).unwrap_or_default();
                (basis.grams_per_mole(self.ion).unwrap_or_default(), format!("mg/L {formula}"))
            }
        };
        let n = |mol: f64| units.number(mol * 1e3 * grams, Digits::Significant(3));
        let ends = (self.low_mol_per_l, self.mol_per_l, self.high_mol_per_l);
        format!("{} {unit}", self.comparator.show(ends, n))
    }

    /// The basis to show beside the one that was written: the ion, or the element if the ion was written.
    fn other_basis(&self) -> Basis {
        match self.basis {
            Basis::AsIon if Basis::AsElement.formula(self.ion).is_some() => Basis::AsElement,
            _ => Basis::AsIon,
        }
    }
}

/// mg of the ion in a litre, from mol; 10 figures.
pub fn mg_per_l(mol_per_l: f64, ion: Ion) -> f64 {
    read_back(mol_per_l * 1e3 * ion.molar_mass())
}

/// mol in a litre, from mg of the ion; 12 figures.
pub fn mol_per_l(mg_per_l: f64, ion: Ion) -> f64 {
    canonical(mg_per_l / (1e3 * ion.molar_mass()))
}

/// The basis by which the keeper wants this ion counted.
pub fn keepers_basis(ion: Ion, units: &Units) -> Basis {
    let choice = match ion {
        Ion::Nitrate | Ion::Nitrite | Ion::Ammonium => units.nitrogen,
        Ion::Phosphate => units.phosphorus,
        _ => NutrientBasis::Ion,
    };
    if choice == NutrientBasis::Element { Basis::AsElement } else { Basis::AsIon }
}

/// A concentration in the keeper's way of counting, three figures: `12.5 mg/L NO3`.
pub fn format_concentration(mol_per_l: f64, ion: Ion, units: &Units) -> String {
    let basis = keepers_basis(ion, units);
    let grams = basis.grams_per_mole(ion).unwrap_or(ion.molar_mass());
    let formula = basis.formula(ion).unwrap_or(ion.formula());
    format!("{} mg/L {formula}", units.number(mol_per_l * 1e3 * grams, Digits::Significant(3)))
}

/// The conversion in words and figures: `12 mg/L NO3 = 2.71 mg/L N`. Where only one way of counting exists, the amount
/// in mg/L and mmol/L.
pub fn explain_conversion(reading: &Reading) -> String {
    let units = Units::default();
    let other = reading.other_basis();
    let from = reading.show(reading.basis, &units);
    if other != reading.basis {
        return format!("{from} = {}", reading.show(other, &units));
    }
    let mmol = format_number(reading.mol_per_l * 1e3, Digits::Significant(3));
    format!("{from} = {mmol} mmol/L {}", reading.ion.formula())
}

impl Explain for Reading {
    fn explain(&self) -> Why {
        let n = |v| format_number(v, Digits::Significant(5));
        let (other, units) = (self.other_basis(), Units::default());
        let (from, to) = (self.show(self.basis, &units), self.show(other, &units));
        let weight = |basis: Basis| match basis.grams_per_mole(self.ion) {
            Some(grams) => n(grams),
            None => n(equivalents_per_mole(self.ion).unwrap_or(1.0)),
        };
        let sum = if other == self.basis {
            format!("{from} ÷ {} g/mol = {} mmol/L", weight(other), n(self.mol_per_l * 1e3))
        } else {
            format!("{from} × {} ÷ {} = {to}", weight(other), weight(self.basis))
        };
        let words = match self.basis {
            Basis::AsCharge => "An equivalent is a mole of charge; the figures are the molar mass and the charge.",
            _ => "Both count the same particles; the figures are what one mole of each weighs, in grams.",
        };
        Why {
            key: format!("reading-{}", self.ion.name()),
            question: format!("why {to}?"),
            sum,
            words: words.to_owned(),
            sources: vec!["iupac_2022".to_owned()],
            kind: Kind::WorkedOut,
        }
    }
}
