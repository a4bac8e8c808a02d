//! `tapmere man`: man pages.

use std::path::PathBuf;

use clap::CommandFactory;

use super::{ALL, SOME, fault, say};
use crate::cli::Cli;

/// Man pages.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// Folder to write them into; without one the page of `tapmere` itself is printed
    pub folder: Option<PathBuf>,
}

/// Write them.
pub fn run(args: &Args) -> u8 {
    let command = Cli::command();
    let Some(folder) = &args.folder else {
        let mut page = Vec::new();
        return match clap_mangen::Man::new(command).render(&mut page) {
            Ok(()) => say(&String::from_utf8_lossy(&page), ALL),
            Err(e) => fault(&format!("error: the man page can't be made: {e}"), SOME),
        };
    };
    match std::fs::create_dir_all(folder).and_then(|()| clap_mangen::generate_to(command, folder)) {
        Ok(()) => ALL,
        Err(e) => fault(&format!("error: the man pages can't be written into {}: {e}", folder.display()), SOME),
    }
}
