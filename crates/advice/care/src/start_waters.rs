//! Waters of a tank: what stands in it, whether its tap may be used, and the toxic share of ammonia at any pH.

use quantity::Ion;
use recipe::{Plan, blended, salted};
use setup::{SourceWater, Tank};
use water::{Carbon, Sample, Totals, solve};

/// The new water of a plan: tap, second water and the salts stirred into it.
pub(crate) fn new_water(tank: &Tank, plan: &Plan) -> SourceWater {
    salted(blended(tank, plan.low_share), &plan.doses)
}

/// The water that stands in a tank under its plan, best estimate and ends.
pub(crate) fn in_tank(tank: &Tank, plan: &Plan) -> SourceWater {
    recipe::in_tank(&new_water(tank, plan), &plan.levels, &plan.alkalinity)
}

/// Share of all ammonia that is NH3 in a water brought to a pH and temperature; `None` outside the speciation's range.
pub(crate) fn nh3_share(water: &SourceWater, ph: f64, temperature_c: f64) -> Option<f64> {
    let mg: [f64; 9] = Ion::MAJOR.map(|ion| water.mg_per_l(ion).value.max(0.0));
    let sample = |alkalinity: Option<f64>| Sample {
        temperature_c,
        totals: Totals::from_mg_per_l(&mg),
        alkalinity_eq_per_kg: alkalinity,
        carbon: Carbon::Ph(ph),
    };
    let told = water.alkalinity_meq_per_l.value / 1000.0;
    // The share hangs on pH, temperature and ionic strength; the alkalinity only has to be one that the pH allows.
    let solved = solve(&sample(Some(told)))
        .or_else(|_| solve(&sample(None)))
        .or_else(|_| solve(&Sample { totals: Totals::default(), ..sample(Some(0.001)) }));
    solved.ok().map(|solved| solved.nh3_fraction)
}

/// What forbids this tap, to change with and to top up with (harm rules 1 and 4).
pub(crate) fn refused_tap(tank: &Tank, plan: &Plan) -> Option<String> {
    let chlorine = || plan.new_water.conditioner.as_ref().and_then(|c| c.refused.clone());
    recipe::copper_stops(tank).or_else(chlorine)
}

/// The same tank at the tap of another house, with what that house's pipes add.
pub fn with_tap(tank: &Tank, there: &Tank) -> Tank {
    Tank { tap: there.tap.clone(), pipes_copper_mg_per_l: there.pipes_copper_mg_per_l, ..tank.clone() }
}
