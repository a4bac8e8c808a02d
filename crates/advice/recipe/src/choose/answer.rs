//! From the solved columns back to doses, levels that were not met, and why-notes.

use quantity::number::Digits;
use quantity::{Ion, Kind, Why};
use setup::Tank;

use super::mend::Trial;
use super::model::{End, Marks, Model};
use super::products::Candidate;
use super::wishes::{MET, Wish};
use super::worth::Use;
use crate::plan::{Dose, Into, Unmet};

/// Less than this in a litre, mg or µL, is nothing: the solver's tolerance, not a dose.
const NOTHING: f64 = 1e-6;

/// The doses, bottles before new water, each in the order of the candidates.
pub(super) fn doses(model: &Model, uses: &[Use], values: &[f64]) -> Vec<Dose> {
    let of = |new_water: bool| uses.iter().filter(move |place| place.new_water == new_water);
    let all = of(false).chain(of(true));
    all.filter_map(|place| {
        let per_litre = values.get(place.amount).copied().unwrap_or(0.0);
        let used = values.get(place.used).is_some_and(|&used| used > 0.5);
        let candidate = model.candidates.get(place.candidate)?;
        (used && per_litre > NOTHING).then(|| dose(model.tank, candidate, per_litre, place.new_water))
    })
    .collect()
}

fn dose(tank: &Tank, candidate: &Candidate, per_litre: f64, new_water: bool) -> Dose {
    let litres = if new_water { 1.0 } else { tank.geometry.true_l.value };
    let brings = candidate.mg.iter().filter(|&(_, &mg)| mg > 0.0);
    Dose {
        product: candidate.key.clone(),
        name: candidate.name.clone(),
        into: if new_water { Into::NewWater } else { Into::Bottle },
        amount: per_litre * litres / 1000.0,
        owned: candidate.owned,
        brings: brings.map(|(&ion, &mg)| (ion, mg * per_litre / 1000.0)).collect(),
    }
}

/// Bands that give way, with what is reached over the tap's range, and what would help.
pub(super) fn unmet(model: &Model, wishes: &[Wish], values: &[f64], may_change_more: bool) -> Vec<Unmet> {
    let value = |column: usize| values.get(column).copied().unwrap_or(0.0);
    let broken: Vec<&Wish> = wishes.iter().filter(|wish| value(wish.short) > MET || value(wish.over) > MET).collect();
    let trial = Trial {
        tank: model.tank,
        candidates: model.candidates,
        may_change_more,
        broken: broken.iter().map(|wish| wish.part).collect(),
    };
    broken
        .into_iter()
        .map(|wish| {
            let reached = reached(model, wish, values);
            let text = format!("{} {}", by_how_much(model.tank, wish, reached), trial.mend(wish, reached));
            Unmet { ion: wish.part.ion(), band: wish.band, reached, text }
        })
        .collect()
}

/// Lowest and highest over the tap's range, uptake at its best estimate.
fn reached(model: &Model, wish: &Wish, values: &[f64]) -> (f64, f64) {
    let uptake = wish.part.uptake(model.tank).value;
    let Marks { low, .. } = model.marks(wish.part, End::Lowest, uptake);
    let Marks { high, .. } = model.marks(wish.part, End::Highest, uptake);
    let lowest = low.iter().map(|mark| mark.at(values)).fold(f64::INFINITY, f64::min);
    let highest = high.iter().map(|mark| mark.at(values)).fold(f64::NEG_INFINITY, f64::max);
    if wish.part.ion().is_some() { (lowest.max(0.0), highest.max(0.0)) } else { (lowest, highest) }
}

fn by_how_much(tank: &Tank, wish: &Wish, (lowest, highest): (f64, f64)) -> String {
    let n = |value: f64| tank.units.number(value, Digits::Significant(2));
    let (name, unit, (low, high)) = (wish.part.name(), wish.part.unit(), wish.band);
    if !super::model::changes(tank) {
        return format!(
            "Water is never changed, so {name} goes on rising or falling: the doses that do no harm don't bring just what is taken."
        );
    }
    let mut parts = Vec::new();
    if lowest < low * (1.0 - MET) {
        parts.push(format!("{} {unit} too little at the tap's lowest", n(low - lowest)));
    }
    if highest > high * (1.0 + MET) {
        parts.push(format!("{} {unit} too much at the tap's highest", n(highest - high)));
    }
    format!(
        "Over your tap's year {name} would go from {} to {} {unit}, and {} to {} is wished: {}.",
        n(lowest),
        n(highest),
        n(low),
        n(high),
        parts.join(", ")
    )
}

/// Why a dose is what it is.
pub(super) fn why(tank: &Tank, wishes: &[Wish], dose: &Dose, candidate: &Candidate) -> Why {
    let n = |value: f64| tank.units.number(value, Digits::Significant(3));
    let unit = if candidate.liquid { "mL" } else { "g" };
    let new_water = dose.into == Into::NewWater;
    let key = format!("dose-{}{}", dose.product, if new_water { "-new-water" } else { "" });
    let amount = if new_water {
        format!("{} m{unit} in a litre of new water", n(1000.0 * dose.amount))
    } else {
        format!("{} {unit} a day", n(dose.amount))
    };
    let main = main_ion(wishes, dose);
    let sum = main.map_or_else(String::new, |(ion, mg, _)| {
        let content = format!("{} mg of it in a {unit}", n(candidate.mg(ion)));
        if new_water {
            format!("{} mg/L of {} × 1000 ÷ {content} = {amount}", n(mg), ion.name())
        } else {
            let litres = tank.geometry.true_l.value;
            format!("{} mg/L of {} a day × {} L ÷ {content} = {amount}", n(mg), ion.name(), n(litres))
        }
    });
    let words = match main {
        Some((ion, _, Some((low, high)))) => format!(
            "It keeps {} between {} and {} mg/L from your tap's lowest to its highest, with the fewest products. Where that \
             leaves room, it is the dose with which plants that take more or less than I think stay nearest to that too.",
            ion.name(),
            n(low),
            n(high)
        ),
        _ => "It brings what is wished for the new water, with the fewest products.".to_owned(),
    };
    let sources = vec!["iupac_2022".to_owned()];
    Why { key, question: format!("why {amount} of {}?", dose.name), sum, words, sources, kind: Kind::WorkedOut }
}

/// Lower and upper edge, mg/L.
type Band = (f64, f64);

/// The ion that a dose is given for: the one that it moves most, measured by its band; mg/L and the band.
fn main_ion(wishes: &[Wish], dose: &Dose) -> Option<(Ion, f64, Option<Band>)> {
    let band = |ion: Ion| wishes.iter().find(|wish| wish.part.ion() == Some(ion)).map(|wish| wish.band);
    let middle = |(low, high): (f64, f64)| 0.5 * (low + high);
    let weight = |&(ion, mg): &(Ion, f64)| band(ion).map_or(0.0, |band| mg / middle(band));
    let main = dose.brings.iter().copied().max_by(|a, b| weight(a).total_cmp(&weight(b)));
    main.map(|(ion, mg)| (ion, mg, band(ion)))
}
