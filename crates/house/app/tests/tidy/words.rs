//! Words that do not belong into the project. The needles are built from pieces, so that this file does not hold them.

use crate::tree::{Text, ending, none, texts};

fn complaints(texts: &[Text], found: impl Fn(&str) -> Option<String>) -> Vec<String> {
    let at = |t: &Text, n: usize, word: String| format!("{}:{n}: {word}", t.path);
    texts
        .iter()
        .flat_map(|t| t.lines().filter_map(|(n, line)| found(line).map(|word| at(t, n, word))).collect::<Vec<_>>())
        .collect()
}

/// Whether a word stands in a line by itself.
fn has_word(line: &str, word: &str) -> bool {
    line.to_lowercase().split(|c: char| !c.is_alphanumeric() && c != '_').any(|w| w == word)
}

#[test]
fn no_path_of_one_machine() {
    let needles: Vec<String> =
        [["/wo", "rk/"], ["../sha", "red"], ["/ro", "ot/"], ["/ho", "me/"]].map(|p| p.concat()).into();
    let found = |line: &str| needles.iter().find(|n| line.contains(*n)).cloned();
    none(complaints(&texts(), found));
}

/// Nobody can promise that: it is "no harm known below ...", or "I can't tell".
#[test]
fn nothing_is_promised_to_do_no_harm() {
    let words: Vec<String> = [["sa", "fe"], ["sa", "fely"], ["sa", "fety"]].map(|p| p.concat()).into();
    let found = |line: &str| words.iter().find(|w| has_word(line, w)).cloned();
    let mut texts = ending(&[".rs", ".toml", ".md", ".js", ".html", ".txt"]);
    texts.retain(|t| !t.path.contains("/tests/"));
    none(complaints(&texts, found));
}

/// What a keeper reads says "carbon dioxide" or "air", so that nobody turns off the wrong one.
#[test]
fn what_a_keeper_reads_names_the_one_meant() {
    let word = ["g", "as"].concat();
    let read = ["data/", "examples/", "crates/house/", "crates/advice/"];
    let texts: Vec<Text> = ending(&[".rs", ".toml", ".html", ".txt", ".js"])
        .into_iter()
        .filter(|t| read.iter().any(|r| t.path.starts_with(r)) && !t.path.contains("/tests/"))
        .filter(|t| t.path != "data/sources.toml")
        .collect();
    none(complaints(&texts, |line| has_word(line, &word).then(|| word.clone())));
}

/// A nervous beginner reads each of these as something else: whose alkalinity it is, which tap, and whether a bottle is on a journey.
#[test]
fn what_a_keeper_reads_is_said_so_that_it_means_one_thing() {
    let needles: Vec<String> =
        [["your alka", "linity"], ["plain ", "tap"], ["bottle ", "away"]].map(|p| p.concat()).into();
    let found = |line: &str| needles.iter().find(|n| line.to_lowercase().contains(*n)).cloned();
    let mut texts = ending(&[".rs", ".toml"]);
    texts.retain(|t| !t.path.contains("/tests/"));
    none(complaints(&texts, found));
}
