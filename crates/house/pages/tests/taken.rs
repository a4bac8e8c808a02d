//! What a blank takes is understood on every page afterwards; what it does not take leaves the old number; and a tank that
//! cannot be read all the same has a way out.

use std::collections::BTreeSet;

use crate::common::{Door, answer};
use crate::letters::{HOUSEHOLD, book, revision, send, setup, words};
use http::{Request, Response, StatusCode};
use setup::{MemoryShelf, Setup, Shelf};

/// The letters with blanks of the setup.
const LETTERS: [&str; 3] = ["tap", "tank", "salts"];
/// What fingers type by mistake; the setup tries more of them in each of its fields (`setup/tests/questions.rs`).
const AWKWARD: [&str; 2] = ["-1", "1e9"];

fn at(shelf: &mut MemoryShelf, path: &str) -> Response<Vec<u8>> {
    send(shelf, &Request::get(path).body(Vec::new()).unwrap())
}

fn write(shelf: &mut MemoryShelf, letter: &str, field: &str, typed: &str) -> Response<Vec<u8>> {
    let revision = revision(shelf).to_string();
    let body = form_urlencoded::Serializer::new(String::new())
        .extend_pairs([("revision", revision.as_str()), (field, typed)])
        .finish();
    let request =
        Request::post(format!("/tank/1/{letter}")).header("content-type", "application/x-www-form-urlencoded");
    send(shelf, &request.body(body.into_bytes()).unwrap())
}

fn body(response: &Response<Vec<u8>>) -> String {
    String::from_utf8(response.body().clone()).unwrap()
}

/// The fields that stand on a letter as blanks that are typed into.
fn typed_into(page: &str) -> BTreeSet<String> {
    let inputs = page.split("<input class=\"blank").skip(1);
    let names = inputs.filter_map(|input| input.split(" name=\"").nth(1)?.split('"').next());
    names.filter(|name| setup::field_of(name).is_some()).map(str::to_owned).collect()
}

/// Of each blank of each letter, in a tank of which nothing is told and in one that is: what was taken is understood under
/// every reply to what is open, and a number that was not taken left the book as it was.
#[test]
fn no_number_makes_a_tank_unreadable() {
    let mut tried = 0;
    for (text, awkward) in [("", &AWKWARD[..]), (HOUSEHOLD, &AWKWARD[1..])] {
        for letter in LETTERS.into_iter().filter(|letter| text.is_empty() || *letter == "tap") {
            let path = format!("/tank/1/{letter}");
            for field in typed_into(&Door::open(text, "/").page(&path)) {
                for typed in awkward {
                    let mut door = Door::open(text, "/");
                    let status = door.post(&path, &[("revision", "1"), (&field, *typed)]).status();
                    assert!([303, 422].contains(&status.as_u16()), "{field} = {typed}");
                    if status == StatusCode::UNPROCESSABLE_ENTITY {
                        assert_eq!(door.setup().text(), text, "{field} = {typed}");
                    }
                    let follows = answer(door.setup());
                    assert!(follows.is_ok(), "{field} = {typed}: {follows:?}");
                    tried += 1;
                }
            }
        }
    }
    assert!(tried > 250, "only {tried}");
}

/// The bounds of phosphate are 0 to 100 mg/L as PO4 (`data/bounds.toml`).
#[test]
fn a_number_that_cannot_be_is_refused_at_its_blank_in_plain_figures() {
    let mut shelf = book("");
    for typed in ["2e3", "1e9"] {
        let response = write(&mut shelf, "tap", "tap.phosphate", typed);
        assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY, "{typed}");
        let said = words(&body(&response));
        assert!(said.contains("I did not take") && said.contains("0 to 100 mg/L") && !said.contains("1e-"), "{said}");
    }
    assert_eq!(revision(&shelf), 1);
}

/// A tank that no program of today would write: one that an earlier one did.
fn unreadable() -> MemoryShelf {
    let mut shelf = book(HOUSEHOLD);
    let bad = HOUSEHOLD.replace("40 %", "4000 %");
    assert!(Setup::read("tank.toml", &bad).is_err());
    shelf.open(1).unwrap().write(Setup::kept("tank.toml", &bad), Vec::new());
    shelf
}

#[test]
fn a_tank_that_cannot_be_read_offers_to_take_the_last_change_back() {
    for letter in LETTERS.into_iter().chain(["care", "log", "start"]) {
        let mut shelf = unreadable();
        let response = at(&mut shelf, &format!("/tank/1/{letter}"));
        assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
        let page = body(&response);
        assert!(page.contains("Take the last change back"), "{letter}");
        assert!(page.contains(&format!("action=\"/tank/1/{letter}\"")) && page.contains("name=\"do\" value=\"back\""));
        let response = write(&mut shelf, letter, "do", "back");
        assert_eq!(response.status(), StatusCode::SEE_OTHER, "{letter}");
        assert_eq!(setup(&shelf).text(), HOUSEHOLD);
        let to = response.headers()["location"].to_str().unwrap().to_owned();
        assert_eq!(at(&mut shelf, &to).status(), StatusCode::OK, "{letter}");
    }
}

/// The calendar's file says what is wrong, not that a question is open.
#[test]
fn the_calendar_of_a_tank_that_cannot_be_read_says_so() {
    let mut shelf = unreadable();
    let response = at(&mut shelf, "/tank/1/care.ics");
    assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
    let page = body(&response);
    assert!(page.contains("Take the last change back") && !page.contains("question is still open"));
    assert!(page.contains("action=\"/tank/1/care\""), "{page}");
}

/// Whoever stands in trouble is helped, whatever the tank's text holds.
#[test]
fn help_now_works_for_a_tank_that_cannot_be_read() {
    let mut shelf = unreadable();
    for sheet in trouble::sheets() {
        let mine = at(&mut shelf, &format!("/tank/1/help-now/{}", sheet.key));
        assert_eq!(mine.status(), StatusCode::OK, "{}", sheet.key);
        let mine = words(&body(&mine));
        assert!(sheet.steps.iter().all(|step| mine.contains(&step.head)), "{}", sheet.key);
    }
}

/// A blank that says "as NO₃" believes it, however its number is written.
#[test]
fn the_unit_beside_the_blank_is_believed() {
    for typed in ["20", "20 mg/L", "<1", "12 to 15", "12-15", "2e1", "12 to 15 mg/L"] {
        let mut door = Door::open("", "/");
        let page = door.rewrite("/tank/1/tap", &[("revision", "1"), ("tap.nitrate", typed)]);
        assert!(!page.contains("How is nitrate"), "{typed}");
        assert!(door.setup().written("tap.nitrate").unwrap().ends_with(" NO3"), "{typed}");
    }
    let mut door = Door::open("", "/");
    let page = door.rewrite("/tank/1/tap", &[("revision", "1"), ("tap.nitrate", "20 ppm")]);
    assert!(page.contains("How is nitrate"), "another unit says nothing of the basis");
}
