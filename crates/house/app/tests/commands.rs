//! The commands as a keeper types them: what comes out, where, and with which exit code.

use std::process::{Command, Output};

use serde_json::Value;

/// Run from the top of the project, where the examples are.
fn tapmere(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_tapmere"))
        .args(arguments)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../.."))
        .output()
        .unwrap()
}

fn said(arguments: &[&str]) -> (i32, String, String) {
    let out = tapmere(arguments);
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
fn the_demo_prints_the_plan_that_its_file_gives() {
    let (code, out, err) = said(&["demo", "--print"]);
    assert_eq!((code, err.as_str()), (0, ""));
    let (_, dose, _) = said(&["dose", DEMO]);
    assert!(dose.len() > 1000 && out.contains(&dose), "{out}");
}

#[test]
fn every_example_is_answered() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../examples");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "toml") {
            let (code, out, err) = said(&["dose", path.to_str().unwrap()]);
            assert!(code == 0 && !out.is_empty(), "{}: {err}", path.display());
            seen += 1;
        }
    }
    assert!(seen >= 3, "{seen} examples");
}

#[test]
fn an_open_question_shows_every_outcome_and_is_no_answer() {
    let (code, out, _) = said(&["dose", QUESTION]);
    assert_eq!(code, 1);
    assert!(out.starts_with("One question first"), "{out}");
    let answer = json(&["dose", QUESTION, "--json"]);
    assert_eq!(answer["state"], "open");
    let (replies, outcomes) = (&answer["question"]["replies"], answer["outcomes"].as_array().unwrap());
    assert_eq!(replies.as_array().unwrap().len(), outcomes.len());
    for (i, outcome) in outcomes.iter().enumerate() {
        assert_eq!(outcome["answer"]["state"], "settled");
        assert!(out.contains(replies[i]["means"].as_str().unwrap()), "{out}");
    }
    assert_eq!(said(&["tap", "show", QUESTION]).0, 1);
}

#[test]
fn the_same_water_in_two_units_gives_the_same_recipe_to_the_last_digit() {
    let plan = |file: &str| json(&["dose", file, "--json"])["plan"].clone();
    let (degrees, caco3) = (plan("examples/same-water-degrees.toml"), plan("examples/same-water-caco3.toml"));
    for part in ["levels", "alkalinity", "doses", "bottles", "new_water"] {
        assert!(!degrees[part].is_null());
        assert_eq!(degrees[part], caco3[part], "{part}");
    }
}

#[test]
fn why_is_answered_with_the_sum() {
    for command in [&["dose", DEMO][..], &["tank", "show", DEMO]] {
        let plain = said(command).1;
        let (code, explained, _) = said(&[command, &["--explain"]].concat());
        assert_eq!(code, 0);
        let notes = explained.strip_prefix(plain.as_str()).unwrap_or_else(|| panic!("{explained}"));
        assert!(notes.contains("Why?") && notes.contains('=') && notes.lines().count() > 10, "{notes}");
    }
}

#[test]
fn json_holds_the_numbers_of_the_words() {
    let tank = json(&["tank", "show", DEMO, "--json"]);
    assert!(tank["geometry"]["true_l"]["value"].as_f64().unwrap() > 50.0, "{tank}");
    let tap = json(&["tap", "show", DEMO, "--json"]);
    assert_eq!(tap["tap"]["ions"]["nitrate"]["value"].as_f64(), Some(14.0), "the file says 14 mg/L NO3");
    assert!(tap["questions"].as_array().unwrap().is_empty());
    assert_eq!(json(&["dose", DEMO, "--json"])["state"], "settled");
}

#[test]
fn a_missing_file_and_no_file_say_what_to_do() {
    for command in [&["dose"][..], &["tap", "show"], &["tank", "show"], &["serve"]] {
        let (code, out, err) = said(command);
        assert_eq!((code, out.as_str()), (2, ""), "{command:?}");
        assert!(err.contains("which tank?") && err.contains("tapmere demo"), "{err}");
        let (code, _, err) = said(&[command, &["nowhere.toml"]].concat());
        assert!(code == 1 && err.contains("there is no such file") && err.contains("nowhere.toml"), "{err}");
    }
    let (code, _, err) = said(&["dose", "examples"]);
    assert!(code == 1 && err.contains("this is a folder"), "{err}");
}

#[test]
fn a_huge_file_is_told_as_a_huge_upload_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("huge.toml");
    std::fs::File::create(&path).unwrap().set_len((64 << 20) + 1).unwrap();
    let (code, _, err) = said(&["dose", path.to_str().unwrap()]);
    assert_eq!(code, 1);
    let told = app::files::too_large(app::files::LARGEST);
    assert!(err.contains(&told.what) && err.contains(&told.expected.unwrap()), "{err}");
}

#[test]
fn help_now_needs_nothing() {
    let (code, out, _) = said(&["help-now"]);
    assert_eq!(code, 0);
    assert!(out.contains("Carbon dioxide off") && out.contains("Air on"), "{out}");
    assert!(out.find("Plugs out").unwrap() < out.find("Carbon dioxide off").unwrap(), "{out}");
}

