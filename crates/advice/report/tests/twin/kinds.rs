//! True waters made by what happens to them on their way to the tap. Amounts are invented and were never changed after a look at
//! what they gave; the lime that water takes up follows from its carbon dioxide.

use std::collections::BTreeMap;

use quantity::Ion;

use super::{Dice, Truth};

/// mmol/L
pub(super) type Amounts = BTreeMap<Ion, f64>;

pub(super) fn add(water: &mut Amounts, ion: Ion, mmol: f64) {
    *water.entry(ion).or_default() += mmol;
}

/// Exponential about a mean.
pub(super) fn some(dice: &mut Dice, mean: f64) -> f64 {
    -mean * dice.even().ln()
}

fn log_even(dice: &mut Dice, low: f64, high: f64) -> f64 {
    low * (high / low).powf(dice.even())
}

/// Rain by the sea or inland, drying on its way through the soil.
pub(super) fn rain(dice: &mut Dice) -> Amounts {
    let by_the_sea = log_even(dice, 0.05, 0.5);
    let mut water = Amounts::new();
    // Sodium 0.86 and magnesium 0.1 to 1 of chloride, as in the sea.
    let parts = [(Ion::Chloride, 1.0), (Ion::Sodium, 0.86), (Ion::Magnesium, 0.1), (Ion::Calcium, 0.04)];
    for (ion, share) in parts.into_iter().chain([(Ion::Potassium, 0.02), (Ion::Sulfate, 0.12)]) {
        add(&mut water, ion, share * by_the_sea);
    }
    add(&mut water, Ion::Nitrate, some(dice, 0.03));
    water
}

/// What little is left of nitrogen, and what the works dose against lead.
fn traces(dice: &mut Dice, water: &mut Amounts) {
    add(water, Ion::Ammonium, some(dice, 0.002));
    add(water, Ion::Nitrite, some(dice, 0.0003));
    let dosed = dice.chance(0.35);
    let phosphate = if dosed { 0.005 + 0.02 * dice.even() } else { some(dice, 0.001) };
    add(water, Ion::Phosphate, phosphate);
}

fn weathered(dice: &mut Dice) -> Amounts {
    let mut water = rain(dice);
    // Calcium at saturation with lime: (pCO2 K1 K KH/(4 K2 γ))^(1/3), constants at 10 °C (Plummer & Busenberg 1982, from
    // memory), γ = 0.53 at 10 mmol/L.
    let pressure = log_even(dice, 0.003, 0.05);
    let saturated = (pressure * 10_f64.powf(-6.46 - 8.41 - 1.27 + 10.49) / (4.0 * 0.53)).cbrt() * 1000.0;
    let carbonate = saturated * (0.3 + 0.7 * dice.even());
    let dolomite = 0.5 * dice.even().powi(2);
    add(&mut water, Ion::Calcium, carbonate * (1.0 - dolomite));
    add(&mut water, Ion::Magnesium, carbonate * dolomite);
    let gypsum = some(dice, 0.3);
    add(&mut water, Ion::Calcium, gypsum);
    add(&mut water, Ion::Sulfate, gypsum);
    let road_salt = if dice.chance(0.6) { some(dice, 0.7) } else { 0.0 };
    add(&mut water, Ion::Sodium, road_salt);
    add(&mut water, Ion::Chloride, road_salt);
    add(&mut water, Ion::Sodium, some(dice, 0.15));
    add(&mut water, Ion::Potassium, some(dice, 0.04));
    let fertiliser = some(dice, 0.25);
    add(&mut water, Ion::Nitrate, fertiliser);
    add(&mut water, Ion::Calcium, 0.45 * fertiliser);
    add(&mut water, Ion::Potassium, 0.1 * fertiliser);
    if dice.chance(0.2) {
        // Old sea clay gives sodium for calcium.
        exchanged(&mut water, 0.6 * dice.even());
    }
    water
}

/// A share of calcium and magnesium for sodium, two for one.
pub(super) fn exchanged(water: &mut Amounts, share: f64) {
    for ion in [Ion::Calcium, Ion::Magnesium] {
        let given = share * water[&ion];
        add(water, ion, -given);
        add(water, Ion::Sodium, 2.0 * given);
    }
}

fn moorland(dice: &mut Dice) -> Amounts {
    let mut water = rain(dice);
    add(&mut water, Ion::Sodium, some(dice, 0.06));
    add(&mut water, Ion::Magnesium, some(dice, 0.03));
    add(&mut water, Ion::Potassium, some(dice, 0.01));
    // Alum takes the brown out and leaves sulfate, lime makes up for it.
    add(&mut water, Ion::Sulfate, 0.08 + 0.15 * dice.even());
    add(&mut water, Ion::Calcium, 0.15 + 0.45 * dice.even());
    water
}

fn softened(dice: &mut Dice) -> Amounts {
    let mut water = weathered(dice);
    if dice.chance(0.5) {
        exchanged(&mut water, 0.3 + 0.5 * dice.even());
    } else {
        // Caustic soda throws lime out: sodium for calcium, one for one.
        let left = 0.5 + 0.7 * dice.even();
        let thrown_out = (water[&Ion::Calcium] - left).max(0.0);
        add(&mut water, Ion::Calcium, -thrown_out);
        add(&mut water, Ion::Sodium, thrown_out);
    }
    water
}

pub(super) fn truth(dice: &mut Dice, kind: fn(&mut Dice) -> Amounts) -> Truth {
    loop {
        let mut water = kind(dice);
        traces(dice, &mut water);
        let ions = water.into_iter().map(|(ion, mmol)| (ion, mmol * ion.molar_mass())).collect();
        if let Some(truth) = Truth::of(ions, 7.0 + 1.2 * dice.even()) {
            return truth;
        }
    }
}

impl Truth {
    /// Rain that weathered lime, dolomite and gypsum, with road salt and fertiliser.
    pub fn weathered(dice: &mut Dice) -> Truth {
        truth(dice, weathered)
    }

    /// Brown soft water from moors, cleared and limed.
    pub fn moorland(dice: &mut Dice) -> Truth {
        truth(dice, moorland)
    }

    /// Hard water softened at the works.
    pub fn softened(dice: &mut Dice) -> Truth {
        truth(dice, softened)
    }

    /// Taps at large: three in five weathered, one in four from moors, the rest softened.
    pub fn mixed(dice: &mut Dice) -> Truth {
        let kind = dice.even();
        truth(
            dice,
            if kind < 0.6 {
                weathered
            } else if kind < 0.85 {
                moorland
            } else {
                softened
            },
        )
    }
}
