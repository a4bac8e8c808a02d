//! How much may be changed at once before the ammonia of the new water harms.
//!
//! What: right after a change of share x the tank holds x N mg/L of ammonia-nitrogen; its toxic share f follows from the
//! aired water's pH and temperature, by the speciation with activities. The share is limited to
//! x = min(limit ÷ (f N), and with snails criterion(pH, T) ÷ N) over all waters that could be.
//! Symbols: f share of NH3, 0 to 1; N mg/L; limit mg/L NH3-N.
//! Range: that of `water::solve`. Ammonia that the tank itself holds is not known here and counts as none: the sentence
//! says so.
//! A salt that raises pH is never given without the test of it, and the number at which harm starts then (harm rule 7).
//! Source: CCME (limit), US EPA 2013 (criterion for snails), both from memory; see `data/harm.toml`.
//! Checked by: `tests/harm_water.rs`, `tests/harm.rs`.

use setup::SourceWater;
use water::Solved;

use crate::desk::Desk;
use crate::indices::{Air, solved};
use crate::say::two_figures_down;

/// What a change does to the tank's ammonia.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Ammonia {
    /// The largest share of the tank's water that may be changed at once; above 1 nothing limits it.
    pub share_most: f64,
    /// The worst toxic share, 0 to 1.
    pub fraction: f64,
    /// pH at which it is so.
    pub ph: f64,
    /// °C at which it is so.
    pub temperature_c: f64,
    /// mg/L of all ammonia-N in the tank that is the limit there.
    pub total_most: f64,
    /// The criterion for snails is what limits.
    pub by_snails: bool,
}

/// The worst of all waters that could be; `None` where none can be solved (then nothing may be changed unasked).
pub(crate) fn worst(desk: &Desk, water: &SourceWater, nitrogen: f64) -> Option<Ammonia> {
    let tank = desk.tank;
    let all = solved(water, tank.temperature_c, Air::Room(tank.room_co2_ppm));
    let limit = desk.book.harm.limit.ammonia_unionised_mg_n_per_l.value();
    let snails = tank.animals.snails > 0 || tank.animals.other_invertebrates > 0;
    let of = |s: &Solved| {
        let (ph, t) = (s.ph, s.temperature_c);
        let by_share = limit / s.nh3_fraction;
        let by_criterion = if snails { desk.book.harm.snail_ammonia.total_mg_n_per_l(ph, t) } else { f64::INFINITY };
        let total_most = by_share.min(by_criterion);
        Ammonia {
            share_most: if nitrogen > 0.0 { total_most / nitrogen } else { f64::INFINITY },
            fraction: s.nh3_fraction,
            ph,
            temperature_c: t,
            total_most,
            by_snails: by_criterion < by_share,
        }
    };
    all.iter().map(of).min_by(|a, b| a.total_most.total_cmp(&b.total_most))
}

/// What stands with every salt that raises pH, animals in the tank: the test, and the number at which harm starts once it is in.
/// `worst`: in the waters that follow; `None`: they can't be solved.
pub(crate) fn tested(desk: &Desk, worst: Option<Ammonia>) -> Option<String> {
    let (pen, limit) = (&desk.pen, &desk.book.harm.limit.ammonia_unionised_mg_n_per_l);
    let harm_starts = match worst {
        Some(at) => format!(
            "at pH {} harm starts at {} mg/L of all ammonia (as N)",
            pen.n(at.ph, 3),
            pen.n(two_figures_down(at.total_most), 2)
        ),
        None => format!("harm starts at {} mg/L of its toxic share (as N)", pen.n(limit.value(), 2)),
    };
    desk.animals().then(|| {
        format!("Test ammonia before and after, for this raises pH and turns ammonium into ammonia; {harm_starts}.")
    })
}
