//! Bands as rows that give way: each has a shortfall and an excess, as shares of its edges, and the stage after harm makes
//! their sum as small as it gets. What remains is what cannot be met, and by how much.

use quantity::Ion;
use setup::Tank;

use super::line::Line;
use super::model::{End, Model, changes};
use super::part::Part;
use super::{LeftOut, Reason, Subject};
use crate::levels::{self, Cycle};

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
    bands.chain(alkalinity).chain(hardness).filter(|(_, (low, high), _)| *high > 0.0 && low <= high).collect()
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
    let uptake = part.uptake(model.tank);
    edges(model, &wish, (uptake.value, uptake.value), (short, over), "");
    wish
}

/// Rows of one band for an uptake at the poor and one at the rich end, giving way by the columns `short` and `over`.
/// All in shares of an edge, so that the solver's tolerance is a share too.
pub(super) fn edges(model: &mut Model, wish: &Wish, uptake: (f64, f64), columns: (usize, usize), suffix: &str) {
    let (part, (low, high)) = (wish.part, wish.band);
    let (short, over) = columns;
    if !changes(model.tank) {
        return replace(model, wish, columns, suffix);
    }
    if low > 0.0 && !wish.covered {
        for mark in model.marks(part, End::Lowest, uptake.0).low {
            let row = mark.times(1.0 / low).plus(1.0, &Line::column(short, 1.0));
            row.bound(&mut model.problem, &format!("{} at least{suffix}", part.name()), 1.0, f64::INFINITY);
        }
    }
    // The table's upper edges never call for low-mineral water: what the tap brings by itself is told, not forced down.
    // The keeper's own wish does.
    let nothing = model.nothing_given();
    let marks = model.marks(part, End::Highest, uptake.1).high;
    let alone = marks.iter().map(|mark| mark.at(&nothing)).fold(f64::NEG_INFINITY, f64::max);
    let top = if wish.own { high } else { high.max(alone) };
    for mark in marks {
        let row = mark.times(1.0 / high).plus(-1.0, &Line::column(over, 1.0));
        row.bound(&mut model.problem, &format!("{} at most{suffix}", part.name()), f64::NEG_INFINITY, top / high);
    }
}

/// Without changes the dose replaces what is taken, no more and no less.
fn replace(model: &mut Model, wish: &Wish, (short, over): (usize, usize), suffix: &str) {
    let part = wish.part;
    let taken = (part.uptake(model.tank).value - part.top_up(model.tank).value).max(0.0);
    // A share of what is taken; of the band's upper edge where nothing is.
    let scale = if taken > 0.0 { taken } else { wish.band.1 };
    let dose = model.dose(part).times(1.0 / scale);
    let name = part.name();
    if taken > 0.0 {
        let row = dose.clone().plus(1.0, &Line::column(short, 1.0));
        row.bound(&mut model.problem, &format!("{name} replaced{suffix}"), 1.0, f64::INFINITY);
    }
    let row = dose.plus(-1.0, &Line::column(over, 1.0));
    row.bound(&mut model.problem, &format!("{name} no more{suffix}"), f64::NEG_INFINITY, taken / scale);
}

/// The tap (with the share of low-mineral water that the keeper set) is over the band by itself, best estimate; and it is
/// not the keeper's own wish with low-mineral water at hand, for then it is blended.
fn covered(tank: &Tank, part: Part, band: (f64, f64), own: bool) -> bool {
    let blends = own && tank.low.is_some() && tank.low_share.is_none();
    !blends && changes(tank) && alone(tank, part).is_some_and(|cycle| cycle.swing().highest > band.1)
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
        (changes(tank) && (wish.covered || fills)).then(|| LeftOut {
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
    let helps = taken > 0.0 && cycle.tap > top && share > 0.0 && share < cycle.change_share;
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
