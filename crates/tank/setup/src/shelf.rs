//! The shelf: one book and one logbook for each tank, and which was written in last.
//!
//! Whoever keeps several tanks implements [`Shelf`]. [`MemoryShelf`] keeps them in memory; one that keeps them in a
//! file stands elsewhere.

use logbook::{Log, MemoryLog};
use quantity::Fault;

use crate::{Book, Change, FiledReport, MemoryBook, OneTap, Setup, Unwritten, one_tap};

/// A tank in the list of tanks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TankEntry {
    /// Its number in addresses; it never changes.
    pub id: u64,
    /// Its name, as the setup that holds now says it.
    pub name: Option<String>,
    /// What its tap is called there; tanks whose taps have one name have one tap. `None`: a tap of its own.
    pub tap: Option<String>,
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

    /// A number that is another one after each writing, by whomever: what was made from the tanks at the same mark still
    /// holds. `None`: nobody can tell.
    fn mark(&self) -> Option<u64> {
        None
    }

    /// From now to [`Shelf::end_reading`] all is read as it stands at this moment, at one go; nothing is written meanwhile.
    fn begin_reading(&mut self) {}

    /// What is read and written from now on is as it stands then. Nothing, where nobody began.
    fn end_reading(&mut self) {}

    /// The book of one tank.
    ///
    /// # Errors
    /// There is no such tank, or it can't be read.
    fn open(&mut self, tank: u64) -> Result<Box<dyn Book + '_>, Fault>;

    /// The logbook of one tank.
    ///
    /// # Errors
    /// There is no such tank, or it can't be read.
    fn log(&mut self, tank: u64) -> Result<Box<dyn Log + '_>, Fault>;

    /// Add a tank, whose first revision is `setup`; its number comes back when it is kept.
    ///
    /// # Errors
    /// It can't be kept: the shelf holds what it held.
    fn add(&mut self, setup: Setup) -> Result<u64, Fault>;

    /// The water reports of a tank, the one that came last first.
    ///
    /// # Errors
    /// They can't be read.
    fn reports(&self, _tank: u64) -> Result<Vec<FiledReport>, Fault> {
        Ok(Vec::new())
    }

    /// Keep a water report with a tank; its number comes back when it is kept. `at` is its time, as RFC 3339.
    ///
    /// # Errors
    /// There is no such tank, or it can't be kept.
    fn file_report(&mut self, _tank: u64, _at: &str, _name: &str, _text: &str) -> Result<u64, Fault> {
        Err(FiledReport::nowhere())
    }

    /// Write a report's text anew, but only over the edition that was seen; the number of the new edition comes back.
    ///
    /// # Errors
    /// [`Unwritten`]: another window wrote it meanwhile, or it can't be kept.
    fn amend_report(&mut self, _tank: u64, _report: u64, _seen: u64, _text: &str) -> Result<u64, Unwritten> {
        Err(Unwritten::Fault(FiledReport::nowhere()))
    }
}

/// Tanks in memory; their numbers are 1, 2, 3 ...
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MemoryShelf {
    books: Vec<MemoryBook>,
    logs: Vec<MemoryLog>,
    reports: Vec<FiledReport>,
    last: Option<u64>,
}

impl MemoryShelf {
    /// A shelf with one tank.
    pub fn of(setup: Setup) -> MemoryShelf {
        MemoryShelf {
            books: vec![MemoryBook::open(setup)],
            logs: vec![MemoryLog::default()],
            last: Some(1),
            ..MemoryShelf::default()
        }
    }

    /// The book of one tank, to be read.
    pub fn book(&self, tank: u64) -> Option<&MemoryBook> {
        self.books.get(index(tank)?)
    }
}

fn index(tank: u64) -> Option<usize> {
    usize::try_from(tank.checked_sub(1)?).ok()
}

fn no_tank(tank: u64) -> Fault {
    Fault::new(format!("there is no tank {tank}"))
}

impl Shelf for MemoryShelf {
    fn tanks(&self) -> Result<Vec<TankEntry>, Fault> {
        let entry = |(id, book): (u64, &MemoryBook)| TankEntry {
            id,
            name: book.setup().and_then(|setup| setup.written("tank.name")),
            tap: book.setup().and_then(Setup::tap_name),
            revision: book.revision(),
        };
        Ok((1..).zip(&self.books).map(entry).collect())
    }

    fn last(&self) -> Result<Option<u64>, Fault> {
        Ok(self.last)
    }

    fn mark(&self) -> Option<u64> {
        let books = self.books.iter().map(Book::revision);
        let logs = self.logs.iter().flat_map(MemoryLog::mark);
        let reports = self.reports.iter().map(|report| report.edition);
        // FNV-1a over the words (Fowler, Noll and Vo), as good as different for different lists.
        let turn = |hash: u64, word: u64| (hash ^ word).wrapping_mul(0x0000_0100_0000_01b3);
        Some(
            [self.books.len() as u64]
                .into_iter()
                .chain(books)
                .chain(logs)
                .chain(reports)
                .fold(0xcbf2_9ce4_8422_2325, turn),
        )
    }

