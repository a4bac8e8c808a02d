//! Waters whose truth is known, and how they are measured; for the twin experiments.

mod kinds;
pub mod published;

use std::collections::BTreeMap;

use knowledge::{Place, book};
use quantity::Ion;
use report::estimate::{Item, Origin, Quantity, Spread};
use water::{Carbon, Sample, Totals, solve};

pub const WATERS: usize = 1000;
/// NO3 in N (`iupac_2022`).
pub const NO3_PER_N: f64 = 62.004 / 14.007;

/// SplitMix64 (Steele, Lea & Flood 2014).
pub struct Dice(pub u64);

impl Dice {
    pub fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (((z ^ (z >> 31)) >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
    }
    pub fn normal(&mut self) -> f64 {
        (-2.0 * self.even().ln()).sqrt() * (2.0 * std::f64::consts::PI * self.even()).cos()
    }
    pub fn chance(&mut self, share: f64) -> bool {
        self.even() < share
    }
    /// Log-normal about a middle, with this standard deviation of ln.
    pub fn about(&mut self, middle: f64, sd: f64) -> f64 {
        middle * (sd * self.normal()).exp()
    }
    /// Half of the draws below the value, half above, in a region richer or poorer than others; a tenth beyond the end where
    /// low is 0, and below the value evenly.
    pub fn row(&mut self, [low, value, high]: [f64; 3], region: f64) -> f64 {
        let value = value.max(high / 20.0);
        let z = self.normal();
        if low <= 0.0 {
            return if z < 0.0 { value * self.even() } else { value * (high / value).powf(z / 1.282) };
        }
        let apart = book().methods.analysis.regions.value;
        let [below, above] = [(value / low).ln(), (high / value).ln()].map(|to_end| to_end / 1.645);
        let shared = apart / (below * above).sqrt();
        let z = shared * region + (1.0 - shared * shared).sqrt() * z;
        value * (z * if z < 0.0 { below } else { above }).exp()
    }
}

/// A true water: mg/L by ion, meq/L, µS/cm.
#[derive(Clone)]
pub struct Truth {
    pub ions: BTreeMap<Ion, f64>,
    pub hardness: f64,
    pub alkalinity: f64,
    pub ph: f64,
    kappa_20: f64,
    kappa_25: f64,
}

impl Truth {
    /// None where the water is no fresh water with some alkalinity.
    fn of(ions: BTreeMap<Ion, f64>, ph: f64) -> Option<Truth> {
        let meq = |ion: Ion| {
            let charge = if ion == Ion::Phosphate { -1 } else { ion.charge() };
            ions[&ion] * f64::from(charge) / ion.molar_mass()
        };
        let hardness = meq(Ion::Calcium) + meq(Ion::Magnesium);
        let alkalinity: f64 = ions.keys().map(|ion| meq(*ion)).sum();
        if !(0.05..9.0).contains(&alkalinity) {
            return None;
        }
        let totals = Totals::from_mg_per_l(&Ion::MAJOR.map(|ion| ions[&ion]));
        let kappa = |temperature_c| {
            let alkalinity_eq_per_kg = Some(alkalinity / 1000.0);
            solve(&Sample { temperature_c, totals, alkalinity_eq_per_kg, carbon: Carbon::Ph(ph) })
                .map(|solved| solved.conductivity_t_us_per_cm)
        };
        let (kappa_20, kappa_25) = (kappa(20.0).ok()?, kappa(25.0).ok()?);
        Some(Truth { ions, hardness, alkalinity, ph, kappa_20, kappa_25 })
    }

    pub fn usual(dice: &mut Dice) -> Truth {
        let row = |ion: Ion| {
            let known = book().unreported(Place::Other, ion).unwrap().mg_per_l.known();
            [known.low, known.value, known.high]
        };
        loop {
            let mut ions: BTreeMap<Ion, f64> = BTreeMap::new();
            let region = dice.normal();
            for ion in Ion::ALL.into_iter().take(10) {
                ions.insert(ion, dice.row(row(ion), region));
            }
            let ph = 6.8 + 1.4 * dice.even();
            if let Some(truth) = Truth::of(ions, ph) {
                return truth;
            }
        }
    }

