//! Damaged, truncated, foreign, newer and unfinished files: told clearly, with the way back, and left as they are.

use std::path::Path;

use crate::common::{all, edit, edited, folder, names, now, on_day, open, setup};
use book::SqliteBook;
use quantity::Fault;
use rusqlite::Connection;
use setup::Book;

/// Opening must fail and leave the file byte for byte as it is.
fn refused(path: &Path) -> Fault {
    let before = std::fs::read(path).ok();
    let fault = SqliteBook::open(path, &now()).map(|_| ()).unwrap_err();
    assert_eq!(std::fs::read(path).ok(), before, "{fault}");
    assert_eq!(fault.place.file.as_deref(), path.to_str());
    fault
}

#[test]
fn where_there_is_no_book() {
    let (folder, path) = folder();
    assert!(refused(&path).what.contains("no book here"));
    assert_eq!(names(&folder), Vec::<String>::new());
}

#[test]
fn a_file_of_something_else() {
    let (_folder, path) = folder();
    for bytes in [&b"[tap]\nnitrate = \"14 mg/L NO3\"\n"[..], &[0; 5000], b"x"] {
        std::fs::write(&path, bytes).unwrap();
        assert!(refused(&path).what.contains("not a book"));
        assert!(SqliteBook::create(&path).is_err_and(|fault| fault.what.contains("already")));
        assert_eq!(std::fs::read(&path).unwrap(), bytes);
    }
}

/// Also one that another program left in the middle of a change: its journal is not ours to play back.
#[test]
fn the_file_of_another_program() {
    let (folder, path) = folder();
    let other = Connection::open(&path).unwrap();
    other
        .execute_batch("PRAGMA journal_mode = WAL; CREATE TABLE revision (id); INSERT INTO revision VALUES (1)")
        .unwrap();
    let before = names(&folder);
    assert!(refused(&path).what.contains("not a book"));
    assert!(SqliteBook::create(&path).is_err_and(|fault| fault.what.contains("already")));
    assert_eq!(names(&folder), before);
}

#[test]
fn an_empty_file_is_made_anew_unless_there_was_a_book() {
    let (_folder, path) = folder();
    std::fs::write(&path, "").unwrap();
    assert!(refused(&path).what.contains("never finished"));
    drop(edited(&path, 1));
    drop(open(&path));
    std::fs::write(&path, "").unwrap();
    for fault in [refused(&path), SqliteBook::create(&path).map(|_| ()).unwrap_err()] {
        assert!(fault.what.contains("damaged: the file is empty"), "{fault}");
        assert!(fault.hint.unwrap().contains("book.tapmere.2026-06-11.backup"));
    }
    std::fs::remove_file(&path).unwrap();
    assert!(refused(&path).hint.unwrap().contains("book.tapmere.2026-06-11.backup"));
}

/// A book of a program that knows one migration more.
fn newer(path: &Path, change: &str) {
    drop(edited(path, 2));
    let raw = Connection::open(path).unwrap();
    raw.execute_batch(&format!("{change}; PRAGMA user_version = 99")).unwrap();
}

#[test]
fn a_newer_book_can_be_read_and_not_changed() {
    let (folder, path) = folder();
    newer(&path, "ALTER TABLE revision ADD COLUMN mood TEXT; CREATE TABLE moon (x)");
    let before = std::fs::read(&path).unwrap();
    let opened = SqliteBook::open(&path, &now()).unwrap_or_else(|fault| panic!("{fault}"));
    assert!(opened.notes[0].what.contains("newer Tapmere"), "{}", opened.notes[0]);
    let mut book = opened.book;
    let mut view = book.tank(1, &now()).unwrap();
    assert_eq!(all(&view).0, (0..=2).map(|n| Some(setup(n))).collect::<Vec<_>>());
    let fault: Fault = edit(&mut view, setup(3)).unwrap_err().into();
    assert!(fault.what.contains("newer Tapmere"));
    assert_eq!((view.undo(), view.write(setup(3), vec![]), view.revision()), (None, 3, 3));
    let text = book.export().unwrap();
    assert!(book.import("export.toml", &text, &now()).is_err());
    assert!(book.add_tank(setup(0), &now()).is_err());
    assert_eq!(book.check(), []);
    drop(book);
    assert_eq!((std::fs::read(&path).unwrap(), names(&folder)), (before, vec!["book.tapmere".to_owned()]));
}

#[test]
fn a_newer_book_that_can_not_be_read_is_told() {
    let (_folder, path) = folder();
    newer(&path, "ALTER TABLE revision RENAME COLUMN text TO body");
    assert!(refused(&path).what.contains("this program can't read it"));
}

#[test]
fn a_truncated_book_at_every_length() {
    let (folder, path) = folder();
    drop(edited(&path, 6));
    drop(open(&path));
    let whole = std::fs::read(&path).unwrap();
    let lengths = (0..whole.len()).step_by(509).chain([1, 99, 100, 511, 512, 4095, 4096, whole.len() - 1]);
    for length in lengths {
        std::fs::write(&path, &whole[..length]).unwrap();
        let fault = refused(&path);
        assert!(fault.what.contains("damaged"), "{length}: {fault}");
        assert!(fault.hint.unwrap().contains("book.tapmere.2026-06-11.backup"));
    }
    assert_eq!(names(&folder), ["book.tapmere", "book.tapmere.2026-06-11.backup"]);
}

