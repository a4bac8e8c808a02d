//! A report held against what it says: each expected value is there, and none is wrong without a question.
#![allow(clippy::disallowed_methods)]

use std::path::PathBuf;

use serde_json::Value;

/// Relative difference at which two printed numbers count as one.
const SAME: f64 = 0.005;

pub fn folder(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests").join(name)
}

/// The files of a folder that have an expectation beside them.
pub fn expected(name: &str) -> Vec<Value> {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder(name)).unwrap().map(|e| e.unwrap().path()).collect();
    paths.sort();
    let of = |p: &PathBuf| p.to_string_lossy().ends_with(".expected.json");
    paths
        .iter()
        .filter(|p| of(p))
        .map(|p| serde_json::from_str(&std::fs::read_to_string(p).unwrap()).unwrap())
        .collect()
}

pub fn answer(report: &report::Report) -> Value {
    serde_json::to_value(report.answer()).unwrap()
}

/// What was read of one file.
#[derive(Debug, Default)]
pub struct Score {
    pub right: usize,
    pub asked: Vec<String>,
    pub missing: Vec<String>,
    pub wrong: Vec<String>,
}

fn near(a: &Value, b: &Value) -> bool {
    match (a.as_f64(), b.as_f64()) {
        (Some(a), Some(b)) => (a - b).abs() <= SAME * b.abs().max(1e-9),
        (None, None) => true,
        _ => false,
    }
}

/// Whether a reading says the same as an expected one, its basis and unit as printed.
fn same(found: &Value, expected: &Value, basis_too: bool) -> bool {
    let equal = |key: &str| found[key] == expected[key];
    let sample = expected.get("sample").is_none_or(|s| found["sample"] == *s);
    equal("determinand")
        && sample
        && equal("statistic")
        && equal("below_detection")
        && equal("unit")
        && (!basis_too || equal("basis"))
        && near(&found["value"], &expected["value"])
        && near(&found["detection_limit"], &expected["detection_limit"])
}

fn brief(v: &Value) -> String {
    ["determinand", "basis", "unit", "statistic", "value", "below_detection", "detection_limit", "sample", "question"]
        .map(|k| v[k].to_string())
        .join(" ")
}

/// Hold an answer against its expectation.
pub fn score(answer: &Value, expected: &Value) -> Score {
    let list = |v: &Value, key: &str| v[key].as_array().cloned().unwrap_or_default();
    let readings = list(answer, "readings");
    let mut score = Score::default();
    let must_ask = list(expected, "must_ask");
    let not_judged = list(expected, "not_judged");
    for want in list(expected, "readings") {
        let ask = must_ask.contains(&want["determinand"]);
        let fits: Vec<&Value> = readings.iter().filter(|f| same(f, &want, !ask)).collect();
        if ask {
            match fits.iter().any(|f| !f["question"].is_null()) {
                true => score.right += 1,
                false => score.wrong.push(format!("not asked: {}", brief(&want))),
            }
        } else if fits.iter().any(|f| f["question"].is_null()) {
            score.right += 1;
        } else if not_judged.contains(&want["determinand"]) {
            continue;
        } else if readings.iter().any(|f| same(f, &want, false) && !f["question"].is_null()) {
            score.asked.push(brief(&want));
        } else {
            score.missing.push(brief(&want));
        }
    }
    let all = list(expected, "readings");
    let scored = |f: &Value| SCORED.iter().any(|s| f["determinand"] == *s) && !not_judged.contains(&f["determinand"]);
    for found in readings.iter().filter(|f| f["question"].is_null() && scored(f)) {
        if !all.iter().any(|want| same(found, want, !must_ask.contains(&want["determinand"]))) {
            score.wrong.push(brief(found));
        }
    }
    if let Some(kind) = expected["refused"].as_str()
        && !list(answer, "errors").iter().any(|e| e["kind"] == kind)
    {
        score.wrong.push(format!("not refused as {kind}"));
    }
    let contradicts = !expected["contradiction"].is_null();
    if contradicts == list(answer, "contradictions").is_empty() {
        score.wrong.push(format!("contradictions: {}", answer["contradictions"]));
    }
    score
}

/// Determinands of the contract.
const SCORED: [&str; 34] = [
    "calcium",
    "magnesium",
    "sodium",
    "potassium",
    "ammonium",
    "nitrate",
    "nitrite",
    "phosphate",
    "phosphorus_total",
    "chloride",
    "sulfate",
    "bicarbonate",
    "alkalinity",
    "hardness_total",
    "hardness_calcium",
    "hardness_carbonate",
    "iron",
    "manganese",
    "copper",
    "zinc",
    "boron",
    "lead",
    "fluoride",
    "silica",
    "conductivity",
    "ph",
    "temperature",
    "chlorine_free",
    "chlorine_total",
    "chloramine",
    "tds",
    "dissolved_oxygen",
    "turbidity",
    "toc",
];
