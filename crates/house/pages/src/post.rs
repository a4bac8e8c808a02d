//! What a letter that comes back changes in the book.
//!
//! A blank counts as changed only if its text differs from what the letter's revision showed: a number that was
//! rounded for show, or assumed, is never written because it was sent along. The changes are then made on the
//! revision that holds now, blank by blank, whatever happened in between.

use std::collections::{BTreeMap, BTreeSet};

use http::{Request, header};
use quantity::Fault;
use recipe::Answer;
use setup::{Setup, Unwritten};

use crate::blank::Blanks;
use crate::ctx::Desk;
use crate::house::House;
use crate::parts::{beside, in_words};
use crate::sheet::{Refusal, Said};
use crate::words::capital;

/// What became of a form.
pub enum Posted {
    /// All of it was taken: look at the letter again, with this query.
    Taken(String),
    /// Something was refused; what could be taken was.
    Refused(Box<Said>),
    /// The form belongs to no revision of this book, or the book could not be written; nothing was changed.
    Unknown(Box<Said>),
}

/// What the button sends that takes the last change back.
pub(crate) const BACK: &str = "back";

/// Whether a request carries a form without a file.
pub(crate) fn is_form(request: &Request<Vec<u8>>) -> bool {
    let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or("");
    kind.to_ascii_lowercase().starts_with("application/x-www-form-urlencoded")
}

/// A form, sorted.
#[derive(Default)]
struct Form {
    revision: Option<u64>,
    texts: BTreeMap<String, Vec<String>>,
    undo: Option<(String, u64)>,
    /// The last change is to be taken back, whatever it was.
    back: bool,
    reply: Option<(String, String)>,
    /// Fields whose assumed texts are true.
    so: Vec<String>,
    /// A field that is to be asked about once more.
    again: Option<String>,
    /// What was measured: fields with their texts.
    take: Vec<(String, String)>,
}

