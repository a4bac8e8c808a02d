//! Start and Away in a real Chromium: by day, by night, small, printed; worked out by keys alone and without scripts.
//!
//! Judge: axe-core. Without Chromium or axe-core the tests say "skipped" and pass; `TAPMERE_REQUIRE_BROWSER=1` makes that a
//! failure. `TAPMERE_AXE` is the path of axe.min.js.

use std::process::Command;

use crate::driver::{Browser, ENTER, Running, Tools, number_after};
use serde_json::json;

/// A way to look at a page.
struct Sight {
    name: &'static str,
    width: u32,
    night: bool,
    media: &'static str,
    forced: bool,
}

const DAY: Sight = Sight { name: "day", width: 1280, night: false, media: "", forced: false };

const SIGHTS: [Sight; 6] = [
    DAY,
    Sight { name: "night", night: true, ..DAY },
    Sight { name: "phone", width: 360, ..DAY },
    Sight { name: "small, night", width: 320, night: true, ..DAY },
    Sight { name: "print", media: "print", ..DAY },
    Sight { name: "forced colours", forced: true, ..DAY },
];

/// A setup that nobody lives in, on a ground that gives off ammonia: every part of Start is shown.
const EMPTY: &str = r#"
[tank]
name = "The new tank"
country = "eu"
co2 = "12 mg/L"
[glass]
inner_length = "76 cm"
inner_width = "36 cm"
inner_height = "40 cm"
[ground]
kind = "baked_soil"
[tap]
calcium = "60 mg/L"
magnesium = "8 mg/L"
alkalinity = "2.8 meq/L"
nitrate = "12 mg/L NO3"
"#;

fn house(arguments: &[&str]) -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.args(arguments).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let (running, port) = Running::start(&mut command, |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}"))
}

fn look(browser: &Browser, sight: &Sight) {
    let size = json!({ "width": sight.width, "height": 900, "deviceScaleFactor": 1, "mobile": sight.width < 500 });
    browser.cdp("Emulation.setDeviceMetricsOverride", size);
    let features = json!([
        { "name": "prefers-color-scheme", "value": if sight.night { "dark" } else { "light" } },
        { "name": "forced-colors", "value": if sight.forced { "active" } else { "none" } },
        { "name": "prefers-reduced-motion", "value": "reduce" },
    ]);
    browser.cdp("Emulation.setEmulatedMedia", json!({ "media": sight.media, "features": features }));
}

/// What axe finds, all notes open; and whether the page scrolls sideways.
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
    if sight.media.is_empty() && sideways.as_i64().unwrap() > 0 {
        all.push(format!("scrolls sideways by {sideways} px"));
    }
    let small = browser.run(
        "return [...document.querySelectorAll('main input:not([type=hidden]):not([type=checkbox]), main select, main button:not(.off-screen)')]
           .filter(e => e.getClientRects().length && e.getBoundingClientRect().height < 43.5)
           .map(e => `${e.tagName} ${e.name} ${e.getBoundingClientRect().height}`)",
    );
    if sight.media.is_empty() {
        all.extend(small.as_array().unwrap().iter().map(|v| format!("too low for a thumb: {v}")));
    }
    all
}

/// Looks at an address in all sights.
fn check(tools: &Tools, browser: &Browser, page: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    for sight in &SIGHTS {
        look(browser, sight);
        browser.goto(page);
        look(browser, sight);
        wrong.extend(complaints(browser, &tools.axe, sight).iter().map(|c| format!("{page} ({}): {c}", sight.name)));
    }
    wrong
}

#[test]
fn axe_finds_nothing_on_start_and_away() {
    let Some(tools) = Tools::find() else { return };
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("empty.toml");
    std::fs::write(&file, EMPTY).unwrap();
    let (_empty, new) = house(&["serve", file.to_str().unwrap()]);
    let (_demo, demo) = house(&["demo"]);
    let browser = Browser::open(&tools);
    let pages = [
        format!("{new}/tank/1/start"),
        format!("{new}/tank/1/start?bag_ph=sour&bag_ammonia=3&bag_temperature=20&bag_conductivity=200"),
        format!("{demo}/tank/1/start"),
        format!(
            "{demo}/tank/1/away?days=14&leaving=2026-07-01&times=10&tap_alkalinity=1.1+%C2%B0dH&tap_hardness=2+%C2%B0dH"
        ),
        format!("{demo}/tank/1/away?days=soon&tap_nitrate=12+mg/L"),
    ];
    let wrong: Vec<String> = pages.iter().flat_map(|page| check(&tools, &browser, page)).collect();
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn what_is_asked_once_is_worked_out_by_keys_with_and_without_scripts() {
    let Some(tools) = Tools::find() else { return };
    let (_demo, demo) = house(&["demo"]);
    for scripts in [true, false] {
        let browser = Browser::open(&tools);
        browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": !scripts }));
        browser.goto(&format!("{demo}/tank/1/away"));
        browser.run("const d = document.querySelector('[name=days]'); d.focus(); d.select()");
        browser.press("4");
        browser.press(ENTER);
        browser.wait("return document.readyState === 'complete' && document.querySelector('h1').textContent.includes('Four days away')");
        let kept = browser.run("return document.querySelector('[name=days]').value");
        assert_eq!(kept, "4", "what was asked still stands there");
    }
}
