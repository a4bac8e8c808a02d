//! The pages in a real Chromium: accessible by day, by night, small, printed, with large letters; without JavaScript; by
//! keyboard alone; and nothing that was typed is ever lost.
//!
//! Judge: axe-core. Without Chromium or axe-core the tests say "skipped" and pass; `TAPMERE_REQUIRE_BROWSER=1` makes
//! that a failure. `TAPMERE_AXE` is the path of axe.min.js. `TAPMERE_SHOTS` names a folder for pictures of all pages, and
//! for what was printed.

mod edits;
mod keys;
mod looks;
mod prints;

use std::process::Command;

use crate::driver::{Browser, Running, Tools, number_after};
use serde_json::{Value, json};

/// `tapmere` with its pages open, and their address without a slash at the end.
fn house(arguments: &[&str]) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.args(arguments).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let (running, port) = Running::start(&mut command, |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}"))
}

/// An empty book in a folder of its own, with its pages open.
fn empty_book() -> (tempfile::TempDir, Running, String) {
    let folder = tempfile::tempdir().unwrap();
    let (running, at) = house(&["open", folder.path().join("book").to_str().unwrap()]);
    (folder, running, at)
}

/// The household with a nitrate whose basis nobody told.
const QUESTION: [&str; 2] = ["serve", "examples/household/tank-question.toml"];

/// A browser in which the module runs, or none does.
fn browser(tools: &Tools, scripts: bool) -> Browser {
    let browser = Browser::open(tools);
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": !scripts }));
    browser
}

/// What stands in a blank.
fn blank(browser: &Browser, name: &str) -> Value {
    browser.run(&format!("return document.querySelector('[name=\"{name}\"]')?.value"))
}

/// Types a text over what stands in a blank, by keys, and stays in it.
fn type_over(browser: &Browser, name: &str, text: &str) {
    let there = format!("document.querySelector('[name=\"{name}\"]')");
    wait(browser, &format!("!!{there}"));
    browser.run(&format!("{there}.focus()"));
    browser.press_with_control('a');
    browser.press(text);
}

/// Waits until the page is there and a script answers true.
fn wait(browser: &Browser, script: &str) {
    browser.wait(&format!("return document.readyState === 'complete' && ({script})"));
}
