//! Before the water touches animals: disinfectant, the ammonia it leaves, copper.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Ion, Why};
use recipe::Conditioner;
use setup::Disinfectant;

use super::field;
use crate::salts::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, capital, level, sentence};

/// Disinfectant: the act first, then why; clay only where something must be done.
pub fn disinfected(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let rule = &knowledge::book().harm.rule;
    let act = readings.iter().any(|r| disinfectant(r) || r.plan.new_water.conditioner.is_some());
    let class = if act { "text must" } else { "text" };
    let text = html! {
        (by_reading(readings, acts, |r| act_said(sheet, r)))
        (by_reading(readings, disinfectant, |r| because(sheet, r)))
        (by_reading(readings, before, before_said))
        p { (sentence(&rule.cold_tap.say)) " " (sentence(&rule.tap_notice.say)) }
        (more_said(readings))
    };
    sheet.verse_as(class, "Before it touches animals", text)
}

fn disinfectant(reading: &Reading) -> bool {
    reading.tank.tap.disinfectant != Disinfectant::None
}

/// What the recipe says of the conditioner: the act with its dose, or why there is none.
fn acts(reading: &Reading) -> Option<String> {
    let conditioner = reading.plan.new_water.conditioner.as_ref()?;
    conditioner.refused.clone().or_else(|| conditioner.sentences.first().cloned())
}

fn act_said(sheet: &Sheet, reading: &Reading) -> Markup {
    let Some(act) = acts(reading) else { return html! {} };
    let plan = reading.plan;
    let why = plan.new_water.conditioner.as_ref().and_then(|c| plan.why(&c.why));
    let mixed = plan.new_water.conditioner.as_ref().is_some_and(|c| c.refused.is_none());
    html! {
        p {
            @match act.split_once(": ").filter(|(when, _)| when.starts_with("At once")) {
                Some((when, then)) => { b.when { (when) ":" } " " (sentence(then)) }
                None => { b.when { "At once:" } " " (sentence(&act)) }
            }
            (sheet.why(why))
            @if mixed { " How it is mixed stands on " a href=(sheet.letter("salts")) { "Salts" } "." }
        }
    }
}

fn because(sheet: &Sheet, reading: &Reading) -> Markup {
    if disinfectant(reading) {
        return html! {
            p {
                "The disinfectant in this water is " (sheet.blank("tap.disinfectant", ",")) " free and bound together up to "
                (sheet.blank("tap.total_chlorine", " mg/L.")) " Harm to gills begins at about " (acute(sheet)) "."
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

/// What must be known before it is poured.
fn before(reading: &Reading) -> Vec<String> {
    conditioner(reading).map_or_else(Vec::new, |c| c.sentences.iter().skip(1).cloned().collect())
}

fn before_said(reading: &Reading) -> Markup {
    let lines = before(reading);
    html! { @if !lines.is_empty() { p { @for line in &lines { (sentence(line)) " " } } } }
}

/// What is there for who wants to know more.
fn more(reading: &Reading) -> Vec<String> {
    conditioner(reading).map_or_else(Vec::new, |c| c.more.clone())
}

/// The conditioner, where it has a recipe.
fn conditioner<'a>(reading: &Reading<'a>) -> Option<&'a Conditioner> {
    reading.plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none())
}

fn more_said(readings: &[Reading]) -> Markup {
    html! {
        @if readings.iter().any(|r| !more(r).is_empty()) {
            details.more {
                summary { "The other way of filling, and how its ammonia adds up" }
                (by_reading(readings, more, |r| html! { ul.assumptions { @for line in more(r) { li { (sentence(&capital(&line))) } } } }))
            }
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
                " once the cold tap has run; water that stood in copper pipes can carry many times that. A mix of trace elements brings copper too: the label of yours names "
                (sheet.in_unit("at_hand.trace_copper", ".")) " " (sentence(&limit.copper_unknown_percent.say))
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
