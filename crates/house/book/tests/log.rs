//! The logbook in the file: it does what the one in memory does, over restarts and exports; undo gives back every state.

use crate::entries;

use crate::common::{folder, now, open, setup};
use book::SqliteBook;
use jiff::Timestamp;
use logbook::{Entry, Filter, Kept, Log, MemoryLog, What};
use proptest::prelude::*;

/// What a keeper or a program does.
#[derive(Clone, Debug)]
enum Act {
    Add(Vec<Entry>),
    /// Of the entries that hold, the one at this place.
    Change(usize, Entry),
    Remove(usize),
    Undo,
    Redo,
    Restart,
    ExportImport,
}

fn act() -> impl Strategy<Value = Act> {
    let some = prop::collection::vec(entries::entry(), 0..4);
    prop_oneof![
        6 => some.prop_map(Act::Add),
        3 => (any::<usize>(), entries::entry()).prop_map(|(at, entry)| Act::Change(at, entry)),
        2 => any::<usize>().prop_map(Act::Remove),
        4 => Just(Act::Undo),
        2 => Just(Act::Redo),
        1 => Just(Act::Restart),
        1 => Just(Act::ExportImport),
    ]
}

/// All that holds, moments as texts.
fn state(log: &dyn Log) -> Vec<(u64, (String, What, String))> {
    let all = log.list(&Filter::default()).unwrap();
    assert!(all.iter().all(|kept| log.entry(kept.id).unwrap().as_ref() == Some(&kept.entry)));
    all.iter().map(|kept| (kept.id, entries::whole(&kept.entry))).collect()
}

fn numbers(log: &dyn Log) -> Vec<u64> {
    let mut all: Vec<u64> = log.list(&Filter::default()).unwrap().iter().map(|kept| kept.id).collect();
    all.sort_unstable();
    all
}

/// The same act on any log; whether it did something. What can't be done gives a fault and changes nothing.
fn edit(log: &mut dyn Log, act: &Act) -> bool {
    let held = numbers(log);
    let pick = |at: usize| held.get(at.checked_rem(held.len()).unwrap_or(0)).copied().unwrap_or(999);
    match act {
        Act::Add(entries) => !log.add(entries.clone()).unwrap().is_empty(),
        Act::Change(at, entry) => log.change(pick(*at), entry.clone()).is_ok(),
        Act::Remove(at) => log.remove(pick(*at)).is_ok(),
        Act::Undo => log.undo().unwrap().is_some(),
        Act::Redo => log.redo().unwrap().is_some(),
        Act::Restart | Act::ExportImport => false,
    }
}

fn book_with_a_tank(path: &std::path::Path) -> SqliteBook {
    let mut book = SqliteBook::create(path).unwrap();
    book.add_tank(setup(0), &now()).unwrap();
    book
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// One run over both logs: after every act they say the same; then all is undone step by step, and each earlier state
    /// comes back exactly, in both; then all is done again.
    #[test]
    fn undo_gives_back_every_earlier_state_in_memory_and_in_the_file(acts in prop::collection::vec(act(), 0..25)) {
        let (_folder, path) = folder();
        let mut book = book_with_a_tank(&path);
        let mut memory = MemoryLog::default();
        // What undo must lead back to, the latest last: the states of the writings that hold.
        let mut past = vec![state(&memory)];
        let mut undone = Vec::new();
        for act in &acts {
            match act {
                Act::Restart => book = open(&path),
                Act::ExportImport => {
                    let text = book.export().unwrap();
                    book.import("export.toml", &text, &now()).map_err(|faults| TestCaseError::fail(faults.to_string()))?;
                    prop_assert_eq!(book.export().unwrap(), text);
                }
                _ => {}
            }
            let did = edit(&mut memory, act);
            let mut file = book.log(1, &now()).unwrap();
            prop_assert_eq!(edit(&mut file, act), did);
            match act {
                Act::Undo if did => undone.extend(past.pop()),
                Act::Redo if did => past.extend(undone.pop()),
                _ if did => {
                    undone.clear();
                    past.push(state(&memory));
                }
                _ => {}
            }
            let held = past.last().unwrap();
            prop_assert_eq!(&state(&memory), held);
            prop_assert_eq!(&state(&file), held);
            prop_assert_eq!(file.last_writing().unwrap(), memory.last_writing().unwrap());
        }
        let forward: Vec<_> = past.clone();
        while let Some(earlier) = past.iter().rev().nth(1).cloned() {
            past.pop();
            prop_assert_eq!(memory.undo().unwrap(), book.log(1, &now()).unwrap().undo().unwrap());
            prop_assert_eq!(&state(&memory), &earlier);
            prop_assert_eq!(&state(&book.log(1, &now()).unwrap()), &earlier);
        }
        prop_assert_eq!(book.log(1, &now()).unwrap().undo().unwrap(), None);
        for later in forward.iter().skip(1) {
            prop_assert_eq!(memory.redo().unwrap(), book.log(1, &now()).unwrap().redo().unwrap());
            prop_assert_eq!(&state(&book.log(1, &now()).unwrap()), later);
        }
        prop_assert_eq!(book.check(), []);
    }

    /// The filter of the file finds what the filter in memory finds.
    #[test]
    fn a_filter_finds_the_same(
        entries in prop::collection::vec(entries::entry(), 0..30),
        from in prop::option::of(520_000_000_i64..1_781_000_000),
        to in prop::option::of(520_000_000_i64..1_781_000_000),
        kinds in prop::sample::subsequence(vec!["test", "dose", "change", "sight", "words"], 0..3),
        of in prop::option::of(prop::sample::select(vec!["nitrate", "ph"])),
        words in prop::option::of("[a-zA-ZßÄ,\n]{0,2}"),
        last in prop::option::of(0..6_usize),
        lately in prop::collection::vec((prop::sample::select(vec!["test", "dose"]), 520_000_000_i64..1_781_000_000), 0..3),
    ) {
        let (_folder, path) = folder();
        let mut book = book_with_a_tank(&path);
        let mut file = book.log(1, &now()).unwrap();
        let mut memory = MemoryLog::default();
        prop_assert_eq!(file.add(entries.clone()).unwrap(), memory.add(entries).unwrap());
        let at = |second: Option<i64>| second.map(|second| Timestamp::from_second(second).unwrap());
        let kinds = kinds.into_iter().map(str::to_owned).collect();
        let lately = lately.into_iter().map(|(kind, from)| (kind.to_owned(), at(Some(from)).unwrap())).collect();
        let filter = Filter { from: at(from), to: at(to), kinds, of: of.map(str::to_owned), words, lately, last };
        prop_assert_eq!(file.list(&filter).unwrap(), memory.list(&filter).unwrap());
    }
}

