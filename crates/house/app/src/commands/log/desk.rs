//! The log of one tank, opened for a command.

use book::{Opened, SqliteBook};
use knowledge::Place;
use logbook::{Entry, Kept, Log};
use quantity::{Fault, Faults, Units};
use setup::{Book, Setup};

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
    /// Whose law holds.
    pub place: Place,
    setup: Option<Setup>,
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
        let setup = book.tank(tank, &now)?.setup().cloned();
        let told = setup.as_ref().and_then(|setup| setup.tank().ok());
        let sized = told.as_ref().filter(|tank| !tank.questions.iter().any(|ask| ask.field.starts_with("glass.")));
        let litres = sized.map(|tank| tank.geometry.true_l.high);
        let place = told.as_ref().map_or(Place::Other, |tank| tank.place());
        Ok(Desk { book, tank, units: told.map(|tank| tank.units).unwrap_or_default(), litres, place, setup })
    }

    /// The question before an entry is written that is far from what this tank usually gets; `mended`: the number of the one in whose
    /// place it comes.
    ///
    /// # Errors
    /// The log can't be read.
    pub fn really(&mut self, entry: &Entry, mended: Option<u64>) -> Result<Option<String>, Fault> {
        let plan = self.setup.as_ref().filter(|_| care::hangs_on_plan(&entry.what));
        // A tank that no recipe can be made for has no usual dose.
        let Some(Ok(answer)) = plan.map(recipe::answer) else { return Ok(entry.remark()) };
        let mut round = self.log()?.list(&care::round(entry))?;
        round.retain(|kept| Some(kept.id) != mended);
        Ok(care::really(&answer, entry, &round))
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
        let (units, place) = (self.units, self.place);
        let entry = self.log()?.entry(id)?.ok_or_else(|| logbook::no_entry(id))?;
        let kept = Kept { id, entry };
        let line = line(&kept, &units, place);
        Ok((kept, line))
    }
}

/// An entry in a line: number, moment, words, note, what is far from usual, plants on a list.
pub fn line(kept: &Kept, units: &Units, place: Place) -> String {
    let entry = &kept.entry;
    let note = entry.note.replace(['\r', '\n'], " / ").replace(" /  / ", " / ");
    let parts = [entry.words(units), note, entry.remark().unwrap_or_default(), entry.weeds(place).unwrap_or_default()];
    let said: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    format!("{:>5}  {}  {}\n", kept.id, entry.at.strftime("%Y-%m-%d %H:%M"), said.join("; "))
}
