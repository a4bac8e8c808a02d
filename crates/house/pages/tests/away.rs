//! Away as a letter: the absence, the sitter's card, slips of the hand, another tap, the end.

use crate::letters;

use crate::letters::{HOUSEHOLD, QUESTION, book, get, words};

#[test]
fn the_answer_comes_first_and_the_card_has_its_days() {
    let page = get(&mut book(HOUSEHOLD), "/tank/1/away?days=14&leaving=2026-07-01&light=8&do=read");
    let text = words(&page);
    assert!(text.contains("14 days away: 6 hours of light, no dose, four small meals"), "{text}");
    assert!(text.contains("Saturday, 4 July"), "{text}");
    assert!(page.contains("class=\"sitter\"") && text.contains("don't touch them before the power is off"));
    let text = words(&get(&mut book(HOUSEHOLD), "/tank/1/away?days=4"));
    assert!(text.contains("Four days away") && text.contains("Nobody needs to look in"), "{text}");
    let text = words(&get(&mut book(HOUSEHOLD), "/tank/1/away?days=soon&leaving=tomorrow"));
    assert!(text.contains("“soon” I can’t read") && text.contains("“tomorrow” I can’t read"), "{text}");
}

#[test]
fn a_missed_and_a_doubled_dose_are_worked_out() {
    let text = words(&get(&mut book(HOUSEHOLD), "/tank/1/away?missed=3&times=10"));
    assert!(text.contains("never what was missed on top of it"), "{text}");
    assert!(text.contains("Lower by 1.6 mg/L K") && text.contains("Leave this bottle out for nine days"), "{text}");
}

/// What can't be answered for is refused beside its field; nothing is cut to what can.
#[test]
fn a_number_beyond_what_can_be_answered_is_told_and_not_cut() {
    let text = words(&get(&mut book(HOUSEHOLD), "/tank/1/away?days=200"));
    assert!(
        text.contains("So long an absence I can’t plan: 1 to 28 days") && !text.contains("28 days away:"),
        "{text}"
    );
    assert!(text.contains("“200” I did not take, and reckon without it: I can answer for 1 to 28"), "{text}");
    let text = words(&get(&mut book(HOUSEHOLD), "/tank/1/away?times=5000&missed=90"));
    assert!(text.contains("“5000” I did not take") && text.contains("“90” I did not take"), "{text}");
    assert!(text.contains("I gave far too much from a bottle"), "{text}");
}

#[test]
fn another_tap_is_typed_and_not_kept() {
    let mut shelf = book(HOUSEHOLD);
    let text = words(&get(
        &mut shelf,
        "/tank/1/away?tap_alkalinity=1.1+%C2%B0dH&tap_hardness=1.5+%C2%B0dH&tap_nitrate=2+mg/L+NO3",
    ));
    assert!(text.contains("Go over in small changes") && text.contains("Old water along"), "{text}");
    // Nothing is worked out on a basis that nobody told.
    let text = words(&get(&mut shelf, "/tank/1/away?tap_nitrate=12+mg/L"));
    assert!(text.contains("what it is counted as") && !text.contains("Old water along"), "{text}");
    let text = words(&get(&mut shelf, "/tank/1/away?tap_alkalinity=a+lot"));
    assert!(
        text.contains(
            "The alkalinity of your tap water: `a lot` has no number in it. I expected an amount with its unit"
        ),
        "{text}"
    );
    assert_eq!(letters::revision(&shelf), 1);
}

#[test]
fn an_end_never_releases() {
    let text = words(&get(&mut book(HOUSEHOLD), "/tank/1/away"));
    assert!(text.contains("Never release a plant or an animal") && text.contains("household waste"), "{text}");
}

#[test]
fn an_open_question_stands_on_top() {
    let text = words(&get(&mut book(QUESTION), "/tank/1/away"));
    assert!(text.contains("Still open."), "{text}");
}

#[test]
fn the_hours_of_light_stand_on_tank_and_count_on_start_and_away() {
    let mut shelf = book(HOUSEHOLD);
    assert!(get(&mut shelf, "/tank/1/tank").contains("name=\"light.hours\" value=\"8\""));
    let page = letters::post(&mut shelf, "/tank/1/tank", &[("light.hours", "10")]);
    assert!(page.contains("name=\"light.hours\" value=\"10\""), "{page}");
    assert!(get(&mut shelf, "/tank/1/away").contains("name=\"light\" value=\"10\""));
    let away = words(&get(&mut shelf, "/tank/1/away"));
    assert!(away.contains("6 hours instead of 10"), "{away}");
    let start = words(&get(&mut shelf, "/tank/1/start"));
    assert!(start.contains("10 in the end"), "{start}");
}
