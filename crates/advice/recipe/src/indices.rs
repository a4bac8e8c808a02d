//! A water aired to a room: pH, what it does to lime, conductivity, the toxic share of ammonia.
//!
//! What: the speciation of crate `water`, solved for whole waters that could be (the tap's balanced draws), each at both
//! ends of the room's carbon dioxide and of the temperature. The ends of the answers are the ends shown; where a rule of
//! harm asks, the bad end counts.
//! Range: that of `water::solve`; outside it nothing is answered.
//! Checked by: `tests/harm.rs`, and the speciation by `water`'s own fixtures.

use quantity::basis::molar_mass;
use quantity::{Kind, Known};
use setup::{SourceWater, Tank};
use water::{Carbon, Sample, Solved, Totals, pco2_atm_of_room, solve};

use crate::plan::Indices;

/// How many whole waters are drawn from a water's range.
const DRAWS: usize = 24;
/// The seed of the draws: any number, kept.
const SEED: u64 = 1;

/// What settles the carbon: a room, or carbon dioxide that is given.
#[derive(Clone, Copy, Debug)]
pub enum Air {
    /// ppm in the room's air.
    Room(Known<f64>),
    /// mg/L in the water.
    Given(Known<f64>),
}

impl Air {
    fn ends(self) -> [f64; 3] {
        match self {
            Air::Room(k) | Air::Given(k) => [k.value, k.low, k.high],
        }
    }

    fn carbon(self, amount: f64, temperature_c: f64) -> Carbon {
        match self {
            Air::Room(_) => Carbon::Pco2Atm(pco2_atm_of_room(amount, temperature_c)),
            Air::Given(_) => Carbon::Co2MolPerKg(amount / (1000.0 * molar_mass::CO2)),
        }
    }
}

/// The same water with every range in its order and nothing below none but alkalinity: what is drawn from needs both.
fn ordered(water: &SourceWater) -> SourceWater {
    let order =
        |k: Known<f64>| Known::ranged(k.low.min(k.value).min(k.high), k.value, k.high.max(k.value).max(k.low), k.kind);
    let ions = water.ions.iter().map(|(ion, k)| (*ion, order(k.map(|mg| mg.max(0.0))))).collect();
    SourceWater { ions, alkalinity_meq_per_l: order(water.alkalinity_meq_per_l), ..water.clone() }
}

/// The best estimate first, then the ends.
pub(crate) fn solved(water: &SourceWater, temperature_c: Known<f64>, air: Air) -> Vec<Solved> {
    let [best, low, high] = air.ends();
    let one = |mg: &[f64; 9], alkalinity: f64, amount: f64, t: f64| {
        solve(&Sample {
            temperature_c: t,
            totals: Totals::from_mg_per_l(mg),
            alkalinity_eq_per_kg: Some(alkalinity / 1000.0),
            carbon: air.carbon(amount, t),
        })
        .ok()
    };
    let water = &ordered(water);
    let centre: [f64; 9] = quantity::Ion::MAJOR.map(|ion| water.mg_per_l(ion).value);
    let Some(first) = one(&centre, water.alkalinity_meq_per_l.value, best, temperature_c.value) else {
        return Vec::new();
    };
    let mut all = vec![first];
    for draw in setup::draws(water, DRAWS, SEED) {
        for (amount, t) in
            [(low, temperature_c.high), (low, temperature_c.low), (high, temperature_c.high), (high, temperature_c.low)]
        {
            all.extend(one(&draw.mg_per_l, draw.alkalinity_meq_per_l, amount, t));
        }
    }
    all
}

/// The indices of a water; `None` outside the model's range.
pub fn indices(water: &SourceWater, temperature_c: Known<f64>, air: Air) -> Option<Indices> {
    let all = solved(water, temperature_c, air);
    let kind = water.ions.values().map(|k| k.kind).fold(water.alkalinity_meq_per_l.kind, Kind::weaker);
    let known = |of: &dyn Fn(&Solved) -> Option<f64>| {
        let value = all.first().and_then(of)?;
        let ends = all.iter().filter_map(of);
        let (low, high) = ends.fold((value, value), |(l, h), x| (l.min(x), h.max(x)));
        Some(Known::ranged(low, value, high, kind.weaker(Kind::WorkedOut)))
    };
    Some(Indices {
        ph: known(&|s| Some(s.ph))?,
        calcite: known(&|s| s.si.calcite).unwrap_or(Known::exact(f64::NEG_INFINITY, kind)),
        conductivity_25_us_per_cm: known(&|s| Some(s.conductivity_25_us_per_cm))?,
        nh3_fraction: known(&|s| Some(s.nh3_fraction))?,
        co2_mg_per_l: known(&|s| Some(s.co2_mg_per_l()))?,
    })
}

/// The tank's water aired to its room.
pub fn aired(tank: &Tank, water: &SourceWater) -> Option<Indices> {
    indices(water, tank.temperature_c, Air::Room(tank.room_co2_ppm))
}
