//! A verse a bottle: what is weighed into it, how much a day, what ten times the dose would do.

use maud::{Markup, html};
use quantity::number::Digits;
use quantity::{Kind, Units, Why};
use recipe::{Bottle, FromStock, Note, Plan, Stands, Weighed};

use super::dropped;
use super::notes::{before_weighing, standing};
use super::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{NB, days, figures, sentence};

/// All bottles.
pub fn verses(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let most = readings.iter().map(|r| r.plan.bottles.len()).max().unwrap_or(0);
    let mixed = |i: &usize| readings.iter().any(|r| r.plan.bottles.get(*i).is_some_and(|b| b.volume_ml > 0.0));
    let first = (0..most).find(mixed);
    html! {
        @for i in 0..most {
            @let name = readings.iter().find_map(|r| r.plan.bottles.get(i)).map_or("", |b| b.name.as_str());
            @let weighing = |r: &Reading| standing(r.plan, Stands::Weighing);
            (sheet.verse(name, html! {
                @if first == Some(i) { (by_reading(readings, weighing, |r| before_weighing(r.plan))) }
                (by_reading(readings, |r| r.plan.bottles.get(i).map(|bottle| alike(r, bottle)), |r| match r.plan.bottles.get(i) {
                    Some(bottle) => text(sheet, r, bottle, i == 0),
                    None => html! { p { "No such bottle." } },
                }))
            }))
        }
    }
}

fn text(sheet: &Sheet, reading: &Reading, bottle: &Bottle, first: bool) -> Markup {
    let lines: Vec<&String> = handling(reading.plan, bottle).collect();
    html! {
        @if bottle.volume_ml > 0.0 {
            ol.steps {
                @if !bottle.weighed.is_empty() {
                    li { "Weigh " (weighed(sheet, reading.plan, bottle, reading.tank.at_hand.scale_g.value)) " into an empty bottle." }
                }
                @for stock in &bottle.from_stock { li { (from_stock(sheet, reading.plan, stock)) } }
                li {
                    "Fill up with boiled, cooled water to " (sheet.amount("at_hand.bottle", bottle.volume_ml, "your bottle holds", ","))
                    " shake until it is clear, and write the day on it."
                }
                li { (give(sheet, reading, bottle)) }
            }
        } @else { p { (give(sheet, reading, bottle)) } }
        @if !lines.is_empty() { ul.plain.small { @for line in lines { li { (sentence(line)) } } } }
        @for note in cautions(reading.plan, bottle) { p { (sentence(&note.text)) } }
        (how_exact(sheet, bottle, first))
    }
}

/// What a keeper reads of a bottle: where it agrees, the bottle is the same, though the sums behind it may differ in a
/// figure that nobody weighs.
fn alike(reading: &Reading, bottle: &Bottle) -> (Vec<String>, Vec<String>, [f64; 3]) {
    let units = &reading.tank.units;
    let step = reading.tank.at_hand.scale_g.value;
    let mut inside: Vec<String> = bottle.weighed.iter().map(|w| grams(units, w, step) + &w.name).collect();
    inside.extend(bottle.from_stock.iter().map(|stock| stock.sentence.clone()));
    let mut said = vec![bottle.time_of_day.clone(), bottle.slip.clone()];
    said.extend(handling(reading.plan, bottle).cloned());
    said.extend(cautions(reading.plan, bottle).map(|note| note.text.clone()));
    (inside, said, [bottle.volume_ml, bottle.daily_ml, bottle.lasts_days])
}

/// Bottles that are mixed; the others are bought as they are.
pub fn mixed(plan: &Plan) -> impl Iterator<Item = &Bottle> {
    plan.bottles.iter().filter(|bottle| bottle.volume_ml > 0.0)
}

/// How much a day, with what a slip of the hand would do.
fn give(sheet: &Sheet, reading: &Reading, bottle: &Bottle) -> Markup {
    let units = &sheet.units;
    html! {
        "Give " (sheet.amount("at_hand.daily", bottle.daily_ml, "you wished", &dropped(reading.tank, bottle.daily_ml))) " " (bottle.time_of_day)
        @if bottle.lasts_days > 0.0 { "; the bottle lasts " (sheet.out(&days(units, bottle.lasts_days), &lasts(units, bottle))) }
        ". " (sentence(&bottle.slip))
    }
}

/// How far scale and syringe may lead astray, and the blanks of both; from half a hundredth on.
fn how_exact(sheet: &Sheet, bottle: &Bottle, first: bool) -> Markup {
    let shares = bottle.weighed.iter().map(|w| w.error_share).chain(bottle.from_stock.iter().map(|s| s.error_share));
    let off = shares.fold(0.0, f64::max);
    html! {
        @if off >= 0.005 {
            p.small {
                "With a scale" @if first { " that shows " (sheet.in_unit("at_hand.scale", "")) }
                @if sheet.has("at_hand.drop") { " and a dropper" @if first { " whose drop is " (sheet.in_unit("at_hand.drop", "")) } }
                @else { " and a syringe" @if first { " that shows " (sheet.in_unit("at_hand.syringe", "")) } }
                " a dose comes out up to " (figures(&sheet.units, 100.0 * off, 2)) (NB) "% too strong or too weak."
            }
        }
    }
}

/// Handling, without the stocks (steps of their own) and without what stands before the first weighing.
fn handling<'a>(plan: &'a Plan, bottle: &'a Bottle) -> impl Iterator<Item = &'a String> {
    let said = |line: &String| {
        bottle.from_stock.iter().any(|stock| stock.sentence == *line)
            || plan.cautions.iter().any(|note| note.stands() == Stands::Weighing && note.text == *line)
    };
    bottle.handling.iter().filter(move |line| !said(line))
}

fn from_stock(sheet: &Sheet, plan: &Plan, stock: &FromStock) -> Markup {
    html! { (sentence(&stock.sentence)) (sheet.why(plan.why(&stock.why))) }
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

/// The cautions that belong to this bottle.
pub fn cautions<'a>(plan: &'a Plan, bottle: &'a Bottle) -> impl Iterator<Item = &'a Note> {
    plan.cautions.iter().filter(|note| belongs(note, bottle))
}

/// Whether a note speaks of a bottle or of something in it.
pub fn belongs(note: &Note, bottle: &Bottle) -> bool {
    let inside = bottle.weighed.iter().map(|w| (&w.product, &w.name));
    let inside = inside.chain(bottle.from_stock.iter().map(|s| (&s.product, &s.name)));
    note.about == bottle.name || inside.into_iter().any(|(product, name)| note.about == *product || note.about == *name)
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
