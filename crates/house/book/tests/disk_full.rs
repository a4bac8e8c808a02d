//! A disk that is full, or may only be read: told, nothing lost, and written again once there is room.
//!
//! On a file system of its own in memory, where the test may mount one (root on Linux); else it says that it was skipped.
//! The same by SQLite's own limit of pages stands in `src/tank.rs`, and runs everywhere.
#![cfg(target_os = "linux")]

use std::path::Path;
use std::process::Command;

use crate::common::{all, edit, edited, now, on_day, open, setup};
use book::SqliteBook;
use logbook::{Filter, Log};
use quantity::Fault;
use setup::Book;

/// A file system of a megabyte, unmounted when it is dropped.
struct Small(tempfile::TempDir);

impl Small {
    fn mount() -> Option<Small> {
        let folder = tempfile::tempdir().unwrap();
        let mount = Command::new("mount").args(["-t", "tmpfs", "-o", "size=1m", "tmpfs"]).arg(folder.path()).output();
        mount.is_ok_and(|output| output.status.success()).then_some(Small(folder))
    }

    fn read_only(&self) {
        let done = Command::new("mount").args(["-o", "remount,ro"]).arg(self.0.path()).status().unwrap();
        assert!(done.success());
    }

    fn fill(&self) -> std::path::PathBuf {
        let filler = self.0.path().join("filler");
        // It ends with an error: the disk is full.
        let _ = std::fs::write(&filler, vec![0; 2 << 20]);
        filler
    }
}

impl Drop for Small {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(self.0.path()).output();
    }
}

#[test]
fn a_book_that_may_only_be_read_is_open_to_look_at() {
    let Some(small) = Small::mount() else {
        println!("skipped: no file system can be mounted here");
        return;
    };
    let path = small.0.path().join("book.tapmere");
    drop(edited(&path, 3));
    small.read_only();
    let opened = SqliteBook::open(&path, &now()).unwrap_or_else(|fault| panic!("{fault}"));
    assert!(opened.notes[0].what.contains("may only be read"), "{}", opened.notes[0]);
    let mut book = opened.book;
    let mut view = book.tank(1, &now()).unwrap();
    assert_eq!(view.setup(), Some(&setup(3)));
    let fault: Fault = edit(&mut view, setup(4)).unwrap_err().into();
    assert!(fault.what.contains("may only be read"));
    assert_eq!(book.check(), []);
    assert!(
        SqliteBook::create(&small.0.path().join("new")).is_err_and(|fault| fault.what.contains("can't be written"))
    );
}

/// A book of the first version, as an older program left it, on a disk that may not be written.
#[test]
fn an_older_book_that_may_only_be_read_is_read_like_any_other() {
    let Some(small) = Small::mount() else {
        println!("skipped: no file system can be mounted here");
        return;
    };
    let path = small.0.path().join("book.tapmere");
    drop(edited(&path, 3));
    let older = "DROP TABLE log_change; DROP TABLE log_writing; DROP TABLE log_entry; DROP TABLE log; DROP TABLE report; \
                 ALTER TABLE tank DROP COLUMN tap; PRAGMA user_version = 1;";
    rusqlite::Connection::open(&path).unwrap().execute_batch(older).unwrap();
    small.read_only();
    let mut book = SqliteBook::open(&path, &now()).unwrap_or_else(|fault| panic!("{fault}")).book;
    assert_eq!(book.tanks().unwrap().len(), 1);
    assert_eq!(book.tank(1, &now()).unwrap().setup(), Some(&setup(3)));
    assert_eq!(book.log(1, &now()).unwrap().list(&Filter::default()), Ok(vec![]));
    assert_eq!((book.reports(1), book.check()), (Ok(vec![]), vec![]));
    assert!(book.export().unwrap().contains("# edit 3"));
    assert!(book.add_tank(setup(4), &now()).is_err_and(|fault| fault.what.contains("may only be read")));
}

fn told(fault: &Fault) {
    assert!(fault.what.contains("disk is full") || fault.what.contains("No space left"), "{fault}");
}

#[test]
fn a_full_disk_loses_nothing() {
    let Some(small) = Small::mount() else {
        println!("skipped: no file system can be mounted here");
        return;
    };
    let path = small.0.path().join("book.tapmere");
    let mut book = edited(&path, 3);
    let text = book.export().unwrap();
    let filler = small.fill();

    let mut view = book.tank(1, &now()).unwrap();
    for n in 10..13 {
        told(&edit(&mut view, setup(n)).unwrap_err().into());
    }
    assert_eq!((view.undo(), view.revision(), view.setup()), (None, 4, Some(&setup(3))));
    told(&view.trouble().unwrap());
    told(&book.add_tank(setup(1), &now()).unwrap_err());
    told(&book.backup(&small.0.path().join("copy")).unwrap_err());
    told(&book.import("export.toml", &text, &now()).unwrap_err().0[0]);
    assert!(SqliteBook::create(&small.0.path().join("new")).is_err());
    assert_eq!((book.check(), book.export().unwrap()), (vec![], text.clone()));
    drop(book);

    // It opens, and says that today's copy could not be made.
    let opened = SqliteBook::open(&path, &on_day(1)).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(opened.notes.len(), 1);
    told(&opened.notes[0]);
    assert_eq!(opened.book.export().unwrap(), text);
    drop(opened);

    std::fs::remove_file(filler).unwrap();
    let mut book = open(&path);
    let mut view = book.tank(1, &now()).unwrap();
    edit(&mut view, setup(4)).unwrap();
    assert_eq!(all(&view).0, (0..=4).map(|n| Some(setup(n))).collect::<Vec<_>>());
    assert_eq!(book.check(), []);
    assert!(!Path::new(&small.0.path().join("copy.part")).exists());
}
