//! Links and paths of the docs lead somewhere.

use std::path::Path;

use crate::tree::{Text, ending, none, top};

#[test]
fn links_resolve() {
    let pages = ending(&[".md"]);
    let mut wrong = Vec::new();
    for page in &pages {
        for (n, line) in page.lines() {
            for target in line.split("](").skip(1).filter_map(|rest| rest.split([')', ' ']).next()) {
                if !target.contains(':') && !leads(&pages, page, target) {
                    wrong.push(format!("{}:{n}: {target} leads nowhere", page.path));
                }
            }
        }
    }
    none(wrong);
}

/// Whether a relative link leads to a file, and to a heading in it.
fn leads(pages: &[Text], page: &Text, target: &str) -> bool {
    let (file, heading) = target.split_once('#').unwrap_or((target, ""));
    let folder = Path::new(&page.path).parent().unwrap();
    let whole = top().join(folder).join(file);
    if !file.is_empty() && !whole.exists() {
        return false;
    }
    let Ok(whole) = whole.canonicalize() else { return false };
    let other = if file.is_empty() { Some(page) } else { pages.iter().find(|p| whole == top().join(&p.path)) };
    heading.is_empty() || other.is_some_and(|p| p.lines().any(|(_, line)| anchor(line).as_deref() == Some(heading)))
}

/// The anchor that a heading gets.
fn anchor(line: &str) -> Option<String> {
    let heading = line.starts_with('#').then(|| line.trim_start_matches('#').trim().to_lowercase())?;
    let kept = heading.chars().filter(|c| c.is_alphanumeric() || [' ', '-', '_'].contains(c));
    Some(kept.collect::<String>().replace(' ', "-"))
}

/// Paths named in docs, comments and messages: a folder of the top, a slash, and something that exists.
#[test]
fn paths_that_are_named_exist() {
    let folders = ["docs/", "data/", "crates/", "examples/", "ci/", ".ci/", "patches/"];
    let mut wrong = Vec::new();
    for text in ending(&[".md", ".rs"]) {
        for (n, line) in text.lines() {
            let words = line.split(|c: char| !c.is_ascii_alphanumeric() && !"./_-*<>{}".contains(c));
            for word in words.map(|w| w.trim_end_matches(['.', '/', '-'])) {
                let named = folders.iter().any(|f| word.starts_with(f));
                let pattern = word.contains(['*', '<', '>', '{', '}']) || word.contains("/...");
                if named && !pattern && !top().join(word).exists() {
                    wrong.push(format!("{}:{n}: {word} does not exist", text.path));
                }
            }
        }
    }
    none(wrong);
}
