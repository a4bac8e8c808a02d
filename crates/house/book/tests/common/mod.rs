//! What the tests of the book share: a folder of its own, setups, a clock that is told.

use std::path::PathBuf;

use book::{SqliteBook, Stamp, TankBook};
use setup::{Book, Change, Setup};
use tempfile::TempDir;

pub const HOUSEHOLD: &str = include_str!("../../../../../examples/household/tank.toml");

pub fn now() -> Stamp {
    Stamp::read("2026-06-11T08:30:00Z").unwrap()
}

pub fn on_day(day: usize) -> Stamp {
    Stamp::read(&format!("2026-06-{day:02}T08:30:00+02:00")).unwrap()
}

/// The household with another nitrate and a line that no other has. Read without its checks, which take longer than all
/// that is tested here; what is imported is checked.
pub fn setup(n: u64) -> Setup {
    let text = HOUSEHOLD.replace("14 mg/L NO3", &format!("{} mg/L NO3", 8 + n % 13));
    Setup::kept("tank.toml", &format!("{text}# edit {n}\n"))
}

/// A folder that goes when it is dropped, and the path of a book in it. In memory where the system has such a place:
/// a disk's patience is the benchmark's business.
pub fn folder() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir()).unwrap();
    let path = folder.path().join("book.tapmere");
    (folder, path)
}

pub fn open(path: &std::path::Path) -> SqliteBook {
    let opened = SqliteBook::open(path, &now()).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(opened.notes, []);
    opened.book
}

/// A book with one tank of `edits` edits.
pub fn edited(path: &std::path::Path, edits: u64) -> SqliteBook {
    let mut book = SqliteBook::create(path).unwrap_or_else(|fault| panic!("{fault}"));
    let tank = book.add_tank(setup(0), &now()).unwrap();
    let mut view = book.tank(tank, &now()).unwrap();
    for n in 1..=edits {
        edit(&mut view, setup(n)).unwrap();
    }
    book
}

/// The next revision over the one that holds.
pub fn edit(view: &mut TankBook, setup: Setup) -> Result<u64, setup::Unwritten> {
    let changes = view.setup().map(|old| old.changes_to(&setup)).unwrap_or_default();
    view.write_over(view.revision(), setup, changes)
}

/// All revisions of a tank, and what the last one changed.
pub fn all(book: &dyn Book) -> (Vec<Option<Setup>>, Vec<Change>) {
    let setups = (1..=book.revision()).map(|n| book.setup_at(n).cloned()).collect();
    (setups, book.last_changes().to_vec())
}

/// The names in the folder of a book, sorted.
pub fn names(folder: &TempDir) -> Vec<String> {
    let entries = std::fs::read_dir(folder.path()).unwrap();
    let mut names: Vec<String> = entries.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}
