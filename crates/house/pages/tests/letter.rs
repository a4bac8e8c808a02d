//! What a letter that comes back changes: only a text that differs from what its revision showed, blank by blank.

use crate::common;

use crate::common::{Door, HOUSEHOLD, QUESTION, text};
use quantity::Ion;
use recipe::Answer;
use setup::{Book, Setup, Shelf};

const SALTS: &str = "/tank/1/salts";

/// The texts that the letter shows, by field, as a browser would send them.
fn shown(page: &str) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for input in page.split("<input ").skip(1).filter_map(|rest| rest.split('>').next()) {
        let of = |name: &str| {
            let from = input.split_once(&format!(" {name}=\"")).or_else(|| input.split_once(&format!("{name}=\"")))?.1;
            Some(from.split('"').next()?.to_owned())
        };
        if let (Some(name), Some(value)) = (of("name"), of("value")) {
            all.push((name, value));
        }
    }
    all
}

/// The form of a page with one blank typed over.
fn typed<'a>(form: &'a [(String, String)], field: &str, value: &'a str) -> Vec<(&'a str, &'a str)> {
    form.iter().map(|(name, old)| (name.as_str(), if name == field { value } else { old.as_str() })).collect()
}

fn written(door: &Door, field: &str) -> Option<String> {
    door.setup().written(field)
}

#[test]
fn a_letter_sent_back_as_it_came_changes_nothing() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = shown(&door.page(SALTS));
    assert!(form.iter().any(|(name, _)| name == "at_hand.bottle"), "the letter has blanks: {form:?}");
    let response = door.post(SALTS, &typed(&form, "", ""));
    assert_eq!(response.status(), 303);
    assert_eq!(response.headers()["location"], SALTS);
    assert_eq!(door.book().revision(), 1);
    assert_eq!(door.setup().text(), HOUSEHOLD);
}

#[test]
fn a_number_that_was_rounded_or_assumed_is_not_written_because_it_was_sent_along() {
    let fine = HOUSEHOLD.replace("change = \"40 %\"", "change = \"38.7654 %\"");
    let mut door = Door::open(&fine, "/");
    let form = shown(&door.page(SALTS));
    let share = form.iter().find(|(name, _)| name == "habits.change").unwrap();
    assert_eq!(share.1, "38.8");
    door.rewrite(SALTS, &typed(&form, "habits.every", "14"));
    assert_eq!(written(&door, "habits.change").as_deref(), Some("38.7654 %"));
    assert_eq!(written(&door, "at_hand.bottle"), None, "assumed stays assumed");
    assert_eq!(written(&door, "habits.every").as_deref(), Some("14 days"));
}

#[test]
fn a_changed_number_is_written_with_the_unit_of_its_sentence_and_can_be_undone() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = shown(&door.page(SALTS));
    let page = door.rewrite(SALTS, &typed(&form, "at_hand.bottle", " 500 "));
    assert_eq!(written(&door, "at_hand.bottle").as_deref(), Some("500 mL"));
    assert!(page.contains("(was 300; "), "the old number stands beside it");
    assert!(page.contains("value=\"at_hand.bottle@1\""), "and the way back is a button");
    let last = door.book().last_changes();
    assert_eq!((last.len(), last[0].field.as_str()), (1, "at_hand.bottle"));
    door.rewrite(SALTS, &[("revision", "2"), ("undo", "at_hand.bottle@1")]);
    assert_eq!(written(&door, "at_hand.bottle"), None);
    assert_eq!(door.book().revision(), 3, "an undo is a revision of its own");
}

#[test]
fn an_undo_brings_a_range_back_whole() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let setup = door.setup().with("tap.nitrate", "5 mg/L NO3 to 6 mg/L NO3").unwrap();
    door.shelf.open(1).unwrap().write(setup, Vec::new());
    door.rewrite(SALTS, &[("revision", "2"), ("undo", "tap.nitrate@1")]);
    assert_eq!(door.setup().text(), HOUSEHOLD);
}

#[test]
fn an_emptied_blank_is_assumed_again() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = shown(&door.page(SALTS));
    let page = door.rewrite(SALTS, &typed(&form, "habits.change", ""));
    assert_eq!(written(&door, "habits.change"), None);
    assert!(page.contains("(was 40; "));
}

#[test]
fn what_moved_with_a_change_stands_in_a_wash() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = shown(&door.page(SALTS));
    assert!(!door.page(SALTS).contains("<mark>"));
    let page = door.rewrite(SALTS, &typed(&form, "at_hand.bottle", "150"));
    assert!(page.contains("<mark>"), "the days that a bottle lasts have moved");
    assert!(!door.page(SALTS).contains("<mark>"), "and at the next visit nothing is marked");
}

