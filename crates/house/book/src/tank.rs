//! One tank of the book, as the pages see it: [`setup::Book`] over the file.

use std::cell::{OnceCell, RefCell};

use quantity::Fault;
use rusqlite::{Connection, Transaction, TransactionBehavior};
use setup::{Book, Change, Setup, Unwritten};

use crate::fault::fault;
use crate::file::{File, reading};
use crate::header::place;
use crate::leaf::{self, Leaf};
use crate::stamp::Stamp;
use crate::tap;

/// One tank, as it stood when it was opened or last written. Older revisions are read when they are asked for.
pub struct TankBook<'a> {
    file: &'a mut File,
    tank: u64,
    now: Stamp,
    /// One for each revision; filled when it is read.
    setups: Vec<OnceCell<Option<Setup>>>,
    last_changes: Vec<Change>,
    trouble: RefCell<Option<Fault>>,
}

impl<'a> TankBook<'a> {
    /// # Errors
    /// There is no such tank, or its last revision can't be read.
    pub(crate) fn open(file: &'a mut File, tank: u64, now: &Stamp) -> Result<TankBook<'a>, Fault> {
        let mut view = TankBook {
            file,
            tank,
            now: now.clone(),
            setups: Vec::new(),
            last_changes: Vec::new(),
            trouble: RefCell::new(None),
        };
        view.look()?;
        if view.setups.is_empty() {
            return Err(Fault::new(format!("there is no tank {tank} in this book")).at(place(&view.file.path)));
        }
        Ok(view)
    }

    /// Why an answer is missing: an older revision that could not be read, an edit that [`Book::write`] or
    /// [`Book::undo`] could not write.
    pub fn trouble(&self) -> Option<Fault> {
        self.trouble.borrow().clone()
    }

    /// See the tank as the file has it now.
    fn look(&mut self) -> Result<(), Fault> {
        let sql = |error| self.file.fault(&error);
        let both = reading(&self.file.book).map_err(sql)?;
        let number = leaf::head(&self.file.book, self.tank).map_err(sql)?;
        let last = self.read(&self.file.book, number)?;
        drop(both);
        self.setups.clear();
        self.setups.resize_with(usize::try_from(number).unwrap_or(0), OnceCell::new);
        if let (Some(cell), Some(leaf)) = (self.setups.last_mut(), last) {
            *cell = OnceCell::from(Some(leaf.setup));
            self.last_changes = leaf.changes;
        }
        Ok(())
    }

    fn read(&self, book: &Connection, number: u64) -> Result<Option<Leaf>, Fault> {
        leaf::read(book, self.tank, number)
            .map_err(|unread| unread.fault(&self.file.path, &format!("revision {number} of tank {}", self.tank)))
    }

    /// The setup of a revision that was not read yet.
    fn fetch(&self, number: u64) -> Option<Setup> {
        let both = reading(&self.file.book).map_err(|error| self.file.fault(&error));
        match both.and_then(|_both| self.read(&self.file.book, number)) {
            Ok(leaf) => leaf.map(|leaf| leaf.setup),
            Err(fault) => {
                self.note(Unwritten::Fault(fault));
                None
            }
        }
    }

    fn note(&self, unwritten: Unwritten) {
        *self.trouble.borrow_mut() = Some(unwritten.into());
    }

    /// Write what `next` makes of the book, if `seen` still holds. What is returned is on the disk.
    fn append(
        &mut self,
        seen: u64,
        next: impl FnOnce(&Self, &Transaction) -> Result<Option<Leaf>, Fault>,
    ) -> Result<Option<u64>, Unwritten> {
        self.file.writable().map_err(Unwritten::Fault)?;
        let sql = |error: rusqlite::Error| Unwritten::Fault(fault(&self.file.path, &error));
        let book = &self.file.book;
        let all = Transaction::new_unchecked(book, TransactionBehavior::Immediate).map_err(sql)?;
        let head = leaf::head(&all, self.tank).map_err(sql)?;
        if head != seen {
            drop(all);
            self.look().map_err(Unwritten::Fault)?;
            return Err(Unwritten::Stale { seen, now: self.revision() });
        }
        let Some(leaf) = next(self, &all).map_err(Unwritten::Fault)? else { return Ok(None) };
        let leaf = tap::follow(&all, self.tank, self.setup(), leaf)
            .map_err(|unread| Unwritten::Fault(unread.fault(&self.file.path, "a tank of the same tap")))?;
        leaf::write(&all, self.tank, head + 1, &leaf).map_err(sql)?;
        tap::label(&all, self.tank, &leaf.setup).map_err(sql)?;
        all.commit().map_err(sql)?;
        self.setups.push(OnceCell::from(Some(leaf.setup)));
        self.last_changes = leaf.changes;
        Ok(Some(self.revision()))
    }
}

impl Book for TankBook<'_> {
    fn revision(&self) -> u64 {
        self.setups.len() as u64
    }

