//! A browser that is driven: the few commands of the WebDriver protocol (W3C) that the tests need, over a socket.

use std::io::{self, BufRead, BufReader, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

/// Without it Chromium will not run as root, and would talk to its maker.
const FLAGS: [&str; 10] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
];

/// What the tests need beside Cargo: a browser with its driver, and the checker of accessibility.
pub struct Tools {
    chromium: String,
    chromedriver: String,
    /// axe-core as one script.
    pub axe: String,
}

impl Tools {
    /// Look for them; without them the test is skipped, and says so, unless `TAPMERE_REQUIRE_BROWSER` is set.
    pub fn find() -> Option<Tools> {
        match Tools::look() {
            Ok(tools) => Some(tools),
            Err(missing) => {
                assert!(std::env::var_os("TAPMERE_REQUIRE_BROWSER").is_none(), "{missing}");
                // Straight to the handle: the test runner would keep a print to itself.
                let _ = writeln!(std::io::stderr(), "skipped: {missing}");
                None
            }
        }
    }

    fn look() -> Result<Tools, String> {
        let found = |names: &[&str]| names.iter().find(|n| in_path(n)).map(|n| (*n).to_owned());
        let chromium = found(&["chromium", "chromium-browser", "google-chrome"]).ok_or("no Chromium")?;
        let chromedriver = found(&["chromedriver"]).ok_or("no chromedriver beside Chromium")?;
        let path = std::env::var("TAPMERE_AXE").map_err(|_| "no axe-core: TAPMERE_AXE names no axe.min.js")?;
        let axe = std::fs::read_to_string(&path).map_err(|e| format!("no axe-core at {path}: {e}"))?;
        Ok(Tools { chromium, chromedriver, axe })
    }
}

fn in_path(name: &str) -> bool {
    std::env::var_os("PATH").is_some_and(|path| std::env::split_paths(&path).any(|folder| folder.join(name).is_file()))
}

/// A process that ends with its owner.
pub struct Running(pub Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

impl Running {
    /// Start a program and read what it says until `port` finds a port in a line.
    pub fn start(command: &mut Command, port: impl Fn(&str) -> Option<u16>) -> (Running, u16) {
        let mut child = command.stdout(Stdio::piped()).spawn().unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap());
        let running = Running(child);
        let mut line = String::new();
        while lines.read_line(&mut line).unwrap() > 0 {
            if let Some(port) = port(&line) {
                // Whatever it says later is read away, so that it never waits for us.
                std::thread::spawn(move || std::io::copy(&mut lines, &mut std::io::sink()));
                return (running, port);
            }
            line.clear();
        }
        panic!("{command:?} never said where it is");
    }
}

/// The number that follows `before` in a line.
pub fn number_after(line: &str, before: &str) -> Option<u16> {
    let rest = line.split_once(before)?.1;
    rest.split(|c: char| !c.is_ascii_digit()).next()?.parse().ok()
}

/// One browser with one page.
pub struct Browser {
    _driver: Running,
    port: u16,
    session: String,
}

impl Browser {
    /// Open one.
    pub fn open(tools: &Tools) -> Browser {
        let (driver, port) = Running::start(Command::new(&tools.chromedriver).arg("--port=0"), |line| {
            number_after(line, "started successfully on port ")
        });
        let mut browser = Browser { _driver: driver, port, session: String::new() };
        let options = json!({ "binary": in_full(&tools.chromium), "args": FLAGS });
        let wanted = json!({ "capabilities": { "alwaysMatch": { "goog:chromeOptions": options } } });
        let opened = browser.call("POST", "/session", &wanted);
        browser.session = opened["sessionId"].as_str().unwrap().to_owned();
        browser
    }

    fn call(&self, method: &str, path: &str, body: &Value) -> Value {
        let mut content = self.send(method, path, body).unwrap();
        let value = content["value"].take();
        assert!(value.get("error").is_none(), "{method} {path}: {value}");
        value
    }

    fn send(&self, method: &str, path: &str, body: &Value) -> io::Result<Value> {
        let body = if body.is_null() { String::new() } else { body.to_string() };
        let mut stream = TcpStream::connect(("127.0.0.1", self.port))?;
        stream.set_read_timeout(Some(Duration::from_secs(90)))?;
        let (host, length) = (self.port, body.len());
        write!(
            stream,
            "{method} {path} HTTP/1.1\r\nHost: 127.0.0.1:{host}\r\nContent-Type: application/json\r\n\
             Content-Length: {length}\r\n\r\n{body}",
        )?;
        answer(&mut BufReader::new(stream))
    }

    fn post(&self, what: &str, body: Value) -> Value {
        self.call("POST", &format!("/session/{}/{what}", self.session), &body)
    }

    /// A command of Chromium's own protocol: sizes, media, scripts off.
    pub fn cdp(&self, command: &str, parameters: Value) {
        self.post("goog/cdp/execute", json!({ "cmd": command, "params": parameters }));
    }

    /// Go to an address, and wait for what is worked out there.
    pub fn goto(&self, url: &str) {
        self.post("url", json!({ "url": url }));
        self.wait("return document.readyState === 'complete' && !document.querySelector('main form.working')");
    }

