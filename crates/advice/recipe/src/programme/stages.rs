//! Stage after stage: each is made as small as it gets without giving up anything of those before it.
//!
//! What: minimise f1; then f2 among the points where f1 is least; and so on.
//! Equation: stage k minimises `f_k(x)` over the rows of the problem and `f_i(x) <= f_i* + slack_i`, i < k.
//! Symbols: `f_i*` the value that stage i reached; `slack_i` 1e-7 of it, at least 1e-9 (the solver's own tolerance);
//! a stage that counts whole things is held at its whole number and needs none. A proved stage is held from below
//! too (no point lies there), which lets the search of later stages end sooner.
//! Range: any number of stages over the same columns. A stage that meets its node limit is held where it stands.
//! Source: preemptive (lexicographic) goal programming, Charnes & Cooper 1961 (source key `charnes_cooper_1961`).
//! Checked by: `tests/against_highs.rs`, `tests/brute_force_programme.rs`.

use super::{Found, Problem, Unsolved, minimise};

/// One thing to make small.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Stage {
    /// What it stands for.
    pub name: String,
    /// Column and cost.
    pub costs: Vec<(usize, f64)>,
    /// At most so many nodes of branch and bound.
    pub nodes: u64,
}

impl Stage {
    /// True where the objective can only be a whole number: whole costs on whole columns.
    pub fn counts(&self, problem: &Problem) -> bool {
        self.costs.iter().all(|&(column, cost)| {
            cost.fract() == 0.0 && problem.columns.get(column).is_some_and(|column| column.whole)
        })
    }
}

/// A stage as it ended.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Settled {
    /// Its name.
    pub name: String,
    /// The value reached.
    pub objective: f64,
    /// True where no point does better.
    pub proved: bool,
    /// Nodes that it took.
    pub nodes: u64,
    /// Pivots that it took.
    pub pivots: u64,
}

/// All stages as they ended.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Stages {
    /// One value for each column of the problem.
    pub values: Vec<f64>,
    /// The stages.
    pub stages: Vec<Settled>,
    /// The problem with a row for each stage that holds it where it ended.
    pub held: Problem,
}

/// Minimise stage after stage.
///
/// # Errors
/// [`Unsolved`] of the first stage, if no point meets all rows. A later stage whose search fails (numbers beyond the
/// solver) leaves the point of the stage before it and counts as not proved.
pub fn lexicographic(problem: &Problem, stages: &[Stage]) -> Result<Stages, Unsolved> {
    let mut held = problem.clone();
    let mut settled = Vec::with_capacity(stages.len());
    let mut best: Option<Vec<f64>> = None;
    for stage in stages {
        let found = match (minimise(&held, &stage.costs, best.as_deref(), stage.nodes), &best) {
            (Ok(found), _) => found,
            (Err(unsolved), None) => return Err(unsolved),
            (Err(_), Some(values)) => stay(stage, values),
        };
        let slack = if stage.counts(problem) { 0.0 } else { (1e-7 * found.objective.abs()).max(1e-9) };
        // What is proved is a bound from below too: later stages that count more of the same end at once.
        let least = match (found.proved, stage.counts(problem)) {
            (true, true) => found.objective,
            (true, false) => found.objective - slack,
            (false, _) => f64::NEG_INFINITY,
        };
        if !stage.costs.is_empty() {
            held.row(&stage.name, least, stage.costs.clone(), found.objective + slack);
        }
        let Found { values, objective, proved, nodes, pivots } = found;
        settled.push(Settled { name: stage.name.clone(), objective, proved, nodes, pivots });
        best = Some(values);
    }
    let values = match best {
        Some(values) => values,
        None => minimise(problem, &[], None, u64::MAX)?.values,
    };
    Ok(Stages { values, stages: settled, held })
}

/// The point of the stage before, unproved.
fn stay(stage: &Stage, values: &[f64]) -> Found {
    let objective = stage.costs.iter().map(|&(column, cost)| cost * values.get(column).copied().unwrap_or(0.0)).sum();
    Found { values: values.to_vec(), objective, proved: false, nodes: 0, pivots: 0 }
}
