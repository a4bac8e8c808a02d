//! Levels: what the plants take, and what follows at the waterside, as staves and as a table.

use maud::{Markup, html};
use quantity::units::NutrientBasis;
use quantity::{Ion, Known, Units, chem::atom};
use recipe::{Level, Plan};

use super::reading::{Reading, by_reading};
use crate::drawing::staff::{Staff, Tide, staff};
use crate::sheet::Sheet;
use crate::words::{NB, capital, figures, level, likely, span};

/// What the keeper reads a level in: factor from mg/L of the ion (or meq/L), and the unit's name.
pub fn basis(units: &Units, ion: Option<Ion>) -> (f64, &'static str) {
    let element = NutrientBasis::Element;
    match ion {
        None => (1.0, "meq/L"),
        Some(ion @ (Ion::Nitrate | Ion::Nitrite | Ion::Ammonium)) if units.nitrogen == element => {
            (atom::N / ion.molar_mass(), "mg/L as N")
        }
        Some(Ion::Phosphate) if units.phosphorus == element => (atom::P / Ion::Phosphate.molar_mass(), "mg/L as P"),
        Some(Ion::Nitrate) => (1.0, "mg/L as NO₃"),
        Some(Ion::Nitrite) => (1.0, "mg/L as NO₂"),
        Some(Ion::Ammonium) => (1.0, "mg/L as NH₄"),
        Some(Ion::Phosphate) => (1.0, "mg/L as PO₄"),
        Some(_) => (1.0, "mg/L"),
    }
}

/// The name of a level.
pub fn name(ion: Option<Ion>) -> &'static str {
    ion.map_or("alkalinity", Ion::name)
}

/// All levels, alkalinity last.
fn all(plan: &Plan) -> impl Iterator<Item = &Level> {
    plan.levels.iter().chain(std::iter::once(&plan.alkalinity))
}

/// What the plants take in a day.
pub fn taken(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let units = &sheet.units;
    let takes = |r: &Reading| r.plan.levels.iter().any(|l| l.uptake_per_day.value.abs() > 1e-6);
    if !readings.iter().any(takes) {
        return html! {};
    }
    let text = by_reading(
        readings,
        |r| r.plan.levels.iter().map(|l| (l.ion, l.uptake_per_day)).collect::<Vec<_>>(),
        |r| {
            let levels: Vec<&Level> = r.plan.levels.iter().filter(|l| l.uptake_per_day.value > 1e-6).collect();
            let last = levels.len().saturating_sub(1);
            html! {
                p {
                    "All this rests on what your plants take in a day, after what the food gives back: "
                    @for (i, l) in levels.iter().enumerate() {
                        @let (factor, unit) = basis(units, l.ion);
                        @if i > 0 { (if i == last { " and " } else { ", " }) }
                        (sheet.out_or_bold(&format!("{}{NB}{unit}", level(units, factor * l.uptake_per_day.value)), r.plan.why(&l.why)))
                        " of " (name(l.ion)) " (" (likely(units, &l.uptake_per_day.map(|v| factor * v))) ")"
                    }
                    ". Nobody can know this of your tank before it is measured; the spread is wide on purpose."
                }
            }
        },
    );
    sheet.verse("What the plants take", text)
}

/// Which levels get a staff: those that are given or aimed at, and that move.
fn drawn(level: &Level) -> bool {
    level.tide.len() > 1 && (level.dose_per_day > 0.0 || level.band.is_some())
}

/// Staves and table.
pub fn waterside(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let Some(first) = readings.first() else { return html! {} };
    let shown: Vec<Option<Ion>> = all(first.plan)
        .map(|l| l.ion)
        .filter(|ion| readings.iter().any(|r| find(r.plan, *ion).is_some_and(drawn)))
        .collect();
    let cycle = first.plan.change.every_days;
    html! {
        @if !shown.is_empty() {
            (sheet.verse_as("full", "At the waterside", html! {
                figure {
                    div.staves { @for ion in &shown { (one(sheet, readings, *ion)) } }
                    figcaption {
                        "The line is the best estimate, the wash where 90 of 100 tanks like yours lie."
                        @if cycle > 0 { " Each upright stroke is a change of water." }
                        " Dotted: what is aimed at."
                    }
                }
            }))
        }
        (sheet.verse_as("across", "The same as a table", table(sheet, readings)))
    }
}