    fn setup_at(&self, revision: u64) -> Option<&Setup> {
        let index = usize::try_from(revision.checked_sub(1)?).ok()?;
        self.setups.get(index)?.get_or_init(|| self.fetch(revision)).as_ref()
    }

    fn write(&mut self, setup: Setup, changes: Vec<Change>) -> u64 {
        let seen = self.revision();
        self.write_over(seen, setup, changes).unwrap_or_else(|unwritten| {
            self.note(unwritten);
            seen
        })
    }

    fn write_over(&mut self, seen: u64, setup: Setup, changes: Vec<Change>) -> Result<u64, Unwritten> {
        let at = self.now.to_string();
        let leaf = Leaf { at, undo_to: Some(seen), setup, changes };
        self.append(seen, |_, _| Ok(Some(leaf))).map(|written| written.unwrap_or(seen))
    }

    fn undo(&mut self) -> Option<u64> {
        self.undo_over(self.revision()).unwrap_or_else(|unwritten| {
            self.note(unwritten);
            None
        })
    }

    fn undo_over(&mut self, seen: u64) -> Result<Option<u64>, Unwritten> {
        let at = self.now.to_string();
        self.append(seen, |view, all| {
            let read = |number: u64| view.read(all, number);
            let Some(now) = read(seen)? else { return Ok(None) };
            let Some(before) = now.undo_to.map_or(Ok(None), read)? else { return Ok(None) };
            let changes = now.setup.changes_to(&before.setup);
            // It goes back to where the old one did, so that undo after undo walks on into the past.
            Ok(Some(Leaf { at, undo_to: before.undo_to, setup: before.setup, changes }))
        })
    }

    fn last_changes(&self) -> &[Change] {
        &self.last_changes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SQLite's limit of pages stands for a full disk; `tests/disk_full.rs` has a real one.
    #[test]
    fn where_no_page_is_left_nothing_is_written_and_nothing_lost() {
        let folder = tempfile::tempdir().unwrap();
        let mut file = crate::file::create(&folder.path().join("book.tapmere")).unwrap();
        let setup = |n: usize| Setup::kept("tank.toml", &format!("# {}\n", "edit ".repeat(n)));
        let leaf = Leaf { at: String::new(), undo_to: None, setup: setup(1), changes: Vec::new() };
        file.book.execute("INSERT INTO tank DEFAULT VALUES", []).unwrap();
        leaf::write(&file.book, 1, 1, &leaf).unwrap();
        let pages: u64 = file.book.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
        let limit = |file: &File, pages: u64| {
            file.book.pragma_update_and_check(None, "max_page_count", pages, |_| Ok(())).unwrap();
        };
        limit(&file, pages + 3);

        let now = Stamp::read("2026-06-11T08:30:00Z").unwrap();
        let mut view = TankBook::open(&mut file, 1, &now).unwrap();
        let full = (2..).find_map(|n| view.write_over(view.revision(), setup(100 * n), Vec::new()).err());
        let Some(Unwritten::Fault(fault)) = full else { panic!("{full:?}") };
        assert!(fault.what.contains("the disk is full"), "{fault}");
        let (held, text) = (view.revision(), view.setup().cloned());
        assert!(held > 1);
        assert_eq!(view.write(setup(10_000), Vec::new()), held);

        limit(&file, 10_000);
        let mut view = TankBook::open(&mut file, 1, &now).unwrap();
        assert_eq!((view.revision(), view.setup().cloned()), (held, text));
        assert_eq!(view.write_over(held, setup(10_000), Vec::new()), Ok(held + 1));
        assert_eq!(crate::check::all(&file.book), Vec::<String>::new());
    }
}