/// One changed byte anywhere is either found, or it stands where nothing is kept: then every text is what it was.
#[test]
fn a_changed_byte_is_found_or_changes_nothing() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 4);
    let (text, tanks) = (book.export().unwrap(), book.tanks().unwrap());
    let whole_tank = all(&book.tank(1, &now()).unwrap());
    drop(book);
    drop(open(&path));
    let whole = std::fs::read(&path).unwrap();
    let (mut found, mut harmless) = (0, 0);
    for at in (0..whole.len()).step_by(31) {
        let mut bytes = whole.clone();
        bytes[at] ^= 1 << (at % 8);
        std::fs::write(&path, &bytes).unwrap();
        let opened = SqliteBook::open(&path, &now()).map(|opened| opened.book);
        match opened {
            Ok(mut book) if book.check().is_empty() => {
                harmless += 1;
                assert_eq!((book.export().unwrap(), book.tanks().unwrap()), (text.clone(), tanks.clone()), "byte {at}");
                assert_eq!(all(&book.tank(1, &now()).unwrap()), whole_tank, "byte {at}");
            }
            Ok(book) => {
                let faults = book.check();
                assert!(faults[0].hint.as_ref().unwrap().contains("newest whole copy"), "byte {at}: {}", faults[0]);
                found += 1;
            }
            Err(fault) => {
                assert!(
                    fault.hint.as_ref().unwrap().contains("newest whole copy") || fault.what.contains("newer"),
                    "{at}: {fault}"
                );
                found += 1;
            }
        }
    }
    assert!(found > 100 && harmless > 0, "{found} found, {harmless} harmless");
}

/// A digit of a text that turns into another keeps the file's shape: only the seal knows.
#[test]
fn a_changed_digit_is_never_shown() {
    let (folder, path) = folder();
    drop(edited(&path, 2));
    drop(open(&path));
    let raw = Connection::open(&path).unwrap();
    raw.execute("UPDATE revision SET text = replace(text, '76 cm', '96 cm') WHERE number = 3", []).unwrap();
    drop(raw);
    let mut book = open(&path);
    let fault = book.tank(1, &now()).map(|_| ()).unwrap_err();
    assert!(fault.what.contains("revision 3 of tank 1 is not what was written"));
    assert!(fault.hint.unwrap().contains("book.tapmere.2026-06-11.backup"));
    assert_eq!(book.check().len(), 1);
    drop(book);
    // The next day it is found on opening, so that no damaged book pushes out a whole copy.
    assert!(SqliteBook::open(&path, &on_day(12)).is_err_and(|fault| fault.what.contains("revision 3 of tank 1")));
    assert_eq!(names(&folder), ["book.tapmere", "book.tapmere.2026-06-11.backup"]);
}

#[test]
fn an_older_revision_that_is_broken_is_missing_and_told() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 2);
    Connection::open(&path).unwrap().execute("UPDATE revision SET text = 'x' WHERE number = 2", []).unwrap();
    let view = book.tank(1, &now()).unwrap();
    assert_eq!((view.setup_at(3), view.setup_at(1), view.setup_at(2)), (Some(&setup(2)), Some(&setup(0)), None));
    assert!(view.trouble().is_some_and(|fault| fault.what.contains("revision 2 of tank 1")));
}

#[test]
fn the_way_back_leaves_out_a_damaged_copy() {
    let (folder, path) = folder();
    drop(edited(&path, 1));
    for day in [1, 2] {
        SqliteBook::open(&path, &on_day(day)).unwrap();
    }
    let newest = folder.path().join("book.tapmere.2026-06-02.backup");
    let bytes = std::fs::read(&newest).unwrap();
    std::fs::write(&newest, &bytes[..bytes.len() / 2]).unwrap();
    std::fs::write(&path, &bytes[..9000]).unwrap();
    assert!(refused(&path).hint.unwrap().contains("book.tapmere.2026-06-01.backup"));
    // The way back leads back.
    std::fs::copy(folder.path().join("book.tapmere.2026-06-01.backup"), &path).unwrap();
    assert_eq!(open(&path).tank(1, &now()).unwrap().setup(), Some(&setup(1)));
}

/// Whole rows that went missing, or came to belong to nothing.
#[test]
fn what_must_hold_between_rows() {
    let broken = [
        ("DELETE FROM change WHERE revision = 2", "revision 2 of tank 1 is not what was written"),
        ("DELETE FROM revision WHERE number = 2", "a row of `change` belongs to nothing"),
        ("DELETE FROM change; DELETE FROM revision", "tank 1 has no revision"),
        ("UPDATE revision SET number = 9 WHERE number = 2", "revision 2 of tank 1 is missing"),
        ("UPDATE tank SET name = 'x'", "another name"),
    ];
    for (change, told) in broken {
        let (_folder, path) = folder();
        let book = edited(&path, 2);
        let raw = Connection::open(&path).unwrap();
        raw.execute_batch(&format!("PRAGMA foreign_keys = OFF; {change}")).unwrap();
        let faults = book.check();
        assert!(faults.iter().any(|fault| fault.what.contains(told)), "{change}: {faults:?}");
    }
}
