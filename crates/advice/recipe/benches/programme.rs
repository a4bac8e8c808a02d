//! CPU time of the programmes beside HiGHS on the same instances. `benches/beside_highs.py` writes the instances, runs HiGHS and
//! this, and prints the ratios; alone: `cargo bench -p recipe --bench programme -- INSTANCES.json`.
#![allow(clippy::disallowed_methods, reason = "a benchmark reads files and the clock")]

use std::time::Instant;

use recipe::programme::{Problem, minimise};

#[derive(serde::Deserialize)]
struct Instance {
    kind: String,
    n: usize,
    m: usize,
    a: Vec<Vec<f64>>,
    lower: Vec<f64>,
    upper: Vec<f64>,
    cost: Vec<f64>,
}

/// Seconds of CPU time for which each instance is run again and again; the mean counts. The kernel counts in steps of some
/// milliseconds, so one run is too short to be measured.
const LONG: f64 = 0.08;
/// Nodes after which a search counts as not proved.
const NODES: u64 = 20_000;
/// Cost of a product, besides that of what is used of it, in the kind "fixed".
const PRODUCT: f64 = 5.0;
/// Most of a product, and most products in the kind "fixed".
const MOST: (f64, f64) = (60.0, 8.0);

fn problem(instance: &Instance) -> (Problem, Vec<(usize, f64)>) {
    let mut p = Problem::new();
    let whole = instance.kind != "lp";
    let amounts: Vec<usize> = (0..instance.n).map(|j| p.column(format!("{j}"), 0.0, MOST.0, whole)).collect();
    for ((row, &lower), &upper) in instance.a.iter().zip(&instance.lower).zip(&instance.upper) {
        let terms = amounts.iter().copied().zip(row.iter().copied()).filter(|(_, k)| *k != 0.0).collect();
        p.row("band", lower, terms, upper);
    }
    let mut costs: Vec<(usize, f64)> = amounts.iter().copied().zip(instance.cost.iter().copied()).collect();
    match instance.kind.as_str() {
        "fewest" => costs = p.used(&amounts).into_iter().map(|used| (used, 1.0)).collect(),
        "fixed" => {
            let used = p.used(&amounts);
            p.row("at most so many", 0.0, used.iter().map(|&used| (used, 1.0)).collect(), MOST.1);
            costs.extend(used.into_iter().map(|used| (used, PRODUCT)));
        }
        _ => {}
    }
    (p, costs)
}

/// Seconds that this thread has run, as the kernel counts them; without such a count, of the clock on the wall.
fn cpu_seconds(clock: &Instant) -> f64 {
    let count = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let ns = count.and_then(|text| text.split_whitespace().next()?.parse::<f64>().ok());
    ns.map_or_else(|| clock.elapsed().as_secs_f64(), |ns| ns / 1e9)
}

fn main() {
    let Some(path) = std::env::args().skip(1).find(|arg| arg.ends_with(".json")) else {
        println!("no instances given: run benches/beside_highs.py (docs/bench/recipe.md)");
        return;
    };
    let text = std::fs::read_to_string(&path).expect("the instances");
    let instances: Vec<Instance> = serde_json::from_str(&text).expect("instances as beside_highs.py writes them");
    let clock = Instant::now();
    let mut answers = Vec::new();
    for instance in &instances {
        let (start, mut runs, mut found, mut spent) = (cpu_seconds(&clock), 0.0, None, 0.0);
        while spent < LONG {
            let (problem, costs) = problem(instance);
            found = Some(minimise(&problem, &costs, None, NODES));
            runs += 1.0;
            spent = cpu_seconds(&clock) - start;
        }
        let (objective, proved, nodes, pivots) = match found {
            Some(Ok(found)) => (found.objective, found.proved, found.nodes, found.pivots),
            _ => (f64::NAN, false, NODES, 0),
        };
        let row = serde_json::json!({"kind": instance.kind, "n": instance.n, "m": instance.m, "ms": 1e3 * spent / runs,
            "objective": objective, "proved": proved, "nodes": nodes, "pivots": pivots});
        answers.push(row);
    }
    println!("{}", serde_json::Value::Array(answers));
}
