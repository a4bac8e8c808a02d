//! Acts: what a button of a letter writes into the logbook, and the way back.
//!
//! A letter that has to do with the logbook says so in its row of the table ([`crate::routes::Page::logs`]): which
//! entries it reads, and what its acts write. An act is a submit button of the letter's one form, `name="act"`. Blanks
//! that were typed over are rewritten first; if one of them is refused, the act waits. `undo@7` takes back writing 7 if
//! it is still the last one, `redo@7` does it again: every letter that has to do with the logbook has both.

use std::collections::BTreeMap;

use http::{Method, Request};
use jiff::ZonedDateTime;
use logbook::{Did, Entry, Filter, Kept, Log, Writing};
use maud::{Markup, html};
use quantity::Fault;
use recipe::Answer;
use setup::Shelf;

use crate::parts::in_words;
use crate::sheet::{Refusal, Said, Sheet};

/// What a letter has to do with the logbook.
pub struct Logs {
    /// Which entries it reads.
    pub reads: fn(&Asked) -> Filter,
    /// Which others it needs beside them, for instance for a drawing.
    pub also: Option<fn(&Asked) -> Filter>,
    /// The act that Enter does in a field; `None`: the letter is rewritten.
    pub enter: Option<&'static str>,
    /// What its acts write. What comes back goes into the address of the letter, for instance `kind=test`.
    pub acts: fn(&Act, &mut dyn Log) -> Result<String, Refused>,
}

/// What is known when entries are asked for.
pub struct Asked<'a> {
    /// Now, in the keeper's time zone.
    pub now: &'a ZonedDateTime,
    /// What the address says behind its question mark.
    pub query: &'a str,
}

/// An act in the making.
pub struct Act<'a> {
    /// Which: the value of the button.
    pub act: &'a str,
    /// Now, in the keeper's time zone.
    pub now: &'a ZonedDateTime,
    /// What stood in the form, by name.
    pub form: &'a Form,
    /// What follows from the setup that holds.
    pub answer: &'a Answer,
}

/// What stood in a form, by name; of a name that stands twice, the last text.
pub type Form = BTreeMap<String, String>;

/// Why an act was not done: each fault with the name of the field it belongs to; an empty name: it is told on top.
pub struct Refused(pub Vec<(String, Fault)>);

impl From<Fault> for Refused {
    fn from(fault: Fault) -> Refused {
        Refused(vec![(String::new(), fault)])
    }
}

/// The logbook as a letter sees it.
#[derive(Clone, Default, PartialEq)]
pub struct Logged {
    /// The entries that the letter reads, the latest first.
    pub entries: Vec<Kept>,
    /// The others that it needs, the latest first.
    pub others: Vec<Kept>,
    /// The last writing that was not taken back.
    pub writing: Option<Writing>,
}

/// The act that a form asks for, if it asks for one.
pub fn asked_for(body: &[u8]) -> Option<(String, Form)> {
    let form: Form = form_urlencoded::parse(body).into_owned().collect();
    form.get("act").cloned().map(|act| (act, form))
}

/// What the address of a letter says behind its question mark; of a letter that was sent back, its field `view`.
pub fn view(request: &Request<Vec<u8>>) -> String {
    if request.method() == Method::POST {
        let mut fields = form_urlencoded::parse(request.body());
        return fields.find(|(name, _)| name == "view").map_or_else(String::new, |(_, view)| view.into_owned());
    }
    request.uri().query().unwrap_or("").to_owned()
}

/// What a letter reads.
pub fn read(shelf: &mut dyn Shelf, tank: u64, logs: Option<&Logs>, asked: &Asked) -> Result<Logged, Fault> {
    let Some(logs) = logs else { return Ok(Logged::default()) };
    let log = shelf.log(tank)?;
    let others = logs.also.map_or(Ok(Vec::new()), |also| log.list(&also(asked)))?;
    Ok(Logged { entries: log.list(&(logs.reads)(asked))?, others, writing: log.last_writing()? })
}

