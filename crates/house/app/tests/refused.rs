//! The folder of mistakes: each file is one mistake, and the text beside it is exactly what the command line says.
//!
//! `TAPMERE_BLESS=1` writes the texts anew; read them as a page before you keep them.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::tree::{none, snapshot, top};

/// All mistakes with an ending.
fn mistakes(ending: &str) -> Vec<PathBuf> {
    let folder = top().join("examples/refused");
    let all = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<PathBuf> = all.filter(|p| p.extension().is_some_and(|e| e == ending)).collect();
    files.sort();
    files
}

/// What the program says of a file: its exit code, and everything on the standard error.
fn said(command: &[&str], file: &Path) -> (i32, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_tapmere"))
        .args(command)
        .arg(file.file_name().unwrap())
        .current_dir(file.parent().unwrap())
        .output()
        .unwrap();
    (output.status.code().unwrap(), String::from_utf8(output.stderr).unwrap())
}

fn check(command: &[&str], files: &[PathBuf]) {
    for file in files {
        let (code, text) = said(command, file);
        let name = file.file_name().unwrap().to_string_lossy();
        assert!(code == 1 || code == 2, "{name} was not refused: {code}");
        assert!(
            text.starts_with("error: ") && text.contains(name.as_ref()),
            "{name}: no fault with its place:\n{text}"
        );
        snapshot(&file.with_extension("txt"), &text);
    }
}

#[test]
fn batches_are_refused_with_the_text_beside_them() {
    let files = mistakes("csv");
    assert!(files.len() >= 20, "{} mistakes", files.len());
    check(&["water", "solve"], &files);
}

#[test]
fn setups_are_refused_with_the_text_beside_them() {
    check(&["dose"], &mistakes("toml"));
}

/// A fault says what was expected or how to mend it; a bare "wrong" helps nobody.
#[test]
fn every_fault_shows_a_way_out() {
    let mut wrong = Vec::new();
    for file in [mistakes("csv"), mistakes("toml")].concat() {
        let text = std::fs::read_to_string(file.with_extension("txt")).unwrap();
        for fault in text.split("\n\n").filter(|f| f.starts_with("error: ")) {
            if !fault.contains("\n  expected: ") && !fault.contains("\n  hint: ") {
                wrong.push(format!("{}: {fault}", file.display()));
            }
        }
    }
    none(wrong);
}

#[test]
fn no_text_is_left_without_its_mistake() {
    let known = [mistakes("csv"), mistakes("toml")].concat();
    none(
        mistakes("txt")
            .iter()
            .filter(|t| !known.iter().any(|m| m.with_extension("txt") == **t))
            .map(|t| format!("{} has no mistake", t.display()))
            .collect(),
    );
}
