//! Whether an iron chelate holds its iron at the tank's pH, and what is said of it.
//!
//! What: a chelate holds where its `holds_to_ph` is at or above the upper end of the tank's pH. What lets go gives way to what
//! holds (`trim`), but for what is owned; where none holds, or the keeper's own is used, the sentence says what follows.
//! Source: Norvell 1972, from memory (source key `norvell_1972`), for soils.

use crate::desk::Desk;
use knowledge::{Product, Role};
use quantity::{Ion, Known};

use crate::plan::Note;
use crate::say::Pen;

/// The pH up to which a chelate holds its iron.
pub(crate) fn holds_to(product: &Product) -> Option<f64> {
    product.holds_to_ph.as_ref().map(|ph| ph.value)
}

/// It holds its iron up to this pH. Iron that is held weakly, or of which nothing is known, does not count as held.
pub(crate) fn holds(product: &Product, ph: f64) -> bool {
    !product.weak_iron && holds_to(product).is_some_and(|to| to >= ph)
}

/// The chelate for this pH: the keeper's own kind if it holds, else the one that holds whose iron costs least; where none
/// does, the one that holds longest.
pub(crate) fn best(desk: &Desk, ph: f64) -> Option<&'static Product> {
    let chelates = || {
        let traces = desk.book.products.values().filter(|p| p.is(Role::Trace) && holds_to(p).is_some());
        traces.filter(|p| p.ions().all(|ion| ion == Ion::Iron))
    };
    let price = |p: &Product| p.pack.price_cents.value / p.pack.mass_g / p.mg_per_g(Ion::Iron).max(f64::MIN_POSITIVE);
    let own = chelates().find(|p| p.key == desk.tank.at_hand.chelate && holds(p, ph));
    own.or_else(|| chelates().filter(|p| holds(p, ph)).min_by(|a, b| price(a).total_cmp(&price(b))))
        .or_else(|| chelates().max_by(|a, b| holds_to(a).unwrap_or(0.0).total_cmp(&holds_to(b).unwrap_or(0.0))))
}

/// What stands on a bottle of iron that lets go at the upper end of the tank's pH.
pub(crate) fn lets_go(pen: &Pen, product: &Product, ph: Known<f64>) -> Option<Note> {
    say(pen, product, ph).filter(|_| !holds(product, ph.high))
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
