//! `tapmere measure`: a number that only the keeper can find: its protocol, and what the readings come to.

use std::path::PathBuf;

use knowledge::Measure;
use measure::{Name, Readings, Worked, brief, work};
use quantity::{Fault, Faults};
use serde::Serialize;
use setup::{Setup, Tank};

use super::book::write_new;
use super::{ALL, SOME, USAGE, fault, faulty, say, say_json};
use crate::{files, letter};

/// What is measured.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// What to measure; left out: the list
    pub name: Option<String>,
    /// Your setup file (TOML); with it the protocol names your own numbers
    pub setup: Option<String>,
    /// A reading, for instance --read before=412, or with its error before="412 ± 2"
    #[arg(long = "read", value_name = "KEY=VALUE")]
    pub read: Vec<String>,
    /// Write your setup with what was measured into this new file
    #[arg(long, value_name = "FILE")]
    pub to: Option<PathBuf>,
    /// Answer in JSON instead of words
    #[arg(long)]
    pub json: bool,
    /// Show why each number is what it is
    #[arg(long)]
    pub explain: bool,
}

/// What is answered.
#[derive(Serialize)]
pub struct Answer<'a> {
    /// Its key.
    pub measure: Name,
    /// Its protocol.
    pub protocol: &'a Measure,
    /// What this tank's own numbers say before anything is measured.
    pub brief: Vec<String>,
    /// What the readings come to; `None`: some are missing.
    pub worked: Option<Worked>,
    /// Fields of the setup with what they would hold.
    pub fields: Vec<(String, String)>,
}

/// One line of the list.
#[derive(Serialize)]
struct Listed<'a> {
    measure: Name,
    name: &'a str,
    asks: &'a str,
    writes: &'a [String],
}

/// Answer.
pub fn run(args: &Args) -> u8 {
    let Some(name) = &args.name else { return list(args.json) };
    let name = match Name::of(name) {
        Ok(name) => name,
        Err(fault) => return faulty(&fault.into(), args.json, USAGE),
    };
    let Some(protocol) = name.protocol() else { return SOME };
    let setup = match (&args.setup, args.read.is_empty() && args.to.is_none()) {
        (None, true) => None,
        (path, _) => match files::setup(path.as_deref()).and_then(|setup| Ok((setup.tank()?, setup))) {
            Ok(both) => Some(both),
            Err(faults) => return faulty(&faults, args.json, if path.is_none() { USAGE } else { SOME }),
        },
    };
    let Some((tank, setup)) = setup else {
        let answer = Answer { measure: name, protocol, brief: Vec::new(), worked: None, fields: Vec::new() };
        return if args.json {
            say_json(&answer, ALL)
        } else {
            say(&letter::measure(&answer, None, args.explain), ALL)
        };
    };
    match answered(args, name, protocol, &tank, &setup) {
        Ok(answer) if args.json => say_json(&answer, ALL),
        Ok(answer) => say(&letter::measure(&answer, Some(&tank), args.explain), ALL),
        Err(faults) => faulty(&faults, args.json, SOME),
    }
}

fn answered<'a>(
    args: &Args,
    name: Name,
    protocol: &'a Measure,
    tank: &Tank,
    setup: &Setup,
) -> Result<Answer<'a>, Faults> {
    let mut pairs = Vec::new();
    for text in &args.read {
        let (key, value) = text.split_once('=').ok_or_else(|| {
            Fault::new(format!("`{text}` is no reading")).expected("KEY=VALUE, for instance --read before=412")
        })?;
        pairs.push((key.trim(), value));
    }
    let readings = Readings::read(name, pairs, &tank.units)?;
    let worked = if readings.complete(name) { Some(work(name, tank, &readings)?) } else { None };
    let mut fields = Vec::new();
    if let Some(worked) = &worked {
        let next = worked.take(setup)?;
        fields.extend(setup.changes_to(&next).into_iter().filter_map(|change| Some((change.field, change.now?))));
        if let Some(to) = &args.to {
            write_new(to, next.text())?;
        }
    } else if args.to.is_some() {
        return Err(Fault::new("there is nothing to write yet").expected("all readings of the protocol").into());
    }
    Ok(Answer { measure: name, protocol, brief: brief(name, tank, &readings), worked, fields })
}

fn list(json: bool) -> u8 {
    let all: Vec<Listed> = Name::ALL
        .into_iter()
        .filter_map(|name| {
            let protocol = name.protocol()?;
            Some(Listed { measure: name, name: &protocol.name, asks: &protocol.asks, writes: &protocol.writes })
        })
        .collect();
    if json {
        return say_json(&all, ALL);
    }
    let rows: Vec<[String; 2]> =
        all.iter().map(|row| [row.measure.key().to_owned(), format!("{}: {}", row.name, row.asks)]).collect();
    match letter::list("What can be measured", &rows) {
        text if text.is_empty() => fault(&Fault::new("there is nothing to measure"), SOME),
        text => say(&text, ALL),
    }
}
