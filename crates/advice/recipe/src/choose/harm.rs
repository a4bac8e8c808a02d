//! Rules of harm as rows: none of them can be traded for anything.
//!
//! What the tap brings by itself is not the recipe's to forbid: where it is over a limit already, nothing may be added to
//! it, and (for copper with invertebrates) low-mineral water takes it down as far as it goes, before any other wish.

use knowledge::book;
use quantity::{Ion, Kind};
use setup::Tank;

use super::line::Line;
use super::model::{End, Model, changes};
use super::part::Part;
use super::products::Candidate;
use super::{LeftOut, Reason, Subject};
use crate::bottles::slip::in_the_fewest;
use crate::levels::{self, Cycle};
use crate::plan::Dose;

/// Writes all rows of harm. `banded`: ions with a band of their own. Answers the sum that the first stage makes small:
/// copper over the limit and alkalinity under its floor, each as a share of it.
pub(super) fn rows(model: &mut Model, banded: &[Ion]) -> Vec<(usize, f64)> {
    daily_ceilings(model);
    conductivity(model);
    as_taps_are(model);
    along(model, banded);
    let mut gives_way = copper(model);
    gives_way.extend(alkalinity_floor(model));
    gives_way
}

/// Alkalinity with animals stays at or over its floor through the whole cycle, at the tap's lowest and what is eaten at
/// its highest: bicarbonate in the new water holds it. It gives way only to rows that can't. In balance a change lifts the
/// tank by what was eaten since the last, n e: where that passes a day's limit no such change is planned, and the sentence
/// on alkalinity says what to do (`cautions`).
fn alkalinity_floor(model: &mut Model) -> Option<(usize, f64)> {
    if !model.tank.animals.any() || !changes(model.tank) {
        return None;
    }
    let limit = &book().harm.limit;
    let (floor, step) = (limit.alkalinity_floor_meq_per_l.value(), limit.alkalinity_step_meq_per_l.value());
    let eaten = Part::Alkalinity.uptake(model.tank);
    if f64::from(model.tank.habits.every_days) * eaten.value > step {
        return None;
    }
    let under = model.problem.amount("alkalinity under its floor", 0.0, f64::INFINITY);
    // Bottles don't count: a nutrient that brings some along is not given for it.
    let (x, n) = (model.tank.habits.change_share.value, f64::from(model.tank.habits.every_days));
    let water = model.new_water(Part::Alkalinity, End::Lowest);
    let fall = eaten.high - End::Lowest.of(Part::Alkalinity.top_up(model.tank));
    let before = water.clone().and(-n * fall / x);
    let after = before.clone().times(1.0 - x).plus(x, &water);
    for mark in [before, after] {
        let row = mark.times(1.0 / floor).plus(1.0, &Line::column(under, 1.0));
        row.bound(&mut model.problem, "harm: alkalinity at least", 1.0, f64::INFINITY);
    }
    Some((under, 1.0))
}

/// What is given on one day, change included, stays under the ceiling of a day. The smallest volume that the tank may
/// have counts: the same grams are more in it.
fn daily_ceilings(model: &mut Model) {
    let limit = &book().harm.limit;
    let ceilings = [
        (Part::Ion(Ion::Nitrate), limit.nitrate_step_mg_per_l.value()),
        (Part::Ion(Ion::Potassium), limit.potassium_step_mg_per_l.value()),
        (Part::Ion(Ion::Phosphate), limit.phosphate_step_mg_per_l.value()),
        (Part::Ion(Ion::Iron), limit.iron_step_mg_per_l.value()),
        (Part::Alkalinity, limit.alkalinity_step_meq_per_l.value()),
        (Part::Hardness, limit.hardness_step_meq_per_l()),
    ];
    let smaller = in_the_fewest(model.tank.geometry.true_l);
    for (part, ceiling) in ceilings {
        let mut day = model.dose(part).times(smaller);
        // Hardness and alkalinity of the new water come as steps (see `ramp.rs`); nutrients in it do not.
        if matches!(part, Part::Ion(_)) && changes(model.tank) {
            day = day.plus(model.tank.habits.change_share.value, &model.addition(part));
        }
        day.bound(&mut model.problem, &format!("harm: {} in a day", part.name()), f64::NEG_INFINITY, ceiling);
    }
}