impl Form {
    fn read(body: &[u8]) -> Form {
        let mut form = Form::default();
        for (name, value) in form_urlencoded::parse(body) {
            match name.as_ref() {
                "revision" => form.revision = value.trim().parse().ok(),
                "undo" => form.undo = value.rsplit_once('@').and_then(|(f, r)| Some((f.to_owned(), r.parse().ok()?))),
                "do" if value == BACK => form.back = true,
                "so" => form.so.extend(value.split(' ').map(str::to_owned)),
                "again" => form.again = Some(value.into_owned()),
                "take" => {
                    form.take.extend(value.split(';').filter_map(|pair| {
                        pair.split_once('=').map(|(field, text)| (field.to_owned(), text.to_owned()))
                    }))
                }
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
            Err(faults) => match widened(&self.setup, field, text) {
                Some(next) => self.setup = next,
                None => self.refuse(field, typed, beside(field, faults)),
            },
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

    fn refuse(&mut self, field: &str, typed: &str, faults: Vec<Fault>) {
        self.refused.insert(field.to_owned(), Refusal { typed: typed.to_owned(), faults });
    }
}

/// The setup with a number that lies beyond the range told before: the range is widened so that it holds the number.
/// Dropping it would take a swing for gone that harm is reckoned with.
fn widened(setup: &Setup, field: &str, text: &str) -> Option<Setup> {
    let end = |end: &str| {
        let end = format!("{field}.{end}");
        setup.written(&end)?;
        setup.with_all([(end.as_str(), text), (field, text)]).ok()
    };
    end("max").or_else(|| end("min"))
}

/// How often a form is laid on the book, if another program writes between our look and our write each time.
const TRIES: usize = 5;

/// Take a form.
pub fn post(house: &House, desk: &mut Desk, body: &[u8]) -> Posted {
    let form = Form::read(body);
    let mut posted = lay(house, desk, &form);
    for _ in 1..TRIES {
        if matches!(posted, Err(Unwritten::Stale { .. })) {
            posted = lay(house, desk, &form);
        }
    }
    posted.unwrap_or_else(|unwritten| {
        let told = vec![in_words(&Fault::from(unwritten))];
        // What was typed stays on the page, so that it can be sent again.
        let shown = form.revision.and_then(|revision| house.blanks_at(desk, revision)).unwrap_or_default();
        let refused = different(&form, &shown).map(|(field, typed)| {
            let typed = typed.into_iter().next().unwrap_or_default().to_owned();
            (field.to_owned(), Refusal { typed, faults: vec![Fault::new("the book could not be written")] })
        });
        Posted::Unknown(Box::new(Said { told, refused: refused.collect(), ..Said::default() }))
    })
}

/// Lay a form on the revision that holds now.
fn lay(house: &House, desk: &mut Desk, form: &Form) -> Result<Posted, Unwritten> {
    let now = desk.book.revision();
    let shown = form.revision.and_then(|revision| Some((revision, house.blanks_at(desk, revision)?)));
    let (Some((revision, shown)), Some(setup)) = (shown, desk.book.setup()) else {
        let told =
            "I can’t tell which letter this was written on, so I changed nothing. This is the letter as it stands.";
        return Ok(Posted::Unknown(Box::new(Said { told: vec![told.to_owned()], ..Said::default() })));
    };
    let mut pen = Pen { setup: setup.clone(), refused: BTreeMap::new() };
    fill(&mut pen, form, &shown);
    if let Some((field, back_to)) = &form.undo
        && let Some(old) = desk.book.setup_at(*back_to)
    {
        pen.take_back(field, old);
    }
    confirm(&mut pen, form, &shown, setup);
    take(&mut pen, form);
    if let Some((field, bare)) = form.again.as_ref().and_then(|field| Some((field, asked_again(setup, field)?))) {
        pen.write(field, &bare, &bare);
    }
    let unknown = reply(house, &mut pen, form);
    let changes = setup.changes_to(&pen.setup);
    let Pen { setup, refused } = pen;
    let changed = !changes.is_empty();
    if changed {
        desk.book.write_over(now, setup, changes)?;
    }
    if form.back && !changed && refused.is_empty() {
        return back(desk, revision, now);
    }
    // The letter is compared with what the keeper saw, so that what was changed elsewhere is marked too.
    let before = changed.then_some(revision);
    let over = (changed && revision != now).then_some(now);
    if refused.is_empty() {
        return Ok(Posted::Taken(query(before, over, unknown.as_deref())));
    }
    let mut told =
        vec!["Something you wrote I could not take; it stands beside its number. The old number holds.".to_owned()];
    told.extend(over.into_iter().flat_map(|over| merged(desk, revision, over)));
    Ok(Posted::Refused(Box::new(Said { told, refused, before, unknown, ..Said::default() })))
}

/// The last change taken back; what the letter did not show is not taken back unseen.
fn back(desk: &mut Desk, seen: u64, now: u64) -> Result<Posted, Unwritten> {
    let said = |told: &str| Ok(Posted::Unknown(Box::new(Said { told: vec![told.to_owned()], ..Said::default() })));
    if seen != now {
        return said(
            "The last change was made elsewhere and does not stand in your letter, so I took nothing back. This is the letter as it stands.",
        );
    }
    match desk.book.undo_over(now)? {
        Some(_) => Ok(Posted::Taken(query(Some(now), None, None))),
        None => said("There is no change left to take back: this is the letter as it began."),
    }
}

/// What to say of a letter of revision `before` that was laid over revision `over`.
pub fn merged(desk: &Desk, before: u64, over: u64) -> Vec<String> {
    let book = &desk.book;
    let (Some(seen), Some(theirs), Some(ours)) = (book.setup_at(before), book.setup_at(over), book.setup()) else {
        return Vec::new();
    };
    if before >= over || over >= book.revision() {
        return Vec::new();
    }
    let mut told = vec!["Your letter was older than the book: something had been changed elsewhere in the meantime. I kept both, blank by blank.".to_owned()];
    let fields = seen.changes_to(theirs).into_iter().map(|change| change.field);
    for field in fields.filter(|field| theirs.written(field) != ours.written(field)) {
        let text = |setup: &Setup| setup.written(&field).unwrap_or_else(|| "nothing".to_owned());
        let label = setup::field_of(&field).map_or_else(|| field.clone(), |table| capital(&table.label));
        told.push(format!("{label}: elsewhere it had become {}; yours holds, {}.", text(theirs), text(ours)));
    }
    told
}

/// The blanks that differ from what was shown, each with what was typed.
fn different<'a>(form: &'a Form, shown: &'a Blanks) -> impl Iterator<Item = (&'a str, BTreeSet<&'a str>)> {
    form.texts.iter().filter_map(|(field, texts)| {
        let blank = shown.get(field)?;
        // A blank may stand twice in a letter; whoever changes one of the two means the number.
        let typed: BTreeSet<&str> =
            texts.iter().map(String::as_str).filter(|text| *text != blank.shown.trim()).collect();
        (!typed.is_empty()).then_some((field.as_str(), typed))
    })
}

/// Writes the blanks whose text differs from what was shown. What is not taken is tried once more when the others stand: of
/// an inner and an outer size one may come only when the other went.
fn fill(pen: &mut Pen, form: &Form, shown: &Blanks) {
    let mut again = Vec::new();
    for (field, typed) in different(form, shown) {
        let mut typed = typed.into_iter();
        match (typed.next(), typed.next(), shown.get(field)) {
            (Some(one), None, Some(blank)) => {
                pen.write(field, &blank.text(one), one);
                again.extend(pen.refused.contains_key(field).then_some((field, blank, one)));
            }
            (Some(one), Some(other), _) => {
                let fault = Fault::new(format!("it stands twice in the letter, and you wrote both {one} and {other}"))
                    .hint("write the one that holds into both, or leave the other as it was");
                pen.refuse(field, one, vec![fault]);
            }
            _ => {}
        }
    }
    for (field, blank, typed) in again {
        pen.refused.remove(field);
        pen.write(field, &blank.text(typed), typed);
    }
}

/// Writes what was only assumed and what the keeper says is so, as it was shown; what was typed over in the same letter
/// holds as typed.
fn confirm(pen: &mut Pen, form: &Form, shown: &Blanks, before: &Setup) {
    for field in &form.so {
        let Some(blank) = shown.get(field).filter(|_| before.written(field).is_none()) else { continue };
        if pen.setup.written(field).is_none() && !pen.refused.contains_key(field) {
            pen.write(field, &blank.text(&blank.shown), &blank.shown);
        }
    }
}

/// Writes what was measured, as measured. What stood there goes first: its range need not hold the new value.
fn take(pen: &mut Pen, form: &Form) {
    let measured = |field: &str| {
        let mut all = knowledge::book().measures.measure.values().flat_map(|measure| &measure.writes);
        all.any(|known| field == known || field.strip_prefix(known.as_str()).is_some_and(|rest| rest.starts_with('.')))
    };
    let mut begun: BTreeSet<&str> = BTreeSet::new();
    for (field, text) in form.take.iter().filter(|(field, _)| measured(field)) {
        let whole = field.strip_suffix(".min").or(field.strip_suffix(".max")).unwrap_or(field);
        if begun.insert(whole) {
            pen.write(whole, "", "");
        }
        pen.write(field, text, text);
    }
}

/// The text of a field without what it is counted as, so that this is asked once more: "14 mg/L" of "14 mg/L NO3".
/// `None`: the text says no such thing.
pub fn asked_again(setup: &Setup, field: &str) -> Option<String> {
    let written = setup.written(field)?;
    let (bare, basis) = written.trim().rsplit_once(' ')?;
    let counted = matches!(basis, "NO3" | "NO2" | "NH4" | "PO4" | "N" | "P");
    (counted && bare.ends_with("mg/L")).then(|| bare.to_owned())
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

fn query(was: Option<u64>, over: Option<u64>, unknown: Option<&str>) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    if let Some(was) = was {
        query.append_pair("was", &was.to_string());
    }
    if let Some(over) = over {
        query.append_pair("over", &over.to_string());
    }
    if let Some(unknown) = unknown {
        query.append_pair("unknown", unknown);
    }
    let query = query.finish();
    if query.is_empty() { query } else { format!("?{query}") }
}