fn words(note: &str) -> Entry {
    Entry { at: entries::now(), what: What::Words, note: note.to_owned() }
}

#[test]
fn each_tank_has_its_own_log() {
    let (_folder, path) = folder();
    let mut book = book_with_a_tank(&path);
    book.add_tank(setup(1), &now()).unwrap();
    book.log(2, &now()).unwrap().add(vec![words("upstairs")]).unwrap();
    assert_eq!(book.log(1, &now()).unwrap().undo().unwrap(), None);
    assert_eq!(book.log(1, &now()).unwrap().list(&Filter::default()).unwrap(), []);
    let kept = Kept { id: 1, entry: words("upstairs") };
    assert_eq!(book.log(2, &now()).unwrap().list(&Filter::default()).unwrap(), [kept]);
    assert!(book.log(3, &now()).is_err_and(|fault| fault.what.contains("there is no tank 3")));
}

#[test]
fn numbers_are_never_given_again() {
    let (_folder, path) = folder();
    let mut book = book_with_a_tank(&path);
    let mut log = book.log(1, &now()).unwrap();
    assert_eq!(log.add(vec![words("a"), words("b")]).unwrap(), [1, 2]);
    log.undo().unwrap();
    assert_eq!(log.add(vec![words("c")]).unwrap(), [3]);
    assert_eq!(log.last_writing().unwrap().unwrap().number, 2);
    let text = book.export().unwrap();
    let (_other, path) = folder();
    let mut other = book_with_a_tank(&path);
    other.import("export.toml", &text, &now()).unwrap();
    assert_eq!(other.log(1, &now()).unwrap().add(vec![words("d")]).unwrap(), [4]);
}

#[test]
fn a_log_edited_by_hand_is_read_in_and_mistakes_are_told() {
    let (_folder, path) = folder();
    let mut book = book_with_a_tank(&path);
    let mut log = book.log(1, &now()).unwrap();
    log.add(vec![words("a leaf"), Entry { what: What::Food { grams: 0.3 }, ..words("") }]).unwrap();
    log.change(1, words("a stem")).unwrap();
    let text = book.export().unwrap();
    book.import("export.toml", &text.replacen("grams = 0.3", "grams = 0.25", 1), &now()).unwrap();
    let held = book.log(1, &now()).unwrap().list(&Filter::default()).unwrap();
    assert_eq!(held[0].entry.what, What::Food { grams: 0.25 });
    book.log(1, &now()).unwrap().undo().unwrap();
    assert_eq!(book.log(1, &now()).unwrap().list(&Filter::default()).unwrap()[1].entry.note, "a leaf");
    for (old, new, told) in [
        ("grams = 0.3", "gramms = 0.3", "gramms"),
        ("grams = 0.3", "grams = 0.3\ncolour = 1", "colour"),
        ("number = 2\nat = \"", "number = 1\nat = \"", "entry 1 stands twice"),
        ("at = \"2026-06-11T09:15", "at = \"2026-16-11T09:15", "has no moment"),
        ("did = \"changed\"", "did = \"sung\"", "sung"),
    ] {
        let wrong = text.replacen(old, new, 1);
        assert_ne!(wrong, text, "{old}\n{text}");
        let faults = book.import("export.toml", &wrong, &now()).unwrap_err().to_string();
        assert!(faults.contains(told) && faults.contains("export.toml"), "{new}:\n{faults}");
    }
}
