//! Keyboard alone: Help now first, the way past the head second, everything reached, every stop seen, a whole edit.

use std::collections::BTreeSet;

use serde_json::json;

use crate::browser::{blank, house, wait};
use crate::driver::{Browser, ENTER, TAB, Tools};
use crate::sights::{front, pages};

/// The word of the control that has the focus.
fn focus(browser: &Browser) -> String {
    let word = browser.run("const e = document.activeElement; return e.name || e.textContent.trim()");
    word.as_str().unwrap_or_default().to_owned()
}

#[test]
fn help_now_is_the_first_stop_of_every_page_and_the_way_past_the_head_the_second() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    let mut all = pages(&browser, &at);
    all.push(format!("{at}/no-such-page"));
    for page in all {
        browser.goto(&page);
        browser.press(TAB);
        assert_eq!(focus(&browser), "Help now", "{page}");
        browser.press(TAB);
        assert_eq!(focus(&browser), "Skip to the letter", "{page}");
        browser.press(ENTER);
        assert_eq!(browser.run("return document.activeElement.id"), json!("letter"), "{page}");
    }
}

#[test]
fn a_whole_edit_is_made_by_keys() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_house, at) = house(&["demo"]);
        let browser = crate::browser::browser(&tools, scripts);
        browser.goto(&format!("{at}/tank/1/salts"));
        browser.press(TAB);
        browser.press(TAB);
        browser.press(ENTER);
        for _ in 0..60 {
            if focus(&browser) == "at_hand.bottle" {
                break;
            }
            browser.press(TAB);
        }
        assert_eq!(focus(&browser), "at_hand.bottle");
        browser.press_with_control('a');
        browser.press("500");
        browser.press(ENTER);
        wait(&browser, "!!document.querySelector('main .changed')");
        assert_eq!(blank(&browser, "at_hand.bottle"), json!("500"));
        if scripts {
            assert_eq!(focus(&browser), "at_hand.bottle", "the module gives the place back");
            // The next stop is the way back.
            browser.press(TAB);
            assert_eq!(focus(&browser), "undo");
            browser.press(ENTER);
            wait(&browser, "!document.querySelector('main button[name=undo][value^=\"at_hand.bottle@1\"]')");
            assert_eq!(blank(&browser, "at_hand.bottle"), json!("300"));
        }
    }
}

#[test]
fn everything_is_reached_by_keyboard_alone() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    for page in front(&browser, &at) {
        browser.goto(&page);
        let wanted = browser.run(
            "let n = 0;
             for (const e of document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary'))
               if (e.tabIndex >= 0 && !e.disabled && e.checkVisibility() && !(e.type === 'radio' && !e.checked)) e.dataset.n = n++;
             return n",
        );
        let wanted = wanted.as_u64().unwrap();
        let mut reached = BTreeSet::new();
        let mut unseen = Vec::new();
        // A field of a date has several stops.
        for _ in 0..2 * wanted + 20 {
            if reached.len() as u64 == wanted {
                break;
            }
            browser.press(TAB);
            let focus = browser.run(
                "const e = document.activeElement, s = getComputedStyle(e), p = e.getBoundingClientRect();
                 return [e.dataset.n ?? null, e.outerHTML.slice(0, 80),
                   (s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) > 0) || s.boxShadow !== 'none',
                   p.bottom > 0 && p.top < innerHeight]",
            );
            let Some(n) = focus[0].as_str() else { continue };
            if reached.insert(n.parse::<u64>().unwrap()) && (focus[2] != json!(true) || focus[3] != json!(true)) {
                unseen.push(focus[1].to_string());
            }
        }
        let missed: Vec<u64> = (0..wanted).filter(|n| !reached.contains(n)).collect();
        assert!(missed.is_empty(), "{page}: {} of {wanted} are not reached by Tab: {missed:?}", missed.len());
        assert!(unseen.is_empty(), "{page}: focus is not seen on\n{}", unseen.join("\n"));
    }
}
