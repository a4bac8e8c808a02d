//! New water: what must happen to it before it touches an animal, and which salts go into it.

use maud::{Markup, html};
use recipe::{Conditioner, Note, Plan, Salt, Stands};

use super::bottles::mixed as mixed_bottles;
use super::notes::{before_weighing, standing};
use super::reading::{Reading, by_part, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, counted, days, figures, litres_of, sentence};

/// The change of water: what must be done to it first, how much, what goes in, and what to know.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let nothing = |r: &Reading| {
        r.plan.change.every_days == 0 && r.plan.new_water.conditioner.is_none() && r.plan.new_water.salts.is_empty()
    };
    if readings.iter().all(nothing) {
        return html! {};
    }
    let first_weighed = readings.iter().all(|r| mixed_bottles(r.plan).next().is_none());
    sheet.verse("New water", html! {
        (by_reading(readings, |r| act(r.plan), |r| at_once(r.plan)))
        (by_part(readings, |r| change(sheet, r)))
        @if first_weighed { (by_reading(readings, |r| standing(r.plan, Stands::Weighing), |r| before_weighing(r.plan))) }
        (by_reading(readings, |r| minded(r.plan), |r| minded_said(sheet, r.plan)))
        (by_part(readings, |r| conditioner(sheet, r.plan)))
    })
}

/// What is minded at a change, in the order in which it is done.
fn minded(plan: &Plan) -> Vec<Note> {
    let first = plan.first_changes();
    let mut notes: Vec<Note> = plan.new_water.notes.iter().filter(|note| Some(*note) != first).cloned().collect();
    if plan.change.litres > 0.0 {
        notes.extend(standing(plan, Stands::Change));
    }
    notes
}

/// What has a number of this tank stands open, and when no water is changed at all (harm rule 5); what goes for every change is
/// folded, as Care says it again step by step.
fn minded_said(sheet: &Sheet, plan: &Plan) -> Markup {
    let why = |note: &Note| note.key.as_deref().and_then(|key| plan.why(key));
    let open = |note: &Note| why(note).is_some() || note.key.as_deref() == Some("tap_notice");
    let (worked, every): (Vec<Note>, Vec<Note>) = minded(plan).into_iter().partition(open);
    html! {
        @for note in &worked { p { (sentence(&note.text)) (sheet.why(why(note))) } }
        @if !every.is_empty() {
            p { a href=(sheet.letter("care")) { "Care" } " leads you through the change, step by step." }
            details.more.kept {
                summary { "What to mind at every change" }
                ul.plain { @for note in &every { li { (sentence(&note.text)) } } }
            }
        }
    }
}

/// The conditioner, unless this water is not to be used at all.
fn used(plan: &Plan) -> Option<&Conditioner> {
    plan.new_water.conditioner.as_ref().filter(|c| c.refused.is_none())
}

/// What must be done at every change, or that this water is not to be used.
fn act(plan: &Plan) -> Option<String> {
    let conditioner = plan.new_water.conditioner.as_ref()?;
    match &conditioner.refused {
        Some(refused) => Some(format!("At once: {refused}")),
        None => conditioner.sentences.first().cloned(),
    }
}

fn at_once(plan: &Plan) -> Markup {
    let Some(act) = act(plan) else { return html! {} };
    html! { div.must { p {
        @match act.split_once(':').filter(|(when, _)| when.starts_with("At once")) {
            Some((when, then)) => { b.when { (when) ":" } " " (sentence(then)) }
            None => { (sentence(&act)) }
        }
    } } }
}

fn change(sheet: &Sheet, reading: &Reading) -> Vec<Markup> {
    let plan = reading.plan;
    let units = &sheet.units;
    let (buckets, size) = plan.change.buckets;
    let first = plan.first_changes().map(|first| html! { p { b { (sentence(&first.text)) } } });
    let litres = (plan.change.litres > 0.0).then(|| {
        html! {
            p {
                @if plan.begin.as_ref().is_some_and(|begin| begin.share < plan.change.share) { "After that a change is " } @else { "A change is " }
                (sheet.out_or_bold(&litres_of(units, plan.change.litres), plan.why("change")))
                @if buckets > 0 && !reading.tank.at_hand.by_hose {
                    ": " (counted(buckets as usize, "bucket", "buckets")) " of " b { (litres_of(units, size)) }
                    " (yours holds " (sheet.in_unit("at_hand.bucket", ")"))
                }
                ". "
                (mixed(reading))
            }
        }
    });
    let limited = plan.change.limited.as_ref().map(|limited| html! { p { (sentence(limited)) } });
    let salts = plan.new_water.salts.iter().map(|salt| salted(sheet, plan, salt));
    first.into_iter().chain(litres).chain(limited).chain(salts).collect()
}

/// A salt of the new water; where it is too little for the scale, its sentence tells of the stock that it comes from.
fn salted(sheet: &Sheet, plan: &Plan, salt: &Salt) -> Markup {
    let why = plan.why(&salt.why);
    let grams = format!("{}{NB}g", figures(&sheet.units, salt.grams_a_change, 4));
    html! {
        p {
            "Into the new water of a change goes "
            @if salt.from_stock.is_some() {
                "a little " (salt.name) ". " (sentence(&salt.how)) (sheet.why(why))
            } @else {
                (sheet.out_or_bold(&grams, why)) " of " (salt.name) ". " (sentence(&salt.how))
            }
        }
    }
}

/// What the new water is mixed from, where it is not the tap alone.
fn mixed(reading: &Reading) -> Markup {
    let (share, units) = (reading.plan.low_share, &reading.tank.units);
    let low = reading.tank.low.as_ref().map_or("low-mineral water", |low| low.name.as_str());
    html! {
        @if share > 0.0 {
            "Mix it from " b { (figures(units, 100.0 * share, 3)) (NB) "% " (low) } " and "
            b { (figures(units, 100.0 * (1.0 - share), 3)) (NB) "% tap" } ", before anything else goes in. "
        }
    }
}

/// How the conditioner is made, what must be known of it, and the rest folded.
fn conditioner(sheet: &Sheet, plan: &Plan) -> Vec<Markup> {
    let Some(c) = used(plan) else { return Vec::new() };
    let units = &sheet.units;
    let grams = format!("{}{NB}g", figures(units, c.stock_g, 4));
    let made = html! {
        p {
            "To make the conditioner, weigh " (sheet.out_or_bold(&grams, plan.why(&c.why))) " of sodium thiosulfate pentahydrate into "
            b { (figures(units, c.stock_ml, 4)) (NB) "mL" } " of boiled, cooled water; pour it out after " (days(units, c.keeps_days)) "."
        }
    };
    let lines = c.sentences.iter().skip(1).map(|line| html! { p { (sentence(line)) } });
    let more = (!c.more.is_empty()).then(|| {
        html! {
            details.more {
                summary { "More about the conditioner" }
                ul.plain.small { @for line in &c.more { li { (sentence(line)) } } }
            }
        }
    });
    std::iter::once(made).chain(lines).chain(more).collect()
}
