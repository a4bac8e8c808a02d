//! Which salts, and how much of each: the tank put into rows and columns, solved stage after stage.
//!
//! What: few products, in doses that can be weighed, that keep the wished bands over the tap's whole range without
//! passing a limit of harm anywhere in it.
//! Equation: mixed-integer linear programmes; rows in `choose/model.rs` (levels), `choose/harm.rs` (limits),
//! `choose/wishes.rs` (bands); the order of worth in `choose/worth.rs`.
//! Symbols: there.
//! Range: that of `levels/cycle.rs`. Uptake stands at its best estimate in the bands; its likely range is a later stage.
//! Source: preemptive goal programming (source key `charnes_cooper_1961`); branch and bound (`land_doig_1960`).
//! Checked by: `tests/against_highs.rs`, `tests/brute_force_choice.rs`, `tests/by_hand_choice.rs`.

mod answer;
mod harm;
mod idle;
mod line;
mod mend;
mod model;
mod part;
mod products;
mod ramp;
mod wishes;
mod worth;

use quantity::{Ion, Why};
use setup::{Feeding, Tank};

use crate::levels;
use crate::plan::{Dose, Proof, Unmet};
use crate::programme::{Problem, Unsolved};
use line::Line;
use model::Model;
use part::Part;
use products::{Candidate, candidates};
use wishes::Wish;

/// What was chosen.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Choice {
    /// The doses: bottles before new water, each in the order of the product table, the keeper's own behind it.
    pub doses: Vec<Dose>,
    /// Share of low-mineral water in the new water, 0 to 1.
    pub low_share: f64,
    /// Share of the additions (and of `low_share`) that the first changes get, so that no change moves a tank on tap water
    /// with animals further than a day may; empty: the whole of it from the first change on.
    pub ramp: Vec<f64>,
    /// Bands that could not be met.
    pub unmet: Vec<Unmet>,
    /// What was left out, and why.
    pub left_out: Vec<LeftOut>,
    /// What of the search is proved.
    pub proof: Proof,
    /// Why-notes of the doses; the key of a dose is `dose-` and its product, with `-new-water` behind it for new water.
    pub whys: Vec<Why>,
}

/// What something was left out about.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Subject {
    /// An ion.
    Ion(Ion),
    /// A product, by its key or the keeper's name for it.
    Product(String),
    /// Feeding as a whole.
    Feeding,
}

/// Something that was left out.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct LeftOut {
    /// What.
    pub subject: Subject,
    /// Why, with its numbers.
    pub reason: Reason,
}

/// Why something was left out.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reason {
    /// Tap and food alone reach the band, or are over it. Levels in mg/L.
    TapCovers {
        /// The band.
        band: (f64, f64),
        /// Right before and right after a change, without any dose, best estimate.
        settles: (f64, f64),
        /// It is over the band's upper edge.
        exceeds: bool,
        /// A smaller share of change, 0 to 1, at which the highest of the cycle comes down to the band's upper edge: plants
        /// then take more between two changes than a change brings. None where it would not.
        smaller_share: Option<f64>,
        /// Share of low-mineral water that brings it down to there, where such water is at hand and does.
        low_share: Option<f64>,
    },
    /// A soil tank: nothing is dosed.
    SoilTank,
    /// Water is never changed: nothing settles, and the doses replace what is taken.
    NeverChanged,
    /// The wished feeding has no row in this light; the nearest in the same light was taken.
    NearestWish {
        /// Which, in words.
        used: String,
    },
    /// Never with animals.
    NeverWithAnimals {
        /// Why.
        why: String,
    },
    /// It raises pH at once: not with animals.
    RaisesPh,
    /// May not be bought here.
    Law {
        /// The sentence.
        say: String,
    },
    /// With invertebrates, the copper that it would bring with the iron is over the limit together with the tap's, mg/L.
    Copper {
        /// What the tap brings at its highest.
        tap: f64,
        /// What one would add, at the lower edge of the iron band.
        adds: f64,
        /// The limit.
        limit: f64,
    },
    /// Owned: nothing that it brings is short.
    NotLacking,
    /// Owned: so much of it as lifts what is short over the lower edge brings something else over its upper edge, mg/L.
    TooMuchAlong {
        /// What it would be given for.
        needed: String,
        /// What comes along.
        ion: Ion,
        /// To which highest level.
        comes_to: f64,
        /// Upper edge of its band, or what is usual in a tap; what stands there without it, where that is more.
        most: f64,
    },
    /// Owned: it raises alkalinity, and pH with it, where that lacks nothing.
    RaisesAlkalinity,
    /// Owned: it would spare no other product.
    SparesNothing,
    /// The search failed: the solver's words. Nothing is dosed.
    NotSolved {
        /// Why.
        why: String,
    },
}

