//! The tap's water after a day in the room: pH, and what it does to lime.
//!
//! What: the speciation of crate `water` for the best estimate of the tap, in balance with the room's carbon dioxide,
//! at the tank's temperature; the range is that of the room alone.
//! Symbols: pH; calcite's saturation index; ppm.
//! Range: that of `water::solve`; outside it nothing is answered.
//! Checked by: `tests/tap.rs`; the speciation by `water`'s own fixtures.

use quantity::{Ion, Kind, Known};
use setup::Tank;
use water::{Carbon, Sample, Solved, Totals, pco2_atm_of_room, solve};

/// The water, aired.
pub struct Aired {
    /// pH over the room's range of carbon dioxide.
    pub ph: Known<f64>,
    /// Calcite's saturation index over the same; `None` without calcium or buffer.
    pub calcite: Option<Known<f64>>,
}

impl Aired {
    /// What it does to lime, as a verb and as what a keeper sees of it.
    pub fn lime(&self) -> (&'static str, &'static str) {
        match self.calcite {
            Some(si) if si.low > 0.0 => {
                ("leaves", "a white rim comes at the waterline, and shells and stones of lime last")
            }
            Some(si) if si.high >= 0.0 => ("neither leaves nor dissolves", "it is close to balance with it"),
            _ => ("dissolves", "stones and shells of lime waste away in it, slowly"),
        }
    }

    /// Who does not live well in it, by the end of its range that lies further from neutral.
    pub fn unfit(&self) -> Option<&'static str> {
        let end = if self.ph.value < 7.0 { self.ph.low } else { self.ph.high };
        knowledge::book().limits.word("ph", end).map(|word| word.say.as_str())
    }
}

/// `None` outside the model's range.
pub fn aired(tank: &Tank) -> Option<Aired> {
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
    Some(Aired { ph: between(high.ph, best.ph, low.ph), calcite })
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
