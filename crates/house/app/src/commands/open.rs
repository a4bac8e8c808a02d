//! `tapmere open`: the pages of the keeper's book; every change is kept.

use book::{Opened, SqliteBook};
use quantity::Fault;

use super::serve::{Door, open_door};
use super::{SOME, fault, note};
use crate::clock;
use crate::house::{self, Kept};
use crate::place::Which;

/// The book.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// Which book
    #[command(flatten)]
    pub which: Which,
    /// Where the pages are opened
    #[command(flatten)]
    pub door: Door,
}

/// Open the book, or make an empty one where there is none, and serve its pages.
pub fn run(args: &Args) -> u8 {
    match opened(&args.which) {
        Ok((book, kept)) => open_door(house::open(Kept(book)), &args.door, &kept),
        Err(told) => fault(&told, SOME),
    }
}

/// The book, and what is said of it at the door.
fn opened(which: &Which) -> Result<(SqliteBook, String), Fault> {
    let path = which.path_to_make()?;
    let Opened { book, notes } = SqliteBook::open_or_create(&path, &clock::stamp()?)?;
    notes.iter().for_each(note);
    let place = std::path::absolute(&path).unwrap_or(path);
    let state = match (book.writable(), book.tanks()?.len()) {
        (Err(_), _) => "It can only be read: nothing that you change is kept.",
        (_, 0) => "It is empty: the first page asks four questions.",
        _ => "What you change there is kept in it at once, and can be undone.",
    };
    Ok((book, format!("Your book is {}. {state}", place.display())))
}
