//! What a water does to lime once it is aired, and the tap's own water after a day in the room.
//!
//! What: the verdict by calcite's saturation index at both ends of its range; the speciation of crate `water` for the best estimate of the tap,
//! in balance with the room's carbon dioxide at the tank's temperature, the range being that of the room alone.
//! Equation: it leaves lime where the lower end lies over 0, dissolves it where the upper end lies under 0.
//! Symbols: the index is log10 of ion activity product over solubility product.
//! Range: that of `water::solve`; outside it nothing is answered. Air out of a tap's water goes within about a day.
//! Source: `phreeqc_386`.
//! Checked by: `tests/by_hand_lime.rs`, pages' `tests/tap.rs`; the speciation by `water`'s own fixtures.

use quantity::{Ion, Kind, Known};
use setup::Tank;
use water::{Carbon, Sample, Solved, Totals, pco2_atm_of_room, solve};

use crate::plan::Level;

/// What a water does to lime.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lime {
    /// It leaves some.
    Leaves,
    /// It is close to balance with it.
    Near,
    /// It dissolves it.
    Dissolves,
}

impl Lime {
    /// By calcite's saturation index; `None`: a water without calcium or buffer.
    pub fn of(calcite: Option<Known<f64>>) -> Self {
        match calcite {
            Some(si) if si.low > 0.0 => Lime::Leaves,
            Some(si) if si.high >= 0.0 => Lime::Near,
            _ => Lime::Dissolves,
        }
    }

    /// "leaves lime".
    pub fn does(self) -> &'static str {
        match self {
            Lime::Leaves => "leaves lime",
            Lime::Near => "neither leaves nor dissolves much lime",
            Lime::Dissolves => "dissolves lime",
        }
    }

    /// What a keeper sees of it.
    pub fn shows(self) -> &'static str {
        match self {
            Lime::Leaves => "a white rim comes at the waterline, and shells and stones of lime last",
            Lime::Near => "it is close to balance with it",
            Lime::Dissolves => "stones and shells of lime waste away in it, slowly",
        }
    }
}

/// The tap's own water, aired.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapAired {
    /// pH over the room's range of carbon dioxide.
    pub ph: Known<f64>,
    /// Calcite's saturation index over the same; `None` without calcium or buffer.
    pub calcite: Option<Known<f64>>,
}

/// The tap's water after a day in the room; `None` outside the model's range.
pub fn tap_aired(tank: &Tank) -> Option<TapAired> {
    let best = solved(tank, tank.room_co2_ppm.value)?;
    let (low, high) = (solved(tank, tank.room_co2_ppm.low)?, solved(tank, tank.room_co2_ppm.high)?);
    let kind = tank.tap.ions.values().map(|known| known.kind).fold(tank.tap.alkalinity_meq_per_l.kind, Kind::weaker);
    let kind = kind.weaker(tank.room_co2_ppm.kind).weaker(Kind::WorkedOut);
    // More carbon dioxide: lower pH, less lime.
    let between = |low: f64, best: f64, high: f64| Known::ranged(low.min(high), best, high.max(low), kind);
    let calcite = match (low.si.calcite, best.si.calcite, high.si.calcite) {
        (Some(a), Some(b), Some(c)) => Some(between(c, b, a)),
        _ => None,
    };
    Some(TapAired { ph: between(high.ph, best.ph, low.ph), calcite })
}

fn solved(tank: &Tank, room_ppm: f64) -> Option<Solved> {
    let temperature_c = tank.temperature_c.value;
    let sample = Sample {
        temperature_c,
        totals: Totals::from_mg_per_l(&Ion::MAJOR.map(|ion| tank.tap.mg_per_l(ion).value)),
        alkalinity_eq_per_kg: Some(tank.tap.alkalinity_meq_per_l.value / 1000.0),
        carbon: Carbon::Pco2Atm(pco2_atm_of_room(room_ppm, temperature_c)),
    };
    solve(&sample).ok()
}

/// Why the tank's water does otherwise than the tap's by itself, where it does; said beside the tank's.
pub(crate) fn other_than_tap(tank: &Tank, does: Lime, alkalinity: &Level) -> Option<String> {
    let tap = Lime::of(tap_aired(tank)?.calcite);
    if tap == does {
        return None;
    }
    let (of_tap, of_tank) = (tank.tap.alkalinity_meq_per_l.value, alkalinity.before_change.value);
    let alike = knowledge::book().recipe.worth.shown_share.value * of_tap;
    let why = if of_tank < of_tap - alike {
        "in the tank the filter has eaten of its alkalinity"
    } else if of_tank > of_tap + alike {
        "in the tank there is more alkalinity, from salts or topping up"
    } else {
        "the tank counts over your tap's whole year, the tap by its likeliest figures"
    };
    Some(format!("Your tap's water by itself, aired as well, {}: {why}.", tap.does()))
}
