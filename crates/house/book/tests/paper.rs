//! The export: readable, exact, editable by hand, checked before it replaces.

use crate::common::{all, edit, edited, folder, names, now, open, setup};
use proptest::prelude::*;
use setup::{Book, Change, Setup};

#[test]
fn an_export_into_another_book_makes_the_same_book() {
    let (_one, path) = folder();
    let mut book = edited(&path, 4);
    book.tank(1, &now()).unwrap().undo().unwrap();
    book.add_tank(setup(9).with("tank.name", "Upstairs").unwrap(), &now()).unwrap();
    edit(&mut book.tank(1, &now()).unwrap(), setup(5)).unwrap();
    let text = book.export().unwrap();

    let (two, path) = folder();
    let mut other = edited(&path, 1);
    let old = other.export().unwrap();
    let copy = other.import("export.toml", &text, &now()).unwrap();
    assert_eq!(other.export().unwrap(), text);
    assert_eq!((other.tanks(), other.last_tank()), (book.tanks(), book.last_tank()));
    for tank in [1, 2] {
        assert_eq!(all(&other.tank(tank, &now()).unwrap()), all(&book.tank(tank, &now()).unwrap()));
    }
    // Undo walks the same way back.
    let (mut one, mut other_tank) = (book.tank(1, &now()).unwrap(), other.tank(1, &now()).unwrap());
    while one.undo().is_some() {
        other_tank.undo().unwrap();
        assert_eq!(one.setup(), other_tank.setup());
    }
    assert_eq!(other_tank.undo(), None);
    assert_eq!(other.check(), []);
    // What was replaced stands beside it, also after a second import in the same second.
    other.import("export.toml", &text, &now()).unwrap();
    assert_eq!(names(&two).iter().filter(|name| name.contains("before-import.2026-06-11T08-30-00Z")).count(), 2);
    assert_eq!(open(&copy).export().unwrap(), old);
}

/// What another program was told is kept, up to the moment of the import, stands in the copy beside the book.
#[test]
#[allow(clippy::disallowed_methods, reason = "a thread stands for the other program")]
fn what_is_written_during_an_import_stands_in_the_copy() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 1);
    let text = book.export().unwrap();
    for _ in 0..40 {
        let (begun, begins) = std::sync::mpsc::channel();
        let other = path.clone();
        let writer = std::thread::spawn(move || {
            let mut book = open(&other);
            let mut view = book.tank(1, &now()).unwrap();
            // Until the import takes the numbers back.
            while let Ok(revision) = {
                let n = view.revision();
                edit(&mut view, setup(n))
            } {
                begun.send(revision).unwrap();
            }
        });
        let first = begins.recv().unwrap();
        let copy = book.import("export.toml", &text, &now()).unwrap();
        let last = begins.iter().last().unwrap_or(first);
        writer.join().unwrap();
        assert_eq!(open(&copy).tank(1, &now()).unwrap().revision(), last);
    }
}

/// Regression only: what a person sees.
#[test]
fn an_export_reads_like_this() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 0);
    let small = Setup::read("tank.toml", "# mine\n[tap]\nnitrate = \"14 mg/L NO3\"\n").unwrap();
    let tank = book.add_tank(small.clone(), &now()).unwrap();
    edit(&mut book.tank(tank, &now()).unwrap(), small.with("tap.nitrate", "16 mg/L NO3").unwrap()).unwrap();
    let expected = r#"format = 1

[[tank]]
id = 2

[[tank.revision]]
number = 2
at = 2026-06-11T08:30:00Z
undo_to = 1
file = "tank.toml"
text = """
# mine
[tap]
nitrate = "16 mg/L NO3"
"""

[[tank.revision.change]]
field = "tap.nitrate"
was = "14 mg/L NO3"
now = "16 mg/L NO3"

