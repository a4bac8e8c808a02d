//! The migrations: each file of `migrations` brings the book from one `user_version` to the next.
//!
//! A migration adds tables and columns; it takes none away and gives none another meaning, so that an older program can
//! still read a newer book.

use rusqlite::{Connection, TransactionBehavior};

/// In their order: the first makes a book of an empty file.
pub(crate) const MIGRATIONS: &[&str] = &[
    include_str!("../migrations/001_book.sql"),
    include_str!("../migrations/002_log.sql"),
    include_str!("../migrations/003_report.sql"),
    include_str!("../migrations/004_tap.sql"),
];

/// The version of a book: how many migrations it has had.
pub(crate) fn version(book: &Connection) -> rusqlite::Result<usize> {
    book.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Run what is missing, all or nothing.
pub(crate) fn run(book: &mut Connection, migrations: &[&str]) -> rusqlite::Result<()> {
    // Foreign keys can't be switched inside a transaction, and a migration may have to move a table.
    book.pragma_update(None, "foreign_keys", false)?;
    let all = book.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Another program may have run them while this one waited for the lock.
    for (n, migration) in migrations.iter().enumerate().skip(version(&all)?) {
        all.execute_batch(migration)?;
        all.pragma_update(None, "user_version", n + 1)?;
    }
    all.commit()?;
    book.pragma_update(None, "foreign_keys", true)
}

#[cfg(test)]
mod tests {
    use super::*;

    const STEPS: [&str; 2] = ["CREATE TABLE a (x);", "ALTER TABLE a ADD COLUMN y DEFAULT 7;"];

    #[test]
    fn each_migration_runs_once_and_keeps_the_rows() {
        let mut book = Connection::open_in_memory().unwrap();
        run(&mut book, &STEPS[..1]).unwrap();
        book.execute("INSERT INTO a VALUES (1)", []).unwrap();
        run(&mut book, &STEPS).unwrap();
        run(&mut book, &STEPS).unwrap();
        assert_eq!(version(&book).unwrap(), 2);
        let row: (i64, i64) = book.query_row("SELECT x, y FROM a", [], |r| Ok((r.get(0)?, r.get(1)?))).unwrap();
        assert_eq!(row, (1, 7));
    }

    #[test]
    fn a_migration_that_fails_leaves_everything_as_it_was() {
        let mut book = Connection::open_in_memory().unwrap();
        assert!(run(&mut book, &[STEPS[0], STEPS[1], "CREATE TABLE a (z);"]).is_err());
        assert_eq!(version(&book).unwrap(), 0);
        assert!(book.prepare("SELECT * FROM a").is_err());
    }
}
