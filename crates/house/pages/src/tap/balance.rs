//! Does the report add up? Two columns of ions, and the same as a table.

use maud::{Markup, html};
use quantity::{Ion, Kind, Known, Why};

use super::swings::over_the_year;
use super::{IONS, field};
use crate::drawing::ions::{Block, Columns, columns, equivalents};
use crate::salts::levels::basis;
use crate::salts::reading::Reading;
use crate::sheet::Sheet;
use crate::words::{NB, capital, figures, level};

/// Both columns of one reading, meq/L.
struct Sides {
    cations: f64,
    anions: f64,
}

/// meq/L of an ion of the tap.
fn meq(reading: &Reading, ion: Ion) -> f64 {
    equivalents(ion).abs() * reading.tank.tap.mg_per_l(ion).value / ion.molar_mass()
}

fn sides(reading: &Reading) -> Sides {
    let sum = |positive: bool| {
        Ion::ALL
            .iter()
            .filter(|ion| equivalents(**ion) != 0.0 && (equivalents(**ion) > 0.0) == positive)
            .map(|ion| meq(reading, *ion))
            .sum::<f64>()
    };
    Sides { cations: sum(true), anions: sum(false) + reading.tank.tap.alkalinity_meq_per_l.value.max(0.0) }
}

/// "The columns below differ by 0.1 meq/L." For the reply of an open question.
pub fn difference(sheet: &Sheet, reading: &Reading) -> String {
    let Sides { cations, anions } = sides(reading);
    format!("The two columns further down then differ by {}{NB}meq/L.", level(&sheet.units, (cations - anions).abs()))
}

/// The verse.
pub fn verse(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let Some(first) = readings.first() else { return html! {} };
    sheet.verse_as(
        "across",
        "Does the report add up?",
        html! {
            figure {
                div.ions {
                    (columns(&drawing(sheet, readings)))
                    (table(sheet, readings))
                }
                figcaption { (caption(sheet, readings)) }
            }
            @if readings.len() == 1 { p { (verdict(sheet, first)) } }
        },
    )
}

/// Ions whose amount the open question decides.
fn doubtful(readings: &[Reading]) -> Vec<Ion> {
    let Some((first, others)) = readings.split_first() else { return Vec::new() };
    let differs = |ion: &Ion| others.iter().any(|other| other.tank.tap.mg_per_l(*ion) != first.tank.tap.mg_per_l(*ion));
    Ion::ALL.into_iter().filter(differs).collect()
}

fn drawing(sheet: &Sheet, readings: &[Reading]) -> Columns {
    let open = doubtful(readings);
    let block = |name: &str, value: f64| Block { name: name.to_owned(), meq: value, under: None };
    let (mut cations, mut anions, mut doubts) = (Vec::new(), Vec::new(), Vec::new());
    if let Some(first) = readings.first() {
        let buffer = first.tank.tap.alkalinity_meq_per_l.value.max(0.0);
        anions.push(block("the buffer", buffer));
        let mut ions: Vec<Ion> =
            Ion::ALL.into_iter().filter(|ion| equivalents(*ion) != 0.0 && !open.contains(ion)).collect();
        ions.sort_by(|a, b| meq(first, *b).total_cmp(&meq(first, *a)));
        for ion in ions {
            let side = if equivalents(ion) > 0.0 { &mut cations } else { &mut anions };
            side.push(block(ion.name(), meq(first, ion)));
        }
    }
    for ion in open.into_iter().filter(|ion| equivalents(*ion) != 0.0) {
        let mut ways: Vec<Block> = readings
            .iter()
            .map(|r| Block {
                under: r.label.as_ref().map(|label| format!("if “{label}”")),
                ..block(ion.name(), meq(r, ion))
            })
            .collect();
        ways.sort_by(|a, b| a.meq.total_cmp(&b.meq));
        ways.dedup_by(|a, b| a.meq == b.meq);
        doubts.push((equivalents(ion) > 0.0, ways));
    }
    Columns { id: "tap-ions".to_owned(), cations, anions, doubts, units: sheet.units }
}

