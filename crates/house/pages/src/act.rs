//! Acts: what a button of a letter writes into the logbook, and the way back.
//!
//! A letter that has to do with the logbook says so in its row of the table ([`crate::routes::Page::logs`]): which
//! entries it reads, and what its acts write. An act is a submit button of the letter's one form, `name="act"`. Blanks
//! that were typed over are rewritten first; if one of them is refused, the act waits. `undo@7` takes back writing 7 if
//! it is still the last one, `redo@7` does it again: every letter that has to do with the logbook has both.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use logbook::{Filter, Kept, Log, Writing};
use maud::{Markup, html};
use quantity::Fault;
use recipe::Answer;
use setup::{Setup, Shelf};

use crate::sheet::{Refusal, Said, Sheet};

/// What a letter has to do with the logbook.
pub struct Logs {
    /// Which entries it reads.
    pub reads: fn(&Asked) -> Filter,
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
    /// The setup that holds.
    pub setup: &'a Setup,
    /// What follows from it.
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
#[derive(Default)]
pub struct Logged {
    /// The entries that the letter reads, the latest first.
    pub entries: Vec<Kept>,
    /// The last writing that was not taken back.
    pub writing: Option<Writing>,
}

/// The act that a form asks for, if it asks for one.
pub fn asked_for(body: &[u8]) -> Option<(String, Form)> {
    let form: Form = form_urlencoded::parse(body).into_owned().collect();
    form.get("act").cloned().map(|act| (act, form))
}

/// What a letter reads.
pub fn read(shelf: &mut dyn Shelf, tank: u64, logs: Option<&Logs>, asked: &Asked) -> Result<Logged, Fault> {
    let Some(logs) = logs else { return Ok(Logged::default()) };
    let log = shelf.log(tank)?;
    Ok(Logged { entries: log.list(&(logs.reads)(asked))?, writing: log.last_writing()? })
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
            said.told.push(fault.to_string());
        } else {
            let typed = said.typed.get(&field).cloned().unwrap_or_default();
            said.refused.insert(field, Refusal { typed, fault: fault.to_string() });
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
        self.writing = logged.writing.as_ref();
    }

    /// What became of the last act, with the way back.
    pub fn acted(&self) -> Markup {
        let number = self.writing.map_or(0, |writing| writing.number);
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
