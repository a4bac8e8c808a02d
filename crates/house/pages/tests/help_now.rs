//! The notice: whole without anything of the keeper, in the order of harm, with the numbers of the rules.

use crate::letters;

use crate::letters::{is_sound, no_forbidden_words, send, words};
use http::{Request, StatusCode};
use knowledge::book;
use logbook::Log;
use quantity::Fault;
use setup::{Book, Setup, Shelf, TankEntry};
use trouble::sheets;

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

/// A page that stands alone.
fn at_address(path: &str) -> String {
    let request = Request::builder().uri(path).body(Vec::new()).unwrap();
    let response = send(&mut Locked, &request);
    assert_eq!(response.status(), StatusCode::OK, "{path}");
    String::from_utf8(response.into_body()).unwrap()
}

fn page() -> String {
    at_address("/help-now")
}

/// Every address that needs no book.
fn addresses() -> Vec<String> {
    let troubles = sheets().iter().map(|sheet| format!("/help-now/{}", sheet.key));
    std::iter::once("/help-now".to_owned()).chain(troubles).collect()
}

fn main_of(html: &str) -> &str {
    html.split("<main").nth(1).and_then(|rest| rest.split("</main>").next()).unwrap()
}

#[test]
fn they_are_whole_without_a_book_a_script_or_a_style() {
    for path in addresses() {
        let html = at_address(&path);
        is_sound(&html);
        // What is left without style and script is the text itself: nothing is drawn, fetched or filled in by them.
        let main = main_of(&html);
        for needs in
            ["<script", "<style", "<img", "<svg", "<form", "<input", "<button", "<details", "class=\"off-screen"]
        {
            assert!(!main.contains(needs), "{needs} on {path}");
        }
        assert!(main.contains("<ol>"), "numbered by the list itself: {path}");
        assert!(pages::stands_alone("/", &path), "{path} would wait for the book");
    }
    assert!(
        !pages::stands_alone("/", "/help-now/gasping/mine") && !pages::stands_alone("/", "/tank/1/help-now/gasping")
    );
}

#[test]
fn fish_that_gasp_are_one_act_from_any_page_and_every_other_trouble_one_more() {
    let mut shelf = letters::book(letters::HOUSEHOLD);
    for path in ["/tank/1/salts", "/tank/1/tap", "/tank/1/tank", "/help-now/leak", "/tank/1/help-now/gasping"] {
        let html = letters::get(&mut shelf, path);
        let first = html.split("<a ").nth(1).unwrap();
        assert!(first.contains("href=\"/help-now\""), "the first link of {path}: {}", &first[..80]);
    }
    // In an empty book too.
    assert!(at(&words(&page()), "Plugs out, with dry hands.") < at(&words(&page()), "Something else The first acts"));
    let html = page();
    for sheet in sheets().iter().skip(1) {
        assert!(main_of(&html).contains(&format!("href=\"/help-now/{}\"", sheet.key)), "{}", sheet.key);
        assert!(words(&html).contains(&words(&sheet.steps.first().unwrap().head)), "{}", sheet.key);
    }
}

#[test]
fn page_and_command_line_say_the_same() {
    for sheet in sheets() {
        let page = words(&at_address(&format!("/help-now/{}", sheet.key)));
        let text = trouble::sheet_text(sheet);
        assert!(text.lines().all(|line| line.chars().count() <= 78), "{text}");
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for sentence in sheet.steps.iter().flat_map(|step| step.says.iter().chain([&step.head])) {
            let sentence = sentence.replace('\u{a0}', " ");
            assert!(page.contains(&sentence), "not on the page of {}: {sentence}", sheet.key);
            assert!(flat.contains(&sentence), "not on the command line: {sentence}");
        }
    }
}

#[test]
fn a_word_that_is_no_trouble_is_a_page_that_is_missing() {
    let request = Request::builder().uri("/help-now/rain").body(Vec::new()).unwrap();
    assert_eq!(send(&mut Locked, &request).status(), StatusCode::NOT_FOUND);
    let mut shelf = letters::book(letters::HOUSEHOLD);
    for path in ["/help-now/rain/mine", "/tank/1/help-now/rain", "/tank/9/help-now/gasping"] {
        let request = Request::builder().uri(path).body(Vec::new()).unwrap();
        assert_eq!(send(&mut shelf, &request).status(), StatusCode::NOT_FOUND, "{path}");
    }
}

