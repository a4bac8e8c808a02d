//! The tightest upper bound of a column that bounds and rows imply, one row at a time.

use super::Problem;

/// Upper bound of a column: its own, or what the tightest row leaves when every other column of that row helps as much
/// as it can. A tight bound makes the search for the fewest products short: the relaxation is nearer to the truth.
pub(super) fn upper_bound(problem: &Problem, column: usize) -> f64 {
    let Some(own) = problem.columns.get(column) else { return f64::INFINITY };
    let mut most = own.upper;
    for row in &problem.rows {
        let Some(&(_, k)) = row.terms.iter().find(|&&(c, k)| c == column && k != 0.0) else { continue };
        let others = row.terms.iter().filter(|&&(c, _)| c != column);
        // k x <= upper - least of the others, or -k x <= most of the others - lower.
        let (side, least) = if k > 0.0 {
            (row.upper, others.map(|&(c, k)| end(problem, c, k, false)).sum::<f64>())
        } else {
            (row.lower, others.map(|&(c, k)| end(problem, c, k, true)).sum::<f64>())
        };
        let bound = (side - least) / k;
        if bound.is_finite() {
            most = most.min(bound.max(own.lower));
        }
    }
    if own.whole && most.is_finite() { (most + 1e-9).floor() } else { most }
}

/// The greatest or least that a term can be.
fn end(problem: &Problem, column: usize, k: f64, greatest: bool) -> f64 {
    let Some(column) = problem.columns.get(column) else { return 0.0 };
    if (k > 0.0) == greatest { k * column.upper } else { k * column.lower }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_bounds_a_column_by_hand() {
        let mut p = Problem::new();
        let (a, b) = (p.amount("a", 0.0, f64::INFINITY), p.amount("b", 1.0, 4.0));
        assert!(upper_bound(&p, a).is_infinite());
        p.row("2 a + b <= 11", f64::NEG_INFINITY, vec![(a, 2.0), (b, 1.0)], 11.0);
        assert_eq!(upper_bound(&p, a), 5.0); // (11 - 1) / 2
        p.row("b - a >= -2", -2.0, vec![(b, 1.0), (a, -1.0)], f64::INFINITY);
        assert_eq!(upper_bound(&p, a), 5.0); // 4 + 2 = 6 is no tighter
        p.row("b - a >= 0.5", 0.5, vec![(b, 1.0), (a, -1.0)], f64::INFINITY);
        assert_eq!(upper_bound(&p, a), 3.5);
    }
}
