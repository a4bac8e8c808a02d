//! Litres that are really in the tank, its surface, its mass and what it presses on.
//!
//! What: geometry of a box of glass with a sloped bed, stones and wood in it.
//!
//! Equation:
//! V = L W h - (1 - φ) L W (f + b)/2 - V_rock - V_wood;
//! h = H - fill;
//! m = ρ_w V + ρ_g ((L + 2t)(W + 2t)(H + t) - L W H) + m_ground + m_rock + m_wood;
//! p = m g / ((L + 2t)(W + 2t)).
//!
//! Symbols: L, W, H inner length, width, height, m; t glass, m; fill from the upper edge down to the water, m;
//! f, b depth of the bed at the front and the back, m; φ share of the bed that water fills, 0 to 1; V water, L; m mass,
//! kg; p pressure, kPa; g = 9.80665 m/s² (standard gravity, source key `bipm_si_2019`).
//!
//! Range: boxes with plane walls whose bed stays under water. All glass panes count as equally thick, the bottom
//! included. The slope of the bed is a plane from front to back. Stones and wood count as wholly under water.
//!
//! Source: geometry; densities from `data/materials.toml` and `data/substrates.toml`.
//!
//! Checked by: `tests/by_hand_volumes.rs`, `tests/closed_form_glass.rs`.

use quantity::Known;

use crate::range::propagate;

/// m/s² (source key `bipm_si_2019`).
pub(crate) const GRAVITY: f64 = 9.80665;

/// What the geometry is worked out from, SI units; densities in kg/m³.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Glass {
    pub(crate) length_m: Known<f64>,
    pub(crate) width_m: Known<f64>,
    pub(crate) height_m: Known<f64>,
    pub(crate) glass_m: Known<f64>,
    pub(crate) fill_m: Known<f64>,
    pub(crate) front_m: Known<f64>,
    pub(crate) back_m: Known<f64>,
    pub(crate) porosity: Known<f64>,
    pub(crate) rock_m3: Known<f64>,
    pub(crate) wood_m3: Known<f64>,
    pub(crate) rock_kg: Known<f64>,
    pub(crate) wood_kg: Known<f64>,
    pub(crate) bulk_kg_per_m3: Known<f64>,
    pub(crate) water_kg_per_m3: Known<f64>,
    pub(crate) glass_kg_per_m3: Known<f64>,
}

/// A volume without range: every value at one point.
type Point = [f64; 15];

impl Glass {
    fn all(&self) -> [Known<f64>; 15] {
        [
            self.length_m,
            self.width_m,
            self.height_m,
            self.glass_m,
            self.fill_m,
            self.front_m,
            self.back_m,
            self.porosity,
            self.rock_m3,
            self.wood_m3,
            self.rock_kg,
            self.wood_kg,
            self.bulk_kg_per_m3,
            self.water_kg_per_m3,
            self.glass_kg_per_m3,
        ]
    }

    /// Water in the tank, pore water included, L.
    pub(crate) fn water_l(&self) -> Known<f64> {
        self.spread(water_l)
    }

    /// Water, glass, ground, rock and wood, kg.
    pub(crate) fn mass_kg(&self) -> Known<f64> {
        self.spread(mass_kg)
    }

    /// Over the tank's own footprint, kPa.
    pub(crate) fn pressure_kpa(&self) -> Known<f64> {
        self.spread(pressure_kpa)
    }

    /// Parts of the sum at the best estimates: box to the waterline, grains of the bed, rock, wood, all in L.
    pub(crate) fn parts_l(&self) -> [f64; 4] {
        parts_l(&self.all().map(|known| known.value))
    }

    /// Masses at the best estimates: water, glass, ground, rock, wood, kg.
    pub(crate) fn masses_kg(&self) -> [f64; 5] {
        masses_kg(&self.all().map(|known| known.value))
    }

    /// A size with its likely range, never below zero.
    fn spread(&self, of: impl Fn(&Point) -> f64) -> Known<f64> {
        let known = propagate(&self.all(), of);
        Known { low: known.low.max(0.0), ..known }
    }
}

fn parts_l(p: &Point) -> [f64; 4] {
    let [length, width, height, _, fill, front, back, porosity, rock, wood, ..] = *p;
    let floor = length * width;
    [
        1000.0 * floor * (height - fill),
        1000.0 * floor * (front + back) / 2.0 * (1.0 - porosity),
        1000.0 * rock,
        1000.0 * wood,
    ]
}

fn water_l(p: &Point) -> f64 {
    let [filled, grains, rock, wood] = parts_l(p);
    filled - grains - rock - wood
}

fn outer_floor_m2(p: &Point) -> f64 {
    let [length, width, _, glass, ..] = *p;
    (length + 2.0 * glass) * (width + 2.0 * glass)
}

fn masses_kg(p: &Point) -> [f64; 5] {
    let [length, width, height, glass, _, front, back, _, _, _, rock, wood, bulk, water, glass_kg] = *p;
    [
        water_l(p) / 1000.0 * water,
        (outer_floor_m2(p) * (height + glass) - length * width * height) * glass_kg,
        length * width * (front + back) / 2.0 * bulk,
        rock,
        wood,
    ]
}

fn mass_kg(p: &Point) -> f64 {
    masses_kg(p).iter().sum()
}

fn pressure_kpa(p: &Point) -> f64 {
    mass_kg(p) * GRAVITY / outer_floor_m2(p) / 1000.0
}
