//! The sheet that a letter is written on: it knows the blanks, gives the notes their letters, and marks what moved.

mod said;

use std::cell::RefCell;
use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use logbook::{Kept, Writing};
use maud::{Markup, html};
use quantity::{Units, Why};
use recipe::Answer;
use setup::{Question, Setup};

use crate::blank::{Blank, Blanks};
use crate::ctx::{Place, Today};
use crate::parts;
use crate::post::asked_again;
use crate::words::{NB, capital, count, glued, letter, level, sentence};

pub use said::{Elsewhere, Refusal, Said};

/// A note with its letter.
struct Note {
    letter: String,
    why: Why,
}

/// Notes given so far.
#[derive(Default)]
struct Notes {
    all: Vec<Note>,
    /// How many stand in a margin already.
    placed: usize,
    /// What each worked-out number reads, by key.
    outs: BTreeMap<String, String>,
    /// Blanks whose remark was made already.
    remarked: Vec<String>,
}

/// A letter in the making.
pub struct Sheet<'a> {
    /// Where the letter stands.
    pub place: Place<'a>,
    /// Now, in the keeper's time zone.
    pub now: &'a ZonedDateTime,
    /// Today.
    pub today: Today,
    /// The entries of the log that the letter reads, the latest first.
    pub log: &'a [Kept],
    /// Other entries that it needs, the latest first.
    pub log_also: &'a [Kept],
    /// The last writing of the log that was not taken back.
    pub writing: Option<&'a Writing>,
    /// The revision that is shown.
    pub revision: u64,
    /// The setup as it was told.
    pub setup: &'a Setup,
    /// What follows from the setup.
    pub answer: &'a Answer,
    /// The keeper's units.
    pub units: Units,
    /// Blanks of this revision.
    pub blanks: &'a Blanks,
    /// Values far from usual: field and sentence.
    pub unusual: &'a [(String, String)],
    /// What to say about the last rewriting.
    pub said: &'a Said,
    notes: RefCell<Notes>,
}

