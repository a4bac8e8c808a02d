//! Misspelt names: the known one that is most like them.

use crate::field::{fields, pattern};

/// The name among the known ones that is most like a path nobody knows, if one is.
pub fn nearest(path: &str) -> Option<String> {
    let wrong = pattern(path);
    let (section, name) = wrong.rsplit_once('.').unwrap_or(("", &wrong));
    let mut names: Vec<String> = Vec::new();
    for field in fields() {
        names.push(field.path.clone());
        names.extend(field.path.match_indices('.').map(|(at, _)| field.path[..at].to_owned()));
    }
    names.sort();
    names.dedup();
    // A neighbour in the same section goes before the same word elsewhere.
    let score = |known: &String| {
        let (known_section, known_name) = known.rsplit_once('.').unwrap_or(("", known));
        let words = distance(name, known_name);
        (words <= 1 + name.chars().count() / 4).then(|| words + if known_section == section { 0 } else { 2 })
    };
    names.iter().filter_map(|known| Some((score(known)?, known))).min().map(|(_, known)| known.clone())
}

/// The word most like another, if one is like it at all.
pub(crate) fn closest<'w>(word: &str, among: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    let score = |known: &'w str| {
        let letters = distance(word, known);
        (letters <= 1 + word.chars().count() / 4).then_some((letters, known))
    };
    among.filter_map(score).min().map(|(_, known)| known)
}

/// Letters to put in, take out, change or swap with a neighbour to get from one word to the other.
///
/// Source: Damerau 1964, restricted to neighbours (source key `damerau_1964`).
fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().take(40).collect(), b.chars().take(40).collect());
    let mut rows = vec![vec![0; b.len() + 1]; a.len() + 1];
    for i in 0..=a.len() {
        for j in 0..=b.len() {
            rows[i][j] = if i == 0 || j == 0 {
                i + j
            } else {
                let change = usize::from(a[i - 1] != b[j - 1]);
                let mut least = (rows[i - 1][j - 1] + change).min(rows[i - 1][j] + 1).min(rows[i][j - 1] + 1);
                if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                    least = least.min(rows[i - 2][j - 2] + 1);
                }
                least
            };
        }
    }
    rows[a.len()][b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_misspelt_name_finds_its_neighbour() {
        assert_eq!(nearest("tap.nitrat").as_deref(), Some("tap.nitrate"));
        assert_eq!(nearest("habits.chnage").as_deref(), Some("habits.change"));
        assert_eq!(nearest("tapp").as_deref(), Some("tap"));
        assert_eq!(nearest("glass.depth_front").as_deref(), Some("ground.depth_front"));
        assert_eq!(nearest("tap.moonlight"), None);
    }
}
