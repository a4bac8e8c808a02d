//! The keeper's book as one SQLite file: tanks, the revisions of each, undo across restarts, backups, export and import.
//!
//! The file alone is the book: rollback journal, and every edit is on the disk before it is acknowledged.
//! [`SqliteBook`] is the file, [`TankBook`] one tank of it, seen through [`setup::Book`]. The time is passed in
//! ([`Stamp`]). What it promises and what it costs: `docs/book.md`.

mod backup;
mod check;
mod fault;
mod file;
mod header;
mod leaf;
mod library;
mod log;
mod migrate;
mod paper;
mod report;
mod seal;
mod stamp;
mod tank;
mod tap;

pub use library::{Opened, SqliteBook};
pub use log::SqliteLog;
pub use stamp::Stamp;
pub use tank::TankBook;