/// Does an act; what comes back goes into the address of the letter.
pub fn done(logs: &Logs, act: &Act, log: &mut dyn Log) -> Result<String, Refused> {
    let before = log.last_writing()?;
    let number = |prefix: &str| act.act.strip_prefix(prefix).and_then(|number| number.parse::<u64>().ok());
    if let Some(number) = number("undo@") {
        // A page that was pressed twice, or that is older than the log, takes back nothing else.
        if before.is_some_and(|last| last.number == number) {
            log.undo()?;
        }
        return Ok(format!("undone={number}"));
    }
    if let Some(number) = number("redo@") {
        if before.is_none_or(|last| last.number < number) {
            log.redo()?;
        }
        return Ok(format!("wrote={number}"));
    }
    let mut query = (logs.acts)(act, log)?;
    if let Some(last) = log.last_writing()?.filter(|last| before.is_none_or(|before| before.number != last.number)) {
        query += &format!("{}wrote={}", if query.is_empty() { "" } else { "&" }, last.number);
    }
    Ok(query)
}

/// The field of a letter that says up to which writing of the log it was written.
pub const SEEN: &str = "seen";

/// Between two presses that are meant as one, at most, in seconds.
const TWICE_S: u64 = 60;

/// Writes entries; those of a form that was sent twice, as by a double press, once.
pub fn add(act: &Act, log: &mut dyn Log, entries: Vec<Entry>) -> Result<(), Fault> {
    if !pressed_twice(act, log, &entries)? {
        log.add(entries)?;
    }
    Ok(())
}

/// Whether the log had a writing since the form's letter was written, and that wrote the same a moment ago.
fn pressed_twice(act: &Act, log: &dyn Log, entries: &[Entry]) -> Result<bool, Fault> {
    let seen = act.form.get(SEEN).and_then(|seen| seen.parse::<u64>().ok());
    let Some((seen, last)) = seen.zip(log.last_writing()?) else { return Ok(false) };
    if last.number <= seen || last.did != Did::Added || last.count != entries.len() as u64 {
        return Ok(false);
    }
    for (id, entry) in (last.first..).zip(entries) {
        let apart = |kept: &Entry| kept.at.timestamp().duration_since(entry.at.timestamp()).unsigned_abs().as_secs();
        let same = |kept: Entry| kept.what == entry.what && kept.note == entry.note && apart(&kept) <= TWICE_S;
        if !log.entry(id)?.is_some_and(same) {
            return Ok(false);
        }
    }
    Ok(true)
}

/// What the house has to say of a form whose blanks were not taken, so that its act waits.
pub fn waits(mut said: Box<Said>, body: &[u8]) -> Box<Said> {
    if let Some((_, form)) = asked_for(body) {
        said.told.push("So I wrote nothing into the log yet: press the button once more.".to_owned());
        said.typed = form;
    }
    said
}

/// What the house has to say of an act that was not done: what was typed stays in its fields.
pub fn refused(Refused(faults): Refused, form: Form) -> Said {
    let mut said = Said { typed: form, ..Said::default() };
    for (field, fault) in faults {
        if field.is_empty() {
            said.told.push(in_words(&fault));
        } else {
            let typed = said.typed.get(&field).cloned().unwrap_or_default();
            said.refused.entry(field).or_insert_with(|| Refusal { typed, faults: Vec::new() }).faults.push(fault);
        }
    }
    if !said.refused.is_empty() {
        said.told.push("I wrote nothing into the log: see beside what you typed.".to_owned());
    }
    said
}

impl<'a> Sheet<'a> {
    /// Lays the log beside the sheet.
    pub fn take(&mut self, logged: &'a Logged) {
        self.log = &logged.entries;
        self.log_also = &logged.others;
        self.writing = logged.writing.as_ref();
    }

    /// The last writing of the log that holds; 0: there is none.
    pub fn writing_number(&self) -> u64 {
        self.writing.map_or(0, |writing| writing.number)
    }

    /// What became of the last act, with the way back.
    pub fn acted(&self) -> Markup {
        let number = self.writing_number();
        let (said, act, words) = match (self.said.wrote, self.said.undone) {
            (Some(wrote), _) if wrote == number => ("It stands in your log.", format!("undo@{wrote}"), "undo"),
            (_, Some(undone)) if undone > number => ("Taken back.", format!("redo@{undone}"), "put it back"),
            _ => return html! {},
        };
        html! {
            section.verse { div.told role="status" {
                p { (said) " " button.again name="act" value=(act) { (words) } }
            } }
        }
    }

    /// What was typed into a field of an act that was refused; else `usual`.
    pub fn typed(&self, field: &str, usual: &str) -> String {
        self.said.typed.get(field).map_or_else(|| usual.to_owned(), Clone::clone)
    }
}
