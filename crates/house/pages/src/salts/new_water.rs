//! New water: what must happen to it before it touches an animal, and which salts go into it.

use maud::{Markup, html};
use recipe::{Conditioner, Plan};

use super::bottles::amount;
use super::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, figures, level, sentence};

/// The change of water: conditioner first, then salts.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let never = readings.iter().all(|r| r.plan.change.every_days == 0);
    if never && readings.iter().all(|r| r.plan.new_water.conditioner.is_none() && r.plan.new_water.salts.is_empty()) {
        return html! {};
    }
    let act = readings.iter().any(|r| r.plan.new_water.conditioner.is_some());
    let class = if act { "text must" } else { "text" };
    sheet.verse_as(
        class,
        "New water",
        by_reading(readings, |r| (r.plan.change.clone(), r.plan.new_water.clone()), |r| text(sheet, r)),
    )
}

fn text(sheet: &Sheet, reading: &Reading) -> Markup {
    let plan = reading.plan;
    let units = &sheet.units;
    let (buckets, size) = plan.change.buckets;
    html! {
        @match &plan.new_water.conditioner {
            Some(conditioner) => { (conditioned(sheet, plan, conditioner)) }
            None => { p { "Your supplier says that the water carries no disinfectant, so nothing has to be taken out of it. Should that change, ask me again." } }
        }
        p {
            "A change is " b { (figures(units, plan.change.litres, 3)) (NB) "L" }
            @if buckets > 0 && !reading.tank.at_hand.by_hose {
                ": " (buckets) @if buckets == 1 { " bucket" } @else { " buckets" } " of " (amount(sheet, "at_hand.bucket", size, "L"))
            }
            ". "
            @if let Some(limited) = &plan.change.limited { (sentence(limited)) }
        }
        @for salt in &plan.new_water.salts {
            p {
                "Into each bucket " (sheet.out_or_bold(&format!("{}{NB}g", level(units, salt.grams_a_bucket)), plan.why(&salt.why)))
                " of " (salt.name) ", for the whole change " b { (level(units, salt.grams_a_change)) (NB) "g" } ". " (sentence(&salt.how))
            }
        }
    }
}

fn conditioned(sheet: &Sheet, plan: &Plan, c: &Conditioner) -> Markup {
    let units = &sheet.units;
    if let Some(refused) = &c.refused {
        return html! { p { b.when { "At once: " } (sentence(refused)) } };
    }
    let why = plan.why(&c.why);
    let ml = |value: f64| format!("{}{NB}mL", level(units, value));
    html! {
        p {
            b.when { "At once, at every change: " }
            "stir " (sheet.out_or_bold(&ml(c.ml_a_bucket), why)) " of conditioner into each bucket before it is poured. That covers up to "
            b { (level(units, c.covers_mg_per_l)) (NB) "mg/L" } " of total chlorine; I count on "
            b { (level(units, c.chlorine_mg_per_l)) } ". By hose: " b { (ml(c.ml_whole_tank)) } " into the tank, before the water."
        }
        p {
            "Conditioner: " b { (level(units, c.stock_g)) (NB) "g" } " of sodium thiosulfate pentahydrate in "
            b { (level(units, c.stock_ml)) (NB) "mL" } " of water."
            @for line in &c.sentences { " " (sentence(line)) }
        }
        @if c.ammonia_n_mg_per_l > 0.0 {
            p {
                "Chloramine leaves ammonia: up to " b { (level(units, c.ammonia_n_mg_per_l)) (NB) "mg/L" }
                " of nitrogen in the new water. In the tank its toxic share is then at most "
                (sheet.out_or_bold(&format!("{}{NB}mg/L", figures(units, c.nh3_n_in_tank_mg_per_l, 2)), why)) "."
            }
        }
    }
}