fn find(plan: &Plan, ion: Option<Ion>) -> Option<&Level> {
    all(plan).find(|level| level.ion == ion)
}

fn one(sheet: &Sheet, readings: &[Reading], ion: Option<Ion>) -> Markup {
    let (factor, unit) = basis(&sheet.units, ion);
    let levels: Vec<(&Reading, &Level)> = readings.iter().filter_map(|r| Some((r, find(r.plan, ion)?))).collect();
    let Some((first, head)) = levels.first() else { return html! {} };
    let alike = levels.iter().all(|(_, l)| l.tide == head.tide && l.likely == head.likely);
    let lines = if alike { levels.get(..1).unwrap_or_default() } else { levels.as_slice() };
    let tides = lines.iter().map(|(r, l)| Tide {
        reading: if alike { None } else { r.label.clone() },
        points: &l.tide,
        likely: &l.likely,
        after_before: (l.after_change.value, l.before_change.value),
    });
    html! {
        div {
            (staff(&Staff {
                id: format!("staff-{}", name(ion)),
                name: capital(name(ion)),
                unit: unit.to_owned(),
                tides: tides.collect(),
                every_days: first.plan.change.every_days,
                band: head.band,
                factor,
                units: sheet.units,
            }))
            @if alike { p.why { (moves(head)) } }
        }
    }
}

/// Where a level goes between changes, in a sentence.
fn moves(level: &Level) -> String {
    let (after, before) = (level.after_change.value, level.before_change.value);
    let day = |d: f64| format!("{:.0}", d.floor());
    let mut said = match level.runs_out_day {
        Some(d) => format!("Runs out on day {}.", day(d)),
        None if before > 1.02 * after => "Climbs from change to change.".to_owned(),
        None if before < 0.98 * after => "Falls from change to change.".to_owned(),
        None => "Holds.".to_owned(),
    };
    if let (None, Some(d)) = (level.runs_out_day, level.runs_out_day_poorest) {
        said.push_str(&format!(" In the poorest case it runs out on day {}.", day(d)));
    }
    said
}

fn table(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let open = readings.len() > 1;
    html! {
        div.scroll tabindex="0" role="region" aria-label="Levels" {
            table {
                caption { "Levels in the tank. “Likely” is 90 of 100 tanks like yours, over the whole time between two changes." }
                thead { tr {
                    th scope="col" { "level" }
                    @for head in ["new water", "after a change", "before a change", "likely", "aimed at"] { th.n scope="col" { (head) } }
                } }
                tbody {
                    @for reading in readings { @for level in all(reading.plan) { (row(sheet, reading, level, open)) } }
                }
            }
        }
    }
}

fn row(sheet: &Sheet, reading: &Reading, l: &Level, open: bool) -> Markup {
    let units = &sheet.units;
    let (factor, unit) = basis(units, l.ion);
    let why = reading.plan.why(&l.why);
    let read = |known: &Known<f64>| level(units, factor * known.value);
    let (low, high) = (l.after_change.low.min(l.before_change.low), l.after_change.high.max(l.before_change.high));
    html! {
        tr {
            th scope="row" {
                (name(l.ion)) ", " (unit)
                @if open { @if let Some(label) = &reading.label { " if “" (label) "”" } }
            }
            td.n { (read(&l.new_water)) }
            td.n { (sheet.out_or_bold(&read(&l.after_change), why)) }
            td.n { (sheet.out_or_bold(&read(&l.before_change), why)) }
            td.n { (span(units, factor * low, factor * high)) }
            td.n { @if let Some((low, high)) = l.band { (figures(units, factor * low, 3)) (NB) "to" (NB) (figures(units, factor * high, 3)) } }
        }
    }
}
