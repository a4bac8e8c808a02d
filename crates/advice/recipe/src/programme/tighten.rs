//! What rows and bounds imply, written down so that the search has less to find out: bounds of columns, and covers.

use super::{Problem, Row};

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

/// Rows that every point with whole yes-or-nos meets, and that fractions of yes-or-nos break: where a row needs at least L of
/// amounts that are tied to yes-or-nos, `k x <= k M u`, then already `sum of min(k M, L) u >= L` (a cover: one yes is
/// enough where its amount could bring all of L alone, and less than one is not). `tied`: amount, its yes-or-no, and M.
///
/// Source: coefficient tightening of knapsack covers, Crowder, Johnson & Padberg 1983 (source key `crowder_1983`).
pub(super) fn covers(problem: &Problem, tied: &[(usize, usize, f64)]) -> Vec<Row> {
    let of = |column: usize| tied.iter().find(|&&(amount, ..)| amount == column);
    let mut covers: Vec<Row> = Vec::new();
    for row in &problem.rows {
        // Both senses of the row, as `sum >= least`.
        for (sign, least) in [(1.0, row.lower), (-1.0, -row.upper)] {
            let brings = |&&(column, k): &&(usize, f64)| sign * k > 0.0 && of(column).is_some();
            let others = row.terms.iter().filter(|term| !brings(term));
            let needed = least - others.map(|&(column, k)| end(problem, column, sign * k, true)).sum::<f64>();
            if !(needed.is_finite() && needed > 1e-6 * least.abs().max(1.0)) {
                continue;
            }
            let suppliers = row.terms.iter().filter(brings);
            let terms: Vec<(usize, f64)> = suppliers
                .filter_map(|&(column, k)| {
                    of(column).map(|&(_, used, most)| (used, (sign * k * most / needed).min(1.0)))
                })
                .filter(|&(_, k)| k > 1e-9)
                .collect();
            // A hair of room, so that rounding never cuts off a point that meets the row.
            let cover = Row { name: format!("{}, covered", row.name), lower: 1.0 - 1e-6, upper: f64::INFINITY, terms };
            if covers.iter().all(|known| known.terms != cover.terms) {
                covers.push(cover);
            }
        }
    }
    covers
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

    #[test]
    fn a_cover_by_hand() {
        let mut p = Problem::new();
        let (a, b, c) = (p.amount("a", 0.0, 3.0), p.amount("b", 0.0, 10.0), p.amount("c", 0.0, 1.0));
        p.row("2 a + b + c >= 9", 9.0, vec![(a, 2.0), (b, 1.0), (c, 1.0)], f64::INFINITY);
        let (ua, ub) = (p.yes_or_no("a?"), p.yes_or_no("b?"));
        // c brings 1 at most, so 8 are needed: a brings 6 of them, b all: 0.75 a? + b? >= 1.
        let covers = covers(&p, &[(a, ua, 3.0), (b, ub, 10.0)]);
        assert_eq!(covers.len(), 1);
        assert_eq!(covers[0].terms, [(ua, 0.75), (ub, 1.0)]);
    }
}