fn caption(sheet: &Sheet, readings: &[Reading]) -> Markup {
    html! {
        "Water carries no charge, so the two columns are equal in a report without a mistake. Left what is charged plus, right what is charged minus, both counted in meq/L: so many charges in a litre."
        @if readings.len() > 1 {
            @for reading in readings {
                " " (capital(&format!("read “{}”", reading.label.as_deref().unwrap_or("so")))) " they differ by "
                b { (level(&sheet.units, (sides(reading).cations - sides(reading).anions).abs())) (NB) "meq/L" } "."
            }
            " Which of them stands more level is for your eye; I decide nothing by it."
        }
    }
}

fn verdict(sheet: &Sheet, reading: &Reading) -> Markup {
    let Sides { cations, anions } = sides(reading);
    let all = cations + anions;
    let percent = if all > 0.0 { 100.0 * (cations - anions) / all } else { 0.0 };
    let shown = format!("{}{NB}%", level(&sheet.units, percent.abs()));
    let worked = reading.tank.whys.iter().find(|why| why.key == "tap-balance").cloned();
    let why = worked.unwrap_or_else(|| Why {
        key: "tap-balance".to_owned(),
        question: format!("why {}?", shown.replace(NB, " ")),
        sum: format!(
            "({} − {}) ÷ ({} + {}) = {shown}",
            figures(&sheet.units, cations, 3),
            figures(&sheet.units, anions, 3),
            figures(&sheet.units, cations, 3),
            figures(&sheet.units, anions, 3)
        ),
        words: "The difference of the two columns over their sum.".to_owned(),
        sources: vec!["standard_methods_1030".to_owned()],
        kind: Kind::WorkedOut,
    });
    let guessed = IONS
        .iter()
        .filter(|ion| {
            equivalents(**ion) != 0.0
                && reading.tank.tap.mg_per_l(**ion).kind == Kind::Assumed
                && meq(reading, **ion) > 0.0
        })
        .count();
    html! {
        "Yours differ by " (sheet.out(&shown, &why)) " of the whole. "
        @if guessed > 0 {
            "Some of these ions nobody measured; I chose them within what is usual so that the columns meet as well as they can. So this says little about your report."
        } @else {
            "Reports round, and leave out what is scarce: a few per cent are ordinary. Many more mean that a number is in another unit than it says."
        }
    }
}

fn table(sheet: &Sheet, readings: &[Reading]) -> Markup {
    let open = doubtful(readings);
    let Some(first) = readings.first() else { return html! {} };
    let shown = |ion: &&Ion| first.tank.tap.mg_per_l(**ion).high > 0.0 && equivalents(**ion) != 0.0;
    html! {
        details.more { summary { "The same as a table" } div.scroll tabindex="0" role="region" aria-label="The two columns as a table" {
            table {
                thead { tr {
                    th scope="col" { "ion" } th.n scope="col" { "mg/L" } th.n scope="col" { "over the year" } th.n scope="col" { "meq/L" } th scope="col" { "known" }
                } }
                tbody {
                    @for ion in Ion::ALL.iter().filter(shown) {
                        @for reading in readings.iter().take(if open.contains(ion) { readings.len() } else { 1 }) { (row(sheet, reading, *ion, open.contains(ion))) }
                    }
                    @let buffer = first.tank.tap.alkalinity_meq_per_l;
                    tr {
                        th scope="row" { "the buffer" }
                        td.n {} td.n { (span_of(sheet, buffer)) } td.n { (figures(&sheet.units, buffer.value, 3)) } td { (buffer.kind.words()) }
                    }
                }
            }
        } }
    }
}

fn span_of(sheet: &Sheet, known: Known<f64>) -> String {
    let text = over_the_year(sheet, known, None);
    if text.is_empty() { text } else { format!("{text} {}", basis(&sheet.units, None).1) }
}

fn row(sheet: &Sheet, reading: &Reading, ion: Ion, open: bool) -> Markup {
    let (factor, unit) = basis(&sheet.units, Some(ion));
    let known = reading.tank.tap.mg_per_l(ion);
    let behind = unit.strip_prefix("mg/L").unwrap_or_default();
    let blank = sheet.blanks.get(&field(ion)).map_or(known.kind, |blank| blank.kind);
    html! {
        tr {
            th scope="row" {
                (ion.name()) (behind)
                @if open { @if let Some(label) = &reading.label { " if “" (label) "”" } }
            }
            td.n { (level(&sheet.units, factor * known.value)) }
            td.n { (over_the_year(sheet, known, Some(ion))) }
            td.n { (level(&sheet.units, meq(reading, ion))) }
            td { (blank.words()) }
        }
    }
}
