//! Tanks of one tap keep one water, whatever is edited, undone, left or joined; the book does what the shelf in memory does.

use crate::common;

use std::collections::BTreeMap;

use crate::common::{folder, now, open};
use proptest::prelude::*;
use setup::{Book, MemoryShelf, Setup, Shelf};

/// Tanks on the shelf.
const TANKS: u64 = 3;

#[derive(Clone, Debug)]
enum Step {
    Edit(u64, &'static str, &'static str),
    Undo(u64),
    Restart,
    ExportImport,
}

fn step() -> impl Strategy<Value = Step> {
    let edits: [(&str, &[&str]); 4] = [
        ("tap.chloride", &["", "20 mg/L", "30 mg/L", "40 mg/L"]),
        ("pipes.copper", &["", "0.001 mg/L"]),
        ("animals.fish", &["3", "9"]),
        ("tap.name", &["", "kitchen", "garden"]),
    ];
    let pairs: Vec<(&str, &str)> =
        edits.iter().flat_map(|(field, texts)| texts.iter().map(|text| (*field, *text))).collect();
    let edit = proptest::sample::select(pairs);
    prop_oneof![
        6 => (1..=TANKS, edit).prop_map(|(tank, (field, text))| Step::Edit(tank, field, text)),
        2 => (1..=TANKS).prop_map(Step::Undo),
        1 => Just(Step::Restart),
        1 => Just(Step::ExportImport),
    ]
}

/// What is said of the tap.
fn water(setup: &Setup) -> BTreeMap<String, String> {
    let of_tap = |path: &String| path.starts_with("tap.") || path.starts_with("pipes.");
    setup.entries().into_iter().filter(|(path, _)| of_tap(path)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn tanks_of_one_tap_have_one_water(steps in proptest::collection::vec(step(), 0..25)) {
        let (_folder, path) = folder();
        let mut book = common::edited(&path, 0);
        let mut model = MemoryShelf::of(common::setup(0));
        for n in 1..TANKS {
            let setup = common::setup(n);
            prop_assert_eq!(book.add_tank(setup.clone(), &now()), model.add(setup));
        }
        for step in steps {
            match step {
                Step::Edit(tank, field, text) => {
                    let mut kept = model.open(tank).unwrap();
                    let setup = kept.setup().unwrap().with(field, text).unwrap();
                    let changes = kept.setup().unwrap().changes_to(&setup);
                    let seen = kept.revision();
                    let written = kept.write_over(seen, setup.clone(), changes.clone());
                    drop(kept);
                    prop_assert_eq!(book.tank(tank, &now()).unwrap().write_over(seen, setup, changes), written);
                }
                Step::Undo(tank) => {
                    let mut kept = model.open(tank).unwrap();
                    let seen = kept.revision();
                    let undone = kept.undo_over(seen);
                    drop(kept);
                    prop_assert_eq!(book.tank(tank, &now()).unwrap().undo_over(seen), undone);
                }
                Step::Restart => book = open(&path),
                Step::ExportImport => {
                    let text = book.export().unwrap();
                    prop_assert!(book.import("export.toml", &text, &now()).is_ok());
                }
            }
            prop_assert_eq!(book.tanks().unwrap(), model.tanks().unwrap());
            let mut taps: BTreeMap<String, BTreeMap<String, String>> = BTreeMap::new();
            for tank in 1..=TANKS {
                let ours = book.tank(tank, &now()).unwrap();
                let theirs = model.open(tank).unwrap();
                prop_assert_eq!(ours.setup(), theirs.setup());
                prop_assert_eq!(ours.last_changes(), theirs.last_changes());
                let setup = theirs.setup().unwrap();
                if let Some(tap) = setup.tap_name() {
                    prop_assert_eq!(taps.entry(tap).or_insert_with(|| water(setup)), &water(setup));
                }
            }
        }
        prop_assert_eq!(book.check(), []);
    }
}
