//! Before the water touches animals: disinfectant, the ammonia it leaves, copper.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Ion, Why};
use setup::Disinfectant;

use super::field;
use crate::salts::levels::basis;
use crate::salts::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, capital, level, sentence};

/// Disinfectant. Clay only where something must be done.
pub fn disinfected(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let rule = &knowledge::book().harm.rule;
    let act = readings.iter().any(|r| disinfectant(r) || r.plan.new_water.conditioner.is_some());
    let class = if act { "text must" } else { "text" };
    let text = html! {
        (by_reading(readings, disinfectant, |r| first(sheet, r)))
        (conditioned(sheet, readings))
        p { "Of its own it brings " (sheet.blank(&field(Ion::Ammonium), &format!(" {}", basis(&sheet.units, Some(Ion::Ammonium)).1))) " of ammonium." }
        p { (sentence(&rule.tap_notice.say)) " " (sentence(&rule.cold_tap.say)) }
    };
    sheet.verse_as(class, "Before it touches animals", text)
}

fn disinfectant(reading: &Reading) -> bool {
    reading.tank.tap.disinfectant != Disinfectant::None
}

fn first(sheet: &Sheet, reading: &Reading) -> Markup {
    if disinfectant(reading) {
        return html! {
            p {
                b.when { "At once, every change: " } "the disinfectant in this water is " (sheet.blank("tap.disinfectant", ","))
                " free and bound together up to " (sheet.blank("tap.total_chlorine", " mg/L.")) " Harm to gills begins at about " (acute(sheet)) "."
            }
        };
    }
    html! {
        p { "The disinfectant in this water is " (sheet.blank("tap.disinfectant", ".")) }
        @if reading.plan.new_water.conditioner.is_none() {
            p { "So nothing has to be taken out of it. " (sentence(&knowledge::book().harm.rule.disinfectant_counts.say)) }
        }
    }
}

/// What the conditioner's recipe says, sentence by sentence: where readings of an open question say the same it stands once.
fn conditioned(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let lines = |r: &Reading| -> Vec<String> {
        r.plan.new_water.conditioner.as_ref().map_or_else(Vec::new, |c| match &c.refused {
            Some(refused) => vec![refused.clone()],
            // The first sentence begins with the words of urgency that stand above already.
            None => c
                .sentences
                .iter()
                .map(|line| line.strip_prefix("At once, every change: ").unwrap_or(line).to_owned())
                .collect(),
        })
    };
    let most = readings.iter().map(|r| lines(r).len()).max().unwrap_or(0);
    let why = |r: &Reading| r.plan.new_water.conditioner.as_ref().and_then(|c| r.plan.why(&c.why)).cloned();
    html! {
        @for i in 0..most {
            (by_reading(readings, |r| lines(r).get(i).cloned(), |r| html! {
                @if let Some(line) = lines(r).get(i) {
                    p { (sentence(&capital(line))) @if let (0, Some(why)) = (i, why(r)) { " " (sheet.out("Why", &why)) } }
                }
            }))
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
                "The tap brings " (sheet.blank(&field(Ion::Copper), " mg/L")) " of copper, and your pipes add "
                (sheet.blank("pipes.copper", " mg/L"))
                " once the cold tap has run; water that stood in copper pipes can carry many times that."
                @if readings.iter().any(|r| about(r).is_empty()) {
                    " Above " (level(&sheet.units, limit.copper_ask_mg_per_l.value())) (NB) "mg/L I ask, above "
                    (level(&sheet.units, limit.copper_refuse_mg_per_l.value())) " I refuse what adds to it."
                }
            }
            @for (text, why) in about(r) { p { (sentence(&text)) @if let Some(why) = why { " " (sheet.out("Why", &why)) } } }
        }
    });
    sheet.verse("Copper", text)
}
