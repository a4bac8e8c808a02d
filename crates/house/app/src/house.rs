//! The house behind the socket: the tanks under a lock, plans worked out beside it, the moment from the clock.

use std::iter;
use std::ops::{Deref, DerefMut};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, TryLockError};
use std::thread;
use std::time::Duration;

use book::SqliteBook;
use http::request::Parts;
use http::uri::PathAndQuery;
use http::{Method, Request, Response, StatusCode, header};
use hyper::body::Bytes;
use logbook::Log;
use pages::{Ctx, House};
use quantity::Fault;
use setup::{Book, FiledReport, MemoryShelf, Setup, Shelf, TankEntry, Unwritten};

use crate::clock;
use crate::leaves::{Leaves, State};
use crate::plans::{Plans, Waited, Work};
use crate::reader;
use crate::socket::{Answer, Door};

/// The path under which the pages stand.
const DOOR: &str = "/";

/// What a page follows from that follows from nothing.
const ALWAYS: State = (0, 0);

/// How long a reader waits for a plan before a page says how far it is.
const PATIENCE: Duration = Duration::from_secs(1);

/// Open the pages over some tanks.
pub fn open(shelf: impl Shelf + Send + 'static) -> Answer {
    working(shelf, recipe::answer_while, PATIENCE)
}

/// Open the pages over some tanks; plans come from `work`, and a reader waits for one at most for `patience`.
pub fn working(shelf: impl Shelf + Send + 'static, work: Work, patience: Duration) -> Answer {
    let rooms = Rooms { shelf, leaves: Leaves::default() };
    Arc::new(Front(Arc::new(Hall {
        house: House::new(),
        rooms: Mutex::new(rooms),
        plans: Plans::new(work),
        patience,
        alone: Mutex::default(),
    })))
}

/// The door of a hall: when something was sent back, the pages that are asked for next are written while nobody waits.
struct Front<S>(Arc<Hall<S>>);

impl<S: Shelf + Send + 'static> Door for Front<S> {
    fn at_once(&self, head: &Parts) -> Option<Response<Bytes>> {
        self.0.at_once(head)
    }

    fn largest_body(&self, head: &Parts) -> Option<usize> {
        // The boundary and the small fields stand round the file.
        pages::is_upload(DOOR, &head.method, head.uri.path()).then_some(report::LARGEST_FILE + FIELDS)
    }

    fn answer(&self, request: Request<Vec<u8>>) -> Response<Bytes> {
        let posted = request.method() == Method::POST;
        let answer = self.0.answer(request);
        if let Some(next) = leads_to(&answer).filter(|_| posted) {
            let hall = Arc::clone(&self.0);
            thread::spawn(move || hall.write_ahead(&next));
        }
        answer
    }
}

/// What is behind the door.
struct Hall<S> {
    house: House,
    rooms: Mutex<Rooms<S>>,
    plans: Arc<Plans>,
    patience: Duration,
    /// Pages that lean on nothing.
    alone: Mutex<Leaves>,
}

/// What one request at a time may touch.
struct Rooms<S> {
    shelf: S,
    leaves: Leaves,
}

impl<S: Shelf + Send + 'static> Hall<S> {
    fn at_once(&self, head: &Parts) -> Option<Response<Bytes>> {
        let address = readable(head)?;
        if pages::stands_alone(DOOR, head.uri.path()) {
            return free(&self.alone)?.find(ALWAYS, address);
        }
        let rooms = free(&self.rooms)?;
        rooms.leaves.find(state(&rooms.shelf)?, address)
    }

    fn answer(&self, request: Request<Vec<u8>>) -> Response<Bytes> {
        // A report is read by a process of its own, and nobody waits for it: a hostile one costs its upload.
        if let Some(uploaded) = pages::upload(DOOR, &request, &read) {
            let mut rooms = self.rooms();
            return self.house.file(&mut ctx(&mut rooms.shelf), &request, uploaded).map(Bytes::from);
        }
        // What concerns no tank waits for no lock: a frightened keeper waits for no recipe.
        if pages::stands_alone(DOOR, request.uri().path()) {
            let page = self.house.answer(&mut ctx(&mut MemoryShelf::default()), &request).map(Bytes::from);
            keep(&mut self.alone.lock().unwrap_or_else(PoisonError::into_inner), ALWAYS, request, &page);
            return page;
        }
        loop {
            let mut rooms = self.rooms();
            // Whoever had to wait at the door may find it written by whoever was before.
            if let Some(page) = written(&rooms, &request) {
                return page;
            }
            if reads(request.method()) {
                rooms.shelf.begin_reading();
            }
            let Some(setup) = self.house.lacks(&mut ctx(&mut rooms.shelf), &request) else {
                return self.write(&mut rooms, request);
            };
            drop(rooms);
            match self.plans.wait(&setup, reads(request.method()).then_some(self.patience)) {
                Waited::Done(answer) => self.house.keep(&setup, answer),
                Waited::Working(progress) => {
                    let mut rooms = self.rooms();
                    return self.house.working(&mut ctx(&mut rooms.shelf), &request, progress).map(Bytes::from);
                }
            }
        }
    }
}

