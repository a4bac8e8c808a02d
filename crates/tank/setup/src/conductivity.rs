//! A conductivity that was measured bounds the ions that nobody reported.
//!
//! What: the assumed ions of a water are made fewer or more, all in one proportion, until the water conducts as measured.
//!
//! Equation: with a factor f on every assumed ion (and alkalinity, where that is assumed), the charge closed anew,
//! κ(f) = κ measured, by bisection. An assumed ion then reaches at most as far as the equivalents of all assumed ions of
//! its side do at the upper end of the error: the others may be absent.
//!
//! Symbols: κ µS/cm at 25 °C, from the speciation of crate `water` at the water's own pH; equivalents meq/L.
//!
//! Range: waters that the speciation takes. Nothing is moved while measured and worked out agree within the error; what
//! was told is never moved, and a conductivity that no assumed ion can explain is asked about (`check.rs`).
//!
//! Source: measured against calculated conductivity, 0.9 to 1.1 (Standard Methods 1030 E, source key
//! `standard_methods_1030`; the number stands in `data/bounds.toml`).
//!
//! Checked by: `tests/by_hand_conductivity.rs`; the speciation's conductivity in crate `water`.

use std::collections::BTreeMap;

use knowledge::Book;
use quantity::number::canonical;
use quantity::{Ion, Known};

use crate::balance::{charge_meq_per_l, close, equivalents};
use crate::given::Given;

/// Halvings of the factor's range: to a millionth of it.
const HALVINGS: u32 = 40;
/// The most by which assumed ions are multiplied: far past the upper ends at which they stop anyway.
const MOST: f64 = 1000.0;

type Ions = BTreeMap<Ion, Known<f64>>;

/// A water whose assumed parts can be made fewer or more.
struct Water {
    ions: Ions,
    movable: Vec<Ion>,
    alkalinity: Known<f64>,
    alkalinity_assumed: bool,
    ph: f64,
}

/// What a factor makes of it: ions, alkalinity, conductivity.
type Made = (Ions, f64, f64);

impl Water {
    /// `None`: outside the speciation's range.
    fn made(&self, factor: f64) -> Option<Made> {
        let mut ions = self.ions.clone();
        for ion in &self.movable {
            let known = ions.get_mut(ion)?;
            // A smaller amount than is usual is possible where little conducts.
            *known = Known { low: 0.0, value: (factor * known.value).min(known.high), ..*known };
        }
        let scaled = (factor * self.alkalinity.value).min(self.alkalinity.high);
        let alkalinity = if self.alkalinity_assumed { scaled } else { self.alkalinity.value };
        close(&mut ions, alkalinity, &self.movable);
        let conducts = of(&ions, alkalinity, self.ph)?;
        Some((ions, alkalinity, conducts))
    }

    /// The factor between two at which it conducts so much, as near as it gets.
    fn reach(&self, wanted: f64, (mut from, mut to): (f64, f64)) -> Option<Made> {
        for _ in 0..HALVINGS {
            let middle = 0.5 * (from + to);
            if self.made(middle)?.2 < wanted { from = middle } else { to = middle }
        }
        self.made(0.5 * (from + to))
    }
}

/// µS/cm at 25 °C; `None`: outside the speciation's range.
pub(crate) fn of(ions: &Ions, alkalinity_meq_per_l: f64, ph: f64) -> Option<f64> {
    let mg_per_l = Ion::MAJOR.map(|ion| ions.get(&ion).map_or(0.0, |known| known.value));
    let sample = water::Sample {
        temperature_c: 25.0,
        totals: water::Totals::from_mg_per_l(&mg_per_l),
        alkalinity_eq_per_kg: Some(alkalinity_meq_per_l / 1000.0),
        carbon: water::Carbon::Ph(ph),
    };
    water::solve(&sample).ok().map(|solved| solved.conductivity_25_us_per_cm)
}

/// The share by which measured and worked out may differ.
pub(crate) fn error(book: &Book) -> f64 {
    book.bound("conductivity_apart").map_or(0.0, |row| row.is.usual_high / 100.0)
}

/// Move the assumed ions of a water until it conducts as measured.
pub(crate) fn bound(given: &mut Given, section: &str, book: &Book) {
    let path = |name: &str| format!("{section}.{name}");
    let Some(told) = given.find(&path("conductivity")) else { return };
    let (low, high) = (told.low * (1.0 - error(book)), told.high * (1.0 + error(book)));
    let ions: Ions = Ion::ALL.into_iter().filter_map(|ion| Some((ion, given.find(&path(ion.name()))?))).collect();
    let split = given.find(&path("hardness")).is_some();
    let fixed = |ion: &Ion| split && matches!(ion, Ion::Calcium | Ion::Magnesium);
    let assumed = |ion: &Ion| given.assumed.contains_key(&path(ion.name())) && ions.contains_key(ion);
    let water = Water {
        movable: Ion::MAJOR.into_iter().filter(|ion| assumed(ion) && !fixed(ion)).collect(),
        alkalinity: given.number(&path("alkalinity")),
        alkalinity_assumed: given.assumed.contains_key(&path("alkalinity")),
        ph: given.number(&path("ph")).value,
        ions,
    };
    let Some((.., now)) = water.made(1.0).filter(|_| !water.movable.is_empty()) else { return };
    let ends = match now {
        now if now > high => (0.0, 1.0),
        now if now < low => (1.0, MOST),
        _ => return,
    };
    let (Some(best), Some(most)) = (water.reach(told.value, ends), water.reach(high, (0.0, ends.1))) else { return };
    write(given, section, &water, &best, &most);
}

/// The assumed numbers as the conductivity leaves them.
fn write(given: &mut Given, section: &str, water: &Water, best: &Made, most: &Made) {
    let meq = |ion: Ion, ions: &Ions| charge_meq_per_l(ion, ions.get(&ion).map_or(0.0, |known| known.value));
    let side = |positive: bool| {
        let ions = water.movable.iter().map(|ion| meq(*ion, &most.0)).filter(|meq| (*meq > 0.0) == positive);
        let alkalinity = if positive || !water.alkalinity_assumed { 0.0 } else { most.1 };
        ions.map(f64::abs).sum::<f64>() + alkalinity
    };
    let because = "as much as the conductivity that was measured leaves for it";
    let mut put = |name: &str, was: Known<f64>, value: f64, cap: f64| {
        let (low, high) = (was.low.min(value), was.high.min(cap).max(value));
        let path = format!("{section}.{name}");
        given.numbers.insert(path.clone(), Known { low, value, high, ..was }.map(canonical));
        given.assumed.insert(path, because.to_owned());
    };
    for ion in &water.movable {
        let (Some(was), Some(now)) = (water.ions.get(ion), best.0.get(ion)) else { continue };
        let cap = side(equivalents(*ion) > 0.0) / equivalents(*ion).abs() * ion.molar_mass();
        put(ion.name(), *was, now.value, cap);
    }
    if water.alkalinity_assumed {
        put("alkalinity", water.alkalinity, best.1, side(false));
    }
}
