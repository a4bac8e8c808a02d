//! Bands as rows that give way: each has a shortfall and an excess, as shares of its edges, and the stage after harm makes
//! their sum as small as it gets. What remains is what cannot be met, and by how much.

use knowledge::book;
use quantity::Ion;
use setup::Tank;

use super::line::Line;
use super::model::{End, Model, changes, snap};
use super::part::Part;
use super::{LeftOut, Reason, Subject};
use crate::levels::{self, Cycle};

/// A share of a band's edge that counts as met: the solver's tolerance and what holding a stage costs.
pub(super) const MET: f64 = 1e-5;

/// A band and its columns.
pub(super) struct Wish {
    pub part: Part,
    pub band: (f64, f64),
    /// The keeper's own wish, not the table's.
    pub own: bool,
    /// What the tap brings alone is over the band: nothing is added for it, and its lower edge asks for nothing.
    pub covered: bool,
    /// Shortfall as a share of the lower edge, excess as a share of the upper one.
    pub short: usize,
    pub over: usize,
}

/// The wishes of a tank: (part, band, own).
pub(super) fn wished(tank: &Tank) -> Vec<(Part, (f64, f64), bool)> {
    let own = |ion: &Ion| tank.wish.bands.contains_key(ion);
    let bands = levels::bands(tank).into_iter().map(|(ion, band)| (Part::Ion(ion), band, own(&ion)));
    let alkalinity = tank.wish.alkalinity_meq_per_l.map(|band| (Part::Alkalinity, band, true));
    let hardness = tank.wish.hardness_meq_per_l.map(|band| (Part::Hardness, band, true));
    let all = bands.chain(alkalinity).chain(hardness);
    let all = all.map(|(part, (low, high), own)| (part, (snap(low), snap(high)), own));
    all.filter(|(_, (low, high), _)| *high > 0.0 && low <= high).collect()
}

/// Writes the rows of all bands over the tap's range, uptake at its best estimate.
pub(super) fn rows(model: &mut Model) -> Vec<Wish> {
    wished(model.tank).into_iter().map(|wish| band(model, wish)).collect()
}

fn band(model: &mut Model, (part, band, own): (Part, (f64, f64), bool)) -> Wish {
    let covered = covered(model.tank, part, band, own);
    let short = model.problem.amount(format!("{} short", part.name()), 0.0, f64::INFINITY);
    let over = model.problem.amount(format!("{} over", part.name()), 0.0, f64::INFINITY);
    let wish = Wish { part, band, own, covered, short, over };
    edges(model, &wish, (short, over), false);
    wish
}

/// Rows of one band over the tap's range, giving way by the columns `short` and `over`: uptake at its best estimate, or,
/// with `likely`, at the poorest and the richest end of its range. All in shares of an edge, so that the solver's tolerance
/// is a share too.
pub(super) fn edges(model: &mut Model, wish: &Wish, (short, over): (usize, usize), likely: bool) {
    let (part, (low, high)) = (wish.part, wish.band);
    if !changes(model.tank) {
        return replace(model, wish, (short, over), likely);
    }
    let suffix = if likely { ", likely" } else { "" };
    let uptake = part.uptake(model.tank);
    let (poor, rich) = if likely { (uptake.high, uptake.low) } else { (uptake.value, uptake.value) };
    if low > 0.0 && !wish.covered {
        for mark in model.marks(part, End::Lowest, poor).low {
            let row = mark.times(1.0 / low).plus(1.0, &Line::column(short, 1.0));
            row.bound(&mut model.problem, &format!("{} at least{suffix}", part.name()), 1.0, f64::INFINITY);
        }
    }
    // The table's upper edges never call for low-mineral water: what the tap brings by itself is told, not forced down.
    // The keeper's own wish does.
    let nothing = model.nothing_given();
    let marks = model.marks(part, End::Highest, rich).high;
    let alone = marks.iter().map(|mark| mark.at(&nothing)).fold(f64::NEG_INFINITY, f64::max);
    let top = if wish.own { high } else { high.max(alone) };
    for mark in marks {
        let row = mark.times(1.0 / high).plus(-1.0, &Line::column(over, 1.0));
        row.bound(&mut model.problem, &format!("{} at most{suffix}", part.name()), f64::NEG_INFINITY, top / high);
    }
}

