//! What a letter that comes back changes in the book.
//!
//! A blank counts as changed only if its text differs from what the letter's revision showed: a number that was
//! rounded for show, or assumed, is never written because it was sent along. The changes are then made on the
//! revision that holds now, blank by blank, whatever happened in between.

use std::collections::{BTreeMap, BTreeSet};

use quantity::Fault;
use recipe::Answer;
use setup::Setup;

use crate::blank::Blanks;
use crate::ctx::Ctx;
use crate::house::House;
use crate::sheet::{Refusal, Said};

/// What became of a form.
pub enum Posted {
    /// All of it was taken: look at the letter again, with this query.
    Taken(String),
    /// Something was refused; what could be taken was.
    Refused(Box<Said>),
    /// The form belongs to no revision of this book, or the book could not be written; nothing was changed.
    Unknown(Box<Said>),
}

/// A form, sorted.
#[derive(Default)]
struct Form {
    revision: Option<u64>,
    texts: BTreeMap<String, Vec<String>>,
    undo: Option<(String, u64)>,
    reply: Option<(String, String)>,
}

impl Form {
    fn read(body: &[u8]) -> Form {
        let mut form = Form::default();
        for (name, value) in form_urlencoded::parse(body) {
            match name.as_ref() {
                "revision" => form.revision = value.trim().parse().ok(),
                "undo" => form.undo = value.rsplit_once('@').and_then(|(f, r)| Some((f.to_owned(), r.parse().ok()?))),
                "reply" => form.reply = value.split_once('=').map(|(f, k)| (f.to_owned(), k.to_owned())),
                _ => form.texts.entry(name.into_owned()).or_default().push(value.trim().to_owned()),
            }
        }
        form
    }
}

/// The setup as it grows, and what it did not take.
struct Pen {
    setup: Setup,
    refused: BTreeMap<String, Refusal>,
}

impl Pen {
    fn write(&mut self, field: &str, text: &str, typed: &str) {
        match self.setup.with(field, text) {
            Ok(next) => self.setup = next,
            Err(faults) => self.refuse(field, typed, faults.to_string()),
        }
    }

    /// The field as an older setup had it. Where nothing else differs the older setup itself comes back, ranges and all.
    fn take_back(&mut self, field: &str, old: &Setup) {
        let below = format!("{field}.");
        let changes = self.setup.changes_to(old);
        if changes.iter().all(|change| change.field == field || change.field.starts_with(&below)) {
            self.setup = old.clone();
        } else {
            let text = old.written(field).unwrap_or_default();
            self.write(field, &text, &text);
        }
    }

    fn refuse(&mut self, field: &str, typed: &str, fault: String) {
        self.refused.insert(field.to_owned(), Refusal { typed: typed.to_owned(), fault });
    }
}

/// Take a form.
pub fn post(house: &House, ctx: &mut Ctx, body: &[u8]) -> Posted {
    let form = Form::read(body);
    let now = ctx.book.revision();
    let shown = form.revision.and_then(|revision| Some((revision, house.blanks_at(ctx, revision)?)));
    let (Some((revision, shown)), Some(setup)) = (shown, ctx.book.setup()) else {
        let told =
            "I can’t tell which letter this was written on, so I changed nothing. This is the letter as it stands.";
        return Posted::Unknown(Box::new(Said { told: vec![told.to_owned()], ..Said::default() }));
    };
    let mut pen = Pen { setup: setup.clone(), refused: BTreeMap::new() };
    fill(&mut pen, &form, &shown);
    if let Some((field, back_to)) = &form.undo
        && let Some(old) = ctx.book.setup_at(*back_to)
    {
        pen.take_back(field, old);
    }
    let unknown = reply(house, &mut pen, &form);
    let changes = setup.changes_to(&pen.setup);
    let Pen { setup, refused } = pen;
    let changed = !changes.is_empty();
    if changed && let Err(unwritten) = ctx.book.write_over(now, setup, changes) {
        return Posted::Unknown(Box::new(Said { told: vec![Fault::from(unwritten).to_string()], ..Said::default() }));
    }
    let older = revision != now && changed;
    if refused.is_empty() {
        return Posted::Taken(query(changed.then_some(now), older, unknown.as_deref()));
    }
    let told = "Something you wrote I could not take; it stands beside its number. The old number holds.".to_owned();
    Posted::Refused(Box::new(Said {
        told: vec![told],
        refused,
        before: changed.then_some(now),
        unknown,
        ..Said::default()
    }))
}

/// The blanks whose text differs from what was shown.
fn fill(pen: &mut Pen, form: &Form, shown: &Blanks) {
    for (field, texts) in &form.texts {
        let Some(blank) = shown.get(field) else { continue };
        // A blank may stand twice in a letter; whoever changes one of the two means the number.
        let different: BTreeSet<&str> =
            texts.iter().map(String::as_str).filter(|text| *text != blank.shown.trim()).collect();
        let mut different = different.into_iter();
        match (different.next(), different.next()) {
            (None, _) => {}
            (Some(typed), None) => pen.write(field, &blank.text(typed), typed),
            (Some(one), Some(other)) => {
                let fault = format!(
                    "this number stands twice in the letter, and you wrote both {one} and {other}: which is it?"
                );
                pen.refuse(field, one, fault);
            }
        }
    }
}

/// Writes the reply to the open question; gives the field back if the reply was "I don't know".
fn reply(house: &House, pen: &mut Pen, form: &Form) -> Option<String> {
    let (field, key) = form.reply.as_ref()?;
    let answer = house.follows(&pen.setup);
    let Ok(Answer::Open { question, .. }) = answer.as_ref() else { return None };
    if question.field != *field {
        return None;
    }
    match question.replies.iter().find(|reply| reply.key == *key) {
        Some(reply) => {
            pen.write(field, &reply.text, &reply.label);
            None
        }
        None => Some(field.clone()),
    }
}

fn query(was: Option<u64>, older: bool, unknown: Option<&str>) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    if let Some(was) = was {
        query.append_pair("was", &was.to_string());
    }
    if older {
        query.append_pair("older", "1");
    }
    if let Some(unknown) = unknown {
        query.append_pair("unknown", unknown);
    }
    let query = query.finish();
    if query.is_empty() { query } else { format!("?{query}") }
}
