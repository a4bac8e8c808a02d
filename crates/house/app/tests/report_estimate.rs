//! `tapmere report estimate`, `report compare` and `tap show` through the real program: questions first, JSON as documented,
//! a setup that the other commands take.
//!
//! Judge: the printed values of the samples; the texts below.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

const HOUSEHOLD: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../examples/household/tank.toml");

fn sample(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../advice/report/tests/samples").join(name)
}

fn tapmere(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_tapmere")).args(arguments).output().unwrap()
}

fn text(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn json(arguments: &[&str]) -> (Value, Option<i32>) {
    let output = tapmere(arguments);
    (serde_json::from_slice(&output.stdout).unwrap(), output.status.code())
}

#[test]
fn a_report_becomes_a_water_with_what_it_means() {
    let zone = sample("uk-zone-summary.csv");
    let output = tapmere(&["report", "estimate", zone.to_str().unwrap(), "--setup", HOUSEHOLD]);
    let said = text(&output);
    assert_eq!(output.status.code(), Some(0), "{said}");
    for part in ["The water of uk-zone-summary.csv", "What it means", "bear", "regulators' limits", "over a year"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    let (answer, code) = json(&["report", "estimate", "--json", zone.to_str().unwrap()]);
    assert_eq!(code, Some(0));
    let nitrate = &answer["waters"][0]["estimate"]["ions"]["nitrate"]["known"];
    // Printed: 18.3 mg/L NO3.
    assert!((nitrate["value"].as_f64().unwrap() / 18.3 - 1.0).abs() < 0.02, "{nitrate}");
    assert_eq!(answer["meanings"][0]["sentences"].as_array().unwrap().len(), 5);
    for key in ["tell_apart_us_per_cm", "tell_apart_meq_per_l", "softener", "next", "questions", "errors"] {
        assert!(answer.get(key).is_some(), "{key}");
    }
}

#[test]
fn what_is_open_is_asked_first_and_can_be_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("zone.txt");
    std::fs::write(&path, "Nitrate 28 mg/l\nCalcium 70 mg/l\nChloride 24 mg/l\n").unwrap();
    let path = path.to_str().unwrap();
    let output = tapmere(&["report", "estimate", path]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output).starts_with("To be answered first: Is nitrate counted as NO3 or as N?"), "{}", text(&output));
    assert!(!text(&output).contains("it feeds the tank"), "nothing is said on an open basis");
    let (answer, code) = json(&["report", "estimate", path, "--counted", "nitrate=N", "--json"]);
    let value = answer["waters"][0]["estimate"]["ions"]["nitrate"]["known"]["value"].as_f64().unwrap();
    // 28 × 62.004 ÷ 14.007 = 123.9
    assert!((value / 123.9 - 1.0).abs() < 0.05, "{value}");
    assert_eq!((code, answer["questions"].as_array().unwrap().len()), (Some(0), 0));
    for wrong in ["nitrate", "nitrate=P2O5"] {
        assert_eq!(tapmere(&["report", "estimate", path, "--counted", wrong]).status.code(), Some(2), "{wrong}");
    }
}

#[test]
fn the_taken_setup_is_one_that_every_command_takes() {
    let zone = sample("uk-zone-summary.csv");
    let output = tapmere(&["report", "estimate", zone.to_str().unwrap(), "--setup", HOUSEHOLD, "--take"]);
    assert_eq!(output.status.code(), Some(0));
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("tank.toml");
    std::fs::write(&path, text(&output)).unwrap();
    let (answer, _) = json(&["tap", "show", "--json", path.to_str().unwrap()]);
    let nitrate = &answer["tap"]["ions"]["nitrate"];
    assert_eq!((nitrate["low"].as_f64(), nitrate["high"].as_f64()), (Some(16.3), Some(19.1)));
    assert_eq!(answer["meaning"]["sentences"].as_array().unwrap().len(), 5);
    assert!(text(&tapmere(&["tap", "show", path.to_str().unwrap()])).contains("What it means"));
}

