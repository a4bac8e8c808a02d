//! `tapmere report estimate`, `tapmere report compare`: the water that follows from reports and own tests, and last year's
//! against this year's.

use quantity::{Fault, Faults};
use report::{
    Asked, By, Combined, Filed, Meaning, Moved, OneWater, Pair, Picked, Refusal, Years, combine, compare, meaning,
    picked_alike, take, years,
};
use serde::Serialize;
use setup::{Setup, Tank};

use super::report::of_file;
use super::{ALL, SOME, USAGE, faulty, say, say_json};
use crate::{files, letter};

/// Put reports and own tests together.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit codes: 0 all answered, 1 a question is open or a file could not be read, 2 usage.")]
pub struct Estimate {
    /// Reports of the supplier or a laboratory; without any, the tests that make a usable water
    pub files: Vec<String>,
    /// Your own tests at your own tap, a line for each; may be given more than once
    #[arg(long, value_name = "FILE")]
    pub own: Vec<String>,
    /// The zone, works or date that is yours, as the report names it; `all` for every one
    #[arg(long, value_name = "NAME")]
    pub sample: Option<String>,
    /// What an open number is counted as, for instance `nitrate=N`; may be given more than once
    #[arg(long, value_name = "NAME=BASIS")]
    pub counted: Vec<String>,
    /// Your setup file: where the tap is, how you change water, who lives in the tank
    #[arg(long, value_name = "FILE")]
    pub setup: Option<String>,
    /// Print your setup file with this water at its tap, and nothing else
    #[arg(long, conflicts_with = "json")]
    pub take: bool,
    /// Answer in JSON; docs/json.md says what it holds
    #[arg(long)]
    pub json: bool,
}

/// Last year's report against this year's.
#[derive(Debug, clap::Args)]
pub struct Compare {
    /// The earlier report
    pub before: String,
    /// The later report
    pub after: String,
    /// Your setup file, whose advice is compared; without one, a tank of assumptions
    #[arg(long, value_name = "FILE")]
    pub setup: Option<String>,
    /// The zone, works or date that is yours, as both reports name it; `all` for every one, each against its namesake
    #[arg(long, value_name = "NAME")]
    pub sample: Option<String>,
    /// What an open number is counted as, for instance `nitrate=N`; may be given more than once
    #[arg(long, value_name = "NAME=BASIS")]
    pub counted: Vec<String>,
    /// Answer in JSON; docs/json.md says what it holds
    #[arg(long)]
    pub json: bool,
}

/// What is answered in JSON by `report estimate`.
#[derive(Serialize)]
struct Answer<'a> {
    #[serde(flatten)]
    combined: &'a Combined,
    /// One for each water; none while a question of the tap is open.
    meanings: Vec<Option<Meaning>>,
    questions: &'a [Asked],
    errors: &'a [Refusal],
}

/// What is answered in JSON by `report compare`.
#[derive(Serialize)]
struct Compared<'a> {
    waters: &'a [Year],
    unmatched: &'a [String],
    questions: &'a [Asked],
    errors: &'a [Refusal],
}

/// One water in both reports.
#[derive(Serialize)]
pub struct Year {
    /// The works or zone that both name.
    pub name: Option<String>,
    /// What moved.
    pub moved: Vec<Moved>,
    /// Which advice moves with it.
    pub advice: Vec<String>,
}

/// Sources that were read.
#[derive(Default)]
struct Sources {
    all: Vec<(String, Filed)>,
    questions: Vec<Asked>,
    errors: Vec<Refusal>,
}