#[test]
fn completions_and_man_pages_know_every_command() {
    let (code, script, _) = said(&["completions", "bash"]);
    assert!(code == 0 && script.contains("help-now") && script.contains("--air-ppm"), "{script}");
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(said(&["man", folder.path().to_str().unwrap()]).0, 0);
    for page in ["tapmere.1", "tapmere-dose.1", "tapmere-water-solve.1"] {
        assert!(folder.path().join(page).is_file(), "{page}");
    }
    assert!(said(&["man"]).1.contains(".TH tapmere"));
}

/// A setup file of a test.
fn file(folder: &tempfile::TempDir, text: &str) -> String {
    let path = folder.path().join("tank.toml");
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

/// The household with one line of its file changed.
fn household(was: &str, now: &str) -> String {
    let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../../examples/household/tank.toml"));
    let text = text.unwrap();
    assert!(text.contains(was), "{was}");
    text.replace(was, now)
}

#[test]
fn what_is_far_from_usual_leads_the_letter() {
    let folder = tempfile::tempdir().unwrap();
    let fed = file(&folder, &household("per_day = \"0.2 g a day\"", "per_day = \"10 g a day\""));
    let (code, out, err) = said(&["dose", &fed]);
    assert_eq!(code, 0, "{err}");
    let second = out.split("\n\n").nth(1).unwrap();
    assert!(second.starts_with("Really?\n") && second.contains("`food.per_day`"), "{out}");
    assert!(!said(&["dose", DEMO]).1.contains("Really?"), "the household is nothing unusual");
}

#[test]
fn a_file_without_a_glass_is_asked_for_it_and_gets_no_gram() {
    let folder = tempfile::tempdir().unwrap();
    let empty = file(&folder, "");
    let (code, out, _) = said(&["dose", &empty]);
    assert_eq!(code, 1);
    assert!(out.contains("How large is your glass?") && out.contains("inner_length = \"76 cm\""), "{out}");
    assert!(!out.contains(" g of ") && !out.contains(" L"), "{out}");
    let (_, out, _) = said(&["tank", "show", &empty]);
    assert!(out.contains("How large is your glass?") && !out.contains("really in it"), "{out}");
    assert_eq!(json(&["dose", &empty, "--json"])["outcomes"][0]["reply"], "untold");
}

#[test]
fn headline_table_and_prices_stand_in_the_keepers_units() {
    let folder = tempfile::tempdir().unwrap();
    let text = household("[glass]", "[units]\nvolume = \"us_gallon\"\nhardness = \"grains\"\n\n[glass]");
    let path = file(&folder, &text);
    let (code, out, err) = said(&["dose", &path]);
    assert_eq!(code, 0, "{err}");
    let answer = json(&["dose", &path, "--json"]);
    // The US gallon is 3.785411784 L.
    let gallons = answer["plan"]["true_l"]["value"].as_f64().unwrap() / 3.785_411_784;
    let head = out.lines().next().unwrap();
    assert!(head.contains(&format!(": {gallons:.0} (")) && head.contains(" US gal of water"), "{head}");
    let water = out.lines().find(|line| line.starts_with("New water: ")).unwrap();
    assert!(water.contains("US gal every") && !water.contains(" L"), "{water}");
    // A grain in a US gallon is 64.79891 mg in 3.785411784 L, and 50.043 mg of CaCO3 are a meq: 0.34206 meq/L.
    let grains = answer["plan"]["alkalinity"]["new_water"]["value"].as_f64().unwrap() / 0.342_06;
    let row = out.lines().find(|line| line.trim_start().starts_with("alkalinity, gpg")).unwrap();
    assert!(row.contains(&format!(" {grains:.1} ")), "{row} {grains}");
    assert!(out.contains(", £"), "the household's money is the pound: {out}");
}

#[test]
fn a_faulty_file_is_told_in_json_too() {
    let folder = tempfile::tempdir().unwrap();
    let wrong = file(&folder, "[tap]\nph = 7.7\nnitrat = \"14 mg/L NO3\"\n");
    for command in [&["dose"][..], &["tap", "show"], &["tank", "show"]] {
        let plain = said(&[command, &[&wrong]].concat());
        let (code, out, err) = said(&[command, &[&wrong, "--json"]].concat());
        assert_eq!((code, &err), (plain.0, &plain.2), "the words and the code stay: {command:?}");
        assert_eq!(plain.1, "");
        let told: Value = serde_json::from_str(&out).unwrap();
        let fault = &told["faults"][0];
        assert!(err.contains(fault["what"].as_str().unwrap()), "{out}");
        assert_eq!((&fault["place"]["line"], &fault["place"]["file"]), (&3.into(), &wrong.as_str().into()));
    }
    let batch = folder.path().join("batch.csv");
    std::fs::write(&batch, "id,nonsense\n1,2\n").unwrap();
    for command in ["solve", "blend"] {
        let (code, out, err) = said(&["water", command, batch.to_str().unwrap(), "--json"]);
        let told: Value = serde_json::from_str(&out).unwrap();
        assert!(code == 2 && err.contains(told["faults"][0]["what"].as_str().unwrap()), "{out}");
    }
    assert!(json(&["dose", "nowhere.toml", "--json"])["faults"][0]["what"].is_string());
}
