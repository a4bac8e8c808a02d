//! Small dense linear algebra: the Cholesky factor of a symmetric positive matrix, and what it solves.
//!
//! **What.** Ten unknowns at most, so fixed arrays and three loops; no crate is needed.
//!
//! **Equation.** A = L Lᵀ; A x = b by L y = b, Lᵀ x = y.
//!
//! **Range.** Any positive definite A; anything else has no factor.
//!
//! **Source.** Textbook (Cholesky, from memory).
//!
//! **Checked by** the test below: A A⁻¹ = 1.

use super::state::N;

/// A square matrix over the unknowns.
pub(super) type Matrix = [[f64; N]; N];
/// A vector over the unknowns.
pub(super) type Vector = [f64; N];

/// Σ aᵢ bᵢ
pub(super) fn dot(a: &Vector, b: &Vector) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Adds w wᵀ.
pub(super) fn add_outer(a: &mut Matrix, w: &Vector) {
    for (row, wi) in a.iter_mut().zip(w) {
        for (cell, wj) in row.iter_mut().zip(w) {
            *cell += wi * wj;
        }
    }
}

/// The lower factor L of A = L Lᵀ.
#[derive(Clone, Debug)]
pub(super) struct Factor(Matrix);

impl Factor {
    /// None where A is not positive definite.
    pub(super) fn of(a: &Matrix) -> Option<Factor> {
        let mut l = [[0.0; N]; N];
        for i in 0..N {
            for j in 0..=i {
                let rest = a[i][j] - (0..j).map(|k| l[i][k] * l[j][k]).sum::<f64>();
                l[i][j] = if i == j { rest.sqrt() } else { rest / l[j][j] };
                // `sqrt` of a negative number is no number, and neither is what follows from it.
                if !l[i][j].is_finite() || (i == j && l[i][j] <= 0.0) {
                    return None;
                }
            }
        }
        Some(Factor(l))
    }

    /// x of A x = b.
    pub(super) fn solve(&self, b: &Vector) -> Vector {
        let l = &self.0;
        let mut y = *b;
        for i in 0..N {
            y[i] = (y[i] - (0..i).map(|k| l[i][k] * y[k]).sum::<f64>()) / l[i][i];
        }
        self.back(&y)
    }

    /// x of Lᵀ x = y: a draw with covariance A⁻¹ where y is standard normal.
    pub(super) fn back(&self, y: &Vector) -> Vector {
        let l = &self.0;
        let mut x = *y;
        for i in (0..N).rev() {
            x[i] = (x[i] - (i + 1..N).map(|k| l[k][i] * x[k]).sum::<f64>()) / l[i][i];
        }
        x
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_inverse_undoes_the_matrix() {
        let mut a = [[0.0; N]; N];
        a.iter_mut().enumerate().for_each(|(i, row)| row[i] = 1.0 + i as f64);
        for k in 0..3 {
            add_outer(&mut a, &std::array::from_fn(|i| ((i * 7 + k * 3) % 5) as f64 - 2.0));
        }
        let factor = Factor::of(&a).unwrap();
        for j in 0..N {
            let x = factor.solve(&std::array::from_fn(|i| f64::from(i == j)));
            for (i, row) in a.iter().enumerate() {
                assert!((dot(row, &x) - f64::from(i == j)).abs() < 1e-12);
            }
        }
        a[4][4] = -1.0;
        assert!(Factor::of(&a).is_none());
    }
}
