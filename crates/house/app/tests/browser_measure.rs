//! Measure and Signs in a real Chromium: accessible in every sight; readings worked out and taken by keyboard, with script and
//! without; sights ticked by one thumb.
//!
//! Judge: axe-core. Without Chromium or axe-core the tests say "skipped" and pass, as those in `browser.rs` do.

use std::process::Command;

use crate::driver::{Browser, ENTER, Running, Tools, number_after};
use crate::sights::{SIGHTS, complaints};
use serde_json::json;

fn house() -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command
        .args(["serve", "examples/household/tank.toml"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let (running, port) = Running::start(&mut command, |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}/tank/1"))
}

#[test]
fn every_state_is_accessible_in_every_sight() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house();
    let browser = Browser::open(&tools);
    let mut wrong = Vec::new();
    for page in [
        "measure",
        "measure?measure=litres&before=420",
        "measure?measure=litres&salt=kitchen_salt&grams=1.6&before=420&after=457",
        "measure?measure=litres&grams=a+lot&before=420&after=457",
        "measure?measure=trimmings&grams=60&days=14",
        "measure?measure=clay&vinegar=lively&rubbed=soft&grams=100&litres=1&ammonia=1",
        "measure?measure=co2",
        "signs",
        "signs?threads=yes&old_holes=yes&white_crust=yes",
    ] {
        let address = format!("{at}/{page}");
        browser.goto(&address);
        wrong.extend(complaints(&browser, &tools.axe, &address, &SIGHTS));
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

/// Types into a reading by keys.
fn type_into(browser: &Browser, name: &str, text: &str) {
    browser.click(&format!("input[name='{name}']"));
    browser.press(text);
}

#[test]
fn by_keyboard_readings_are_worked_out_and_taken_with_script_and_without() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_house, at) = house();
        let browser = Browser::open(&tools);
        browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": !scripts }));
        browser.goto(&format!("{at}/measure?measure=flow"));
        type_into(&browser, "caught", "2");
        type_into(&browser, "seconds", "24");
        // Enter works out and writes nothing.
        browser.press(ENTER);
        browser.wait(
            "return location.search.includes('seconds=24') && document.querySelector('h1').textContent.includes('300')",
        );
        browser.click("button[name='take']");
        browser.wait("return document.querySelector('[name=\"measured.flow\"]')?.value === '300'");
        assert!(!browser.address().contains("seconds"), "{}", browser.address());
        // And back.
        browser.click("button[name='undo']");
        browser.wait("return document.querySelector('[name=\"measured.flow\"]')?.value === ''");
    }
}

#[test]
fn sights_are_ticked_by_one_thumb_and_written_only_where_asked() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house();
    let browser = Browser::open(&tools);
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": true }));
    browser.cdp(
        "Emulation.setDeviceMetricsOverride",
        json!({ "width": 360, "height": 740, "deviceScaleFactor": 1, "mobile": true }),
    );
    browser.goto(&format!("{at}/signs"));
    // The whole row is the target, at least 44 px high.
    let low = browser
        .run("return Math.min(...[...document.querySelectorAll('.sight')].map(e => e.getBoundingClientRect().height))");
    assert!(low.as_f64().unwrap() >= 44.0, "{low}");
    browser.click("label:has([name='threads'])");
    browser.click("main .ask-signs .send");
    browser
        .wait("return location.search.includes('threads=yes') && document.body.textContent.includes('Here it can be')");
    browser.goto(&format!("{at}/signs?threads=yes"));
    assert!(!browser.run("return document.body.textContent").as_str().unwrap().contains("From your log"));
    browser.click("button[value='seen']");
    browser.wait("return document.body.textContent.includes('It stands in your log')");
}
