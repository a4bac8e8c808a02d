//! Every number of `data/` has a source; every source is known, and used.

use std::collections::BTreeSet;

use toml::Value;

use crate::tree::{Text, ending, none};

/// What may stand in place of a key.
const NO_SOURCE: [&str; 3] = ["common practice", "assumed", "worked out"];

/// Numbers without a source of their own, by the key they stand under, and why.
const EXACT: &[(&str, &str)] = &[
    ("rule", "counts the rules of harm"),
    ("ions", "atoms counted in a formula"),
    ("alkalinity_eq_per_mol", "follows from the formula"),
    ("dic_mol_per_mol", "follows from the formula"),
    ("pack", "packets are assumed, as the head of products.toml says"),
];

const SOURCES: &str = "data/sources.toml";

fn data() -> Vec<(String, Value)> {
    let all: Vec<(String, Value)> = ending(&[".toml"])
        .into_iter()
        .filter(|t| t.path.starts_with("data/"))
        .map(|t| (t.path.clone(), Value::Table(t.text.parse().unwrap_or_else(|e| panic!("{}: {e}", t.path)))))
        .collect();
    assert!(all.len() > 5, "data/ was not found");
    all
}

fn known() -> BTreeSet<String> {
    let (_, sources) = data().into_iter().find(|(path, _)| path == SOURCES).unwrap();
    sources.as_table().unwrap().keys().cloned().collect()
}

/// Walks a table; `sourced`: an enclosing table names a source.
fn walk(at: &str, value: &Value, sourced: bool, visit: &mut impl FnMut(&str, &Value, bool)) {
    visit(at, value, sourced);
    match value {
        Value::Table(table) => {
            let sourced = sourced || table.contains_key("source");
            for (key, value) in table {
                let exact = EXACT.iter().any(|(k, _)| k == key);
                walk(&format!("{at}.{key}"), value, sourced || exact, visit);
            }
        }
        Value::Array(list) => list.iter().for_each(|value| walk(at, value, sourced, visit)),
        _ => {}
    }
}

#[test]
fn every_number_of_data_has_a_source() {
    let mut wrong = Vec::new();
    for (path, table) in data().iter().filter(|(path, _)| path != SOURCES) {
        walk("", table, false, &mut |at, value, sourced| {
            if !sourced && matches!(value, Value::Integer(_) | Value::Float(_)) {
                wrong.push(format!("{path}: {} = {value} has no source", at.trim_start_matches('.')));
            }
        });
    }
    none(wrong);
}

#[test]
fn every_source_of_data_is_known() {
    let known = known();
    let mut wrong = Vec::new();
    for (path, table) in &data() {
        walk("", table, false, &mut |at, value, _| {
            let named = at.ends_with(".source") || at.ends_with(".sources");
            if let (true, Value::String(key)) = (named, value)
                && !known.contains(key)
                && !NO_SOURCE.contains(&key.as_str())
            {
                wrong.push(format!("{path}: {at}: `{key}` is not in {SOURCES}"));
            }
        });
    }
    none(wrong);
}

/// Words of a text that may be keys.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_ascii_alphanumeric() && c != '_')
}

/// Whether a word is made like a key: author or body, then the year.
fn like_a_key(word: &str) -> bool {
    let Some((author, year)) = word.rsplit_once('_') else { return false };
    let year = year.trim_end_matches(|c: char| c.is_ascii_lowercase());
    let is_year = year.len() == 4 && year.parse::<u16>().is_ok_and(|y| (1800..2100).contains(&y));
    is_year
        && author.starts_with(|c: char| c.is_ascii_lowercase())
        && !author.contains(|c: char| c.is_ascii_uppercase())
}

#[test]
fn every_key_in_code_and_docs_is_known() {
    let known = known();
    let mut wrong = Vec::new();
    for text in cited_in() {
        for (n, line) in text.lines() {
            let keys = words(line).filter(|w| like_a_key(w) && !known.contains(*w));
            wrong.extend(keys.map(|key| format!("{}:{n}: `{key}` is not in {SOURCES}", text.path)));
        }
    }
    none(wrong);
}

#[test]
fn every_source_is_used() {
    let texts = cited_in();
    let used: BTreeSet<&str> = texts.iter().flat_map(|t| words(&t.text)).collect();
    none(
        known().iter().filter(|k| !used.contains(k.as_str())).map(|k| format!("{SOURCES}: {k} is not used")).collect(),
    );
}

/// Everything that may cite, but for the list itself and tests of how citing goes wrong.
fn cited_in() -> Vec<Text> {
    ending(&[".rs", ".md", ".toml", ".py"])
        .into_iter()
        .filter(|t| t.path != SOURCES && !t.path.ends_with("Cargo.toml"))
        .collect()
}
