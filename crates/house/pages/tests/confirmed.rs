//! What a button of a sentence changes: an assumed number that the keeper says is so, a question that is asked once more,
//! and what an edit of another letter leaves to be told.

use crate::common::{Door, HOUSEHOLD, QUESTION, text};
use quantity::{Ion, Kind};
use setup::Book;

const SALTS: &str = "/tank/1/salts";
const TANK: &str = "/tank/1/tank";
const TAP: &str = "/tank/1/tap";

fn written(door: &Door, field: &str) -> Option<String> {
    door.setup().written(field)
}

#[test]
fn every_assumed_number_has_its_blank_and_a_button_that_makes_it_the_keepers_own() {
    for household in ["", HOUSEHOLD] {
        let mut door = Door::open(household, "/");
        let page = door.page(TANK);
        for assumed in door.setup().tank().unwrap().assumed {
            let number = setup::field_of(&assumed.field).is_some_and(|field| !field.takes.unit().is_empty());
            assert!(!number || page.contains(&format!("name=\"{}\"", assumed.field)), "no blank: {}", assumed.field);
            assert!(!number || page.contains(&format!("name=\"so\" value=\"{}\"", assumed.field)), "{}", assumed.field);
        }
    }
}

#[test]
fn an_assumed_number_that_is_so_is_measured_and_the_way_back_is_offered() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let kind = |door: &Door| door.setup().tank().unwrap().temperature_c.kind;
    assert_ne!(kind(&door), Kind::Measured);
    let page = door.rewrite(TANK, &[("revision", "1"), ("tank.temperature", "24"), ("so", "tank.temperature")]);
    assert_eq!(written(&door, "tank.temperature").as_deref(), Some("24 °C"));
    assert_eq!(kind(&door), Kind::Measured);
    assert!(page.contains("(was assumed; ") && page.contains("value=\"tank.temperature@1\""));
    assert!(!page.contains("name=\"so\" value=\"tank.temperature\""), "it is asked no more");
    door.rewrite(TANK, &[("revision", "2"), ("undo", "tank.temperature@1")]);
    assert_eq!(written(&door, "tank.temperature"), None);
}

#[test]
fn what_was_typed_over_holds_as_typed_whichever_button_was_pressed() {
    let mut door = Door::open(HOUSEHOLD, "/");
    door.rewrite(TANK, &[("revision", "1"), ("tank.temperature", "26"), ("so", "tank.temperature")]);
    assert_eq!(written(&door, "tank.temperature").as_deref(), Some("26 °C"));
    // What is told already, and what is no blank, is left alone.
    door.rewrite(TANK, &[("revision", "2"), ("so", "tank.temperature glass.inner_length no.such")]);
    assert_eq!(door.book().revision(), 2);
}

#[test]
fn the_guessed_glass_becomes_the_keepers_own_by_one_button() {
    let mut door = Door::open("[animals]\nfish = 6\n", "/");
    // The glass is asked by the recipe, not by the plan made by hand: the letter Tank has the same blanks.
    let page = door.page(TANK);
    let sides = ["glass.inner_length", "glass.inner_width", "glass.inner_height"];
    assert!(sides.iter().all(|side| page.contains(&format!("name=\"{side}\""))));
    door.rewrite(TANK, &[("revision", "1"), ("so", &sides.join(" "))]);
    let assumed = door.setup().tank().unwrap().assumed;
    assert!(!assumed.iter().any(|assumed| sides.contains(&assumed.field.as_str())));
}

#[test]
fn an_answered_question_is_told_on_top_and_asked_again_by_a_button() {
    let mut door = Door::open(QUESTION, "/");
    let page = door.rewrite(SALTS, &[("revision", "1"), ("reply", "tap.nitrate=no3")]);
    let told = page.split("<div class=\"told\"").nth(1).unwrap().split("</div>").next().unwrap();
    assert!(told.contains("Nitrate in your tap water: <b>") && told.contains("mg/L as NO₃</b>"), "{told}");
    assert!(told.contains("value=\"tap.nitrate@1\">ask me again<"), "{told}");
    assert!(!door.page(SALTS).contains("<div class=\"told\""), "and at the next visit no more");
    // Read as N it is far from usual, so its blank stands on this letter, and the way back with it.
    let mut door = Door::open(QUESTION, "/");
    let page = door.rewrite(SALTS, &[("revision", "1"), ("reply", "tap.nitrate=n")]);
    assert!(page.contains("value=\"tap.nitrate@1\">ask me again<") && !page.contains("<div class=\"told\""), "{page}");
}

#[test]
fn what_a_number_is_counted_as_is_asked_again_from_its_own_letter() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = door.page(TAP);
    assert!(page.contains("name=\"again\" value=\"tap.nitrate\""));
    assert!(!page.contains("name=\"again\" value=\"tap.sulfate\""), "sulfate is counted in one way");
    let page = door.rewrite(TAP, &[("revision", "1"), ("again", "tap.nitrate")]);
    assert_eq!(written(&door, "tap.nitrate").as_deref(), Some("14 mg/L"));
    assert!(page.contains("Still open."), "{page}");
    assert!(!page.contains("name=\"again\""), "one question at a time");
    door.rewrite(TAP, &[("revision", "2"), ("reply", "tap.nitrate=no3")]);
    assert_eq!(door.setup().tank().unwrap().tap.mg_per_l(Ion::Nitrate).value, 14.0);
}

#[test]
fn nothing_is_asked_again_that_was_no_such_question() {
    let mut door = Door::open(HOUSEHOLD, "/");
    for field in ["tap.sulfate", "tap.iron", "glass.inner_length", "tank.name", "no.such"] {
        door.rewrite(TAP, &[("revision", "1"), ("again", field)]);
        assert_eq!(door.book().revision(), 1, "{field}");
    }
}

#[test]
fn an_edit_of_another_letter_is_told_where_its_blank_does_not_stand() {
    let mut door = Door::open(HOUSEHOLD, "/");
    door.rewrite(TANK, &[("revision", "1"), ("tank.name", "Upstairs <b>")]);
    let page = door.page("/tank/1/salts?was=1");
    assert!(page.contains("The tank’s name: ") || page.contains("The tank's name: "));
    assert!(page.contains("Upstairs &lt;b&gt;") && page.contains("value=\"tank.name@1\""));
    let page = door.page("/tank/1/tank?was=1");
    assert_eq!(page.matches("value=\"tank.name@1\"").count(), 1, "once, beside its blank");
}

#[test]
fn a_bottle_that_is_settled_otherwise_still_shows_the_blank() {
    let mut door = Door::open(HOUSEHOLD, "/");
    let page = door.page(SALTS);
    assert_eq!(page.matches("your bottle holds").count(), 0, "where they agree the blank itself stands in the step");
    // The plan made by hand follows the setup; a bottle of the recipe's own is tried in `against_the_recipe`.
    assert!(page.contains("name=\"at_hand.bottle\""));
    let response = door.get("/tank/1/salts");
    assert!(text(&response).contains("again after"));
}

#[test]
fn a_change_a_day_reads_as_people_say_it() {
    let daily = HOUSEHOLD.replace("every = \"7 days\"", "every = \"1 day\"");
    for page in [SALTS, TANK, TAP] {
        let page = Door::open(&daily, "/").page(page);
        assert!(!page.contains("every 1\u{a0}day") && !page.contains("every 1 day"));
        assert!(!page.contains("value=\"1\"") || page.contains("\u{a0}day"), "no `1 days`");
        assert!(!page.contains("1\u{a0}days"));
    }
}