/// Equivalent conductivity of an ion at infinite dilution and 25 °C, µS/cm for a meq/L (source key `crc_conductivity`;
/// from memory). Traces in chelates count none.
fn us_per_cm_per_meq(ion: Ion) -> f64 {
    match ion {
        Ion::Sodium => 50.1,
        Ion::Potassium => 73.5,
        Ion::Calcium => 59.5,
        Ion::Magnesium => 53.1,
        Ion::Ammonium => 73.5,
        Ion::Chloride => 76.3,
        Ion::Sulfate => 80.0,
        Ion::Nitrate => 71.4,
        Ion::Nitrite => 71.8,
        // H2PO4-, one charge a mole: a third of the three equivalents that an analysis counts.
        Ion::Phosphate => 33.0 / 3.0,
        _ => 0.0,
    }
}

/// Of bicarbonate, µS/cm for a meq/L (source key `crc_conductivity`; from memory).
pub(super) const BICARBONATE_US_PER_CM: f64 = 44.5;

/// Conductivity of ions at infinite dilution. In the tank their neighbours take some of it: below a tenth at 5 meq/L.
pub(super) fn conductance(of: impl Fn(Part) -> Line) -> Line {
    Ion::ALL.into_iter().fold(Line::default(), |line, ion| {
        let meq_per_mg = f64::from(ion.charge().abs()) / ion.molar_mass();
        line.plus(us_per_cm_per_meq(ion) * meq_per_mg, &of(Part::Ion(ion)))
    })
}

/// What is given a day changes the conductivity by no more than the share of a day, against the leanest new water, whose
/// bicarbonate is not counted: that is more than what its ions take from each other, so the row errs strict.
fn conductivity(model: &mut Model) {
    if !model.tank.animals.any() {
        return;
    }
    let share = book().harm.limit.conductivity_step_percent.value() / 100.0;
    let water = conductance(|part| model.new_water(part, End::Lowest));
    let dose = conductance(|part| model.dose(part)).plus(BICARBONATE_US_PER_CM, &model.dose(Part::Alkalinity));
    let day = dose.plus(-share, &water);
    day.bound(&mut model.problem, "harm: conductivity in a day", f64::NEG_INFINITY, 0.0);
}

/// New water stays a water as taps are, salts in it, or what the waters hold already; a band of the keeper's own may lie higher.
/// What a change of next to nothing would need to hold a level by is no water to pour.
fn as_taps_are(model: &mut Model) {
    if !changes(model.tank) {
        return;
    }
    let wished = super::wishes::wished(model.tank);
    let parts = Ion::ALL.into_iter().filter(|ion| *ion != Ion::Copper).map(Part::Ion).chain([Part::Alkalinity]);
    for part in parts {
        let Some(usual) = book().bound(part.name()).map(|row| row.is.usual_high) else { continue };
        let water = model.new_water(part, End::Highest);
        let band = wished.iter().filter(|(of, ..)| *of == part).map(|(_, band, _)| band.1);
        let most = band.fold(usual.max(water.at(&model.nothing_given())), f64::max);
        water.bound(&mut model.problem, &format!("harm: {} of new water", part.name()), f64::NEG_INFINITY, most);
    }
}

/// Whatever comes along and has no band of its own stays among the levels that are usual in a tap, or where the tap has
/// it already. Copper has its own rows.
fn along(model: &mut Model, banded: &[Ion]) {
    let ions = Ion::ALL.into_iter().filter(|ion| !banded.contains(ion) && *ion != Ion::Copper);
    for ion in ions {
        let part = Part::Ion(ion);
        let Some(usual) = book().bound(ion.name()).map(|row| row.is.usual_high) else { continue };
        let name = format!("harm: {} along", ion.name());
        if ion == Ion::Ammonium && model.tank.animals.any() {
            model.dose(part).plus(1.0, &model.addition(part)).bound(&mut model.problem, &name, f64::NEG_INFINITY, 0.0);
            continue;
        }
        let most = usual.max(tap_alone(model, part));
        if changes(model.tank) {
            for mark in model.marks(part, End::Highest, 0.0).high {
                mark.bound(&mut model.problem, &name, f64::NEG_INFINITY, most);
            }
        } else {
            let room = (usual - model.tank.tap.mg_per_l(ion).high).max(0.0) / f64::from(Cycle::DRIFT_DAYS);
            model.dose(part).bound(&mut model.problem, &name, f64::NEG_INFINITY, room);
        }
    }
}

