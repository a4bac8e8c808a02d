//! `tapmere care start, away, missed, doubled, moving, stopping` as a keeper types them; the start test over a book and its log.

use std::process::Command;

use serde_json::Value;

/// Run from the top of the project, where the examples are: exit code, standard output, standard error.
fn said(arguments: &[&str]) -> (i32, String, String) {
    let top = concat!(env!("CARGO_MANIFEST_DIR"), "/../../..");
    let out = Command::new(env!("CARGO_BIN_EXE_tapmere")).args(arguments).current_dir(top).output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (out.status.code().unwrap(), text(out.stdout), text(out.stderr))
}

fn json(arguments: &[&str]) -> Value {
    let (_, out, err) = said(arguments);
    serde_json::from_str(&out).unwrap_or_else(|e| panic!("{e}: {out}{err}"))
}

const DEMO: &str = "examples/household/tank.toml";
const QUESTION: &str = "examples/household/tank-question.toml";

#[test]
fn a_start_says_its_answer_first_and_the_same_in_json() {
    let (code, out, err) = said(&["care", "start", DEMO]);
    assert_eq!((code, err.as_str()), (0, ""));
    let told = json(&["care", "start", DEMO, "--json"]);
    let answer = told["follows"]["answer"].as_str().unwrap();
    assert!(out.starts_with(answer), "{out}");
    assert_eq!(told["state"], "settled");
    assert_eq!(told["follows"]["test"]["stage"], "told");
    assert!(told["follows"]["weeks"].as_array().unwrap().len() == 8);
    let bag =
        ["care", "start", DEMO, "--json", "--bag-ph", "6.4", "--bag-ammonia-n", "3", "--bag-temperature", "20 °C"];
    assert_eq!(json(&bag)["follows"]["home"]["way"], "at_once");
    assert_eq!(json(&bag)["follows"]["home"]["hours"], 4.0);
    let (code, _, err) = said(&["care", "start", DEMO, "--bag-ph", "sour"]);
    assert!(code == 1 && !err.is_empty());
}

#[test]
fn an_open_question_has_every_outcome_and_is_no_answer() {
    for command in ["start", "away", "missed", "doubled", "stopping"] {
        let (code, out, _) = said(&["care", command, QUESTION]);
        assert_eq!(code, 1, "{command}");
        assert!(out.starts_with("One question first") && out.matches("\nIf ").count() >= 2, "{command}: {out}");
        let told = json(&["care", command, QUESTION, "--json"]);
        assert_eq!(told["state"], "open", "{command}");
        assert!(told["outcomes"].as_array().unwrap().iter().all(|o| o["then"]["state"] == "settled"), "{command}");
    }
}

#[test]
fn an_absence_has_its_card_with_dates() {
    let at = ["care", "away", DEMO, "--at", "2026-06-20T08:00[Europe/Berlin]"];
    let (code, out, _) = said(&[&at[..], &["--leaving", "2026-07-01", "--explain"]].concat());
    assert_eq!(code, 0);
    assert!(out.starts_with("14 days away: 6 hours of light, no dose, four small meals"), "{out}");
    assert!(out.contains("[ ] Saturday, 4 July") && out.contains("Something is wrong"), "{out}");
    assert!(out.contains("why 83 days?"), "every number can be asked why: {out}");
    for days in ["0", "200"] {
        let (code, _, err) = said(&["care", "away", DEMO, "--days", days]);
        assert!(code == 1 && err.contains("28"), "an absence of {days} days is refused, not cut: {err}");
        let (code, _, err) = said(&["care", "missed", DEMO, "--days", days]);
        assert!(code == 1 && err.contains("28"), "{days} missed days are refused: {err}");
    }
    for wrong in [["--leaving", "2026-06-19"], ["--light", "0"], ["--light", "25"], ["--light", "NaN"]] {
        let (code, _, err) = said(&[&at[..], &wrong].concat());
        assert!(code == 1 && err.contains("expected"), "{wrong:?}: {err}");
    }
}

#[test]
fn another_tap_comes_from_a_file() {
    let (code, out, _) = said(&["care", "moving", DEMO, "--to", "examples/soft-water.toml"]);
    assert_eq!(code, 0);
    assert!(out.contains("a change a day, from") && out.contains("the new water"), "{out}");
    let (code, _, err) = said(&["care", "moving", DEMO, "--to", QUESTION]);
    assert!(code == 1 && err.contains("of the new tap is open"), "{err}");
    let (code, _, err) = said(&["care", "moving", DEMO, "--to", "nowhere.toml"]);
    assert!(code == 1 && err.contains("no such file"), "{err}");
}

#[test]
fn slips_and_the_end() {
    let missed = json(&["care", "missed", DEMO, "--days", "3", "--json"]);
    assert!(missed["follows"]["answer"].as_str().unwrap().contains("never what was missed"), "{missed}");
    let (code, out, _) = said(&["care", "doubled", DEMO, "--times", "10"]);
    assert!(code == 0 && out.contains("no harm known to me below"), "{out}");
    let (code, ..) = said(&["care", "doubled", DEMO, "--times", "-1"]);
    assert_ne!(code, 0);
    let (code, out, _) = said(&["care", "stopping", "examples/soil-tank.toml"]);
    assert!(code == 0 && out.contains("Never release a plant or an animal"), "{out}");
}

#[test]
fn the_log_of_a_book_decides_the_start_test() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let file = path.to_str().unwrap();
    let setup = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../examples/household/tank.toml");
    let text = std::fs::read_to_string(setup).unwrap().replace("start_test_passed = true", "");
    let mut made = book::SqliteBook::create(&path).unwrap();
    let stamp = book::Stamp::read("2026-06-01T12:00:00Z").unwrap();
    made.add_tank(setup::Setup::read("tank.toml", &text).unwrap(), &stamp).unwrap();
    drop(made);
    let log = |texts: &[&str], at: &str| {
        let arguments: Vec<&str> = [&["log", "add"], texts, &["--at", at, "--book", file]].concat();
        let (code, _, err) = said(&arguments);
        assert_eq!(code, 0, "{texts:?}: {err}");
    };
    let stage = |at: &str| {
        let told = json(&["care", "start", file, "--at", at, "--json"]);
        told["follows"]["test"]["stage"].as_str().unwrap().to_owned()
    };
    let round = |day: u32| {
        log(&["done", "start_test"], &format!("2026-06-{day:02}T12:00:00+02:00[Europe/Berlin]"));
        let next = format!("2026-06-{:02}T12:00:00+02:00[Europe/Berlin]", day + 1);
        log(&["test", "ammonia_n", "0.02 mg/L N"], &next);
        log(&["test", "nitrite_n", "0.02 mg/L N"], &next);
    };
    assert_eq!(stage("2026-06-01T13:00[Europe/Berlin]"), "not_begun");
    round(2);
    assert_eq!(stage("2026-06-03T13:00[Europe/Berlin]"), "partly");
    round(6);
    assert_eq!(stage("2026-06-07T13:00[Europe/Berlin]"), "passed");
    log(&["animals", "snails", "3"], "2026-06-08T12:00:00+02:00[Europe/Berlin]");
    let told = json(&["care", "start", file, "--at", "2026-06-08T13:00[Europe/Berlin]", "--json"]);
    assert_eq!(
        (&told["follows"]["test"]["animals_in"], &told["follows"]["test"]["grams"]),
        (&Value::Bool(true), &Value::Null)
    );
}