    fn open(&mut self, tank: u64) -> Result<Box<dyn Book + '_>, Fault> {
        let at = index(tank).filter(|at| *at < self.books.len()).ok_or_else(|| no_tank(tank))?;
        Ok(Box::new(Lent { books: &mut self.books, at, last: &mut self.last }))
    }

    fn log(&mut self, tank: u64) -> Result<Box<dyn Log + '_>, Fault> {
        match index(tank).and_then(|index| self.logs.get_mut(index)) {
            Some(log) => Ok(Box::new(log)),
            None => Err(no_tank(tank)),
        }
    }

    fn add(&mut self, setup: Setup) -> Result<u64, Fault> {
        let OneTap { setup, .. } = one_tap(None, setup, holding(&self.books));
        self.books.push(MemoryBook::open(setup));
        self.logs.push(MemoryLog::default());
        let tank = self.books.len() as u64;
        self.last = Some(tank);
        Ok(tank)
    }

    fn reports(&self, tank: u64) -> Result<Vec<FiledReport>, Fault> {
        Ok(self.reports.iter().rev().filter(|report| report.tank == tank).cloned().collect())
    }

    fn file_report(&mut self, tank: u64, at: &str, name: &str, text: &str) -> Result<u64, Fault> {
        if self.book(tank).is_none() {
            return Err(no_tank(tank));
        }
        let id = self.reports.len() as u64 + 1;
        let (at, name, text) = (at.to_owned(), name.to_owned(), text.to_owned());
        self.reports.push(FiledReport { id, tank, at, name, edition: 1, text });
        Ok(id)
    }

    fn amend_report(&mut self, tank: u64, report: u64, seen: u64, text: &str) -> Result<u64, Unwritten> {
        let found = self.reports.iter_mut().find(|kept| kept.id == report && kept.tank == tank);
        let Some(kept) = found else { return Err(Unwritten::Fault(FiledReport::missing(report))) };
        if kept.edition != seen {
            return Err(Unwritten::Stale { seen, now: kept.edition });
        }
        kept.edition += 1;
        text.clone_into(&mut kept.text);
        Ok(kept.edition)
    }
}

/// The setups that hold, by their tanks.
fn holding(books: &[MemoryBook]) -> impl Iterator<Item = (u64, Setup)> {
    (1..).zip(books).filter_map(|(tank, book)| Some((tank, book.setup()?.clone())))
}

/// A book taken from the shelf: it remembers that it was written in, and shares its tap with others.
struct Lent<'a> {
    books: &'a mut Vec<MemoryBook>,
    at: usize,
    last: &'a mut Option<u64>,
}

impl Lent<'_> {
    fn book(&self) -> &MemoryBook {
        &self.books[self.at]
    }

    /// The next setup with the water of its tap; the other tanks of the tap are written.
    fn follow(&mut self, next: Setup) -> Setup {
        let tank = self.at as u64 + 1;
        let others: Vec<(u64, Setup)> = holding(self.books).filter(|(other, _)| *other != tank).collect();
        let OneTap { setup, others } = one_tap(self.book().setup(), next, others);
        for (other, next) in others {
            if let Some(book) = index(other).and_then(|at| self.books.get_mut(at)) {
                book.put(next, Some(book.revision()));
            }
        }
        *self.last = Some(tank);
        setup
    }
}

impl Book for Lent<'_> {
    fn revision(&self) -> u64 {
        self.book().revision()
    }
    fn setup_at(&self, revision: u64) -> Option<&Setup> {
        self.book().setup_at(revision)
    }
    fn write(&mut self, setup: Setup, changes: Vec<Change>) -> u64 {
        let next = self.follow(setup.clone());
        let book = &mut self.books[self.at];
        if next == setup { book.write(next, changes) } else { book.put(next, Some(book.revision())) }
    }
    fn undo(&mut self) -> Option<u64> {
        let (setup, before) = self.book().back()?;
        let next = self.follow(setup);
        Some(self.books[self.at].put(next, before))
    }
    fn last_changes(&self) -> &[Change] {
        self.book().last_changes()
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
    fn a_report_stays_with_its_tank_and_is_written_over_what_was_seen() {
        let mut shelf = MemoryShelf::of(setup("Hall"));
        assert_eq!(shelf.add(setup("Landing")), Ok(2));
        let at = "2026-06-11T08:30:00Z";
        assert_eq!(shelf.file_report(1, at, "zone.csv", "one"), Ok(1));
        assert_eq!(shelf.file_report(1, at, "zone.csv", "two"), Ok(2));
        assert!(shelf.file_report(3, at, "zone.csv", "three").is_err());
        assert_eq!(shelf.amend_report(1, 1, 1, "changed"), Ok(2));
        assert_eq!(shelf.amend_report(1, 1, 1, "late"), Err(Unwritten::Stale { seen: 1, now: 2 }));
        assert!(shelf.amend_report(2, 1, 2, "of another tank").is_err());
        let texts: Vec<String> = shelf.reports(1).unwrap_or_default().into_iter().map(|report| report.text).collect();
        assert_eq!(texts, ["two", "changed"]);
        assert_eq!(shelf.reports(2), Ok(Vec::new()));
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