/// Highest level that the waters bring by themselves at their highest, nothing taken up.
fn tap_alone(model: &Model, part: Part) -> f64 {
    let marks = model.marks(part, End::Highest, 0.0);
    marks.high.iter().map(|mark| mark.at(&model.nothing_given())).fold(0.0, f64::max)
}

/// With invertebrates, products that are owned and bring iron but whose copper kept them out.
pub(super) fn copper_left_out(tank: &Tank, candidates: &[Candidate], doses: &[Dose]) -> Vec<LeftOut> {
    if !tank.animals.invertebrates() || !changes(tank) {
        return Vec::new();
    }
    let limit = book().harm.limit.copper_ask_mg_per_l.value();
    let tap = tank.tap.mg_per_l(Ion::Copper).high + tank.pipes_copper_mg_per_l.high;
    let iron = levels::bands(tank).get(&Ion::Iron).map_or(0.0, |band| band.0);
    let kept_out = |candidate: &&Candidate| {
        candidate.owned
            && candidate.copper_mg > 0.0
            && candidate.mg(Ion::Iron) > 0.0
            && doses.iter().all(|dose| dose.product != candidate.key)
    };
    let note = |candidate: &Candidate| {
        let adds = iron * candidate.copper_mg / candidate.mg(Ion::Iron);
        let reason = Reason::Copper { tap, adds, limit };
        (tap + adds > limit).then(|| LeftOut { subject: Subject::Product(candidate.key.clone()), reason })
    };
    candidates.iter().filter(kept_out).filter_map(note).collect()
}

/// Copper of the tap, the pipes and the trace mix together, with invertebrates; nothing taken up.
fn copper(model: &mut Model) -> Vec<(usize, f64)> {
    if !model.tank.animals.invertebrates() {
        return Vec::new();
    }
    let limit = book().harm.limit.copper_ask_mg_per_l.value();
    let mg = |candidate: &Candidate| candidate.copper_mg / 1000.0;
    let dose =
        model.daily.iter().zip(model.candidates).fold(Line::default(), |line, (column, candidate)| match column {
            Some(column) => line.plus(mg(candidate), &Line::column(*column, 1.0)),
            None => line,
        });
    let part = Part::Ion(Ion::Copper);
    if !changes(model.tank) {
        // Nothing takes copper out: no dose of it.
        dose.bound(&mut model.problem, "harm: copper a day", f64::NEG_INFINITY, 0.0);
        return Vec::new();
    }
    let (x, n) = (model.tank.habits.change_share.value, f64::from(model.tank.habits.every_days));
    let gained = n * End::Highest.of(part.top_up(model.tank)) / x;
    // Low-mineral water never stood in the pipes; and a guess about them calls for none.
    let pipes = model.tank.pipes_copper_mg_per_l;
    let from_tap = Line::constant(1.0).plus(-1.0, &Line::column(model.low_share, 1.0));
    let bare = model.new_water(part, End::Highest).and(gained);
    let told = if pipes.kind == Kind::Assumed { 0.0 } else { pipes.high };
    let over = model.problem.amount("copper over the limit", 0.0, f64::INFINITY);
    // In units of the limit, so that the solver's tolerance is a share of it.
    bare.clone().plus(told, &from_tap).times(1.0 / limit).plus(-1.0, &Line::column(over, 1.0)).bound(
        &mut model.problem,
        "harm: copper of the waters",
        f64::NEG_INFINITY,
        1.0,
    );
    let waters = bare.plus(pipes.high, &from_tap);
    let most = waters.at(&model.nothing_given()).max(limit);
    let all = waters.times(1.0 / limit).plus(n / x / limit, &dose);
    all.bound(&mut model.problem, "harm: copper", f64::NEG_INFINITY, most / limit);
    if most > limit {
        dose.bound(&mut model.problem, "harm: no copper more", f64::NEG_INFINITY, 0.0);
    }
    vec![(over, 1.0)]
}
