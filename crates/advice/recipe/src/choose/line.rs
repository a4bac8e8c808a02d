//! A sum of columns and a constant: what rows are written from.

use std::collections::BTreeMap;

use crate::programme::Problem;

/// `constant + sum of coefficient x column`.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Line {
    terms: BTreeMap<usize, f64>,
    constant: f64,
}

impl Line {
    pub fn constant(value: f64) -> Self {
        Line { terms: BTreeMap::new(), constant: value }
    }

    pub fn column(column: usize, k: f64) -> Self {
        Line { terms: BTreeMap::from([(column, k)]), constant: 0.0 }
    }

    /// This and `k` times another.
    pub fn plus(mut self, k: f64, other: &Line) -> Self {
        for (&column, &coefficient) in &other.terms {
            *self.terms.entry(column).or_default() += k * coefficient;
        }
        self.constant += k * other.constant;
        self
    }

    /// This and a constant.
    pub fn and(mut self, value: f64) -> Self {
        self.constant += value;
        self
    }

    /// `k` times this.
    pub fn times(self, k: f64) -> Self {
        Line::default().plus(k, &self)
    }

    /// Its value at a point.
    pub fn at(&self, values: &[f64]) -> f64 {
        let terms = self.terms.iter().map(|(&column, k)| k * values.get(column).copied().unwrap_or(0.0));
        self.constant + terms.sum::<f64>()
    }

    /// Its terms, for a stage's costs.
    pub fn costs(&self) -> Vec<(usize, f64)> {
        self.terms.iter().filter(|&(_, &k)| k != 0.0).map(|(&column, &k)| (column, k)).collect()
    }

    /// Write `lower <= this <= upper` as a row. Nothing is written where no column can move the sum.
    pub fn bound(&self, problem: &mut Problem, name: &str, lower: f64, upper: f64) {
        let terms = self.costs();
        if !terms.is_empty() {
            problem.row(name, lower - self.constant, terms, upper - self.constant);
        }
    }
}