/// Without changes the dose replaces what is taken: it stays in the likely range of that, and (`likely`) comes as near to
/// the best estimate as it can.
fn replace(model: &mut Model, wish: &Wish, (short, over): (usize, usize), likely: bool) {
    let part = wish.part;
    let (uptake, top_up) = (part.uptake(model.tank), part.top_up(model.tank).value);
    let range = if likely { (uptake.value, uptake.value) } else { (uptake.low, uptake.high) };
    let of = |taken: f64| snap((taken - top_up).max(0.0));
    let (least, most) = (if wish.covered { 0.0 } else { of(range.0) }, of(range.1));
    // A share of what is taken; of the band's upper edge where nothing is.
    let scale = if most > 0.0 { most } else { wish.band.1 };
    let dose = model.dose(part).times(1.0 / scale);
    let row = dose.clone().plus(1.0, &Line::column(short, 1.0));
    row.bound(&mut model.problem, &format!("{} replaced", part.name()), least / scale, f64::INFINITY);
    let row = dose.plus(-1.0, &Line::column(over, 1.0));
    row.bound(&mut model.problem, &format!("{} no more than taken", part.name()), f64::NEG_INFINITY, most / scale);
}

/// The tap alone (with the share of low-mineral water that the keeper set) is over the band, best estimate, and never below
/// it; and it is not the keeper's own wish with low-mineral water at hand, for then it is blended. Without changes it must
/// stay over it for all the days shown.
fn covered(tank: &Tank, part: Part, band: (f64, f64), own: bool) -> bool {
    let blends = own && tank.low.is_some() && tank.low_share.is_none();
    let Some(swing) = alone(tank, part).map(|cycle| cycle.swing()) else { return false };
    let over = if changes(tank) { swing.highest } else { swing.lowest };
    !blends && over > band.1 && swing.lowest >= band.0
}

/// The cycle without any dose, best estimate, at the share of low-mineral water that the keeper set.
fn alone(tank: &Tank, part: Part) -> Option<Cycle> {
    let share = tank.low_share.unwrap_or(0.0);
    match part {
        Part::Ion(ion) => Some(levels::cycle(tank, ion, 0.0, 0.0, share)),
        Part::Alkalinity => Some(levels::alkalinity_cycle(tank, 0.0, 0.0, share)),
        Part::Hardness => None,
    }
}

/// What the tap covers: notes for the wishes of which nothing is given.
pub(super) fn left_out(tank: &Tank, wishes: &[Wish], given: impl Fn(Part) -> f64) -> Vec<LeftOut> {
    let note = |wish: &Wish| {
        let ion = wish.part.ion()?;
        let cycle = alone(tank, wish.part)?;
        let swing = cycle.swing();
        let fills = swing.lowest >= wish.band.0 && given(wish.part) <= 0.0;
        (wish.covered || fills).then(|| LeftOut {
            subject: Subject::Ion(ion),
            reason: Reason::TapCovers {
                band: wish.band,
                settles: (swing.before_change, swing.after_change),
                exceeds: swing.highest > wish.band.1,
                smaller_share: smaller_share(&cycle, wish.band.1),
                low_share: low_share(tank, wish.part, &cycle, wish.band.1),
            },
        })
    };
    wishes.iter().filter_map(note).collect()
}

/// Share of a smaller change at which the highest level, right after a change, is the band's top: between two changes
/// the plants then take more than a change brings. `a = T - n r (1 - x) / x` solved for x.
fn smaller_share(cycle: &Cycle, top: f64) -> Option<f64> {
    let taken = f64::from(cycle.days()) * cycle.fall_per_day();
    let share = taken / (cycle.tap - top + taken);
    let smaller = Cycle { change_share: share, ..*cycle };
    let least = book().recipe.worth.change_least_share.value;
    let helps = taken > 0.0 && cycle.tap > top && share >= least && share < cycle.change_share;
    (helps && smaller.swing().highest <= top * (1.0 + 1e-9)).then_some(share)
}

/// Share of low-mineral water at which the highest level, right after a change, is the band's top.
fn low_share(tank: &Tank, part: Part, cycle: &Cycle, top: f64) -> Option<f64> {
    let low = part.in_water(tank.low.as_ref()?).value;
    let tap = part.in_water(&tank.tap).value;
    let (x, taken) = (cycle.change_share, f64::from(cycle.days()) * cycle.fall_per_day());
    let wanted = top + taken * (1.0 - x) / x;
    let share = (tap - wanted) / (tap - low);
    (tap > low && share > 0.0 && share <= 1.0).then_some(share)
}
