//! "May I buy this here?" for each product of the plan.

use std::collections::BTreeSet;

use crate::desk::Desk;
use crate::plan::Note;
use crate::say::capital;

/// A note for each product, in the order of its key.
pub(crate) fn law(desk: &Desk, products: &BTreeSet<String>) -> Vec<Note> {
    let place = desk.place();
    products
        .iter()
        .filter_map(|key| desk.product(key))
        .map(|product| {
            let answer = desk.book.may_buy(place, product);
            Note {
                about: product.key.clone(),
                text: format!("{}, in {}: {}", capital(&product.name), place.words(), answer.say),
                key: None,
            }
        })
        .collect()
}
