//! A tank whose water is never changed: what lifts a level once that lies below its band.
//!
//! What: without changes a daily dose only replaces what is taken, so a level that begins too low stays there. The grams
//! that lift it to the band's lower edge are given once, on as many days as the ceilings of a day and a tenth of the leanest
//! water's conductivity ask for, counted on the smallest volume that the tank may have.
//! Equation: g = lift × L ÷ mg of the ion in a gram.
//! Checked by: `tests/by_hand_bottles.rs`.

use std::collections::BTreeMap;

use knowledge::Product;
use quantity::Ion;
use setup::Tank;

use crate::bottles::slip::ceilings;
use crate::bottles::weigh::{Amount, Tools, weigh};
use crate::choose::us_per_cm;
use crate::desk::Desk;
use crate::plan::{Dose, Into, Level};
use crate::say::Pen;

/// The sentences of starting doses that lift ions by so many mg/L each, one dose for all that a salt lifts; none for an ion that no
/// bottle feeds, or whose salt would lift something else over its band.
pub(crate) fn doses(desk: &Desk, doses: &[Dose], levels: &[Level], wants: &[(Ion, f64)]) -> BTreeMap<Ion, String> {
    let (mut wants, mut levels, mut says) = (wants.to_vec(), levels.to_vec(), BTreeMap::new());
    let litres = desk.tank.geometry.true_l.value;
    loop {
        let of = |&(ion, lift): &(Ion, f64)| {
            let (dose, product) = salt(desk, doses, &levels, ion, lift)?;
            Some((ion, lift * litres / (product.mg_per_g(ion) * product.assay()), dose, product))
        };
        // The most grams first: of one salt they lift what wants fewer of it too.
        let Some((ion, grams, dose, product)) = wants.iter().filter_map(of).max_by(|a, b| a.1.total_cmp(&b.1)) else {
            return says;
        };
        let brings = |ion: Ion| grams * product.mg_per_g(ion) * product.assay() / litres;
        for level in &mut levels {
            level.highest += level.ion.map_or(0.0, brings);
        }
        if let Some(says_so) = one(desk, dose, product, grams, &levels, wants.len() > 1) {
            says.insert(ion, says_so);
        }
        wants.retain(|(other, lift)| {
            let lifted = brings(*other) >= lift * (1.0 - 1e-9);
            if lifted && *other != ion && says.contains_key(&ion) {
                says.insert(*other, format!("The starting dose for {} lifts it too.", ion.name()));
            }
            *other != ion && !lifted
        });
        wants.iter_mut().for_each(|(other, lift)| *lift -= brings(*other));
    }
}

/// The sentence of one of them. `levels`: with it; `several`: it is not the only one.
fn one(desk: &Desk, dose: &Dose, product: &Product, grams: f64, levels: &[Level], several: bool) -> Option<String> {
    let days = days(desk, product, grams);
    let portion = portion(desk.tank, product, &dose.name, grams / days, days)?;
    let on = match days as u32 {
        1 => "once".to_owned(),
        days => format!("on {} days, one after the other, and then no more", crate::say::count(days)),
    };
    let alone = if several { " No other starting dose on such a day." } else { "" };
    let strict = &desk.book.harm.limit.nitrate_strict_mg_per_l;
    let nitrate = levels.iter().find(|level| level.ion == Some(Ion::Nitrate)).map_or(0.0, |level| level.highest);
    let tender = desk.tank.animals.invertebrates() || desk.tank.animals.young;
    let told = if tender && product.mg_per_g(Ion::Nitrate) > 0.0 && nitrate > strict.value() {
        format!(" Nitrate comes to {} so. {}", desk.pen.ion(Ion::Nitrate, nitrate), strict.say)
    } else {
        String::new()
    };
    Some(format!("If a test of the tank shows so little, a starting dose lifts it: {portion}, {on}.{alone}{told}"))
}

