//! `tapmere signs`: what is seen and read, held against the tank's own numbers.

use std::path::PathBuf;

use knowledge::book;
use logbook::{Reading, Sure};
use quantity::{Fault, Faults, parse_number};
use recipe::Answer;
use serde::Serialize;
use signs::{Finding, judge, judge_seen};

use super::{ALL, SOME, USAGE, care, faulty, say, say_json};
use crate::letter;

/// What is seen.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// What you see, by the keys of the list, and your setup file (TOML) or your book; nothing: the list
    pub words: Vec<String>,
    /// What you read, in the unit of data/readings.toml, for instance --read nitrate=40
    #[arg(long = "read", value_name = "WHAT=VALUE")]
    pub read: Vec<String>,
    /// Number of the tank in the book; left out: the one that was edited last
    #[arg(long, value_name = "N")]
    pub number: Option<u64>,
    /// The moment that counts as now, for instance 2026-06-11T08:00[Europe/Berlin]; left out: by your clock
    #[arg(long, value_name = "MOMENT")]
    pub at: Option<String>,
    /// Answer in JSON instead of words
    #[arg(long)]
    pub json: bool,
}

/// What is answered in JSON.
#[derive(Serialize)]
struct Found {
    findings: Vec<Finding>,
}

/// Answer.
pub fn run(args: &Args) -> u8 {
    let (sights, tanks): (Vec<&String>, Vec<&String>) =
        args.words.iter().partition(|word| book().sights.contains_key(*word));
    if args.words.is_empty() && args.read.is_empty() {
        return list(args.json);
    }
    match found(args, &sights, &tanks) {
        Ok(findings) if args.json => say_json(&Found { findings }, ALL),
        Ok(findings) => say(&letter::signs(&findings), ALL),
        Err(faults) => faulty(&faults, args.json, if tanks.len() == 1 { SOME } else { USAGE }),
    }
}

fn found(args: &Args, sights: &[&String], tanks: &[&String]) -> Result<Vec<Finding>, Faults> {
    let tank = match tanks {
        [] => None,
        [one] => Some(PathBuf::from(one)),
        [one, other, ..] => {
            return Err(Fault::new(format!("`{one}` and `{other}`: one of them is no sight"))
                .expected("sights by their keys, and one setup file or book")
                .hint("`tapmere signs` lists the keys")
                .into());
        }
    };
    let readings = args.read.iter().map(|text| reading(text)).collect::<Result<Vec<_>, _>>()?;
    let whose = care::Args { tank, number: args.number, at: args.at.clone(), json: args.json, explain: false };
    let seen = care::seen_with(&whose, |log, now| log.list(&signs::reads(now)))?;
    let Answer::Settled { tank, plan } = &seen.answer else {
        return Err(Fault::new("a question is open, and signs are held against settled numbers")
            .hint("`tapmere dose` shows the question with what follows from each reply")
            .into());
    };
    let sights: Vec<&str> = sights.iter().map(|key| key.as_str()).collect();
    if sights.is_empty() && readings.is_empty() {
        return Ok(judge(tank, plan, &seen.log, &seen.now));
    }
    Ok(judge_seen(tank, plan, &seen.log, &seen.now, &sights, &readings))
}

/// `nitrate=40`, in the unit of the table.
fn reading(text: &str) -> Result<Reading, Fault> {
    let what = || Fault::new(format!("`{text}` is no reading"));
    let (of, value) = text.split_once('=').ok_or_else(|| what().expected("WHAT=VALUE, for instance nitrate=40"))?;
    let of = of.trim();
    let Some(row) = book().readings.get(of) else {
        let known: Vec<&str> = book().readings.keys().map(String::as_str).collect();
        return Err(what().expected(format!("one of {}", known.join(", "))));
    };
    let value = parse_number(value.trim())?;
    if !(row.is.low..=row.is.high).contains(&value) {
        return Err(what().expected(format!("{} to {} {}", row.is.low, row.is.high, row.is.unit)));
    }
    Ok(Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure: Sure::Plain })
}

fn list(json: bool) -> u8 {
    if json {
        return say_json(&book().sights, ALL);
    }
    let rows: Vec<[String; 2]> =
        book().sights.iter().map(|(key, sight)| [key.clone(), format!("{}: {}", sight.name, sight.seen)]).collect();
    say(&letter::list("What can be seen", &rows), ALL)
}
