//! The program `tapmere`.

use std::process::ExitCode;

use clap::Parser;

fn main() -> ExitCode {
    app::commands::run(app::cli::Cli::parse())
}
