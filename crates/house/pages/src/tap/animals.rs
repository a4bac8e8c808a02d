//! Before the water touches animals: disinfectant, the ammonia it leaves, copper.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Ion, Why};
use recipe::Conditioner;
use setup::Disinfectant;

use super::field;
use crate::salts::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, glued, level, sentence};

/// Disinfectant. Clay only where something must be done.
pub fn disinfected(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let act = readings
        .iter()
        .any(|r| r.tank.tap.disinfectant != Disinfectant::None || r.plan.new_water.conditioner.is_some());
    let class = if act { "text must" } else { "text" };
    let text = by_reading(readings, |r| (r.plan.new_water.clone(), r.tank.tap.disinfectant), |r| text(sheet, r));
    sheet.verse_as(class, "Before it touches animals", text)
}

fn text(sheet: &Sheet, reading: &Reading) -> Markup {
    let rule = &knowledge::book().harm.rule;
    let disinfected = reading.tank.tap.disinfectant != Disinfectant::None;
    html! {
        p {
            @if disinfected { b.when { "At once, every change: " } }
            @if disinfected { "the" } @else { "The" } " disinfectant in this water is " (sheet.blank("tap.disinfectant", if disinfected { "," } else { "." }))
            @if disinfected {
                " free and bound together up to " (sheet.in_unit("tap.total_chlorine", ".")) " Gills are hurt from about "
                (acute(sheet)) " on. "
            }
        }
        @match &reading.plan.new_water.conditioner {
            Some(conditioner) => (conditioned(sheet, reading, conditioner)),
            None => p { "Nothing has to be taken out of it. " (rule.disinfectant_counts.say) },
        }
        p {
            "Ammonium of its own: " (sheet.in_unit(&field(Ion::Ammonium), ".")) " "
            (glued(&rule.tap_notice.say)) " " (glued(&rule.cold_tap.say))
        }
    }
}

/// The number at which harm starts, with where it comes from.
fn acute(sheet: &Sheet) -> Markup {
    let limit = &knowledge::book().harm.limit;
    let (acute, weeks) = (&limit.chlorine_acute_mg_per_l, &limit.chlorine_chronic_mg_per_l);
    let shown = format!("{}{NB}mg/L", sheet.units.number(acute.value(), Digits::Significant(1)));
    let why = Why {
        key: "chlorine-acute".to_owned(),
        question: format!("why {}?", shown.replace(NB, " ")),
        sum: format!(
            "criterion for animals of fresh water: {} mg/L within hours, {} over weeks",
            level(&sheet.units, acute.value()),
            level(&sheet.units, weeks.value())
        ),
        words: "All chlorine counts, free and bound. A limit for people is never a limit for fish.".to_owned(),
        sources: vec![acute.is.source.clone()],
        kind: acute.is.kind(),
    };
    sheet.out(&shown, &why)
}

fn conditioned(sheet: &Sheet, reading: &Reading, c: &Conditioner) -> Markup {
    if let Some(refused) = &c.refused {
        return html! { p { (sentence(refused)) } };
    }
    let ml = |value: f64| format!("{}{NB}mL", level(&sheet.units, value));
    // The first sentence begins with the words of urgency that stand above already.
    let lines: Vec<String> = c
        .sentences
        .iter()
        .map(|line| {
            let bare = line.strip_prefix("At once, every change: ").unwrap_or(line);
            sentence(&crate::words::capital(bare))
        })
        .collect();
    html! {
        p {
            "A bucket takes " (sheet.out_or_bold(&ml(c.ml_a_bucket), reading.plan.why(&c.why))) " of the thiosulfate bottle that "
            a href=(sheet.href("tank/1/salts")) { "Salts" } " weighs out. " (lines.first().map_or("", String::as_str))
        }
        p { @for line in lines.iter().skip(1) { (line) " " } }
    }
}

/// Copper, for who has shrimps, snails and their kin.
pub fn copper(sheet: &Sheet, readings: &[Reading]) -> Markup {
    if !readings.iter().any(|r| r.tank.animals.invertebrates()) {
        return html! {};
    }
    let about = |r: &Reading| -> Vec<(String, Option<Why>)> {
        let notes = r.plan.cautions.iter().filter(|note| note.about == "copper");
        notes.map(|note| (note.text.clone(), note.key.as_deref().and_then(|key| r.plan.why(key)).cloned())).collect()
    };
    let limit = &knowledge::book().harm.limit;
    let text = by_reading(readings, about, |r| {
        html! {
            p {
                "Shrimps and snails bear little of it: above " (level(&sheet.units, limit.copper_ask_mg_per_l.value())) (NB) "mg/L I ask, above "
                (level(&sheet.units, limit.copper_refuse_mg_per_l.value())) " I refuse what adds to it. The tap’s report says "
                (sheet.in_unit(&field(Ion::Copper), "")) "; your pipes add " (sheet.in_unit("pipes.copper", "."))
            }
            @for (text, why) in about(r) { p { (sentence(&text)) @if let Some(why) = why { " " (sheet.out("Why", &why)) } } }
        }
    });
    sheet.verse("Copper", text)
}
