//! Log: what was read, done and seen, by date; written, mended and taken back where it stands.

use logbook::{Entry, Filter, Log, What};
use maud::{Markup, html};
use quantity::Fault;
use recipe::Plan;
use setup::{Setup, Tank};

use crate::act::{Act, Asked, Logs, Refused};
use crate::blank::Blank;
use crate::sheet::Sheet;

/// Entries that are shown at once.
const SHOWN: usize = 50;

/// What the letter has to do with the logbook.
pub const LOGS: Logs = Logs { reads, acts };

/// No number of the setup stands on this letter.
pub fn blanks(_: &Setup, _: &Tank, _: &Plan) -> Vec<Blank> {
    Vec::new()
}

fn reads(_: &Asked) -> Filter {
    Filter { last: Some(SHOWN), ..Filter::default() }
}

fn acts(act: &Act, log: &mut dyn Log) -> Result<String, Refused> {
    let note = act.form.get("note").map_or("", |note| note.trim());
    if act.act == "add" {
        if note.is_empty() {
            let fault = Fault::new("there is nothing to write").expected("a word of what you saw or did");
            return Err(Refused(vec![("note".to_owned(), fault)]));
        }
        log.add(vec![Entry { at: act.now.clone(), what: What::Words, note: note.to_owned() }])?;
    }
    Ok(String::new())
}

/// The verses.
pub fn write(sheet: &Sheet) -> Markup {
    let entries = sheet.log;
    html! {
        (sheet.opening(html! { (sheet.today.words()) }, html! { "What you saw and did." }, html! {}))
        (sheet.verse("Write", html! {
            p {
                input.entry name="note" value=(sheet.typed("note", "")) aria-label="What you saw or did";
                " " button.again name="act" value="add" { "write it down" }
                @if let Some(refused) = sheet.said.refused.get("note") { span.fault { (refused.fault) } }
            }
        }))
        (sheet.verse("Entries", html! {
            ul.plain { @for kept in entries { li { (kept.entry.at.date()) " " (kept.entry.note) } } }
        }))
    }
}
