//! `tapmere care start`: set-up day, the weeks after it, the start test, animals on their way home.

use care::start::Bag;
use logbook::{Kept, Log};
use quantity::amount::Temperature;
use quantity::{Fault, Faults, Units, Why};
use recipe::{Answer, Plan};
use serde::Serialize;
use setup::{Question, Tank};

use super::care::{self as whose, Seen};
use super::{ALL, SOME, USAGE, faulty, say, say_json};
use crate::place::Which;
use crate::{clock, letter};

/// A start.
#[derive(Debug, clap::Args)]
pub struct Start {
    /// Whose tank
    #[command(flatten)]
    pub whose: whose::Args,
    /// Temperature in the animals' bag, for instance "22 °C"
    #[arg(long, value_name = "TEMPERATURE")]
    pub bag_temperature: Option<String>,
    /// pH in the bag
    #[arg(long, value_name = "PH")]
    pub bag_ph: Option<String>,
    /// All ammonia in the bag, mg/L as N
    #[arg(long, value_name = "MG")]
    pub bag_ammonia_n: Option<String>,
    /// Conductivity of the bag's water at 25 °C, µS/cm
    #[arg(long, value_name = "US")]
    pub bag_conductivity: Option<String>,
}

/// An answer, or, while a question is open, what would follow from each reply.
#[derive(Serialize)]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum Told<T> {
    /// Nothing is open.
    Settled {
        /// What follows.
        follows: T,
    },
    /// Nothing is decided on what is open; without replies to choose among (the glass) nothing follows yet.
    Open {
        /// The question.
        question: Question,
        /// What would follow, reply by reply.
        outcomes: Vec<Reply<T>>,
    },
}

/// What would follow from a reply.
#[derive(Serialize)]
pub struct Reply<T> {
    /// Its key.
    pub reply: String,
    /// What follows.
    pub then: Told<T>,
}

impl<T> Told<T> {
    /// Work it out for each reading of a tank.
    pub fn of(answer: &Answer, make: &dyn Fn(&Tank, &Plan) -> T) -> Told<T> {
        match answer {
            Answer::Settled { tank, plan } => Told::Settled { follows: make(tank, plan) },
            Answer::Open { question, outcomes } => {
                let told = outcomes.iter().filter(|_| !question.replies.is_empty());
                let then = |outcome: &recipe::Outcome| Told::of(&outcome.answer, make);
                let outcomes = told.map(|o| Reply { reply: o.reply.clone(), then: then(o) }).collect();
                Told::Open { question: question.clone(), outcomes }
            }
        }
    }

    fn text(&self, show: &dyn Fn(&T) -> String) -> String {
        match self {
            Told::Settled { follows } => show(follows),
            Told::Open { question, outcomes } => {
                let mut text = letter::open(question, &[]);
                for outcome in outcomes {
                    let reply = question.replies.iter().find(|reply| reply.key == outcome.reply);
                    let label = reply.map_or(outcome.reply.as_str(), |reply| reply.label.as_str());
                    text += &format!("\nIf {label}:\n\n{}", outcome.then.text(show));
                }
                text
            }
        }
    }

    /// Say it, in words or in JSON.
    pub fn say(&self, whose: &whose::Args, show: &dyn Fn(&T) -> String) -> u8
    where
        T: Serialize,
    {
        let code = if matches!(self, Told::Settled { .. }) { ALL } else { SOME };
        if whose.json { say_json(self, code) } else { say(&self.text(show), code) }
    }
}

/// The entries of the log that a start reads; none for a setup file.
fn log(args: &whose::Args, seen: &Seen) -> Result<Vec<Kept>, Fault> {
    if seen.number == 0 {
        return Ok(Vec::new());
    }
    let stamp = clock::stamp()?;
    let mut book = book::SqliteBook::open(&Which { book: args.tank.clone() }.path()?, &stamp)?.book;
    let (lately, animals) = care::start::reads(&seen.now);
    let log = book.log(seen.number, &stamp)?;
    let mut entries = log.list(&lately)?;
    entries.extend(log.list(&animals)?);
    Ok(entries)
}

/// The tank that is asked for, or the exit code of what was said instead.
pub fn seen(args: &whose::Args) -> Result<Seen, u8> {
    whose::seen(args).map_err(|faults| said(&faults, args))
}

/// Says what is wrong.
pub fn said(faults: &Faults, args: &whose::Args) -> u8 {
    faulty(faults, args.json, if args.tank.is_none() { USAGE } else { SOME })
}

/// The keeper's units.
pub fn units(answer: &Answer) -> Units {
    match answer {
        Answer::Settled { tank, .. } => tank.units,
        Answer::Open { outcomes, .. } => outcomes.first().map_or_else(Units::default, |o| units(&o.answer)),
    }
}

/// A text with its why-notes behind it, where they are asked for.
pub fn explained(text: String, whys: &[Why], args: &whose::Args) -> String {
    if args.explain && !whys.is_empty() { format!("{text}\nWhy?\n{}", letter::whys(whys)) } else { text }
}

/// A number of the command line, between two ends.
///
/// # Errors
/// No number, or none between them.
pub fn number(option: &str, text: &str, low: f64, high: f64) -> Result<f64, Fault> {
    let value = quantity::parse_number(text)?;
    if value.is_finite() && (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(Fault::new(format!("`{option}` {text} is out of range")).expected(format!("{low} to {high}")))
    }
}

/// What `tapmere care start` says.
pub fn run(args: &Start) -> u8 {
    let seen = match seen(&args.whose) {
        Ok(seen) => seen,
        Err(code) => return code,
    };
    let units = units(&seen.answer);
    let bag = match bag(args, &units) {
        Ok(bag) => bag,
        Err(fault) => return said(&fault.into(), &args.whose),
    };
    let log = match log(&args.whose, &seen) {
        Ok(log) => log,
        Err(fault) => return said(&fault.into(), &args.whose),
    };
    let told = Told::of(&seen.answer, &|tank, plan| care::start::start(&seen.setup, tank, plan, &log, &seen.now, &bag));
    told.say(&args.whose, &|start| explained(letter::notes::start(start, &units), &start.whys, &args.whose))
}

fn bag(args: &Start, units: &Units) -> Result<Bag, Fault> {
    let of = |option: &str, text: &Option<String>, low: f64, high: f64| {
        text.as_deref().map(|text| number(option, text, low, high)).transpose()
    };
    let temperature = args.bag_temperature.as_deref().map(|text| Temperature::parse_in(text, units)).transpose()?;
    Ok(Bag {
        temperature_c: temperature.map(Temperature::in_celsius),
        ph: of("--bag-ph", &args.bag_ph, 4.0, 10.0)?,
        ammonia_mg_n_per_l: of("--bag-ammonia-n", &args.bag_ammonia_n, 0.0, 100.0)?,
        conductivity_25_us_per_cm: of("--bag-conductivity", &args.bag_conductivity, 1.0, 10_000.0)?,
    })
}
