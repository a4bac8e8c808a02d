//! Where a report is given: a file, or a pasted text; those that are kept; and what to test where there is none.

use http::Response;
use maud::{Markup, html};
use quantity::{Digits, Fault, Units};
use report::estimate::NextTest;
use report::{By, Filed, combine};
use setup::Setup;

use super::{Asked, KEY, Read, all, place_of, posts, setup, status, upload};
use crate::ctx::{Ctx, Place, Today};
use crate::parts::{self, Head, frame};
use crate::respond;
use crate::words::{counted, list, sentence};

/// What is said when a form comes back.
#[derive(Default)]
struct Back {
    told: Vec<String>,
    fault: Option<Fault>,
    pasted: String,
}

/// Read the page, or give a report.
pub(super) fn answer(ctx: &mut Ctx, place: Place, asked: Asked) -> Result<Response<Vec<u8>>, Fault> {
    let tank = place.tank.unwrap_or_default();
    let setup = setup(ctx.shelf, tank)?;
    let (reports, faults) = all(ctx.shelf, tank)?;
    let mut back = Back { fault: faults.into_iter().next(), ..Back::default() };
    if posts(asked.request) {
        // Read in this process where nobody did it before.
        let given =
            asked.uploaded.or_else(|| upload(place.base, asked.request, &|name, bytes| report::read(name, bytes)));
        match given.unwrap_or_else(|| Err(Fault::new("nothing was given"))) {
            Err(fault) => back.fault = Some(fault),
            Ok(given) if given.report.readings.is_empty() => {
                back.told = given.unread();
                back.pasted = given.pasted;
            }
            Ok(given) => return Ok(respond::see_other(&super::file(ctx, tank, given, false)?)),
        }
    }
    let status = status(posts(asked.request));
    Ok(respond::page(status, page(place, Today::of(&ctx.now), &setup, &reports, &back)))
}

fn page(place: Place, today: Today, setup: &Setup, reports: &[Read], back: &Back) -> Markup {
    let title = if back.fault.is_none() && back.told.is_empty() { "Water reports" } else { "Not taken: water reports" };
    let head = Head { place, title, current: Some("tap"), class: "page-report" };
    let main = html! {
        form.first.reports method="post" enctype="multipart/form-data" action=(place.letter(KEY)) autocomplete="off" {
            button.off-screen name="do" value="read" tabindex="-1" { "Read it" }
            section.verse {
                p.dateline { (today.words()) " · reports about your tap" }
                @if !back.told.is_empty() || back.fault.is_some() {
                    div.told role="status" {
                        @for told in &back.told { p { (told) } }
                        @if let Some(fault) = &back.fault { p { (parts::fault(fault)) } }
                    }
                }
                h1.answer { "Give me your water report, in any of five languages. I show what I read beside the original, and ask where it leaves something open." }
                (kept(place, reports))
                (fields(back))
            }
            (untold(setup, reports))
        }
    };
    frame(&head, main)
}

/// The reports that are kept, each with what it waits for.
fn kept(place: Place, reports: &[Read]) -> Markup {
    html! {
        @if !reports.is_empty() {
            div.text {
                ul.plain { @for read in reports {
                    li {
                        a href=(place.letter(&format!("{KEY}/{}", read.kept.id))) { (read.kept.name) }
                        ", given on " (day(&read.kept.at)) ": " (state(&read.filed)) "."
                    }
                } }
            }
        }
    }
}

/// The day of a point in time.
pub(super) fn day(at: &str) -> &str {
    at.split('T').next().unwrap_or(at)
}

fn state(filed: &Filed) -> String {
    if filed.put_away {
        return "put away, counts for nothing".to_owned();
    }
    let by = match filed.by {
        By::Works => "",
        By::Keeper => "your own tests, ",
    };
    match (filed.asked().is_some(), filed.open()) {
        (true, open) => format!("{by}{} still open", counted(open, "question is", "questions are")),
        (false, 0) => format!("{by}{} read", counted(filed.report.readings.len(), "value", "values")),
        (false, open) => format!("{by}{} that you could not answer", counted(open, "question", "questions")),
    }
}

fn fields(back: &Back) -> Markup {
    html! {
        div.text.ask {
            p {
                label for="report" { "A file: PDF with text, spreadsheet (xlsx, ods), CSV, or a saved page of the web. Pick it, or drop it on its field." }
                input #report type="file" name="report" accept=".pdf,.xlsx,.ods,.csv,.tsv,.txt,.html,.htm";
            }
            p {
                label for="text" { "Or paste the text, or type what your tests showed, a line for each, for instance “GH 9 °dH”:" }
                textarea #text name="text" rows="7" spellcheck="false" autocapitalize="off" { (back.pasted) }
            }
            fieldset {
                legend { "Who measured?" }
                label.option { input type="radio" name="by" value="works" checked; span { "The supplier, or a laboratory." } }
                label.option { input type="radio" name="by" value="keeper"; span { "I did, at my own tap, with kits or a pen." small { "Kits err by more: their values count for less, and tell what the supplier can’t, such as a softener in the house." } } }
            }
            p { button.send name="do" value="read" { "Read it" } }
            p.small { "It is read on this machine and sent nowhere. A picture of a page can’t be read: copy its numbers as text." }
        }
    }
}

/// The tests that help most where nothing, or little, is known.
fn untold(setup: &Setup, reports: &[Read]) -> Markup {
    let counts: Vec<(&str, &Filed)> = reports.iter().map(|read| (read.kept.name.as_str(), &read.filed)).collect();
    let counts = if counts.iter().all(|(_, filed)| filed.put_away) { Vec::new() } else { counts };
    if !counts.is_empty() {
        return html! {};
    }
    let Some(combined) = combine(&[], place_of(setup)) else { return html! {} };
    html! {
        section.verse {
            h2 { "No report at all?" }
            div.text {
                p { "Then these tests, in this order, make a water that I can work with; the first tells most." }
                ol.steps { @for test in &combined.next { li { (said(test, &Units::default())) } } }
                p.small { "What is still missing then is filled in from what tap waters usually hold, with a wide range, and said so." }
            }
        }
    }
}

/// What one test is worth.
pub(super) fn said(test: &NextTest, units: &Units) -> String {
    let n = |value: f64| units.number(value, Digits::Significant(2));
    sentence(&format!(
        "{}: it narrows {} from a range {} {unit} wide to {}",
        capital_first(test.test),
        test.narrows.name(),
        n(test.width_now),
        n(test.width_then),
        unit = test.narrows.unit()
    ))
}

fn capital_first(text: &str) -> String {
    crate::words::capital(text)
}

/// Names in a row.
pub(super) fn named(names: &[String]) -> String {
    list(names)
}
