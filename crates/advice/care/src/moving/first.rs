//! The first day at another tap: the share of the tank that may be new water at once, and the old water that goes along.
//!
//! **Equation.** share = min(1, each level's day limit ÷ |new − now|, total ammonia limit ÷ N of the new water, a tenth for an old tank,
//! the new plan's own change where that is limited); (1 − share) V of old water goes along. The toxic share of ammonia is the larger of
//! the two waters', at its high end (harm rules 3, 6, 7, 8).

use knowledge::book;
use quantity::{Ion, chem::atom};
use recipe::say::Pen;
use recipe::{Indices, Note, Plan};
use setup::{Disinfectant, Tank};

use super::Moving;
use super::way::{Way, binds};
use crate::start_words::{keyed, up};

/// What the first day bears.
#[derive(Clone, Copy, Debug)]
pub(super) struct First {
    /// Share of the water, 0 to 1; 1: all limits bear a tank of new water.
    pub share: f64,
    /// What limits it.
    pub by: Option<&'static str>,
}

/// The share of the first day.
pub(super) fn first_day(new: (&Tank, &Plan), ways: &[Way], tenth: Option<f64>, ammonia: f64) -> First {
    let by_way = ways.iter().map(Way::share_most).chain(tenth).fold(1.0, f64::min);
    let own = new.1.change.limited.as_ref().map_or(1.0, |_| new.1.change.share);
    let by = if ammonia.min(own) < by_way { Some("ammonia") } else { binds(ways, 1.0, tenth).map(|way| way.what) };
    First { share: by_way.min(ammonia).min(own).max(0.0), by }
}

/// Share at which the ammonia of the new water comes to its limit in the tank, at the worst pH of the two waters; where it can't be
/// told, a tenth. Above 1 nothing limits.
pub(super) fn ammonia_share((tank, plan): (&Tank, &Plan), waters: [Option<&Indices>; 2]) -> f64 {
    let limit = &book().harm.limit;
    if !tank.animals.any() {
        return f64::INFINITY;
    }
    let unknown = limit.old_tank_change_percent.value() / 100.0;
    let own = tank.tap.mg_per_l(Ion::Ammonium).high * atom::N / Ion::Ammonium.molar_mass();
    let nitrogen = match &plan.new_water.conditioner {
        Some(c) => c.ammonia_n_mg_per_l,
        None if tank.tap.disinfectant == Disinfectant::None => own,
        None => return unknown,
    };
    if nitrogen <= 0.0 {
        return f64::INFINITY;
    }
    let [Some(a), Some(b)] = waters else { return unknown };
    let by_share = limit.ammonia_unionised_mg_n_per_l.value() / a.nh3_fraction.high.max(b.nh3_fraction.high);
    let snails = tank.animals.snails > 0 || tank.animals.other_invertebrates > 0;
    let by_snails = if snails {
        let ph = a.ph.high.max(b.ph.high);
        book().harm.snail_ammonia.total_mg_n_per_l(ph, tank.temperature_c.high)
    } else {
        f64::INFINITY
    };
    by_share.min(by_snails) / nitrogen
}

/// What of the old water goes along.
pub(super) fn along(new: &Tank, m: &Moving, pen: &Pen) -> Note {
    let litres = new.geometry.true_l.value;
    let most_l = book().harm.limit.bucket_l.value();
    let cans = format!("{} lidded cans of at most {}", pen.n(up(m.take_along_l / most_l), 3), pen.litres(most_l));
    let travel = "The animals travel in some of it, dark, with air over the water.";
    let all = pen.litres(m.take_along_l);
    let text = if m.stopped.is_some() {
        format!(
            "All of it, {all}, in {cans}: nothing of the new tap goes in, neither on that day nor later, nor to top up. Ask for other water \
             before you move, or leave the animals where they are. {travel}"
        )
    } else if m.take_along_l <= 0.0 {
        format!(
            "Enough for the animals to travel in, in lidded cans of at most {}, dark, with air over the water; the waters are so near that the rest may be new. {}",
            pen.litres(most_l),
            warmth(new, 1.0, pen)
        )
    } else {
        format!(
            "{all} of it, in {cans}: the tank is filled up with no more than {} of the new on the first day, made as “The new water” says, conditioner \
             first; a day bears no more of it. Cannot so much go along? Then run it less full, over the \
             heater's mark. {} {travel}",
            pen.litres((litres - m.take_along_l).max(0.0)),
            warmth(new, 1.0 - m.take_along_l / litres, pen)
        )
    };
    keyed("Old water along", text, "bucket_l")
}

/// The mildest that the new water may be, where the tap could move the tank by more than an hour bears (harm rules 6 and 19).
fn warmth(tank: &Tank, share: f64, pen: &Pen) -> String {
    let harm = &book().harm;
    let (tank_c, tap) = (tank.temperature_c.value, tank.tap.temperature_c);
    let new_c = if (tap.low - tank_c).abs() >= (tap.high - tank_c).abs() { tap.low } else { tap.high };
    let (pour, hour) = (heat::Pour { tank_c, new_c, share }, harm.limit.temperature_step_c_per_h.value());
    if pour.moves_c().abs() <= hour {
        return harm.rule.new_water_temperature.say.clone();
    }
    let than = if pour.moves_c() < 0.0 { "colder" } else { "warmer" };
    format!("{} Never {than} than {}.", harm.rule.new_water_temperature.say, pen.celsius(pour.mildest_c(hour)))
}
