//! The door, tried on loopback with raw sockets: foreign hosts and origins, odd paths, too much, too slow.

use std::io::{ErrorKind, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use app::socket::{Answer, Limits, serve};
use tokio::net::TcpListener;
use tokio::sync::oneshot;

/// A door on a free port, closed when it is dropped.
struct Door {
    at: SocketAddr,
    /// How many requests came through to the house.
    answered: Arc<AtomicUsize>,
    stop: Option<oneshot::Sender<()>>,
    thread: Option<std::thread::JoinHandle<()>>,
}

impl Door {
    /// Over a house that echoes: method, path, length of the body. `/slow` takes its time, `/break` breaks.
    fn open(limits: Limits) -> Door {
        let (tell, told) = std::sync::mpsc::channel();
        let (stop, stopped) = oneshot::channel();
        let answered = Arc::new(AtomicUsize::new(0));
        let count = Arc::clone(&answered);
        let house: Answer = Arc::new(move |request: http::Request<Vec<u8>>| {
            count.fetch_add(1, Ordering::SeqCst);
            match request.uri().path() {
                "/slow" => std::thread::sleep(Duration::from_millis(300)),
                "/break" => panic!("broken on purpose"),
                _ => {}
            }
            let echo = format!("{} {} {}", request.method(), request.uri(), request.body().len());
            http::Response::new(echo.into_bytes())
        });
        let thread = std::thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(1).enable_all().build().unwrap();
            runtime.block_on(async {
                let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
                tell.send(listener.local_addr().unwrap()).unwrap();
                let closing = async { stopped.await.unwrap_or(()) };
                serve(listener, house, limits, closing).await.unwrap();
            });
        });
        Door { at: told.recv().unwrap(), answered, stop: Some(stop), thread: Some(thread) }
    }

    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(self.at).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        stream
    }

    /// Send bytes, read the whole answer until the door closes the connection.
    fn raw(&self, request: &[u8]) -> String {
        let mut stream = self.connect();
        // The door may close while we are still sending: what it said counts.
        let _ = stream.write_all(request);
        let mut answer = Vec::new();
        match stream.read_to_end(&mut answer) {
            Err(e) if e.kind() != ErrorKind::ConnectionReset => panic!("{e}"),
            _ => String::from_utf8_lossy(&answer).into_owned(),
        }
    }

    /// A request line and header lines; `HOST` and `ORIGIN` stand for our own.
    fn ask(&self, head: &str) -> String {
        let ours = self.at.to_string();
        let lines = head.replace("ORIGIN", &format!("http://{ours}")).replace("HOST", &ours).replace('\n', "\r\n");
        self.raw(format!("{lines}\r\nConnection: close\r\n\r\n").as_bytes())
    }

    fn answered(&self) -> usize {
        self.answered.load(Ordering::SeqCst)
    }
}

impl Drop for Door {
    fn drop(&mut self) {
        let _ = self.stop.take().map(|stop| stop.send(()));
        let joined = self.thread.take().map(std::thread::JoinHandle::join);
        assert!(std::thread::panicking() || joined.is_none_or(|j| j.is_ok()));
    }
}

fn status(answer: &str) -> u16 {
    answer.split(' ').nth(1).and_then(|s| s.parse().ok()).unwrap_or_else(|| panic!("no status in {answer:?}"))
}

#[test]
fn our_own_browser_comes_in() {
    let door = Door::open(Limits::default());
    let answer = door.ask("GET /help-now HTTP/1.1\nHost: HOST");
    assert_eq!(status(&answer), 200, "{answer}");
    assert!(answer.ends_with("GET /help-now 0"), "{answer}");
    let port = door.at.port();
    assert_eq!(status(&door.ask(&format!("GET / HTTP/1.1\nHost: localhost:{port}"))), 200);
    let answer = door.ask("HEAD / HTTP/1.1\nHost: HOST");
    assert!(answer.ends_with("\r\n\r\n"), "a HEAD has no body: {answer}");
}

