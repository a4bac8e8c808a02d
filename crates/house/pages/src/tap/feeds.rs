//! What the changes of a week bring, beside what the plants take in it.

use maud::{Markup, html};
use quantity::{Ion, Kind, Why};
use recipe::Plan;

use crate::salts::levels::{basis, name};
use crate::salts::reading::{Reading, by_reading};
use crate::sheet::Sheet;
use crate::words::{days, figures, glued, level, span};

/// Days of a week.
const WEEK: f64 = 7.0;

/// The verse. With an open question only the rows that hang on it stand more than once.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let feeds = readings.iter().any(|r| changes(r.plan));
    let text = html! {
        (by_reading(readings, |r| (shown_share(sheet, r), r.plan.change.every_days, r.plan.change.limited.is_some()), |r| said(sheet, r.plan)))
        @if feeds {
            (table(sheet, readings))
            p { "Food brings nitrate and phosphate too; it is taken off what the plants take. What is still lacking stands on " a href=(sheet.letter("salts")) { "Salts" } "." }
        }
    };
    sheet.verse("What it feeds", text)
}

/// The share of a change as it is read.
fn shown_share(sheet: &Sheet, reading: &Reading) -> String {
    figures(&sheet.units, 100.0 * reading.plan.change.share, 3)
}

fn changes(plan: &Plan) -> bool {
    plan.change.every_days > 0 && plan.change.share > 0.0
}

fn said(sheet: &Sheet, plan: &Plan) -> Markup {
    let change = &plan.change;
    if !changes(plan) {
        return html! { p { "You change no water, so your tap feeds the plants only by what tops up." } };
    }
    html! {
        p {
            @if change.limited.is_some() { "Less at a time than is your habit; why, stands on " a href=(sheet.letter("salts")) { "Salts" } ". " }
            "A change of " (sheet.amount("habits.change", change.share, "yours is", "")) ", again after " (sheet.amount("habits.every", f64::from(change.every_days), "yours is", ","))
            " brings into each litre of the tank, in milligrams a week:"
        }
    }
}

fn table(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let levels =
        |r: &Reading| r.plan.levels.iter().filter(|l| l.uptake_per_day.high > 0.0).map(|l| l.ion).collect::<Vec<_>>();
    let mut ions = Vec::new();
    for ion in readings.iter().flat_map(levels) {
        if !ions.contains(&ion) {
            ions.push(ion);
        }
    }
    html! {
        div.scroll tabindex="0" role="region" aria-label="What a week of changes brings" {
            table {
                thead { tr {
                    th scope="col" { "mg/L a week" }
                    th.n scope="col" { "changes bring" }
                    th.n scope="col" { "plants take, after food" }
                    th.n scope="col" { "likely" }
                } }
                tbody { @for ion in ions {
                    @let rows: Vec<Row> = readings.iter().filter_map(|r| row(sheet, r, ion)).collect();
                    @let alike = rows.windows(2).all(|pair| pair[0].reads() == pair[1].reads());
                    @for row in rows.iter().take(if alike { 1 } else { rows.len() }) { (row.written(sheet, !alike)) }
                } }
            }
        }
    }
}

/// A row of the table.
struct Row {
    head: String,
    reading: Option<String>,
    brings: String,
    takes: String,
    likely: String,
    why: Why,
}

impl Row {
    fn reads(&self) -> [&str; 3] {
        [&self.brings, &self.takes, &self.likely]
    }

    fn written(&self, sheet: &Sheet, named: bool) -> Markup {
        html! {
            tr {
                th scope="row" { (self.head) @if named { @if let Some(label) = &self.reading { " if “" (glued(label)) "”" } } }
                td.n { (sheet.out(&self.brings, &self.why)) }
                td.n { (self.takes) }
                td.n { (self.likely) }
            }
        }
    }
}

fn row(sheet: &Sheet, reading: &Reading, ion: Option<Ion>) -> Option<Row> {
    let (units, plan) = (&sheet.units, reading.plan);
    let l = plan.levels.iter().find(|l| l.ion == ion)?;
    let (factor, unit) = basis(units, l.ion);
    let weeks = WEEK / f64::from(plan.change.every_days.max(1));
    let brings = factor * plan.change.share * l.new_water.value * weeks;
    let takes = l.uptake_per_day.map(|v| (factor * v * WEEK).max(0.0));
    let why = Why {
        key: format!("tap-feeds-{}", name(l.ion)),
        question: format!("why {} {} a week?", level(units, brings), name(l.ion)),
        sum: format!(
            "{} × {} {unit} × {} ÷ {} = {} {unit}",
            figures(units, plan.change.share, 3),
            figures(units, factor * l.new_water.value, 3),
            figures(units, WEEK, 3),
            days(units, f64::from(plan.change.every_days)),
            figures(units, brings, 3)
        ),
        words: "The share that is changed times what the new water holds. The old water takes its own share out with it, so levels rise by less: see Salts.".to_owned(),
        sources: Vec::new(),
        kind: l.new_water.kind.weaker(Kind::WorkedOut),
    };
    Some(Row {
        head: format!("{}{}", name(l.ion), unit.trim_start_matches("mg/L")),
        reading: reading.label.clone(),
        brings: level(units, brings),
        takes: level(units, takes.value),
        likely: span(units, takes.low, takes.high),
        why,
    })
}
