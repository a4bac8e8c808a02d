//! What the book costs: an edit on the disk, a page's look into a small book and into one of 50 tanks with 1,000 revisions
//! each, opening, checking, writing out. `docs/book.md` has the numbers.
#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use book::{SqliteBook, Stamp};
use divan::Bencher;
use setup::{Book, Change, Setup};
use tempfile::TempDir;

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

/// Tanks and revisions of each.
const SIZES: [(u64, u64); 3] = [(1, 10), (1, 1000), (50, 1000)];

fn main() {
    divan::main();
}

fn now() -> Stamp {
    Stamp::read("2026-06-11T08:30:00Z").unwrap()
}

fn setup(n: u64) -> (Setup, Vec<Change>) {
    let now = format!("{} mg/L NO3", 8 + n % 13);
    let text = HOUSEHOLD.replace("14 mg/L NO3", &now);
    let was = Some("14 mg/L NO3".to_owned());
    (Setup::kept("tank.toml", &text), vec![Change { field: "tap.nitrate".to_owned(), was, now: Some(now) }])
}

/// A place on the disk, not in memory.
fn on_disk() -> TempDir {
    tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap()
}

/// Built in memory where the system has such a place, then copied to the disk.
fn build(to: &Path, tanks: u64, revisions: u64) {
    let folder = tempfile::tempdir_in("/dev/shm").unwrap_or_else(|_| on_disk());
    let mut book = SqliteBook::create(&folder.path().join("book")).unwrap();
    for _ in 0..tanks {
        let tank = book.add_tank(setup(0).0, &now()).unwrap();
        let mut view = book.tank(tank, &now()).unwrap();
        for n in 1..revisions {
            let (setup, changes) = setup(n);
            view.write_over(n, setup, changes).unwrap();
        }
    }
    book.backup(to).unwrap();
}

static BUILT: LazyLock<(TempDir, Vec<PathBuf>)> = LazyLock::new(|| {
    let folder = on_disk();
    let paths: Vec<PathBuf> = SIZES.iter().map(|(t, r)| folder.path().join(format!("{t}x{r}"))).collect();
    for ((tanks, revisions), path) in SIZES.iter().zip(&paths) {
        build(path, *tanks, *revisions);
        println!("{tanks} tanks x {revisions} revisions: {} bytes", std::fs::metadata(path).unwrap().len());
        // Today's copy is made here, not in the first sample.
        open(path);
    }
    (folder, paths)
});

fn open(path: &Path) -> SqliteBook {
    SqliteBook::open(path, &now()).unwrap_or_else(|fault| panic!("{fault}")).book
}

fn built(size: usize) -> &'static Path {
    &BUILT.1[size]
}

#[divan::bench(args = [0, 1, 2], sample_count = 20, sample_size = 1)]
fn a_program_opens_the_book(bencher: Bencher, size: usize) {
    let path = built(size);
    bencher.bench(|| open(path));
}

/// What a page asks: the list of tanks, the last one, its setup and an older revision.
#[divan::bench(args = [0, 1, 2])]
fn a_page_looks(bencher: Bencher, size: usize) {
    let mut book = open(built(size));
    bencher.bench_local(|| {
        let tanks = book.tanks().unwrap().len();
        let last = book.last_tank().unwrap().unwrap();
        let view = book.tank(last, &now()).unwrap();
        let before = view.setup_at(view.revision() - 1).map(|setup| setup.text().len());
        (tanks, view.setup().map(|setup| setup.text().len()), before)
    });
}

#[divan::bench(args = [0, 1, 2], sample_count = 50, sample_size = 1)]
fn an_edit_is_on_the_disk(bencher: Bencher, size: usize) {
    let mut book = open(built(size));
    bencher.with_inputs(|| setup(7)).bench_local_values(|(setup, changes)| {
        let mut view = book.tank(1, &now()).unwrap();
        view.write_over(view.revision(), setup, changes).unwrap()
    });
}

/// What the disk takes for the same without a book: a file of 8 kB written and synced.
#[divan::bench(sample_count = 50, sample_size = 1)]
fn one_sync_of_the_disk(bencher: Bencher) {
    use std::io::Write;
    let folder = on_disk();
    let mut file = std::fs::File::create(folder.path().join("plain")).unwrap();
    bencher.bench_local(|| {
        file.write_all(&[7; 8192]).unwrap();
        file.sync_all().unwrap();
    });
}

#[divan::bench(args = [1, 2], sample_count = 3, sample_size = 1)]
fn the_whole_check(bencher: Bencher, size: usize) {
    let book = open(built(size));
    bencher.bench_local(|| book.check());
}

#[divan::bench(args = [1, 2], sample_count = 3, sample_size = 1)]
fn written_out(bencher: Bencher, size: usize) {
    let book = open(built(size));
    bencher.bench_local(|| book.export().unwrap());
}

#[divan::bench(args = [1], sample_count = 3, sample_size = 1)]
fn read_in(bencher: Bencher, size: usize) {
    let text = open(built(size)).export().unwrap();
    let folder = on_disk();
    let mut book = SqliteBook::create(&folder.path().join("book")).unwrap();
    bencher.bench_local(|| book.import("export.toml", &text, &now()).unwrap());
}
