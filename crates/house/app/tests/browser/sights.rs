//! Ways to look at a page, and what is wrong with it: axe-core's findings, and whether it scrolls sideways.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use crate::driver::Browser;

/// A way to look at a page.
#[derive(Clone, Copy)]
pub struct Sight {
    /// Its word in file names and findings.
    pub name: &'static str,
    width: u32,
    night: bool,
    print: bool,
    forced: bool,
    /// Text twice as large as the reader's own.
    doubled: bool,
}

/// A desk by day.
pub const DAY: Sight = Sight { name: "day", width: 1280, night: false, print: false, forced: false, doubled: false };

/// Each way in which every page and state must stand.
pub const SIGHTS: [Sight; 9] = [
    DAY,
    Sight { name: "night", night: true, ..DAY },
    Sight { name: "phone", width: 360, ..DAY },
    Sight { name: "phone-night", width: 360, night: true, ..DAY },
    Sight { name: "small", width: 320, ..DAY },
    Sight { name: "print", print: true, ..DAY },
    Sight { name: "forced-colours", forced: true, ..DAY },
    Sight { name: "doubled", doubled: true, ..DAY },
    Sight { name: "phone-doubled", width: 360, doubled: true, ..DAY },
];

/// Turns the eyes; the page stays loaded.
pub fn look(browser: &Browser, sight: &Sight) {
    size(browser, sight, 900);
    let scheme = if sight.night { "dark" } else { "light" };
    let colours = if sight.forced { "active" } else { "none" };
    let features = json!([
        { "name": "prefers-color-scheme", "value": scheme },
        { "name": "forced-colors", "value": colours },
        { "name": "prefers-reduced-motion", "value": "reduce" },
    ]);
    let media = if sight.print { "print" } else { "" };
    browser.cdp("Emulation.setEmulatedMedia", json!({ "media": media, "features": features }));
    // Twice what the page itself would have: what a reader gets who sets the letters to 200 %.
    browser.run(&format!(
        "const root = document.documentElement; root.style.fontSize = '';
         if ({}) root.style.fontSize = 2 * parseFloat(getComputedStyle(root).fontSize) + 'px'",
        sight.doubled
    ));
}

fn size(browser: &Browser, sight: &Sight, height: u64) {
    let size = json!({ "width": sight.width, "height": height, "deviceScaleFactor": 1, "mobile": sight.width < 500 });
    browser.cdp("Emulation.setDeviceMetricsOverride", size);
}

/// All pages of the house: what can be reached by links from its door.
pub fn pages(browser: &Browser, at: &str) -> Vec<String> {
    browser.goto(at);
    // The door leads on to a page: that one counts.
    let mut seen = BTreeSet::from([browser.address()]);
    let mut todo: Vec<String> = seen.iter().cloned().collect();
    while let Some(page) = todo.pop() {
        browser.goto(&page);
        // A calendar or a table is taken along, not looked at.
        let links = browser.run(
            "return [...document.links].map(a => a.origin + a.pathname).filter(a => !a.split('/').pop().includes('.'))",
        );
        for link in links.as_array().unwrap().iter().filter_map(Value::as_str) {
            if link.starts_with(at) && seen.insert(link.to_owned()) {
                todo.push(link.to_owned());
            }
        }
    }
    seen.remove(&format!("{at}/"));
    assert!(seen.len() >= 4, "{seen:?}");
    seen.into_iter().collect()
}

/// Those of [`pages`] that the menus lead to: the letters of a tank, and what stands beside them. What lies deeper is looked
/// at by the tests of its own.
pub fn front(browser: &Browser, at: &str) -> Vec<String> {
    let depth = |page: &String| page[at.len()..].trim_start_matches("/tank/1").matches('/').count();
    pages(browser, at).into_iter().filter(|page| depth(page) == 1).collect()
}

/// What is wrong with the page that is shown, in each of these sights, all notes open.
pub fn complaints(browser: &Browser, axe: &str, name: &str, sights: &[Sight]) -> Vec<String> {
    browser.run("for (const d of document.querySelectorAll('details')) d.open = true");
    browser.run(axe);
    let mut all = Vec::new();
    for sight in sights {
        look(browser, sight);
        let mut found: Vec<String> = sideways(browser, sight).into_iter().collect();
        // Larger letters change no name, role or colour: of them only the room is asked.
        if !sight.doubled {
            found.extend(violations(browser));
        }
        all.extend(found.iter().map(|found| format!("{name} ({}): {found}", sight.name)));
        shoot(browser, name, sight);
    }
    look(browser, &DAY);
    all
}

fn violations(browser: &Browser) -> Vec<String> {
    let found = browser.run_async(
        "const done = arguments[arguments.length - 1];
         axe.run(document, { resultTypes: ['violations'] }).then(r => done(r.violations.flatMap(v =>
           v.nodes.map(n => `${v.id}: ${n.target.join(' ')}: ${n.failureSummary.replaceAll('\\n', ' ')}`))),
           e => done(['axe broke: ' + e]));",
    );
    found.as_array().unwrap().iter().map(|v| v.as_str().unwrap().to_owned()).collect()
}

fn sideways(browser: &Browser, sight: &Sight) -> Option<String> {
    let far = browser.run("const d = document.documentElement; return d.scrollWidth - d.clientWidth").as_i64().unwrap();
    (!sight.print && far > 0).then(|| {
        let widest = browser.run(
            "const w = document.documentElement.clientWidth;
             return [...document.body.querySelectorAll('*')]
               .filter(e => e.getBoundingClientRect().right > w + 0.5 && !e.closest('.scroll, nav, svg') && !e.querySelector('span, p, div'))
               .slice(0, 5).map(e => `${e.tagName}.${e.className} “${e.textContent.slice(0, 30)}”`).join(', ')",
        );
        format!("scrolls sideways by {far} px: {widest}")
    })
}

/// A picture of the whole page, where `TAPMERE_SHOTS` names a folder for it.
fn shoot(browser: &Browser, name: &str, sight: &Sight) {
    let Some(folder) = std::env::var_os("TAPMERE_SHOTS") else { return };
    let height = browser.run("return document.documentElement.scrollHeight").as_u64().unwrap();
    size(browser, sight, height.min(16_000));
    let file = name.split('/').skip(3).collect::<Vec<_>>().join("-").replace(['?', '=', ' '], "-");
    let file = if file.is_empty() { name.replace(' ', "-") } else { file };
    std::fs::write(std::path::Path::new(&folder).join(format!("{file}-{}.png", sight.name)), browser.picture())
        .unwrap();
}
