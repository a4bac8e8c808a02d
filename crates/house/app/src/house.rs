//! The house behind the socket: the tanks, one lock round them, the day from the clock.

use std::sync::{Arc, Mutex, PoisonError};

use book::SqliteBook;
use http::{Request, Response};
use logbook::Log;
use pages::{Ctx, House};
use quantity::Fault;
use setup::{Book, FiledReport, MemoryShelf, Setup, Shelf, TankEntry, Unwritten};

use crate::clock;
use crate::socket::Answer;

/// Open the pages over some tanks.
pub fn open(shelf: impl Shelf + Send + 'static) -> Answer {
    let rooms = Mutex::new((House::new(), shelf));
    Arc::new(move |request| {
        // What concerns no tank waits for no lock: a frightened keeper waits for no recipe.
        if pages::stands_alone(DOOR, request.uri().path()) {
            return answer(&House::new(), &mut MemoryShelf::default(), &request);
        }
        // A panic while a book was open left it at its last whole revision.
        let mut rooms = rooms.lock().unwrap_or_else(PoisonError::into_inner);
        let (house, shelf) = &mut *rooms;
        answer(house, shelf, &request)
    })
}

/// The path under which the pages stand.
const DOOR: &str = "/";

fn answer(house: &House, shelf: &mut dyn Shelf, request: &Request<Vec<u8>>) -> Response<Vec<u8>> {
    house.answer(&mut Ctx { shelf, now: clock::now(), base: DOOR.to_owned(), seed: 0 }, request)
}

/// The tanks of a book in a file. What is changed is on the disk when the answer comes.
pub struct Kept(pub SqliteBook);

impl Shelf for Kept {
    fn tanks(&self) -> Result<Vec<TankEntry>, Fault> {
        self.0.tanks()
    }
    fn last(&self) -> Result<Option<u64>, Fault> {
        self.0.last_tank()
    }
    fn open(&mut self, tank: u64) -> Result<Box<dyn Book + '_>, Fault> {
        Ok(Box::new(self.0.tank(tank, &clock::stamp()?)?))
    }
    fn log(&mut self, tank: u64) -> Result<Box<dyn Log + '_>, Fault> {
        Ok(Box::new(self.0.log(tank, &clock::stamp()?)?))
    }
    fn add(&mut self, setup: Setup) -> Result<u64, Fault> {
        self.0.add_tank(setup, &clock::stamp()?)
    }
    fn reports(&self, tank: u64) -> Result<Vec<FiledReport>, Fault> {
        self.0.reports(tank)
    }
    fn file_report(&mut self, tank: u64, at: &str, name: &str, text: &str) -> Result<u64, Fault> {
        self.0.file_report(tank, name, text, &book::Stamp::read(at)?)
    }
    fn amend_report(&mut self, tank: u64, report: u64, seen: u64, text: &str) -> Result<u64, Unwritten> {
        self.0.amend_report(tank, report, seen, text)
    }
}
