//! New water: what must happen to it before it touches an animal, and which salts go into it.

use maud::{Markup, html};
use recipe::{Conditioner, Plan};

use super::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, figures, sentence};

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
            Some(conditioner) => (conditioned(sheet, plan, conditioner)),
            None => {}
        }
        p {
            "A change is " (sheet.out_or_bold(&format!("{}{NB}L", figures(units, plan.change.litres, 3)), plan.why("change")))
            @if buckets > 0 && !reading.tank.at_hand.by_hose {
                ": " (buckets) @if buckets == 1 { " bucket" } @else { " buckets" } " of " b { (figures(units, size, 3)) (NB) "L" } " (yours holds " (sheet.in_unit("at_hand.bucket", ")"))
            }
            ". "
            @if let Some(limited) = &plan.change.limited { (sentence(limited)) }
        }
        @if !plan.new_water.notes.is_empty() {
            p { @for note in &plan.new_water.notes {
                (sentence(&note.text)) " "
                @if let Some(why) = note.key.as_deref().and_then(|key| plan.why(key)) { (sheet.out("Why", why)) " " }
            } }
        }
        @for salt in &plan.new_water.salts {
            p {
                "Into each bucket " (sheet.out_or_bold(&format!("{}{NB}g", figures(units, salt.grams_a_bucket, 4)), plan.why(&salt.why)))
                " of " (salt.name) ", for the whole change " b { (figures(units, salt.grams_a_change, 4)) (NB) "g" } ". " (sentence(&salt.how))
            }
        }
    }
}

/// The words that say how soon, where a sentence begins with them, set apart.
fn urgent(text: &str) -> Markup {
    match text.split_once(':') {
        Some((when, then)) if when.starts_with("At once") => html! { b.when { (when) ":" } " " (sentence(then)) },
        _ => html! { (sentence(text)) },
    }
}

fn conditioned(sheet: &Sheet, plan: &Plan, c: &Conditioner) -> Markup {
    let units = &sheet.units;
    let why = plan.why(&c.why);
    let ml = |value: f64| format!("{}{NB}mL", figures(units, value, 4));
    let mut lines = c.sentences.iter();
    html! {
        @if let Some(refused) = &c.refused {
            p { b.when { "At once: " } (sentence(refused)) }
        } @else {
            @if let Some(first) = lines.next() { p { (urgent(first)) } }
            p {
                "To make the conditioner, weigh " b { (figures(units, c.stock_g, 4)) (NB) "g" } " of sodium thiosulfate pentahydrate into "
                b { (figures(units, c.stock_ml, 4)) (NB) "mL" } " of boiled, cooled water. A bucket takes "
                (sheet.out_or_bold(&ml(c.ml_a_bucket), why)) " of it, the whole tank " (sheet.out_or_bold(&ml(c.ml_whole_tank), why)) "."
            }
            p { @for line in lines { (sentence(line)) " " } }
        }
    }
}
