//! The pages in a real Chromium: accessible by day, by night, small, printed; without JavaScript; by keyboard alone.
//!
//! Judge: axe-core. Without Chromium or axe-core the tests say "skipped" and pass; `TAPMERE_REQUIRE_BROWSER=1` makes
//! that a failure. `TAPMERE_AXE` is the path of axe.min.js. `TAPMERE_SHOTS` names a folder for pictures of all pages.

#![allow(clippy::unwrap_used)]

#[path = "browser/driver.rs"]
mod driver;

use std::collections::BTreeSet;
use std::process::Command;

use driver::{Browser, ENTER, Running, TAB, Tools, number_after};
use serde_json::json;

/// A way to look at a page.
struct Sight {
    name: &'static str,
    width: u32,
    night: bool,
    print: bool,
    forced: bool,
}

const DAY: Sight = Sight { name: "day", width: 1280, night: false, print: false, forced: false };

const SIGHTS: [Sight; 7] = [
    DAY,
    Sight { name: "night", night: true, ..DAY },
    Sight { name: "phone", width: 360, ..DAY },
    Sight { name: "phone-night", width: 360, night: true, ..DAY },
    Sight { name: "small", width: 320, ..DAY },
    Sight { name: "print", print: true, ..DAY },
    Sight { name: "forced-colours", forced: true, ..DAY },
];

/// `tapmere` with its pages open, and their address without a slash at the end.
fn house(arguments: &[&str]) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.args(arguments).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let (running, port) = Running::start(&mut command, |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}"))
}

fn look(browser: &Browser, sight: &Sight) {
    let size = json!({ "width": sight.width, "height": 900, "deviceScaleFactor": 1, "mobile": sight.width < 500 });
    browser.cdp("Emulation.setDeviceMetricsOverride", size);
    let scheme = if sight.night { "dark" } else { "light" };
    let colours = if sight.forced { "active" } else { "none" };
    let features = json!([
        { "name": "prefers-color-scheme", "value": scheme },
        { "name": "forced-colors", "value": colours },
        { "name": "prefers-reduced-motion", "value": "reduce" },
    ]);
    let media = if sight.print { "print" } else { "" };
    browser.cdp("Emulation.setEmulatedMedia", json!({ "media": media, "features": features }));
}

/// All pages of the house: what can be reached by links from its door.
fn pages(browser: &Browser, at: &str) -> Vec<String> {
    browser.goto(at);
    // The door leads on to a page: that one counts.
    let mut seen = BTreeSet::from([browser.address()]);
    let mut todo: Vec<String> = seen.iter().cloned().collect();
    while let Some(page) = todo.pop() {
        browser.goto(&page);
        let links = browser.run("return [...document.links].map(a => a.origin + a.pathname)");
        for link in links.as_array().unwrap().iter().filter_map(|l| l.as_str()) {
            if link.starts_with(at) && seen.insert(link.to_owned()) {
                todo.push(link.to_owned());
            }
        }
    }
    seen.remove(&format!("{at}/"));
    assert!(seen.len() >= 4, "{seen:?}");
    seen.into_iter().collect()
}

/// What is wrong with the page that is shown, all notes open.
fn complaints(browser: &Browser, axe: &str, sight: &Sight) -> Vec<String> {
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
    if !sight.print && sideways.as_i64().unwrap() > 0 {
        let widest = browser.run(
            "const w = document.documentElement.clientWidth;
             return [...document.body.querySelectorAll('*')].filter(e => e.getBoundingClientRect().right > w + 0.5)
               .slice(0, 5).map(e => e.tagName + '.' + e.className).join(', ')",
        );
        all.push(format!("scrolls sideways by {sideways} px: {widest}"));
    }
    all
}

