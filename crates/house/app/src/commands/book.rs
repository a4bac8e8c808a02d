//! `tapmere book`: the book as a text and back, checked, copied.

use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};

use book::{Opened, SqliteBook};
use quantity::{Fault, Faults};
use setup::Book as _;

use super::{ALL, SOME, fault, note, say};
use crate::place::{Which, at};
use crate::{clock, files};

/// Largest export that is read in, bytes: some hundred tanks of some thousand changes.
const LARGEST: usize = 1 << 30;

/// Write all out.
#[derive(Debug, clap::Args)]
pub struct Export {
    /// Which book
    #[command(flatten)]
    pub which: Which,
    /// Write into this new file instead of the standard output
    #[arg(long, value_name = "FILE")]
    pub to: Option<PathBuf>,
}

/// Read all in.
#[derive(Debug, clap::Args)]
pub struct Import {
    /// What `tapmere book export` wrote, as it was or edited; `-` is the standard input
    pub export: String,
    /// Which book
    #[command(flatten)]
    pub which: Which,
}

/// Look through all.
#[derive(Debug, clap::Args)]
pub struct Check {
    /// Which book
    #[command(flatten)]
    pub which: Which,
}

/// Copy it.
#[derive(Debug, clap::Args)]
pub struct Backup {
    /// The copy, a file that is not there yet
    pub to: PathBuf,
    /// Which book
    #[command(flatten)]
    pub which: Which,
}

/// One change taken back.
#[derive(Debug, clap::Args)]
pub struct Undo {
    /// Which book
    #[command(flatten)]
    pub which: Which,
    /// Number of the tank, as its address has it; left out: the one that was edited last
    #[arg(long, value_name = "NUMBER")]
    pub tank: Option<u64>,
}

/// Everything as TOML, the newest first.
pub fn export(args: &Export) -> u8 {
    let text = open(&args.which).and_then(|(book, _)| book.export());
    match (text, &args.to) {
        (Ok(text), None) => say(&text, ALL),
        (Ok(text), Some(to)) => match write_new(to, &text) {
            Ok(()) => say(&format!("Everything in your book stands in {}.\n", to.display()), ALL),
            Err(told) => fault(&told, SOME),
        },
        (Err(told), _) => fault(&told, SOME),
    }
}

/// An export in the place of everything in the book; where there is no book, one is made.
pub fn import(args: &Import) -> u8 {
    let read = || -> Result<String, Faults> {
        let text = files::text(&args.export, LARGEST)?;
        let path = args.which.path_to_make()?;
        let now = clock::stamp()?;
        let Opened { mut book, notes } = SqliteBook::open_or_create(&path, &now)?;
        notes.iter().for_each(note);
        let copy = book.import(&args.export, &text, &now)?;
        let count = tanks(&book)?;
        Ok(format!("{} now holds {count}. As it was before it stands in {}.\n", path.display(), copy.display()))
    };
    match read() {
        Ok(said) => say(&said, ALL),
        Err(faults) => fault(&faults, SOME),
    }
}

/// Every page of the file and every revision.
pub fn check(args: &Check) -> u8 {
    let seen = open(&args.which).and_then(|(book, path)| Ok((book.check(), tanks(&book)?, path)));
    match seen {
        Ok((wrong, count, path)) if wrong.is_empty() => say(&format!("{} is whole: {count}.\n", path.display()), ALL),
        Ok((wrong, ..)) => fault(&Faults(wrong), SOME),
        Err(told) => fault(&told, SOME),
    }
}

/// A copy, which is a book.
pub fn backup(args: &Backup) -> u8 {
    match open(&args.which).and_then(|(book, _)| book.backup(&args.to)) {
        Ok(()) => say(&format!("{} is a copy of your book, and a book.\n", args.to.display()), ALL),
        Err(told) => fault(&told, SOME),
    }
}

/// The last change taken back, as a revision of its own.
pub fn undo(args: &Undo) -> u8 {
    let back = || -> Result<String, Fault> {
        let (mut shelf, _) = open(&args.which)?;
        let none = || Fault::new("there is no tank in this book").hint("`tapmere open` begins one");
        let tank = args.tank.or(shelf.last_tank()?).ok_or_else(none)?;
        let mut book = shelf.tank(tank, &clock::stamp()?)?;
        let seen = book.revision();
        let Some(now) = book.undo_over(seen).map_err(Fault::from)? else {
            return Ok("There is no change left to take back.\n".to_owned());
        };
        let text = |text: &Option<String>| text.clone().unwrap_or_else(|| "nothing".to_owned());
        let lines =
            book.last_changes().iter().map(|c| format!("{}: {}, was {}\n", c.field, text(&c.now), text(&c.was)));
        Ok(format!("Taken back; revision {now} holds.\n{}", lines.collect::<String>()))
    };
    match back() {
        Ok(said) => say(&said, ALL),
        Err(told) => fault(&told, SOME),
    }
}

fn open(which: &Which) -> Result<(SqliteBook, PathBuf), Fault> {
    let path = which.path()?;
    let Opened { book, notes } = SqliteBook::open(&path, &clock::stamp()?)?;
    notes.iter().for_each(note);
    Ok((book, path))
}

/// "2 tanks, 14 revisions".
fn tanks(book: &SqliteBook) -> Result<String, Fault> {
    let tanks = book.tanks()?;
    let counted = |n: u64, one: &str| format!("{n} {one}{}", if n == 1 { "" } else { "s" });
    let revisions = tanks.iter().map(|tank| tank.revision).sum();
    Ok(format!("{}, {}", counted(tanks.len() as u64, "tank"), counted(revisions, "revision")))
}

pub(crate) fn write_new(to: &Path, text: &str) -> Result<(), Fault> {
    let written =
        File::create_new(to).and_then(|mut file| file.write_all(text.as_bytes()).and_then(|()| file.sync_all()));
    written.map_err(|error| match error.kind() {
        std::io::ErrorKind::AlreadyExists => Fault::new("a file of this name exists: nothing was written")
            .at(at(to))
            .hint("choose another name, or move the file away"),
        _ => Fault::new(format!("the export can't be written: {error}")).at(at(to)),
    })
}
