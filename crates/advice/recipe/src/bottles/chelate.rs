//! Whether an iron chelate holds its iron at the tank's pH, and what is said of it.
//!
//! What: a chelate holds where its `holds_to_ph` is at or above the upper end of the tank's pH. The choice leaves out those
//! that let go while another holds; where none does, or the keeper's own is used, the sentence says what follows.
//! Source: Norvell 1972, from memory (source key `norvell_1972`), for soils.

use knowledge::Product;
use quantity::Known;

use crate::plan::Note;
use crate::say::Pen;

/// The pH up to which a chelate holds its iron.
pub(crate) fn holds_to(product: &Product) -> Option<f64> {
    product.holds_to_ph.as_ref().map(|ph| ph.value)
}

/// What is said about a chelate in a tank of this pH.
pub(crate) fn say(pen: &Pen, product: &Product, ph: Known<f64>) -> Option<Note> {
    if product.weak_iron {
        return Some(Note {
            about: product.key.clone(),
            text: format!(
                "{} holds its iron weakly: at pH {} to {} most of it falls out within hours, so plants get it only where it is given often. A chelate lasts longer.",
                crate::say::capital(&product.name),
                pen.n(ph.low, 2),
                pen.n(ph.high, 2)
            ),
            key: None,
        });
    }
    let holds = holds_to(product)?;
    let text = if holds >= ph.high {
        format!(
            "{} holds its iron up to about pH {}; your tank stands at {} to {}.",
            crate::say::capital(&product.name),
            pen.n(holds, 2),
            pen.n(ph.low, 2),
            pen.n(ph.high, 2)
        )
    } else {
        format!(
            "{} holds its iron up to about pH {}, and your tank stands at {} to {}: iron leaves it within days to weeks. \
             That is why a little is given every day.",
            crate::say::capital(&product.name),
            pen.n(holds, 2),
            pen.n(ph.low, 2),
            pen.n(ph.high, 2)
        )
    };
    Some(Note { about: product.key.clone(), text, key: None })
}
