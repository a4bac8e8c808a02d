//! One objective over one problem, by the crate `microlp`: simplex, branch and bound, limited by nodes.
//!
//! After a search with whole columns these are set to the whole numbers found and the amounts are solved once more, so
//! that an answer never leans on the solver's tolerance for wholeness (a "no" of 0.000001 under a large coefficient).

use std::fmt;

use microlp::{ComparisonOp, Error, OptimizationDirection, SolveOptions, SolveOutcome, Variable};

use super::Problem;

/// The best point found.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Found {
    /// One value for each column; whole columns are whole.
    pub values: Vec<f64>,
    /// The objective there.
    pub objective: f64,
    /// True where no point is better; false where the node limit came first.
    pub proved: bool,
    /// Nodes of branch and bound.
    pub nodes: u64,
    /// Pivots of the simplex, all nodes.
    pub pivots: u64,
}

/// Why there is no point.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unsolved {
    /// No point meets all rows and bounds: proved.
    Infeasible,
    /// The objective falls without end.
    Unbounded,
    /// The node limit came before the first point.
    NodeLimit,
    /// The numbers were beyond the solver (coefficients too far apart, a bound that is no number): its message.
    Numbers(String),
}

impl fmt::Display for Unsolved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unsolved::Infeasible => f.write_str("no point meets all rows and bounds"),
            Unsolved::Unbounded => f.write_str("the objective falls without end"),
            Unsolved::NodeLimit => f.write_str("the node limit came before the first point"),
            Unsolved::Numbers(what) => write!(f, "the numbers were beyond the solver: {what}"),
        }
    }
}

impl std::error::Error for Unsolved {}

impl From<Error> for Unsolved {
    fn from(error: Error) -> Self {
        match error {
            Error::Infeasible => Unsolved::Infeasible,
            Error::Unbounded => Unsolved::Unbounded,
            other => Unsolved::Numbers(other.to_string()),
        }
    }
}

/// Make the sum of `costs` (column, cost) as small as it gets. `start` is a point to begin from (it may break a row: then
/// it is not used); `nodes` limits the search.
///
/// # Errors
/// See [`Unsolved`].
pub fn minimise(
    problem: &Problem,
    costs: &[(usize, f64)],
    start: Option<&[f64]>,
    nodes: u64,
) -> Result<Found, Unsolved> {
    let found = run(problem, costs, start, nodes, None)?;
    if problem.columns.iter().all(|column| !column.whole) {
        return Ok(found);
    }
    let whole: Vec<f64> = found.values.iter().map(|value| value.round()).collect();
    match run(problem, costs, None, nodes, Some(&whole)) {
        Ok(exact) => {
            Ok(Found { nodes: found.nodes, pivots: found.pivots + exact.pivots, proved: found.proved, ..exact })
        }
        Err(_) => Err(Unsolved::Numbers("a whole number was found only within the solver's tolerance".to_owned())),
    }
}

/// One call of the solver. With `whole`, whole columns stand fixed at these values.
fn run(
    problem: &Problem,
    costs: &[(usize, f64)],
    start: Option<&[f64]>,
    nodes: u64,
    whole: Option<&[f64]>,
) -> Result<Found, Unsolved> {
    let (model, variables) = model(problem, costs, whole);
    let mut options = SolveOptions::default();
    options.node_limit = Some(nodes);
    options.warm_start = start
        .filter(|values| values.len() == variables.len() && problem.violation(values) <= options.tolerances.feasibility)
        .map(|values| variables.iter().copied().zip(values.iter().copied()).collect());
    let outcome = model.solve_with(options)?;
    let (proved, stats) = (outcome.is_optimal(), outcome.stats());
    let SolveOutcome::Solution(solution) = outcome else { return Err(Unsolved::NodeLimit) };
    let values: Vec<f64> = variables.iter().map(|&variable| solution.var_value(variable)).collect();
    let values = match whole {
        Some(whole) => settle(problem, &values, whole),
        None => values,
    };
    let objective = costs.iter().map(|&(column, cost)| cost * values.get(column).copied().unwrap_or(0.0)).sum();
    Ok(Found { values, objective, proved, nodes: stats.nodes_solved, pivots: stats.lp_iterations })
}

/// Whole columns at their whole values, the others as found.
fn settle(problem: &Problem, values: &[f64], whole: &[f64]) -> Vec<f64> {
    let columns = problem.columns.iter().zip(values).zip(whole);
    columns.map(|((column, &value), &whole)| if column.whole { whole } else { value }).collect()
}

/// The problem in the solver's terms.
fn model(problem: &Problem, costs: &[(usize, f64)], whole: Option<&[f64]>) -> (microlp::Problem, Vec<Variable>) {
    let mut cost = vec![0.0; problem.columns.len()];
    for &(column, k) in costs {
        if let Some(cost) = cost.get_mut(column) {
            *cost += k;
        }
    }
    let mut model = microlp::Problem::new(OptimizationDirection::Minimize);
    let mut variables = Vec::with_capacity(problem.columns.len());
    for (i, column) in problem.columns.iter().enumerate() {
        let k = cost.get(i).copied().unwrap_or(0.0);
        variables.push(match whole.and_then(|whole| whole.get(i)).filter(|_| column.whole) {
            Some(&value) => model.add_var(k, (value, value)),
            None if column.whole => model.add_integer_var(k, (column.lower as i32, column.upper as i32)),
            None => model.add_var(k, (column.lower, column.upper)),
        });
    }
    for row in &problem.rows {
        let terms = || row.terms.iter().filter_map(|&(column, k)| variables.get(column).map(|&variable| (variable, k)));
        let mut add = |op, side| model.add_constraint(terms().collect::<Vec<_>>(), op, side);
        if row.lower == row.upper {
            add(ComparisonOp::Eq, row.lower);
            continue;
        }
        if row.lower != f64::NEG_INFINITY {
            add(ComparisonOp::Ge, row.lower);
        }
        if row.upper != f64::INFINITY {
            add(ComparisonOp::Le, row.upper);
        }
    }
    (model, variables)
}
