//! Prints the programmes of some invented tanks as JSON, for a reference solver (`tests/fixtures/highs/make.py`).

#[allow(dead_code, reason = "takes a part of what the tests share")]
#[path = "../tests/common/mod.rs"]
mod common;
#[allow(dead_code, reason = "takes a part of what the tests share")]
#[path = "../tests/tanks/mod.rs"]
mod tanks;

use recipe::programme::{Problem, Stage};
use serde_json::{Value, json};

fn problem(name: &str, problem: &Problem, stages: &[Stage]) -> Value {
    // An infinite bound becomes null.
    let columns = problem.columns.iter().map(|c| json!([c.lower, c.upper, c.whole])).collect::<Vec<_>>();
    let rows = problem.rows.iter().map(|r| json!([r.lower, r.terms, r.upper])).collect::<Vec<_>>();
    let stages = stages.iter().map(|s| json!({"name": s.name, "costs": s.costs})).collect::<Vec<_>>();
    json!({"name": name, "columns": columns, "rows": rows, "stages": stages})
}

fn main() {
    let all: Vec<Value> = tanks::invented()
        .iter()
        .filter_map(|(name, tank)| {
            let (programme, stages) = recipe::programme_of(tank).ok()?;
            Some(problem(name, &programme, &stages))
        })
        .collect();
    println!("{}", Value::Array(all));
}
