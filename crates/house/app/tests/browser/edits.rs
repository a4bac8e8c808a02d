//! Edits as a keeper makes them: with and without the module, beside an open question, in two tabs, by the buttons of the
//! browser. Whatever was typed and sent is in the book, once.

use serde_json::json;

use crate::browser::{QUESTION, blank, browser, empty_book, house, type_over, wait};
use crate::driver::{Browser, ENTER, TAB, Tools};
use crate::sights::{DAY, complaints, look};

const SALTS: &str = "/tank/1/salts";

/// The blank shows this, and the letter is the server's answer: whatever was typed is typed no more.
fn shows(browser: &Browser, name: &str, text: &str) {
    wait(
        browser,
        &format!(
            "(b => b && b.value === '{text}' && b.defaultValue === '{text}')(document.querySelector('[name=\"{name}\"]'))"
        ),
    );
}

/// The book has these texts: a fresh look at the letters says so.
fn kept(browser: &Browser, at: &str, texts: &[(&str, &str)]) {
    browser.goto(&format!("{at}{SALTS}"));
    for (name, text) in texts {
        assert_eq!(blank(browser, name), json!(text), "{name}");
    }
}

#[test]
fn a_blank_that_is_typed_over_rewrites_the_letter_and_can_be_undone_with_and_without_the_module() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_house, at) = house(&["demo"]);
        let browser = browser(&tools, scripts);
        browser.goto(&format!("{at}{SALTS}"));
        let live = browser.run("return document.documentElement.classList.contains('live')");
        assert_eq!(live, json!(scripts), "whether the module runs");
        type_over(&browser, "at_hand.bottle", "500");
        browser.press(ENTER);
        shows(&browser, "at_hand.bottle", "500");
        assert_eq!(browser.run("return !!document.querySelector('main mark')"), json!(true), "what moved is marked");
        kept(&browser, &at, &[("at_hand.bottle", "500")]);
        browser.goto(&format!("{at}{SALTS}?was=1"));
        browser.run("document.querySelector('main button[name=undo]').focus()");
        browser.press(ENTER);
        shows(&browser, "at_hand.bottle", "300");
    }
}

#[test]
fn a_question_that_is_answered_takes_the_unsaved_edits_along() {
    let Some(tools) = Tools::find() else { return };
    for (scripts, by_hand) in [(true, true), (true, false), (false, true), (false, false)] {
        let (_house, at) = house(&QUESTION);
        let browser = browser(&tools, scripts);
        browser.goto(&format!("{at}{SALTS}"));
        type_over(&browser, "at_hand.bottle", "500");
        if by_hand {
            browser.click("main button.reply");
        } else {
            browser.run("document.querySelector('main button.reply').focus()");
            browser.press(ENTER);
        }
        wait(&browser, "!document.querySelector('main .question') && !!document.querySelector('main .changed')");
        shows(&browser, "at_hand.bottle", "500");
        kept(&browser, &at, &[("at_hand.bottle", "500")]);
        // And it can be asked again, where the answer is told.
        browser.goto(&format!("{at}{SALTS}?was=1"));
        browser.click("main .told button.again");
        wait(&browser, "!!document.querySelector('main .question')");
        kept(&browser, &at, &[("at_hand.bottle", "500")]);
    }
}

#[test]
fn two_tabs_keep_both_edits_and_the_later_one_says_so() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_house, at) = house(&["demo"]);
        let browser = browser(&tools, scripts);
        browser.goto(&format!("{at}{SALTS}"));
        let first = browser.new_tab();
        browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": !scripts }));
        browser.goto(&format!("{at}{SALTS}"));
        type_over(&browser, "at_hand.bottle", "500");
        browser.press(ENTER);
        shows(&browser, "at_hand.bottle", "500");
        browser.turn_to(&first);
        type_over(&browser, "at_hand.bucket", "8");
        browser.press(ENTER);
        shows(&browser, "at_hand.bucket", "8");
        assert_eq!(blank(&browser, "at_hand.bottle"), json!("500"), "the other tab's edit is not overwritten");
        let told = browser.run("return document.querySelector('main .told').textContent");
        assert!(told.as_str().unwrap().contains("older than the book"), "{told}");
        kept(&browser, &at, &[("at_hand.bottle", "500"), ("at_hand.bucket", "8")]);
    }
}

#[test]
fn the_back_button_leads_to_a_letter_that_still_takes_edits_and_loses_none() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_house, at) = house(&["demo"]);
        let browser = browser(&tools, scripts);
        browser.goto(&format!("{at}/tank/1/tap"));
        browser.goto(&format!("{at}{SALTS}"));
        type_over(&browser, "at_hand.bottle", "500");
        browser.press(ENTER);
        shows(&browser, "at_hand.bottle", "500");
        browser.back();
        // Without the module the letter as it was; with it, which rewrites in place, the page before.
        if scripts {
            wait(&browser, "location.pathname === '/tank/1/tap'");
            browser.goto(&format!("{at}{SALTS}"));
        } else {
            wait(&browser, &format!("location.pathname === '{SALTS}' && location.search === ''"));
        }
        type_over(&browser, "at_hand.bucket", "8");
        browser.press(ENTER);
        shows(&browser, "at_hand.bucket", "8");
        kept(&browser, &at, &[("at_hand.bottle", "500"), ("at_hand.bucket", "8")]);
    }
}

