//! Help now in a real Chromium: one act from any page, by keyboard and without scripts; accessible in every state.
//!
//! Judge: axe-core. Without Chromium or axe-core the tests say "skipped" and pass, as in `browser.rs`.

use std::process::Command;

use crate::driver::{Browser, ENTER, Running, TAB, Tools, number_after};
use serde_json::json;

/// An empty book with its pages open, and their address.
fn empty_book() -> (tempfile::TempDir, Running, String) {
    let folder = tempfile::tempdir().unwrap();
    let (running, at) = house(&["open", folder.path().join("book").to_str().unwrap()]);
    (folder, running, at)
}

fn house(arguments: &[&str]) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.args(arguments).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let (running, port) = Running::start(&mut command, |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}"))
}

/// The names of the troubles.
fn troubles() -> Vec<&'static str> {
    trouble::sheets().iter().map(|sheet| sheet.key.as_str()).collect()
}

/// How a page is looked at: its name, width, night, print.
const SIGHTS: [(&str, u32, bool, bool); 5] = [
    ("desk", 1280, false, false),
    ("desk by night", 1280, true, false),
    ("phone", 360, false, false),
    ("small phone by night", 320, true, false),
    ("paper", 1280, false, true),
];

fn look(browser: &Browser, (_, width, night, print): (&str, u32, bool, bool)) {
    let size = json!({ "width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 500 });
    browser.cdp("Emulation.setDeviceMetricsOverride", size);
    let scheme = if night { "dark" } else { "light" };
    let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
    browser
        .cdp("Emulation.setEmulatedMedia", json!({ "media": if print { "print" } else { "" }, "features": features }));
}

/// What axe finds, and whether the page scrolls sideways.
fn complaints(browser: &Browser, axe: &str, print: bool) -> Vec<String> {
    browser.run("for (const d of document.querySelectorAll('details')) d.open = true");
    browser.run(axe);
    let found = browser.run_async(
        "const done = arguments[arguments.length - 1];
         axe.run(document, { resultTypes: ['violations'] }).then(r => done(r.violations.flatMap(v =>
           v.nodes.map(n => `${v.id}: ${n.target.join(' ')}: ${n.failureSummary.replaceAll('\\n', ' ')}`))),
           e => done(['axe broke: ' + e]));",
    );
    let mut all: Vec<String> = found.as_array().unwrap().iter().map(|v| v.as_str().unwrap().to_owned()).collect();
    let sideways = browser.run("const d = document.documentElement; return d.scrollWidth - d.clientWidth");
    if !print && sideways.as_i64().unwrap() > 0 {
        all.push(format!("scrolls sideways by {sideways} px"));
    }
    all
}

fn check(tools: &Tools, browser: &Browser, pages: &[String]) {
    let mut wrong = Vec::new();
    for page in pages {
        for sight in SIGHTS {
            look(browser, sight);
            browser.goto(page);
            let found = complaints(browser, &tools.axe, sight.3);
            wrong.extend(found.iter().map(|c| format!("{page} ({}): {c}", sight.0)));
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn axe_finds_nothing_on_any_trouble_of_an_empty_book() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, _house, at) = empty_book();
    let browser = Browser::open(&tools);
    let mut pages = vec![format!("{at}/help-now")];
    pages.extend(troubles().iter().map(|key| format!("{at}/help-now/{key}")));
    check(&tools, &browser, &pages);
}

#[test]
fn axe_finds_nothing_where_a_tank_adds_its_figures() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    let mut pages: Vec<String> = troubles().iter().map(|key| format!("{at}/tank/1/help-now/{key}")).collect();
    // Readings that harm, readings that do not, one that is none; then a tank with an open question.
    for query in ["ammonia?ammonia=0.5+mg%2FL+N&ph=8", "ammonia?ammonia=0.5+mg%2FL+N&ph=7", "ammonia?ammonia=half&ph=8"]
    {
        pages.push(format!("{at}/tank/1/help-now/{query}"));
    }
    check(&tools, &browser, &pages);
    let (_open, at) = house(&["serve", "examples/household/tank-question.toml"]);
    check(&tools, &browser, &[format!("{at}/tank/1/help-now/nitrate")]);
}

#[test]
fn fish_gasp_is_one_key_from_an_empty_book_without_scripts() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, _house, at) = empty_book();
    let browser = Browser::open(&tools);
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": true }));
    for page in ["/", "/first", "/no-such-page", "/help-now/leak"] {
        browser.goto(&format!("{at}{page}"));
        browser.press(TAB);
        browser.press(ENTER);
        browser.wait("return document.title.startsWith('Help now: fish at the surface')");
    }
    // And every other trouble one more.
    let first = browser.run("return document.querySelector('.others a').getAttribute('href')");
    assert_eq!(first.as_str(), Some("/help-now/person"));
}

#[test]
fn a_reading_typed_on_the_page_of_the_tank_is_worked_out_without_scripts() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": true }));
    browser.goto(&format!("{at}/help-now/ammonia/mine"));
    browser.run("document.getElementById('ask-ammonia').focus()");
    browser.press("0.5 mg/L N");
    // Past what it is counted as, and past nitrite and what that is counted as.
    for _ in 0..4 {
        browser.press(TAB);
    }
    browser.press("8");
    browser.press(ENTER);
    browser.wait("return location.search.includes('ph=8') && document.body.innerText.includes('are toxic here')");
}