impl<'a> Sheet<'a> {
    /// An empty sheet.
    pub fn new(
        place: Place<'a>,
        now: &'a ZonedDateTime,
        revision: u64,
        setup: &'a Setup,
        answer: &'a Answer,
        blanks: &'a Blanks,
        said: &'a Said,
    ) -> Sheet<'a> {
        let tank = first_tank(answer);
        Sheet {
            place,
            now,
            today: Today::of(now),
            log: &[],
            log_also: &[],
            writing: None,
            revision,
            setup,
            answer,
            units: tank.map(|tank| tank.units).unwrap_or_default(),
            blanks,
            unusual: tank.map_or(&[], |tank| &tank.unusual),
            said,
            notes: RefCell::default(),
        }
    }

    /// The address of another letter of this tank, by its key.
    pub fn letter(&self, key: &str) -> String {
        self.place.letter(key)
    }

    /// The question that is open, if one is.
    pub fn question(&self) -> Option<&'a Question> {
        match self.answer {
            Answer::Open { question, .. } => Some(question),
            Answer::Settled { .. } => None,
        }
    }

    /// What the worked-out numbers read, by key.
    pub fn outs(&self) -> BTreeMap<String, String> {
        self.notes.borrow().outs.clone()
    }

    /// A worked-out number: bold, its letter leads to the note. The same why has one letter on the whole page.
    pub fn out(&self, shown: &str, why: &Why) -> Markup {
        let mut notes = self.notes.borrow_mut();
        let known = notes.all.iter().position(|note| note.why == *why);
        let index = known.unwrap_or_else(|| {
            let letter = letter(notes.all.len());
            notes.all.push(Note { letter, why: why.clone() });
            notes.all.len() - 1
        });
        let letter = notes.all.get(index).map_or_else(String::new, |note| note.letter.clone());
        let moved = self.said.outs.get(&why.key).is_some_and(|was| was != shown);
        notes.outs.entry(why.key.clone()).or_insert_with(|| shown.to_owned());
        let inner = html! { (shown) sup { span.off-screen { ", note " } (letter) } };
        html! {
            a.out href=(format!("?why={letter}#why-{letter}")) {
                @if moved { mark { (inner) } } @else { (inner) }
            }
        }
    }

    /// The way to a note from a sentence that has no number of its own to carry the letter.
    pub fn why(&self, why: Option<&Why>) -> Markup {
        html! { @if let Some(why) = why { " " (self.out("Why?", why)) } }
    }

    /// A worked-out number whose note may be missing; then it is only bold.
    pub fn out_or_bold(&self, shown: &str, why: Option<&Why>) -> Markup {
        match why {
            Some(why) => self.out(shown, why),
            None => html! { b { (shown) } },
        }
    }

    /// A blank with what follows it on the line (unit, comma), which never breaks away. Empty if there is no such field.
    pub fn blank(&self, field: &str, tail: &str) -> Markup {
        let Some(blank) = self.blanks.get(field) else { return html! { (tail) } };
        let remark = self.remark(blank);
        let tail = tail.replace(' ', NB);
        html! { span.nb { (self.line(blank, remark.is_some())) (tail) } @if let Some(remark) = remark { " " (remark) } }
    }

    /// A blank with its unit and what follows it, for instance a comma.
    pub fn in_unit(&self, field: &str, tail: &str) -> Markup {
        let unit = self.blanks.get(field).map_or_else(String::new, |blank| glued(&blank.unit));
        self.blank(field, &format!(" {unit}{tail}"))
    }

    /// The blank with its unit where it shows just this value; else the value, which the plan settled otherwise, with the
    /// blank behind it: "100 mL (your bottle holds 300 mL)".
    pub fn amount(&self, field: &str, value: f64, yours: &str, tail: &str) -> Markup {
        let text =
            setup::field_of(field).map_or_else(|| level(&self.units, value), |field| field.show(value, &self.units));
        let shown = text.split(' ').next().unwrap_or(&text);
        if self.blanks.get(field).is_some_and(|blank| blank.shown == shown) {
            self.in_unit(field, tail)
        } else {
            html! {
                b { (glued(&text).replace(' ', NB)) }
                @if self.has(field) { " (" (yours) " " (self.in_unit(field, ")")) }
                (tail)
            }
        }
    }

    /// Whether the field is told or assumed.
    pub fn has(&self, field: &str) -> bool {
        self.blanks.get(field).is_some_and(|blank| !blank.shown.is_empty())
    }

    /// Whether its blank stands on the letter, as far as that is written.
    pub fn shows(&self, field: &str) -> bool {
        self.notes.borrow().remarked.iter().any(|known| known == field)
    }

    fn line(&self, blank: &Blank, remarked: bool) -> Markup {
        let refused = self.said.refused.get(&blank.field);
        let far = self.unusual.iter().any(|(field, _)| *field == blank.field);
        let invalid = (refused.is_some() || far).then_some("true");
        let class = format!("blank {}", blank.line());
        let says = format!("{}; {}", blank.says, blank.kind.words());
        let about = (invalid.is_some() && remarked).then(|| remark_id(&blank.field));
        html! {
            @if blank.choices.is_empty() {
                input class=(class) name=(blank.field) value=(blank.shown) size=(blank.shown.chars().count().max(2))
                    autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="go" aria-label=(says) aria-invalid=[invalid] aria-describedby=[about];
            } @else {
                span.pick { select class=(class) name=(blank.field) aria-label=(says) aria-invalid=[invalid] aria-describedby=[about] {
                    @for (text, words) in &blank.choices { option value=(text) selected[*text == blank.shown] { (words) } }
                } }
            }
        }
    }

    /// What stands behind a blank: refused, far from usual, or just changed. Said once a page.
    fn remark(&self, blank: &Blank) -> Option<Markup> {
        let mut notes = self.notes.borrow_mut();
        if notes.remarked.contains(&blank.field) {
            return None;
        }
        notes.remarked.push(blank.field.clone());
        let field = &blank.field;
        let refused = self.said.refused.get(field);
        let unusual = self.unusual.iter().find(|(name, _)| name == field).map(|(_, sentence)| sentence);
        let was = self.said.was.get(field).zip(self.said.before);
        let answered = self.said.elsewhere.iter().any(|e| e.answered && whole(&e.change.field) == field);
        if refused.is_none() && unusual.is_none() && was.is_none() {
            return None;
        }
        Some(html! {
            @if refused.is_some() || unusual.is_some() {
                span.really id=(remark_id(field)) {
                    @if let Some(refused) = refused {
                        "“" (refused.typed) "” I did not take, and kept " (blank.shown) ". " (parts::faults(&refused.faults)) " "
                    }
                    @if let Some(sentence) = unusual { (sentence) @if !sentence.contains("eally?") { " Really?" } " " }
                }
            }
            @if let Some((was, before)) = was {
                span.changed {
                    "(was " @if was.is_empty() { "empty" } @else { (was) } "; "
                    button.again name="undo" value=(format!("{field}@{before}"))
                        aria-label=[(!answered).then(|| format!("Undo: {}", blank.says))] { (if answered { "ask me again" } else { "undo" }) }
                    ") "
                }
            }
        })
    }

    /// What was changed and has no blank on the letter, which must be written already: an answered question, an edit of
    /// another letter.
    pub fn changed_elsewhere(&self) -> Markup {
        let notes = self.notes.borrow();
        let shown = |field: &str| notes.remarked.iter().any(|known| known == whole(field));
        let told: Vec<&Elsewhere> = self.said.elsewhere.iter().filter(|e| !shown(&e.change.field)).collect();
        let Some(before) = self.said.before.filter(|_| !told.is_empty()) else { return html! {} };
        html! {
            section.verse { div.told role="status" {
                @for Elsewhere { change, answered } in told.iter().take(TOLD) {
                    @let label = setup::field_of(&change.field).map_or_else(|| change.field.clone(), |table| capital(&table.label));
                    p {
                        (label) ": " b { (glued(change.now.as_deref().unwrap_or("assumed"))) } " "
                        span.changed {
                            "(was " (glued(change.was.as_deref().unwrap_or("assumed"))) "; "
                            button.again name="undo" value=(format!("{}@{before}", whole(&change.field))) {
                                @if *answered { "ask me again" } @else { "undo" span.off-screen { ": " (label) } }
                            }
                            ")"
                        }
                    }
                }
                @if told.len() > TOLD { p { (count(told.len() - TOLD)) " more were changed; their letters show them." } }
            } }
        }
    }

    /// Whether the file says of a field what it is counted as, so that this can be asked once more.
    pub fn asked_again(&self, field: &str) -> bool {
        asked_again(self.setup, field).is_some()
    }

    /// A button that makes an assumed number the keeper's own, as it is shown. `fields` are parted by blanks.
    pub fn so(&self, fields: &str, words: &str, says: &str) -> Markup {
        html! { button.again name="so" value=(fields) aria-label=[(!says.is_empty()).then(|| format!("{words}: {says}"))] { (words) } }
    }

    /// The first verse: date line, what the house has to say, the answer, and whatever stands right under it.
    pub fn opening(&self, dateline: Markup, answer: Markup, under: Markup) -> Markup {
        html! {
            section.verse {
                p.dateline { (dateline) }
                @if !self.said.told.is_empty() {
                    div.told role="status" { @for told in &self.said.told { p { (told) } } }
                }
                h1.answer { (answer) }
                (under)
            }
        }
    }

    /// One thought: head at the shoulder, text, and in the margin the notes that the text asked for.
    pub fn verse(&self, head: &str, text: Markup) -> Markup {
        self.verse_as("text", head, text)
    }

    /// A verse whose text has another class, for instance `text must` or `full`.
    pub fn verse_as(&self, class: &str, head: &str, text: Markup) -> Markup {
        html! {
            section.verse {
                @if !head.is_empty() { h2 { (head) } }
                div class=(class) { (text) }
                (self.margin(head))
            }
        }
    }

    /// The notes that were asked for since the last margin.
    fn margin(&self, head: &str) -> Markup {
        let mut notes = self.notes.borrow_mut();
        let from = notes.placed;
        notes.placed = notes.all.len();
        let fresh = notes.all.get(from..).unwrap_or_default();
        if fresh.is_empty() {
            return html! {};
        }
        html! {
            aside.notes aria-label=(format!("Why-notes: {head}")) {
                @for (i, note) in fresh.iter().enumerate() { (self.note(note, from + i == 0)) }
            }
        }
    }

    fn note(&self, note: &Note, first: bool) -> Markup {
        let asked = self.said.why.as_deref();
        let open = asked == Some(note.letter.as_str()) || (first && asked.is_none());
        let why = &note.why;
        html! {
            details.why id=(format!("why-{}", note.letter)) open[open] {
                summary { i { (note.letter) } span { (glued(&why.question)) } }
                @if !why.sum.is_empty() { p.sum { (glued(&why.sum)) } }
                p { (sentence(&why.words)) @let from = sources(why); @if !from.is_empty() { " Source: " (from) "." } }
                p.kind { (why.kind.words()) }
            }
        }
    }
}

/// What the names of a range's ends end with.
const ENDS: [&str; 3] = [".min", ".mean", ".max"];
/// So many changes of other letters are told one by one.
const TOLD: usize = 5;

/// The field of a path, without the end of a range: `tap.nitrate` of `tap.nitrate.mean`.
pub fn whole(path: &str) -> &str {
    ENDS.iter().find_map(|end| path.strip_suffix(end)).unwrap_or(path)
}

fn remark_id(field: &str) -> String {
    format!("about-{}", field.replace(|c: char| !c.is_ascii_alphanumeric(), "-"))
}

/// The sources of a note, by the names that a reader knows; a key that is in no table is shown as it is.
fn sources(why: &Why) -> String {
    let named: Vec<String> = why.sources.iter().map(|key| knowledge::book().cite_words(key)).collect();
    named.join("; ")
}

/// The tank of the first outcome that is settled.
pub fn first_tank(answer: &Answer) -> Option<&setup::Tank> {
    match answer {
        Answer::Settled { tank, .. } => Some(tank),
        Answer::Open { outcomes, .. } => outcomes.iter().find_map(|outcome| first_tank(&outcome.answer)),
    }
}
