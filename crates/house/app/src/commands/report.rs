//! `tapmere report`: what a water report says, and what must be asked.

use std::fmt::Write as _;
use std::io::Read as _;

use quantity::{Fault, Place};
use report::{Counted, Reading, Report};

use super::{ALL, SOME, fault, faulty, say, say_json};
use crate::{files, reader};

/// Read one report.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit codes: 0 something was read, 1 nothing could be, 2 usage.")]
pub struct Read {
    /// The report: PDF with text, xlsx, ods, CSV, a page of the web, or text
    pub file: String,
    /// Answer in JSON; docs/json.md says what it holds
    #[arg(long)]
    pub json: bool,
}

/// `report read`.
pub fn read(args: &Read) -> u8 {
    let report = match of_file(&args.file) {
        Ok(report) => report,
        Err(fault) => return faulty(&fault.into(), args.json, SOME),
    };
    let code = if report.readings.is_empty() { SOME } else { ALL };
    if args.json { say_json(&report.answer(), code) } else { say(&in_words(&report), code) }
}

/// `report read-here`: the other end of [`reader::read`].
pub fn read_here() -> u8 {
    match reader::read_here() {
        Ok(()) => ALL,
        Err(error) => fault(&format!("error: {error}"), SOME),
    }
}

/// A report from a file; what it holds may be refused, and then the report says so.
///
/// # Errors
/// A file that can't be opened or read; a program that can't find itself.
pub fn of_file(path: &str) -> Result<Report, Fault> {
    let name = std::path::Path::new(path).file_name().map_or(path.into(), |n| n.to_string_lossy()).into_owned();
    let at = |fault: Fault| fault.at(Place { file: Some(path.to_owned()), ..Place::default() });
    let mut bytes = Vec::new();
    let file = files::open(path)?;
    file.take(report::LARGEST_FILE as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(|e| at(Fault::new(format!("this file can't be read: {e}"))))?;
    let program =
        std::env::current_exe().map_err(|e| at(Fault::new(format!("this program can't find itself: {e}"))))?;
    Ok(reader::read(&program, &name, bytes))
}

/// The report for people: questions first, then what was read beside its source.
fn in_words(report: &Report) -> String {
    let mut out = String::new();
    let mut line = |text: &str| {
        out += text;
        out.push('\n');
    };
    report.errors.iter().for_each(|e| line(&e.text));
    if !report.questions.is_empty() {
        line("To be answered first:");
        report.questions.iter().for_each(|q| line(&format!("  {}", q.text)));
    }
    report.contradictions.iter().for_each(|c| line(&format!("It contradicts itself: {}", c.text)));
    let mut readings: Vec<&Reading> = report.readings.iter().collect();
    readings.sort_by_key(|r| r.sample);
    let mut sample = None;
    for reading in readings {
        if reading.sample != sample {
            sample = reading.sample;
            let name = sample.and_then(|i| report.samples.get(i)).and_then(|s| s.name.as_deref());
            line(&format!("{}:", name.unwrap_or("?")));
        }
        line(&one(reading));
    }
    if !report.unknown_rows.is_empty() {
        line("Rows that were not understood:");
        report.unknown_rows.iter().for_each(|u| line(&format!("  {}", u.text)));
    }
    out
}

fn one(reading: &Reading) -> String {
    let name = knowledge::book().determinands.get(&reading.determinand).map_or("", |d| d.name.as_str());
    let amount = match (reading.is_below_detection(), reading.value, reading.detection_limit) {
        (true, _, Some(limit)) => format!("<{limit}"),
        (true, ..) => "not detected".to_owned(),
        (false, Some(value), _) => value.to_string(),
        _ => String::new(),
    };
    let unit = reading.unit.map_or("", |u| u.name());
    let mut text = format!("  {name} {amount} {unit}");
    match &reading.counted {
        Counted::As(basis) => {
            let _ = write!(text, " {}", report::choice(&reading.determinand, *basis));
        }
        Counted::Open(_) => text.push_str(" (open)"),
        Counted::Plainly => {}
    }
    let _ = write!(text, ", {}", format!("{:?}", reading.statistic).to_lowercase());
    let _ = write!(text, "   from: {}", reading.place.text);
    text
}
