//! Numbers in rows and columns, as designs need them: a few hundred each way, updated in place.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a loop variable below the size of what it reads, or checked by `Design::new`"
)]

use faer::linalg::solvers::DenseSolveCore;
use faer::{Mat, Side};

/// A table of numbers kept row by row.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Grid {
    columns: usize,
    cells: Vec<f64>,
}

impl Grid {
    /// Zeros.
    pub(crate) fn zero(rows: usize, columns: usize) -> Self {
        Self { columns, cells: vec![0.0; rows * columns] }
    }

    /// How many rows.
    pub(crate) fn rows(&self) -> usize {
        self.cells.len().checked_div(self.columns).unwrap_or(0)
    }

    /// The number in a row and column.
    #[inline]
    pub(crate) fn at(&self, row: usize, column: usize) -> f64 {
        self.cells[row * self.columns + column]
    }

    /// Adds to the number in a row and column.
    pub(crate) fn add(&mut self, row: usize, column: usize, amount: f64) {
        self.cells[row * self.columns + column] += amount;
    }

    /// One row.
    pub(crate) fn row(&self, row: usize) -> &[f64] {
        &self.cells[row * self.columns..(row + 1) * self.columns]
    }

    /// One row, to be changed.
    pub(crate) fn row_mut(&mut self, row: usize) -> &mut [f64] {
        &mut self.cells[row * self.columns..(row + 1) * self.columns]
    }

    /// Adds `left * right'`.
    pub(crate) fn add_outer(&mut self, left: &[f64], right: &[f64]) {
        for (row, l) in self.cells.chunks_exact_mut(self.columns.max(1)).zip(left) {
            row.iter_mut().zip(right).for_each(|(cell, r)| *cell += l * r);
        }
    }

    /// `self * other`.
    pub(crate) fn times(&self, other: &Self) -> Self {
        let mut product = Self::zero(self.rows(), other.columns);
        for (row, own) in product
            .cells
            .chunks_exact_mut(other.columns.max(1))
            .zip(self.cells.chunks_exact(self.columns.max(1)))
        {
            for (weight, theirs) in own.iter().zip(other.cells.chunks_exact(other.columns.max(1))) {
                row.iter_mut().zip(theirs).for_each(|(cell, r)| *cell += weight * r);
            }
        }
        product
    }

    /// Rows and columns exchanged.
    pub(crate) fn turned(&self) -> Self {
        let mut turned = Self::zero(self.columns, self.rows());
        for row in 0..self.rows() {
            for column in 0..self.columns {
                turned.add(column, row, self.at(row, column));
            }
        }
        turned
    }

    /// Sum of the diagonal.
    pub(crate) fn trace(&self) -> f64 {
        (0..self.rows()).map(|index| self.at(index, index)).sum()
    }

    /// The inverse of a symmetric positive definite grid, or `None` if it is not.
    pub(crate) fn inverse(&self) -> Option<Self> {
        let inverse = self.matrix().llt(Side::Lower).ok()?.inverse();
        let mut found = Self::zero(self.rows(), self.columns);
        for row in 0..self.rows() {
            for column in 0..self.columns {
                found.add(row, column, inverse[(row, column)]);
            }
        }
        Some(found)
    }

    /// Eigenvalues of a symmetric grid, ascending, and its eigenvectors as rows in the same order.
    pub(crate) fn eigen(&self) -> Option<(Vec<f64>, Self)> {
        let eigen = self.matrix().self_adjoint_eigen(Side::Lower).ok()?;
        let values: Vec<f64> = eigen.S().column_vector().iter().copied().collect();
        let mut vectors = Self::zero(self.rows(), self.columns);
        for row in 0..self.rows() {
            for column in 0..self.columns {
                vectors.add(row, column, eigen.U()[(column, row)]);
            }
        }
        Some((values, vectors))
    }

    fn matrix(&self) -> Mat<f64> {
        Mat::from_fn(self.rows(), self.columns, |row, column| self.at(row, column))
    }
}
