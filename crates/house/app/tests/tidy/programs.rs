//! One program of tests for each crate: a file that its list forgets would never run.

use crate::tree::{Text, ending, none};

#[test]
fn every_file_of_tests_is_in_its_crates_list() {
    let sources = ending(&[".rs"]);
    let folder_of = |t: &Text| t.path.rsplit_once('/').map(|(folder, name)| (folder.to_owned(), name.to_owned()));
    let mut complaints = Vec::new();
    for source in &sources {
        let Some((folder, name)) = folder_of(source) else { continue };
        if !folder.starts_with("crates/") || !folder.ends_with("/tests") || name == "all.rs" {
            continue;
        }
        let list = sources.iter().find(|t| t.path == format!("{folder}/all.rs"));
        let line = format!("mod {};", name.trim_end_matches(".rs"));
        if !list.is_some_and(|list| list.text.lines().any(|l| l == line)) {
            complaints.push(format!("{}: `{line}` is missing in {folder}/all.rs, so its tests never run", source.path));
        }
    }
    none(complaints);
}