/// `report estimate`.
pub fn estimate(args: &Estimate) -> u8 {
    let setup = match tank_of(args.setup.as_deref()) {
        Ok(setup) => setup,
        Err(faults) => return faulty(&faults, args.json, SOME),
    };
    let files = args.files.iter().map(|file| (file, By::Works)).chain(args.own.iter().map(|file| (file, By::Keeper)));
    let sources = match read(files, args.sample.as_deref(), &args.counted) {
        Ok(sources) => sources,
        Err(fault) => return faulty(&fault.into(), args.json, USAGE),
    };
    let Some(combined) = together(&sources, &setup) else { return faulty(&no_water().into(), args.json, SOME) };
    let code = if sources.questions.is_empty() && sources.errors.is_empty() { ALL } else { SOME };
    if args.take {
        return taken(&setup, &combined, code);
    }
    let waters: Vec<(Option<Tank>, &OneWater)> =
        combined.waters.iter().map(|water| (take(&setup, water).and_then(|setup| setup.tank()).ok(), water)).collect();
    // A water from nothing means nothing yet, and none means anything before its question is answered.
    let open = |tank: &Tank| tank.questions.iter().any(|question| question.field.starts_with("tap."));
    let means = |(tank, water): &(Option<Tank>, &OneWater)| {
        let tank = tank.as_ref().filter(|tank| !water.from.is_empty() && !open(tank))?;
        Some(meaning(tank, &water.readings))
    };
    let meanings: Vec<Option<Meaning>> = waters.iter().map(means).collect();
    if args.json {
        let Sources { questions, errors, .. } = &sources;
        return say_json(&Answer { combined: &combined, meanings, questions, errors }, code);
    }
    let mut text = first(&sources);
    text += &letter::waters(&combined, &meanings, &units(&setup));
    say(&text, code)
}

/// `report compare`.
pub fn compared(args: &Compare) -> u8 {
    let setup = match tank_of(args.setup.as_deref()) {
        Ok(setup) => setup,
        Err(faults) => return faulty(&faults, args.json, SOME),
    };
    let [mut before, after] = match [&args.before, &args.after]
        .map(|file| read([(file, By::Works)].into_iter(), args.sample.as_deref(), &args.counted))
    {
        [Ok(before), Ok(after)] => [before, after],
        [Err(fault), _] | [_, Err(fault)] => return faulty(&fault.into(), args.json, USAGE),
    };
    if let ([(_, old)], [(_, new)]) = (before.all.as_mut_slice(), after.all.as_slice()) {
        *old = picked_alike(old, new);
        before.questions = old.asked().into_iter().collect();
    }
    let (Some(old), Some(new)) = (together(&before, &setup), together(&after, &setup)) else {
        return faulty(&no_water().into(), args.json, SOME);
    };
    let Years { pairs, unmatched } = years(&old.waters, &new.waters);
    let waters: Result<Vec<Year>, Faults> = pairs.iter().map(|pair| year(&setup, pair)).collect();
    let waters = match waters {
        Ok(waters) => waters,
        Err(faults) => return faulty(&faults, args.json, SOME),
    };
    let told = Sources {
        questions: before.questions.into_iter().chain(after.questions).collect(),
        errors: before.errors.into_iter().chain(after.errors).collect(),
        ..Sources::default()
    };
    let code = if told.questions.is_empty() && told.errors.is_empty() { ALL } else { SOME };
    if args.json {
        let Sources { questions, errors, .. } = &told;
        return say_json(&Compared { waters: &waters, unmatched: &unmatched, questions, errors }, code);
    }
    say(&(first(&told) + &letter::years(&waters, &unmatched)), code)
}

/// What moved in one water, and which advice moves with it.
fn year(setup: &Setup, pair: &Pair) -> Result<Year, Faults> {
    let moved = compare(&pair.before.estimate, &pair.after.estimate, &units(setup));
    Ok(Year { name: pair.name.clone(), moved, advice: advice(setup, &pair.before, &pair.after)? })
}

/// Which advice differs between two waters at the same tank.
fn advice(setup: &Setup, before: &OneWater, after: &OneWater) -> Result<Vec<String>, Faults> {
    let answer = |water: &OneWater| recipe::answer(&take(setup, water)?);
    Ok(pages::advice_between(&answer(before)?, &answer(after)?, &units(setup)))
}

