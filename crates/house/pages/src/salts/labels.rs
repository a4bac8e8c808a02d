//! Labels for the bottles, 88 by 58 mm, printed on a sheet of their own. None while what is in a bottle is open.

use std::collections::{BTreeMap, BTreeSet};

use maud::{Markup, html};
use quantity::Ion;
use recipe::{Bottle, Conditioner, Into, Plan};

use super::bottles::grams;
use super::levels::amount;
use super::millilitres;
use super::reading::Reading;
use crate::sheet::Sheet;
use crate::words::{NB, capital, days, figures, list, litres_of, sentence};

/// What the conditioner is made of.
const THIOSULFATE: &str = "sodium_thiosulfate";
/// Cautions that speak of the tank, not of a packet; and what the label's head says already.
const OF_THE_TANK: [&str; 3] = ["reddens", "feeds_ammonia", "dry_closed"];

/// All labels.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let Some((first, others)) = readings.split_first() else { return html! {} };
    let same = |r: &Reading| r.plan.bottles == first.plan.bottles && r.plan.new_water == first.plan.new_water;
    if !others.iter().all(same) {
        return sheet.verse("Labels", html! { p.on-screen { "Labels come when the question above is answered: what is in the bottles depends on it." } });
    }
    let conditioner = first.plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none());
    if first.plan.bottles.is_empty() && conditioner.is_none() {
        return html! {};
    }
    html! {
        section.verse.labels-verse {
            h2.on-screen { "Labels" }
            div.across {
                p.on-screen { "Print this page: the labels come out on a sheet of their own, to cut along the dashes." }
                div.labels {
                    @for bottle in first.plan.bottles.iter().filter(|b| b.volume_ml > 0.0) { (of_bottle(sheet, first, bottle)) }
                    @if let Some(c) = conditioner { (of_conditioner(sheet, first, c)) }
                    (of_powders(first.plan))
                }
            }
        }
    }
}

fn of_bottle(sheet: &Sheet, reading: &Reading, bottle: &Bottle) -> Markup {
    let units = &sheet.units;
    let step = reading.tank.at_hand.scale_g.value;
    let mut inside: Vec<String> =
        bottle.weighed.iter().map(|w| format!("{} {}", grams(units, w, step), w.name)).collect();
    inside.extend(bottle.from_stock.iter().map(|s| {
        let [take, grams, all] = [s.take_ml, s.stock_g, s.stock_ml].map(|n| figures(units, n, 4));
        format!("{take}{NB}mL of a stock of {grams}{NB}g of {} in {all}{NB}mL", s.name)
    }));
    html! {
        div.label {
            h3 { (bottle.name) }
            p.dose { b { (millilitres(reading.tank, bottle.daily_ml)) } " " (bottle.time_of_day) " into " (litres_of(units, reading.plan.true_l.value)) }
            p { (list(&inside)) ", in " (figures(units, bottle.volume_ml, 4)) (NB) "mL of water." @let feeds = feeds(sheet, reading, bottle); @if !feeds.is_empty() { " A day’s dose brings " (list(&feeds)) "." } }
            p { "Mixed on ____ ____ " (NB) " Empty after " (days(units, bottle.lasts_days)) "." }
            p { b { "Not to drink. Never in a drinks bottle. Keep from children." } " Swallowed or in the eye: rinse, and call the poison centre: ________." }
            @if !bottle.hazards.is_empty() { p { @for hazard in &bottle.hazards { (sentence(hazard)) " " } } }
        }
    }
}

/// One for the box in which the powders stand: what is in it, how it is kept and handled.
fn of_powders(plan: &Plan) -> Markup {
    let book = knowledge::book();
    let weighed = plan.bottles.iter().flat_map(|bottle| {
        let stock = bottle.from_stock.iter().map(|stock| stock.product.as_str());
        bottle.weighed.iter().map(|weighed| weighed.product.as_str()).chain(stock)
    });
    let salts = plan.new_water.salts.iter().map(|salt| salt.product.as_str());
    let conditioner = plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none()).map(|_| THIOSULFATE);
    let keys: BTreeSet<&str> = weighed.chain(salts).chain(conditioner).collect();
    let inside: Vec<_> = keys.iter().filter_map(|key| book.product(key)).collect();
    if inside.is_empty() {
        return html! {};
    }
    let mut cautions: Vec<&str> = inside.iter().flat_map(|product| &product.cautions).map(String::as_str).collect();
    cautions.sort_unstable();
    cautions.dedup();
    cautions.retain(|key| !OF_THE_TANK.contains(key));
    let names: Vec<&str> = inside.iter().map(|product| product.name.as_str()).collect();
    html! {
        div.label.powders {
            h3 { "The powders" }
            p.dose { "Each dry and closed in its own labelled packet" }
            p { (capital(&list(&names))) "." }
            p { @for caution in cautions.iter().filter_map(|key| book.cautions.get(*key)) { (sentence(&caution.say)) " " } }
            p { b { "Not to eat. Never in a food jar or a drinks bottle. Keep from children." } " Swallowed or in the eye: rinse, and call the poison centre: ________." }
        }
    }
}

/// What a day's dose covers: "potassium 0.41 mg/L".
fn feeds(sheet: &Sheet, reading: &Reading, bottle: &Bottle) -> Vec<String> {
    let inside = |product: &str| {
        bottle.weighed.iter().any(|w| w.product == product) || bottle.from_stock.iter().any(|s| s.product == product)
    };
    let doses = reading.plan.doses.iter().filter(|dose| dose.into == Into::Bottle && inside(&dose.product));
    let mut all: BTreeMap<Ion, f64> = BTreeMap::new();
    for (ion, mg) in doses.flat_map(|dose| &dose.brings) {
        *all.entry(*ion).or_default() += mg;
    }
    // What is not aimed at comes along and feeds nobody.
    all.retain(|ion, _| reading.plan.levels.iter().any(|level| level.ion == Some(*ion) && level.band.is_some()));
    all.into_iter().map(|(ion, mg)| amount(&sheet.units, ion, mg) + " of " + ion.name()).collect()
}

fn of_conditioner(sheet: &Sheet, reading: &Reading, c: &Conditioner) -> Markup {
    let units = &sheet.units;
    let (_, bucket) = reading.plan.change.buckets;
    html! {
        div.label {
            h3 { "For new water" }
            p.dose { b { (millilitres(reading.tank, c.ml_a_bucket)) } " into each bucket of " (litres_of(units, bucket)) ". Stir, wait 5 minutes, then pour" }
            p { b { "Covers " (figures(units, c.covers_mg_per_l, 4)) (NB) "mg/L total chlorine." } " Whole tank: " (figures(units, c.ml_whole_tank, 4)) (NB) "mL." }
            p { (figures(units, c.stock_g, 4)) (NB) "g sodium thiosulfate pentahydrate in " (figures(units, c.stock_ml, 4)) (NB) "mL of water. Mixed on ____ ____ " (NB) " Empty after " (days(units, c.keeps_days)) "; cool and dark." }
            p { b { "Not to drink. Never in a drinks bottle. Keep from children and acids." } " Swallowed or in the eye: rinse, and call the poison centre: ________." }
        }
    }
}