/// Grams of a product that [`portion`] weighs in all, `times` of them: what its stock takes, which may be more than is given.
pub fn portion_weighs(tank: &Tank, product: &Product, grams: f64, times: f64) -> f64 {
    let (tools, book) = (Tools::at_hand(tank), knowledge::book());
    let limit = book.stock_limit_g_per_l(product, tank.at_hand.coldest_room_c.low);
    let weighed = limit.and_then(|limit| weigh(&tools, grams, book.recipe.stock.jar_ml.value, limit));
    match weighed {
        Some(Amount::Stock { stock_g, stock_ml, take_ml, .. }) => stock_g * larger(times, take_ml, stock_ml),
        Some(Amount::Direct { grams, .. }) => times * grams,
        None => times * grams,
    }
}

/// So many times the smallest stock holds so many portions.
fn larger(times: f64, take_ml: f64, stock_ml: f64) -> f64 {
    (times * take_ml / stock_ml - 1e-9).ceil().max(1.0)
}

/// How so many grams of a product, called `name`, get into the tank's water with what is at hand, `times` of them from one stock, which is made
/// large enough; `None`: the scale is too coarse.
pub fn portion(tank: &Tank, product: &Product, name: &str, grams: f64, times: f64) -> Option<String> {
    let (pen, tools, book) = (Pen::of(tank), Tools::at_hand(tank), knowledge::book());
    let limit = book.stock_limit_g_per_l(product, tank.at_hand.coldest_room_c.low)?;
    Some(match weigh(&tools, grams, book.recipe.stock.jar_ml.value, limit)? {
        Amount::Direct { grams, .. } => {
            format!("{} of {name} in a glass of the tank's water", pen.grams(grams, tools.scale_g))
        }
        Amount::Stock { stock_g, stock_ml, take_ml, .. } => {
            let larger = larger(times, take_ml, stock_ml);
            format!(
                "{} from {} of {name} in {} of boiled, cooled water",
                pen.ml(take_ml),
                pen.grams(larger * stock_g, tools.scale_g),
                pen.ml(larger * stock_ml)
            )
        }
    })
}

/// The richest salt of the bottles that lifts nothing else over its band, nor brings copper.
fn salt<'a>(
    desk: &Desk,
    doses: &'a [Dose],
    levels: &[Level],
    ion: Ion,
    lift: f64,
) -> Option<(&'a Dose, &'static Product)> {
    let fits = |product: &Product| {
        let along = |level: &Level| {
            let other = level.ion.filter(|other| *other != ion).map_or(0.0, |other| product.mg_per_g(other));
            let top = level.band.map_or(f64::INFINITY, |band| band.1);
            other <= 0.0 || level.highest + lift * other / product.mg_per_g(ion) <= top
        };
        product.mg_per_g(ion) > 0.0 && product.mg_per_g(Ion::Copper) <= 0.0 && levels.iter().all(along)
    };
    let bottled = doses.iter().filter(|dose| dose.into == Into::Bottle);
    let feeds = bottled.filter_map(|dose| Some((dose, desk.product(&dose.product)?)));
    let feeds = feeds.filter(|(_, product)| fits(product));
    feeds.max_by(|a, b| a.1.mg_per_g(ion).total_cmp(&b.1.mg_per_g(ion)))
}

/// Days over which so many grams are spread.
fn days(desk: &Desk, product: &Product, grams: f64) -> f64 {
    let (tank, litres) = (desk.tank, desk.tank.geometry.true_l);
    let smallest = if litres.low > 0.0 { litres.low } else { litres.value };
    let brings: Vec<(Ion, f64)> =
        product.ions().map(|ion| (ion, grams * product.mg_per_g(ion) * product.assay() / smallest)).collect();
    let alkalinity = grams * product.alkalinity_meq_per_g() * product.assay() / smallest;
    let of = |brings: &[(Ion, f64)], ion: Ion| brings.iter().filter(|(i, _)| *i == ion).map(|(_, mg)| *mg).sum::<f64>();
    let times = ceilings(desk, &brings, alkalinity).iter().map(|c| c.times()).fold(f64::INFINITY, f64::min);
    let tenth = desk.book.harm.limit.conductivity_step_percent.value() / 100.0;
    let water = us_per_cm(|ion| tank.tap.mg_per_l(ion).low, tank.tap.alkalinity_meq_per_l.low.max(0.0));
    let times = times.min(tenth * water / us_per_cm(|ion| of(&brings, ion), alkalinity));
    (1.0 / times - 1e-9).ceil().max(1.0)
}
