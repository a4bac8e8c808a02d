//! The letters on paper: how many sheets, what stands on them, and no label cut over two.

use std::path::Path;

use crate::browser::{QUESTION, empty_book, house, wait};
use crate::driver::{Browser, Tools};
use crate::paper::{Printed, close};

/// Name, width and height in cm: ISO 216, and ANSI/ASME Y14.1 (8.5 by 11 inches of 2.54 cm).
const PAPERS: [(&str, f64, f64); 2] = [("A4", 21.0, 29.7), ("Letter", 21.59, 27.94)];

/// The page at an address, printed on each paper.
fn printed(browser: &Browser, address: &str) -> Vec<(&'static str, Vec<Printed>)> {
    browser.goto(address);
    PAPERS.into_iter().map(|(name, wide, tall)| (name, on(browser, address, name, wide, tall))).collect()
}

fn on(browser: &Browser, address: &str, name: &str, wide: f64, tall: f64) -> Vec<Printed> {
    let pdf = browser.print(wide, tall);
    if let Some(folder) = std::env::var_os("TAPMERE_SHOTS") {
        let page = address.split('/').skip(3).collect::<Vec<_>>().join("-");
        std::fs::write(Path::new(&folder).join(format!("{page}-{name}.pdf")), &pdf).unwrap();
    }
    let sheets = Printed::read(&pdf);
    for sheet in &sheets {
        let off = (sheet.wide - 10.0 * wide).abs().max((sheet.tall - 10.0 * tall).abs());
        assert!(off < 1.0, "{name}: the sheet is {} by {} mm", sheet.wide, sheet.tall);
        assert_eq!(sheet.outside(9.0), Vec::<&str>::new(), "{address} on {name}: letters run off the sheet");
        assert!(!sheet.text().is_empty(), "{address} on {name}: an empty sheet");
    }
    sheets
}

/// The texts of what a selector finds on the screen.
fn texts(browser: &Browser, selector: &str) -> Vec<String> {
    let found = browser.run(&format!("return [...document.querySelectorAll('{selector}')].map(e => e.textContent)"));
    found.as_array().unwrap().iter().map(|text| text.as_str().unwrap().to_owned()).collect()
}

#[test]
fn each_label_stands_whole_on_the_last_sheet_of_the_salts_letter() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    for (paper, sheets) in printed(&browser, &format!("{at}/tank/1/salts")) {
        let labels = texts(&browser, ".label");
        assert!(labels.len() >= 2, "a bottle and the conditioner: {labels:?}");
        let last = sheets.last().unwrap();
        for label in &labels {
            assert!(last.says(label), "{paper}: `{label}` is not whole on one sheet: {}", last.text());
        }
        assert!(!last.says("What I left out"), "{paper}: the labels have a sheet of their own");
        assert!(sheets.len() <= 6, "{paper}: {} sheets", sheets.len());
    }
}

#[test]
fn the_list_to_buy_has_packs_prices_and_room_for_what_was_paid() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    for (paper, sheets) in printed(&browser, &format!("{at}/tank/1/salts")) {
        let rows = texts(&browser, "[aria-label=\"Shopping list\"] tbody th");
        let list = sheets.iter().find(|sheet| rows.iter().all(|row| sheet.says(row)));
        let list = list.unwrap_or_else(|| panic!("{paper}: the list is cut over two sheets"));
        for words in ["paid", "______", "together", "a month", "lasts"] {
            assert!(list.says(words), "{paper}: {words}");
        }
    }
}

#[test]
fn paper_holds_the_answer_and_the_cautions_and_leaves_out_what_only_a_screen_can_do() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    for key in ["tap", "salts", "tank"] {
        for (paper, sheets) in printed(&browser, &format!("{at}/tank/1/{key}")) {
            let all: String = sheets.iter().map(Printed::text).collect();
            for words in texts(&browser, "main h1, main h2:not(.on-screen):not(.on-screen *)") {
                assert!(all.contains(&close(&words)), "{key} on {paper}: {words}");
            }
            // Where chlorine begins to harm: with the dose, on each letter that gives one.
            assert!(key == "tank" || all.contains(&close("0.02 mg/L")), "{key} on {paper}");
            for words in ["Rewrite the letter", "Skip to the letter", "All pages", "undo", "say that it is so"] {
                assert!(!all.contains(&close(words)), "{key} on {paper}: {words}");
            }
        }
    }
}

#[test]
fn an_open_question_is_printed_with_its_outcomes_and_no_label() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&QUESTION);
    let browser = Browser::open(&tools);
    for (paper, sheets) in printed(&browser, &format!("{at}/tank/1/salts")) {
        let all: String = sheets.iter().map(Printed::text).collect();
        for words in texts(&browser, ".reply b") {
            assert!(all.contains(&close(&words)), "{paper}: {words}");
        }
        assert!(!all.contains(&close(
            "Never in a drinks bottle. Keep from children. Swallowed or in the eye: rinse, and call"
        )));
    }
}

#[test]
fn help_now_hangs_by_the_tank_on_one_sheet() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, _house, at) = empty_book();
    let browser = Browser::open(&tools);
    browser.goto(&at);
    wait(&browser, "true");
    for (paper, sheets) in printed(&browser, &format!("{at}/help-now")) {
        let first = &sheets[0];
        for words in texts(&browser, ".notice > ol h2") {
            assert!(first.says(&words), "{paper}: the notice itself is one sheet: {words}");
        }
    }
}
