//! `tapmere log`: what was read, done and seen, written and found again; out and in as a table.

mod desk;

use std::path::PathBuf;

use logbook::written::{self, KINDS, Texts};
use logbook::{Entry, Filter, Kept, Log, day, table, when};
use quantity::{Fault, Faults, Place};
use serde::Serialize;

use super::{ALL, SOME, faulty, say, say_json};
use crate::{clock, files};
use desk::{Desk, line};

/// Largest table that is read in, bytes.
const LARGEST: usize = 256 << 20;

/// Entries that are listed if nobody says how many.
const LISTED: usize = 20;

/// Whose log.
#[derive(Debug, clap::Args)]
pub struct Whose {
    /// Your book; left out: the usual one, as `tapmere open` has it
    #[arg(long)]
    pub book: Option<PathBuf>,
    /// The number of the tank; left out: the one that was edited last
    #[arg(long)]
    pub tank: Option<u64>,
    /// Answer in JSON; docs/json.md says what it holds
    #[arg(long)]
    pub json: bool,
}

/// What may stand beside an entry.
#[derive(Debug, clap::Args)]
pub struct Beside {
    /// When: 2026-06-11, "2026-06-11 08:30", 08:30, or with its offset; left out: now
    #[arg(long)]
    pub at: Option<String>,
    /// In your own words
    #[arg(long)]
    pub note: Option<String>,
    /// Of a reading: the kit or instrument (`colours`, `drops`, `strip`, `meter`, or its name)
    #[arg(long)]
    pub kit: Option<String>,
    /// Of a reading: how far it may be off
    #[arg(long)]
    pub error: Option<String>,
    /// Of a reading: how sure you are
    #[arg(long, value_parser = ["plain", "about", "not_sure"])]
    pub sure: Option<String>,
    /// Of animals: how many were counted
    #[arg(long)]
    pub counted: Option<String>,
    /// Of a purchase: its price
    #[arg(long)]
    pub price: Option<String>,
}

/// Write an entry.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
  tapmere log add test nitrate '12 mg/L NO3' --kit colours
  tapmere log add dose 'Bottle one' '10 mL'
  tapmere log add change '25 L'
  tapmere log add sight brown_film
  tapmere log add animals fish 6 --counted 14
  tapmere log add words 'The old leaves have holes'")]
pub struct Add {
    /// What kind of entry
    #[arg(value_parser = KINDS.map(|(kind, _)| kind))]
    pub kind: String,
    /// What, and how much: as the kind asks for it
    #[arg(allow_negative_numbers = true)]
    pub texts: Vec<String>,
    /// Yes, it was really so much: write what is far from usual
    #[arg(long)]
    pub really: bool,
    /// What stands beside it
    #[command(flatten)]
    pub beside: Beside,
    /// Whose log
    #[command(flatten)]
    pub whose: Whose,
}

/// Mend an entry: what is told is changed, the rest stays.
#[derive(Debug, clap::Args)]
pub struct Mend {
    /// Its number, as `tapmere log list` shows it
    pub number: u64,
    /// What it is about
    #[arg(long)]
    pub what: Option<String>,
    /// How much
    #[arg(long, allow_negative_numbers = true)]
    pub amount: Option<String>,
    /// Yes, it was really so much: write what is far from usual
    #[arg(long)]
    pub really: bool,
    /// What stands beside it
    #[command(flatten)]
    pub beside: Beside,
    /// Whose log
    #[command(flatten)]
    pub whose: Whose,
}

/// Take an entry out.
#[derive(Debug, clap::Args)]
pub struct TakeOut {
    /// Its number, as `tapmere log list` shows it
    pub number: u64,
    /// Whose log
    #[command(flatten)]
    pub whose: Whose,
}

/// Undo, redo.
#[derive(Debug, clap::Args)]
pub struct Back {
    /// Whose log
    #[command(flatten)]
    pub whose: Whose,
}

/// Look for entries.
#[derive(Debug, clap::Args)]
pub struct List {
    /// Only of this kind; may stand more than once
    #[arg(long, value_parser = KINDS.map(|(kind, _)| kind))]
    pub kind: Vec<String>,
    /// Only readings of this: nitrate, ph ...
    #[arg(long)]
    pub of: Option<String>,
    /// Only with these words
    #[arg(long)]
    pub words: Option<String>,
    /// Not before this day or moment
    #[arg(long)]
    pub from: Option<String>,
    /// Before this moment
    #[arg(long)]
    pub to: Option<String>,
    /// At most so many, the latest
    #[arg(long, default_value_t = LISTED)]
    pub last: usize,
    /// Whose log
    #[command(flatten)]
    pub whose: Whose,
}