#[test]
fn a_page_that_is_loaded_again_after_a_form_changes_nothing_twice_and_loses_nothing() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_house, at) = house(&["demo"]);
        let browser = browser(&tools, scripts);
        browser.goto(&format!("{at}{SALTS}"));
        type_over(&browser, "at_hand.bottle", "500");
        browser.press(ENTER);
        shows(&browser, "at_hand.bottle", "500");
        browser.reload();
        shows(&browser, "at_hand.bottle", "500");
        let revision = blank(&browser, "revision");
        // One text that is taken and one that is not: the answer to the form itself is shown, and sent again.
        type_over(&browser, "at_hand.bucket", "8");
        browser.run("document.querySelector('[name=\"habits.change\"]').focus()");
        if scripts {
            shows(&browser, "at_hand.bucket", "8");
        }
        type_over(&browser, "habits.change", "a lot");
        browser.press(ENTER);
        wait(&browser, "!!document.querySelector('main .fault')");
        shows(&browser, "at_hand.bucket", "8");
        for _ in 0..2 {
            browser.reload();
            wait(&browser, "!!document.querySelector('main .blank')");
        }
        kept(&browser, &at, &[("at_hand.bottle", "500"), ("at_hand.bucket", "8"), ("habits.change", "40")]);
        let later = blank(&browser, "revision").as_str().unwrap().parse::<u64>().unwrap();
        assert_eq!(later, revision.as_str().unwrap().parse::<u64>().unwrap() + 1, "each text was written once");
    }
}

#[test]
fn who_leaves_by_a_link_leaves_nothing_behind() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = browser(&tools, true);
    browser.goto(&format!("{at}{SALTS}"));
    look(&browser, &DAY);
    type_over(&browser, "at_hand.bottle", "500");
    browser.click(".letterhead a[href$='/tap']");
    wait(&browser, "location.pathname === '/tank/1/tap'");
    let bottle = format!(
        "fetch('{SALTS}').then(r => r.text()).then(t => arguments[arguments.length - 1](t.includes('name=\"at_hand.bottle\" value=\"500\"')))"
    );
    let began = std::time::Instant::now();
    while browser.run_async(&bottle) != json!(true) {
        assert!(began.elapsed().as_secs() < 15, "the edit was lost on the way");
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
}

#[test]
fn a_guess_that_is_so_becomes_measured_by_its_button() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_house, at) = house(&["demo"]);
        let browser = browser(&tools, scripts);
        browser.goto(&format!("{at}/tank/1/tank"));
        let line = "[name=\"glass.fill_below_rim\"].measured";
        assert_eq!(browser.run(&format!("return !!document.querySelector('{line}')")), json!(false));
        browser.click("button[name=so][value='glass.fill_below_rim']");
        wait(&browser, &format!("!!document.querySelector('{line}')"));
        let was = browser.run("return document.querySelector('main .changed').textContent");
        assert!(was.as_str().unwrap().contains("was assumed"), "{was}");
    }
}

/// Answers the questions by keys alone and goes on to the letter, with and without the module.
#[test]
fn the_first_visit_is_answered_by_keyboard_and_leads_to_the_letter() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_folder, _house, at) = empty_book();
        let browser = browser(&tools, scripts);
        browser.goto(&at);
        type_over(&browser, "tap.nitrate", "14");
        // Leaving a number sends nothing yet: the questions are sent whole.
        browser.press(TAB);
        let numbers = [
            ("glass.outer_length", "60"),
            ("glass.outer_width", "30"),
            ("glass.outer_height", "36"),
            ("animals.fish", "12"),
        ];
        for (field, number) in numbers {
            type_over(&browser, field, number);
        }
        assert_eq!(browser.address(), format!("{at}/first"));
        browser.press(ENTER);
        wait(&browser, "location.pathname === '/tank/1/salts'");
        wait(&browser, "!!document.querySelector('main .told')");
        let told = browser.run("return document.querySelector('.told').textContent");
        assert!(told.as_str().unwrap().contains("things I assumed"), "{told}");
        // The nitrate has no basis yet: that is the question on top.
        assert_eq!(browser.run("return !!document.querySelector('[name=reply]')"), json!(true));
        if scripts {
            let found = complaints(&browser, &tools.axe, "x/x/x/first-letter", &[DAY]);
            assert!(found.is_empty(), "{}", found.join("\n"));
        }
        browser.goto(&format!("{at}/tank/1/tank"));
        assert_eq!(blank(&browser, "animals.fish"), json!("12"));
    }
}
