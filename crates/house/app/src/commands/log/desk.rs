//! The log of one tank, opened for a command.

use book::{Opened, SqliteBook};
use logbook::{Entry, Kept, Log};
use quantity::{Fault, Faults, Units};
use setup::Book;

use super::Whose;
use crate::clock;
use crate::commands::note;
use crate::place::Which;

/// A log that is open, and its keeper's units.
pub struct Desk {
    book: SqliteBook,
    /// The tank's number.
    pub tank: u64,
    /// Its keeper's units.
    pub units: Units,
    /// Its litres at their upper end, where the sizes of the glass are told.
    pub litres: Option<f64>,
}

impl Desk {
    /// Opens it.
    ///
    /// # Errors
    /// No book, no tank, or one that can't be read.
    pub fn open(whose: &Whose) -> Result<Desk, Faults> {
        let path = Which { book: whose.book.clone() }.path()?;
        let now = clock::stamp()?;
        let Opened { mut book, notes } = SqliteBook::open(&path, &now)?;
        notes.iter().for_each(note);
        let none = || Fault::new("there is no tank in this book yet").hint("`tapmere open` makes one");
        let tank = whose.tank.or(book.last_tank()?).ok_or_else(none)?;
        let told = book.tank(tank, &now)?.setup().and_then(|setup| setup.tank().ok());
        let sized = told.as_ref().filter(|tank| !tank.questions.iter().any(|ask| ask.field.starts_with("glass.")));
        let litres = sized.map(|tank| tank.geometry.true_l.high);
        Ok(Desk { book, tank, units: told.map(|tank| tank.units).unwrap_or_default(), litres })
    }

    /// Whether an entry can belong to this tank.
    ///
    /// # Errors
    /// More water than the tank holds.
    pub fn fits(&self, entry: &Entry) -> Result<(), Fault> {
        self.litres.map_or(Ok(()), |litres| logbook::fits(&entry.what, litres, &self.units))
    }

    /// Its log.
    ///
    /// # Errors
    /// It can't be read.
    pub fn log(&mut self) -> Result<impl Log + '_, Fault> {
        self.book.log(self.tank, &clock::stamp()?)
    }

    /// An entry as it stands in the log now, in a line.
    ///
    /// # Errors
    /// There is no such entry, or it can't be read.
    pub fn line(&mut self, id: u64) -> Result<(Kept, String), Faults> {
        let units = self.units;
        let entry = self.log()?.entry(id)?.ok_or_else(|| logbook::no_entry(id))?;
        let kept = Kept { id, entry };
        let line = line(&kept, &units);
        Ok((kept, line))
    }
}

/// An entry in a line: number, moment, words, note.
pub fn line(kept: &Kept, units: &Units) -> String {
    let entry = &kept.entry;
    let parts = [entry.words(units), entry.note.replace('\n', " / "), entry.remark().unwrap_or_default()];
    let said: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    format!("{:>5}  {}  {}\n", kept.id, entry.at.strftime("%Y-%m-%d %H:%M"), said.join("; "))
}