/// The rooms while one request is in them.
struct Inside<'a, S: Shelf>(MutexGuard<'a, Rooms<S>>);

impl<S: Shelf> Deref for Inside<'_, S> {
    type Target = Rooms<S>;
    fn deref(&self) -> &Rooms<S> {
        &self.0
    }
}

impl<S: Shelf> DerefMut for Inside<'_, S> {
    fn deref_mut(&mut self) -> &mut Rooms<S> {
        &mut self.0
    }
}

impl<S: Shelf> Drop for Inside<'_, S> {
    fn drop(&mut self) {
        self.0.shelf.end_reading();
    }
}

impl<S: Shelf + Send + 'static> Hall<S> {
    /// A panic while a book was open left it at its last whole revision.
    fn rooms(&self) -> Inside<'_, S> {
        Inside(self.rooms.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Write the page to which a change led, then the letters beside it, until the next change.
    fn write_ahead(&self, next: &str) {
        let Some((mark, _)) = state(&self.rooms().shelf) else { return };
        for address in iter::once(next.to_owned()).chain(pages::beside(DOOR, next)) {
            let Ok(request) = Request::get(address).body(Vec::new()) else { return };
            if state(&self.rooms().shelf).is_none_or(|(now, _)| now != mark) {
                return;
            }
            if self.answer(request).headers().contains_key(header::REFRESH) {
                // Its plan takes its time: whoever waits for it sees how far it is.
                return;
            }
        }
    }

    fn write(&self, rooms: &mut Rooms<S>, request: Request<Vec<u8>>) -> Response<Bytes> {
        // Taken before: if another program writes meanwhile, the page counts as older than that.
        let of = state(&rooms.shelf);
        let page = self.house.answer(&mut ctx(&mut rooms.shelf), &request).map(Bytes::from);
        if let Some(of) = of {
            keep(&mut rooms.leaves, of, request, &page);
        }
        page
    }
}

/// Bytes of a form beside its file, at most.
const FIELDS: usize = 1 << 20;

/// Read a report in a process of its own.
fn read(name: &str, bytes: &[u8]) -> report::Report {
    match std::env::current_exe() {
        Ok(program) => reader::read(&program, name, bytes.to_vec()),
        Err(error) => report::Report {
            file: name.to_owned(),
            errors: vec![report::Refusal::new(
                report::RefusalKind::Damaged,
                format!("This program can't find itself: {error}."),
            )],
            ..report::Report::default()
        },
    }
}

/// The page that a request asks for, if it was written in the state that holds.
fn written<S: Shelf>(rooms: &Rooms<S>, request: &Request<Vec<u8>>) -> Option<Response<Bytes>> {
    let address = request.uri().path_and_query().filter(|_| reads(request.method()))?;
    rooms.leaves.find(state(&rooms.shelf)?, address.as_str())
}

/// A lock that nobody holds.
fn free<T>(lock: &Mutex<T>) -> Option<MutexGuard<'_, T>> {
    match lock.try_lock() {
        Ok(guard) => Some(guard),
        Err(TryLockError::Poisoned(guard)) => Some(guard.into_inner()),
        Err(TryLockError::WouldBlock) => None,
    }
}

fn keep(leaves: &mut Leaves, of: State, request: Request<Vec<u8>>, page: &Response<Bytes>) {
    let (head, _) = request.into_parts();
    if let Some(address) = readable(&head).filter(|_| head.method == Method::GET) {
        leaves.keep(of, address, page);
    }
}

/// Where an answer sends the reader.
fn leads_to(answer: &Response<Bytes>) -> Option<String> {
    let to = answer.headers().get(header::LOCATION).filter(|_| answer.status() == StatusCode::SEE_OTHER)?;
    Some(to.to_str().ok()?.to_owned())
}

/// The address of a page that may go out again.
fn readable(head: &Parts) -> Option<&str> {
    head.uri.path_and_query().filter(|_| reads(&head.method)).map(PathAndQuery::as_str)
}

fn reads(method: &Method) -> bool {
    method == Method::GET || method == Method::HEAD
}

/// What the pages follow from at this moment.
fn state(shelf: &impl Shelf) -> Option<State> {
    Some((shelf.mark()?, jiff::Timestamp::now().as_second().div_euclid(60)))
}

fn ctx(shelf: &mut dyn Shelf) -> Ctx<'_> {
    Ctx { shelf, now: clock::now(), base: DOOR.to_owned(), seed: 0 }
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
    fn mark(&self) -> Option<u64> {
        self.0.mark().ok()
    }
    fn begin_reading(&mut self) {
        self.0.begin_reading();
    }
    fn end_reading(&mut self) {
        self.0.end_reading();
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
