//! `tapmere log` as a keeper types it: written, found, mended, taken back, out and in as a table; what is refused.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::tree::{none, snapshot, top};
use book::{SqliteBook, Stamp};
use serde_json::Value;
use setup::Setup;

const HOUSEHOLD: &str = include_str!("../../../../examples/household/tank.toml");

/// A book with a tank, in a folder that goes when it is dropped.
fn book() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let mut book = SqliteBook::create(&path).unwrap();
    book.add_tank(Setup::read("tank.toml", HOUSEHOLD).unwrap(), &Stamp::read("2026-06-11T08:30:00Z").unwrap()).unwrap();
    (folder, path)
}

/// What a command says, in a zone with summer time: exit code, standard output, standard error.
fn said(book: &Path, folder: &Path, arguments: &[&str]) -> (i32, String, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_tapmere"))
        .arg("log")
        .args(arguments)
        .arg("--book")
        .arg(book)
        .env("TZ", "Europe/Berlin")
        .current_dir(folder)
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (out.status.code().unwrap(), text(out.stdout), text(out.stderr))
}

fn ok(book: &Path, arguments: &[&str]) -> String {
    let (code, out, err) = said(book, &top(), arguments);
    assert_eq!(code, 0, "{arguments:?}: {err}");
    out
}

fn json(book: &Path, arguments: &[&str]) -> Value {
    serde_json::from_str(&ok(book, &[arguments, &["--json"]].concat())).unwrap()
}

#[test]
fn an_entry_is_written_found_mended_and_taken_back() {
    let (_folder, book) = book();
    let at = ["--at", "2026-06-10 08:30"];
    let out = ok(
        &book,
        &[&["add", "test", "nitrate", "2.7 mg/L N", "--kit", "colours", "--note", "by daylight"][..], &at].concat(),
    );
    assert_eq!(out, "    1  2026-06-10 08:30  nitrate 12 mg/L NO3; by daylight\n");
    ok(&book, &[&["add", "dose", "Bottle one", "10 mL"][..], &at].concat());
    ok(&book, &[&["add", "animals", "fish", "-1", "--counted", "11"][..], &at].concat());
    let all = json(&book, &["list"]);
    assert_eq!(all["entries"].as_array().unwrap().len(), 3);
    let test = &json(&book, &["list", "--of", "nitrate"])["entries"][0];
    assert_eq!((&test["id"], &test["entry"]["what"]["kind"]), (&1.into(), &"test".into()));
    assert_eq!(test["entry"]["at"], "2026-06-10T08:30:00+02:00[Europe/Berlin]", "date and zone");
    assert_eq!(json(&book, &["list", "--words", "BOTTLE"])["entries"][0]["id"], 2);
    assert_eq!(json(&book, &["list", "--from", "2026-06-11"])["entries"].as_array().unwrap().len(), 0);
    assert_eq!(json(&book, &["list", "--kind", "dose", "--kind", "animals"])["entries"].as_array().unwrap().len(), 2);

    let mended = json(&book, &["mend", "1", "--amount", "15 mg/L NO3"]);
    assert_eq!((&mended["entry"]["what"]["value"], &mended["entry"]["note"]), (&15.0.into(), &"by daylight".into()));
    assert!(ok(&book, &["undo"]).contains("one entry put back as before"));
    assert!(ok(&book, &["list"]).contains("nitrate 12 mg/L NO3"));
    assert!(ok(&book, &["redo"]).contains("changed again"));
    ok(&book, &["take-out", "2"]);
    assert_eq!(json(&book, &["list"])["entries"].as_array().unwrap().len(), 2);
    assert_eq!(json(&book, &["undo"])["did"], "one entry put back");
    for _ in 0..4 {
        ok(&book, &["undo"]);
    }
    assert_eq!(json(&book, &["undo"])["did"], Value::Null);
    assert_eq!(ok(&book, &["list"]), "Nothing like that is written.\n");
}

