//! `tapmere help-now`: with nothing at hand, with a tank, with what is wrong.

use std::process::Command;

/// Exit code, standard output and standard error.
fn said(args: &[&str]) -> (i32, String, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapmere"));
    command.arg("help-now").args(args).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."));
    let out = command.output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (out.status.code().unwrap(), text(out.stdout), text(out.stderr))
}

/// Lines as one.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

const TANK: &str = "examples/household/tank.toml";

#[test]
fn with_nothing_at_hand_it_says_what_to_do_when_fish_gasp_and_lists_the_rest() {
    let (code, out, err) = said(&[]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.starts_with("FISH AT THE SURFACE, GASPING"), "{out}");
    for sheet in trouble::sheets().iter().skip(1) {
        assert!(out.contains(&format!("\n{} ", sheet.key)) && out.contains(&sheet.title[..8]), "{}", sheet.key);
    }
}

#[test]
fn every_trouble_has_its_steps() {
    for sheet in trouble::sheets() {
        let (code, out, _) = said(&[&sheet.key]);
        assert_eq!(code, 0);
        assert!(out.contains("1. ") && flat(&out).contains("HOW TO PREVENT IT"), "{out}");
    }
    let (_, out, _) = said(&["ammonia"]);
    assert!(out.contains("AT WHICH HARM STARTS") && out.contains(" 8.00"), "{out}");
}

#[test]
fn half_a_milligram_of_ammonia_is_two_things_at_two_ph() {
    let at = |ph: &str| {
        let (code, out, err) =
            said(&["ammonia", TANK, "--read", "ammonia=0.5 mg/L N", "--read", ph, "--read", "temperature=24 °C"]);
        assert_eq!((code, err.as_str()), (0, ""));
        flat(&out)
    };
    let (low, high) = (at("ph=7.0"), at("ph=8.0"));
    assert!(low.contains("are toxic here (leave it be)") && low.contains("No big change now"), "{low}");
    assert!(high.contains("are toxic here (at once)") && high.contains("harm starts at 0.016"), "{high}");
}

#[test]
fn a_faulty_or_missing_file_takes_no_help_away() {
    let (code, out, err) = said(&["power-cut", "no-such-file.toml"]);
    assert_eq!(code, 1);
    assert!(out.starts_with("THE POWER IS OUT") && err.contains("no-such-file.toml"), "{err}");
    let (code, out, err) = said(&["ammonia", TANK, "--read", "ammonia=much"]);
    assert_eq!(code, 1);
    assert!(out.contains("1. ") && err.contains("ammonia"), "{err}");
    let (code, _, err) = said(&["ammonia", "--read", "ph=8"]);
    assert!(code == 2 && err.contains("a reading needs a tank"), "{err}");
}

#[test]
fn a_bare_number_of_ammonia_counts_at_the_bad_end_and_says_so() {
    let (code, out, err) =
        said(&["ammonia", TANK, "--read", "ammonia=0.25", "--read", "ph=8", "--read", "temperature=24"]);
    assert_eq!((code, err.as_str()), (0, ""));
    let out = flat(&out);
    assert!(out.contains("taken as N, the bad end") && out.contains("of the 0.25 mg/L ammonia (as N)"), "{out}");
}

#[test]
fn a_word_that_is_no_trouble_still_gets_the_list() {
    let (code, out, err) = said(&["leaking"]);
    assert!(code == 2 && err.contains("no trouble called `leaking`") && out.contains("power-cut"), "{err}");
    // Whoever mistypes in a fright gets the first steps all the same.
    assert!(out.starts_with("FISH AT THE SURFACE") && out.contains("1. Plugs out"), "{out}");
    let (_, _, err) = said(&["brown"]);
    assert!(err.contains("did you mean tap?"), "{err}");
}

#[test]
fn while_a_question_is_open_each_reply_has_its_own_figures() {
    let (code, out, _) = said(&["nitrate", "examples/household/tank-question.toml"]);
    assert_eq!(code, 1);
    assert_eq!(out.matches("IN THIS TANK, IF ").count(), 2, "{out}");
}

#[test]
fn in_json_it_holds_the_sheet_the_list_and_the_sums() {
    let (code, out, _) = said(&["heater-on", TANK, "--json"]);
    assert_eq!(code, 0);
    let said_json: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(said_json["sheet"]["key"], "heater-on");
    assert_eq!(said_json["troubles"].as_array().unwrap().len(), trouble::sheets().len());
    let sum = &said_json["tank"][0]["worked"]["sums"][0];
    assert_eq!(sum["key"], "heater-stuck");
    assert!(sum["figures"]["warmest_c"].as_f64().unwrap() > 30.0, "{sum}");
    let (_, out, _) = said(&["tap", "--json"]);
    let without: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert!(without["tank"].as_array().unwrap().is_empty());
}

/// A book with the household in it, at a path, and the folder that holds it.
fn book_of_the_household() -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book");
    let text = include_str!("../../../../examples/household/tank.toml");
    let mut made = book::SqliteBook::create(&path).unwrap();
    let stamp = book::Stamp::read("2026-06-01T12:00:00Z").unwrap();
    made.add_tank(setup::Setup::read("tank.toml", text).unwrap(), &stamp).unwrap();
    (folder, path.to_str().unwrap().to_owned())
}

#[test]
fn of_a_book_the_log_ranks_the_causes_and_a_fresh_reading_counts_as_told() {
    let (_folder, file) = book_of_the_household();
    let causes = |args: &[&str]| -> Vec<String> {
        let (code, out, err) = said(&[args, &["--at", "2026-06-11T15:00[Europe/London]", "--json"]].concat());
        assert_eq!((code, err.as_str()), (0, ""));
        let told: serde_json::Value = serde_json::from_str(&out).unwrap();
        let causes = told["tank"][0]["worked"]["causes"].as_array().unwrap();
        causes.iter().map(|cause| cause["key"].as_str().unwrap().to_owned()).collect()
    };
    let before = causes(&["gasping", &file]);
    assert!(!before.contains(&"change".to_owned()), "{before:?}");
    assert_eq!(before, causes(&["gasping", TANK]), "an empty log speaks for nothing");
    for entry in [&["change", "30 L"][..], &["test", "ammonia_n", "2 mg/L N"], &["animals", "fish", "4", "--really"]] {
        let at = ["--at", "2026-06-11T13:00:00+01:00[Europe/London]", "--book", &file];
        let out =
            Command::new(env!("CARGO_BIN_EXE_tapmere")).args(["log", "add"]).args(entry).args(at).output().unwrap();
        assert!(out.status.success(), "{entry:?}: {}", String::from_utf8_lossy(&out.stderr));
    }
    // By the weights of data/troubles.toml, less the longer ago: ammonia 6, change 5, newcomers 2.
    assert_eq!(causes(&["gasping", &file]), ["ammonia", "change", "newcomer"]);
    // What is said now goes before the log: no ammonia, no such cause.
    assert!(!causes(&["gasping", &file, "--read", "ammonia=0 mg/L N"]).contains(&"ammonia".to_owned()));
    let (_, out, _) = said(&["gasping", &file, "--at", "2026-06-11T15:00[Europe/London]"]);
    assert!(flat(&out).contains("You changed 30 L 2 hours ago"), "{out}");
    // A tank that is not there takes no help away.
    let (code, out, err) = said(&["gasping", &file, "--number", "9"]);
    assert!(code == 1 && out.starts_with("FISH AT THE SURFACE") && !err.is_empty(), "{err}");
}
