//! What is asked: a water's totals, its alkalinity, and the one number more that settles its carbon.

use quantity::Ion;

use crate::refusal::{Refusal, within};

/// How many totals the speciation knows.
pub const TOTALS: usize = 9;

/// Totals in mol per kg of water, in the order of [`Ion::MAJOR`]. One litre of fresh water counts as one kilogram.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub struct Totals(pub [f64; TOTALS]);

impl Totals {
    /// From mg/L of the ion (ammonia as NH4, phosphate as PO4), in the order of [`Ion::MAJOR`].
    pub fn from_mg_per_l(mg_per_l: &[f64; TOTALS]) -> Self {
        let mut t = [0.0; TOTALS];
        for (i, ion) in Ion::MAJOR.iter().enumerate() {
            t[i] = mg_per_l[i] / (1000.0 * ion.molar_mass());
        }
        Totals(t)
    }
    /// mol/kg of one ion; 0 for an ion that is not among the totals.
    pub fn get(&self, ion: Ion) -> f64 {
        self.0.get(ion.index()).copied().unwrap_or(0.0)
    }
    /// mg/L of one ion.
    pub fn mg_per_l(&self, ion: Ion) -> f64 {
        self.get(ion) * 1000.0 * ion.molar_mass()
    }
    /// Add mol/kg of one ion; ions that are not among the totals are left out.
    pub fn add(&mut self, ion: Ion, mol_per_kg: f64) {
        if let Some(slot) = self.0.get_mut(ion.index()) {
            *slot += mol_per_kg;
        }
    }
    /// Alkalinity in eq/kg that electroneutrality demands: Na + K + 2 Ca + 2 Mg + NH4 - Cl - 2 SO4 - NO3 - PO4.
    pub fn alkalinity_by_charge(&self) -> f64 {
        let t = &self.0;
        t[0] + t[1] + 2.0 * t[2] + 2.0 * t[3] + t[4] - t[5] - 2.0 * t[6] - t[7] - t[8]
    }
    /// Ion balance in percent, 100 (C - A)/(C + A), meq of the analysis: C = Na, K, 2 Ca, 2 Mg, all ammonia;
    /// A = Cl, 2 SO4, NO3, all phosphate, alkalinity (source key `standard_methods_1030`). 0 for pure water.
    pub fn charge_balance_percent(&self, alkalinity_eq_per_kg: f64) -> f64 {
        let t = &self.0;
        let cations = t[0] + t[1] + 2.0 * (t[2] + t[3]) + t[4];
        let anions = t[5] + 2.0 * t[6] + t[7] + t[8] + alkalinity_eq_per_kg;
        let sum = cations + anions;
        if sum.abs() > 0.0 { 100.0 * (cations - anions) / sum } else { 0.0 }
    }
}

/// The one number beside totals and alkalinity that settles the carbonate system.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Carbon {
    /// pH, -log10 of the activity of H+; 3 to 11.
    Ph(f64),
    /// Partial pressure of CO2 in atm that the water is in balance with; 0 to 10. Pressure counts as fugacity (3 % off at
    /// 5 atm); above 1 it cannot stay in open water.
    Pco2Atm(f64),
    /// Free CO2, mol/kg; 0 to 1.
    Co2MolPerKg(f64),
    /// All dissolved inorganic carbon, mol/kg; 0 to 1.
    DicMolPerKg(f64),
}

/// A water to be solved.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Sample {
    /// °C, 0 to 35.
    pub temperature_c: f64,
    /// Totals, mol/kg, each 0 to 0.2.
    pub totals: Totals,
    /// eq/kg, -0.01 to 0.2; `None`: from charge balance. May be negative (acid rain).
    pub alkalinity_eq_per_kg: Option<f64>,
    /// The carbonate system's other number.
    pub carbon: Carbon,
}

/// The totals' names in refusals.
const NAMES: [&str; TOTALS] = [
    "sodium in mol/kg",
    "potassium in mol/kg",
    "calcium in mol/kg",
    "magnesium in mol/kg",
    "ammonium in mol/kg",
    "chloride in mol/kg",
    "sulfate in mol/kg",
    "nitrate in mol/kg",
    "phosphate in mol/kg",
];

impl Sample {
    /// The alkalinity that counts: the one given, else the one by charge.
    pub(crate) fn alkalinity(&self) -> f64 {
        self.alkalinity_eq_per_kg.unwrap_or_else(|| self.totals.alkalinity_by_charge())
    }

    /// Every input inside its bounds, and a number. The bounds lie just beyond what an ionic strength of
    /// 0.1 mol/kg or a pH of 3 can hold, so that they refuse nothing that could be answered.
    pub(crate) fn check(&self) -> Result<(), Refusal> {
        within("temperature in °C", self.temperature_c, 0.0, 35.0)?;
        for (name, total) in NAMES.iter().zip(self.totals.0) {
            within(name, total, 0.0, 0.2)?;
        }
        within("alkalinity in eq/kg", self.alkalinity(), -0.01, 0.2)?;
        match self.carbon {
            Carbon::Ph(ph) => within("pH", ph, 3.0, 11.0),
            Carbon::Pco2Atm(p) => within("partial pressure of CO2 in atm", p, 0.0, 10.0),
            Carbon::Co2MolPerKg(c) => within("free CO2 in mol/kg", c, 0.0, 1.0),
            Carbon::DicMolPerKg(c) => within("inorganic carbon in mol/kg", c, 0.0, 1.0),
        }
    }
}
