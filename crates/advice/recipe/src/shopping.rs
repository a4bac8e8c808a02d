//! What to buy, how long a pack lasts, and what it costs a month.
//!
//! What: a month's cost = price ÷ (pack ÷ use a day) × 365.25/12 days; a bottle that must be poured out before it is
//! empty uses up what was weighed into it.
//! Symbols: g, g a day, minor units of the keeper's money.
//! Source: prices and packs are assumed until the keeper's own are known (`data/products.toml`).
//! Checked by: `tests/by_hand_bottles.rs`.

use std::collections::BTreeMap;

use quantity::{Ion, Kind, Known};

use crate::bottles::DAYS_A_MONTH;
use crate::desk::Desk;
use crate::plan::{Bottle, Change, NewWater, Plan, Purchase};

/// The list, in the order of the keys.
pub(crate) fn shopping(desk: &Desk, bottles: &[Bottle], change: &Change, new_water: &NewWater) -> Vec<Purchase> {
    let mut grams_a_day: BTreeMap<&str, f64> = BTreeMap::new();
    for bottle in bottles.iter().filter(|b| b.lasts_days > 0.0) {
        let direct = bottle.weighed.iter().map(|w| (w.product.as_str(), w.grams));
        let stocks = bottle.from_stock.iter().map(|s| (s.product.as_str(), s.stock_g));
        for (product, grams) in direct.chain(stocks) {
            *grams_a_day.entry(product).or_default() += grams / bottle.lasts_days;
        }
    }
    if change.every_days > 0 {
        for salt in &new_water.salts {
            *grams_a_day.entry(salt.product.as_str()).or_default() +=
                salt.grams_a_change / f64::from(change.every_days);
        }
    }
    if let Some(conditioner) = new_water.conditioner.as_ref().filter(|c| c.stock_g > 0.0) {
        *grams_a_day.entry("sodium_thiosulfate").or_default() += conditioner_a_day(desk, conditioner, change);
    }
    grams_a_day.into_iter().filter_map(|(key, grams)| purchase(desk, key, grams)).collect()
}

/// A stock is used up by the changes or poured out when it is old, whichever is sooner.
fn conditioner_a_day(desk: &Desk, c: &crate::plan::Conditioner, change: &Change) -> f64 {
    let ml_a_day = match change.every_days {
        0 => 0.0,
        days => c.ml_a_bucket * f64::from(change.buckets.0) / f64::from(days),
    };
    let keeps = desk.book.defaults.conditioner_keeps_days.value;
    let lasts = if ml_a_day > 0.0 { (c.stock_ml / ml_a_day).min(keeps) } else { keeps };
    c.stock_g / lasts
}

fn purchase(desk: &Desk, key: &str, grams_a_day: f64) -> Option<Purchase> {
    let product = desk.product(key)?;
    let told = desk.tank.prices.get(key).map(|cents| Known::exact(*cents, Kind::Measured));
    let price = told.unwrap_or_else(|| product.pack.price_cents.known());
    let lasts = (grams_a_day > 0.0).then(|| product.pack.mass_g / grams_a_day);
    Some(Purchase {
        product: key.to_owned(),
        name: format!("{}, {} g", product.name, desk.pen.n(product.pack.mass_g, 4)),
        price_minor: price,
        lasts_days: lasts,
        a_month_minor: lasts.map_or(0.0, |days| price.value * DAYS_A_MONTH / days),
        owned: desk.tank.at_hand.products.iter().any(|own| own == key),
    })
}

const DAYS_A_YEAR: f64 = 365.25;

impl Purchase {
    /// Days that a pack lasts, at most the years after which it outlasts most tanks, and whether it lasts longer; `None`: a tool.
    pub fn lasts(&self) -> Option<(f64, bool)> {
        let most = DAYS_A_YEAR * knowledge::book().recipe.worth.pack_years.value;
        self.lasts_days.map(|days| (days.min(most), days > most))
    }
}

/// Packs that last longer than a tank is kept, in a sentence; `None`: there is none that is not owned.
pub fn to_share(plan: &Plan) -> Option<String> {
    let outlasts = |purchase: &&Purchase| !purchase.owned && purchase.lasts().is_some_and(|(_, longer)| longer);
    let names: Vec<String> = plan.shopping.iter().filter(outlasts).map(|purchase| purchase.name.clone()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "{}: the smallest pack sold lasts longer than you will keep a tank. Ask somebody to share one, in its own labelled vessel.",
            crate::say::capital(&crate::say::list(&names))
        )
    })
}

/// What of the list may wait, a sentence for each: products that bring nothing but what the tap may bring enough of, which
/// nobody measured.
pub fn may_wait(plan: &Plan) -> Vec<String> {
    let unmeasured = |ion: Ion| {
        let assumed = plan.levels.iter().any(|level| level.ion == Some(ion) && level.new_water.kind == Kind::Assumed);
        assumed && plan.unmet.iter().any(|unmet| unmet.ion == Some(ion))
    };
    let waits = |purchase: &Purchase| {
        let doses = plan.doses.iter().filter(|dose| dose.product == purchase.product);
        let brings: Vec<Ion> =
            doses.flat_map(|dose| &dose.brings).filter(|(_, mg)| *mg > 0.0).map(|(ion, _)| *ion).collect();
        let first = brings.first().filter(|_| !purchase.owned && brings.iter().all(|ion| unmeasured(*ion)))?;
        Some(format!(
            "{} may wait: nobody has measured {} in your tap, and it may bring enough. Ask your supplier or test it once, and buy and weigh it if it is short.",
            crate::say::capital(&purchase.name),
            first.name()
        ))
    };
    plan.shopping.iter().filter_map(waits).collect()
}
