//! Levels: what the plants take, and what follows at the waterside, as staves and as a table.

use maud::{Markup, html};
use quantity::units::NutrientBasis;
use quantity::{Ion, Kind, Known, Measure, Units, chem::atom};
use recipe::{Level, Plan};
use setup::Tank;

use super::reading::{Reading, by_reading};
use super::why_of;
use crate::drawing::staff::{Staff, Tide, staff};
use crate::sheet::Sheet;
use crate::words::{NB, capital, figures, level, likely, list, span};

/// What the keeper reads a level in: factor from mg/L of the ion (or meq/L), and the unit's name.
pub fn basis(units: &Units, ion: Option<Ion>) -> (f64, &'static str) {
    let element = NutrientBasis::Element;
    match ion {
        None => {
            let hardness = units.hardness;
            (1.0 / hardness.meq_per_unit(Measure::Alkalinity), hardness.name(Measure::Alkalinity))
        }
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

/// What the plants take in a day, and what the food gives back.
pub fn taken(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let rests = |r: &Reading| !r.plan.bottles.is_empty() || r.plan.levels.iter().any(|l| l.uptake_per_day.value > 0.0);
    if !readings.iter().any(rests) {
        return html! {};
    }
    let text = by_reading(readings, |r| r.tank.growth.clone(), |r| growth(sheet, r.tank));
    sheet.verse("What the plants take", text)
}

fn growth(sheet: &Sheet, tank: &Tank) -> Markup {
    let units = &sheet.units;
    let why = why_of(tank, "uptake");
    let takes = &tank.growth.uptake_mg_per_l_day;
    let with_it: Vec<(&Ion, &Known<f64>)> =
        takes.iter().filter(|(ion, known)| **ion != Ion::Nitrate && known.value > 0.0).collect();
    let nitrate = takes.get(&Ion::Nitrate).copied().unwrap_or(Known::exact(0.0, Kind::Assumed));
    let back = [(Ion::Nitrate, "food-nitrate"), (Ion::Phosphate, "food-phosphate")];
    let (factor, unit) = basis(units, Some(Ion::Nitrate));
    html! {
        p {
            "All this rests on what your plants take in a day: about " (sheet.blank("plants.uptake_nitrate", &format!(" {unit}")))
            " of nitrate (" (likely(units, &nitrate.map(|v| factor * v))) "), and with it"
            @for (i, (ion, known)) in with_it.iter().enumerate() {
                (joint(i, with_it.len())) (sheet.out_or_bold(&amount(units, **ion, known.value), why)) " of " (ion.name())
            }
            ". The food gives back"
            @for (i, (ion, key)) in back.iter().enumerate() {
                @let given = tank.growth.food_mg_per_l_day.get(ion).map_or(0.0, |known| known.value);
                (joint(i, back.len())) (sheet.out_or_bold(&amount(units, *ion, given), why_of(tank, key))) " of " (ion.name())
            }
            ". Nobody can know this of your tank before it is measured; so every answer is tried over the whole likely range."
        }
    }
}

/// What stands before the i-th of n things in a list.
fn joint(i: usize, n: usize) -> &'static str {
    match i {
        0 => " ",
        i if i + 1 == n => " and ",
        _ => ", ",
    }
}

/// "0.3 mg/L as NO₃".
pub fn amount(units: &Units, ion: Ion, mg_per_l: f64) -> String {
    let (factor, unit) = basis(units, Some(ion));
    format!("{}{NB}{}", level(units, factor * mg_per_l), unit.replace(' ', NB))
}

/// Which levels get a staff: those that are aimed at.
fn drawn(level: &Level) -> bool {
    level.tide.len() > 1 && level.band.is_some()
}

/// Whether something is given that brings it, or something is said of it that has to be minded.
fn told_of(plan: &Plan, ion: Option<Ion>) -> bool {
    let given = |ion: Ion| plan.doses.iter().any(|dose| dose.brings.iter().any(|(brought, _)| *brought == ion));
    let minded =
        plan.cautions.iter().any(|note| note.about == name(ion)) || plan.unmet.iter().any(|unmet| unmet.ion == ion);
    minded || ion.is_some_and(given)
}

fn names(ions: &[Option<Ion>]) -> Vec<&'static str> {
    ions.iter().map(|ion| name(*ion)).collect()
}

