//! Signs: a letter about what is seen, held against this tank's own numbers; nothing is written unless it is asked for.

mod found;
mod sketch;

use knowledge::{SightGroup, book};
use logbook::{Entry, Filter, Log, What};
use maud::{Markup, html};
use recipe::Plan;
use setup::{Setup, Tank};
use signs::{Finding, judge, judge_seen};

use crate::act::{Act, Asked, Logs, Refused, add};
use crate::blank::Blank;
use crate::parts;
use crate::salts::reading::{Reading, readings};
use crate::sheet::Sheet;
use crate::start::missing_glass;
use crate::words::glued;

/// What the letter has to do with the logbook.
pub const LOGS: Logs = Logs { reads, also: None, enter: None, acts };

/// No number of the setup stands on this letter.
pub fn blanks(_: &Setup, _: &Tank, _: &Plan) -> Vec<Blank> {
    Vec::new()
}

fn reads(asked: &Asked) -> Filter {
    signs::reads(asked.now)
}

/// Writes what is ticked into the log.
fn acts(act: &Act, log: &mut dyn Log) -> Result<String, Refused> {
    let ticked = book().sights.keys().filter(|key| act.form.contains_key(*key));
    let entries: Vec<Entry> = ticked
        .map(|key| Entry { at: act.now.clone(), what: What::Sight { sight: key.clone() }, note: String::new() })
        .collect();
    if act.act != "seen" || entries.is_empty() {
        return Err(quantity::Fault::new("nothing is ticked").expected("at least one thing that you see").into());
    }
    add(act, log, entries)?;
    Ok(String::new())
}

/// The verses. While a question is open each reply has its own findings, and nothing is decided on one of them.
pub fn write(sheet: &Sheet) -> Markup {
    if let Some(untold) = missing_glass(sheet, "Tell me your glass first: signs are held against your numbers.") {
        return untold;
    }
    let all = readings(sheet.answer);
    let ticked: Vec<&str> =
        book().sights.keys().map(String::as_str).filter(|key| sheet.said.typed.contains_key(*key)).collect();
    let seen = |r: &Reading| judge_seen(r.tank, r.plan, sheet.log, sheet.now, &ticked, &[]);
    // What is ticked is not told twice.
    let rest = |r: &Reading| -> Vec<Finding> {
        let seen = seen(r);
        let logged = judge(r.tank, r.plan, sheet.log, sheet.now);
        logged.into_iter().filter(|finding| !seen.iter().any(|known| known.about == finding.about)).collect()
    };
    html! {
        (opening(sheet, all.is_empty(), all.first().map_or(0, |first| seen(first).len())))
        (found_by(sheet, &all, &seen))
        (choose(sheet))
        @if all.iter().any(|reading| !rest(reading).is_empty()) {
            (sheet.verse("From your log", html! { p { "Of the last two weeks, the most urgent first:" } }))
            (found_by(sheet, &all, &rest))
        }
    }
}

/// Findings once where all readings agree, else under the reply that they hang on.
fn found_by(sheet: &Sheet, all: &[Reading], of: &dyn Fn(&Reading) -> Vec<Finding>) -> Markup {
    let found: Vec<(&Reading, Vec<Finding>)> = all.iter().map(|reading| (reading, of(reading))).collect();
    let same = found.windows(2).all(|pair| matches!(pair, [a, b] if a.1 == b.1));
    html! {
        @for (reading, findings) in found.iter().take(if same { 1 } else { found.len() }) {
            @if !same {
                section.verse { h2 { "If “" (glued(reading.label.as_deref().unwrap_or("so"))) "”" } }
            }
            @for finding in findings { (found::verse(sheet, finding)) }
        }
    }
}

fn opening(sheet: &Sheet, nothing: bool, seen: usize) -> Markup {
    let open = sheet.question();
    let answer = match (open, seen) {
        (Some(_), 0) => "One question first: signs are held against your numbers.",
        (None, 0) => "What do you see?",
        (_, 1) => "This is what it can be, here.",
        _ => "One change at a time: begin with the first.",
    };
    let under = html! {
        @if let Some(question) = open { (parts::question(question, &[])) }
        @if seen == 0 && !nothing {
            p { "Tick it. I hold what practice blames for it against your own numbers, strike out what this tank can’t have, and say where nobody knows." }
        }
    };
    sheet.opening(html! { (sheet.today.words()) }, html! { (answer) }, under)
}

/// The sights to tick, with a sketch of each.
fn choose(sheet: &Sheet) -> Markup {
    let group = |group: SightGroup| book().sights.iter().filter(move |(_, sight)| sight.group == group);
    html! {
        @for of in SightGroup::ALL {
            (sheet.verse(of.words(), html! {
                ul.sights { @for (key, sight) in group(of) {
                    li { label.sight {
                        input type="checkbox" name=(key) value="yes" aria-label=(sight.name) checked[sheet.said.typed.contains_key(key)];
                        (sketch::of(key))
                        span { b { (sight.name) } small { (sight.seen) } }
                    } }
                } }
            }))
        }
        section.verse { p.ask-signs {
            button.send formmethod="get" name="do" value="read" { "What can it be?" }
            button.again name="act" value="seen" { "write it into the log" }
        } }
    }
}
