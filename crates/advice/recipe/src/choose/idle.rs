//! What is owned and not used, and why: what is owned goes first, so it is idle only where it would spare no other product.

use knowledge::book;
use quantity::Ion;

use super::model::{End, Model, changes};
use super::part::Part;
use super::products::Candidate;
use super::wishes::Wish;
use super::{LeftOut, Reason, Subject};
use crate::plan::Dose;

/// Notes of all products that are owned, may be used, and are not; none of those already told.
pub(super) fn notes(model: &Model, wishes: &[Wish], doses: &[Dose], told: &[LeftOut]) -> Vec<LeftOut> {
    let used = |key: &str| doses.iter().any(|dose| dose.product == key);
    let said = |key: &str| told.iter().any(|left| left.subject == Subject::Product(key.to_owned()));
    let all = model.candidates.iter().enumerate();
    all.filter(|(_, candidate)| candidate.owned && !used(&candidate.key) && !said(&candidate.key))
        .map(|(i, candidate)| LeftOut {
            subject: Subject::Product(candidate.key.clone()),
            reason: reason(model, wishes, i, candidate),
        })
        .collect()
}

fn reason(model: &Model, wishes: &[Wish], i: usize, candidate: &Candidate) -> Reason {
    let column = |columns: &[Option<usize>]| columns.get(i).copied().flatten();
    let (Some(column), true) = (column(&model.daily).or(column(&model.added)), changes(model.tank)) else {
        return Reason::SparesNothing;
    };
    let with = |amount: f64| {
        let mut point = model.nothing_given();
        point.get_mut(column).into_iter().for_each(|value| *value = amount);
        point
    };
    let lowest = |wish: &Wish, amount: f64| {
        let marks = model.marks(wish.part, End::Lowest, wish.part.uptake(model.tank).value).low;
        marks.iter().map(|mark| mark.at(&with(amount))).fold(f64::INFINITY, f64::min)
    };
    // How much of it lifts a level that is short to the lower edge of its band.
    let lacking = wishes.iter().filter(|wish| !wish.covered && wish.part.in_product(candidate) > 0.0);
    let lacking = lacking.filter_map(|wish| {
        let bare = lowest(wish, 0.0);
        let amount = (wish.band.0 - bare) / (lowest(wish, 1.0) - bare);
        (amount > 1e-9 && amount.is_finite()).then_some((wish.part, amount))
    });
    let Some((needed, amount)) = lacking.min_by(|a, b| a.1.total_cmp(&b.1)) else { return Reason::NotLacking };
    let too_much = Ion::ALL.into_iter().filter(|ion| candidate.mg(*ion) > 0.0).filter_map(|ion| {
        let wish = wishes.iter().find(|wish| wish.part == Part::Ion(ion));
        let uptake = wish.map_or(0.0, |wish| wish.part.uptake(model.tank).value);
        let marks = model.marks(Part::Ion(ion), End::Highest, uptake).high;
        let highest = |amount: f64| marks.iter().map(|mark| mark.at(&with(amount))).fold(0.0, f64::max);
        let usual = || book().bound(ion.name()).map(|row| row.is.usual_high);
        let most = wish.map(|wish| wish.band.1).or_else(usual)?.max(highest(0.0));
        let comes_to = highest(amount);
        (comes_to > most * (1.0 + 1e-6)).then_some((ion, comes_to, most))
    });
    match too_much.max_by(|a, b| (a.1 / a.2).total_cmp(&(b.1 / b.2))) {
        Some((ion, comes_to, most)) => Reason::TooMuchAlong { needed: needed.name().to_owned(), ion, comes_to, most },
        None if candidate.alkalinity_meq > 0.0 => Reason::RaisesAlkalinity,
        None => Reason::SparesNothing,
    }
}