#[test]
fn an_older_letter_is_merged_blank_by_blank_and_that_is_said() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = shown(&door.page(SALTS));
    door.rewrite(SALTS, &typed(&form, "habits.change", "30"));
    let page = door.rewrite(SALTS, &typed(&form, "at_hand.bottle", "500"));
    assert_eq!(written(&door, "habits.change").as_deref(), Some("30 %"), "the older letter's 40 is no change");
    assert_eq!(written(&door, "at_hand.bottle").as_deref(), Some("500 mL"));
    assert!(page.contains("older than the book"));
}

#[test]
fn a_letter_of_no_revision_changes_nothing() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for revision in ["", "0", "7", "-1", "one", "18446744073709551616"] {
        let response = door.post(SALTS, &[("revision", revision), ("habits.change", "30")]);
        assert_eq!(response.status(), 409, "{revision}");
        assert!(text(&response).contains("I changed nothing"));
    }
    assert_eq!(door.book().revision(), 1);
}

#[test]
fn a_refused_text_keeps_the_old_number_and_shows_the_fault_in_plain_words() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = shown(&door.page(SALTS));
    let mut fields = typed(&form, "at_hand.bottle", "a lot");
    fields.iter_mut().filter(|(name, _)| *name == "habits.change").for_each(|field| field.1 = "30");
    let response = door.post(SALTS, &fields);
    assert_eq!(response.status(), 422);
    let page = text(&response);
    let fault = Setup::read("tank.toml", HOUSEHOLD).unwrap().with("habits.change", "30 %").unwrap();
    let faults = fault.with("at_hand.bottle", "a lot").unwrap_err();
    let fault = faults.0.first().unwrap();
    for said in [Some(&fault.what), fault.expected.as_ref(), fault.hint.as_ref()].into_iter().flatten() {
        assert!(page.contains(&said.replace('"', "&quot;")[1..]), "{said}");
    }
    assert!(!page.contains("error:") && !page.contains("field `"), "no words of a machine");
    assert!(page.contains("name=\"at_hand.bottle\" value=\"300\""), "the old number stands");
    assert!(page.contains("aria-invalid=\"true\" aria-describedby=\"about-at-hand-bottle\""));
    assert!(page.contains("id=\"about-at-hand-bottle\""));
    assert_eq!(written(&door, "habits.change").as_deref(), Some("30 %"), "what could be taken was taken");
    assert!(page.contains("name=\"revision\" value=\"2\""), "and the letter goes on from there");
}

#[test]
fn a_number_far_from_usual_is_kept_and_asked_about() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = shown(&door.page(SALTS));
    let page = door.rewrite(SALTS, &typed(&form, "habits.change", "90"));
    assert_eq!(written(&door, "habits.change").as_deref(), Some("90 %"));
    assert!(page.contains("eally?"), "it asks");
}

#[test]
fn a_number_that_stands_twice_may_be_changed_in_either_place_but_not_to_two() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = door.rewrite(SALTS, &[("revision", "1"), ("at_hand.daily", "5"), ("at_hand.daily", "10")]);
    assert_eq!(written(&door, "at_hand.daily").as_deref(), Some("10 mL"));
    assert!(page.contains("(was 5; "));
    let response = door.post(SALTS, &[("revision", "2"), ("at_hand.daily", "3"), ("at_hand.daily", "4")]);
    assert_eq!(response.status(), 422);
    assert!(text(&response).contains("you wrote both 3 and 4"));
    assert_eq!(written(&door, "at_hand.daily").as_deref(), Some("10 mL"));
}

#[test]
fn an_open_question_shows_both_outcomes_and_hangs_no_headline_on_one() {
    let mut door = Door::open(QUESTION, "/");
    let page = door.page(SALTS);
    assert!(page.contains("<h2 id=\"question\">Still open."));
    let headline = page.split("<h1").nth(1).unwrap().split("</h1>").next().unwrap();
    assert!(!headline.contains("Nitrate is left out"), "{headline}");
    let answer = common::answer(door.setup()).unwrap();
    let Answer::Open { question, outcomes } = answer else { panic!("the question is open") };
    assert_eq!(outcomes.len(), 2);
    for reply in &question.replies {
        assert!(page.contains(&format!("value=\"tap.nitrate={}\"", reply.key)), "{}", reply.key);
    }
    assert!(
        page.contains("2 to 4.1\u{a0}mg/L as NO₃ of nitrate") || page.contains("2.0\u{a0}to\u{a0}4.1"),
        "one outcome"
    );
    assert!(page.contains("55\u{a0}to\u{a0}58"), "the other");
    assert!(page.contains("value=\"tap.nitrate=\""), "and `I don’t know`");
}

