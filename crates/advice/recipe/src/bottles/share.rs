//! Which products stand together: as few bottles as the pairs that clash and the solubility allow.
//!
//! What: every way of sharing out is tried, product by product; the first with the fewest bottles is kept, so the
//! same products always give the same bottles. With the handful of products of a recipe this is a few hundred tries.

use knowledge::{Book, Product};

/// A product that wants into a bottle.
#[derive(Clone, Copy)]
pub(crate) struct Guest {
    /// The product.
    pub product: &'static Product,
    /// g/L in the bottle ÷ g/L that may be dissolved: 1 fills the bottle.
    pub fullness: f64,
}

/// Above this many products the first arrangement found is kept instead of the best.
const TRIED_MOST: usize = 9;

/// Bottles as lists of places in `guests`. Guests that are too full alone get a bottle each.
pub(crate) fn share(book: &Book, guests: &[Guest]) -> Vec<Vec<usize>> {
    let mut best = None;
    place(book, guests, &mut Vec::new(), 0, &mut best);
    best.unwrap_or_default()
}

fn place(
    book: &Book,
    guests: &[Guest],
    bottles: &mut Vec<Vec<usize>>,
    next: usize,
    best: &mut Option<Vec<Vec<usize>>>,
) {
    let found = best.as_ref().map_or(usize::MAX, Vec::len);
    if bottles.len() >= found || (guests.len() > TRIED_MOST && best.is_some()) {
        return;
    }
    let Some(guest) = guests.get(next) else {
        *best = Some(bottles.clone());
        return;
    };
    for i in 0..bottles.len() {
        let Some(bottle) = bottles.get(i) else { continue };
        let inside = bottle.iter().filter_map(|&g| guests.get(g));
        let full = inside.clone().map(|g| g.fullness).sum::<f64>() + guest.fullness;
        let products: Vec<&Product> = inside.map(|g| g.product).chain([guest.product]).collect();
        if full <= 1.0 && book.may_share(&products).is_ok() {
            if let Some(bottle) = bottles.get_mut(i) {
                bottle.push(next);
            }
            place(book, guests, bottles, next + 1, best);
            if let Some(bottle) = bottles.get_mut(i) {
                bottle.pop();
            }
        }
    }
    bottles.push(vec![next]);
    place(book, guests, bottles, next + 1, best);
    bottles.pop();
}
