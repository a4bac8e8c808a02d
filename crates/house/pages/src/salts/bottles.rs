//! A verse a bottle: what is weighed into it, how much a day, what ten times the dose would do.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Kind, Units, Why};
use recipe::{Bottle, Note, Plan, Weighed};

use super::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, days, figures, level, sentence};

/// All bottles.
pub fn verses(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let most = readings.iter().map(|r| r.plan.bottles.len()).max().unwrap_or(0);
    html! {
        @for i in 0..most {
            @let name = readings.iter().find_map(|r| r.plan.bottles.get(i)).map_or("", |b| b.name.as_str());
            (sheet.verse(name, by_reading(
                readings,
                |r| r.plan.bottles.get(i).map(|b| (b.clone(), b.weighed.iter().map(|w| r.plan.why(&w.why)).collect::<Vec<_>>())),
                |r| match r.plan.bottles.get(i) {
                    Some(bottle) => text(sheet, r, bottle),
                    None => html! { p { "No such bottle." } },
                },
            )))
        }
    }
}

fn text(sheet: &Sheet, reading: &Reading, bottle: &Bottle) -> Markup {
    let units = &sheet.units;
    let step = reading.tank.at_hand.scale_g.value;
    let off = bottle.weighed.iter().map(|w| w.error_share).fold(0.0, f64::max);
    html! {
        p {
            "Weigh " (weighed(sheet, reading.plan, bottle, step))
            " into " (amount(sheet, "at_hand.bottle", bottle.volume_ml, "mL")) " of water. "
            @for line in &bottle.handling { (sentence(line)) " " }
            "Give " (amount(sheet, "at_hand.daily", bottle.daily_ml, "mL")) " " (bottle.time_of_day)
            "; the bottle lasts " (sheet.out(&days(units, bottle.lasts_days), &lasts(units, bottle))) "."
        }
        p {
            (sentence(&bottle.slip)) " "
            "Above " b { (level(units, bottle.ask_above_ml)) (NB) "mL" } " a day I ask: really? "
            "Above " b { (level(units, bottle.refuse_above_ml)) (NB) "mL" } " I refuse."
        }
        @for note in cautions(reading.plan, bottle) { p { (sentence(&note.text)) } }
        @if off >= 0.005 {
            p {
                "On a scale that shows steps of " (amount(sheet, "at_hand.scale", step, "g"))
                " this comes out up to " (figures(units, 100.0 * off, 2)) (NB) "% too strong or too weak, dropper and all."
            }
        }
    }
}

/// "3.9 g of potassium sulfate and 0.6 g of ...".
fn weighed(sheet: &Sheet, plan: &Plan, bottle: &Bottle, step: f64) -> Markup {
    let last = bottle.weighed.len().saturating_sub(1);
    html! {
        @for (i, w) in bottle.weighed.iter().enumerate() {
            @if i > 0 { (if i == last { " and " } else { ", " }) }
            (sheet.out_or_bold(&grams(&sheet.units, w, step), plan.why(&w.why))) " of " (w.name)
        }
    }
}

/// Grams, as fine as the scale shows.
pub fn grams(units: &Units, weighed: &Weighed, step: f64) -> String {
    let places = match step {
        s if s >= 0.95 => 0,
        s if s >= 0.095 => 1,
        s if s >= 0.0095 => 2,
        _ => 3,
    };
    format!("{}{NB}g", units.number(weighed.grams, Digits::Decimals(places)))
}

/// The blank, where it is what the plan goes by; else the plan's own number.
pub fn amount(sheet: &Sheet, field: &str, value: f64, unit: &str) -> Markup {
    let shown = figures(&sheet.units, value, 4);
    if sheet.blanks.get(field).is_some_and(|blank| blank.shown == shown) {
        sheet.blank(field, &format!(" {unit}"))
    } else {
        html! { b { (shown) (NB) (unit) } }
    }
}

/// The cautions that belong to this bottle.
pub fn cautions<'a>(plan: &'a Plan, bottle: &'a Bottle) -> impl Iterator<Item = &'a Note> {
    plan.cautions.iter().filter(|note| belongs(note, bottle))
}

/// Whether a note speaks of a bottle or of something in it.
pub fn belongs(note: &Note, bottle: &Bottle) -> bool {
    note.about == bottle.name || bottle.weighed.iter().any(|w| note.about == w.product || note.about == w.name)
}

fn lasts(units: &Units, bottle: &Bottle) -> Why {
    let (size, daily) = (figures(units, bottle.volume_ml, 4), figures(units, bottle.daily_ml, 4));
    Why {
        key: format!("lasts-{}", bottle.name),
        question: format!("why {}?", days(units, bottle.lasts_days)),
        sum: format!("{size} mL ÷ {daily} mL a day = {}", days(units, bottle.lasts_days)),
        words: "Closed and dark a bottle keeps about that long; clouded or with threads in it, pour it out.".to_owned(),
        sources: Vec::new(),
        kind: Kind::CommonPractice,
    }
}
