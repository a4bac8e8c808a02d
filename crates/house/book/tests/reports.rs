//! Reports in the book: on the disk when acknowledged, amended over what was seen, written out and read in exactly.

use crate::common::{edited, folder, now, open, setup};
use proptest::prelude::*;
use setup::Unwritten;

#[test]
fn a_report_is_there_after_the_book_is_opened_again() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 1);
    assert_eq!(book.reports(1), Ok(Vec::new()));
    assert_eq!(book.file_report(1, "zone.csv", "{\"a\": 1}", &now()), Ok(1));
    assert_eq!(book.file_report(1, "zone.csv", "{\"b\": 2}", &now()), Ok(2));
    assert!(book.file_report(7, "zone.csv", "{}", &now()).is_err());
    assert_eq!(book.amend_report(1, 1, 1, "{\"a\": 3}"), Ok(2));
    drop(book);
    let mut book = open(&path);
    let reports = book.reports(1).unwrap();
    let seen: Vec<_> = reports.iter().map(|r| (r.id, r.edition, r.text.as_str(), r.at.as_str())).collect();
    assert_eq!(seen, [(2, 1, "{\"b\": 2}", "2026-06-11T08:30:00Z"), (1, 2, "{\"a\": 3}", "2026-06-11T08:30:00Z")]);
    assert_eq!(book.check(), []);
    assert_eq!(book.amend_report(1, 1, 1, "late"), Err(Unwritten::Stale { seen: 1, now: 2 }));
    assert!(matches!(book.amend_report(1, 9, 1, "none"), Err(Unwritten::Fault(_))));
}

#[test]
fn a_report_that_was_changed_by_another_hand_is_told_and_not_shown() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 0);
    book.file_report(1, "zone.csv", "nitrate 28", &now()).unwrap();
    drop(book);
    // The first opening of a day looks through everything; this is the second.
    drop(open(&path));
    let file = rusqlite::Connection::open(&path).unwrap();
    file.execute("UPDATE report SET text = 'nitrate 82'", []).unwrap();
    drop(file);
    let book = open(&path);
    assert!(book.reports(1).unwrap_err().what.contains("not what was written"));
    assert!(!book.check().is_empty());
}

#[test]
fn a_report_twice_in_an_export_is_refused() {
    let (_folder, path) = folder();
    let mut book = edited(&path, 0);
    book.file_report(1, "zone.csv", "{}", &now()).unwrap();
    let text = book.export().unwrap();
    let start = text.find("[[tank.report]]").unwrap();
    let twice = format!("{text}\n{}", &text[start..]);
    let faults = book.import("export.toml", &twice, &now()).unwrap_err();
    assert!(faults.to_string().contains("tank 1, report 1 stands twice"), "{faults}");
    assert_eq!(book.export().unwrap(), text);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Any text, any name: the export is the book.
    #[test]
    fn an_export_carries_reports_exactly(texts in proptest::collection::vec((any::<String>(), any::<String>(), 1..=2u64), 0..5)) {
        let (_one, path) = folder();
        let mut book = edited(&path, 1);
        book.add_tank(setup(3), &now()).unwrap();
        for (name, text, tank) in &texts {
            // SQLite keeps a text with a zero byte, but whoever writes TOML can't: no reader makes one.
            let (name, text) = (name.replace('\0', ""), text.replace('\0', ""));
            book.file_report(*tank, &name, &text, &now()).unwrap();
        }
        if let Some(first) = texts.first() {
            book.amend_report(first.2, 1, 1, "amended").unwrap();
        }
        let export = book.export().unwrap();
        let (_two, path) = folder();
        let mut other = edited(&path, 0);
        other.import("export.toml", &export, &now()).unwrap();
        for tank in [1, 2] {
            prop_assert_eq!(other.reports(tank), book.reports(tank));
        }
        prop_assert_eq!(other.export().unwrap(), export);
        prop_assert_eq!(other.check(), vec![]);
    }
}
