//! The help of all commands, held against one file: a change of the surface is seen in review.

use std::path::Path;

use app::cli::Cli;
use clap::{Command, CommandFactory};

use crate::tree::snapshot;

#[test]
fn help_is_what_it_was() {
    let mut root = Cli::command().term_width(100);
    root.build();
    let mut all = String::new();
    add(&root, &mut all);
    snapshot(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/help.txt"), &all);
}

fn add(command: &Command, all: &mut String) {
    let help = command.clone().term_width(100).render_long_help().to_string();
    *all += &format!("$ {} --help\n{}\n\n", command.get_bin_name().unwrap_or("tapmere"), help.trim_end());
    for inner in command.get_subcommands().filter(|c| c.get_name() != "help") {
        add(inner, all);
    }
}