/// The keeper's setup, or one of assumptions.
fn tank_of(path: Option<&str>) -> Result<Setup, Faults> {
    path.map_or_else(|| Setup::read("a tank of assumptions", ""), |path| files::setup(Some(path)))
}

fn units(setup: &Setup) -> quantity::Units {
    setup.tank().map(|tank| tank.units).unwrap_or_default()
}

fn together(sources: &Sources, setup: &Setup) -> Option<Combined> {
    let all: Vec<(&str, &Filed)> = sources.all.iter().map(|(name, filed)| (name.as_str(), filed)).collect();
    combine(&all, report::place_of(setup))
}

fn no_water() -> Fault {
    Fault::new("these numbers lie outside what fresh water can be")
        .hint("look whether a unit is wrong: `tapmere report read`")
}

/// Read files, pick the sample, count what was told.
fn read<'f>(
    files: impl Iterator<Item = (&'f String, By)>,
    sample: Option<&str>,
    counted: &[String],
) -> Result<Sources, Fault> {
    let mut sources = Sources::default();
    for (file, by) in files {
        let report = of_file(file)?;
        sources.errors.extend(report.errors.iter().cloned());
        let name = report.file.clone();
        let mut filed = Filed::new(report, by);
        if let Some(sample) = sample {
            filed.picked = picked(&filed, sample)?;
        }
        answer(&mut filed, counted)?;
        sources.questions.extend(filed.asked());
        sources.all.push((name, filed));
    }
    Ok(sources)
}

/// The sample of this name.
fn picked(filed: &Filed, name: &str) -> Result<Picked, Fault> {
    let samples = &filed.report.samples;
    if name == "all" || samples.len() < 2 {
        return Ok(Picked::All);
    }
    let names: Vec<&str> = samples.iter().filter_map(|sample| sample.name.as_deref()).collect();
    let found = samples.iter().position(|sample| sample.name.as_deref().is_some_and(|n| n.eq_ignore_ascii_case(name)));
    found.map(Picked::One).ok_or_else(|| {
        Fault::new(format!("{} has no sample `{name}`", filed.report.file))
            .expected(format!("{}, or all", names.join("; ")))
    })
}

/// Answer every open question of a determinand that `counted` names.
fn answer(filed: &mut Filed, counted: &[String]) -> Result<(), Fault> {
    for told in counted {
        let usage =
            || Fault::new(format!("`{told}` does not say what is counted as what")).expected("for instance nitrate=N");
        let (name, basis) = told.split_once('=').ok_or_else(usage)?;
        // One answer settles all readings of a question; another unit, or another zone, is another question.
        for _ in 0..filed.report.readings.len() {
            let lines = filed.lines();
            let open = lines.iter().find(|line| line.reading.determinand == name && line.reading.question.is_some());
            let Some((reading, key)) = open.and_then(|line| {
                let report::Spot::Reading(at) = line.at else { return None };
                Some((at, report::reply_key(&line.reading, basis)))
            }) else {
                break;
            };
            filed.answer(reading, &key.ok_or_else(usage)?)?;
        }
    }
    Ok(())
}

/// The setup with a water at its tap.
fn taken(setup: &Setup, combined: &Combined, code: u8) -> u8 {
    let [water] = combined.waters.as_slice() else {
        let two = Fault::new("these are two waters that take turns, and no mean of them ever comes from the tap")
            .hint("name the one that is yours by --sample");
        return faulty(&two.into(), false, SOME);
    };
    match take(setup, water) {
        Ok(setup) => say(setup.text(), code),
        Err(faults) => faulty(&faults, false, SOME),
    }
}

/// What could not be read, and what must be answered, before any number.
fn first(sources: &Sources) -> String {
    let mut text = String::new();
    for error in &sources.errors {
        text += &format!("{}\n", error.text);
    }
    for asked in &sources.questions {
        text += &format!("To be answered first: {}\n", asked.text);
        for (_, words) in &asked.replies {
            text += &format!("  - {words}\n");
        }
    }
    if text.is_empty() { text } else { text + "\n" }
}