#[test]
fn a_foreign_host_is_refused_before_the_house_hears_of_it() {
    let door = Door::open(Limits::default());
    for head in [
        "GET / HTTP/1.1\nHost: stranger.example",
        "GET / HTTP/1.1\nHost: stranger.example:8080",
        "GET / HTTP/1.1\nHost: 127.0.0.1",
        "GET / HTTP/1.1\nHost: HOST.stranger.example",
        "GET / HTTP/1.1\nHost: HOST\nHost: stranger.example",
        "GET http://stranger.example/ HTTP/1.1\nHost: HOST",
        "GET / HTTP/1.0",
    ] {
        let answer = door.ask(head);
        assert_eq!(status(&answer), 421, "{head}: {answer}");
        assert!(answer.contains("Tapmere answers this machine alone"), "{answer}");
    }
    assert_eq!(door.answered(), 0);
}

#[test]
fn a_foreign_origin_changes_nothing() {
    let door = Door::open(Limits::default());
    let form = "Content-Type: application/x-www-form-urlencoded\nContent-Length: 0";
    for origin in [
        "Origin: http://stranger.example",
        "Origin: null",
        "Origin: https://HOST",
        "Origin: http://localhost:1",
        "Origin: ORIGIN\nOrigin: http://stranger.example",
        "Origin: ORIGIN\nSec-Fetch-Site: cross-site",
        "Sec-Fetch-Site: none",
        "Referer: ORIGIN/",
    ] {
        let answer = door.ask(&format!("POST /tank/1/tap HTTP/1.1\nHost: HOST\n{origin}\n{form}"));
        assert_eq!(status(&answer), 403, "{origin}: {answer}");
        assert!(answer.contains("no other may change anything here"), "{answer}");
    }
    assert_eq!(door.answered(), 0);
    for origin in ["Origin: ORIGIN", "Sec-Fetch-Site: same-origin", "Origin: ORIGIN\nSec-Fetch-Site: same-origin"] {
        let answer = door.ask(&format!("POST /tank/1/tap HTTP/1.1\nHost: HOST\n{origin}\n{form}"));
        assert_eq!(status(&answer), 200, "{origin}: {answer}");
    }
}

