//! Several tanks: their addresses, the list, the way to the last one; and one tank in two windows or programs.

use crate::common;

use crate::common::{Door, HOUSEHOLD, text};
use http::Request;
use logbook::Log;
use pages::{Ctx, House};
use quantity::Fault;
use setup::{Book, Change, MemoryBook, MemoryShelf, Setup, Shelf, TankEntry, Unwritten};

const SALTS: &str = "/tank/1/salts";

fn household() -> Setup {
    Setup::read("tank.toml", HOUSEHOLD).unwrap()
}

/// The household's tank and two more: one with a name, one without.
fn three() -> Door {
    let mut shelf = MemoryShelf::of(household());
    shelf.add(household().with("tank.name", "The <landing>").unwrap()).unwrap();
    shelf.add(household().with("tank.name", "").unwrap()).unwrap();
    Door::over(shelf, "/")
}

fn location(door: &mut Door, path: &str) -> String {
    let response = door.get(path);
    assert_eq!(response.status(), 303, "{path}");
    response.headers()["location"].to_str().unwrap().to_owned()
}

#[test]
fn the_door_leads_to_the_tank_that_was_edited_last() {
    let mut door = three();
    assert_eq!(location(&mut door, "/"), "/tank/3/care");
    door.rewrite("/tank/2/salts", &[("revision", "1"), ("at_hand.bottle", "500")]);
    assert_eq!(location(&mut door, "/"), "/tank/2/care");
    door.page("/tank/1/tap");
    assert_eq!(location(&mut door, "/"), "/tank/2/care", "looking is not editing");
    assert_eq!(door.shelf.book(2).unwrap().setup().unwrap().written("at_hand.bottle").as_deref(), Some("500 mL"));
    assert!([1, 3].iter().all(|tank| door.shelf.book(*tank).unwrap().revision() == 1));
}

#[test]
fn every_page_lists_the_tanks_where_there_is_more_than_one() {
    let mut door = three();
    let page = door.page("/tank/2/tap");
    for link in ["/tank/1/tap", "/tank/3/tap", "/tank/2/salts", "/first"] {
        assert!(page.contains(&format!("href=\"{link}\"")), "{link}");
    }
    assert!(page.contains("<a href=\"/tank/2/tap\" aria-current=\"true\"><b>The &lt;landing&gt;</b>"));
    assert!(page.contains("<b>Tank 3</b>") && page.contains("action=\"/tank/2/tap\""));
    let one = Door::open(HOUSEHOLD, "/").page("/tank/1/tap");
    assert!(!one.contains("The tank in the hall</b>") && one.contains("href=\"/first\""));
}

#[test]
fn a_number_that_is_no_tank_is_no_page() {
    let mut door = three();
    for id in ["0", "4", "01", "+1", "-1", "1.0", "%31x", "18446744073709551616", "last"] {
        let response = door.get(&format!("/tank/{id}/salts"));
        assert_eq!(response.status(), 404, "{id}");
        assert!(text(&response).contains("There is no such page."));
    }
}

#[test]
fn an_older_letter_is_shown_beside_the_newer_one() {
    let mut door = Door::open(HOUSEHOLD, "/");
    door.rewrite(SALTS, &[("revision", "1"), ("at_hand.bottle", "500"), ("habits.every", "14")]);
    // The other window still shows revision 1.
    let page = door.rewrite(SALTS, &[("revision", "1"), ("at_hand.bottle", "250"), ("habits.change", "30")]);
    assert!(page.contains("elsewhere it had become 500 mL; yours holds, 250 mL."), "of both the keeper is told");
    for (field, was) in [("at_hand.bottle", "300"), ("habits.change", "40"), ("habits.every", "7")] {
        assert!(page.contains(&format!("value=\"{field}@1\"")), "{field} has its way back");
        assert!(page.contains(&format!("(was {was}; ")), "{field} is marked against what this window showed");
    }
    assert!(!page.contains("become 14 days"), "what only the other window changed is no conflict");
    let page = door.page(&format!("{SALTS}?was=1&over=99"));
    assert!(!page.contains("older than the book"), "an address that was made up says nothing");
}

