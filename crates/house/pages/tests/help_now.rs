//! The notice: whole without anything of the keeper, in the order of harm, with the numbers of the rules.

#![allow(clippy::unwrap_used)]

mod letters;

use http::{Request, StatusCode};
use knowledge::book;
use letters::{is_sound, no_forbidden_words, send, words};
use logbook::Log;
use quantity::Fault;
use setup::{Book, Setup, Shelf, TankEntry};

/// A book that must not be asked: help comes before any lock.
struct Locked;

impl Shelf for Locked {
    fn tanks(&self) -> Result<Vec<TankEntry>, Fault> {
        panic!("the book was asked")
    }
    fn last(&self) -> Result<Option<u64>, Fault> {
        panic!("the book was asked")
    }
    fn open(&mut self, _: u64) -> Result<Box<dyn Book + '_>, Fault> {
        panic!("the book was asked")
    }
    fn log(&mut self, _: u64) -> Result<Box<dyn Log + '_>, Fault> {
        panic!("the log was asked")
    }
    fn add(&mut self, _: Setup) -> Result<u64, Fault> {
        panic!("the book was written")
    }
}

fn page() -> String {
    let request = Request::builder().uri("/help-now").body(Vec::new()).unwrap();
    let response = send(&mut Locked, &request);
    assert_eq!(response.status(), StatusCode::OK);
    String::from_utf8(response.into_body()).unwrap()
}

#[test]
fn it_is_whole_without_a_book_a_script_or_a_style() {
    let html = page();
    is_sound(&html);
    // What is left without style and script is the text itself: nothing is drawn, fetched or filled in by them.
    let main = html.split("<main").nth(1).and_then(|rest| rest.split("</main>").next()).unwrap();
    for needs in ["<script", "<style", "<img", "<svg", "<form", "<input", "<button", "href=", "class=\"off-screen"] {
        assert!(!main.contains(needs), "{needs}");
    }
    assert!(main.contains("<ol>"), "numbered by the list itself");
}

#[test]
fn page_and_command_line_say_the_same() {
    let page = words(&page());
    let text = pages::help_now::text();
    assert!(text.lines().all(|line| line.chars().count() <= 78), "{text}");
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let steps: Vec<&str> = flat.split(". ").filter(|part| part.len() > 24).collect();
    assert!(steps.len() > 20);
    for sentence in steps {
        let sentence = sentence.trim_start_matches("! ").trim_end_matches('.');
        // Numbers of steps and headings in capitals are the terminal's own.
        let known = page.contains(sentence)
            || sentence.contains(" ! ")
            || sentence.chars().any(|c| c.is_ascii_digit())
            || sentence.contains("SOMETHING")
            || sentence.contains("FISH");
        assert!(known, "only on the command line: {sentence}");
    }
}

/// Where a phrase stands on the notice.
fn at(text: &str, phrase: &str) -> usize {
    text.find(phrase).unwrap_or_else(|| panic!("missing: {phrase}"))
}

#[test]
fn people_come_first_then_power_then_carbon_dioxide_then_air() {
    let text = words(&page());
    let order = [
        "Fish at the surface",
        "You first.",
        "Nobody goes back for the valve",
        "only if you reach it on dry ground",
        "don’t touch them before the power is off",
        "Plugs out, with dry hands.",
        "not an air pump that stands outside",
        "Carbon dioxide off.",
        "never pinch it",
        "Spray, paint or smoke",
        "before you turn it up",
        "Air on",
        "read the thermometer",
        "New water today?",
        "Conditioner now, for the whole tank",
        "Change a third",
        "Not changed for months? Then only a tenth, again each hour, with an ammonia test",
        "no change: air only",
        "out for 15 minutes before the water falls",
        "Plugs back, with dry hands.",
        "over the heater’s mark",
        "No food.",
        "Poison centre".to_lowercase().as_str(),
        "No generator, grill or stove indoors",
        "Something else",
        "A fish lies on the ground",
        "too much from a bottle",
        "The power is out",
        "Ask your supplier what was added",
        "The tank leaks",
        "I was shocked",
    ]
    .map(|phrase| at(&text, phrase));
    assert!(order.windows(2).all(|pair| pair[0] < pair[1]), "{order:?}");
}

#[test]
fn its_numbers_are_those_of_the_rules() {
    let text = words(&page());
    let limit = &book().harm.limit;
    // 1 °C an hour, 2 a day; 0.019 mg/L of chlorine said with one figure; 5 minutes; 10 %: a tenth.
    let n = |v: f64| format!("{v}");
    let (hour, day) = (limit.temperature_step_c_per_h.value(), limit.temperature_step_c.value());
    assert!(text.contains(&format!("{} °C (1.8 °F) in an hour and {} °C (3.6 °F) in a day", n(hour), n(day))));
    assert!(text.contains(&format!("from about {:.2} mg/L on", limit.chlorine_acute_mg_per_l.value())));
    assert!(text.contains(&format!("wait {} minutes", n(limit.conditioner_wait_min.value()))));
    assert_eq!(limit.old_tank_change_percent.value(), 10.0);
}

#[test]
fn the_air_is_never_turned_off_and_no_word_is_forbidden() {
    let text = format!("{} {}", words(&page()), pages::help_now::text());
    no_forbidden_words(&text);
    for wrong in ["air off", "pump off", "gas off", "turn off the air"] {
        assert!(!text.to_lowercase().contains(wrong), "{wrong}");
    }
}
