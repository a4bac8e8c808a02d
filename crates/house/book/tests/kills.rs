//! A program that is killed in the middle of writing: nothing acknowledged is lost, and the book opens.
//!
//! The child is this test binary again; it writes without end and prints each number that it was given back. It is killed
//! by SIGKILL after a few milliseconds, the book is opened, and everything printed must be there. A killed process tests
//! that a change is whole or not there; that it outlives a power cut rests on SQLite's promise and on the disk's.
//!
//! A hundred kills by themselves; a thousand by
//! `TAPMERE_KILLS=1000 cargo test --release -p book --test all kills -- --nocapture`.
#![cfg(unix)]
#![allow(clippy::disallowed_methods)]

use crate::common;

use std::io::{Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use crate::common::{all, now, open, setup};
use book::SqliteBook;
use logbook::{Entry, Filter, Log, MemoryLog, What};
use setup::{Book, Setup};

const TASK: &str = "TAPMERE_KILLS_TASK";
const BOOK: &str = "TAPMERE_KILLS_BOOK";

fn kills() -> u64 {
    std::env::var("TAPMERE_KILLS").ok().and_then(|text| text.parse().ok()).unwrap_or(100)
}

/// What the child does; without a task it is an empty test.
#[test]
fn child() {
    let (Ok(task), Ok(path)) = (std::env::var(TASK), std::env::var(BOOK)) else { return };
    let path = Path::new(&path);
    match task.as_str() {
        "write" => write(path),
        "import" => import(path),
        "log" => log(path),
        _ => create(path),
    }
}

fn say(line: &str) {
    let mut out = std::io::stdout().lock();
    writeln!(out, "{line}").unwrap();
    out.flush().unwrap();
}

/// The setup that stands in a revision is known from its number; every fifth edit is an undo.
fn write(path: &Path) {
    let mut book = SqliteBook::open(path, &now()).unwrap().book;
    let mut view = book.tank(1, &now()).unwrap();
    say("ack begun");
    for n in view.revision() + 1.. {
        let seen = n - 1;
        let written = if n % 5 == 0 {
            view.undo_over(seen).unwrap().unwrap()
        } else {
            let changes = view.setup().unwrap().changes_to(&setup(n));
            view.write_over(seen, setup(n), changes).unwrap()
        };
        say(&format!("ack {written}"));
    }
}

/// What [`write`] must have left in each revision.
fn expected(revisions: u64) -> Vec<Option<Setup>> {
    let mut all: Vec<Option<Setup>> = vec![Some(setup(0))];
    for n in 2..=revisions {
        all.push(if n % 5 == 0 { all[all.len() - 2].clone() } else { Some(setup(n)) });
    }
    all
}

/// Replaces the whole book by one of three exports, in turn.
fn import(path: &Path) {
    let mut book = SqliteBook::open(path, &now()).unwrap().book;
    let exports = exports(path);
    say("ack begun");
    for n in 0.. {
        let copy = book.import("export.toml", &exports[n % 3], &now()).unwrap();
        std::fs::remove_file(copy).unwrap();
        say(&format!("ack {n}"));
    }
}

const FROM: &str = "TAPMERE_KILLS_FROM";

/// Step `n` of the life of a log: two entries are written, one is changed or taken out, something is undone or done again.
fn step(log: &mut dyn Log, n: u64) {
    let entry = |what: &str| Entry {
        at: logbook::moment(&format!("2026-06-11T08:30:00.{:09}Z", n % 1_000_000)).unwrap(),
        what: What::Words,
        note: format!("{n} {what}"),
    };
    let newest = log.list(&Filter { last: Some(1), ..Filter::default() }).unwrap().first().map(|kept| kept.id);
    match (n % 8, newest) {
        (2, Some(id)) => log.change(id, entry("changed")).unwrap(),
        (5, Some(id)) => log.remove(id).unwrap(),
        (3 | 6, _) => drop(log.undo().unwrap()),
        (4, _) => drop(log.redo().unwrap()),
        _ => drop(log.add(vec![entry("one"), entry("two")]).unwrap()),
    }
}

/// Steps of a log without end, from the one that is told.
fn log(path: &Path) {
    let mut book = SqliteBook::open(path, &now()).unwrap().book;
    let mut log = book.log(1, &now()).unwrap();
    let from: u64 = std::env::var(FROM).unwrap().parse().unwrap();
    say("ack begun");
    for n in from.. {
        step(&mut log, n);
        say(&format!("ack {n}"));
    }
}

fn exports(path: &Path) -> [String; 3] {
    ["0.toml", "1.toml", "2.toml"].map(|name| std::fs::read_to_string(path.with_file_name(name)).unwrap())
}

fn create(path: &Path) {
    say("ack begun");
    for n in 0.. {
        let path = path.with_file_name(format!("new-{n}"));
        drop(SqliteBook::create(&path).unwrap());
        say(&format!("ack {n}"));
    }
}

/// Start the child, kill it some time after it has acknowledged `acks` times, and give back what it acknowledged.
fn killed(task: &str, path: &Path, acks: usize, after: Duration) -> Vec<u64> {
    killed_from(task, path, 0, acks, after)
}

/// The same for a task that goes on from somewhere.
fn killed_from(task: &str, path: &Path, from: u64, acks: usize, after: Duration) -> Vec<u64> {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "kills::child", "--nocapture"])
        .envs([(TASK, task.as_ref()), (BOOK, path.as_os_str())])
        .env(FROM, from.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut out = child.stdout.take().unwrap();
    let mut said = Vec::new();
    // "begun" is one more.
    while said.split_inclusive(|byte| *byte == b'\n').filter(|line| is_ack(line)).count() <= acks {
        let mut byte = [0];
        if out.read(&mut byte).unwrap() == 0 {
            break;
        }
        said.push(byte[0]);
    }
    std::thread::sleep(after);
    child.kill().unwrap();
    child.wait().unwrap();
    let mut errors = String::new();
    child.stderr.take().unwrap().read_to_string(&mut errors).unwrap();
    out.read_to_end(&mut said).unwrap();
    let said = String::from_utf8(said).unwrap();
    assert!(said.contains("ack begun") && !errors.contains("panicked"), "{said}\n{errors}");
    said.lines().filter_map(|line| line.strip_prefix("ack ")?.parse().ok()).collect()
}

