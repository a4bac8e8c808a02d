//! The ions of one sample side by side, for the checks of a report against itself.

use quantity::Ion;
use water::{Carbon, Totals};

use crate::Reading;

/// The central values of one sample.
#[derive(Clone, Debug, Default)]
pub(crate) struct Analysis {
    pub totals: Totals,
    pub known: Vec<Ion>,
    /// eq/L.
    pub alkalinity: Option<f64>,
    /// meq/L.
    pub hardness: Option<f64>,
    pub ph: Option<f64>,
    /// µS/cm at 25 °C: low, high.
    pub conductivity: Option<(f64, f64)>,
}

/// The ions without which a balance says nothing.
const NEEDED: [Ion; 5] = [Ion::Calcium, Ion::Magnesium, Ion::Sodium, Ion::Chloride, Ion::Sulfate];

impl Analysis {
    /// From the readings of one sample; those with a question are left out.
    pub fn of<'a>(readings: impl Iterator<Item = &'a Reading>) -> Analysis {
        let mut out = Analysis::default();
        for r in readings.filter(|r| r.is_central() && r.question.is_none()) {
            if let (Some(ion), Some(mmol)) = (r.ion(), r.mmol_per_l())
                && Ion::MAJOR.contains(&ion)
                && !out.known.contains(&ion)
            {
                out.totals.add(ion, mmol * 1e-3);
                out.known.push(ion);
            }
            match r.determinand.as_str() {
                "alkalinity" | "bicarbonate" => out.alkalinity = out.alkalinity.or(r.meq_per_l().map(|m| m * 1e-3)),
                "hardness_total" => out.hardness = out.hardness.or(r.meq_per_l()),
                "ph" => out.ph = out.ph.or(r.value),
                "conductivity" => {
                    out.conductivity = out.conductivity.or(r.us_per_cm_at_25().map(|k| (k.low, k.high)));
                }
                _ => {}
            }
        }
        out
    }

    /// Whether all ions are known that a balance needs, but for the alkalinity.
    pub fn has_ions(&self) -> bool {
        NEEDED.iter().all(|ion| self.known.contains(ion))
    }

    /// Cations, anions in meq/L.
    pub fn sides(&self) -> Option<(f64, f64)> {
        let alkalinity = self.alkalinity.filter(|_| self.has_ions())?;
        let t = |ion: Ion| self.totals.get(ion) * f64::from(ion.charge().abs()) * 1e3;
        let cations = [Ion::Sodium, Ion::Potassium, Ion::Calcium, Ion::Magnesium, Ion::Ammonium].map(t).iter().sum();
        let anions: f64 = [Ion::Chloride, Ion::Sulfate, Ion::Nitrate].map(t).iter().sum();
        Some((cations, anions + alkalinity * 1e3))
    }

    /// Conductivity that the ions carry, µS/cm at 25 °C.
    pub fn carried(&self) -> Option<f64> {
        let alkalinity = self.alkalinity.filter(|_| self.has_ions())?;
        let sample = water::Sample {
            temperature_c: 25.0,
            totals: self.totals,
            alkalinity_eq_per_kg: Some(alkalinity),
            carbon: Carbon::Ph(self.ph.unwrap_or(7.6).clamp(6.0, 9.0)),
        };
        water::solve(&sample).ok().map(|s| s.conductivity_25_us_per_cm)
    }

    /// Calcium and magnesium in meq/L.
    pub fn calcium_and_magnesium(&self) -> Option<f64> {
        let both = self.known.contains(&Ion::Calcium) && self.known.contains(&Ion::Magnesium);
        both.then(|| 2e3 * (self.totals.get(Ion::Calcium) + self.totals.get(Ion::Magnesium)))
    }
}
