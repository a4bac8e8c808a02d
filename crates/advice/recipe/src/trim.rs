//! The choice, trimmed before it is weighed: iron that holds at the tank's pH, nothing that no kit would show, no more in a
//! day than its ceiling.
//!
//! What: a dose D of which a cycle of n days with a share x of change comes to at most D n ÷ x lifts a level by that; where
//! this is less than a tenth of the lower edge of every band that it feeds, it is left out.
//! Checked by: `tests/harm.rs`, `tests/by_hand_bottles.rs`.

use knowledge::Role;
use quantity::{Ion, Known};

use crate::bottles::chelate;
use crate::desk::Desk;
use crate::levels;
use crate::plan::{Dose, Into, Level, Note};
use crate::say::capital;

/// What was trimmed.
#[derive(Debug, Default)]
pub(crate) struct Trimmed {
    /// What was cut to its ceiling.
    pub cut: Vec<Note>,
    /// What no kit would show, and the ions that it feeds.
    pub unseen: Vec<(Vec<Ion>, Note)>,
}

/// Trim the doses; what is said of it.
pub(crate) fn trim(desk: &Desk, doses: &mut Vec<Dose>, ph: Option<Known<f64>>) -> Trimmed {
    let mut out = Trimmed::default();
    for dose in doses.iter_mut() {
        ph.and_then(|ph| hold_iron(desk, dose, ph));
    }
    nothing_unseen(desk, doses, &mut out.unseen);
    ceilings_hold(desk, doses, &mut out.cut);
    out
}

impl Trimmed {
    /// A level stays short of its band for want of a dose that no kit would show: the note of that dose says so.
    pub fn tells(&self, ion: Ion) -> bool {
        self.unseen.iter().any(|(ions, _)| ions.contains(&ion))
    }

    /// The notes, but for a dose whose levels all stand in their bands without it: that each has enough is said of it.
    pub fn notes(self, levels: &[Level]) -> Vec<Note> {
        let enough = |ion: &Ion| {
            let level = levels.iter().find(|level| level.ion == Some(*ion));
            level.is_some_and(|level| level.band.is_none_or(|band| level.lowest >= band.0))
        };
        let unseen = self.unseen.into_iter().filter(|(ions, _)| !ions.iter().all(enough));
        self.cut.into_iter().chain(unseen.map(|(_, note)| note)).collect()
    }
}

/// An iron product that is not owned and lets go of its iron at this pH gives way to a chelate that holds it; its label
/// then says up to which pH. `None`: nothing to do.
fn hold_iron(desk: &Desk, dose: &mut Dose, ph: Known<f64>) -> Option<()> {
    let product = desk.product(&dose.product).filter(|p| p.is(Role::Trace) && !dose.owned)?;
    let iron = dose.brings.iter().find(|(ion, mg)| *ion == Ion::Iron && *mg > 0.0)?.1;
    let lets_go = !chelate::holds(product, ph.high) && dose.brings.len() == 1;
    let better = chelate::best(desk, ph.high).filter(|better| lets_go && better.key != product.key)?;
    dose.amount = iron * desk.tank.geometry.true_l.value / (better.mg_per_g(Ion::Iron) * better.assay());
    dose.product.clone_from(&better.key);
    dose.name.clone_from(&better.name);
    Some(())
}

/// Bottle doses that would lift no level so far that a kit shows it.
fn nothing_unseen(desk: &Desk, doses: &mut Vec<Dose>, notes: &mut Vec<(Vec<Ion>, Note)>) {
    let habits = &desk.tank.habits;
    let (share, days) = (habits.change_share.value, f64::from(habits.every_days));
    let bands = levels::bands(desk.tank);
    let shown = desk.book.recipe.worth.shown_share.value;
    if share * days <= 0.0 {
        return;
    }
    let stirred: Vec<String> =
        doses.iter().filter(|dose| dose.into == Into::NewWater).map(|dose| dose.product.clone()).collect();
    doses.retain(|dose| {
        let lifts = |(ion, mg): &(Ion, f64)| bands.get(ion).map(|band| (*ion, mg * days / share, band.0));
        let fed: Vec<(Ion, f64, f64)> = dose.brings.iter().filter_map(lifts).collect();
        let unseen = dose.into == Into::Bottle && !fed.is_empty() && fed.iter().all(|(_, by, low)| *by < shown * low);
        let most = fed.iter().max_by(|a, b| (a.1 / a.2).total_cmp(&(b.1 / b.2)));
        // The same product stands in the new water: then nothing was left out.
        if let (true, Some((ion, by, _)), false) = (unseen, most, stirred.contains(&dose.product)) {
            let note = Note {
                about: dose.product.clone(),
                text: format!(
                    "{}: {} would rise by {} at the most, which no kit shows. Not worth a bottle.",
                    capital(&dose.name),
                    ion.name(),
                    desk.pen.ion(*ion, *by)
                ),
                key: None,
            };
            notes.push((fed.iter().map(|(ion, ..)| *ion).collect(), note));
        }
        !unseen
    });
}

/// No bottle brings more in a day than its ceiling: a dose that would is cut, and that is said.
fn ceilings_hold(desk: &Desk, doses: &mut [Dose], notes: &mut Vec<Note>) {
    let limit = &desk.book.harm.limit;
    let rows = [
        (Ion::Nitrate, &limit.nitrate_step_mg_per_l),
        (Ion::Potassium, &limit.potassium_step_mg_per_l),
        (Ion::Phosphate, &limit.phosphate_step_mg_per_l),
        (Ion::Iron, &limit.iron_step_mg_per_l),
    ];
    for (ion, row) in rows {
        let brings = |d: &Dose| d.brings.iter().filter(|(i, _)| *i == ion).map(|(_, mg)| *mg).sum::<f64>();
        let bottle = |d: &Dose| d.into == Into::Bottle;
        let all: f64 = doses.iter().filter(|d| bottle(d)).map(brings).sum();
        if all <= row.value() {
            continue;
        }
        let factor = row.value() / all;
        for dose in doses.iter_mut().filter(|d| bottle(d) && brings(d) > 0.0) {
            dose.amount *= factor;
            dose.brings.iter_mut().for_each(|(_, mg)| *mg *= factor);
        }
        notes.push(Note {
            about: ion.name().to_owned(),
            text: format!(
                "{}: {} mg/L a day would be needed; {} I cut the dose to that.",
                capital(ion.name()),
                desk.pen.n(all, 2),
                row.say
            ),
            key: None,
        });
    }
}
