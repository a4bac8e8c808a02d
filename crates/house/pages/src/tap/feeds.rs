//! What the changes of a week bring, beside what the plants take in it.

use maud::{Markup, html};
use quantity::{Kind, Why};
use recipe::{Level, Plan};

use crate::salts::levels::{basis, name};
use crate::salts::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{figures, level, sentence, span};

/// Days of a week.
const WEEK: f64 = 7.0;

/// The verse.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let text = by_reading(
        readings,
        |r| {
            (
                r.plan.change.clone(),
                r.plan.levels.iter().map(|l| (l.ion, l.new_water, l.uptake_per_day)).collect::<Vec<_>>(),
            )
        },
        |r| text(sheet, r.plan),
    );
    sheet.verse("What it feeds", text)
}

fn text(sheet: &Sheet, plan: &Plan) -> Markup {
    let change = &plan.change;
    if change.every_days == 0 || change.share <= 0.0 {
        return html! { p { "You change no water, so your tap feeds the plants only by what tops up." } };
    }
    html! {
        p {
            @if let Some(limited) = &change.limited { (sentence(limited)) " So a" } @else { "A" }
            " change of " (sheet.amount("habits.change", change.share, "")) " every " (sheet.amount("habits.every", f64::from(change.every_days), ""))
            " brings into each litre of the tank, in milligrams a week:"
        }
        div.scroll tabindex="0" role="region" aria-label="What a week of changes brings" {
            table {
                thead { tr {
                    th scope="col" { "mg/L a week" }
                    th.n scope="col" { "changes bring" }
                    th.n scope="col" { "plants take, after food" }
                    th.n scope="col" { "likely" }
                } }
                tbody { @for level in plan.levels.iter().filter(|l| l.uptake_per_day.high > 0.0) { (row(sheet, plan, level)) } }
            }
        }
        p { "Food brings nitrate and phosphate too; it is taken off what the plants take. What is still lacking stands on " a href=(sheet.letter("salts")) { "Salts" } "." }
    }
}

fn row(sheet: &Sheet, plan: &Plan, l: &Level) -> Markup {
    let units = &sheet.units;
    let (factor, unit) = basis(units, l.ion);
    let weeks = WEEK / f64::from(plan.change.every_days.max(1));
    let brings = factor * plan.change.share * l.new_water.value * weeks;
    let takes = l.uptake_per_day.map(|v| (factor * v * WEEK).max(0.0));
    let why = Why {
        key: format!("tap-feeds-{}", name(l.ion)),
        question: format!("why {} {} a week?", level(units, brings), name(l.ion)),
        sum: format!(
            "{} × {} {unit} × {} ÷ {} days = {} {unit}",
            figures(units, plan.change.share, 3),
            figures(units, factor * l.new_water.value, 3),
            figures(units, WEEK, 3),
            plan.change.every_days,
            figures(units, brings, 3)
        ),
        words: "The share that is changed times what the new water holds. The old water takes its own share out with it, so levels rise by less: see Salts.".to_owned(),
        sources: Vec::new(),
        kind: l.new_water.kind.weaker(Kind::WorkedOut),
    };
    html! {
        tr {
            th scope="row" { (name(l.ion)) (unit.trim_start_matches("mg/L")) }
            td.n { (sheet.out(&level(units, brings), &why)) }
            td.n { (level(units, takes.value)) }
            td.n { (span(units, takes.low, takes.high)) }
        }
    }
}