/// Choose salts and doses for a tank.
pub fn choose(tank: &Tank) -> Choice {
    choose_at(tank, None, true)
}

/// Choose salts and doses for a tank whose aired pH is known to reach `ph`: iron chelates that let go of their iron there
/// are left out, if another holds it and they are not owned. `may_change_more`: a bigger change may be advised; false where
/// a rule of harm limits it.
pub fn choose_at(tank: &Tank, ph: Option<f64>, may_change_more: bool) -> Choice {
    let (candidates, forbidden) = candidates(tank, ph);
    let mut notes = about_feeding(tank);
    notes.extend(forbidden);
    match search(tank, &candidates, may_change_more) {
        Ok(mut choice) => {
            notes.append(&mut choice.left_out);
            choice.left_out = notes;
            choice
        }
        Err(unsolved) => {
            notes.push(LeftOut { subject: Subject::Feeding, reason: Reason::NotSolved { why: unsolved.to_string() } });
            Choice {
                doses: Vec::new(),
                low_share: tank.low_share.unwrap_or(0.0),
                ramp: Vec::new(),
                unmet: Vec::new(),
                left_out: notes,
                proof: Proof::default(),
                whys: Vec::new(),
            }
        }
    }
}

/// Conductivity of ions at infinite dilution, µS/cm at 25 °C, for mg/L by ion and meq/L of alkalinity (see `choose/harm.rs`).
pub(crate) fn us_per_cm(mg_per_l: impl Fn(Ion) -> f64, alkalinity_meq_per_l: f64) -> f64 {
    let ions = harm::conductance(|part| Line::constant(part.ion().map_or(0.0, &mg_per_l)));
    ions.at(&[]) + harm::BICARBONATE_US_PER_CM * alkalinity_meq_per_l
}

/// The programme of a tank before its last stages, with the stages' costs: for whoever wants to solve it elsewhere.
///
/// # Errors
/// As the search.
pub fn programme_of(tank: &Tank) -> Result<(Problem, Vec<crate::programme::Stage>), Unsolved> {
    let (candidates, _) = candidates(tank, None);
    let (mut model, wishes, _) = settled(tank, &candidates)?;
    let (stages, _) = worth::stages(&mut model, &wishes);
    Ok((model.problem, stages))
}

fn about_feeding(tank: &Tank) -> Vec<LeftOut> {
    let note = |reason| LeftOut { subject: Subject::Feeding, reason };
    let mut notes = Vec::new();
    if tank.feeding == Feeding::None {
        notes.push(note(Reason::SoilTank));
    } else if !model::changes(tank) {
        notes.push(note(Reason::NeverChanged));
    }
    if let Some((row, false)) = levels::row(tank) {
        notes.push(note(Reason::NearestWish { used: row.feeding.words().to_owned() }));
    }
    notes
}

/// The model with its first two stages settled.
fn settled<'a>(
    tank: &'a Tank,
    candidates: &'a [Candidate],
) -> Result<(Model<'a>, Vec<Wish>, crate::programme::Stages), Unsolved> {
    let mut model = Model::new(tank, candidates);
    let banded: Vec<Ion> = wishes::wished(tank).into_iter().filter_map(|(part, ..)| part.ion()).collect();
    let harm = harm::rows(&mut model, &banded);
    let wishes = wishes::rows(&mut model);
    let first = worth::settle(&mut model, harm, &wishes)?;
    Ok((model, wishes, first))
}

fn search(tank: &Tank, candidates: &[Candidate], may_change_more: bool) -> Result<Choice, Unsolved> {
    let (mut model, wishes, first) = settled(tank, candidates)?;
    let (last, uses) = worth::pick(&mut model, &wishes)?;
    let values = &last.values;
    let doses = answer::doses(&model, &uses, values);
    let given = |part: Part| model.dose(part).at(values) + model.addition(part).at(values);
    let mut left_out = wishes::left_out(tank, &wishes, given);
    left_out.extend(harm::copper_left_out(tank, candidates, &doses));
    left_out.extend(idle::notes(&model, &wishes, &doses, &left_out));
    let candidate = |dose: &Dose| candidates.iter().find(|candidate| candidate.key == dose.product);
    let whys = doses.iter().filter_map(|dose| Some(answer::why(tank, &wishes, dose, candidate(dose)?))).collect();
    let stages: Vec<_> = first.stages.iter().chain(&last.stages).cloned().collect();
    Ok(Choice {
        low_share: values.get(model.low_share).copied().unwrap_or(0.0),
        ramp: ramp::ramp(&model, values),
        unmet: answer::unmet(&model, &wishes, values, may_change_more),
        left_out,
        proof: Proof { stages: worth::proof(&stages), nodes: stages.iter().map(|stage| stage.nodes).sum() },
        whys,
        doses,
    })
}
