//! Judge: HiGHS, through fixtures: linear programmes, whole-number programmes, fewest products, and all stages of the programmes
//! that the recipe writes for invented tanks. Script, versions and command: `tests/fixtures/highs/make.py`.

use recipe::programme::{Column, Problem, Row, Stage, Unsolved, lexicographic};

#[derive(serde::Deserialize)]
struct Fixture {
    cases: Vec<Case>,
}

/// At least, terms, at most.
type Sum = (Option<f64>, Vec<(usize, f64)>, Option<f64>);

#[derive(serde::Deserialize)]
struct Case {
    name: String,
    columns: Vec<(Option<f64>, Option<f64>, bool)>,
    rows: Vec<Sum>,
    stages: Vec<Costs>,
    reached: Option<Vec<f64>>,
}

#[derive(serde::Deserialize)]
struct Costs {
    name: String,
    costs: Vec<(usize, f64)>,
}

fn cases() -> Vec<Case> {
    serde_json::from_str::<Fixture>(include_str!("fixtures/highs/cases.json")).expect("the fixture").cases
}

fn problem(case: &Case) -> Problem {
    let column = |&(lower, upper, whole): &(Option<f64>, Option<f64>, bool)| Column {
        name: String::new(),
        lower: lower.unwrap_or(f64::NEG_INFINITY),
        upper: upper.unwrap_or(f64::INFINITY),
        whole,
    };
    let row = |(lower, terms, upper): &Sum| Row {
        name: String::new(),
        lower: lower.unwrap_or(f64::NEG_INFINITY),
        upper: upper.unwrap_or(f64::INFINITY),
        terms: terms.clone(),
    };
    Problem { columns: case.columns.iter().map(column).collect(), rows: case.rows.iter().map(row).collect() }
}

fn stages(case: &Case) -> Vec<Stage> {
    case.stages.iter().map(|s| Stage { name: s.name.clone(), costs: s.costs.clone(), nodes: 1_000_000 }).collect()
}

/// The objective of every stage is that of HiGHS to 1e-6 (of itself, or of 1 where it is smaller), proved; what HiGHS calls
/// infeasible is infeasible. The point meets all rows to 2e-6: 1e-7 is the solver's tolerance, and a row of the recipe
/// adds up some dozens of amounts.
#[test]
fn every_stage_ends_where_highs_ends() {
    let mut errors = Vec::new();
    for case in cases() {
        let problem = problem(&case);
        let solved = lexicographic(&problem, &stages(&case));
        let Some(reached) = &case.reached else {
            assert_eq!(solved, Err(Unsolved::Infeasible), "{}", case.name);
            continue;
        };
        let solved = solved.unwrap_or_else(|unsolved| panic!("{}: {unsolved}", case.name));
        assert!(problem.violation(&solved.values) < 2e-6, "{}: {}", case.name, problem.violation(&solved.values));
        for (stage, &highs) in solved.stages.iter().zip(reached) {
            let error = (stage.objective - highs).abs() / highs.abs().max(1.0);
            assert!(error <= 1e-6, "{}, {}: {} against {highs}", case.name, stage.name, stage.objective);
            assert!(stage.proved, "{}, {}", case.name, stage.name);
            errors.push(error);
        }
    }
    errors.sort_by(f64::total_cmp);
    let at = |share: f64| errors[((errors.len() - 1) as f64 * share) as usize];
    println!(
        "{} stages: median {:.1e}, 99th percentile {:.1e}, largest {:.1e}",
        errors.len(),
        at(0.5),
        at(0.99),
        at(1.0)
    );
    assert!(errors.len() > 80);
}

/// Work is counted, not timed: pivots over all cases, so that a change of solver or rows that makes the search longer is
/// seen. Regression only.
#[test]
fn the_work_stays_where_it_is() {
    let pivots: u64 = cases()
        .iter()
        .filter_map(|case| lexicographic(&problem(case), &stages(case)).ok())
        .flat_map(|solved| solved.stages)
        .map(|stage| stage.pivots)
        .sum();
    assert!(pivots < PIVOTS, "{pivots} pivots");
}

/// A third more than the pivots that all cases took.
const PIVOTS: u64 = 18_200;
