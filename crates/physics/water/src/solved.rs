//! What is answered: a water in equilibrium, and the two functions that bring it there.
//!
//! **What.** pH, alkalinity, carbon, saturation indices, conductivity, share of toxic ammonia, from a [`Sample`].
//!
//! **Equation.** SI = log10(IAP/K); the rest by `equilibrium.rs` and `conductivity.rs`. The conductivity at 25 °C is that of the same closed
//! water (totals, alkalinity, carbon) balanced anew at 25 °C, not the one at T times a factor.
//!
//! **Range.** 0 to 35 °C, ionic strength to 0.1 mol/kg, pH 3 to 11, pCO2 to 10 atm. No redox: nitrate and ammonia never react. No solid forms.
//! One litre counts as one kilogram of water; density instead would move pH by at most 0.0025.
//!
//! **Source.** `phreeqc_386`, `mccleskey_2012`, `standard_methods_1030`.
//!
//! **Checked by** `tests/against_phreeqc.rs`, `tests/handbook_*.rs`, `tests/identities.rs`.

use crate::conserved::Conserved;
use crate::constants::Constants;
use crate::equilibrium::{Closure, EXACT, FOR_CONDUCTIVITY, Problem, balance};
use crate::exponential::exp;
use crate::first_guess::{carry_over, first_guess};
use crate::linearise::State;
use crate::refusal::{Refusal, within};
use crate::sample::{Carbon, Sample, Totals};
use crate::species::{N, SPECIES, at};

const LN_10: f64 = std::f64::consts::LN_10;
/// g/mol of CO2 (`iupac_2022`).
pub(crate) const CO2_G_PER_MOL: f64 = 44.009;

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
    /// mol/kg of each species, in the order of the table.
    #[serde(skip)]
    molalities: [f64; N],
    /// Newton steps at T and at 25 °C.
    #[serde(skip)]
    steps: [u32; 2],
}

