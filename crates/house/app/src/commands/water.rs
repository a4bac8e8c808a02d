//! `tapmere water`: a batch of waters solved, or mixed into one.

use std::io::{self, BufWriter};

use serde::Serialize;

use super::{ALL, SOME, USAGE, fault, faulty, say, say_json};
use crate::batch::{self, Answer, Form, Stop};
use crate::files;

/// Solve each row.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit codes: 0 every row solved, 1 some or none, 2 no batch (wrong header, empty, missing).")]
pub struct Solve {
    /// The batch (CSV); `-` reads the standard input. docs/command-line.md says what it holds
    pub file: String,
    /// Answer as a JSON array, a row that can't be solved carries `error`
    #[arg(long)]
    pub json: bool,
    /// Show under each row why its numbers are what they are
    #[arg(long, conflicts_with = "json")]
    pub explain: bool,
}

/// Mix the rows.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit codes: 0 mixed, 1 a row or the mixture can't be solved, 2 no batch.")]
pub struct Blend {
    /// The batch (CSV) with a column `parts`; `-` reads the standard input
    pub file: String,
    /// CO2 of the room's air in ppm (indoors 600 to 1500): shows the mixture after it stood in that room, too
    #[arg(long, value_name = "PPM", value_parser = ppm)]
    pub air_ppm: Option<f64>,
    /// Answer in JSON
    #[arg(long)]
    pub json: bool,
    /// Show why the numbers are what they are
    #[arg(long, conflicts_with = "json")]
    pub explain: bool,
}

fn ppm(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(v) if v > 0.0 && v <= 1e6 => Ok(v),
        _ => Err("a number above 0 is expected, with a point as decimal sign; indoor air has 600 to 1500".to_owned()),
    }
}

/// `tapmere water solve`.
pub fn solve(args: &Solve) -> u8 {
    let form = match (args.json, args.explain) {
        (true, _) => Form::Json,
        (false, true) => Form::Explained,
        (false, false) => Form::Table,
    };
    let input = match files::open(&args.file) {
        Ok(input) => input,
        Err(e) => return faulty(&e.into(), args.json, USAGE),
    };
    match batch::solve(&args.file, input, form, BufWriter::new(io::stdout()), io::stderr()) {
        Ok(count) if count.failed == 0 => ALL,
        Ok(_) => SOME,
        Err(Stop::Faults(faults)) => faulty(&faults, args.json, USAGE),
        Err(Stop::Output(e)) if e.kind() == io::ErrorKind::BrokenPipe => SOME,
        Err(Stop::Output(e)) => fault(&format!("error: the answers can't be written: {e}"), SOME),
    }
}

/// The two states of a mixture.
#[derive(Serialize)]
struct Mixed<'a> {
    closed: Answer<'a>,
    aired: Option<Answer<'a>>,
}

/// `tapmere water blend`.
pub fn blend(args: &Blend) -> u8 {
    let input = match files::open(&args.file) {
        Ok(input) => input,
        Err(e) => return faulty(&e.into(), args.json, USAGE),
    };
    let mixed = match batch::blend(&args.file, input, args.air_ppm) {
        Ok(mixed) => mixed,
        Err(batch::NoBlend { faults, batch: false }) => return faulty(&faults, args.json, USAGE),
        Err(batch::NoBlend { faults, .. }) => return faulty(&faults, args.json, SOME),
    };
    if args.json {
        let aired = mixed.aired.as_ref().map(|water| Answer::new("aired", water));
        return say_json(&Mixed { closed: Answer::new("closed", &mixed.closed), aired }, ALL);
    }
    let mut text = batch::table_head();
    for (name, water) in [("closed", Some(&mixed.closed)), ("aired", mixed.aired.as_ref())] {
        text += &water.map_or(String::new(), |water| batch::told(name, water, args.explain));
    }
    text += "closed: mixed without loss or gain of carbon dioxide.";
    text += match args.air_ppm {
        Some(_) => " aired: after standing in the room's air.\n",
        None => " With --air-ppm you see it after standing in a room, too.\n",
    };
    say(&text, ALL)
}