#[test]
fn the_figures_of_a_tank_are_one_tap_further() {
    let mut shelf = letters::book(letters::HOUSEHOLD);
    let request = Request::builder().uri("/help-now/ammonia/mine").body(Vec::new()).unwrap();
    let response = send(&mut shelf, &request);
    assert_eq!(response.headers()["location"], "/tank/1/help-now/ammonia");
    let html = letters::get(&mut shelf, "/tank/1/help-now/ammonia?ammonia=0.5+mg%2FL+N&ph=8&temperature=24+%C2%B0C");
    let text = words(&html);
    assert!(text.contains("are toxic here at once") && text.contains("harm starts at 0.016"), "{text}");
    let text = words(&letters::get(&mut shelf, "/tank/1/help-now/ammonia?ammonia=0.5+mg%2FL+N&ph=7"));
    assert!(text.contains("are toxic here leave it be") && text.contains("No big change now"), "{text}");
    no_forbidden_words(&text);
}

#[test]
fn a_reading_that_is_none_is_told_beside_its_field_and_the_rest_is_worked_out() {
    let mut shelf = letters::book(letters::HOUSEHOLD);
    let request = Request::builder().uri("/tank/1/help-now/ammonia?ammonia=much&ph=8").body(Vec::new()).unwrap();
    let response = send(&mut shelf, &request);
    assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
    let html = String::from_utf8(response.into_body()).unwrap();
    assert!(html.contains("aria-invalid=\"true\"") && html.contains("value=\"much\""), "{html}");
    let text = words(&html);
    // The fault stands before all that is worked out.
    assert!(at(&text, "Nothing here is worked out from it.") < at(&text, "In this tank: at most"), "{text}");
    assert!(!text.contains("are toxic here"), "{text}");
}

#[test]
fn bare_numbers_are_taken_and_the_basis_is_asked() {
    let mut shelf = letters::book(letters::HOUSEHOLD);
    let html = letters::get(&mut shelf, "/tank/1/help-now/ammonia?ammonia=0.25&ph=8&temperature=24");
    let text = words(&html);
    assert!(text.contains("of the 0.25 mg/L ammonia (as N)") && text.contains("taken as N, the bad end"), "{text}");
    assert!(html.contains("name=\"ammonia_as\"") && text.contains("I don’t know"), "{html}");
    let text =
        words(&letters::get(&mut shelf, "/tank/1/help-now/ammonia?ammonia=0.25&ammonia_as=NH4&ph=8&temperature=24"));
    // 0.25 × 14.007/18.039 = 0.194 mg/L.
    assert!(text.contains("of the 0.19 mg/L ammonia (as N)") && !text.contains("the bad end"), "{text}");
}

#[test]
fn the_tanks_own_page_begins_with_how_much_may_be_changed() {
    let mut shelf = letters::book(letters::HOUSEHOLD);
    let text = words(&letters::get(&mut shelf, "/tank/1/help-now/gasping"));
    assert!(at(&text, "holds where the two differ") < at(&text, "In this tank: at most"), "{text}");
    assert!(text.contains(" mL for the whole tank") && !text.contains("changes the notice"), "{text}");
}

#[test]
fn while_something_is_open_each_reply_has_its_own_figures() {
    let mut shelf = letters::book(letters::QUESTION);
    let text = words(&letters::get(&mut shelf, "/tank/1/help-now/nitrate?nitrate=80+mg%2FL+NO3"));
    assert!(text.contains("One thing is open"), "{text}");
    assert_eq!(text.matches(" If ").count(), 2, "{text}");
}

#[test]
fn the_log_speaks_for_a_cause() {
    let mut shelf = letters::book(letters::HOUSEHOLD);
    let now = jiff::civil::date(2026, 6, 11).at(8, 0, 0, 0).in_tz("UTC").unwrap();
    let what = logbook::What::Change { litres: 36.0 };
    shelf.log(1).unwrap().add(vec![logbook::Entry { at: now, what, note: String::new() }]).unwrap();
    let text = words(&letters::get(&mut shelf, "/tank/1/help-now/gasping"));
    assert!(text.contains("You changed 36 L 1 hour ago."), "{text}");
}

#[test]
fn nothing_is_written_by_asking() {
    let mut shelf = letters::book(letters::HOUSEHOLD);
    let before = letters::revision(&shelf);
    letters::get(&mut shelf, "/tank/1/help-now/power-cut?temperature=24+%C2%B0C&room=15+%C2%B0C");
    assert_eq!(letters::revision(&shelf), before);
    let request = Request::builder().method("POST").uri("/tank/1/help-now/power-cut").body(Vec::new()).unwrap();
    assert_eq!(send(&mut shelf, &request).status(), StatusCode::METHOD_NOT_ALLOWED);
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
        "Something else The first acts",
        "Somebody got a shock",
        "A cylinder hisses",
        "The tank leaks",
        "A fish lies on the ground",
        "The power is out",
        "too much from a bottle",
        "The tap smells, is brown, or a notice",
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
    let text = format!("{} {}", words(&page()), trouble::all_text());
    no_forbidden_words(&text);
    for wrong in ["air off", "pump off", "gas off", "turn off the air"] {
        assert!(!text.to_lowercase().contains(wrong), "{wrong}");
    }
}
