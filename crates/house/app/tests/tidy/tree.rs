//! The files of the project, as text.

use std::fs;
use std::path::{Path, PathBuf};

/// The top of the project.
pub fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../..").canonicalize().unwrap()
}

/// A text file of the project.
pub struct Text {
    /// Path from the top, with slashes.
    pub path: String,
    /// Content.
    pub text: String,
}

impl Text {
    /// Lines, counted from 1.
    pub fn lines(&self) -> impl Iterator<Item = (usize, &str)> {
        self.text.lines().enumerate().map(|(i, line)| (i + 1, line))
    }
}

/// All text files, but for what is built or fetched.
pub fn texts() -> Vec<Text> {
    let mut all = Vec::new();
    walk(&top(), &top(), &mut all);
    assert!(all.len() > 50, "the tree was not found");
    all
}

/// All text files with one of these endings.
pub fn ending(endings: &[&str]) -> Vec<Text> {
    texts().into_iter().filter(|t| endings.iter().any(|e| t.path.ends_with(e))).collect()
}

fn walk(top: &Path, folder: &Path, all: &mut Vec<Text>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            let skipped =
                name.starts_with("target") || name == "node_modules" || (name.starts_with('.') && name != ".ci");
            if !skipped {
                walk(top, &path, all);
            }
        // In a worktree `.git` is a file.
        } else if name != "Cargo.lock"
            && name != ".git"
            && let Ok(text) = fs::read_to_string(&path)
        {
            let path = path.strip_prefix(top).unwrap().to_string_lossy().replace('\\', "/");
            all.push(Text { path, text });
        }
    }
}

/// Fails with all complaints, if there are any.
pub fn none(complaints: Vec<String>) {
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

/// What a test found, held against a file beside it; `TAPMERE_BLESS=1` writes the file anew.
pub fn snapshot(path: &Path, found: &str) {
    if std::env::var_os("TAPMERE_BLESS").is_some() {
        fs::write(path, found).unwrap();
    }
    let kept = fs::read_to_string(path).unwrap_or_default();
    assert!(
        kept == found,
        "{} does not say this any more; if it is right, run the test again with TAPMERE_BLESS=1.\n--- found ---\n{found}",
        path.display()
    );
}
