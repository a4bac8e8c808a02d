//! A water report in a real Chromium, without a script: a file picked, a text pasted, a question answered, a reading
//! corrected, the water taken; each state by axe-core in every sight. A hostile file costs its upload, nothing else.
//!
//! Without Chromium or axe-core the tests say "skipped" and pass; `TAPMERE_REQUIRE_BROWSER=1` makes that a failure.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use crate::driver::{Browser, Running, Tools, number_after};
use crate::sights::{SIGHTS, complaints};
use serde_json::json;

const YEAR: &str = "Parameter\tUnit\tMin\tMean\tMax\nNitrate\tmg/l\t20.1\t28.0\t31.4\nChloride\tmg/l\t20\t24\t30\n\
                    Sulphate\tmg/l\t30\t34\t41\nCalcium\tmg/l\t60\t70\t80\nOdd stuff\tmg/l\t1\t2\t3\n";

/// An empty book would ask four questions first: the household, in memory.
fn house() -> (Running, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command
        .args(["serve", "examples/household/tank.toml"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let (running, port) = Running::start(&mut command, |line| number_after(line, "http://127.0.0.1:"));
    (running, format!("http://127.0.0.1:{port}"))
}

fn file(name: &str) -> Vec<u8> {
    std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("../../advice/report/tests").join(name)).unwrap()
}

fn has(browser: &Browser, text: &str) -> bool {
    browser.run(&format!("return document.body.innerText.includes({})", json!(text))).as_bool().unwrap()
}

/// Waits until the page that a form led to stands.
fn arrived(browser: &Browser, at: &str) {
    browser.wait(&format!("return document.readyState === 'complete' && location.pathname === '{at}'"));
}

/// The whole way of a pasted report; gives what `judge` finds wrong in each state.
fn way(browser: &Browser, at: &str, judge: &dyn Fn(&str) -> Vec<String>) -> Vec<String> {
    browser.goto(&format!("{at}/tank/1/tap/report"));
    let mut wrong = judge("report-give");

    // Pasted: the driver puts the text in, the page's own button sends it.
    browser.run(&format!("document.querySelector('[name=text]').value = {}", json!(YEAR)));
    browser.click("button.send");
    arrived(browser, "/tank/1/tap/report/1");
    assert!(has(browser, "Is nitrate counted as NO₃ or as N?"), "the question stands on top");
    wrong.extend(judge("report-question"));

    // Answered.
    browser.click("button.reply");
    browser.wait("return document.readyState === 'complete' && !document.querySelector('.question')");
    assert!(has(browser, "nothing is open"), "answered");

    // One text refused, then one reading corrected.
    let chloride = "[...document.querySelectorAll('input.blank')].find(i => i.getAttribute('aria-label')?.startsWith('Chloride, '))";
    browser.run(&format!("({chloride}).value = 'a lot'"));
    browser.click("button.send[value=rewrite]");
    browser.wait("return document.readyState === 'complete' && !!document.querySelector('[aria-invalid=true]')");
    wrong.extend(judge("report-refused"));
    browser.run("document.querySelector('[aria-invalid=true]').value = '26 mg/L'");
    browser.click("button.send[value=rewrite]");
    browser.wait(
        "return document.readyState === 'complete' && !!document.querySelector('button[name=undo]')
           && !document.querySelector('[aria-invalid=true]')",
    );
    assert!(has(browser, "You said so: 26\u{a0}mg/L"), "corrected by one edit");
    wrong.extend(judge("report-corrected"));

    // Taken: one revision, and the letter tells what was.
    browser.click("button[value=take-0]");
    arrived(browser, "/tank/1/tap");
    assert!(has(browser, "What it means"));
    wrong
}

#[test]
fn a_report_goes_its_way_without_a_script() {
    let Some(tools) = Tools::find() else { return };
    let (_running, at) = house();
    let browser = Browser::open(&tools);
    browser.cdp("Emulation.setScriptExecutionDisabled", json!({ "value": true }));
    way(&browser, &at, &|_| Vec::new());
}

#[test]
fn every_state_of_a_report_stands_in_every_sight() {
    let Some(tools) = Tools::find() else { return };
    let (_running, at) = house();
    let browser = Browser::open(&tools);
    let wrong = way(&browser, &at, &|name| complaints(&browser, &tools.axe, name, &SIGHTS));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A file through the browser's own form, as `multipart/form-data`.
#[test]
fn a_file_that_is_picked_is_read_beside_its_original() {
    let Some(tools) = Tools::find() else { return };
    let (_running, at) = house();
    let browser = Browser::open(&tools);
    browser.goto(&format!("{at}/tank/1/tap/report"));
    // As a drop does it: the field gets a file.
    let text = String::from_utf8(file("samples/uk-zone-summary.csv")).unwrap();
    browser.run(&format!(
        "const bag = new DataTransfer(); bag.items.add(new File([{}], 'zone.csv')); document.querySelector('[name=report]').files = bag.files",
        json!(text)
    ));
    browser.click("button.send");
    arrived(&browser, "/tank/1/tap/report/1");
    assert!(
        has(&browser, "Nitrate  mg/l NO3  50  16.3  18.3  19.1") || has(&browser, "Nitrate mg/l NO3 50 16.3 18.3 19.1")
    );
    let wrong = complaints(&browser, &tools.axe, "report-read", &SIGHTS);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Sends a file as a browser does, and gives back the status.
fn upload(at: &str, name: &str, bytes: &[u8]) -> u16 {
    let host = at.trim_start_matches("http://");
    let mut body =
        format!("--q\r\nContent-Disposition: form-data; name=\"report\"; filename=\"{name}\"\r\n\r\n").into_bytes();
    body.extend_from_slice(bytes);
    body.extend_from_slice(b"\r\n--q--\r\n");
    let head = format!(
        "POST /tank/1/tap/report HTTP/1.1\r\nHost: {host}\r\nOrigin: {at}\r\nConnection: close\r\n\
         Content-Type: multipart/form-data; boundary=q\r\nContent-Length: {}\r\n\r\n",
        body.len()
    );
    ask(host, &[head.as_bytes(), &body].concat())
}

fn ask(host: &str, request: &[u8]) -> u16 {
    let mut stream = TcpStream::connect(host).unwrap();
    stream.write_all(request).unwrap();
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).unwrap();
    String::from_utf8_lossy(&answer).split(' ').nth(1).unwrap().parse().unwrap()
}

/// Bombs that unpack to gigabytes or nest 200,000 deep: each ends in a page that says so, and meanwhile the house answers.
#[test]
fn a_hostile_upload_costs_only_itself() {
    let (_running, at) = house();
    let host = at.trim_start_matches("http://").to_owned();
    let get = format!("GET /tank/1/tap/report HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
    assert_eq!(ask(&host, get.as_bytes()), 200);
    for name in ["bomb.pdf", "deep.pdf", "bomb.xlsx", "liar.xlsx", "far.xlsx"] {
        let bytes = file(&format!("hostile/{name}"));
        std::thread::scope(|scope| {
            let sent = scope.spawn(|| upload(&at, name, &bytes));
            let mut asked = 0;
            while !sent.is_finished() || asked == 0 {
                let began = Instant::now();
                assert_eq!(ask(&host, get.as_bytes()), 200, "{name}");
                assert!(began.elapsed() < Duration::from_secs(5), "{name}: {:?}", began.elapsed());
                asked += 1;
            }
            assert_eq!(sent.join().unwrap(), 422, "{name}");
        });
    }
    // A letter takes no such body, and nothing was kept.
    let large = format!(
        "POST /tank/1/tap HTTP/1.1\r\nHost: {host}\r\nOrigin: {at}\r\nConnection: close\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 3000000\r\n\r\n{}",
        "a".repeat(3_000_000)
    );
    assert_eq!(ask(&host, large.as_bytes()), 413);
    assert_eq!(
        ask(
            &host,
            format!("GET /tank/1/tap/report/1 HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").as_bytes()
        ),
        404
    );
}