/// A whole line with an acknowledgement.
fn is_ack(line: &[u8]) -> bool {
    line.starts_with(b"ack ") && line.ends_with(b"\n")
}

/// Moments spread evenly over `span`, in an order that repeats late (steps of the golden section).
fn moment(n: u64, span: Duration) -> Duration {
    span.mul_f64((n as f64 * 0.618_033_988_75).fract())
}

fn journal(path: &Path) -> bool {
    let journal = path.with_file_name(format!("{}-journal", path.file_name().unwrap().to_str().unwrap()));
    std::fs::metadata(journal).is_ok_and(|file| file.len() > 0)
}

/// On a real disk, not in memory.
fn folder() -> tempfile::TempDir {
    tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap()
}

#[test]
fn nothing_acknowledged_is_lost() {
    let kills = kills();
    let (mut in_the_middle, mut unsaid, mut acknowledged) = (0, 0, 0);
    let mut place = None;
    for n in 0..kills {
        // A new book now and then, so that reading it all after each kill stays quick.
        if n % 50 == 0 {
            place = None;
        }
        let folder = place.get_or_insert_with(folder);
        let path = folder.path().join("book.tapmere");
        if n % 50 == 0 {
            drop(common::edited(&path, 0));
            drop(open(&path));
        }
        let said = killed("write", &path, n as usize % 3, moment(n, Duration::from_millis(30)));
        in_the_middle += u64::from(journal(&path));
        acknowledged += said.len() as u64;

        let mut book = open(&path);
        assert_eq!(book.check(), [], "kill {n}");
        let view = book.tank(1, &now()).unwrap();
        if let Some(last) = said.last() {
            assert!(view.revision() >= *last, "kill {n}: {last} was acknowledged, {} is there", view.revision());
            assert!(view.revision() <= last + 1, "kill {n}");
            unsaid += view.revision() - last;
        }
        assert_eq!(all(&view).0, expected(view.revision()), "kill {n}");
    }
    println!(
        "{kills} kills, {acknowledged} edits acknowledged, none lost; {in_the_middle} kills left a journal to play \
         back, {unsaid} left an edit that was written and not yet acknowledged"
    );
    assert!(acknowledged >= kills - kills.div_ceil(3), "only {acknowledged} edits were acknowledged");
    assert!(in_the_middle * 20 > kills, "only {in_the_middle} of {kills} kills fell into a write");
}

