//! `tapmere care away`, `missed`, `doubled`, `moving`, `stopping`: absences, slips, another tap, the end.

use std::path::PathBuf;

use care::away::Ask;
use jiff::civil::Date;
use quantity::{Fault, Faults};
use setup::Tank;

use super::care as whose;
use super::start::{Told, explained, said, seen, units};
use crate::{files, letter};

/// An absence.
#[derive(Debug, clap::Args)]
pub struct Away {
    /// Whose tank
    #[command(flatten)]
    pub whose: whose::Args,
    /// Days away, at most four weeks
    #[arg(long, value_name = "N", default_value_t = 14)]
    pub days: u32,
    /// The day of leaving, for instance 2026-07-01: the card then has dates
    #[arg(long, value_name = "DATE")]
    pub leaving: Option<Date>,
    /// Hours that the light burns at home
    #[arg(long, value_name = "HOURS")]
    pub light: Option<f64>,
}

/// Doses that were missed.
#[derive(Debug, clap::Args)]
pub struct Missed {
    /// Whose tank
    #[command(flatten)]
    pub whose: whose::Args,
    /// Days without a dose; left out: since the last dose in the log, or one
    #[arg(long, value_name = "N")]
    pub days: Option<u32>,
}

/// A dose given several times.
#[derive(Debug, clap::Args)]
pub struct Doubled {
    /// Whose tank
    #[command(flatten)]
    pub whose: whose::Args,
    /// How many times it was given on one day
    #[arg(long, value_name = "N", default_value_t = 2.0)]
    pub times: f64,
}

/// Another tap.
#[derive(Debug, clap::Args)]
pub struct Moving {
    /// Whose tank
    #[command(flatten)]
    pub whose: whose::Args,
    /// A setup file whose section `tap` is the new one; it needs no more than that
    #[arg(long, value_name = "FILE")]
    pub to: PathBuf,
}

/// What `tapmere care away` says.
pub fn away(args: &Away) -> u8 {
    let seen = match seen(&args.whose) {
        Ok(seen) => seen,
        Err(code) => return code,
    };
    if !(1..=Ask::most_days()).contains(&args.days) {
        let fault = Fault::new(format!("{} days are no absence that I can answer for", args.days))
            .expected(format!("1 to {} days", Ask::most_days()))
            .hint("for longer somebody must keep the tank by `tapmere care`");
        return said(&fault.into(), &args.whose);
    }
    if let Some(light_h) = args.light.filter(|hours| !(1.0..=24.0).contains(hours)) {
        let fault = Fault::new(format!("`--light` {light_h} is out of range")).expected("1 to 24 hours");
        return said(&fault.into(), &args.whose);
    }
    if let Some(leaving) = args.leaving.filter(|leaving| *leaving < seen.now.date()) {
        let fault = Fault::new(format!("{leaving} is past")).expected("the day of leaving: today or later");
        return said(&fault.into(), &args.whose);
    }
    let units = units(&seen.answer);
    let told = Told::of(&seen.answer, &|tank, plan| {
        let light_h = args.light.unwrap_or(Ask::of(tank).light_h);
        care::away::away(tank, plan, Ask { days: args.days, leaving: args.leaving, light_h }, &seen.log, &seen.now)
    });
    told.say(&args.whose, &|away| explained(letter::notes::away(away, &units), &away.whys, &args.whose))
}

/// What `tapmere care missed` says.
pub fn missed(args: &Missed) -> u8 {
    let seen = match seen(&args.whose) {
        Ok(seen) => seen,
        Err(code) => return code,
    };
    if let Some(days) = args.days.filter(|days| !(1..=Ask::most_days()).contains(days)) {
        let fault = Fault::new(format!("{days} days without a dose are no slip that I can answer for"))
            .expected(format!("1 to {} days", Ask::most_days()))
            .hint("test what the plan doses, and begin with `tapmere care today`");
        return said(&fault.into(), &args.whose);
    }
    let units = units(&seen.answer);
    let told = Told::of(&seen.answer, &|tank, plan| care::missed::missed(tank, plan, args.days, &seen.log, &seen.now));
    told.say(&args.whose, &|missed| explained(letter::notes::missed(missed, &units), &missed.whys, &args.whose))
}

/// What `tapmere care doubled` says.
pub fn doubled(args: &Doubled) -> u8 {
    let seen = match seen(&args.whose) {
        Ok(seen) => seen,
        Err(code) => return code,
    };
    if !(1.0..=1000.0).contains(&args.times) {
        return said(&Fault::new("so often?").expected("1 to 1000 times").into(), &args.whose);
    }
    let units = units(&seen.answer);
    let told = Told::of(&seen.answer, &|tank, plan| care::missed::doubled(tank, plan, args.times));
    told.say(&args.whose, &|doubled| {
        let whys: Vec<_> = doubled.iter().filter(|d| d.changes > 0).map(|d| d.why.clone()).collect();
        explained(letter::notes::doubled(doubled, &units), &whys, &args.whose)
    })
}

/// What `tapmere care moving` says.
pub fn moving(args: &Moving) -> u8 {
    let seen = match seen(&args.whose) {
        Ok(seen) => seen,
        Err(code) => return code,
    };
    let there = match new_tap(args) {
        Ok(there) => there,
        Err(faults) => return said(&faults, &args.whose),
    };
    let units = units(&seen.answer);
    let told = Told::of(&seen.answer, &|tank, plan| {
        let new = care::moving::with_tap(tank, &there);
        care::moving::moving((tank, plan), (&new, &recipe::plan(&new)), &seen.log, &seen.now)
    });
    told.say(&args.whose, &|m| explained(letter::notes::moving(m, &units), &m.whys, &args.whose))
}

/// The tank of the file that holds the new tap; a question about that tap must be answered in the file first.
fn new_tap(args: &Moving) -> Result<Tank, Faults> {
    let there = files::setup(args.to.to_str())?.tank()?;
    match there.questions.iter().find(|question| question.field.starts_with("tap.")) {
        Some(question) => Err(Fault::new(format!("`{}` of the new tap is open", question.field))
            .expected(question.ask.clone())
            .hint("write it with its unit and what it is counted as")
            .into()),
        None => Ok(there),
    }
}

/// What `tapmere care stopping` says.
pub fn stopping(args: &whose::Args) -> u8 {
    let seen = match seen(args) {
        Ok(seen) => seen,
        Err(code) => return code,
    };
    let units = units(&seen.answer);
    let told = Told::of(&seen.answer, &|tank, plan| care::stopping::stopping(tank, plan));
    told.say(args, &|notes| letter::notes::stopping(notes, &units))
}
