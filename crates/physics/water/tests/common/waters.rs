//! Random fresh waters from a kept seed: invented, but of every kind the model answers for.

use water::{Carbon, Sample, Totals};

/// SplitMix64 (Steele, Lea & Flood 2014): a few lines, the same everywhere.
pub struct Dice(pub u64);

impl Dice {
    /// Uniform in 0..1.
    pub fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) as f64 / 18_446_744_073_709_551_616.0
    }
    /// Uniform between two numbers.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }
    /// Log-uniform between two positive numbers.
    pub fn log_between(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }
    /// True with this chance.
    pub fn chance(&mut self, share: f64) -> bool {
        self.uniform() < share
    }
}

/// Water number `i` of a seed: rain to brackish, ions absent now and then, charge balanced or not, each kind of carbon
/// input. About one in ten lies outside the range of the model (ionic strength, pH) and is to be refused.
pub fn random_water(seed: u64, i: u64) -> Sample {
    let mut dice = Dice(seed.wrapping_mul(0xA24B_AED4_963E_E407) ^ i.wrapping_mul(0x9FB2_1C65_1E98_DF25));
    let scale = dice.log_between(1e-5, 2e-2);
    let mut totals = [0.0; 9];
    let shares = [1.0, 0.2, 1.0, 0.5, 0.05, 1.0, 0.7, 0.3, 0.02];
    for (total, share) in totals.iter_mut().zip(shares) {
        let ion = scale * share * dice.log_between(0.03, 3.0);
        if !dice.chance(0.1) {
            *total = ion;
        }
    }
    let totals = Totals(totals);
    let by_charge = totals.alkalinity_by_charge();
    let alkalinity_eq_per_kg =
        if dice.chance(0.5) && by_charge > -1e-3 { None } else { Some(scale * dice.log_between(0.05, 3.0)) };
    let alkalinity = alkalinity_eq_per_kg.unwrap_or(by_charge);
    let carbon = match (dice.uniform() * 4.0) as u32 {
        0 => Carbon::Ph(dice.between(4.5, 9.8)),
        1 => Carbon::Pco2Atm(dice.log_between(1e-4, 0.2)),
        2 => Carbon::Co2MolPerKg(dice.log_between(1e-6, 3e-3)),
        _ => Carbon::DicMolPerKg(alkalinity.max(1e-5) * dice.between(0.7, 3.0)),
    };
    Sample { temperature_c: dice.between(0.0, 35.0), totals, alkalinity_eq_per_kg, carbon }
}

/// Water number `i` of a seed, of any composition at all: single salts, phosphoric acid, lye, next to no buffer between
/// two strong ones. A third lies outside the range; what is inside must settle all the same.
pub fn extreme_water(seed: u64, i: u64) -> Sample {
    let mut dice = Dice(seed.wrapping_mul(0xA24B_AED4_963E_E407) ^ i.wrapping_mul(0x9FB2_1C65_1E98_DF25));
    let absent = dice.uniform();
    let mut totals = [0.0; 9];
    for total in &mut totals {
        let ion = dice.log_between(1e-9, 0.08);
        if !dice.chance(absent) {
            *total = ion;
        }
    }
    let alkalinity_eq_per_kg = match (dice.uniform() * 10.0) as u32 {
        0..=3 => None,
        4 => Some(-dice.log_between(1e-8, 1e-2)),
        _ => Some(dice.log_between(1e-9, 0.1)),
    };
    let carbon = match (dice.uniform() * 4.0) as u32 {
        0 => Carbon::Ph(dice.between(3.0, 11.0)),
        1 => Carbon::Pco2Atm(dice.log_between(1e-9, 10.0)),
        2 => Carbon::Co2MolPerKg(dice.log_between(1e-12, 0.3)),
        _ => Carbon::DicMolPerKg(dice.log_between(1e-12, 0.3)),
    };
    Sample { temperature_c: dice.between(0.0, 35.0), totals: Totals(totals), alkalinity_eq_per_kg, carbon }
}
