//! `tapmere help-now`: what to do now, in order. Needs no file; with a setup file it adds that tank's own figures, with a book what its
//! log speaks for too.
//!
//! The steps are said before anything is read or worked out, so that a missing or faulty file takes no help away.

use std::path::PathBuf;

use quantity::{Fault, Faults, Units};
use recipe::Answer;
use serde::Serialize;
use trouble::{Sheet, Told, Worked, outcomes, sheet, sheets, worked};

use super::care::{self, Seen};
use super::{ALL, SOME, USAGE, fault, say, say_json};

/// Which trouble, of which tank.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit codes: 0 all answered, 1 the file has a fault or an open question (the steps are said all the same), 2 usage."
)]
pub struct Args {
    /// The trouble by its name in the list; without one: fish at the surface, and the list
    pub trouble: Option<String>,
    /// Your setup file (TOML), or your book: adds what your tank’s own figures say, and of a book what its log speaks for
    pub tank: Option<PathBuf>,
    /// A reading, for instance ammonia="0.5 mg/L N", ph=8 or temperature=24 (a bare number is in your own unit); may be given again
    #[arg(long, value_name = "NAME=VALUE")]
    pub read: Vec<String>,
    /// Number of the tank in the book; left out: the one that was edited last
    #[arg(long, value_name = "N")]
    pub number: Option<u64>,
    /// The moment that counts as now, for instance 2026-06-11T08:00[Europe/Berlin]; left out: by your clock
    #[arg(long, value_name = "MOMENT")]
    pub at: Option<String>,
    /// Answer in JSON
    #[arg(long)]
    pub json: bool,
    /// Show why each number is what it is
    #[arg(long)]
    pub explain: bool,
}

/// What is answered in JSON.
#[derive(Serialize)]
struct Said<'a> {
    sheet: &'a Sheet,
    troubles: Vec<Named<'a>>,
    tank: Vec<Mine>,
    faults: Faults,
}

/// A row of the list.
#[derive(Serialize)]
struct Named<'a> {
    key: &'a str,
    title: &'a str,
}

/// What a tank gives: one for each reply while a question is open.
#[derive(Serialize)]
struct Mine {
    replies: Vec<String>,
    worked: Worked,
}

/// Say it.
pub fn run(args: &Args) -> u8 {
    let Some(sheet) = found(args.trouble.as_deref()) else { return unknown(args) };
    if !args.json {
        let text = if args.trouble.is_none() { trouble::all_text() } else { trouble::sheet_text(sheet) };
        say(&text, ALL);
    }
    let (tank, faults, code) = match args.tank {
        None if args.read.is_empty() => (Vec::new(), Faults::new(), ALL),
        None => (Vec::new(), no_tank(), USAGE),
        Some(_) => match mine(sheet, args) {
            Ok((tank, code)) => (tank, Faults::new(), code),
            Err(faults) => (Vec::new(), faults, SOME),
        },
    };
    if args.json {
        let troubles = sheets().iter().map(|sheet| Named { key: &sheet.key, title: &sheet.title }).collect();
        return say_json(&Said { sheet, troubles, tank, faults }, code);
    }
    if !faults.0.is_empty() {
        return fault(&faults, code);
    }
    tank.iter().fold(code, |code, mine| say(&text(mine, args.explain), code))
}

fn found(key: Option<&str>) -> Option<&'static Sheet> {
    match key {
        None => sheets().first(),
        Some(key) => sheet(&key.to_lowercase().replace(' ', "-")),
    }
}

/// A word that is no trouble still gets the first steps and the list.
fn unknown(args: &Args) -> u8 {
    let word = args.trouble.as_deref().unwrap_or_default();
    let has = |text: &str| text.to_lowercase().contains(&word.to_lowercase());
    let near = sheets().iter().find(|sheet| has(&sheet.key) || has(&sheet.title) || has(&sheet.sign));
    let near = near.map(|sheet| format!("did you mean {}?", sheet.key));
    let known = sheets().iter().map(|sheet| sheet.key.as_str()).collect::<Vec<_>>().join(", ");
    let fault = Fault::new(format!("I know no trouble called `{word}`"))
        .expected(format!("one of {known}"))
        .hint(near.unwrap_or_else(|| "without a word I say what to do when fish gasp, and the list".to_owned()));
    if args.json {
        return super::faulty(&fault.into(), true, USAGE);
    }
    // Whoever mistypes in a fright gets what is done when fish gasp all the same, before the fault.
    let code = say(&trouble::all_text(), USAGE);
    super::faulty(&fault.into(), false, code)
}

fn no_tank() -> Faults {
    Fault::new("a reading needs a tank")
        .expected("a setup file or a book behind the trouble, for instance `tapmere help-now ammonia my-tank.toml --read ph=8`")
        .hint("the table above says where harm starts without one")
        .into()
}

fn mine(sheet: &Sheet, args: &Args) -> Result<(Vec<Mine>, u8), Faults> {
    let whose = care::Args {
        tank: args.tank.clone(),
        number: args.number,
        at: args.at.clone(),
        json: args.json,
        explain: args.explain,
    };
    let Seen { answer, log, now, .. } = care::seen_with(&whose, |log, now| log.list(&trouble::reads(now)))?;
    let units = outcomes(&answer).first().map_or_else(Units::default, |outcome| outcome.tank.units);
    let mut told = Told::default();
    let mut faults = Faults::new();
    for reading in &args.read {
        let pair = reading.split_once('=').ok_or_else(|| {
            Fault::new(format!("`{reading}` is no reading")).expected("NAME=VALUE, for instance ph=7.4")
        });
        let taken =
            pair.and_then(|(name, value)| told.take_in(name.trim(), value.trim().trim_matches('"'), "", &units));
        faults.note(taken);
    }
    faults.or(())?;
    told.hear(&log, &now);
    let one = |outcome: trouble::Outcome| Mine {
        replies: outcome.replies.clone(),
        worked: worked(&sheet.key, &outcome.case(&told), &log, &now),
    };
    let code = if matches!(answer, Answer::Open { .. }) { SOME } else { ALL };
    Ok((outcomes(&answer).into_iter().map(one).collect(), code))
}

fn text(mine: &Mine, explain: bool) -> String {
    let head = match mine.replies.as_slice() {
        [] => "IN THIS TANK".to_owned(),
        replies => format!("IN THIS TANK, IF {}", replies.join("; ")),
    };
    let worked = &mine.worked;
    if worked.causes.is_empty() && worked.sums.is_empty() && worked.asks.is_empty() {
        return format!("\n{head}\n\nNo figure of this tank changes the notice.\n");
    }
    format!("\n{head}\n\n{}", trouble::worked_text(worked, explain))
}
