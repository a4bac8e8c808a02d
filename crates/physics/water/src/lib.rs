//! Speciation, conductivity and gases of fresh water.
//!
//! Placeholder: the surface that the other crates see.

use quantity::Ion;

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
}

/// The one number beside totals and alkalinity that settles the carbonate system.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Carbon {
    /// pH, -log10 of the activity of H+.
    Ph(f64),
    /// Partial pressure of CO2 in atm that the water is in balance with.
    Pco2Atm(f64),
    /// Free CO2, mol/kg.
    Co2MolPerKg(f64),
    /// All dissolved inorganic carbon, mol/kg.
    DicMolPerKg(f64),
}

/// A water to be solved.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Sample {
    /// °C, 0 to 35.
    pub temperature_c: f64,
    /// Totals, mol/kg.
    pub totals: Totals,
    /// eq/kg; `None`: from charge balance. May be negative (acid rain).
    pub alkalinity_eq_per_kg: Option<f64>,
    /// The carbonate system's other number.
    pub carbon: Carbon,
}

/// log10(IAP/K) of four minerals; `None` where an ion is absent.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub struct Saturation {
    /// Calcite.
    pub calcite: Option<f64>,
    /// Aragonite.
    pub aragonite: Option<f64>,
    /// Gypsum.
    pub gypsum: Option<f64>,
    /// Hydroxyapatite: usually far above 0 in tap water, and no forecast.
    pub hydroxyapatite: Option<f64>,
}

/// A water in equilibrium.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Solved {
    /// °C.
    pub temperature_c: f64,
    /// The totals that went in, mol/kg.
    pub totals: Totals,
    /// pH.
    pub ph: f64,
    /// eq/kg.
    pub alkalinity_eq_per_kg: f64,
    /// mol/kg of inorganic carbon, pairs included.
    pub dic_mol_per_kg: f64,
    /// mol/kg of free CO2.
    pub co2_mol_per_kg: f64,
    /// atm.
    pub pco2_atm: f64,
    /// mol/kg.
    pub ionic_strength: f64,
    /// Saturation indices.
    pub si: Saturation,
    /// µS/cm of the same closed water at 25 °C.
    pub conductivity_25_us_per_cm: f64,
    /// µS/cm at its own temperature.
    pub conductivity_t_us_per_cm: f64,
    /// NH3 / all ammonia; that of a trace where there is none.
    pub nh3_fraction: f64,
    /// 100 (C - A) / (C + A), meq/L of the analysis.
    pub charge_balance_percent: f64,
}

impl Solved {
    /// Free CO2 in mg/L.
    pub fn co2_mg_per_l(&self) -> f64 {
        self.co2_mol_per_kg * 44.009e3
    }
    /// What stays the same when the water is stirred, mixed, warmed in a closed vessel.
    pub fn conserved(&self) -> Conserved {
        Conserved {
            totals: self.totals,
            alkalinity_eq_per_kg: self.alkalinity_eq_per_kg,
            dic_mol_per_kg: self.dic_mol_per_kg,
            temperature_c: self.temperature_c,
        }
    }
}

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

/// Why a water was not solved.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Something lies outside the range of the model.
    #[error("{what} is {value}, outside {low} to {high}: the model is not made for it")]
    OutOfRange {
        /// The input's name with its unit.
        what: &'static str,
        /// As given.
        value: f64,
        /// Least.
        low: f64,
        /// Most.
        high: f64,
    },
    /// Alkalinity and pH (or CO2, or carbon) exclude each other.
    #[error("no water has this alkalinity together with {what}")]
    Impossible {
        /// The input that contradicts the alkalinity.
        what: &'static str,
    },
}

/// Solve a water.
///
/// # Errors
/// [`Refusal`] outside 0-35 °C, ionic strength up to 0.1 mol/kg, pH 3-11.
pub fn solve(sample: &Sample) -> Result<Solved, Refusal> {
    Err(Refusal::OutOfRange { what: "placeholder", value: sample.temperature_c, low: 0.0, high: 0.0 })
}

/// Mix waters by parts (any positive unit). Temperature mixes too; solve the result with [`Carbon::DicMolPerKg`]
/// (closed) or [`Carbon::Pco2Atm`] (open to a room).
pub fn blend(parts: &[(f64, Conserved)]) -> Conserved {
    let all: f64 = parts.iter().map(|(p, _)| p).sum();
    let mean = |f: &dyn Fn(&Conserved) -> f64| parts.iter().map(|(p, c)| p * f(c)).sum::<f64>() / all;
    let mut totals = Totals::default();
    for (i, t) in totals.0.iter_mut().enumerate() {
        *t = mean(&|c| c.totals.0[i]);
    }
    Conserved {
        totals,
        alkalinity_eq_per_kg: mean(&|c| c.alkalinity_eq_per_kg),
        dic_mol_per_kg: mean(&|c| c.dic_mol_per_kg),
        temperature_c: mean(&|c| c.temperature_c),
    }
}