#[test]
fn what_is_far_from_usual_is_asked_about_and_written_once_the_keeper_says_so() {
    let (_folder, book) = book();
    for (arguments, told) in [
        (&["add", "food", "50 g"][..], "times the usual"),
        (&["add", "dose", "Bottle one", "60 mL"], "times the usual"),
        (&["add", "change", "80 L"], "may be changed at once"),
        (&["add", "test", "nitrate", "400 mg/L NO3"], "Really?"),
    ] {
        let (code, out, err) = said(&book, &top(), arguments);
        assert_eq!((code, out.as_str()), (1, ""), "{arguments:?}");
        assert!(err.contains("Really?") && err.contains(told) && err.contains("--really"), "{arguments:?}: {err}");
        let (code, out, _) = said(&book, &top(), &[arguments, &["--json"]].concat());
        let asked: Value = serde_json::from_str(&out).unwrap();
        assert_eq!((code, &asked["faults"][0]["place"]["field"]), (1, &"really".into()), "{out}");
        assert_eq!(json(&book, &["list"])["entries"].as_array().unwrap().len(), 0, "nothing is written");
        json(&book, &[arguments, &["--really"]].concat());
        ok(&book, &["undo"]);
    }
    // A usual dose is asked about no more than ever; mended into another one it is.
    ok(&book, &["add", "dose", "Bottle one", "5 mL"]);
    let (code, _, err) = said(&book, &top(), &["mend", "5", "--amount", "60 mL"]);
    assert!(code == 1 && err.contains("--really"), "{err}");
    ok(&book, &["mend", "5", "--note", "by lamp light"]);
}

/// Harm rule 17.
#[test]
fn a_plant_that_stands_on_a_list_of_weeds_is_told() {
    let (_folder, book) = book();
    let bought = ["add", "bought", "water lettuce, three"];
    let out = ok(&book, &bought);
    for told in ["Pistia stratiotes", "ask your local authority", "Never release it", "household waste"] {
        assert!(out.contains(told), "{told}: {out}");
    }
    assert!(json(&book, &bought)["weeds"].as_str().unwrap().contains("invasive alien species"));
    assert!(ok(&book, &["add", "trim", "--note", "the Cabomba"]).contains("If it is Cabomba caroliniana"));
    assert_eq!(json(&book, &["add", "bought", "java fern"])["weeds"], Value::Null);
}

/// An example is one that the keeper could write: 15 to 32 °C are usual (`data/readings.toml`), their middle is 74 °F, and
/// 3.5 meq/L are 175 mg/L as CaCO3 (50.04 mg for a meq).
#[test]
fn the_example_of_a_refused_reading_is_in_the_keepers_unit() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let text = "[units]\ntemperature = \"fahrenheit\"\nhardness = \"caco3\"\n";
    let mut new = SqliteBook::create(&path).unwrap();
    new.add_tank(Setup::read("tank.toml", text).unwrap(), &Stamp::read("2026-06-11T08:30:00Z").unwrap()).unwrap();
    drop(new);
    for (what, number, example) in
        [("temperature", "78", "for instance 74 °F"), ("alkalinity", "80", "for instance 175 mg/L CaCO3")]
    {
        let (code, _, err) = said(&path, &top(), &["add", "test", what, number]);
        assert!(code != 0 && err.contains(example), "{what}: {err}");
    }
}

