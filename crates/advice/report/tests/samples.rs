//! The sample reports, each against what it says. They are invented; their expectations were written with them.

#![allow(clippy::disallowed_methods)]

use crate::common::{answer, expected, folder, score};

/// All samples of a folder; each complaint names its file.
fn complaints(name: &str) -> Vec<String> {
    let mut out = Vec::new();
    for want in expected(name) {
        let file = want["file"].as_str().unwrap();
        let bytes = std::fs::read(folder(name).join(file)).unwrap();
        let found = answer(&report::read(file, &bytes));
        let score = score(&found, &want);
        eprintln!(
            "{file}: {} right, {} asked, {} missing, {} wrong",
            score.right,
            score.asked.len(),
            score.missing.len(),
            score.wrong.len()
        );
        out.extend(score.wrong.iter().map(|w| format!("{file}: WRONG {w}")));
        out.extend(score.missing.iter().map(|w| format!("{file}: missing {w}")));
        out.extend(score.asked.iter().map(|w| format!("{file}: asked {w}")));
        if found["language"] != want["language"] && want["language"] != "any" {
            out.push(format!("{file}: language {} for {}", found["language"], want["language"]));
        }
    }
    out
}

/// The reports of `own/make.py`: other layouts, other producers, five languages.
#[test]
fn every_report_of_our_own_is_read_right() {
    let complaints = complaints("own");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// The reports of `abroad/make.py`: countries, layouts and producers that the reader was not written for.
#[test]
fn reports_from_abroad_are_read_right() {
    let complaints = complaints("abroad");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// The reports of `later/make.py`: a second round, to see whether what was learned from the first one carries.
#[test]
fn later_reports_are_read_right() {
    let complaints = complaints("later");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// The reports of `third/make.py`: a third round. Asked about and so left: bases that only a footnote's limit would tell
/// (17, 22), and a sentence that goes on in the next column of the page (02).
#[test]
fn reports_of_a_third_round_are_read_right() {
    let left = |c: &&String| {
        let asked = [
            "02-ccr-brochure.pdf: missing \"sodium",
            "02-ccr-brochure.pdf: asked",
            "17-ortsteile.html: asked",
            "22-faltblatt.pdf: asked",
        ];
        !asked.iter().any(|a| c.starts_with(a))
    };
    let all = complaints("third");
    let complaints: Vec<&String> = all.iter().filter(left).collect();
    assert!(complaints.is_empty() && all.len() <= 2, "\n{all:#?}\n");
}

/// The reports of `fourth/make.py`: a fourth round. Left: a second unit in a sentence; a table of turbidity whose rows
/// name none is asked about.
#[test]
fn reports_of_a_fourth_round_are_read_right() {
    let left = [
        "ccr-pecanford-2024.pdf: asked \"turbidity",
        "ccr-pecanford-2024.pdf: missing \"hardness_total\" null \"gpg\"",
    ];
    let all = complaints("fourth");
    let complaints: Vec<&String> = all.iter().filter(|c| !left.iter().any(|l| c.starts_with(l))).collect();
    assert!(complaints.is_empty() && all.len() <= left.len(), "\n{all:#?}\n");
}

/// The reports of `fifth/make.py`: a fifth round, without those that were read right at once.
#[test]
fn reports_of_a_fifth_round_are_read_right() {
    let complaints = complaints("fifth");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// The reports of `more/make.py`: layouts of the round after, each of which taught something.
#[test]
fn more_reports_are_read_right() {
    let complaints = complaints("more");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// The reports of `seventh/make.py`: those of a seventh round that taught something.
#[test]
fn reports_of_a_seventh_round_are_read_right() {
    let complaints = complaints("seventh");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// The reports of `eighth/make.py`: those of an eighth round that taught something.
#[test]
fn reports_of_an_eighth_round_are_read_right() {
    let complaints = complaints("eighth");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

#[test]
fn every_sample_is_read_right() {
    let complaints = complaints("samples");
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}