fn shoot(browser: &Browser, house: &str, page: &str, sight: &Sight) {
    let Some(folder) = std::env::var_os("TAPMERE_SHOTS") else { return };
    let path: String = page.split('/').skip(3).collect::<Vec<_>>().join("-");
    let height = browser.run("return document.documentElement.scrollHeight").as_u64().unwrap();
    let size = json!({ "width": sight.width, "height": height, "deviceScaleFactor": 1, "mobile": sight.width < 500 });
    browser.cdp("Emulation.setDeviceMetricsOverride", size);
    let file = std::path::Path::new(&folder).join(format!("{house}-{path}-{}.png", sight.name));
    std::fs::write(file, base64(&browser.picture())).unwrap();
}

/// Bytes of a base64 text (RFC 4648).
fn base64(text: &str) -> Vec<u8> {
    const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let (mut bytes, mut bits, mut held) = (Vec::new(), 0_u32, 0_u32);
    for sign in text.bytes().filter_map(|b| SIGNS.iter().position(|s| *s == b)) {
        held = (held << 6) | sign as u32;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            bytes.push((held >> bits) as u8);
        }
    }
    bytes
}

/// Looks at every page of a house in some sights.
fn check(arguments: &[&str], sights: &[Sight]) {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(arguments);
    let browser = Browser::open(&tools);
    let mut wrong = Vec::new();
    for page in pages(&browser, &at) {
        for sight in sights {
            look(&browser, sight);
            browser.goto(&page);
            shoot(&browser, arguments[0], &page, sight);
            look(&browser, sight);
            let found = complaints(&browser, &tools.axe, sight);
            wrong.extend(found.iter().map(|c| format!("{page} ({}): {c}", sight.name)));
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn axe_finds_nothing_on_the_pages_of_the_demo() {
    check(&["demo"], &SIGHTS);
}

#[test]
fn axe_finds_nothing_while_a_question_is_open() {
    check(&["serve", "examples/household/tank-question.toml"], &SIGHTS[..3]);
}

#[test]
fn axe_finds_nothing_when_a_number_is_not_taken() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    for sight in &SIGHTS[..3] {
        look(&browser, sight);
        browser.goto(&at);
        browser.run(&format!("const b = {BLANK}; b.focus(); b.select()"));
        browser.press("-5");
        browser.press(ENTER);
        browser.wait("return document.readyState === 'complete' && !!document.querySelector('main .really')");
        let found = complaints(&browser, &tools.axe, sight);
        assert!(found.is_empty(), "{}:\n{}", sight.name, found.join("\n"));
    }
}

/// An empty book in a folder of its own, with its pages open.
fn empty_book() -> (tempfile::TempDir, Running, String) {
    let folder = tempfile::tempdir().unwrap();
    let (running, at) = house(&["open", folder.path().join("book").to_str().unwrap()]);
    (folder, running, at)
}

#[test]
fn axe_finds_nothing_on_the_first_visit() {
    let Some(tools) = Tools::find() else { return };
    let (_folder, _house, at) = empty_book();
    let browser = Browser::open(&tools);
    let mut wrong = Vec::new();
    for sight in &SIGHTS {
        look(&browser, sight);
        browser.goto(&at);
        assert_eq!(browser.address(), format!("{at}/first"));
        shoot(&browser, "open", "http://x/first", sight);
        look(&browser, sight);
        wrong.extend(complaints(&browser, &tools.axe, sight).iter().map(|c| format!("{}: {c}", sight.name)));
        // The same with something that is not taken.
        browser.run("document.querySelector('[name=\"glass.outer_length\"]').focus()");
        browser.press("a lot");
        browser.press(ENTER);
        browser.wait("return document.readyState === 'complete' && !!document.querySelector('.really')");
        shoot(&browser, "open", "http://x/first-refused", sight);
        look(&browser, sight);
        wrong.extend(complaints(&browser, &tools.axe, sight).iter().map(|c| format!("refused, {}: {c}", sight.name)));
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

/// Answers the questions by keys alone and goes on to the letter, with and without the module.
#[test]
fn the_first_visit_is_answered_by_keyboard_and_leads_to_the_letter() {
    let Some(tools) = Tools::find() else { return };
    for scripts in [true, false] {
        let (_folder, _house, at) = empty_book();
        let browser = Browser::open(&tools);
        browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": !scripts }));
        browser.goto(&at);
        browser.run("document.querySelector('[name=\"tap.nitrate\"]').focus()");
        browser.press("14");
        // Leaving a number sends nothing yet: the questions are sent whole.
        browser.press(TAB);
        let numbers = [
            ("glass.outer_length", "60"),
            ("glass.outer_width", "30"),
            ("glass.outer_height", "36"),
            ("animals.fish", "12"),
        ];
        for (field, number) in numbers {
            browser.run(&format!("document.querySelector('[name=\"{field}\"]').focus()"));
            browser.press(number);
        }
        assert_eq!(browser.address(), format!("{at}/first"));
        browser.press(ENTER);
        browser.wait("return document.readyState === 'complete' && location.pathname === '/tank/1/salts'");
        let told = browser.run("return document.querySelector('.told').textContent");
        assert!(told.as_str().unwrap().contains("things I assumed"), "{told}");
        // The nitrate has no basis yet: that is the question on top.
        assert_eq!(browser.run("return !!document.querySelector('[name=reply]')"), json!(true));
        if scripts {
            let found = complaints(&browser, &tools.axe, &DAY);
            assert!(found.is_empty(), "{}", found.join("\n"));
        }
        browser.goto(&format!("{at}/tank/1/tank"));
        assert_eq!(browser.run("return document.querySelector('[name=\"animals.fish\"]').value"), json!("12"));
    }
}

/// The first blank of a page that holds a plain number, by name.
const BLANK: &str = "[...document.querySelectorAll('main form input.blank')].find(b => /^[0-9]+$/.test(b.value))";

/// Types another number into a blank and presses Enter: by keys alone, as a keeper would.
fn retype(browser: &Browser) -> (String, String) {
    let name = browser.run(&format!("const b = {BLANK}; b.focus(); return b.name")).as_str().unwrap().to_owned();
    let old = browser.run("return document.activeElement.value").as_str().unwrap().to_owned();
    let new = (old.parse::<u32>().unwrap() + 1).to_string();
    browser.press_with_control('a');
    browser.press(&new);
    browser.press(ENTER);
    browser.wait(&format!("return document.readyState === 'complete' && document.querySelector('[name=\"{name}\"]')?.value === '{new}' && !!document.querySelector('main .changed, main mark')"));
    (name, new)
}

#[test]
fn a_blank_that_is_typed_over_rewrites_the_letter() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    browser.goto(&at);
    let (name, new) = retype(&browser);
    // It stays so when the page is asked for again.
    browser.goto(&at);
    assert_eq!(browser.run(&format!("return document.querySelector('[name=\"{name}\"]').value")), json!(new));
}

#[test]
fn the_pages_work_without_javascript() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": true }));
    browser.goto(&at);
    assert_eq!(
        browser.run("return document.documentElement.classList.contains('live')"),
        json!(false),
        "the module ran"
    );
    let (name, new) = retype(&browser);
    let undo = browser.run("const u = document.querySelector('main button[name=undo]'); u?.focus(); return !!u");
    assert_eq!(undo, json!(true), "no way back is offered");
    browser.press(ENTER);
    browser.wait(&format!(
        "return document.readyState === 'complete' && document.querySelector('[name=\"{name}\"]')?.value !== '{new}'"
    ));
}

#[test]
fn everything_is_reached_by_keyboard_alone() {
    let Some(tools) = Tools::find() else { return };
    let (_house, at) = house(&["demo"]);
    let browser = Browser::open(&tools);
    for page in pages(&browser, &at) {
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
        for _ in 0..wanted + 5 {
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
