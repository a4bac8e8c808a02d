//! Every mistake of `examples/refused/` is refused with the message that is kept beside it, to the letter.
//!
//! After a change of wording, `WRITE_MESSAGES=1 cargo test -p setup --test all refused` writes them anew; read the difference.
#![allow(clippy::disallowed_methods)]

use std::path::{Path, PathBuf};

use setup::Setup;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../examples/refused")
}

fn mistakes() -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder()).expect("the folder of mistakes");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    files.retain(|path| path.extension().is_some_and(|end| end == "toml"));
    files.sort();
    files
}

#[test]
fn each_mistake_has_its_message() {
    let files = mistakes();
    assert!(files.len() >= 20, "only {} mistakes", files.len());
    for path in files {
        let name = path.file_name().unwrap().to_str().unwrap();
        let text = std::fs::read_to_string(&path).unwrap();
        let faults = Setup::read(name, &text).expect_err(name);
        if std::env::var("WRITE_MESSAGES").is_ok() {
            std::fs::write(path.with_extension("txt"), format!("{faults}\n")).unwrap();
        }
        let message = std::fs::read_to_string(path.with_extension("txt")).unwrap_or_default();
        assert_eq!(format!("{faults}\n"), message, "{name}");
    }
}

#[test]
fn each_message_says_where_and_how_to_mend_it() {
    for path in mistakes() {
        let text = std::fs::read_to_string(&path).unwrap();
        let faults = Setup::read("mistake.toml", &text).expect_err("a mistake");
        for fault in &faults.0 {
            assert!(fault.place.line.is_some() && fault.place.excerpt.is_some(), "{fault}");
            assert!(fault.hint.is_some() || fault.expected.is_some(), "{fault}");
        }
    }
}

#[test]
fn all_faults_come_in_one_go() {
    let text = include_str!("../../../../examples/refused/several-at-once.toml");
    let faults = Setup::read("several-at-once.toml", text).unwrap_err();
    let fields: Vec<_> = faults.0.iter().map(|fault| fault.place.field.clone().unwrap_or_default()).collect();
    assert_eq!(fields, ["glass.inner_length", "tap.nitrat", "tap.calcium", "habits.change"]);
}