/// A shelf with one tank, into which somebody else writes each time between our look and our write.
struct Race {
    book: MemoryBook,
    /// How often.
    left: usize,
    /// What the other one writes.
    theirs: (&'static str, &'static str),
}

impl Shelf for Race {
    fn tanks(&self) -> Result<Vec<TankEntry>, Fault> {
        Ok(vec![TankEntry { id: 1, name: None, tap: None, revision: self.book.revision() }])
    }
    fn last(&self) -> Result<Option<u64>, Fault> {
        Ok(Some(1))
    }
    fn open(&mut self, _: u64) -> Result<Box<dyn Book + '_>, Fault> {
        Ok(Box::new(Raced(self)))
    }
    fn log(&mut self, _: u64) -> Result<Box<dyn Log + '_>, Fault> {
        Err(Fault::new("the disk is full"))
    }
    fn add(&mut self, _: Setup) -> Result<u64, Fault> {
        Err(Fault::new("the disk is full"))
    }
}

struct Raced<'a>(&'a mut Race);

impl Book for Raced<'_> {
    fn revision(&self) -> u64 {
        self.0.book.revision()
    }
    fn setup_at(&self, revision: u64) -> Option<&Setup> {
        self.0.book.setup_at(revision)
    }
    fn write(&mut self, setup: Setup, changes: Vec<Change>) -> u64 {
        self.0.book.write(setup, changes)
    }
    fn undo(&mut self) -> Option<u64> {
        self.0.book.undo()
    }
    fn last_changes(&self) -> &[Change] {
        self.0.book.last_changes()
    }
    fn write_over(&mut self, seen: u64, setup: Setup, changes: Vec<Change>) -> Result<u64, Unwritten> {
        if self.0.left > 0 {
            self.0.left -= 1;
            let theirs = self.setup().unwrap().with(self.0.theirs.0, self.0.theirs.1).unwrap();
            self.0.book.write(theirs, Vec::new());
            return Err(Unwritten::Stale { seen, now: self.revision() });
        }
        Ok(self.write(setup, changes))
    }
}

fn post(race: &mut Race, path: &str, body: &str) -> http::Response<Vec<u8>> {
    let now = jiff::civil::date(2026, 6, 11).at(9, 0, 0, 0).in_tz("UTC").unwrap();
    let mut ctx = Ctx { shelf: race, now, base: "/".to_owned(), seed: 1 };
    let request = Request::post(path).header("content-type", "application/x-www-form-urlencoded");
    House::asking(common::answer).answer(&mut ctx, &request.body(body.as_bytes().to_vec()).unwrap())
}

#[test]
fn a_program_that_writes_between_our_look_and_our_write_loses_nothing_and_neither_do_we() {
    let mut race = Race { book: MemoryBook::open(household()), left: 2, theirs: ("habits.every", "14 days") };
    let response = post(&mut race, SALTS, "revision=1&at_hand.bottle=500");
    assert_eq!(response.status(), 303, "{}", text(&response));
    let setup = race.book.setup().unwrap();
    let written = |field: &str| setup.written(field).unwrap();
    assert_eq!((written("habits.every"), written("at_hand.bottle")), ("14 days".to_owned(), "500 mL".to_owned()));
}

#[test]
fn what_can_not_be_written_stays_on_the_page() {
    let mut race = Race { book: MemoryBook::open(household()), left: 1000, theirs: ("habits.every", "14 days") };
    let response = post(&mut race, SALTS, "revision=1&at_hand.bottle=512");
    assert_eq!(response.status(), 409);
    let page = text(&response);
    assert!(page.contains("nother window changed this tank") && page.contains("“512” I did not take"), "{page}");
    let response = post(&mut race, "/first", "tap.nitrate=7.7&glass.outer_length=61.5");
    assert_eq!(response.status(), 503);
    let page = text(&response);
    assert!(page.contains("he disk is full") && page.contains("value=\"7.7\"") && page.contains("value=\"61.5\""));
}