/// A table in.
#[derive(Debug, clap::Args)]
pub struct Import {
    /// A table as `tapmere log export` writes it (CSV); `-` is the standard input
    pub table: String,
    /// Whose log
    #[command(flatten)]
    pub whose: Whose,
}

/// A table out.
#[derive(Debug, clap::Args)]
pub struct Export {
    /// Whose log
    #[command(flatten)]
    pub whose: Whose,
}

/// What a command answers: an entry that stands in the log, with what is far from usual in it.
#[derive(Serialize)]
struct Written {
    tank: u64,
    #[serde(flatten)]
    kept: Kept,
    remark: Option<String>,
    /// Plants on a list of weeds that it names.
    weeds: Option<String>,
}

fn answer<T: Serialize>(json: bool, made: Result<(T, String), Faults>) -> u8 {
    match made {
        Ok((value, _)) if json => say_json(&value, ALL),
        Ok((_, text)) => say(&text, ALL),
        Err(faults) => faulty(&faults, json, SOME),
    }
}

/// Which of the names of an entry the bare texts of a kind are.
fn names_of(kind: &str) -> &'static [&'static str] {
    match kind {
        "test" | "dose" | "animals" | "bought" => &["what", "amount"],
        "sight" | "photo" | "done" => &["what"],
        "words" => &["note"],
        _ => &["amount"],
    }
}

impl Beside {
    fn put(&self, texts: &mut Texts) {
        let named = [
            ("at", &self.at),
            ("note", &self.note),
            ("kit", &self.kit),
            ("error", &self.error),
            ("sure", &self.sure),
            ("counted", &self.counted),
            ("price", &self.price),
        ];
        for (name, text) in named {
            if let Some(text) = text {
                texts.insert(name.to_owned(), text.trim().to_owned());
            }
        }
    }
}

/// `log add`.
pub fn add(args: &Add) -> u8 {
    let made = || {
        let names = names_of(&args.kind);
        if args.texts.len() > names.len() {
            return Err(Fault::new(format!("`{}` is one text too many", args.texts.last().map_or("", String::as_str)))
                .expected(format!("after {}: {}", args.kind, names.join(", ")))
                .hint("put quotation marks round a text of several words")
                .into());
        }
        let mut texts: Texts = names.iter().zip(&args.texts).map(|(n, text)| ((*n).to_owned(), text.clone())).collect();
        texts.insert("kind".to_owned(), args.kind.clone());
        args.beside.put(&mut texts);
        let mut desk = Desk::open(&args.whose)?;
        written::settled(&texts, &desk.units)?;
        let entry = written::read(&texts, &clock::now(), &desk.units)?;
        desk.fits(&entry)?;
        asked(&mut desk, &entry, None, args.really)?;
        let ids = desk.log()?.add(vec![entry])?;
        kept(&mut desk, ids.first().copied().unwrap_or(0))
    };
    answer(args.whose.json, made())
}

fn kept(desk: &mut Desk, id: u64) -> Result<(Written, String), Faults> {
    let (kept, line) = desk.line(id)?;
    let (remark, weeds) = (kept.entry.remark(), kept.entry.weeds(desk.place));
    Ok((Written { tank: desk.tank, kept, remark, weeds }, line))
}

/// What is far from usual is not written before the keeper says that it was really so.
fn asked(desk: &mut Desk, entry: &Entry, mended: Option<u64>, really: bool) -> Result<(), Fault> {
    match desk.really(entry, mended)?.filter(|_| !really) {
        None => Ok(()),
        Some(asked) => Err(Fault::new(format!("nothing is written yet. {}", asked.trim_end_matches('.')))
            .hint("look at the number and its point; if it was really so, give the same command again with --really")
            .at(Place::field("really"))),
    }
}

/// `log mend`.
pub fn mend(args: &Mend) -> u8 {
    let made = || {
        let mut desk = Desk::open(&args.whose)?;
        let (old, _) = desk.line(args.number)?;
        let mut texts: Texts = written::write(&old.entry).into_iter().map(|(n, text)| (n.to_owned(), text)).collect();
        if let Some(amount) = &args.amount {
            texts.insert("amount".to_owned(), amount.clone());
            texts.remove("unit");
        }
        if let Some(what) = &args.what {
            texts.insert("what".to_owned(), what.clone());
        }
        args.beside.put(&mut texts);
        written::settled(&texts, &desk.units)?;
        let entry = written::read(&texts, &clock::now(), &desk.units)?;
        desk.fits(&entry)?;
        if entry.what != old.entry.what {
            asked(&mut desk, &entry, Some(args.number), args.really)?;
        }
        desk.log()?.change(args.number, entry)?;
        kept(&mut desk, args.number)
    };
    answer(args.whose.json, made())
}

