//! Every page and every state of a letter, looked at in every sight.

use crate::browser::{QUESTION, empty_book, house, type_over, wait};
use crate::driver::{Browser, ENTER, Tools};
use crate::sights::{SIGHTS, complaints, front};

/// What is wrong with the pages at these addresses.
fn all_of(browser: &Browser, tools: &Tools, pages: &[String]) -> Vec<String> {
    let look = |page: &String| {
        browser.goto(page);
        complaints(browser, &tools.axe, page, &SIGHTS)
    };
    pages.iter().flat_map(look).collect()
}

fn none(wrong: &[String]) {
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn axe_finds_nothing_on_the_pages_of_the_demo() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    none(&all_of(&browser, &tools, &front(&browser, &at)));
}

#[test]
fn axe_finds_nothing_in_any_state_of_a_letter() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    let at = |path: &str| format!("{at}{path}");
    // No such page; a note asked for by its address.
    let mut wrong = all_of(&browser, &tools, &[at("/no-such-page"), at("/tank/1/salts?why=c")]);
    // Just changed: by the module, and as the address that it leaves says it.
    browser.goto(&at("/tank/1/salts"));
    type_over(&browser, "at_hand.bottle", "500");
    browser.press(ENTER);
    wait(&browser, "!!document.querySelector('main .changed')");
    wrong.extend(complaints(&browser, &tools.axe, "x/x/x/changed", &SIGHTS));
    // Far from usual, and told on top of a letter that has no such blank.
    browser.goto(&at("/tank/1/tank"));
    type_over(&browser, "animals.snails", "900");
    browser.press(ENTER);
    wait(&browser, "!!document.querySelector('main .changed')");
    let query = browser.run("return location.search");
    wrong.extend(all_of(&browser, &tools, &[at(&format!("/tank/1/salts{}", query.as_str().unwrap()))]));
    // Not taken: the answer is 422.
    browser.goto(&at("/tank/1/tank"));
    type_over(&browser, "glass.thickness", "-5");
    browser.press(ENTER);
    wait(&browser, "!!document.querySelector('main .fault')");
    wrong.extend(complaints(&browser, &tools.axe, "x/x/x/refused", &SIGHTS));
    none(&wrong);
}

#[test]
fn axe_finds_nothing_while_a_question_is_open() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&QUESTION);
    let browser = Browser::open(&tools);
    let letters = ["tap", "salts", "tank"].map(|key| format!("{at}/tank/1/{key}"));
    let mut wrong = all_of(&browser, &tools, &letters);
    // "I don't know": whom to ask, and the question still on top.
    wrong.extend(all_of(&browser, &tools, &[format!("{at}/tank/1/salts?unknown=tap.nitrate")]));
    none(&wrong);
}

#[test]
fn axe_finds_nothing_on_the_first_visit() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, _house, at) = empty_book();
    let browser = Browser::open(&tools);
    browser.goto(&at);
    assert_eq!(browser.address(), format!("{at}/first"));
    let mut wrong = complaints(&browser, &tools.axe, "x/x/x/empty-first", &SIGHTS);
    wrong.extend(all_of(&browser, &tools, &[format!("{at}/help-now"), format!("{at}/no-such-page")]));
    // Something that is not taken.
    browser.goto(&at);
    type_over(&browser, "glass.outer_length", "a lot");
    browser.press(ENTER);
    wait(&browser, "!!document.querySelector('.really')");
    wrong.extend(complaints(&browser, &tools.axe, "x/x/x/first-refused", &SIGHTS));
    // Knowing nothing: a letter of guesses.
    browser.goto(&at);
    browser.click("main .send");
    wait(&browser, "location.pathname === '/tank/1/salts'");
    wrong.extend(complaints(&browser, &tools.axe, "x/x/x/knows-nothing-salts", &SIGHTS));
    wrong.extend(all_of(&browser, &tools, &["tap", "tank"].map(|key| format!("{at}/tank/1/{key}"))));
    none(&wrong);
}
