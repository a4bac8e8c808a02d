//! Acts: a button of a letter that writes into the logbook, with the blanks of the same form, and the way back.

use crate::common::{Door, HOUSEHOLD, text};
use logbook::Filter;
use setup::{Book, Shelf};

const LOG: &str = "/tank/1/log";

fn notes(door: &mut Door) -> Vec<String> {
    let kept = door.shelf.log(1).unwrap().list(&Filter::default()).unwrap();
    kept.into_iter().map(|kept| kept.entry.note).collect()
}

/// Where a form led.
fn sent(door: &mut Door, fields: &[(&str, &str)]) -> String {
    let response = door.post(LOG, fields);
    assert_eq!(response.status(), 303, "{}", text(&response));
    response.headers()["location"].to_str().unwrap().to_owned()
}

#[test]
fn an_act_writes_into_the_log_and_is_taken_back_and_done_again() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let to = sent(&mut door, &[("revision", "1"), ("log-with-note", "A leaf is yellow"), ("act", "add words")]);
    assert_eq!((to.as_str(), notes(&mut door)), ("/tank/1/log?wrote=1", vec!["A leaf is yellow".to_owned()]));
    let page = door.page(&to);
    assert!(page.contains("A leaf is yellow") && page.contains("name=\"act\" value=\"undo@1\""), "{page}");
    assert_eq!(door.book().revision(), 1, "the setup was not touched");

    let to = sent(&mut door, &[("revision", "1"), ("act", "undo@1")]);
    assert_eq!((to.as_str(), notes(&mut door).len()), ("/tank/1/log?undone=1", 0));
    assert!(door.page(&to).contains("value=\"redo@1\""));
    let to = sent(&mut door, &[("revision", "1"), ("act", "redo@1")]);
    assert_eq!((to.as_str(), notes(&mut door).len()), ("/tank/1/log?wrote=1", 1));
}

#[test]
fn a_button_pressed_twice_takes_back_one_entry() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for note in ["one", "two"] {
        sent(&mut door, &[("revision", "1"), ("log-with-note", note), ("act", "add words")]);
    }
    for _ in 0..2 {
        sent(&mut door, &[("revision", "1"), ("act", "undo@2")]);
        assert_eq!(notes(&mut door), ["one"]);
    }
    for _ in 0..2 {
        sent(&mut door, &[("revision", "1"), ("act", "redo@2")]);
        assert_eq!(notes(&mut door), ["two", "one"]);
    }
}

/// A double press sends one form twice; the letter that comes back knows of what was written, so its form means another.
#[test]
fn a_button_pressed_twice_writes_one_entry() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let seen = |page: &str| {
        let field = page.split("name=\"seen\" value=\"").nth(1).unwrap();
        field.split('"').next().unwrap().to_owned()
    };
    for (written, text) in ["0.2 g", "0.2 g", "0.3 g"].into_iter().enumerate() {
        let seen = seen(&door.page(LOG));
        let form = [("revision", "1"), ("seen", &seen), ("log-food-amount", text), ("act", "add food")];
        for _ in 0..2 {
            sent(&mut door, &form);
            assert_eq!(notes(&mut door).len(), written + 1);
        }
    }
    // What was taken back may be written again by the same form.
    let form = [("revision", "1"), ("seen", "3"), ("log-with-note", "again"), ("act", "add words")];
    sent(&mut door, &form);
    sent(&mut door, &[("revision", "1"), ("act", "undo@4")]);
    sent(&mut door, &form);
    assert_eq!(notes(&mut door).len(), 4);
    let start = "/tank/1/start";
    let seen = seen(&door.page(start));
    for _ in 0..2 {
        assert_eq!(door.post(start, &[("revision", "1"), ("seen", &seen), ("act", "set_up")]).status(), 303);
    }
    assert_eq!(notes(&mut door).len(), 5);
}

#[test]
fn a_blank_typed_over_in_the_same_form_is_kept() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let form = [("revision", "1"), ("habits.change", "30"), ("log-with-note", "cut"), ("act", "add words")];
    let to = sent(&mut door, &form);
    assert_eq!(to, "/tank/1/log?was=1&wrote=1");
    assert_eq!(door.setup().written("habits.change").as_deref(), Some("30 %"));
    assert_eq!(notes(&mut door), ["cut"]);
}

#[test]
fn an_act_waits_where_a_blank_was_refused() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let response = door.post(
        LOG,
        &[("revision", "1"), ("habits.change", "plenty"), ("log-with-note", "a cut <b>"), ("act", "add words")],
    );
    assert_eq!((response.status().as_u16(), notes(&mut door).len()), (422, 0));
    assert!(text(&response).contains("value=\"a cut &lt;b&gt;\""), "what was typed stays: {}", text(&response));
}

#[test]
fn an_act_that_is_refused_says_why_and_keeps_what_was_typed() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let response = door.post(LOG, &[("revision", "1"), ("log-with-note", "  "), ("act", "add words")]);
    assert_eq!((response.status().as_u16(), notes(&mut door).len()), (422, 0));
    assert!(text(&response).contains("here is nothing to write"));
    // An act that no letter knows, and one of a letter that has none.
    sent(&mut door, &[("revision", "1"), ("act", "sing")]);
    assert_eq!(door.post("/tank/1/tap", &[("revision", "1"), ("act", "add words")]).status(), 303);
    assert_eq!(notes(&mut door).len(), 0);
}
