//! Licences of everything that is linked or runs in tests: on the list, or not taken.

use std::process::Command;

use serde_json::Value;

use crate::tree::{none, top};

/// Licences that go with MIT OR Apache-2.0. MPL-2.0 is copyleft by file: unchanged files from the registry are fine.
const ALLOWED: [&str; 12] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "Unicode-3.0",
    "Unlicense",
    "CC0-1.0",
    "MPL-2.0",
];

/// Whether an SPDX expression can be met: one side of each OR, both sides of each AND.
fn allowed(expression: &str) -> bool {
    let expression = expression.trim();
    for (operator, all) in [("/", false), (" OR ", false), (" AND ", true)] {
        let parts = split(expression, operator);
        if parts.len() > 1 {
            return if all { parts.iter().all(|p| allowed(p)) } else { parts.iter().any(|p| allowed(p)) };
        }
    }
    match expression.strip_prefix('(').and_then(|e| e.strip_suffix(')')) {
        Some(inner) => allowed(inner),
        None => ALLOWED.contains(&expression),
    }
}

/// Split at an operator that stands outside brackets.
fn split<'a>(expression: &'a str, operator: &str) -> Vec<&'a str> {
    let (mut parts, mut start, mut depth) = (Vec::new(), 0, 0_i32);
    for (i, c) in expression.char_indices() {
        depth += i32::from(c == '(') - i32::from(c == ')');
        if depth == 0 && expression[i..].starts_with(operator) && i >= start {
            parts.push(&expression[start..i]);
            start = i + operator.len();
        }
    }
    parts.push(&expression[start..]);
    parts
}

#[test]
fn expressions_are_read() {
    for good in ["MIT", "MIT/Apache-2.0", "(MIT OR GPL-3.0) AND Unicode-3.0", "GPL-2.0 OR (MIT AND ISC)"] {
        assert!(allowed(good), "{good}");
    }
    for bad in ["GPL-3.0", "MIT AND GPL-3.0", "(GPL-3.0 OR LGPL-2.1) AND MIT", ""] {
        assert!(!allowed(bad), "{bad}");
    }
}

#[test]
fn every_dependency_has_a_licence_of_the_list() {
    let target = format!("{}-unknown-{}-gnu", std::env::consts::ARCH, std::env::consts::OS);
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--offline", "--locked", "--format-version", "1", "--filter-platform", &target])
        .current_dir(top())
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let metadata: Value = serde_json::from_slice(&output.stdout).unwrap();
    let packages = metadata["packages"].as_array().unwrap();
    assert!(packages.len() > 30, "{} packages", packages.len());
    none(
        packages
            .iter()
            .filter(|p| !allowed(p["license"].as_str().unwrap_or("")))
            .map(|p| format!("{} {}: {}", p["name"], p["version"], p["license"]))
            .collect(),
    );
}
