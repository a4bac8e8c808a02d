//! Whole-number programmes small enough to try every point: the stages must end where trying ends.

use proptest::prelude::*;
use recipe::programme::{Problem, Stage, Unsolved, lexicographic};

/// Three to five columns from 0 to 3, two or three rows with bands, two stages of costs; all whole numbers.
fn problems() -> impl Strategy<Value = (Problem, Vec<Stage>)> {
    (3usize..=5, 2usize..=3).prop_flat_map(|(n, m)| {
        let row = (proptest::collection::vec(-2i32..=5, n), -4i32..=10, 0i32..=6);
        let costs = proptest::collection::vec(-3i32..=6, n);
        (proptest::collection::vec(row, m), proptest::collection::vec(costs, 2)).prop_map(move |(rows, costs)| {
            let mut p = Problem::new();
            for i in 0..n {
                p.column(format!("x{i}"), 0.0, 3.0, true);
            }
            for (k, lower, width) in rows {
                let terms = k.iter().enumerate().filter(|(_, k)| **k != 0).map(|(i, &k)| (i, f64::from(k))).collect();
                p.row("row", f64::from(lower), terms, f64::from(lower + width));
            }
            let terms = |costs: &Vec<i32>| costs.iter().enumerate().map(|(i, &k)| (i, f64::from(k))).collect();
            let stage = |costs: &Vec<i32>| Stage { name: "cost".to_owned(), costs: terms(costs), nodes: 100_000 };
            (p, costs.iter().map(stage).collect())
        })
    })
}

/// Every point that meets all rows.
fn points(p: &Problem) -> Vec<Vec<f64>> {
    let n = p.columns.len() as u32;
    (0..4u32.pow(n))
        .map(|code| (0..n).map(|i| f64::from(code / 4u32.pow(i) % 4)).collect::<Vec<f64>>())
        .filter(|point| p.violation(point) == 0.0)
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]
    #[test]
    fn stages_end_where_trying_every_point_ends((p, stages) in problems()) {
        let mut left = points(&p);
        let solved = lexicographic(&p, &stages);
        if left.is_empty() {
            prop_assert_eq!(solved, Err(Unsolved::Infeasible));
            return Ok(());
        }
        let solved = solved.unwrap();
        let at = |stage: &Stage, point: &[f64]| stage.costs.iter().map(|&(i, k)| k * point[i]).sum::<f64>();
        for (stage, reached) in stages.iter().zip(&solved.stages) {
            let best = left.iter().map(|point| at(stage, point)).fold(f64::INFINITY, f64::min);
            prop_assert!(reached.proved && (reached.objective - best).abs() < 1e-6, "{} {best}", reached.objective);
            left.retain(|point| at(stage, point) == best);
        }
        prop_assert!(left.contains(&solved.values.iter().map(|v| v.round()).collect::<Vec<f64>>()));
    }
}
