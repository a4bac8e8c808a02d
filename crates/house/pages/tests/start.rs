//! Start as a letter: what a beginner reads first, what the buttons write into the log, and how the log turns the letter.

use crate::letters;

use crate::letters::{HOUSEHOLD, QUESTION, book, get, post, words};
use logbook::{Filter, What};
use setup::{MemoryShelf, Shelf};

const PATH: &str = "/tank/1/start";

/// The household, where nobody has told that the test was passed.
fn fresh() -> MemoryShelf {
    book(&HOUSEHOLD.replace("start_test_passed = true", ""))
}

/// A letter sent back with an act that is not done; the letter that is then shown.
fn refused(shelf: &mut MemoryShelf, fields: &[(&str, &str)]) -> String {
    let mut body = form_urlencoded::Serializer::new(String::new());
    body.append_pair("revision", "1").extend_pairs(fields);
    let request = http::Request::post(PATH).header("content-type", "application/x-www-form-urlencoded");
    let response = letters::send(shelf, &request.body(body.finish().into_bytes()).unwrap());
    assert_eq!(response.status(), 422);
    String::from_utf8(response.into_body()).unwrap()
}

fn entries(shelf: &mut MemoryShelf) -> Vec<What> {
    let log = shelf.log(1).unwrap();
    log.list(&Filter::default()).unwrap().into_iter().map(|kept| kept.entry.what).collect()
}

#[test]
fn the_answer_comes_first_and_the_day_in_order() {
    let page = words(&get(&mut fresh(), PATH));
    assert!(page.contains("no animal before the start test is passed twice"), "{page}");
    let place = |text: &str| page.find(text).unwrap_or_else(|| panic!("{text}"));
    assert!(place("Have at hand") < place("Set-up day") && place("Set-up day") < place("Week by week"));
    assert!(place("Nothing is plugged in") < place("The plugs, last"));
    for part in ["harm starts at 0.016", "never near bleach", "55", "0.35"] {
        assert!(page.contains(part), "{part}");
    }
}

#[test]
fn buttons_write_into_the_log_and_the_log_turns_the_letter() {
    let mut shelf = fresh();
    let page = words(&post(&mut shelf, PATH, &[("act", "set_up")]));
    assert!(page.contains("It stands in your log") && page.contains("Week 1"), "{page}");
    let page = words(&post(&mut shelf, PATH, &[("act", "start_test")]));
    assert!(page.contains("The ammonia is given"), "{page}");
    // The clock of these tests stands still, so these readings are of the same hour and judge nothing.
    let read = [
        ("act", "read"),
        ("read_ammonia", "0,5"),
        ("read_ammonia_as", "ion"),
        ("read_nitrite", "0.02"),
        ("read_nitrite_as", "n"),
        ("read_nitrite_low", "yes"),
    ];
    post(&mut shelf, PATH, &read);
    let all = entries(&mut shelf);
    let tests: Vec<_> =
        all.iter().filter_map(|what| if let What::Test(reading) = what { Some(reading) } else { None }).collect();
    // 0.5 mg/L of NH4 × 14.007 ÷ 18.039 = 0.388 mg/L of N.
    let ammonia = tests.iter().find(|reading| reading.of == "ammonia_n").unwrap();
    assert!((ammonia.value - 0.388).abs() < 0.001 && !ammonia.below, "{ammonia:?}");
    let nitrite = tests.iter().find(|reading| reading.of == "nitrite_n").unwrap();
    assert!(nitrite.value == 0.02 && nitrite.below, "{nitrite:?}");
}

#[test]
fn a_reading_without_its_basis_is_not_written() {
    let mut shelf = fresh();
    let page = refused(&mut shelf, &[("act", "read"), ("read_ammonia", "0.2")]);
    assert!(words(&page).contains("Counted as what?"), "{}", words(&page));
    assert!(page.contains("value=\"0.2\""), "what was typed stays");
    assert!(entries(&mut shelf).is_empty());
    let page = refused(&mut shelf, &[("act", "read"), ("read_ammonia", "900"), ("read_ammonia_as", "n")]);
    assert!(words(&page).contains("not possible"), "{}", words(&page));
}

#[test]
fn a_passed_test_brings_the_animals_to_the_top() {
    let page = words(&get(&mut book(HOUSEHOLD), PATH));
    assert!(page.contains("the first animals may come"), "{page}");
    assert!(!page.contains("I gave the ammonia now"), "no ammonia where animals live");
    let place = |text: &str| page.find(text).unwrap_or_else(|| panic!("{text}"));
    assert!(place("Bringing animals home") < place("Set-up day"));
}

#[test]
fn the_bag_is_read_and_not_kept() {
    let mut shelf = book(HOUSEHOLD);
    let page =
        get(&mut shelf, "/tank/1/start?bag_ph=6.4&bag_ammonia=3&bag_temperature=22&bag_conductivity=200&do=read");
    let text = words(&page);
    assert!(text.contains("200 µS/cm in the bag") && text.contains("3 mg/L of ammonia-nitrogen at pH 6.4"), "{text}");
    assert!(page.contains("name=\"bag_ph\" value=\"6.4\""));
    assert!(entries(&mut shelf).is_empty());
    let text = words(&get(&mut shelf, "/tank/1/start?bag_ph=acid"));
    assert!(text.contains("I can’t read, so I leave it out"), "{text}");
}

#[test]
fn an_open_question_hangs_no_headline_on_one_reading() {
    let page = words(&get(&mut book(&QUESTION.replace("start_test_passed = true", "")), PATH));
    assert!(page.contains("Still open."), "{page}");
    let page = words(&get(&mut book("[tank]\nname = \"x\"\n"), PATH));
    assert!(page.contains("Tell me your glass first") && !page.contains("kg of"), "{page}");
}

#[test]
fn start_and_salts_name_one_nitrate_that_the_tank_may_reach() {
    let mut shelf = book(&HOUSEHOLD.replace("mean = \"14 mg/L NO3\", max = 21", "mean = \"25 mg/L NO3\", max = 32"));
    let told = |page: String, from: &str| {
        let (_, rest) = page.split_once(from).unwrap_or_else(|| panic!("{from}: {page}"));
        rest.split_once(" mg/L").unwrap().0.trim().to_owned()
    };
    let salts = told(words(&get(&mut shelf, "/tank/1/salts")), "Nitrate may reach");
    let start = told(words(&get(&mut shelf, PATH)), "the tank may reach");
    assert_eq!(salts, start);
}
