//! `tapmere report`: what a water report says, and what must be asked.

use std::fmt::Write as _;
use std::io::Read as _;

use report::{Counted, Reading, Refusal, RefusalKind, Report};

use super::{ALL, SOME, fault, say, say_json};
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
    let report = of_file(&args.file);
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

/// A report from a file.
fn of_file(path: &str) -> Report {
    let name = std::path::Path::new(path).file_name().map_or(path.into(), |n| n.to_string_lossy()).into_owned();
    let refused =
        |kind, text: String| Report { file: name.clone(), errors: vec![Refusal::new(kind, text)], ..Report::default() };
    let mut bytes = Vec::new();
    let opened = files::open(path)
        .map_err(|f| f.to_string())
        .and_then(|f| f.take(report::LARGEST_FILE as u64 + 1).read_to_end(&mut bytes).map_err(|e| e.to_string()));
    match (opened, std::env::current_exe()) {
        (Err(text), _) => refused(RefusalKind::Damaged, text),
        (_, Err(error)) => refused(RefusalKind::Damaged, format!("This program can't find itself: {error}.")),
        (Ok(_), Ok(program)) => reader::read(&program, &name, bytes),
    }
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
