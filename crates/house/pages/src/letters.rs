//! Letters as they were written: what a letter says follows from its revision, the day, the log and what the house has to
//! say; while none of them moves it is not written again. Its frame, with the menus and the other tanks, is.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use jiff::civil::DateTime;
use maud::Markup;
use setup::TankEntry;

use crate::act::Logged;
use crate::ctx::Desk;
use crate::routes::Page;
use crate::sheet::Said;

/// How many are kept of a revision: each page at rest, and a few with something to say.
const KEPT: usize = 12;

/// The letters of one revision, the one that was written first in front.
#[derive(Default)]
pub struct Letters(Mutex<VecDeque<(Of, Arc<str>)>>);

/// All that a letter follows from beside what is kept of its setup.
struct Of {
    page: &'static str,
    base: String,
    tank: Option<u64>,
    tanks: Option<Vec<TankEntry>>,
    revision: u64,
    moment: DateTime,
    logged: Logged,
    said: Said,
}

impl Of {
    fn new(desk: &Desk, page: &Page, logged: &Logged, said: &Said) -> Of {
        Of {
            page: page.key,
            base: desk.place.base.to_owned(),
            tank: desk.place.tank,
            tanks: desk.place.tanks.map(<[_]>::to_vec),
            revision: desk.book.revision(),
            moment: moment(desk, page),
            logged: logged.clone(),
            said: said.clone(),
        }
    }

    fn is(&self, desk: &Desk, page: &Page, logged: &Logged, said: &Said) -> bool {
        self.page == page.key
            && self.revision == desk.book.revision()
            && self.moment == moment(desk, page)
            && self.tank == desk.place.tank
            && self.base == desk.place.base
            && self.tanks.as_deref() == desk.place.tanks
            && self.logged == *logged
            && self.said == *said
    }
}

/// How much of the moment a letter tells: one that reads the log the minute, any other the day.
fn moment(desk: &Desk, page: &Page) -> DateTime {
    let now = &desk.now;
    let (hour, minute) = if page.logs.is_some() { (now.hour(), now.minute()) } else { (0, 0) };
    now.date().at(hour, minute, 0, 0)
}

impl Letters {
    /// The letter, `write` being called only if nothing that was written is the same.
    pub fn get(
        &self,
        desk: &Desk,
        page: &Page,
        logged: &Logged,
        said: &Said,
        write: impl FnOnce() -> Markup,
    ) -> Arc<str> {
        let found =
            self.kept().iter().find(|(of, _)| of.is(desk, page, logged, said)).map(|(_, text)| Arc::clone(text));
        found.unwrap_or_else(|| {
            // Not under the lock: it takes its time.
            let text: Arc<str> = write().into_string().into();
            let mut kept = self.kept();
            if kept.len() >= KEPT {
                kept.pop_front();
            }
            kept.push_back((Of::new(desk, page, logged, said), Arc::clone(&text)));
            text
        })
    }

    /// How many were written and are kept.
    #[cfg(test)]
    pub fn len(&self) -> usize {
        self.kept().len()
    }

    fn kept(&self) -> MutexGuard<'_, VecDeque<(Of, Arc<str>)>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use http::{Request, StatusCode};
    use jiff::ToSpan;
    use setup::{MemoryShelf, Setup};

    use crate::{Ctx, House};

    /// Work is counted: what a letter follows from does not move, so it is written once however often it is asked for.
    #[test]
    fn a_letter_is_written_once_for_what_it_follows_from() {
        let text = include_str!("../../../../examples/household/tank.toml");
        let setup = Setup::read("tank.toml", text).unwrap();
        let mut shelf = MemoryShelf::of(setup.clone());
        let house = House::new();
        let begin = jiff::civil::date(2026, 6, 11).at(9, 0, 0, 0).in_tz("UTC").unwrap();
        let mut written = |path: &str, minutes: i64| {
            let now = begin.checked_add(minutes.minutes()).unwrap();
            let mut ctx = Ctx { shelf: &mut shelf, now, base: "/".to_owned(), seed: 1 };
            let response = house.answer(&mut ctx, &Request::get(path).body(Vec::new()).unwrap());
            assert_eq!(response.status(), StatusCode::OK);
            house.answers.get(&setup).letters.len()
        };
        assert_eq!([written("/tank/1/salts", 0), written("/tank/1/salts?n=1", 0)], [1, 1]);
        // It tells the day, not the minute; what it is asked to say besides is written anew.
        assert_eq!([written("/tank/1/salts", 5), written("/tank/1/salts?why=b", 5)], [1, 2]);
        assert_eq!(written("/tank/1/salts", 24 * 60), 3);
        // What reads the log tells the minute.
        assert_eq!([written("/tank/1/care", 0), written("/tank/1/care", 0), written("/tank/1/care", 1)], [4, 4, 5]);
    }
}
