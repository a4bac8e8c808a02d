//! `tapmere measure` and `tapmere signs` as a keeper runs them: words, JSON, exit codes.

use std::process::{Command, Output};

const HOUSEHOLD: &str = "examples/household/tank.toml";

fn tapmere(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.args(arguments).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../..")).output().unwrap()
}

fn text(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn json(arguments: &[&str]) -> serde_json::Value {
    let output = tapmere(arguments);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn every_protocol_is_printed_without_a_file() {
    let list = text(&tapmere(&["measure"]));
    for name in measure::Name::ALL {
        assert!(list.contains(&format!("- {}: ", name.key())));
        let output = tapmere(&["measure", name.key()]);
        assert_eq!(output.status.code(), Some(0), "{}", name.key());
        assert!(text(&output).contains("Step by step") && text(&output).contains("--read "));
    }
    assert_eq!(tapmere(&["measure", "weight"]).status.code(), Some(2));
}

#[test]
fn readings_come_to_fields_that_a_setup_takes() {
    let readings =
        ["--read", "salt=kitchen_salt", "--read", "grams=1.6", "--read", "before=420", "--read", "after=457"];
    let whole = [&["measure", "litres", HOUSEHOLD, "--json"][..], &readings].concat();
    let answer = json(&whole);
    let litres = answer["worked"]["values"][0]["known"]["value"].as_f64().unwrap();
    assert!((litres - 86.3).abs() < 0.1, "{litres}");
    let mut setup = setup::Setup::read("tank.toml", include_str!("../../../../examples/household/tank.toml")).unwrap();
    for pair in answer["fields"].as_array().unwrap() {
        setup = setup.with(pair[0].as_str().unwrap(), pair[1].as_str().unwrap()).unwrap();
    }
    assert!((setup.tank().unwrap().geometry.true_l.value - litres).abs() < 0.01);
    // Into a file that was not there; the old one stays as it is.
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("new.toml");
    let to = to.to_str().unwrap();
    let written = [&["measure", "litres", HOUSEHOLD, "--to", to][..], &readings].concat();
    assert_eq!(tapmere(&written).status.code(), Some(0));
    assert_eq!(tapmere(&["tank", "show", to]).status.code(), Some(0));
    assert_eq!(tapmere(&written).status.code(), Some(1), "never over a file");
}

#[test]
fn readings_without_a_tank_are_a_slip_of_use() {
    assert_eq!(tapmere(&["measure", "flow", "--read", "caught=2"]).status.code(), Some(2));
    let output = tapmere(&["measure", "flow", HOUSEHOLD, "--read", "caught=lots"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&output.stderr).contains("field `caught`"));
}

#[test]
fn signs_answer_in_words_and_in_json() {
    let at = ["--at", "2026-06-11T08:00[Europe/Berlin]"];
    let list = text(&tapmere(&["signs"]));
    assert!(list.contains("- threads: ") && list.contains("- old_holes: "));
    let words = text(&tapmere(&[&["signs", "threads", HOUSEHOLD][..], &at].concat()));
    assert!(words.contains("One change.") && words.contains("don't know") && words.contains("2026-07-02"), "{words}");
    let answer =
        json(&[&["signs", "threads", "old_holes", HOUSEHOLD, "--read", "nitrate=60", "--json"][..], &at].concat());
    let findings = answer["findings"].as_array().unwrap();
    assert_eq!(findings.len(), 3);
    for finding in findings {
        assert!(finding["causes"].as_array().unwrap().iter().all(|cause| cause["because"].is_string()));
    }
    // Two files, or a sight that is none.
    assert_eq!(tapmere(&["signs", "nonsense", HOUSEHOLD]).status.code(), Some(2));
    assert_eq!(tapmere(&["signs", HOUSEHOLD, "--read", "colour=3"]).status.code(), Some(1));
}

/// While a question is open nothing is judged.
#[test]
fn nothing_is_judged_on_an_open_question() {
    let output = tapmere(&["signs", "threads", "examples/household/tank-question.toml"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output).is_empty() && String::from_utf8_lossy(&output.stderr).contains("a question is open"));
}

/// What was seen stands in the log: nobody has to say it twice.
#[test]
fn signs_of_a_book_are_those_of_its_log() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let now = book::Stamp::read("2026-06-11T08:30:00Z").unwrap();
    let text = include_str!("../../../../examples/household/tank.toml");
    let mut book = book::SqliteBook::create(&path).unwrap();
    book.add_tank(setup::Setup::read("tank.toml", text).unwrap(), &now).unwrap();
    let path = path.to_str().unwrap();
    assert_eq!(tapmere(&["log", "add", "sight", "threads", "--book", path]).status.code(), Some(0));
    let found = json(&["signs", path, "--json"]);
    assert!(found["findings"].as_array().unwrap().iter().any(|found| found["about"]["key"] == "threads"), "{found}");
}
