//! The commands, one file each, and what they share: reading a setup, exit codes, printing.

pub mod away;
pub mod book;
pub mod care;
pub mod completions;
pub mod demo;
pub mod dose;
pub mod estimate;
pub mod help_now;
pub mod log;
pub mod man;
pub mod measure;
pub mod open;
pub mod report;
pub mod serve;
pub mod signs;
pub mod start;
pub mod tank;
pub mod tap;
pub mod water;

use std::fmt::Display;
use std::io::{self, Write};
use std::process::ExitCode;

use quantity::{Fault, Faults};
use serde::Serialize;

use crate::cli::{Book, Care, Cli, Command, Log, Report, Tank, Tap, Water};

/// All was answered.
pub const ALL: u8 = 0;
/// Some was answered, or nothing.
pub const SOME: u8 = 1;
/// The command was not used as it is meant.
pub const USAGE: u8 = 2;

/// A command that answers from a setup file.
#[derive(Debug, clap::Args)]
pub struct Answering {
    /// Your setup file (TOML); docs/setup-file.md says what it may hold
    pub setup: Option<String>,
    /// Answer in JSON instead of words
    #[arg(long)]
    pub json: bool,
    /// Show why each number is what it is
    #[arg(long)]
    pub explain: bool,
}

/// Run a command.
pub fn run(cli: Cli) -> ExitCode {
    let code = match cli.command {
        Command::Demo(args) => demo::run(&args),
        Command::Open(args) => open::run(&args),
        Command::Book(Book::Export(args)) => book::export(&args),
        Command::Book(Book::Import(args)) => book::import(&args),
        Command::Book(Book::Check(args)) => book::check(&args),
        Command::Book(Book::Undo(args)) => book::undo(&args),
        Command::Book(Book::Backup(args)) => book::backup(&args),
        Command::Serve(args) => serve::run(&args),
        Command::Tap(Tap::Show(args)) => tap::run(&args),
        Command::Tank(Tank::Show(args)) => tank::run(&args),
        Command::Report(Report::Read(args)) => report::read(&args),
        Command::Report(Report::Estimate(args)) => estimate::estimate(&args),
        Command::Report(Report::Compare(args)) => estimate::compared(&args),
        Command::Report(Report::ReadHere) => report::read_here(),
        Command::Dose(args) => dose::run(&args),
        Command::Care(Care::Today(args)) => care::today(&args),
        Command::Care(Care::Week(args)) => care::week(&args),
        Command::Care(Care::Start(args)) => start::run(&args),
        Command::Care(Care::Away(args)) => away::away(&args),
        Command::Care(Care::Missed(args)) => away::missed(&args),
        Command::Care(Care::Doubled(args)) => away::doubled(&args),
        Command::Care(Care::Moving(args)) => away::moving(&args),
        Command::Care(Care::Stopping(args)) => away::stopping(&args),
        Command::Log(Log::Add(args)) => log::add(&args),
        Command::Log(Log::List(args)) => log::list(&args),
        Command::Log(Log::Mend(args)) => log::mend(&args),
        Command::Log(Log::TakeOut(args)) => log::take_out(&args),
        Command::Log(Log::Undo(args)) => log::undo(&args),
        Command::Log(Log::Redo(args)) => log::redo(&args),
        Command::Log(Log::Import(args)) => log::import(&args),
        Command::Log(Log::Export(args)) => log::export(&args),
        Command::Measure(args) => measure::run(&args),
        Command::Signs(args) => signs::run(&args),
        Command::Water(Water::Solve(args)) => water::solve(&args),
        Command::Water(Water::Blend(args)) => water::blend(&args),
        Command::HelpNow(args) => help_now::run(&args),
        Command::Completions(args) => completions::run(&args),
        Command::Man(args) => man::run(&args),
    };
    ExitCode::from(code)
}

/// Say what is wrong, on the standard error.
fn fault(fault: &impl Display, code: u8) -> u8 {
    // A standard error that is closed hears nothing; the exit code tells it.
    let _ = writeln!(io::stderr(), "{fault}");
    code
}

/// Say what is wrong with the input on the standard error, and to whom asked for JSON as an object on the standard output.
fn faulty(faults: &Faults, json: bool, code: u8) -> u8 {
    #[derive(Serialize)]
    struct Faulty<'a> {
        faults: &'a Faults,
    }
    let code = fault(faults, code);
    if json { say_json(&Faulty { faults }, code) } else { code }
}

/// Say what the keeper should know although nothing went wrong.
fn note(note: &Fault) {
    let text = note.to_string();
    let _ = writeln!(io::stderr(), "note:{}", text.strip_prefix("error:").unwrap_or(&text));
}

/// Print to the standard output; a reader that has gone is no fault of ours.
fn say(text: &str, code: u8) -> u8 {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => code,
        Err(_) => SOME,
    }
}

/// Print as JSON.
fn say_json(value: &impl Serialize, code: u8) -> u8 {
    match serde_json::to_string_pretty(value) {
        Ok(text) => say(&(text + "\n"), code),
        Err(error) => fault(&format!("error: the answer can't be written as JSON: {error}"), SOME),
    }
}
