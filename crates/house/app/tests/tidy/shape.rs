//! Shape of the sources: a first doc line, short files, short functions, nothing left to do and nothing ignored.

use crate::tree::{Text, ending, none};

/// Most lines of a file.
const FILE: usize = 400;
/// Most lines of a function.
const FUNCTION: usize = 60;

/// Longer ones, each with the lines it may have and the reason. A row that is no longer needed is a fault too.
const LONGER: &[(&str, usize, &str)] = &[
    ("crates/advice/recipe/tests/common/mod.rs::tank", 82, "a tank with every value, one a line"),
    ("crates/advice/recipe/tests/tanks/mod.rs::random", 75, "a tank with every value, one a line"),
    ("crates/house/pages/tests/common/mod.rs::plan", 95, "a plan with every value, one a line"),
    ("crates/house/pages/tests/common/mod.rs::whys", 65, "why-notes, one a line"),
];

/// What is too long: the place as it stands in [`LONGER`], and its lines.
fn too_long(source: &Text) -> Vec<(String, usize)> {
    let lines: Vec<&str> = source.text.lines().collect();
    let mut long = Vec::new();
    if lines.len() > FILE {
        long.push((source.path.clone(), lines.len()));
    }
    for (i, line) in lines.iter().enumerate() {
        let Some(name) = function(line) else { continue };
        // rustfmt puts the closing brace under the beginning of the function.
        let indent = &line[..line.len() - line.trim_start().len()];
        let end = lines[i..].iter().position(|l| l.strip_prefix(indent).is_some_and(|rest| rest.starts_with('}')));
        if let Some(end) = end.filter(|end| *end + 1 > FUNCTION) {
            long.push((format!("{}::{name}", source.path), end + 1));
        }
    }
    long
}

/// The name of the function whose signature begins on this line and has a body.
fn function(line: &str) -> Option<&str> {
    let words = ["pub ", "pub(crate) ", "pub(super) ", "const ", "async ", "extern \"C\" "];
    let mut rest = line.trim_start();
    while let Some(shorter) = words.iter().find_map(|w| rest.strip_prefix(w)) {
        rest = shorter;
    }
    let signature = rest.strip_prefix("fn ")?;
    let one_line = line.ends_with('}') || line.ends_with(';');
    let name = signature.split(|c: char| !c.is_alphanumeric() && c != '_').next()?;
    (!one_line).then_some(name)
}

#[test]
fn files_and_functions_are_short() {
    let long: Vec<(String, usize)> = ending(&[".rs"]).iter().flat_map(too_long).collect();
    let allowed = |place: &str| LONGER.iter().find(|(p, ..)| *p == place).map_or(0, |(_, lines, _)| *lines);
    let mut wrong: Vec<String> = long
        .iter()
        .filter(|(place, lines)| *lines > allowed(place))
        .map(|(place, lines)| format!("{place} has {lines} lines: cut it, or list it with its reason"))
        .collect();
    let needless = |place: &str| !long.iter().any(|(p, _)| p == place);
    wrong.extend(LONGER.iter().filter(|(p, ..)| needless(p)).map(|(p, ..)| format!("{p} is listed and short")));
    none(wrong);
}

#[test]
fn the_measure_sees_a_long_function() {
    let body = "    let a = 1;\n".repeat(70);
    let text =
        format!("impl A {{\n    pub const fn b(\n        c: u8,\n    ) -> u8 {{\n{body}    }}\n}}\nfn short() {{}}\n");
    assert_eq!(too_long(&Text { path: "a.rs".to_owned(), text }), [("a.rs::b".to_owned(), 74)]);
}

#[test]
fn every_source_begins_with_what_it_is() {
    none(
        ending(&[".rs"])
            .iter()
            .filter(|t| !t.text.starts_with("//! ") || t.text.lines().next().is_none_or(|l| l.len() < 10))
            .map(|t| format!("{} does not begin with a //! line", t.path))
            .collect(),
    );
}

#[test]
fn nothing_is_ignored_or_left_to_do() {
    let needles =
        [["#[ign", "ore"], ["to", "do!("], ["unimple", "mented!("], ["db", "g!("], ["TO", "DO"], ["FIX", "ME"]]
            .map(|parts| parts.concat());
    let mut wrong = Vec::new();
    for source in ending(&[".rs"]) {
        for (n, line) in source.lines() {
            wrong.extend(needles.iter().filter(|x| line.contains(*x)).map(|x| format!("{}:{n}: {x}", source.path)));
        }
    }
    none(wrong);
}