#[test]
fn mistakes_on_the_command_line_have_a_way_out() {
    let (_folder, book) = book();
    for (arguments, told) in [
        (&["add", "test", "nitrate", "12"][..], "for instance 12 mg/L NO3"),
        (&["add", "test", "nitrate", "12", "mg/L"], "quotation marks round a text"),
        (&["add", "sight", "elephants"], "brown_film"),
        (&["add", "change"], "how much is missing"),
        (&["add", "change", "800 L"], "is more than this tank holds"),
        (&["add", "words"], "there is nothing to write"),
        (&["add", "food", "1 g", "--at", "2099-01-01"], "a day from 1900 to today"),
        (&["mend", "7", "--amount", "1"], "there is no entry 7"),
        (&["list", "--from", "soon"], "field `--from`"),
        (&["list", "--from", "23:59:59.9"], "has not come yet today"),
        (&["list", "--tank", "9"], "there is no tank 9"),
        (&["import", "nowhere.csv"], "there is no such file"),
    ] {
        let (code, out, err) = said(&book, &top(), arguments);
        assert_eq!((code, out.as_str()), (1, ""), "{arguments:?}");
        assert!(err.starts_with("error: ") && err.contains(told), "{arguments:?}: {err}");
        let (code, out, _) = said(&book, &top(), &[arguments, &["--json"]].concat());
        let told: Value = serde_json::from_str(&out).unwrap();
        assert!(code == 1 && err.contains(told["faults"][0]["what"].as_str().unwrap()), "{out}");
    }
    assert_eq!(said(&book, &top(), &["add", "sing"]).0, 2, "no such kind");
    assert_eq!(json(&book, &["list"])["entries"].as_array().unwrap().len(), 0, "nothing was written");
}

/// In Cairo the clock of 24 April 2026 went from midnight to one: the day began at one.
#[test]
fn a_day_is_asked_for_where_the_clock_skips_midnight() {
    let (_folder, book) = book();
    ok(&book, &["add", "words", "a", "--at", "2026-04-24T05:00:00+03:00"]);
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.args(["log", "list", "--from", "2026-04-24", "--to", "2026-04-25", "--book"]).arg(&book);
    let out = command.env("TZ", "Africa/Cairo").output().unwrap();
    assert!(out.status.success() && String::from_utf8(out.stdout).unwrap().ends_with("05:00  a\n"), "{:?}", out.stderr);
}

#[test]
fn a_log_goes_out_as_a_table_and_into_another_book() {
    let (folder, one) = book();
    ok(&one, &["add", "test", "ph", "7.2", "--sure", "about", "--at", "2026-06-10 08:30"]);
    ok(&one, &["add", "bought", "potassium nitrate, dry", "500 g", "--price", "5.99", "--at", "2026-06-11"]);
    let table = ok(&one, &["export"]);
    let file = folder.path().join("log.csv");
    std::fs::write(&file, &table).unwrap();
    let (_other, two) = book();
    let file = file.to_str().unwrap();
    assert!(ok(&two, &["import", file]).starts_with("2 written, 0 stood there already"));
    assert_eq!(ok(&two, &["export"]), table);
    assert_eq!(
        ok(&two, &["import", file]),
        "0 written, 2 stood there already.\n",
        "undo would take back something else"
    );
    let again = json(&two, &["import", file]);
    assert_eq!((&again["written"], &again["stood_there"]), (&0.into(), &2.into()));
    assert_eq!(json(&two, &["export"])["entries"][0]["entry"]["what"]["price_minor"], 599.0);
    assert!(ok(&two, &["undo"]).contains("2 entries taken out again"));
}

/// The mistakes in a table, each with the text beside it; `TAPMERE_BLESS=1` writes the texts anew.
#[test]
fn tables_are_refused_with_the_text_beside_them() {
    let (_folder, book) = book();
    let mistakes = top().join("examples/refused/log");
    let mut files: Vec<PathBuf> = std::fs::read_dir(&mistakes).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "csv"));
    files.sort();
    assert!(files.len() >= 8, "{files:?}");
    let mut wrong = Vec::new();
    for file in &files {
        let name = file.file_name().unwrap().to_str().unwrap();
        let (code, out, err) = said(&book, &mistakes, &["import", name]);
        assert_eq!((code, out.as_str()), (1, ""), "{name}");
        snapshot(&file.with_extension("txt"), &err);
        for fault in err.split("\n\n") {
            let ways = fault.contains("\n  expected: ") || fault.contains("\n  hint: ");
            if !fault.starts_with("error: ") || !fault.contains(&format!("{name}:")) || !ways {
                wrong.push(format!("{name}: {fault}"));
            }
        }
    }
    none(wrong);
    assert_eq!(json(&book, &["list"])["entries"].as_array().unwrap().len(), 0, "nothing was written");
}