#[test]
fn the_first_button_of_every_form_rewrites_so_that_enter_never_answers_a_question() {
    for household in [HOUSEHOLD, QUESTION] {
        let mut door = Door::open(household, "/");
        for page in ["tap", "salts", "tank"] {
            let page = door.page(&format!("/tank/1/{page}"));
            let form = page.split("<form").nth(1).unwrap();
            let button = form.split("<button").nth(1).unwrap().split("</button>").next().unwrap();
            assert!(button.contains("value=\"rewrite\""), "{button}");
        }
    }
}

#[test]
fn a_reply_settles_the_question_and_can_be_taken_back() {
    let mut door = Door::open(QUESTION, "/");
    let page = door.rewrite(SALTS, &[("revision", "1"), ("reply", "tap.nitrate=n")]);
    assert!(!page.contains("Still open."));
    let Ok(Answer::Settled { tank, .. }) = common::answer(door.setup()) else { panic!("settled") };
    assert!(tank.tap.mg_per_l(Ion::Nitrate).value > 50.0);
    let page = door.rewrite(SALTS, &[("revision", "2"), ("undo", "tap.nitrate@1")]);
    assert!(page.contains("Still open."));
    assert_eq!(door.setup().text(), QUESTION);
}

#[test]
fn whoever_does_not_know_is_told_whom_to_ask() {
    let mut door = Door::open(QUESTION, "/");
    let page = door.rewrite(SALTS, &[("revision", "1"), ("reply", "tap.nitrate=")]);
    assert!(page.contains("Ask whoever wrote the number"));
    assert!(page.contains("Still open."));
    assert_eq!(door.book().revision(), 1);
}

#[test]
fn a_reply_to_a_question_that_is_settled_changes_nothing() {
    let mut door = Door::open(HOUSEHOLD, "/");
    door.rewrite(SALTS, &[("revision", "1"), ("reply", "tap.nitrate=n")]);
    assert_eq!(door.book().revision(), 1);
}

#[test]
fn the_note_that_was_asked_for_is_open() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = door.page(SALTS);
    assert!(page.contains("<details class=\"why\" id=\"why-a\" open>"), "the first, so that people see what a note is");
    let page = door.page("/tank/1/salts?why=c");
    assert!(page.contains("<details class=\"why\" id=\"why-c\" open>"));
    assert!(page.contains("<details class=\"why\" id=\"why-a\">"));
}

/// The year's report said 8 to 21; the keeper measured something else at the tap.
#[test]
fn a_number_beyond_its_range_widens_the_range() {
    for (typed, end, other) in [("45", "max", ("min", "8")), ("3", "min", ("max", "21"))] {
        let mut door = Door::open(HOUSEHOLD, "/");
        let page = door.rewrite("/tank/1/tap", &[("revision", "1"), ("tap.nitrate", typed)]);
        let written = |field: String| door.setup().written(&field).unwrap_or_default();
        assert_eq!(written("tap.nitrate".to_owned()), format!("{typed} mg/L NO3"));
        assert_eq!(written(format!("tap.nitrate.{end}")), format!("{typed} mg/L NO3"));
        assert_eq!(written(format!("tap.nitrate.{}", other.0)), other.1, "the swing stays reckoned with");
        assert!(
            page.contains("value=\"tap.nitrate@1\"") && page.contains("was 14"),
            "number and range have one way back"
        );
    }
}

#[test]
fn the_last_change_is_taken_back_from_a_letter_opened_later() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for (revision, value) in [("1", "400"), ("2", "500"), ("3", "600")] {
        door.rewrite(SALTS, &[("revision", revision), ("at_hand.bottle", value)]);
    }
    // A fresh letter, days later: no "was" in its address.
    let page = door.page(SALTS);
    assert!(page.contains("value=\"back\""), "the button stands on every letter");
    for (revision, left) in [("4", Some("500 mL")), ("5", Some("400 mL")), ("6", None)] {
        let page = door.rewrite(SALTS, &[("revision", revision), ("do", "back")]);
        assert_eq!(written(&door, "at_hand.bottle").as_deref(), left, "{page}");
        assert!(page.contains("(was "), "what was taken back is marked");
    }
    // Nothing is left, and nothing that was not seen is taken back.
    let end = door.book().revision();
    door.post(SALTS, &[("revision", &end.to_string()), ("do", "back")]);
    assert_eq!(door.book().revision(), end);
    door.rewrite(SALTS, &[("revision", &end.to_string()), ("at_hand.bottle", "450")]);
    door.post(SALTS, &[("revision", &end.to_string()), ("do", "back")]);
    assert_eq!(written(&door, "at_hand.bottle").as_deref(), Some("450 mL"));
    // What was typed beside it is kept.
    let now = door.book().revision().to_string();
    door.rewrite(SALTS, &[("revision", &now), ("at_hand.bottle", "700"), ("do", "back")]);
    assert_eq!(written(&door, "at_hand.bottle").as_deref(), Some("700 mL"));
}
