//! The command line, defined once: help, man pages and completions come from it.

use clap::{Parser, Subcommand};

use crate::commands;

/// What a freshwater tank full of plants needs, worked out from the tap water you have: what to weigh, and what to
/// leave alone.
#[derive(Debug, Parser)]
#[command(name = "tapmere", version, propagate_version = true)]
#[command(after_help = "Exit codes: 0 all answered, 1 some or nothing answered (a fault, an open question), 2 usage.")]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Open an invented household: its plan here in the terminal, its pages in the browser
    Demo(commands::demo::Args),
    /// Open your book: its tanks in the browser, every change kept. An empty one is made where there is none
    Open(commands::open::Args),
    /// Your book as a text and back, checked, copied
    #[command(subcommand)]
    Book(Book),
    /// Open the pages of your own setup file; what is changed there is forgotten at the end
    Serve(commands::serve::Args),
    /// Your tap: what it brings, what it swings
    #[command(subcommand)]
    Tap(Tap),
    /// Water reports: what the supplier's file says, and what must be asked
    #[command(subcommand)]
    Report(Report),
    /// Your tank: true litres, weight, and what was assumed
    #[command(subcommand)]
    Tank(Tank),
    /// What to weigh into which bottle, how much a day, and what level follows
    Dose(commands::Answering),
    /// What to do today and this week
    #[command(subcommand)]
    Care(Care),
    /// Your logbook: what you read, did and saw, written and found again
    #[command(subcommand)]
    Log(Log),
    /// Measure your own tank once: litres, flow, light, heat, exchange, uptake, a clay
    Measure(commands::measure::Args),
    /// What algae, leaves and readings say of this tank, by elimination; one change, and when to judge it
    Signs(commands::signs::Args),
    /// Waters by the thousand: solve them, blend them
    #[command(subcommand)]
    Water(Water),
    /// Something is wrong: what to do now, in order. Needs no file; with one it adds your tank's own figures
    HelpNow(commands::help_now::Args),
    /// Completions for your shell, on the standard output
    Completions(commands::completions::Args),
    /// Man pages, one file a command
    Man(commands::man::Args),
}

/// What can be done with a book.
#[derive(Debug, Subcommand)]
pub enum Book {
    /// Write everything in the book as TOML that a person can read and edit
    Export(commands::book::Export),
    /// Put an export in the place of everything in the book: checked first, the old book copied beside it
    Import(commands::book::Import),
    /// Look through the whole book, every revision too
    Check(commands::book::Check),
    /// Copy the book, also while it is open
    Backup(commands::book::Backup),
    /// Take the last change of a tank back, and say what that changed; again for the one before
    Undo(commands::book::Undo),
}

/// What can be asked of a tap.
#[derive(Debug, Subcommand)]
pub enum Tap {
    /// Show what the tap brings, with its range and how well it is known
    Show(commands::Answering),
}

/// What can be done with a report.
#[derive(Debug, Subcommand)]
pub enum Report {
    /// Read a report: each value with the place it came from, and the questions that it leaves
    Read(commands::report::Read),
    /// Put reports and your own tests together: the water at your tap with its range, what it means, and the next test
    Estimate(commands::estimate::Estimate),
    /// Hold last year's report against this year's: what moved, and which advice changes with it
    Compare(commands::estimate::Compare),
    /// Read a report from the standard input, in this process
    #[command(hide = true)]
    ReadHere,
}

/// What can be asked of a tank.
#[derive(Debug, Subcommand)]
pub enum Tank {
    /// Show the tank's sizes and the assumptions, the weightiest first
    Show(commands::Answering),
}

/// What can be asked of the routine.
#[derive(Debug, Subcommand)]
pub enum Care {
    /// Two or three acts, and the change as one sheet where it is due
    Today(commands::care::Args),
    /// Today and the six days after it, with the change, tests and what runs out
    Week(commands::care::Week),
    /// Set-up day in order, the weeks after it, the start test by your log, animals on their way home
    Start(commands::start::Start),
    /// Before you go, what is reduced meanwhile, and the sitter's card
    Away(commands::away::Away),
    /// How to carry on after a missed dose
    Missed(commands::away::Missed),
    /// What a dose given twice does, and what to do
    Doubled(commands::away::Doubled),
    /// From your tap's water to another tap's, in changes that animals bear
    Moving(commands::away::Moving),
    /// The end of a tank: animals, plants, water, salts
    Stopping(commands::care::Args),
}

/// What can be done with a logbook.
#[derive(Debug, Subcommand)]
pub enum Log {
    /// Write an entry: a reading, a dose, a change, food, trimmings, something seen, a purchase, a photograph, words
    Add(commands::log::Add),
    /// Look for entries, by kind, words and time
    List(commands::log::List),
    /// Change something of an entry
    Mend(commands::log::Mend),
    /// Take an entry out
    TakeOut(commands::log::TakeOut),
    /// Take back the last thing that was written, changed or taken out
    Undo(commands::log::Back),
    /// Do again what undo took back
    Redo(commands::log::Back),
    /// Read a table in (CSV); what stands there already is not written twice
    Import(commands::log::Import),
    /// The whole log as a table (CSV) on the standard output
    Export(commands::log::Export),
}

/// What can be done with waters.
#[derive(Debug, Subcommand)]
pub enum Water {
    /// Solve each row of a CSV: pH, carbon dioxide, saturation, conductivity
    Solve(commands::water::Solve),
    /// Mix the rows of a CSV by their `parts` and solve the mixture; its pH is not the mean
    Blend(commands::water::Blend),
}
