//! Where the keeper's book is, if no place is named: in the folder that the system keeps for the data of programs.

use std::fs;
use std::path::{Path, PathBuf};

use etcetera::base_strategy::BaseStrategy;
use quantity::{Fault, Place};

/// Folder and name below the data folder.
const USUAL: [&str; 2] = ["tapmere", "book"];

/// A book on the command line.
#[derive(Debug, clap::Args)]
pub struct Which {
    /// Your book; left out: `tapmere/book` in the data folder of your system (`~/.local/share`, on macOS
    /// `~/Library/Application Support`, on Windows `%APPDATA%`)
    pub book: Option<PathBuf>,
}

impl Which {
    /// Its path.
    ///
    /// # Errors
    /// None was named, and the system has no data folder for this user.
    pub fn path(&self) -> Result<PathBuf, Fault> {
        match &self.book {
            Some(book) => Ok(book.clone()),
            None => etcetera::base_strategy::choose_native_strategy()
                .map(|folders| USUAL.iter().fold(folders.data_dir(), |path, part| path.join(part)))
                .map_err(|_| {
                    Fault::new("this system names no folder for your book")
                        .hint("say where it is, for instance `tapmere open my-book`")
                }),
        }
    }

    /// Its path; the folder of the usual place is made if it is not there yet.
    ///
    /// # Errors
    /// As [`Which::path`]; the folder can't be made.
    pub fn path_to_make(&self) -> Result<PathBuf, Fault> {
        let path = self.path()?;
        if let (None, Some(folder)) = (&self.book, path.parent()) {
            fs::create_dir_all(folder).map_err(|error| {
                Fault::new(format!("the folder of your book can't be made: {error}")).at(at(folder))
            })?;
        }
        Ok(path)
    }
}

/// A path in a fault.
pub fn at(path: &Path) -> Place {
    Place { file: Some(path.display().to_string()), ..Place::default() }
}
