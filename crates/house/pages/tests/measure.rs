//! The letter of measuring: readings worked out by GET and kept by nobody, the result taken as measured and taken back.

use crate::letters;

use crate::letters::{HOUSEHOLD, book, get, is_sound, no_forbidden_words, post, revision, setup, words};
use quantity::Kind;

const PAGE: &str = "/tank/1/measure";
const LITRES: &str = "/tank/1/measure?measure=litres&salt=kitchen_salt&grams=1.6&before=420&after=457";

#[test]
fn every_protocol_is_a_sound_page() {
    let mut shelf = book(HOUSEHOLD);
    is_sound(&get(&mut shelf, PAGE));
    for name in measure::Name::ALL {
        let html = get(&mut shelf, &format!("{PAGE}?measure={}", name.key()));
        is_sound(&html);
        let text = words(&html);
        no_forbidden_words(&text);
        let protocol = name.protocol().unwrap();
        assert!(text.contains(&protocol.asks), "{}", protocol.asks);
        for blank in &protocol.blank {
            assert!(html.contains(&format!("name=\"{}\"", blank.key)), "{}", blank.key);
        }
    }
}

#[test]
fn readings_are_worked_out_and_kept_by_nobody() {
    let mut shelf = book(HOUSEHOLD);
    let before = revision(&shelf);
    let html = get(&mut shelf, LITRES);
    is_sound(&html);
    let text = words(&html);
    assert!(text.contains("Water in the tank: 86 L"), "{text:.600}");
    assert!(text.contains("likely 79 to 93") && text.contains("Take it as measured"));
    assert_eq!(revision(&shelf), before);
    // Enter in a reading works out; it never writes.
    let first = html.split("<button").nth(1).unwrap();
    assert!(first.contains("formmethod=\"get\""), "{first:.200}");
}

#[test]
fn what_was_measured_is_taken_and_taken_back() {
    let mut shelf = book(HOUSEHOLD);
    let html = get(&mut shelf, LITRES);
    let take = html.split("name=\"take\" value=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    let letter = post(&mut shelf, PAGE, &[("take", &take)]);
    let measured = setup(&shelf).tank().unwrap().measured.litres.unwrap();
    assert_eq!(measured.kind, Kind::Measured);
    assert!((measured.value - 86.3).abs() < 0.1 && measured.low < 80.0 && measured.high > 93.0, "{measured:?}");
    assert!(words(&letter).contains("(was empty; undo"), "{}", words(&letter));
    assert_eq!(setup(&shelf).tank().unwrap().geometry.true_l, measured);
    // The salts page goes by it.
    assert!(words(&get(&mut shelf, "/tank/1/salts")).contains("86"));
    let undo = format!("measured.litres@{}", revision(&shelf) - 1);
    post(&mut shelf, PAGE, &[("undo", &undo)]);
    assert_eq!(setup(&shelf).tank().unwrap().measured.litres, None);
}

#[test]
fn trimmings_write_three_fields_at_once() {
    let mut shelf = book(HOUSEHOLD);
    let html = get(&mut shelf, &format!("{PAGE}?measure=trimmings&grams=60&days=14"));
    let take = html.split("name=\"take\" value=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    post(&mut shelf, PAGE, &[("take", &take)]);
    let uptake = setup(&shelf).tank().unwrap().growth.uptake_mg_per_l_day;
    for ion in [quantity::Ion::Nitrate, quantity::Ion::Phosphate, quantity::Ion::Potassium] {
        assert_eq!(uptake[&ion].kind, Kind::Measured, "{ion:?}");
    }
}

/// Cuts of the log: 30 g and 50 g grew in the 28 days after the first cut.
#[test]
fn the_cuts_of_the_log_are_offered_as_readings() {
    use setup::Shelf;
    let mut shelf = book(HOUSEHOLD);
    let cut = |day: i8, grams: f64| logbook::Entry {
        at: jiff::civil::date(2026, 5, day).at(10, 0, 0, 0).in_tz("UTC").unwrap(),
        what: logbook::What::Trim { wet_grams: Some(grams) },
        note: String::new(),
    };
    assert!(!get(&mut shelf, &format!("{PAGE}?measure=trimmings")).contains("work it out with them"));
    shelf.log(1).unwrap().add(vec![cut(1, 200.0), cut(15, 30.0), cut(29, 50.0)]).unwrap();
    let html = get(&mut shelf, &format!("{PAGE}?measure=trimmings"));
    is_sound(&html);
    assert!(html.contains("grams=80&amp;days=28"), "{}", words(&html));
}

/// Only what a protocol writes can be taken: nothing else of the setup by this way.
#[test]
fn nothing_else_is_written_by_it() {
    let mut shelf = book(HOUSEHOLD);
    let before = setup(&shelf).clone();
    post(&mut shelf, PAGE, &[("take", "animals.fish=900;tap.nitrate=1 mg/L NO3;measured.litresx=3 L")]);
    assert_eq!(*setup(&shelf), before);
}

#[test]
fn a_reading_that_is_none_is_said_beside_it() {
    let mut shelf = book(HOUSEHOLD);
    let html = get(&mut shelf, &format!("{PAGE}?measure=litres&grams=a+lot&before=420&after=457"));
    is_sound(&html);
    assert!(html.contains("aria-invalid=\"true\"") && !html.contains("name=\"take\""));
    // More than the glass holds is refused where it stands, and the old number holds.
    let refused = {
        let request = http::Request::post(PAGE)
            .header("content-type", "application/x-www-form-urlencoded")
            .body(format!("revision={}&take=measured.litres%3D300+L", revision(&shelf)).into_bytes())
            .unwrap();
        letters::send(&mut shelf, &request)
    };
    assert_eq!(refused.status(), http::StatusCode::UNPROCESSABLE_ENTITY);
    assert!(words(&String::from_utf8(refused.into_body()).unwrap()).contains("can't hold 300 L"));
}

/// Rule 6 of harm: with animals the page names the most salt before any is weighed.
#[test]
fn rule_6_the_most_salt_stands_before_the_steps() {
    let mut shelf = book(HOUSEHOLD);
    let text = words(&get(&mut shelf, &format!("{PAGE}?measure=litres&before=420")));
    let (most, steps) = (text.find("Weigh at most").unwrap(), text.find("Step by step").unwrap());
    assert!(most < steps && text.contains("At most a tenth of the conductivity a day"));
}