/// Staves and table.
pub fn waterside(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let Some(first) = readings.first() else { return html! {} };
    let shown: Vec<Option<Ion>> = all(first.plan)
        .map(|l| l.ion)
        .filter(|ion| readings.iter().any(|r| find(r.plan, *ion).is_some_and(drawn)))
        .collect();
    let cycle = first.plan.change.every_days;
    let (mut moved, mut still): (Vec<_>, Vec<_>) =
        shown.iter().partition(|ion| readings.iter().any(|r| told_of(r.plan, **ion)));
    if moved.is_empty() {
        std::mem::swap(&mut moved, &mut still);
    }
    html! {
        @if !shown.is_empty() {
            (sheet.verse_as("across", "At the waterside", html! {
                figure {
                    div.staves { @for ion in &moved { (one(sheet, readings, *ion)) } }
                    figcaption {
                        "The line is the best estimate, the wash where 90 of 100 tanks like yours lie."
                        @if cycle > 0 { " Each upright stroke is a change of water." }
                        " Dotted: what is aimed at."
                    }
                }
                @if !still.is_empty() { details.more {
                    summary { "The others, to which I add nothing: " (list(&names(&still))) }
                    div.staves { @for ion in &still { (one(sheet, readings, *ion)) } }
                } }
            }))
        }
        (sheet.verse_as("across", "", html! {
            details.more open[shown.is_empty() || sheet.said.why.is_some()] {
                summary { "The same as a table, all levels" }
                (table(sheet, readings))
            }
        }))
    }
}

/// Levels count as apart from a tenth on; more than three of them nobody reads.
const APART: (f64, usize) = (0.1, 3);

/// Where this reading's levels stand apart from those of the others, in a sentence; empty where they don't.
pub fn apart(sheet: &Sheet, reading: &Reading, others: &[Reading]) -> String {
    let units = &sheet.units;
    let gap = |l: &Level| {
        let other = others.iter().filter_map(|r| find(r.plan, l.ion)).map(|o| (o.highest - l.highest).abs());
        other.fold(0.0, f64::max) / l.highest.abs().max(1e-9)
    };
    // What is neither asked about nor aimed at follows from the salts alone, and says nothing of the answer.
    let asked = |l: &Level| {
        sheet.question().is_some_and(|question| l.ion.is_some_and(|ion| question.field.ends_with(ion.name())))
    };
    let mut levels: Vec<&Level> =
        all(reading.plan).filter(|l| gap(l) > APART.0 && (l.band.is_some() || asked(l))).collect();
    levels.sort_by(|a, b| gap(b).total_cmp(&gap(a)));
    levels.truncate(APART.1);
    let said: Vec<String> = levels
        .iter()
        .map(|l| {
            let (factor, unit) = basis(units, l.ion);
            format!("{}{NB}{unit} of {}", span(units, factor * l.lowest, factor * l.highest), name(l.ion))
        })
        .collect();
    if said.is_empty() { String::new() } else { format!("Then {} stand in the tank.", list(&said)) }
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
                until_today: head.unchanged_days.is_some() && first.tank.unchanged_days().is_some(),
                band: head.band,
                factor,
                units: sheet.units,
                marks: Vec::new(),
            }))
            @if alike { p { (moves(head)) } }
        }
    }
}

/// Where a level goes between changes, in a sentence.
fn moves(level: &Level) -> String {
    let (after, before) = (level.after_change.value, level.before_change.value);
    let kept = level.unchanged_days.is_some();
    let day = |d: f64| format!("runs out on day {:.0}", d.floor());
    let mut said = match level.runs_out_day {
        Some(d) if d < 1.0 => "There is next to none.".to_owned(),
        Some(d) if kept => format!("By the sums none is left from day {:.0} after it was filled.", d.floor()),
        Some(d) => format!("{}.", capital(&day(d))),
        None if kept && before > 1.02 * after => "Rises: no change takes it out.".to_owned(),
        None if kept && before < 0.98 * after => "Falls: no change brings it back.".to_owned(),
        None if before > 1.02 * after => "Rises between changes.".to_owned(),
        None if before < 0.98 * after => "Falls between changes.".to_owned(),
        None => "Holds.".to_owned(),
    };
    match (level.runs_out_day, level.runs_out_day_poorest) {
        (None, Some(d)) if d < 1.0 => said.push_str(" In the poorest case there is next to none."),
        (None, Some(d)) => said.push_str(&format!(" In the poorest case it {}.", day(d))),
        _ => {}
    }
    said
}

fn table(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let open = readings.len() > 1;
    let first = readings.first().map(|reading| &reading.plan.alkalinity);
    let (after, before) = first.map_or(("", ""), recipe::levels::marks);
    let over = match first.and_then(|level| level.unchanged_days) {
        None => "over the whole time between two changes".to_owned(),
        Some(days) => format!("over the {days} days since it was filled or changed whole"),
    };
    html! {
        div.scroll tabindex="0" role="region" aria-label="Levels" {
            table {
                caption { "Levels in the tank. “Likely” is 90 of 100 tanks like yours, " (over) "." }
                thead { tr {
                    th scope="col" { "level" }
                    @for head in ["new water", after, before, "likely", "aimed at"] { th.n scope="col" { (head) } }
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