/// Paths go to the house as they are, which has a table of routes and no files: nothing here opens, joins or follows
/// one.
#[test]
fn odd_paths_reach_the_table_of_routes_unchanged_or_not_at_all() {
    let door = Door::open(Limits::default());
    for path in
        ["/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "//stranger.example/", "/a/%00", "/%ff", "/tank/1/../2"]
    {
        let answer = door.ask(&format!("GET {path} HTTP/1.1\nHost: HOST"));
        assert!(answer.ends_with(&format!("GET {path} 0")), "{path}: {answer}");
        assert!(!answer.to_ascii_lowercase().contains("\nlocation:"), "{answer}");
    }
    for line in ["GET /a b HTTP/1.1", "GET", "GET /\u{7f} HTTP/1.1", "\u{0} / HTTP/1.1"] {
        let answer = door.ask(&format!("{line}\nHost: HOST"));
        assert!(answer.is_empty() || status(&answer) == 400, "{line:?}: {answer}");
    }
    let long = format!("GET /{} HTTP/1.1\nHost: HOST", "a".repeat(100_000));
    assert!([414, 431].contains(&status(&door.ask(&long))));
}

#[test]
fn huge_headers_are_refused() {
    let door = Door::open(Limits::default());
    let one = format!("GET / HTTP/1.1\nHost: HOST\nX-Large: {}", "a".repeat(40_000));
    assert_eq!(status(&door.ask(&one)), 431);
    let many: String = (0..200).map(|i| format!("\nX-{i}: a")).collect();
    assert_eq!(status(&door.ask(&format!("GET / HTTP/1.1\nHost: HOST{many}"))), 431);
    assert_eq!(door.answered(), 0);
}

#[test]
fn a_huge_upload_hears_why_it_is_refused() {
    let door = Door::open(Limits { body: 64 << 20, ..Limits::default() });
    let post = "POST / HTTP/1.1\nHost: HOST\nOrigin: ORIGIN";
    let said = |answer: &str| {
        assert_eq!(status(answer), 413, "{answer}");
        assert!(answer.contains("this is too large to be read") && answer.contains("at most 64 MB"), "{answer}");
    };
    // Asked before sending.
    said(&door.ask(&format!("{post}\nExpect: 100-continue\nContent-Length: 70000000")));
    // Sent at once.
    let head = format!("{post}\nContent-Length: 70000000\n\n").replace('\n', "\r\n");
    let ours = door.at.to_string();
    let head = head.replace("ORIGIN", &format!("http://{ours}")).replace("HOST", &ours);
    let mut upload = head.into_bytes();
    upload.resize(upload.len() + 70_000_000, b'a');
    said(&door.raw(&upload));
    assert_eq!(door.answered(), 0);
}

#[test]
fn an_upload_within_the_limit_arrives_whole() {
    let door = Door::open(Limits { body: 64 << 20, ..Limits::default() });
    let ours = door.at.to_string();
    let size = 64 << 20;
    let mut upload = format!(
        "POST / HTTP/1.1\r\nHost: {ours}\r\nOrigin: http://{ours}\r\nConnection: close\r\nContent-Length: {size}\r\n\r\n"
    )
    .into_bytes();
    upload.resize(upload.len() + size, b'a');
    let answer = door.raw(&upload);
    assert!(answer.ends_with(&format!("POST / {size}")), "{}", &answer[..answer.len().min(300)]);
}

#[test]
fn chunks_are_counted_too() {
    let door = Door::open(Limits { body: 1000, ..Limits::default() });
    let head = "POST / HTTP/1.1\nHost: HOST\nOrigin: ORIGIN\nTransfer-Encoding: chunked\nConnection: close\n\n";
    let ours = door.at.to_string();
    let head = head.replace("ORIGIN", &format!("http://{ours}")).replace("HOST", &ours).replace('\n', "\r\n");
    let chunk = format!("200\r\n{}\r\n", "a".repeat(0x200));
    assert_eq!(status(&door.raw(format!("{head}{chunk}0\r\n\r\n").as_bytes())), 200);
    assert_eq!(status(&door.raw(format!("{head}{chunk}{chunk}0\r\n\r\n").as_bytes())), 413);
}

#[test]
fn a_slow_client_does_not_hold_the_door() {
    let short = Duration::from_millis(200);
    let limits = Limits { header_time: short, body_time: short, connections: 4, ..Limits::default() };
    let door = Door::open(limits);
    let ours = door.at.to_string();
    let began = Instant::now();
    // More of them than there are places.
    let slow: Vec<TcpStream> = (0..12)
        .map(|i| {
            let mut stream = door.connect();
            let half = if i % 2 == 0 {
                format!("GET / HTTP/1.1\r\nHost: {ours}\r\n")
            } else {
                format!("POST / HTTP/1.1\r\nHost: {ours}\r\nOrigin: http://{ours}\r\nContent-Length: 10\r\n\r\nabc")
            };
            stream.write_all(half.as_bytes()).unwrap();
            stream
        })
        .collect();
    let answer = door.ask("GET /help-now HTTP/1.1\nHost: HOST");
    assert_eq!(status(&answer), 200, "{answer}");
    assert!(began.elapsed() < Duration::from_secs(10), "{:?}", began.elapsed());
    for (i, mut stream) in slow.into_iter().enumerate() {
        let mut answer = String::new();
        let _ = stream.read_to_string(&mut answer);
        assert!(i % 2 == 0 || status(&answer) == 408, "{answer}");
    }
    assert_eq!(door.answered(), 1);
}

#[test]
fn a_broken_answer_is_a_500_in_plain_words_and_the_door_stays_open() {
    let door = Door::open(Limits::default());
    let answer = door.ask("GET /break HTTP/1.1\nHost: HOST");
    assert_eq!(status(&answer), 500);
    assert!(answer.contains("nothing was changed") && !answer.contains("broken on purpose"), "{answer}");
    assert_eq!(status(&door.ask("GET / HTTP/1.1\nHost: HOST")), 200);
}

#[test]
fn an_open_answer_is_finished_at_closing_time() {
    let mut door = Door::open(Limits::default());
    let mut stream = door.connect();
    write!(stream, "GET /slow HTTP/1.1\r\nHost: {}\r\n\r\n", door.at).unwrap();
    while door.answered() == 0 {
        std::thread::sleep(Duration::from_millis(5));
    }
    door.stop.take().unwrap().send(()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    assert!(answer.ends_with("GET /slow 0"), "{answer}");
    door.thread.take().unwrap().join().unwrap();
    assert!(TcpStream::connect(door.at).is_err());
}
