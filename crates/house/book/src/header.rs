//! The first hundred bytes of a file: whether it is a book, before SQLite may touch it.
//!
//! SQLite writes into a file as soon as it opens one that was left in the middle of a change. A file that is not ours is
//! therefore told from its own bytes (SQLite's file format: the text at 0, `user_version` at 60, `application_id` at 68).

use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

use quantity::{Fault, Place};

/// `application_id` of a book: the letters "Tapm".
pub(crate) const APPLICATION_ID: u32 = 0x5461_706D;

/// What a file is, by its header.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Header {
    /// There is no file.
    Missing,
    /// A file without a byte: a book that was never finished, or one that lost everything.
    Empty,
    /// A book of ours.
    Book,
    /// An SQLite file of another program.
    OtherProgram,
    /// No SQLite file, or one with a damaged beginning.
    Unknown,
}

impl Header {
    /// Look at a file.
    ///
    /// # Errors
    /// The file is there and can't be read.
    pub fn of(path: &Path) -> Result<Header, Fault> {
        let unreadable = |error: std::io::Error| {
            Fault::new(format!("this file can't be read: {error}")).at(place(path)).hint("may you read it?")
        };
        let file = match File::open(path) {
            Ok(file) => file,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Header::Missing),
            Err(error) => return Err(unreadable(error)),
        };
        let mut bytes = Vec::new();
        file.take(100).read_to_end(&mut bytes).map_err(unreadable)?;
        Ok(Header::read(&bytes))
    }

    fn read(bytes: &[u8]) -> Header {
        if bytes.is_empty() {
            return Header::Empty;
        }
        if bytes.len() < 100 || !bytes.starts_with(b"SQLite format 3\0") {
            return Header::Unknown;
        }
        if bytes.get(68..72) == Some(&APPLICATION_ID.to_be_bytes()[..]) { Header::Book } else { Header::OtherProgram }
    }
}

/// The place of a fault that concerns the whole file.
pub(crate) fn place(path: &Path) -> Place {
    Place { file: Some(path.display().to_string()), ..Place::default() }
}
