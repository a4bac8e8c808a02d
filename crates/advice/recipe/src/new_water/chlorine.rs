//! How much chlorine and ammonia new water brings, at the bad end.
//!
//! What: total chlorine counts (harm rules 1 and 2); of chloramine it leaves nitrogen in the ratio Cl2:N by mass, and the
//! water's own ammonium is added (harm rule 3): N = chlorine ÷ ratio + NH4 × 14.007 ÷ 18.039.
//! Symbols: mg/L; N as ammonia-nitrogen.
//! Source: White 2010 (ratio); molar masses (source key `iupac_2022`); US EPA 1984.
//! Checked by: `tests/harm_water.rs`, `tests/by_hand_new_water.rs`.

use quantity::chem::atom;
use quantity::{Ion, Kind, Known};
use setup::{Disinfectant, SourceWater};

use crate::desk::Desk;

/// What new water brings before it is treated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Brought {
    /// Total chlorine, mg/L; `None`: the report or the supplier says that there is none.
    pub chlorine: Option<Known<f64>>,
    /// Ammonia-N after the conditioner, mg/L: least, and most.
    pub nitrogen: (f64, f64),
}

/// Total chlorine of one water: what is told, but never less than what is counted on where nobody said.
fn chlorine(desk: &Desk, water: &SourceWater) -> Option<Known<f64>> {
    let told = water.total_chlorine_mg_per_l;
    match water.disinfectant {
        Disinfectant::None => None,
        _ if told.kind != Kind::Assumed && told.high > 0.0 => Some(told),
        _ => {
            let unknown = desk.book.harm.chlorine_unknown(desk.place());
            let most = unknown.value().max(told.high);
            Some(Known::ranged(told.low.min(most), most, most, Kind::Assumed))
        }
    }
}

/// What the mixture of the tap with a share of low-mineral water brings.
pub(crate) fn brought(desk: &Desk, mixture: &SourceWater, low_share: f64) -> Brought {
    let ratio = &desk.book.harm.limit.chloramine_cl2_per_n.is;
    let parts = [(1.0 - low_share, Some(&desk.tank.tap)), (low_share, desk.tank.low.as_ref())];
    let (mut worst, mut bound): (Option<Known<f64>>, (f64, f64)) = (None, (0.0, 0.0));
    for (share, water) in
        parts.into_iter().filter_map(|(share, water)| water.filter(|_| share > 0.0).map(|w| (share, w)))
    {
        let Some(cl) = chlorine(desk, water) else { continue };
        // Buckets may be filled one water after the other: the one with most chlorine counts in full.
        worst = Some(worst.filter(|w| w.high >= cl.high).unwrap_or(cl));
        if water.disinfectant != Disinfectant::Chlorine {
            bound = (bound.0 + share * cl.low, bound.1 + share * cl.high);
        }
    }
    let own = |mg: f64| mg * atom::N / Ion::Ammonium.molar_mass();
    let ammonium = mixture.mg_per_l(Ion::Ammonium);
    Brought {
        chlorine: worst,
        nitrogen: (bound.0 / ratio.high() + own(ammonium.low), bound.1 / ratio.low() + own(ammonium.high)),
    }
}