[[tank.revision]]
number = 1
at = 2026-06-11T08:30:00Z
file = "tank.toml"
text = """
# mine
[tap]
nitrate = "14 mg/L NO3"
"""

[[tank]]
id = 1
"#;
    let text = book.export().unwrap();
    assert!(text.contains(expected), "{text}");
}

#[test]
fn a_text_edited_by_hand_holds_after_the_import() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 2);
    let text = book.export().unwrap().replacen("76 cm", "77 cm", 1);
    book.import("export.toml", &text, &now()).unwrap();
    let view = book.tank(1, &now()).unwrap();
    assert_eq!(view.setup().unwrap().written("glass.inner_length").unwrap(), "77 cm");
    assert_eq!(view.setup_at(2), Some(&setup(1)));
}

#[test]
fn mistakes_are_told_and_nothing_is_replaced() {
    let (folder, path) = folder();
    let mut book = edited(&path, 2);
    let text = book.export().unwrap();
    let before = std::fs::read(&path).unwrap();
    let mistakes = [
        ("format = 1", "format = 2", "format 2 is unknown"),
        ("number = 2", "number = 7", "stands where 2 is due"),
        ("undo_to = 1", "undo_to = 2", "goes back to no earlier revision"),
        ("id = 1", "id = 0", "no number of a tank"),
        ("at = 2026-06-11T08:30:00Z", "at = 2026-06-11", "no point in time"),
        ("id = 1", "id = 1\ncolour = 3", "colour"),
        ("nitrate = { min = 8, mean = \"10", "nitrate = { min = 8, mean = \"plenty", "plenty"),
        ("[[tank]]", "[[tank", "no export of a book"),
    ];
    for (old, new, told) in mistakes {
        let wrong = text.replacen(old, new, 1);
        assert_ne!(wrong, text, "{old}");
        let faults = book.import("export.toml", &wrong, &now()).unwrap_err().to_string();
        assert!(faults.contains(told) && faults.contains("export.toml"), "{new}:\n{faults}");
    }
    let twice = format!("{text}\n[[tank]]\nid = 1\nrevision = []\n");
    let faults = book.import("export.toml", &twice, &now()).unwrap_err();
    assert_eq!(faults.0.len(), 2, "{faults}");
    assert_eq!(std::fs::read(&path).unwrap(), before);
    assert_eq!(names(&folder), ["book.tapmere"]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any text at all comes back byte for byte, also one that TOML has to write with escapes.
    #[test]
    fn every_text_comes_back(texts in proptest::collection::vec(any::<String>(), 4), crlf in "[\r\n'\"\\\\\t ]{0,12}") {
        let (_folder, path) = folder();
        let mut book = edited(&path, 0);
        let strange = Setup::kept(&texts[0], &format!("{crlf}{}{crlf}", texts[1]));
        let changes =
            vec![Change { field: texts[2].clone(), was: Some(crlf.clone()), now: Some(texts[3].clone()) }];
        let mut view = book.tank(1, &now()).unwrap();
        view.write_over(1, strange, changes.clone()).unwrap();
        view.write_over(2, setup(1), changes).unwrap();
        let before = all(&view);
        let text = book.export().unwrap();
        book.import("export.toml", &text, &now()).map_err(|faults| TestCaseError::fail(faults.to_string()))?;
        prop_assert_eq!(all(&book.tank(1, &now()).unwrap()), before);
        prop_assert_eq!(book.export().unwrap(), text);
    }

    #[test]
    fn no_text_makes_the_import_panic(text in any::<String>(), cut in 0_usize..4000) {
        let (_folder, path) = folder();
        let mut book = edited(&path, 1);
        let export = book.export().unwrap();
        let cut = export.floor_char_boundary(cut.min(export.len()));
        for text in [&text, &export[..cut], &format!("{}{text}{}", &export[..cut], &export[cut..])] {
            let _ = book.import("export.toml", text, &now());
        }
        prop_assert_eq!(book.check(), []);
    }
}
