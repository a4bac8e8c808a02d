//! Arrows between crates point down, and only `knowledge` reads `data/`.

use std::collections::BTreeMap;

use crate::tree::{Text, ending, none};

/// The floors, from the ground up: folders under `crates/`.
const FLOORS: [&str; 5] = ["ground", "physics", "tank", "advice", "house"];

/// Arrows within a floor, from the crate that knows to the one that is known.
const WITHIN: [(&str, &str); 8] = [
    ("knowledge", "quantity"),
    ("setup", "logbook"),
    ("care", "recipe"),
    ("care", "trouble"),
    ("trouble", "recipe"),
    ("signs", "recipe"),
    ("app", "pages"),
    ("app", "book"),
];

/// Floor and name of a crate, from the path of its manifest.
fn crate_of(path: &str) -> Option<(usize, &str)> {
    let mut parts = path.strip_prefix("crates/")?.split('/');
    let (floor, name) = (parts.next()?, parts.next()?);
    let floor = FLOORS.iter().position(|f| *f == floor).unwrap_or_else(|| panic!("{path} is on no floor"));
    Some((floor, name))
}

fn manifests() -> Vec<Text> {
    ending(&["/Cargo.toml"]).into_iter().filter(|m| m.path.starts_with("crates/")).collect()
}

#[test]
fn arrows_point_down() {
    let manifests = manifests();
    let floors: BTreeMap<&str, usize> =
        manifests.iter().filter_map(|m| crate_of(&m.path)).map(|(floor, name)| (name, floor)).collect();
    assert!(floors.len() >= 7, "{floors:?}");
    let mut wrong = Vec::new();
    for manifest in &manifests {
        let Some((floor, name)) = crate_of(&manifest.path) else { continue };
        let table: toml::Table = manifest.text.parse().unwrap();
        for section in ["dependencies", "dev-dependencies", "build-dependencies"] {
            let Some(toml::Value::Table(known)) = table.get(section) else { continue };
            for (other, _) in known {
                let allowed = floors.get(other.as_str()).is_none_or(|f| *f < floor || WITHIN.contains(&(name, other)));
                if !allowed {
                    wrong.push(format!("{}: {name} must not know {other}", manifest.path));
                }
            }
        }
    }
    none(wrong);
}

#[test]
fn only_knowledge_reads_data() {
    let data = ["../", "data/"].concat();
    none(
        ending(&[".rs"])
            .iter()
            .filter(|t| t.path.starts_with("crates/") && !t.path.starts_with("crates/ground/knowledge/"))
            .flat_map(|t| {
                let reads = |line: &str| line.contains(&data) && line.contains("include_");
                t.lines().filter(move |(_, line)| reads(line)).map(|(n, _)| format!("{}:{n} reads data/", t.path))
            })
            .collect(),
    );
}

/// Below `app` the machine is asked for nothing: clippy forbids the calls, and only tests may lift that.
#[test]
fn only_tests_lift_the_ban_on_clocks_and_files() {
    let lift = ["allow(clippy::", "disallowed"].concat();
    none(
        ending(&[".rs"])
            .iter()
            .filter(|t| t.path.starts_with("crates/") && t.path.contains("/src/") && t.text.contains(&lift))
            .map(|t| format!("{} lifts the ban", t.path))
            .collect(),
    );
}