    /// The address that is shown.
    pub fn address(&self) -> String {
        self.call("GET", &format!("/session/{}/url", self.session), &Value::Null).as_str().unwrap().to_owned()
    }

    /// Run a script: the body of a function.
    pub fn run(&self, script: &str) -> Value {
        self.post("execute/sync", json!({ "script": script, "args": [] }))
    }

    /// Run a script that answers by calling its last argument.
    pub fn run_async(&self, script: &str) -> Value {
        self.post("execute/async", json!({ "script": script, "args": [] }))
    }

    /// Press keys one after another; special ones as the protocol writes them.
    pub fn press(&self, keys: &str) {
        let strokes: Vec<Value> = keys
            .chars()
            .flat_map(|key| ["keyDown", "keyUp"].map(|kind| json!({ "type": kind, "value": key.to_string() })))
            .collect();
        self.post("actions", json!({ "actions": [{ "type": "key", "id": "keys", "actions": strokes }] }));
    }

    /// Hold Control and press a key.
    pub fn press_with_control(&self, key: char) {
        let stroke = |kind: &str, value: char| json!({ "type": kind, "value": value.to_string() });
        let strokes =
            [stroke("keyDown", CONTROL), stroke("keyDown", key), stroke("keyUp", key), stroke("keyUp", CONTROL)];
        self.post("actions", json!({ "actions": [{ "type": "key", "id": "keys", "actions": strokes }] }));
    }

    /// Wait until a script answers true.
    pub fn wait(&self, script: &str) {
        let began = Instant::now();
        while self.run(script) != Value::Bool(true) {
            assert!(began.elapsed() < Duration::from_secs(15), "never true: {script}\non {}", self.address());
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    /// Click into the middle of what a selector finds.
    pub fn click(&self, selector: &str) {
        let spot = self.run(&format!(
            "const e = document.querySelector({}); e.scrollIntoView({{ block: 'center' }});
             const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]",
            json!(selector)
        ));
        let at = |i: usize| spot[i].as_f64().unwrap().round() as i64;
        let strokes = json!([
            { "type": "pointerMove", "duration": 0, "x": at(0), "y": at(1) },
            { "type": "pointerDown", "button": 0 },
            { "type": "pointerUp", "button": 0 },
        ]);
        self.post("actions", json!({ "actions": [{ "type": "pointer", "id": "hand", "actions": strokes }] }));
    }

    /// The button that leads back.
    pub fn back(&self) {
        self.post("back", json!({}));
    }

    /// The button that loads the page again; of a page that answered a form, "send it again" is said.
    pub fn reload(&self) {
        self.post("refresh", json!({}));
    }

    /// Open another tab and look at it; gives the name of the one that was looked at, for [`Browser::turn_to`].
    pub fn new_tab(&self) -> String {
        let before = self.call("GET", &format!("/session/{}/window", self.session), &Value::Null);
        let fresh = self.post("window/new", json!({ "type": "tab" }));
        self.turn_to(fresh["handle"].as_str().unwrap());
        before.as_str().unwrap().to_owned()
    }

    /// Look at another tab.
    pub fn turn_to(&self, tab: &str) {
        self.post("window", json!({ "handle": tab }));
    }

    /// The page on paper, as PDF; sizes in centimetres. The page's own margins hold.
    pub fn print(&self, wide_cm: f64, tall_cm: f64) -> Vec<u8> {
        let page = json!({ "width": wide_cm, "height": tall_cm });
        let printed = self.post("print", json!({ "page": page, "shrinkToFit": false }));
        base64(printed.as_str().unwrap())
    }

    /// A picture of what is shown, a PNG.
    pub fn picture(&self) -> Vec<u8> {
        let shot = self.call("GET", &format!("/session/{}/screenshot", self.session), &Value::Null);
        base64(shot.as_str().unwrap())
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // The browser is the driver's child: it is told to close it before the driver itself is ended.
        let _ = self.send("DELETE", &format!("/session/{}", self.session), &Value::Null);
    }
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

/// The content of an answer. The driver keeps the connection open, so its length counts.
fn answer(stream: &mut impl BufRead) -> io::Result<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        stream.read_line(&mut line)?;
        if line.trim().is_empty() {
            break;
        }
        if let Some((name, value)) = line.split_once(':')
            && name.eq_ignore_ascii_case("content-length")
        {
            length = value.trim().parse().map_err(io::Error::other)?;
        }
    }
    let mut content = vec![0; length];
    stream.read_exact(&mut content)?;
    serde_json::from_slice(&content).map_err(io::Error::other)
}

/// The driver wants the whole path of the browser.
fn in_full(name: &str) -> String {
    let path = std::env::var_os("PATH").unwrap_or_default();
    let whole = std::env::split_paths(&path).map(|folder| folder.join(name)).find(|p| p.is_file()).unwrap();
    whole.to_string_lossy().into_owned()
}

/// Keys as the protocol writes them.
pub const TAB: &str = "\u{e004}";
/// Enter.
pub const ENTER: &str = "\u{e007}";
const CONTROL: char = '\u{e009}';
