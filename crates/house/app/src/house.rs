//! The house behind the socket: one book in memory, one lock round it, the day from the clock.

use std::sync::{Arc, Mutex, PoisonError};

use http::{Request, Response};
use pages::{Ctx, House, Today};
use setup::{Book, Change, MemoryBook, Setup};

use crate::socket::Answer;

/// Open the pages over a setup. What is changed on them stays in memory.
pub fn open(setup: Setup) -> Answer {
    let rooms = Mutex::new((House::new(), MemoryBook::open(setup)));
    Arc::new(move |request| {
        // What concerns no tank waits for no lock: a frightened keeper waits for no recipe.
        if !request.uri().path().starts_with("/tank/") {
            return answer(&House::new(), &mut NoBook, &request);
        }
        // A panic while the book was open left it at its last whole revision.
        let mut rooms = rooms.lock().unwrap_or_else(PoisonError::into_inner);
        let (house, book) = &mut *rooms;
        answer(house, book, &request)
    })
}

fn answer(house: &House, book: &mut dyn Book, request: &Request<Vec<u8>>) -> Response<Vec<u8>> {
    house.answer(&mut Ctx { book, today: today(), base: "/".to_owned(), seed: 0 }, request)
}

/// Today, where this machine is.
fn today() -> Today {
    let now = jiff::ZonedDateTime::now();
    Today {
        year: now.year().into(),
        month: now.month().unsigned_abs(),
        day: now.day().unsigned_abs(),
        weekday: now.weekday().to_monday_one_offset().unsigned_abs(),
    }
}

/// A book without a page, for requests that concern no tank.
struct NoBook;

impl Book for NoBook {
    fn revision(&self) -> u64 {
        0
    }
    fn setup_at(&self, _: u64) -> Option<&Setup> {
        None
    }
    fn write(&mut self, _: Setup, _: Vec<Change>) -> u64 {
        0
    }
    fn undo(&mut self) -> Option<u64> {
        None
    }
    fn last_changes(&self) -> &[Change] {
        &[]
    }
}
