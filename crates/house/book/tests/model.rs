//! Random lives of a book, held against the book in memory.

use crate::common;

use crate::common::{all, folder, now, open, setup};
use proptest::prelude::*;
use setup::{Book, Change, MemoryBook, Setup};

#[derive(Clone, Debug)]
enum Step {
    Write(Setup, Vec<Change>),
    WriteStale(u64),
    Undo,
    OtherProgram(u64),
    Restart,
    ExportImport,
}

/// Texts that a setup file may never have, too: the book keeps what it is given.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<String>(),
        "[a-z'\"\\\\\r\n\t\u{0}\u{7f}\u{feff}# =\\[\\]]{0,60}",
        Just("'''\"\"\"\r\n".to_owned())
    ]
}

fn change() -> impl Strategy<Value = Change> {
    let maybe = || proptest::option::of(text());
    (text(), maybe(), maybe()).prop_map(|(field, was, now)| Change { field, was, now })
}

fn step() -> impl Strategy<Value = Step> {
    let any_setup = prop_oneof![
        3 => (0_u64..50).prop_map(setup),
        1 => (text(), text()).prop_map(|(file, text)| Setup::kept(&file, &text)),
    ];
    prop_oneof![
        6 => (any_setup, proptest::collection::vec(change(), 0..4)).prop_map(|(s, c)| Step::Write(s, c)),
        1 => (0_u64..50).prop_map(Step::WriteStale),
        4 => Just(Step::Undo),
        1 => (0_u64..50).prop_map(Step::OtherProgram),
        1 => Just(Step::Restart),
        1 => Just(Step::ExportImport),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn it_does_what_the_book_in_memory_does(steps in proptest::collection::vec(step(), 0..30)) {
        let (_folder, path) = folder();
        let mut book = common::edited(&path, 0);
        let mut model = MemoryBook::open(setup(0));
        for step in steps {
            let seen = model.revision();
            match step {
                Step::Write(setup, changes) => {
                    let written = book.tank(1, &now()).unwrap().write_over(seen, setup.clone(), changes.clone());
                    prop_assert_eq!(written.ok(), Some(model.write(setup, changes)));
                }
                Step::WriteStale(by) => {
                    let (other, setup) = (if by == 0 { seen + 1 } else { seen.saturating_sub(by) }, setup(by));
                    let written = book.tank(1, &now()).unwrap().write_over(other, setup.clone(), vec![]);
                    prop_assert_eq!(written, model.write_over(other, setup, vec![]));
                }
                Step::Undo => {
                    let undone = book.tank(1, &now()).unwrap().undo_over(seen);
                    prop_assert_eq!(undone.ok(), Some(model.undo()));
                }
                Step::OtherProgram(n) => {
                    open(&path).tank(1, &now()).unwrap().write(setup(n), vec![]);
                    model.write(setup(n), vec![]);
                }
                Step::Restart => book = open(&path),
                Step::ExportImport => {
                    let text = book.export().unwrap();
                    // What no setup file may say can be kept and undone, but not imported as what holds.
                    if book.import("export.toml", &text, &now()).is_ok() {
                        prop_assert_eq!(book.export().unwrap(), text);
                    }
                }
            }
            prop_assert_eq!(all(&book.tank(1, &now()).unwrap()), all(&model));
        }
        prop_assert_eq!(book.check(), []);
    }
}
