//! Which products may be used for this tank, and what each brings.

use std::collections::BTreeMap;

use knowledge::{Place, Product, Role, Verdict, Where, book};
use quantity::Ion;
use setup::{OwnProduct, Tank};

use super::{LeftOut, Reason, Subject};
use crate::bottles::chelate;
use crate::levels;

/// Key of the trace mix, whose copper the keeper may have read from its label.
const TRACE_MIX: &str = "trace_mix";

/// A product that may be used. Amounts are in its unit: g, or mL of a liquid.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Candidate {
    /// Key, or the keeper's name for it.
    pub key: String,
    pub name: String,
    pub owned: bool,
    pub liquid: bool,
    /// mg of each ion in a unit.
    pub mg: BTreeMap<Ion, f64>,
    /// mg of copper in a unit, at the bad end.
    pub copper_mg: f64,
    /// meq of alkalinity in a unit.
    pub alkalinity_meq: f64,
    /// It may go into a bottle, and from there into the tank every day.
    pub bottle: bool,
    /// It may go into the new water; at most so many g in a litre dissolve there.
    pub new_water: Option<f64>,
    /// Major units of money for a unit, and for the packet that must be bought; 0 for the keeper's own.
    pub price: f64,
    pub packet: f64,
}

impl Candidate {
    /// mg of an ion in a unit.
    pub fn mg(&self, ion: Ion) -> f64 {
        self.mg.get(&ion).copied().unwrap_or(0.0)
    }
}

/// All candidates in the order of the product table (the keeper's own behind it), and what was left out that the keeper
/// owns or that law or harm forbids.
pub(super) fn candidates(tank: &Tank, ph: Option<f64>) -> (Vec<Candidate>, Vec<LeftOut>) {
    let mut left_out = Vec::new();
    let mut list = Vec::new();
    // Iron that lets go at this pH is passed over where another holds it. What is owned stays: given every day its loss is a
    // rate and no wall, and the sentence about it says so.
    let holds = |product: &Product| {
        !product.is(Role::Trace) || (!product.weak_iron && ph.is_none_or(|ph| chelate::holds(product, ph)))
    };
    let traces_hold = book().with_role(Role::Trace).any(holds);
    for product in book().products.values().filter(|product| useful(product)) {
        let owned = tank.at_hand.products.contains(&product.key);
        if !owned && (traces_hold && !holds(product) || bought_copper(tank, product)) {
            continue;
        }
        match forbidden(tank, product) {
            Some(reason) if owned || matches!(reason, Reason::Law { .. }) => {
                left_out.push(LeftOut { subject: Subject::Product(product.key.clone()), reason });
            }
            Some(_) => {}
            None => list.push(from_table(tank, product, owned)),
        }
    }
    for own in &tank.at_hand.own {
        match own_forbidden(tank, own) {
            Some(reason) => left_out.push(LeftOut { subject: Subject::Product(own.name.clone()), reason }),
            None => list.push(from_label(own)),
        }
    }
    (list, left_out)
}

/// It feeds, or raises hardness or alkalinity.
fn useful(product: &Product) -> bool {
    [Role::Feed, Role::Hardness, Role::Alkalinity, Role::Trace].iter().any(|&role| product.is(role))
}

/// It brings copper to shrimps or snails, and iron alone is as well bought: iron chelate goes before (harm rule 4). What is owned may
/// be used up, under the limit and with what it piles up to (`copper.rs`).
fn bought_copper(tank: &Tank, product: &Product) -> bool {
    tank.animals.invertebrates() && product.mg_per_g_high(Ion::Copper) > 0.0
}

/// Why a product of the table may not be used for this tank at all.
fn forbidden(tank: &Tank, product: &Product) -> Option<Reason> {
    if tank.animals.any() {
        if let Some(why) = &product.never_with_animals {
            return Some(Reason::NeverWithAnimals { why: why.clone() });
        }
        // Carbonate without the carbon dioxide that would make it bicarbonate raises pH at once.
        if product.is(Role::Alkalinity) && product.alkalinity_meq_per_g() > 1.001 * product.dic_mmol_per_g() {
            return Some(Reason::RaisesPh);
        }
    }
    let purchase = book().may_buy(Place::of(&tank.country), product);
    matches!(purchase.verdict, Verdict::Licence | Verdict::Refused).then_some(Reason::Law { say: purchase.say })
}

fn from_table(tank: &Tank, product: &Product, owned: bool) -> Candidate {
    let assay = product.assay();
    let mut mg: BTreeMap<Ion, f64> = product.ions().map(|ion| (ion, assay * product.mg_per_g(ion))).collect();
    let mut copper = product.mg_per_g_high(Ion::Copper);
    if product.key == TRACE_MIX {
        copper = 1000.0 * tank.at_hand.trace_copper.high;
        mg.insert(Ion::Copper, 1000.0 * tank.at_hand.trace_copper.value);
    }
    let price = tank.prices.get(&product.key).copied().unwrap_or(product.pack.price_cents.value) / 100.0;
    // Nitrate belongs into the bottle: it follows the plants, and the new water follows the tap.
    let treats_water =
        (product.is(Role::Hardness) || product.is(Role::Alkalinity)) && product.mg_per_g(Ion::Nitrate) <= 0.0;
    let treats_water = treats_water && !(product.alkalinity_meq_per_g() > 0.0 && alkaline(tank));
    let dissolves = || book().stock_limit_g_per_l(product, tank.tap.temperature_c.low);
    Candidate {
        key: product.key.clone(),
        name: product.name.clone(),
        owned,
        liquid: false,
        mg,
        copper_mg: copper,
        alkalinity_meq: assay * product.alkalinity_meq_per_g(),
        bottle: product.goes == Where::Bottle && (product.is(Role::Feed) || product.is(Role::Trace)),
        new_water: if treats_water { dissolves() } else { None },
        price: if product.pack.mass_g > 0.0 { price / product.pack.mass_g } else { 0.0 },
        packet: if owned { 0.0 } else { price },
    }
}

/// The tap is so alkaline, before a change too, that nothing is given that raises its pH further; a wish of the keeper's own for
/// alkalinity, and a share of low-mineral water that is still open, go before.
fn alkaline(tank: &Tank) -> bool {
    if tank.wish.alkalinity_meq_per_l.is_some() || (tank.low.is_some() && tank.low_share.is_none()) {
        return false;
    }
    let level = levels::alkalinity(tank, 0.0, 0.0, tank.low_share.unwrap_or(0.0));
    level.before_change.low.min(level.new_water.low) >= book().recipe.worth.alkaline_meq_per_l.value
}

/// Why one of the keeper's own may not be used.
fn own_forbidden(tank: &Tank, own: &OwnProduct) -> Option<Reason> {
    let brings = own.ions_mg.get(&Ion::Ammonium).is_some_and(|&mg| mg > 0.0);
    (brings && tank.animals.any()).then(|| Reason::NeverWithAnimals {
        why: "its label names ammonium, which turns into ammonia as pH rises".to_owned(),
    })
}

fn from_label(own: &OwnProduct) -> Candidate {
    let mg: BTreeMap<Ion, f64> = own.ions_mg.iter().map(|(&ion, &mg)| (ion, mg.max(0.0))).collect();
    Candidate {
        key: own.name.clone(),
        name: own.name.clone(),
        owned: true,
        liquid: own.liquid,
        copper_mg: mg.get(&Ion::Copper).copied().unwrap_or(0.0),
        mg,
        alkalinity_meq: 0.0,
        bottle: true,
        new_water: None,
        price: 0.0,
        packet: 0.0,
    }
}
