//! `tapmere care`: what to do today, and this week.

use std::path::{Path, PathBuf};

use care::{Care, Day};
use jiff::ZonedDateTime;
use logbook::{Kept, Log};
use quantity::{Fault, Faults};
use recipe::Answer;
use setup::{Book, Setup, Tank};

use super::book::write_new;
use super::{ALL, SOME, USAGE, fault, faulty, say, say_json};
use crate::place::Which;
use crate::{clock, files, letter};

/// Whose tank.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// Your setup file (TOML), or your book; left out: the book at its usual place
    pub tank: Option<PathBuf>,
    /// Number of the tank in the book; left out: the one that was edited last
    #[arg(long, value_name = "N")]
    pub number: Option<u64>,
    /// The moment that counts as now, for instance 2026-06-11T08:00[Europe/Berlin]; left out: by your clock
    #[arg(long, value_name = "MOMENT")]
    pub at: Option<String>,
    /// Answer in JSON instead of words
    #[arg(long)]
    pub json: bool,
    /// Show why each number is what it is
    #[arg(long)]
    pub explain: bool,
}

/// The week.
#[derive(Debug, clap::Args)]
pub struct Week {
    /// Whose tank
    #[command(flatten)]
    pub whose: Args,
    /// Write the routine into this new file for your phone's own reminders (iCalendar), instead of the week
    #[arg(long, value_name = "FILE")]
    pub calendar: Option<PathBuf>,
}

/// A tank with its log at a moment.
pub struct Seen {
    /// Its setup.
    pub setup: Setup,
    /// What follows from it.
    pub answer: Answer,
    /// Its log; empty for a setup file.
    pub log: Vec<Kept>,
    /// Its number in the book; 0 for a setup file.
    pub number: u64,
    /// Now.
    pub now: ZonedDateTime,
}

/// What `tapmere care today` says.
pub fn today(args: &Args) -> u8 {
    answered(args, letter::care::today)
}

/// What `tapmere care week` says.
pub fn week(args: &Week) -> u8 {
    match &args.calendar {
        Some(to) => calendar(&args.whose, to),
        None => answered(&args.whose, letter::care::week),
    }
}

/// The routine for a calendar; while a question is open there is none.
fn calendar(args: &Args, to: &Path) -> u8 {
    let seen = match seen(args) {
        Ok(seen) => seen,
        Err(faults) => return faulty(&faults, args.json, if args.tank.is_none() { USAGE } else { SOME }),
    };
    let Answer::Settled { tank, plan } = &seen.answer else {
        let told = Fault::new("a question is still open, so nothing is written on any of its answers")
            .hint("`tapmere care week` without --calendar shows the question");
        return fault(&told, SOME);
    };
    match write_new(to, &care::calendar(tank, plan, &seen.log, &seen.now, seen.number)) {
        Ok(()) => say(&format!("The routine stands in {}: open it on your phone.\n", to.display()), ALL),
        Err(told) => fault(&told, SOME),
    }
}

fn answered(args: &Args, text: fn(&Day, &str, &quantity::Units) -> String) -> u8 {
    let seen = match seen(args) {
        Ok(seen) => seen,
        Err(faults) => return faulty(&faults, args.json, if args.tank.is_none() { USAGE } else { SOME }),
    };
    let care = care::care(&seen.answer, &seen.log, &seen.now);
    let code = if matches!(care, Care::Settled { .. }) { ALL } else { SOME };
    if args.json {
        return say_json(&care, code);
    }
    let tank = first_tank(&seen.answer);
    let (name, units) = tank.map_or(("", quantity::Units::default()), |tank| (tank.name.as_str(), tank.units));
    let show = |day: &Day| {
        let mut out = text(day, name, &units);
        if args.explain && !day.whys.is_empty() {
            out += &format!("\nWhy?\n{}", letter::whys(&day.whys));
        }
        out
    };
    let out = match &care {
        Care::Settled { day } => show(day),
        Care::Open { question, outcomes } => letter::care::open(question, outcomes, &show),
    };
    say(&out, code)
}

/// The tank that is asked for, with its log as far as a day needs it.
///
/// # Errors
/// No such file, book or tank, or faults in it; a moment that is none.
pub fn seen(args: &Args) -> Result<Seen, Faults> {
    seen_with(args, care::logged)
}

/// Reads of a log what something needs.
type Reads = fn(&dyn Log, &ZonedDateTime) -> Result<Vec<Kept>, Fault>;

/// The same with the entries of the log that something else needs.
///
/// # Errors
/// As [`seen`].
pub fn seen_with(args: &Args, reads: Reads) -> Result<Seen, Faults> {
    let now = match &args.at {
        Some(at) => at.parse().map_err(|_| {
            Fault::new(format!("`{at}` is no moment"))
                .expected("a date and time with its zone, for instance 2026-06-11T08:00[Europe/Berlin]")
        })?,
        None => clock::now(),
    };
    let (setup, log, number) = match &args.tank {
        Some(path) if !is_book(path)? => (files::setup(path.to_str())?, Vec::new(), 0),
        book => kept(&Which { book: book.clone() }, args.number, |log| reads(log, &now))?,
    };
    let answer = recipe::answer(&setup)?;
    Ok(Seen { setup, answer, log, number, now })
}

/// Whether a file is a book and no text.
fn is_book(path: &std::path::Path) -> Result<bool, Fault> {
    use std::io::Read;
    let mut head = Vec::new();
    files::open(&path.display().to_string())?
        .take(16)
        .read_to_end(&mut head)
        .map_err(|error| Fault::new(format!("the file can't be read: {error}")).at(crate::place::at(path)))?;
    Ok(head.starts_with(b"SQLite format 3"))
}

fn kept(
    which: &Which,
    number: Option<u64>,
    reads: impl Fn(&dyn Log) -> Result<Vec<Kept>, Fault>,
) -> Result<(Setup, Vec<Kept>, u64), Fault> {
    let stamp = clock::stamp()?;
    let mut book = book::SqliteBook::open(&which.path()?, &stamp)?.book;
    let none = || Fault::new("there is no such tank in your book").hint("`tapmere open` shows its tanks");
    let number = match number {
        Some(number) => number,
        None => book.last_tank()?.ok_or_else(none)?,
    };
    let setup = book.tank(number, &stamp)?.setup().cloned().ok_or_else(none)?;
    let log = reads(&book.log(number, &stamp)?)?;
    Ok((setup, log, number))
}

fn first_tank(answer: &Answer) -> Option<&Tank> {
    match answer {
        Answer::Settled { tank, .. } => Some(tank),
        Answer::Open { outcomes, .. } => outcomes.iter().find_map(|outcome| first_tank(&outcome.answer)),
    }
}
