//! `tapmere completions`: completions for a shell.

use clap::CommandFactory;
use clap_complete::Shell;

use super::{ALL, say};
use crate::cli::Cli;

/// Completions.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// Your shell
    pub shell: Shell,
}

/// Print them.
pub fn run(args: &Args) -> u8 {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut Cli::command(), "tapmere", &mut script);
    say(&String::from_utf8_lossy(&script), ALL)
}
