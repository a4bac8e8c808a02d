//! Linear programmes with some whole columns, minimised stage after stage in their order of worth.
//!
//! Nothing here knows water or salts: a [`Problem`] is columns with bounds and rows `lower <= sum <= upper`; a [`Stage`]
//! is one thing to make small. [`lexicographic`] makes the first stage as small as it gets, holds it there, goes on to
//! the next, and says of each whether it is proved. The search itself is that of the crate `microlp` (dual simplex,
//! branch and bound); it is limited by nodes, never by time, so that the same problem has the same answer everywhere.
//! `docs/models/recipe.md` describes the stages of the recipe; `tests/against_highs.rs` holds the answers against HiGHS.

mod search;
mod stages;
mod tighten;

pub use search::{Found, Unsolved, minimise};
pub use stages::{Settled, Stage, Stages, lexicographic};

/// An amount without any bound counts as bounded by this where a yes-or-no is tied to it.
const UNBOUNDED: f64 = 1e6;

/// A column: an amount, or a yes-or-no.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Column {
    /// What it stands for.
    pub name: String,
    /// At least; finite.
    pub lower: f64,
    /// At most; may be infinite, but for a whole column.
    pub upper: f64,
    /// True where only whole numbers count.
    pub whole: bool,
}

/// A row: `lower <= sum of coefficient x column <= upper`. An infinite side asks for nothing.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Row {
    /// What it stands for.
    pub name: String,
    /// At least.
    pub lower: f64,
    /// At most.
    pub upper: f64,
    /// Place of the column and its coefficient; each column at most once.
    pub terms: Vec<(usize, f64)>,
}

impl Row {
    /// The sum at a point.
    pub fn at(&self, values: &[f64]) -> f64 {
        self.terms.iter().map(|&(column, k)| k * values.get(column).copied().unwrap_or(0.0)).sum()
    }
}

/// Columns and rows.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Problem {
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows.
    pub rows: Vec<Row>,
}

impl Problem {
    /// No column and no row.
    pub fn new() -> Self {
        Self::default()
    }

    /// A new column for an amount from `lower` to `upper`; answers its place.
    pub fn amount(&mut self, name: impl Into<String>, lower: f64, upper: f64) -> usize {
        self.column(name, lower, upper, false)
    }

    /// A new column that is 0 or 1; answers its place.
    pub fn yes_or_no(&mut self, name: impl Into<String>) -> usize {
        self.column(name, 0.0, 1.0, true)
    }

    /// A new column; answers its place.
    pub fn column(&mut self, name: impl Into<String>, lower: f64, upper: f64, whole: bool) -> usize {
        self.columns.push(Column { name: name.into(), lower, upper, whole });
        self.columns.len() - 1
    }

    /// A new row; answers its place.
    pub fn row(&mut self, name: impl Into<String>, lower: f64, terms: Vec<(usize, f64)>, upper: f64) -> usize {
        self.rows.push(Row { name: name.into(), lower, upper, terms });
        self.rows.len() - 1
    }

    /// A new yes-or-no column for each of these amounts, which must be 1 where the amount is above 0; answers their places.
    /// The rows that tie them use the tightest upper bounds that the rows so far imply, and rows that already meet a need
    /// get a cover (see `programme/tighten.rs`): write the other rows first.
    pub fn used(&mut self, amounts: &[usize]) -> Vec<usize> {
        let mut tied = Vec::with_capacity(amounts.len());
        for &amount in amounts {
            let most = tighten::upper_bound(self, amount).min(UNBOUNDED);
            let name = self.columns.get(amount).map_or_else(String::new, |column| format!("{}?", column.name));
            tied.push((amount, self.yes_or_no(name), most));
        }
        let covers = tighten::covers(self, &tied);
        for &(amount, used, most) in &tied {
            let name = self.columns.get(used).map_or_else(String::new, |column| column.name.clone());
            self.row(name, f64::NEG_INFINITY, vec![(amount, 1.0), (used, -most)], 0.0);
        }
        self.rows.extend(covers);
        tied.into_iter().map(|(_, used, _)| used).collect()
    }

    /// By how much a point breaks the worst of its bounds and rows; whole columns count their distance from a whole number.
    pub fn violation(&self, values: &[f64]) -> f64 {
        let outside = |value: f64, lower: f64, upper: f64| (lower - value).max(value - upper).max(0.0);
        let columns = self.columns.iter().zip(values).map(|(column, &value)| {
            let broken = outside(value, column.lower, column.upper);
            if column.whole { broken.max((value - value.round()).abs()) } else { broken }
        });
        let rows = self.rows.iter().map(|row| outside(row.at(values), row.lower, row.upper));
        columns.chain(rows).fold(0.0, f64::max)
    }
}