/// `log take-out`.
pub fn take_out(args: &TakeOut) -> u8 {
    let made = || {
        let mut desk = Desk::open(&args.whose)?;
        let (written, line) = kept(&mut desk, args.number)?;
        desk.log()?.remove(args.number)?;
        Ok((written, format!("taken out; `tapmere log undo` puts it back:\n{line}")))
    };
    answer(args.whose.json, made())
}

/// What undo and redo did; `None`: there was nothing left.
#[derive(Serialize)]
struct Undone {
    tank: u64,
    did: Option<String>,
}

/// `log undo`.
pub fn undo(args: &Back) -> u8 {
    back(args, |log| log.undo())
}

/// `log redo`.
pub fn redo(args: &Back) -> u8 {
    back(args, |log| log.redo())
}

fn back(args: &Back, turn: impl Fn(&mut dyn Log) -> Result<Option<String>, Fault>) -> u8 {
    let made = || {
        let mut desk = Desk::open(&args.whose)?;
        let did = turn(&mut desk.log()?)?;
        let text = did.clone().map_or_else(|| "There is nothing left.\n".to_owned(), |did| format!("{did}\n"));
        Ok((Undone { tank: desk.tank, did }, text))
    };
    answer(args.whose.json, made())
}

/// Entries of a log.
#[derive(Serialize)]
struct Listed {
    tank: u64,
    entries: Vec<Kept>,
}

/// `log list`.
pub fn list(args: &List) -> u8 {
    let made = || {
        let mut desk = Desk::open(&args.whose)?;
        let mut faults = Faults::new();
        let mut moment = |name: &str, text: &Option<String>| {
            let now = clock::now();
            // A day from its first moment on, which is not midnight everywhere.
            let begins = |text: &String| day(text)?.to_zoned_datetime(now.time_zone().clone()).ok();
            let read = text.as_ref().map(|text| begins(text).map_or_else(|| when(text, &now), Ok)).transpose();
            let read = faults.note(read.map_err(|fault| fault.at(Place::field(format!("--{name}")))));
            read.flatten().map(|at| at.timestamp())
        };
        let (from, to) = (moment("from", &args.from), moment("to", &args.to));
        faults.or(())?;
        let (kinds, of, words) = (args.kind.clone(), args.of.clone(), args.words.clone());
        let entries =
            desk.log()?.list(&Filter { from, to, kinds, of, words, last: Some(args.last), ..Filter::default() })?;
        let lines: String = entries.iter().rev().map(|kept| line(kept, &desk.units, desk.place)).collect();
        let text = if lines.is_empty() { "Nothing like that is written.\n".to_owned() } else { lines };
        Ok((Listed { tank: desk.tank, entries }, text))
    };
    answer(args.whose.json, made())
}

/// What an import did.
#[derive(Serialize)]
struct Imported {
    tank: u64,
    written: usize,
    stood_there: usize,
}

/// `log import`.
pub fn import(args: &Import) -> u8 {
    let made = || {
        let mut desk = Desk::open(&args.whose)?;
        let text = files::text(&args.table, LARGEST)?;
        let held = desk.log()?.list(&Filter::default())?;
        let (fresh, stood_there) = table::fresh(&args.table, &text, &clock::now(), &desk.units, &held, desk.litres)?;
        let written = desk.log()?.add(fresh)?.len();
        // Where nothing was written, undo would take back something else.
        let back = if written > 0 { " `tapmere log undo` takes them back." } else { "" };
        let text = format!("{written} written, {stood_there} stood there already.{back}\n");
        Ok((Imported { tank: desk.tank, written, stood_there }, text))
    };
    answer(args.whose.json, made())
}

/// `log export`.
pub fn export(args: &Export) -> u8 {
    let made = || {
        let mut desk = Desk::open(&args.whose)?;
        let entries = desk.log()?.list(&Filter::default())?;
        let text = table::write(&entries);
        Ok((Listed { tank: desk.tank, entries }, text))
    };
    answer(args.whose.json, made())
}
