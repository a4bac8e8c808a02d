//! What a long log costs: the pages with 100,000 entries beside those of an empty log, in the same run; entries found and
//! written; the table out and in. `docs/bench/log.md` has the numbers.
#![allow(clippy::unwrap_used)]

use std::path::PathBuf;
use std::sync::LazyLock;

use app::house::Kept;
use book::{SqliteBook, Stamp};
use divan::Bencher;
use http::Request;
use jiff::{ToSpan, ZonedDateTime};
use logbook::{Entry, Filter, Log, Reading, Sure, What, table};
use pages::{Ctx, House};
use quantity::Units;
use setup::Setup;
use tempfile::TempDir;

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

/// Entries of the log.
const SIZES: [usize; 3] = [0, 1_000, 100_000];

fn main() {
    divan::main();
}

fn now() -> ZonedDateTime {
    "2026-06-11T09:00:00+02:00[Europe/Berlin]".parse().unwrap()
}

fn stamp() -> Stamp {
    Stamp::read("2026-06-11T08:30:00Z").unwrap()
}

/// The n-th entry before now, some twenty a day: what a keen keeper writes.
fn entry(n: usize) -> Entry {
    let at = now().checked_sub((70 * n as i64).minutes()).unwrap();
    let reading = |of: &str, value: f64| {
        What::Test(Reading {
            of: of.to_owned(),
            value,
            below: false,
            error: None,
            kit: Some("colours".to_owned()),
            sure: Sure::Plain,
        })
    };
    let what = match n % 20 {
        0 => reading("nitrate", 5.0 + (n % 17) as f64),
        1 => reading("ph", 7.0 + 0.01 * (n % 40) as f64),
        2 => reading("phosphate", 0.1 * (1 + n % 9) as f64),
        3 if n.is_multiple_of(7) => What::Change { litres: 25.0 },
        4 => What::Sight { sight: "brown_film".to_owned() },
        5..=9 => What::Food { grams: 0.1 },
        10..=13 => What::Dose { bottle: format!("Bottle {}", n % 2 + 1), ml: 10.0 },
        _ => What::Words,
    };
    Entry { at, what, note: format!("entry {n}, what I saw that morning") }
}

fn build(entries: usize) -> PathBuf {
    let path = FOLDER.path().join(format!("book-{entries}"));
    let mut book = SqliteBook::create(&path).unwrap();
    let tank = book.add_tank(Setup::read("tank.toml", HOUSEHOLD).unwrap(), &stamp()).unwrap();
    book.log(tank, &stamp()).unwrap().add((0..entries).map(entry).collect()).unwrap();
    println!("{entries} entries: {} bytes", std::fs::metadata(&path).unwrap().len());
    path
}

static FOLDER: LazyLock<TempDir> = LazyLock::new(|| tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap());
static BUILT: LazyLock<[PathBuf; 3]> = LazyLock::new(|| SIZES.map(build));

fn open(size: usize) -> SqliteBook {
    SqliteBook::open(&BUILT[size], &stamp()).unwrap_or_else(|fault| panic!("{fault}")).book
}

/// A page as it is written, its plan known already.
fn page(bencher: Bencher, size: usize, address: &str) {
    let (house, mut shelf) = (House::new(), Kept(open(size)));
    let mut get = || {
        let mut ctx = Ctx { shelf: &mut shelf, now: now(), base: "/".to_owned(), seed: 0 };
        let answer = house.answer(&mut ctx, &Request::get(address).body(Vec::new()).unwrap());
        assert_eq!(answer.status(), 200, "{address}");
        answer.body().len()
    };
    get();
    bencher.bench_local(get);
}

#[divan::bench(args = [0, 1, 2], sample_count = 30, sample_size = 1)]
fn the_page_log(bencher: Bencher, size: usize) {
    page(bencher, size, "/tank/1/log");
}

#[divan::bench(args = [0, 1, 2], sample_count = 30, sample_size = 1)]
fn the_page_log_of_one_kind(bencher: Bencher, size: usize) {
    page(bencher, size, "/tank/1/log?kind=change");
}

#[divan::bench(args = [0, 1, 2], sample_count = 10, sample_size = 1)]
fn the_page_log_looking_for_words_that_stand_nowhere(bencher: Bencher, size: usize) {
    page(bencher, size, "/tank/1/log?words=elephant");
}

#[divan::bench(args = [0, 1, 2], sample_count = 30, sample_size = 1)]
fn the_page_care(bencher: Bencher, size: usize) {
    page(bencher, size, "/tank/1/care");
}

#[divan::bench(args = [0, 1, 2], sample_count = 30, sample_size = 1)]
fn an_entry_is_on_the_disk(bencher: Bencher, size: usize) {
    let mut book = open(size);
    let mut log = book.log(1, &stamp()).unwrap();
    bencher.bench_local(|| log.add(vec![entry(7)]).unwrap());
    // So that the next benchmark finds the log as it was.
    while log.last_writing().unwrap().is_some_and(|writing| writing.number > 1) {
        log.undo().unwrap();
    }
}

#[divan::bench(args = [1, 2], sample_count = 3, sample_size = 1)]
fn the_table_out(bencher: Bencher, size: usize) {
    let mut book = open(size);
    bencher.bench_local(|| table::write(&book.log(1, &stamp()).unwrap().list(&Filter::default()).unwrap()).len());
}

#[divan::bench(args = [1, 2], sample_count = 3, sample_size = 1)]
fn the_table_in(bencher: Bencher, size: usize) {
    let mut book = open(size);
    let text = table::write(&book.log(1, &stamp()).unwrap().list(&Filter::default()).unwrap());
    bencher.bench_local(|| {
        let entries = table::read("log.csv", &text, &now(), &Units::default()).unwrap();
        let mut log = book.log(1, &stamp()).unwrap();
        log.add(entries).unwrap();
        log.undo().unwrap()
    });
}

#[divan::bench(args = [1, 2], sample_count = 3, sample_size = 1)]
fn the_whole_check(bencher: Bencher, size: usize) {
    let book = open(size);
    bencher.bench_local(|| assert!(book.check().is_empty()));
}
