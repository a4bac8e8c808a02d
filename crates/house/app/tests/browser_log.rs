//! The log in a real Chromium: with entries, an entry that is mended, a line that was refused; Enter with the script and
//! without it. Judge: axe-core. Without Chromium or axe-core the tests say "skipped", as `browser.rs` does.

use crate::sights;

use std::process::Command;

use crate::driver::{Browser, ENTER, Running, Tools, number_after};
use book::{SqliteBook, Stamp};
use logbook::{Entry, Filter, Log, Reading, Sure, What};
use serde_json::json;
use setup::Setup;

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

fn stamp() -> Stamp {
    Stamp::read("2026-06-11T08:30:00Z").unwrap()
}

/// A book whose log holds a line of most kinds, some of them of this week.
fn book() -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let mut book = SqliteBook::create(&path).unwrap();
    let tank = book.add_tank(Setup::read("tank.toml", HOUSEHOLD).unwrap(), &stamp()).unwrap();
    let now = jiff::ZonedDateTime::now();
    let ago = |days: i64| now.checked_sub(jiff::Span::new().days(days)).unwrap();
    let entry = |days: i64, what: What, note: &str| Entry { at: ago(days), what, note: note.to_owned() };
    let read = |of: &str, value: f64, sure: Sure| {
        What::Test(Reading { of: of.to_owned(), value, below: false, error: None, kit: None, sure })
    };
    let entries = vec![
        entry(400, What::Words, "the first day\nof this tank"),
        entry(5, What::Change { litres: 25.0 }, ""),
        entry(3, read("nitrate", 12.0, Sure::Plain), "by daylight"),
        entry(2, read("phosphate", 0.5, Sure::NotSure), ""),
        entry(1, What::Food { grams: 50.0 }, "too much of it slipped out of the packet in one go"),
        entry(1, What::Sight { sight: "brown_film".to_owned() }, ""),
        entry(0, What::Dose { bottle: "Bottle one".to_owned(), ml: 10.0 }, ""),
    ];
    book.log(tank, &stamp()).unwrap().add(entries).unwrap();
    (folder, path)
}

fn open(path: &std::path::Path) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    let (running, port) = Running::start(command.arg("open").arg(path), |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}/tank/1/log"))
}

fn written(path: &std::path::Path) -> Vec<What> {
    let mut book = SqliteBook::open(path, &stamp()).unwrap().book;
    let log = book.log(1, &stamp()).unwrap();
    log.list(&Filter::default()).unwrap().into_iter().map(|kept| kept.entry.what).collect()
}

#[test]
fn axe_finds_nothing_on_a_log_that_was_written() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, path) = book();
    let (_running, log) = open(&path);
    let browser = Browser::open(&tools);
    let mut wrong = Vec::new();
    for (name, address) in [("log", log.clone()), ("log mended", format!("{log}?mend=3"))] {
        browser.goto(&address);
        wrong.extend(sights::complaints(&browser, &tools.axe, name, &sights::SIGHTS));
    }
    // What was refused stands beside its line.
    browser.goto(&log);
    browser.run("document.querySelector('[name=log-food-amount]').value = 'much'");
    browser.click("button[value='add food']");
    browser.wait("return document.querySelector('#about-log-food-amount') !== null");
    wrong.extend(sights::complaints(&browser, &tools.axe, "log refused", &sights::SIGHTS));
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn enter_writes_the_line_with_the_script_and_without_it() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, path) = book();
    let (_running, log) = open(&path);
    let browser = Browser::open(&tools);
    for (off, amount) in [(false, "0.25"), (true, "0.35")] {
        browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": off }));
        browser.goto(&log);
        browser.click("[name=log-food-amount]");
        browser.press(amount);
        browser.press(ENTER);
        browser.wait("return document.body.textContent.includes('It stands in your log.')");
        let food = What::Food { grams: amount.parse().unwrap() };
        assert!(written(&path).contains(&food), "{amount}");
    }
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": false }));
}

/// A request that outlives its page may hold 64 KiB (the Fetch standard); a table of some years is longer.
#[test]
fn a_long_table_is_read_in_with_the_script() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, path) = book();
    let (_running, log) = open(&path);
    let browser = Browser::open(&tools);
    browser.goto(&log);
    browser.run(
        "const field = document.querySelector('[name=log-table-text]'); \
         field.closest('details').open = true; \
         field.value = 'at,kind,note\\n' + '2020-06-10 08:30,words,as many words as there are\\n'.repeat(2000)",
    );
    browser.click("button[value=table]");
    browser.wait("return document.body.textContent.includes('It stands in your log.')");
    assert_eq!(written(&path).len(), 2007);
}