    /// Rain with what it dissolved, mmol/L; all amounts invented.
    pub fn dissolved(dice: &mut Dice) -> Truth {
        loop {
            let lime = dice.about(0.9, 0.9);
            let dolomite = dice.about(0.15, 1.0);
            let gypsum = dice.about(0.2, 1.0);
            let salt = dice.about(0.5, 0.8);
            let soda = dice.about(0.15, 1.0);
            let potash = dice.about(0.04, 0.7);
            let nitrate = dice.about(0.15, 1.2);
            let mg = |ion: Ion, mmol: f64| (ion, mmol * ion.molar_mass());
            let ions = BTreeMap::from([
                mg(Ion::Sodium, salt + soda),
                mg(Ion::Potassium, potash),
                mg(Ion::Calcium, lime + dolomite + gypsum + 0.5 * nitrate),
                mg(Ion::Magnesium, dolomite + 0.05),
                mg(Ion::Ammonium, dice.about(0.002, 1.0)),
                mg(Ion::Chloride, salt + 0.05),
                mg(Ion::Sulfate, gypsum + 0.05),
                mg(Ion::Nitrate, nitrate),
                mg(Ion::Phosphate, dice.about(0.003, 1.5)),
                mg(Ion::Nitrite, dice.about(0.0003, 1.0)),
            ]);
            if let Some(truth) = Truth::of(ions, 6.8 + 1.4 * dice.even()) {
                return truth;
            }
        }
    }

    /// 1 to 12 meq/L of each sign, shared out among four cations and four anions by gamma draws of whole shape (sums of
    /// exponentials); traces log-even. No amount is tied to another but by charge.
    pub fn shared_out(dice: &mut Dice) -> Truth {
        let gamma = |dice: &mut Dice, shape: u32| -> f64 { (0..shape).map(|_| -dice.even().ln()).sum() };
        let log_even = |dice: &mut Dice, low: f64, high: f64| low * (high / low).powf(dice.even());
        loop {
            let total = log_even(dice, 1.0, 12.0);
            let parts = |dice: &mut Dice, shapes: [(u32, f64); 4]| {
                let all = shapes.map(|(shape, weight)| weight * gamma(dice, shape));
                all.map(|part| total * part / all.iter().sum::<f64>())
            };
            let [ca, mg, na, k] = parts(dice, [(4, 1.0), (3, 0.4), (2, 0.7), (2, 0.06)]);
            let [_, cl, so4, no3] = parts(dice, [(5, 1.0), (2, 0.6), (2, 0.6), (1, 0.5)]);
            let mg_of = |ion: Ion, meq: f64| (ion, meq * ion.molar_mass() / f64::from(ion.charge().abs()));
            let ions = BTreeMap::from([
                mg_of(Ion::Calcium, ca),
                mg_of(Ion::Magnesium, mg),
                mg_of(Ion::Sodium, na),
                mg_of(Ion::Potassium, k),
                mg_of(Ion::Chloride, cl),
                mg_of(Ion::Sulfate, so4),
                mg_of(Ion::Nitrate, no3),
                (Ion::Ammonium, log_even(dice, 0.005, 0.3)),
                (Ion::Phosphate, log_even(dice, 0.02, 3.0)),
                (Ion::Nitrite, log_even(dice, 0.001, 0.1)),
            ]);
            if let Some(truth) = Truth::of(ions, 6.8 + 1.4 * dice.even()) {
                return truth;
            }
        }
    }

    pub fn value(&self, of: Quantity) -> f64 {
        match of {
            Quantity::Ion(ion) => self.ions[&ion],
            Quantity::Hardness => self.hardness,
            Quantity::Alkalinity => self.alkalinity,
            Quantity::Conductivity20 => self.kappa_20,
            Quantity::Conductivity => self.kappa_25,
            Quantity::ConductivityUntold => self.kappa_25,
        }
    }
}

/// Rounded as reports print: three figures, but never more than two decimals.
pub fn printed(value: f64) -> (f64, f64) {
    let decimals = (2 - value.abs().max(1e-9).log10().floor() as i32).clamp(0, 2);
    let step = 10_f64.powi(-decimals);
    ((value / step).round() * step, step)
}

/// One value as somebody measured and printed it: noise of the method, n samples over a swinging year, rounding, a
/// detection limit.
pub fn measured(dice: &mut Dice, truth: &Truth, of: Quantity, origin: Origin, swing: f64) -> Item {
    let value = truth.value(of);
    let value = match of {
        Quantity::ConductivityUntold if dice.chance(0.5) => truth.kappa_20,
        _ => value,
    };
    let samples = [1, 4, 12, 52][(4.0 * dice.even()) as usize];
    let of_mean = if samples > 1 { swing * value / f64::from(samples).sqrt() } else { 0.0 };
    let noisy = value + origin.sd(of, value, 0.0) * dice.normal() + of_mean * dice.normal();
    let limit = match of {
        Quantity::Ion(Ion::Ammonium) => 0.05,
        Quantity::Ion(Ion::Nitrite | Ion::Phosphate) => 0.02,
        Quantity::Ion(_) => 0.2,
        _ => 0.0,
    };
    if noisy < limit {
        return Item::below(of, limit, origin);
    }
    let (value, step) = printed(noisy.max(0.0));
    let mut item = Item::new(of, value, step, origin);
    if samples > 1 {
        let sd = swing * value;
        item.sd = item.sd.hypot(sd / f64::from(samples).sqrt());
        item.spread = Some(Spread { sd, samples });
    }
    item
}
