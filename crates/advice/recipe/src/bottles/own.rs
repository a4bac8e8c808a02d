//! The keeper's own products: a liquid straight from its bottle, a powder into a bottle of its own.
//!
//! What dissolves of an own powder, and what it clashes with, no label says: it counts as the least soluble salt of the
//! table that goes into bottles, and shares with nothing.

use knowledge::Where;
use quantity::Kind;

use crate::bottles::slip::{ceilings, slip};
use crate::bottles::weigh::Amount;
use crate::bottles::weigh::{Tools, weigh};
use crate::bottles::{Bottled, DAILY_TIMES_MOST, MORNING, NAMELESS, scaled};
use crate::desk::{Desk, why};
use crate::plan::{Bottle, Dose, FromStock, Note, Weighed};
use crate::say::capital;

/// The keeper's own product, liquid or powder.
pub(super) fn own(desk: &Desk, tools: &Tools, dose: &Dose, out: &mut Bottled) {
    let powder = desk.tank.at_hand.own.iter().any(|own| own.name == dose.product && !own.liquid);
    if powder { self::powder(desk, tools, dose, out) } else { liquid(desk, tools, dose, out) }
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

fn powder(desk: &Desk, tools: &Tools, dose: &Dose, out: &mut Bottled) {
    let (hand, pen) = (&desk.tank.at_hand, &desk.pen);
    let (volume_ml, limit) = (hand.bottle_ml.value, least_soluble(desk));
    let usual = tools.on_syringe(hand.daily_ml.value).max(tools.syringe_ml);
    // More millilitres a day from a thinner bottle, as for a salt of the table.
    let thin = (1..=DAILY_TIMES_MOST).map(|times| usual * f64::from(times));
    let daily_ml = thin.into_iter().find(|ml| dose.amount / ml * 1000.0 <= limit).unwrap_or(usual);
    let doses_in = volume_ml / daily_ml;
    let exact_g = dose.amount * doses_in;
    let fits = dose.amount / daily_ml * 1000.0 <= limit;
    let Some(amount) = weigh(tools, exact_g, volume_ml, limit).filter(|_| fits) else {
        out.notes.push(not_weighed(desk, dose, exact_g, volume_ml));
        return;
    };
    let given = scaled(dose, amount.grams() / exact_g);
    let key = desk.why(why(
        format!("bottle-{}", dose.product.replace(' ', "-")),
        format!("why {} g?", pen.n(amount.grams(), 3)),
        format!("{} g a day × {} doses = {} g", pen.n(dose.amount, 4), pen.n(doses_in, 3), pen.n(exact_g, 4)),
        "What it brings is what its label says.".to_owned(),
        &[],
        Kind::WorkedOut,
    ));
    let error_share = amount.error_share() + 0.5 * tools.syringe_ml / daily_ml;
    let (mut weighed, mut from_stock, mut handling) = (Vec::new(), Vec::new(), Vec::new());
    let (product, name) = (dose.product.clone(), dose.name.clone());
    match amount {
        Amount::Direct { grams, .. } => {
            weighed.push(Weighed { product, name, grams, error_share, soluble_g_per_l: limit, why: key });
        }
        Amount::Stock { stock_g, stock_ml, take_ml, grams, .. } => {
            let (weigh, water, take) = (pen.grams(stock_g, tools.scale_g), pen.ml(stock_ml), pen.ml(take_ml));
            let sentence =
                format!("Weigh {weigh} of {name} into {water} of boiled, cooled water, and take {take} of that.");
            handling.push(sentence.clone());
            from_stock.push(FromStock {
                product,
                name,
                stock_g,
                stock_ml,
                take_ml,
                grams,
                error_share,
                sentence,
                why: key,
            });
        }
    }
    handling.push("Alone in its bottle: its label does not say what it clashes with. Shake; if some stays at the bottom, pour it out and halve the grams and the days.".to_owned());
    handling.push(desk.book.harm.rule.not_a_drink.say.clone());
    let slip = slip(desk, tools, NAMELESS, daily_ml, &ceilings(desk, &given.brings, 0.0));
    out.bottles.push(Bottle {
        name: String::new(),
        volume_ml,
        daily_ml,
        lasts_days: doses_in.min(desk.book.defaults.bottle_keeps_days.value),
        weighed,
        from_stock,
        time_of_day: MORNING.to_owned(),
        handling,
        hazards: Vec::new(),
        slip: slip.text,
        ask_above_ml: slip.ask_above_ml,
        refuse_above_ml: slip.refuse_above_ml,
    });
    out.doses.push(given);
}

fn not_weighed(desk: &Desk, dose: &Dose, exact_g: f64, volume_ml: f64) -> Note {
    let text = format!(
        "{}: {} g would be needed for a bottle of {}, and I can't tell that so much of it dissolves, or your scale can't weigh it. I left it out.",
        capital(&dose.name),
        desk.pen.n(exact_g, 2),
        desk.pen.ml(volume_ml)
    );
    Note { about: dose.product.clone(), text, key: None }
}