#[test]
fn nothing_acknowledged_of_the_log_is_lost() {
    let kills = kills();
    let (mut in_the_middle, mut unsaid, mut acknowledged) = (0, 0, 0);
    let (mut place, mut model, mut done) = (None, MemoryLog::default(), 0);
    for n in 0..kills {
        if n % 50 == 0 {
            (place, model, done) = (None, MemoryLog::default(), 0);
        }
        let folder = place.get_or_insert_with(folder);
        let path = folder.path().join("book.tapmere");
        if n % 50 == 0 {
            drop(common::edited(&path, 0));
            drop(open(&path));
        }
        let said = killed_from("log", &path, done, n as usize % 3, moment(n, Duration::from_millis(30)));
        in_the_middle += u64::from(journal(&path));
        acknowledged += said.len() as u64;
        for _ in &said {
            step(&mut model, done);
            done += 1;
        }
        let mut book = open(&path);
        assert_eq!(book.check(), [], "kill {n}");
        let log = book.log(1, &now()).unwrap();
        let state = |log: &dyn Log| (log.list(&Filter::default()).unwrap(), log.last_writing().unwrap());
        if state(&log) != state(&model) {
            // The step that was written and not yet acknowledged.
            step(&mut model, done);
            done += 1;
            unsaid += 1;
        }
        assert_eq!(state(&log), state(&model), "kill {n} after {said:?}");
    }
    println!(
        "{kills} kills, {acknowledged} steps of a log acknowledged, none lost; {in_the_middle} kills left a journal to \
         play back, {unsaid} left a step that was written and not yet acknowledged"
    );
    assert!(acknowledged >= kills - kills.div_ceil(3), "only {acknowledged} steps were acknowledged");
    assert!(in_the_middle * 20 > kills, "only {in_the_middle} of {kills} kills fell into a write");
}

#[test]
fn an_import_is_there_whole_or_not_at_all() {
    let folder = folder();
    let path = folder.path().join("book.tapmere");
    for (name, edits) in [("0", 40), ("1", 60), ("2", 20)] {
        let book = common::edited(&folder.path().join(name), edits);
        std::fs::write(path.with_file_name(format!("{name}.toml")), book.export().unwrap()).unwrap();
    }
    std::fs::copy(folder.path().join("0"), &path).unwrap();
    let exports = exports(&path);
    let (kills, mut in_the_middle) = (kills() / 4, 0);
    for n in 0..kills {
        let said = killed("import", &path, n as usize % 2, moment(n, Duration::from_millis(200)));
        in_the_middle += u64::from(journal(&path));
        let book = open(&path);
        assert_eq!(book.check(), [], "kill {n}");
        let now = book.export().unwrap();
        let which = exports.iter().position(|export| *export == now);
        assert!(which.is_some(), "kill {n} after {said:?}: none of the three");
        // The one that was acknowledged last, or the one that came after it.
        if let (Some(which), Some(last)) = (which, said.last()) {
            assert!([last % 3, (last + 1) % 3].contains(&(which as u64)), "kill {n} after {said:?}: {which}");
        }
    }
    println!("{kills} kills in an import, {in_the_middle} left a journal to play back");
    assert!(in_the_middle > 0, "no kill fell into an import");
}

#[test]
fn a_book_is_made_whole_or_can_be_made_again() {
    for n in 0..kills() / 4 {
        let folder = folder();
        let path = folder.path().join("book.tapmere");
        let said = killed("create", &path, n as usize % 2, moment(n, Duration::from_millis(40)));
        for n in &said {
            assert_eq!(open(&path.with_file_name(format!("new-{n}"))).check(), []);
        }
        // The one that it was making.
        let path = path.with_file_name(format!("new-{}", said.len()));
        match SqliteBook::open(&path, &now()) {
            Ok(opened) => assert_eq!(opened.book.check(), []),
            Err(_) => assert_eq!(SqliteBook::create(&path).unwrap().check(), []),
        }
    }
}