#[test]
fn zones_are_picked_by_name() {
    let both = sample("waterkwaliteit.xlsx");
    let both = both.to_str().unwrap();
    let (answer, _) = json(&["report", "estimate", both, "--sample", "all", "--json"]);
    assert_eq!(answer["waters"].as_array().unwrap().len(), 2);
    let (answer, _) = json(&["report", "estimate", both, "--sample", "pompstation de elzen", "--json"]);
    assert_eq!(answer["waters"].as_array().unwrap().len(), 1);
    let output = tapmere(&["report", "estimate", both, "--sample", "nowhere"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8(output.stderr).unwrap().contains("Pompstation De Elzen"));
    assert_eq!(tapmere(&["report", "estimate", both, "--sample", "all", "--take"]).status.code(), Some(1));
}

#[test]
fn without_any_report_the_tests_are_named() {
    let output = tapmere(&["report", "estimate"]);
    assert!(
        text(&output).contains("Nothing is known of this water") && text(&output).contains("  1. "),
        "{}",
        text(&output)
    );
    assert!(!text(&output).contains("What it means"), "a water from nothing means nothing yet");
}

#[test]
fn own_tests_find_a_softener() {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("kitchen.txt");
    std::fs::write(&own, "GH 1 °dH\n").unwrap();
    let zone = sample("uk-zone-summary.csv");
    let output = tapmere(&["report", "estimate", zone.to_str().unwrap(), "--own", own.to_str().unwrap()]);
    assert!(text(&output).contains("A softener in the house"), "{}", text(&output));
}

#[test]
fn last_year_against_this_year() {
    let folder = tempfile::tempdir().unwrap();
    let year = |nitrate: f64| {
        let path = folder.path().join(format!("{nitrate}.txt"));
        let rest = "Calcium 48 mg/l\nMagnesium 6.0 mg/l\nSodium 22.0 mg/l\nPotassium 3.0 mg/l\nChloride 30.0 mg/l\n\
                    Sulphate 32 mg/l\nAlkalinity 106 mg/l CaCO3\nPhosphate 0.05 mg/l PO4\nCopper 0.002 mg/l\n";
        std::fs::write(&path, format!("{rest}Nitrate {nitrate} mg/l NO3\n")).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let (old, new) = (year(3.0), year(32.0));
    let said = text(&tapmere(&["report", "compare", &old, &new, "--setup", HOUSEHOLD]));
    assert!(said.contains("Nitrate rose from 3") && said.contains("Which advice changes"), "{said}");
    let (answer, _) = json(&["report", "compare", &old, &new, "--setup", HOUSEHOLD, "--json"]);
    assert!(!answer["waters"][0]["advice"].as_array().unwrap().is_empty());
    let (same, code) = json(&["report", "compare", &old, &old, "--setup", HOUSEHOLD, "--json"]);
    let same = &same["waters"][0];
    assert_eq!((same["advice"].as_array().unwrap().len(), code), (0, Some(0)));
    assert!(same["moved"].as_array().unwrap().iter().all(|moved| moved["for_sure"] == false));
}

#[test]
fn two_works_each_against_its_namesake() {
    let folder = tempfile::tempdir().unwrap();
    let year = |file: &str, works: [&str; 2], nitrate: [f64; 2]| {
        let path = folder.path().join(file);
        let ([a, b], [low, high]) = (works, nitrate);
        let text = format!(
            "Parameter,Unit,{a},{b}\nConductivity at 25 °C,µS/cm,310,620\nCalcium,mg/l,40,95\nMagnesium,mg/l,5.0,9.0\n\
             Sodium,mg/l,10.0,22.0\nPotassium,mg/l,2.0,3.0\nChloride,mg/l,12.0,40.0\nSulphate,mg/l,15.0,50.0\n\
             Nitrate as NO3,mg/l,{low},{high}\nPhosphate as PO4,mg/l,0.05,0.05\nCopper,mg/l,0.002,0.002\n"
        );
        std::fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let old = year("last.csv", ["Works A", "Works B"], [3.0, 20.0]);
    let new = year("this.csv", ["Works A", "Works B"], [32.0, 20.0]);
    let compare =
        |new: &str| json(&["report", "compare", &old, new, "--sample", "all", "--setup", HOUSEHOLD, "--json"]).0;
    let answer = compare(&new);
    let waters = answer["waters"].as_array().unwrap();
    assert_eq!((waters.len(), answer["unmatched"].as_array().unwrap().len()), (2, 0), "{answer}");
    for water in waters {
        let rose = water["name"] == "Works A";
        let nitrate = water["moved"].as_array().unwrap().iter().find(|moved| moved["of"]["ion"] == "nitrate").unwrap();
        assert_eq!(nitrate["for_sure"], rose, "{water}");
        assert_eq!(!water["advice"].as_array().unwrap().is_empty(), rose, "{water}");
    }
    let other = year("other.csv", ["Works A", "Works C"], [32.0, 20.0]);
    let answer = compare(&other);
    assert_eq!(answer["waters"].as_array().unwrap().len(), 1);
    assert_eq!(answer["unmatched"].as_array().unwrap().len(), 2, "{answer}");
    let said = text(&tapmere(&["report", "compare", &old, &other, "--sample", "all", "--setup", HOUSEHOLD]));
    assert!(said.contains("Works C is in the later report") && said.contains("What moved at Works A"), "{said}");
}
