//! Salts: what to weigh into which bottle, how much a day, what level follows, and what was left out.

mod bottles;
mod buying;
mod labels;
mod levels;
mod new_water;
mod notes;
mod reading;

use maud::{Markup, html};
use quantity::Why;
use recipe::Plan;
use setup::Tank;

use crate::blank::Blank;
use crate::parts;
use crate::sheet::Sheet;
use crate::words::{NB, capital, count, counted, figures, level, list, money};
use reading::{Reading, readings};

/// The blanks of this letter.
pub fn blanks(tank: &Tank) -> Vec<Blank> {
    let units = &tank.units;
    let hand = &tank.at_hand;
    let number = |field: &str, known: quantity::Known<f64>, unit: &str, says: &str| {
        Blank::number(field, figures(units, known.value, 4), unit, says, known.kind)
    };
    let percent = tank.habits.change_share.map(|share| 100.0 * share);
    let mut all = vec![
        number("habits.change", percent, "%", "Share of the water changed, percent"),
        number("at_hand.bottle", hand.bottle_ml, "mL", "Size of a bottle, millilitres"),
        number("at_hand.daily", hand.daily_ml, "mL", "Daily dose from a bottle, millilitres"),
        number("at_hand.scale", hand.scale_g, "g", "Smallest step of the scale, grams"),
        number("at_hand.bucket", hand.bucket_l, "L", "Size of the bucket, litres"),
    ];
    all.extend(buying::blanks(tank));
    all
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    let readings = readings(sheet.answer);
    html! {
        (opening(sheet, &readings))
        @if readings.is_empty() {
            (sheet.verse("First of all", html! { p { "Several things are open at once. Answer the one above, and the next comes; the recipe follows when all are settled." } }))
        } @else {
            (bottles::verses(sheet, &readings))
            (new_water::verse(sheet, &readings))
            (levels::taken(sheet, &readings))
            (levels::waterside(sheet, &readings))
            (notes::left_out(sheet, &readings))
            (notes::wishes(sheet, &readings))
            (notes::mind(sheet, &readings))
            (buying::law(sheet, &readings))
            (buying::list(sheet, &readings))
            (labels::verse(sheet, &readings))
        }
    }
}

fn opening(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let first = readings.first();
    let dateline = html! {
        (sheet.today.words())
        @if let Some(Reading { plan, tank, .. }) = first {
            " · for " (sheet.out(&litres(sheet, plan.true_l.value), &true_litres(tank, plan))) ", "
            (sheet.blank("habits.change", " %")) " changed "
            @match plan.change.every_days { 0 => "never", 1 => "every day", 7 => "every week", n => { "every " (n) " days" } }
        }
    };
    let heads: Vec<String> = readings.iter().map(|r| headline(sheet, r)).collect();
    let agree = heads.split_first().is_some_and(|(head, others)| others.iter().all(|other| other == head));
    let answer = match (heads.first(), sheet.question()) {
        (Some(head), None) => head.clone(),
        (Some(head), Some(_)) if agree => format!("{head} That holds whatever you answer below."),
        _ => "One question first: what I weigh depends on your answer.".to_owned(),
    };
    sheet.opening(dateline, html! { (answer) }, slip(sheet))
}

fn slip(sheet: &Sheet) -> Markup {
    let Some(question) = sheet.question() else { return html! {} };
    let follows: Vec<Markup> = match sheet.answer {
        recipe::Answer::Open { outcomes, .. } => outcomes
            .iter()
            .map(|outcome| match readings(&outcome.answer).as_slice() {
                [only] => html! { (headline(sheet, only)) },
                _ => html! { "Then I have one more question." },
            })
            .collect(),
        recipe::Answer::Settled { .. } => Vec::new(),
    };
    html! {
        @if sheet.said.unknown.as_deref() == Some(question.field.as_str()) { (parts::ask_whom(question)) }
        (parts::question(question, &follows))
    }
}

/// The answer in a sentence or three.
fn headline(sheet: &Sheet, reading: &Reading) -> String {
    let (plan, tank) = (reading.plan, reading.tank);
    let units = &sheet.units;
    let mut said = vec![match plan.bottles.as_slice() {
        [] if tank.feeding == setup::Feeding::None => "Nothing to weigh: the ground feeds your plants.".to_owned(),
        [] if plan.unmet.is_empty() => "Nothing to weigh: tap and food bring what your plants take.".to_owned(),
        [] => "No bottle: what is lacking can’t be mended by one.".to_owned(),
        bottles => {
            let daily: Vec<String> = bottles.iter().map(|b| level(units, b.daily_ml)).collect();
            let alike = daily.iter().all(|d| Some(d) == daily.first());
            let each = match (bottles.len(), alike) {
                (1, _) => format!("{}{NB}mL a day", daily.join("")),
                (_, true) => format!("{}{NB}mL of each a day", daily.first().map_or("", String::as_str)),
                (_, false) => format!("{}{NB}mL a day", list(&daily)),
            };
            let cost = money(units, &tank.currency, a_month(plan));
            format!("{}, {each}, about {cost} a month.", capital(&counted(bottles.len(), "bottle", "bottles")))
        }
    }];
    if !plan.new_water.salts.is_empty() {
        let names: Vec<&str> = plan.new_water.salts.iter().map(|salt| salt.name.as_str()).collect();
        said.push(format!("Into the new water goes {}.", list(&names)));
    }
    let left: Vec<&str> = plan.left_out.iter().map(|n| n.about.as_str()).filter(|about| notes::is_ion(about)).collect();
    if !left.is_empty() {
        let verb = if left.len() == 1 { "is" } else { "are" };
        said.push(format!("{} {verb} left out: you have enough.", capital(&list(&left))));
    }
    match plan.unmet.len() + plan.refused.len() {
        0 => {}
        1 => said.push("One wish I can’t meet; it stands below.".to_owned()),
        n => said.push(format!("{} wishes I can’t meet; they stand below.", capital(&count(n)))),
    }
    said.join(" ")
}

/// What all of it costs a month, in minor units.
fn a_month(plan: &Plan) -> f64 {
    plan.shopping.iter().map(|purchase| purchase.a_month_minor).sum()
}

fn litres(sheet: &Sheet, value: f64) -> String {
    format!("{}{NB}litres", figures(&sheet.units, value, 3))
}

/// Why so many litres, from the setup if it says so.
fn true_litres(tank: &Tank, plan: &Plan) -> Why {
    let found = tank.whys.iter().chain(&plan.whys).find(|why| why.key.contains("litres"));
    found.cloned().unwrap_or_else(|| Why {
        key: "true-litres".to_owned(),
        question: format!("why {} litres?", figures(&tank.units, plan.true_l.value, 3)),
        sum: String::new(),
        words: "The water that is really in the glass, without ground, stones and wood, up to the waterline. A seller’s number is larger."
            .to_owned(),
        sources: Vec::new(),
        kind: plan.true_l.kind,
    })
}
