//! Care in a real Chromium: accessible in every sight, ticked off by one thumb without script, and its two sheets of paper.
//!
//! Judge: axe-core; the sizes that Chromium draws and prints. Without Chromium or axe-core the tests say "skipped" and pass,
//! as those in `browser.rs` do.

use std::process::Command;

use crate::driver::{Browser, ENTER, Running, Tools, number_after};
use crate::paper::Printed;
use crate::sights::{SIGHTS, complaints};
use serde_json::json;

const SETUPS: [&str; 3] =
    ["examples/household/tank.toml", "examples/household/tank-question.toml", "examples/soil-tank.toml"];

/// Points in a CSS pixel (CSS Values 4: 96 pixels and 72 points an inch).
const POINTS_A_PIXEL: f64 = 0.75;

fn house(setup: &str) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.args(["serve", setup]).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let (running, port) = Running::start(&mut command, |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}/tank/1/care"))
}

fn number(browser: &Browser, script: &str) -> f64 {
    let found = browser.run(script);
    found.as_f64().unwrap_or_else(|| panic!("{script}: {found}"))
}

#[test]
fn care_is_accessible_in_every_sight() {
    let Some(tools) = Tools::find() else { return };
    let mut all = Vec::new();
    for setup in SETUPS {
        let (_house, at) = house(setup);
        let browser = Browser::open(&tools);
        browser.goto(&at);
        let name = setup.replace(['/', '.'], "-");
        all.extend(complaints(&browser, &tools.axe, &name, &SIGHTS));
        // With everything done that can be done.
        const DONE: &str = "document.querySelectorAll('.act.done').length";
        while browser.run("return document.querySelector('button.act') !== null").as_bool().unwrap() {
            let done = number(&browser, &format!("return {DONE}"));
            browser.click("button.act");
            browser.wait(&format!("return document.readyState === 'complete' && {DONE} > {done}"));
        }
        all.extend(complaints(&browser, &tools.axe, &format!("{name}-done"), &SIGHTS));
    }
    assert!(all.is_empty(), "{all:#?}");
}

#[test]
fn one_thumb_ticks_an_act_off_without_script_and_takes_it_back() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(SETUPS[0]);
    let browser = Browser::open(&tools);
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": true }));
    let phone = json!({ "width": 360, "height": 740, "deviceScaleFactor": 1, "mobile": true });
    browser.cdp("Emulation.setDeviceMetricsOverride", phone);
    browser.goto(&at);
    // The whole row is the button: as wide as the letter, as high as a thumb.
    let small = number(
        &browser,
        "return Math.min(...[...document.querySelectorAll('.act')].map(a => a.getBoundingClientRect().height))",
    );
    assert!(small >= 44.0, "{small} px");
    let narrow = number(
        &browser,
        "return Math.min(...[...document.querySelectorAll('.acts .act')].map(a => a.getBoundingClientRect().width))",
    );
    assert!(narrow >= 310.0, "{narrow} px of 360");
    let rows = number(&browser, "return document.querySelectorAll('.acts')[0].children.length");
    browser.click("button[value='done@feed']");
    browser.wait("return document.querySelector('button[value=\"back@feed\"]') !== null");
    assert_eq!(number(&browser, "return document.querySelectorAll('.acts')[0].children.length"), rows);
    let done = browser.run("return document.querySelector('.act.done').innerText").as_str().unwrap().to_owned();
    assert!(done.contains("done, ") && done.contains("Undo"), "{done}");
    // By key: the way back.
    browser.run("document.querySelector('button[value=\"back@feed\"]').focus()");
    browser.press(ENTER);
    browser.wait("return document.querySelector('button[value=\"done@feed\"]') !== null");
}

#[test]
fn the_sheet_for_the_wall_is_one_page_that_is_read_from_two_metres() {
    let Some(tools) = Tools::find() else { return };
    for setup in SETUPS {
        let (_house, at) = house(setup);
        let browser = Browser::open(&tools);
        browser.goto(&at);
        browser.cdp("Emulation.setEmulatedMedia", json!({ "media": "print" }));
        let size = |selector: &str| {
            let script = format!("return parseFloat(getComputedStyle(document.querySelector('{selector}')).fontSize)");
            number(&browser, &script) * POINTS_A_PIXEL
        };
        for selector in [".wall-days li", ".wall-help p"] {
            assert!(size(selector) >= 23.9, "{setup}: {selector} has {} pt", size(selector));
        }
        for selector in [".wall-help .wall-small", ".wall-ticks th", ".wall-ticks caption"] {
            assert!(size(selector) >= 13.9, "{setup}: {selector} has {} pt", size(selector));
        }
        browser.cdp("Emulation.setEmulatedMedia", json!({ "media": "" }));
        // ISO 216 A4, and US letter.
        for (paper, wide, tall) in [("A4", 21.0, 29.7), ("Letter", 21.59, 27.94)] {
            let pdf = browser.print(wide, tall);
            if let Some(folder) = std::env::var_os("TAPMERE_SHOTS") {
                let name = format!("care-{}-{paper}.pdf", setup.replace(['/', '.'], "-"));
                std::fs::write(std::path::Path::new(&folder).join(name), &pdf).unwrap();
            }
            let sheets = Printed::read(&pdf);
            let walls: Vec<bool> = sheets.iter().map(|s| s.says("Fish at the surface?")).collect();
            assert_eq!(walls.iter().filter(|wall| **wall).count(), 1, "{setup} on {paper}: {walls:?}");
            assert!(
                walls[0] && sheets[0].says("Week of Monday"),
                "{setup} on {paper}: the boxes stand on the same sheet"
            );
            let changes = browser.run("return document.querySelectorAll('.change-sheet').length").as_u64().unwrap();
            assert_eq!(sheets.len() as u64, 1 + changes, "{setup} on {paper}");
            for sheet in &sheets {
                assert_eq!(sheet.outside(7.0), Vec::<&str>::new(), "{setup} on {paper}: letters run off the sheet");
            }
            for words in ["Rewrite the letter", "Nothing else today", "All pages", "Undo"] {
                assert!(!sheets.iter().any(|sheet| sheet.says(words)), "{setup} on {paper}: {words}");
            }
        }
    }
}
