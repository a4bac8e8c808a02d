//! What stays the same when waters are mixed, warmed or stirred, and what additions do to it.
//!
//! **What.** Totals, alkalinity and inorganic carbon are conserved by mixing; pH, CO2 and saturation are not, and come out
//! of the speciation afterwards, closed or open to a room.
//!
//! **Equation.** Weighted means by parts. An addition adds its ions; it changes alkalinity by 2 C + 2 P - H of
//! what is added (carbonate 2, bicarbonate 1, hydroxide 1, strong acid -1, CO2 and every neutral salt of the totals 0).
//!
//! **Symbols.** mol and eq per kg of water, °C.
//!
//! **Range.** Dilute water: volumes add, and the heat capacity of all parts is the same.
//!
//! **Source.** Conservation of mass and charge; alkalinity as defined by `dickson_1981`.
//!
//! **Checked by** `tests/against_phreeqc.rs` (blends, doses, titrations), `tests/identities.rs`.

use quantity::Ion;

use crate::sample::{Carbon, Sample, Totals};

/// What mixing conserves: totals, alkalinity, carbon and (nearly) heat. Never pH.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Conserved {
    /// mol/kg.
    pub totals: Totals,
    /// eq/kg.
    pub alkalinity_eq_per_kg: f64,
    /// mol/kg.
    pub dic_mol_per_kg: f64,
    /// °C.
    pub temperature_c: f64,
}

impl Conserved {
    /// The water closed to air, to be solved: its carbon stays.
    pub fn closed(&self) -> Sample {
        self.with_carbon(Carbon::DicMolPerKg(self.dic_mol_per_kg))
    }

    /// The water aired until it is in balance with a partial pressure of CO2 in atm, to be solved.
    /// [`crate::pco2_atm_of_room`] gives that of a room.
    pub fn open_to(&self, pco2_atm: f64) -> Sample {
        self.with_carbon(Carbon::Pco2Atm(pco2_atm))
    }

    fn with_carbon(&self, carbon: Carbon) -> Sample {
        Sample {
            temperature_c: self.temperature_c,
            totals: self.totals,
            alkalinity_eq_per_kg: Some(self.alkalinity_eq_per_kg),
            carbon,
        }
    }

    /// The same water at another temperature, °C.
    pub fn at_temperature(mut self, temperature_c: f64) -> Self {
        self.temperature_c = temperature_c;
        self
    }

    /// With `mol` per kg of one ion of a neutral salt; alkalinity stays. Add each ion of the salt so. Phosphate
    /// enters as H2PO4-, ammonia as NH4+; for K2HPO4 add the base too ([`Conserved::with_base`], 1 eq per mol).
    /// An ion that is not among the totals changes nothing.
    pub fn with_added(mut self, ion: Ion, mol: f64) -> Self {
        self.totals.add(ion, mol);
        self
    }

    /// With strong acid, eq per kg: alkalinity falls by as much. The acid's anion (chloride, sulfate) is added apart.
    pub fn with_acid(mut self, eq: f64) -> Self {
        self.alkalinity_eq_per_kg -= eq;
        self
    }

    /// With strong base, eq per kg: alkalinity rises by as much. The base's cation is added apart.
    pub fn with_base(self, eq: f64) -> Self {
        self.with_acid(-eq)
    }

    /// With bicarbonate, mol per kg: alkalinity and carbon rise by one each. The cation is added apart.
    pub fn with_bicarbonate(self, mol: f64) -> Self {
        self.with_base(mol).with_co2(mol)
    }

    /// With carbonate, mol per kg: alkalinity rises by two, carbon by one. The cation is added apart.
    pub fn with_carbonate(self, mol: f64) -> Self {
        self.with_base(2.0 * mol).with_co2(mol)
    }

    /// With CO2, mol per kg (less than 0: taken out); alkalinity stays.
    pub fn with_co2(mut self, mol: f64) -> Self {
        self.dic_mol_per_kg += mol;
        self
    }
}

/// Mix waters by parts (any positive unit). Temperature mixes too; solve the result with [`Conserved::closed`]
/// or [`Conserved::open_to`]. Without any part every number is NaN, which [`crate::solve`] refuses.
pub fn blend(parts: &[(f64, Conserved)]) -> Conserved {
    let all: f64 = parts.iter().map(|(part, _)| part).sum();
    let mean = |of: &dyn Fn(&Conserved) -> f64| parts.iter().map(|(part, c)| part * of(c)).sum::<f64>() / all;
    let mut totals = Totals::default();
    for (i, total) in totals.0.iter_mut().enumerate() {
        *total = mean(&|c| c.totals.0[i]);
    }
    Conserved {
        totals,
        alkalinity_eq_per_kg: mean(&|c| c.alkalinity_eq_per_kg),
        dic_mol_per_kg: mean(&|c| c.dic_mol_per_kg),
        temperature_c: mean(&|c| c.temperature_c),
    }
}