impl Solved {
    /// Free CO2 in mg/L.
    pub fn co2_mg_per_l(&self) -> f64 {
        self.co2_mol_per_kg * CO2_G_PER_MOL * 1e3
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
    /// Every dissolved species with its molality in mol/kg: bare ions, acids and bases, ion pairs; 0 where absent.
    pub fn species(&self) -> impl Iterator<Item = (&'static str, f64)> + '_ {
        SPECIES.iter().map(|s| s.name).zip(self.molalities.iter().copied())
    }
    /// mol/kg of one species by its formula as [`Solved::species`] writes it, for instance `HCO3-`.
    pub fn molality(&self, formula: &str) -> Option<f64> {
        self.species().find(|(name, _)| *name == formula).map(|(_, m)| m)
    }
    /// Newton steps that the answer took, at T and at 25 °C: the work done, for tests that count it.
    pub fn newton_steps(&self) -> [u32; 2] {
        self.steps
    }
}

/// Solve a water.
///
/// # Errors
/// [`Refusal`] outside 0-35 °C, ionic strength up to 0.1 mol/kg, pH 3-11; for an input that is no number; for
/// an alkalinity that the pH excludes.
pub fn solve(sample: &Sample) -> Result<Solved, Refusal> {
    sample.check()?;
    if sample.temperature_c == 25.0 {
        return solve_with(Constants::at_25(), sample);
    }
    solve_with(&Constants::at(sample.temperature_c)?, sample)
}

/// Solve a water whose temperature's constants are at hand: for many waters of one temperature.
///
/// # Errors
/// As [`solve`]; also where `constants` are of another temperature than the sample.
pub fn solve_with(constants: &Constants, sample: &Sample) -> Result<Solved, Refusal> {
    sample.check()?;
    let t = constants.temperature_c;
    within("temperature in °C beside that of the constants", sample.temperature_c, t, t)?;
    let problem = Problem {
        totals: sample.totals.0,
        alkalinity: sample.alkalinity(),
        closure: closure(constants, sample.carbon),
    };
    let mut state = first_guess(constants, &problem);
    let steps = match balance(constants, &problem, &mut state, EXACT) {
        // A water that runs away is refused for where it runs to.
        Err(Refusal::NotSettled) => in_range(constants, &state).and(Err(Refusal::NotSettled)),
        other => other,
    }?;
    in_range(constants, &state)?;
    let conductivity_t = constants.conductivity.of(&state.m, state.ionic_strength);
    let mut solved = Solved {
        temperature_c: sample.temperature_c,
        totals: sample.totals,
        ph: -state.u[0] / LN_10,
        alkalinity_eq_per_kg: problem.alkalinity,
        dic_mol_per_kg: carbon_of(&state),
        co2_mol_per_kg: state.m[at::CO2],
        pco2_atm: pco2(constants, &state),
        ionic_strength: state.ionic_strength,
        si: saturation(constants, &problem, &state),
        conductivity_25_us_per_cm: conductivity_t,
        conductivity_t_us_per_cm: conductivity_t,
        nh3_fraction: state.ammonia[1],
        charge_balance_percent: sample.totals.charge_balance_percent(problem.alkalinity),
        molalities: state.m,
        steps: [steps, 0],
    };
    if t != 25.0 {
        let at_25 = Constants::at_25();
        let warm = Problem { closure: Closure::Dic(solved.dic_mol_per_kg), ..problem };
        carry_over(constants, at_25, &mut state);
        solved.steps[1] = balance(at_25, &warm, &mut state, FOR_CONDUCTIVITY)?;
        solved.conductivity_25_us_per_cm = at_25.conductivity.of(&state.m, state.ionic_strength);
    }
    Ok(solved)
}

/// Refuses a balanced water that lies outside the range of the model.
fn in_range(constants: &Constants, state: &State) -> Result<(), Refusal> {
    // What is asked for exactly at the end of the range is in, whatever the last digit of the answer.
    let until =
        |what, value: f64, high: f64| if value <= 1.001 * high { Ok(()) } else { within(what, value, 0.0, high) };
    until("ionic strength in mol/kg", state.ionic_strength, 0.1)?;
    until("partial pressure of CO2 in atm", pco2(constants, state), 10.0)?;
    let ph = -state.u[0] / LN_10;
    if (ph - 7.0).abs() <= 4.0 + 1e-6 { Ok(()) } else { within("pH", ph, 3.0, 11.0) }
}

/// The carbon input in the form of the equations. None at all is a water without carbon.
fn closure(k: &Constants, carbon: Carbon) -> Closure {
    match carbon {
        Carbon::Ph(ph) => Closure::LnH(-ph * LN_10),
        Carbon::Pco2Atm(p) if p > 0.0 => Closure::LnCo2Activity(p.ln() + k.ln_co2_solubility),
        Carbon::Co2MolPerKg(c) if c > 0.0 => Closure::Co2(c),
        Carbon::DicMolPerKg(c) => Closure::Dic(c),
        Carbon::Pco2Atm(_) | Carbon::Co2MolPerKg(_) => Closure::Dic(0.0),
    }
}

/// All inorganic carbon in a balanced water.
fn carbon_of(b: &State) -> f64 {
    b.m.iter().zip(&crate::species::MADE_OF).map(|(m, n)| m * n[1]).sum()
}

/// The pressure of CO2 that the water is in balance with.
fn pco2(k: &Constants, b: &State) -> f64 {
    exp(k.ln_k[at::CO2] + 2.0 * b.u[0] + b.u[1] - b.ln_water - k.ln_co2_solubility)
}

/// log10(IAP/K) of the four minerals.
fn saturation(k: &Constants, p: &Problem, b: &State) -> Saturation {
    let [h, carbonate, sulfate, phosphate] = b.u;
    let m = &k.minerals;
    let calcium = p.totals[2];
    let index = |present: bool, ln_iap: &dyn Fn(f64) -> f64| {
        (calcium > 0.0 && present).then(|| ln_iap(b.carriers[0].ln()) / LN_10)
    };
    let carbon = !matches!(p.closure, Closure::Dic(0.0));
    Saturation {
        calcite: index(carbon, &|ca| ca + carbonate - m.calcite),
        aragonite: index(carbon, &|ca| ca + carbonate - m.aragonite),
        gypsum: index(p.totals[6] > 0.0, &|ca| ca + sulfate + 2.0 * b.ln_water - m.gypsum),
        hydroxyapatite: index(p.totals[8] > 0.0, &|ca| {
            5.0 * ca + 3.0 * (phosphate + h + m.hpo4) + b.ln_water - 4.0 * h - m.hydroxyapatite
        }),
    }
}
