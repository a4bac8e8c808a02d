//! The keeper's own products: a liquid straight from its bottle, a powder into a bottle of its own.
//!
//! What dissolves of an own powder, and what it clashes with, no label says: it counts as the least soluble salt of the
//! table that goes into bottles, and shares with nothing.

use knowledge::Where;

use crate::bottles::slip::{ceilings, slip};
use crate::bottles::weigh::Tools;
use crate::bottles::{Bottled, Item, MORNING, scaled, thinner};
use crate::desk::Desk;
use crate::plan::{Bottle, Dose, Note};
use crate::say::capital;

/// What stands on the bottle of an own powder.
pub(super) const ALONE: &str = "Alone in its bottle: its label does not say what it clashes with. Shake; if some stays at the \
                                bottom, pour it out and halve the grams and the days.";

/// The keeper's own product: a liquid is done with, a powder wants a bottle.
pub(super) fn own<'a>(desk: &Desk, tools: &Tools, dose: &'a Dose, out: &mut Bottled) -> Option<Item<'a>> {
    let powder = desk.tank.at_hand.own.iter().any(|own| own.name == dose.product && !own.liquid);
    if powder {
        return self::powder(desk, tools, dose, out);
    }
    liquid(desk, tools, dose, out);
    None
}

/// The keeper's own liquid, straight from its bottle.
fn liquid(desk: &Desk, tools: &Tools, dose: &Dose, out: &mut Bottled) {
    let daily_ml = tools.on_syringe(dose.amount).max(tools.syringe_ml);
    let given = scaled(dose, daily_ml / dose.amount);
    let slip = slip(desk, tools, &dose.name, daily_ml, &ceilings(desk, &given.brings, 0.0));
    out.bottles.push(Bottle {
        name: capital(&dose.name),
        volume_ml: 0.0,
        daily_ml,
        lasts_days: 0.0,
        weighed: Vec::new(),
        from_stock: Vec::new(),
        time_of_day: MORNING.to_owned(),
        handling: vec![
            "Straight from its own bottle, by the syringe and not by its cap; nothing is mixed in.".to_owned(),
        ],
        hazards: Vec::new(),
        slip: slip.text,
        ask_above_ml: slip.ask_above_ml,
        refuse_above_ml: slip.refuse_above_ml,
    });
    out.doses.push(given);
}

/// g/L that an own powder is counted to dissolve to.
fn least_soluble(desk: &Desk) -> f64 {
    let cold = desk.tank.at_hand.coldest_room_c.low;
    let bottled = desk.book.products.values().filter(|p| p.goes == Where::Bottle);
    bottled.filter_map(|p| desk.book.stock_limit_g_per_l(p, cold)).fold(f64::INFINITY, f64::min)
}

/// An own powder on its way into its bottle: more millilitres a day from a thinner bottle, as for a salt of the table.
fn powder<'a>(desk: &Desk, tools: &Tools, dose: &'a Dose, out: &mut Bottled) -> Option<Item<'a>> {
    let limit_g_per_l = least_soluble(desk);
    let daily_ml = thinner(desk, tools).find(|ml| dose.amount / ml * 1000.0 <= limit_g_per_l);
    if daily_ml.is_none() {
        let text = format!(
            "{}: {} g a day would be needed, and I can't tell that so much of it dissolves. I left it out.",
            capital(&dose.name),
            desk.pen.n(dose.amount, 2)
        );
        out.notes.push(Note { about: dose.product.clone(), text, key: None });
    }
    daily_ml.map(|daily_ml| Item { dose, product: None, limit_g_per_l, daily_ml })
}
