//! What SQLite says, in the keeper's words and with the way back.

use std::path::Path;

use quantity::Fault;
use rusqlite::ErrorCode;

use crate::backup::way_back;
use crate::header::place;

/// The fault behind an error of SQLite over the book at `path`.
pub(crate) fn fault(path: &Path, error: &rusqlite::Error) -> Fault {
    use ErrorCode::*;
    let fault = match error.sqlite_error_code() {
        Some(DatabaseCorrupt | NotADatabase) => return damaged(path, &error.to_string()),
        Some(DiskFull) => Fault::new("the disk is full: this was not written, the book holds what it held")
            .hint("make room on the disk, then do it again"),
        Some(DatabaseBusy | DatabaseLocked) => {
            Fault::new("another program is writing in this book: this was not written")
                .hint("wait a moment, then do it again; close the other program if it hangs")
        }
        Some(ReadOnly | PermissionDenied | CannotOpen) => Fault::new(format!("this file can't be written: {error}"))
            .hint("may you write this file and its folder? SQLite keeps a journal beside the book while it writes"),
        Some(SystemIoFailure) => Fault::new(format!("the disk answered with an error: {error}"))
            .hint("the book holds its last whole revision; check the disk"),
        _ => Fault::new(format!("the book can't do this: {error}")),
    };
    fault.at(place(path))
}

/// The book is damaged: what was seen, and which backup is whole.
pub(crate) fn damaged(path: &Path, seen: &str) -> Fault {
    Fault::new(format!("this book is damaged: {seen}")).at(place(path)).hint(way_back(path))
}
