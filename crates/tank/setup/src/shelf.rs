//! The shelf: one book for each tank, and which was written in last.
//!
//! Whoever keeps several tanks implements [`Shelf`]. [`MemoryShelf`] keeps them in memory; one that keeps them in a
//! file stands elsewhere.

use quantity::Fault;

use crate::{Book, Change, MemoryBook, Setup};

/// A tank in the list of tanks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TankEntry {
    /// Its number in addresses; it never changes.
    pub id: u64,
    /// Its name, as the setup that holds now says it.
    pub name: Option<String>,
    /// The revision that holds now.
    pub revision: u64,
}

impl TankEntry {
    /// What it is called in a list: its name, or "Tank 2".
    pub fn label(&self) -> String {
        self.name.clone().filter(|name| !name.trim().is_empty()).unwrap_or_else(|| format!("Tank {}", self.id))
    }
}

/// A keeper's tanks.
pub trait Shelf {
    /// The tanks by their numbers.
    ///
    /// # Errors
    /// They can't be read.
    fn tanks(&self) -> Result<Vec<TankEntry>, Fault>;

    /// The tank that was edited last; `None`: there is no tank.
    ///
    /// # Errors
    /// It can't be read.
    fn last(&self) -> Result<Option<u64>, Fault>;

    /// The book of one tank.
    ///
    /// # Errors
    /// There is no such tank, or it can't be read.
    fn open(&mut self, tank: u64) -> Result<Box<dyn Book + '_>, Fault>;

    /// Add a tank, whose first revision is `setup`; its number comes back when it is kept.
    ///
    /// # Errors
    /// It can't be kept: the shelf holds what it held.
    fn add(&mut self, setup: Setup) -> Result<u64, Fault>;
}

/// Tanks in memory; their numbers are 1, 2, 3 ...
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MemoryShelf {
    books: Vec<MemoryBook>,
    last: Option<u64>,
}

impl MemoryShelf {
    /// A shelf with one tank.
    pub fn of(setup: Setup) -> MemoryShelf {
        MemoryShelf { books: vec![MemoryBook::open(setup)], last: Some(1) }
    }

    /// The book of one tank, to be read.
    pub fn book(&self, tank: u64) -> Option<&MemoryBook> {
        self.books.get(usize::try_from(tank.checked_sub(1)?).ok()?)
    }
}

impl Shelf for MemoryShelf {
    fn tanks(&self) -> Result<Vec<TankEntry>, Fault> {
        let entry = |(id, book): (u64, &MemoryBook)| TankEntry {
            id,
            name: book.setup().and_then(|setup| setup.written("tank.name")),
            revision: book.revision(),
        };
        Ok((1..).zip(&self.books).map(entry).collect())
    }

    fn last(&self) -> Result<Option<u64>, Fault> {
        Ok(self.last)
    }

    fn open(&mut self, tank: u64) -> Result<Box<dyn Book + '_>, Fault> {
        let index = tank.checked_sub(1).and_then(|index| usize::try_from(index).ok());
        match index.and_then(|index| self.books.get_mut(index)) {
            Some(book) => Ok(Box::new(Lent { book, tank, last: &mut self.last })),
            None => Err(Fault::new(format!("there is no tank {tank}"))),
        }
    }

    fn add(&mut self, setup: Setup) -> Result<u64, Fault> {
        self.books.push(MemoryBook::open(setup));
        let tank = self.books.len() as u64;
        self.last = Some(tank);
        Ok(tank)
    }
}

/// A book taken from the shelf, which remembers that it was written in.
struct Lent<'a> {
    book: &'a mut MemoryBook,
    tank: u64,
    last: &'a mut Option<u64>,
}

impl Book for Lent<'_> {
    fn revision(&self) -> u64 {
        self.book.revision()
    }
    fn setup_at(&self, revision: u64) -> Option<&Setup> {
        self.book.setup_at(revision)
    }
    fn write(&mut self, setup: Setup, changes: Vec<Change>) -> u64 {
        *self.last = Some(self.tank);
        self.book.write(setup, changes)
    }
    fn undo(&mut self) -> Option<u64> {
        let undone = self.book.undo()?;
        *self.last = Some(self.tank);
        Some(undone)
    }
    fn last_changes(&self) -> &[Change] {
        self.book.last_changes()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn setup(name: &str) -> Setup {
        Setup::read("tank.toml", &format!("[tank]\nname = \"{name}\"\n")).unwrap_or_else(|faults| panic!("{faults}"))
    }

    #[test]
    fn a_shelf_knows_its_tanks_and_the_one_that_was_edited_last() {
        let mut shelf = MemoryShelf::default();
        assert_eq!((shelf.tanks(), shelf.last()), (Ok(vec![]), Ok(None)));
        assert_eq!((shelf.add(setup("Hall")), shelf.add(setup(""))), (Ok(1), Ok(2)));
        assert_eq!(shelf.last(), Ok(Some(2)));
        let mut book = shelf.open(1).unwrap_or_else(|fault| panic!("{fault}"));
        assert_eq!(book.write_over(1, setup("Landing"), Vec::new()), Ok(2));
        drop(book);
        let tanks = shelf.tanks().unwrap_or_default();
        let list: Vec<_> = tanks.iter().map(|tank| (tank.id, tank.label(), tank.revision)).collect();
        assert_eq!(list, [(1, "Landing".to_owned(), 2), (2, "Tank 2".to_owned(), 1)]);
        assert_eq!(shelf.last(), Ok(Some(1)));
        assert!(shelf.open(0).is_err() && shelf.open(3).is_err());
    }

    #[test]
    fn a_book_that_is_only_read_is_not_the_last_one() {
        let mut shelf = MemoryShelf::of(setup("Hall"));
        assert_eq!(shelf.add(setup("Landing")), Ok(2));
        let mut book = shelf.open(1).unwrap_or_else(|fault| panic!("{fault}"));
        assert_eq!((book.revision(), book.undo(), book.last_changes()), (1, None, [].as_slice()));
        drop(book);
        assert_eq!(shelf.last(), Ok(Some(2)));
    }
}
