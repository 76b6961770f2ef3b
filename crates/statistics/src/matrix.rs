//! Small dense symmetric matrices: the few fixed effects of a nested model, the three variances.
//!
//! For tens of columns, not thousands. Sizes are set once by the caller and never come from a file.

#![expect(
    clippy::indexing_slicing,
    reason = "every index here is a loop variable below the matrix's own size"
)]

/// A square matrix kept row by row.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Square {
    size: usize,
    cells: Vec<f64>,
}

impl Square {
    /// A matrix of zeros.
    pub(crate) fn zero(size: usize) -> Self {
        Self { size, cells: vec![0.0; size * size] }
    }

    /// A matrix from its rows, of which there are as many as each is long.
    pub(crate) fn from_rows<const N: usize>(rows: &[[f64; N]; N]) -> Self {
        Self { size: N, cells: rows.concat() }
    }

    /// How many rows and columns.
    pub(crate) fn size(&self) -> usize {
        self.size
    }

    /// The number in a row and column.
    pub(crate) fn at(&self, row: usize, column: usize) -> f64 {
        self.cells[row * self.size + column]
    }

    /// Adds to the number in a row and column.
    pub(crate) fn add(&mut self, row: usize, column: usize, amount: f64) {
        self.cells[row * self.size + column] += amount;
    }

    /// Adds `weight * left * right'`.
    pub(crate) fn add_outer(&mut self, weight: f64, left: &[f64], right: &[f64]) {
        for (row, l) in self.cells.chunks_exact_mut(self.size.max(1)).zip(left) {
            row.iter_mut().zip(right).for_each(|(cell, r)| *cell += weight * l * r);
        }
    }

    /// Adds another matrix, times a weight.
    pub(crate) fn add_scaled(&mut self, weight: f64, other: &Self) {
        self.cells.iter_mut().zip(&other.cells).for_each(|(cell, more)| *cell += weight * more);
    }

    /// The rows and columns that `keep` marks.
    pub(crate) fn part(&self, keep: &[bool]) -> Self {
        let kept: Vec<usize> = (0..self.size).filter(|index| keep[*index]).collect();
        let cells = kept.iter().flat_map(|row| kept.iter().map(|column| self.at(*row, *column))).collect();
        Self { size: kept.len(), cells }
    }

    /// The rows as vectors.
    pub(crate) fn rows(&self) -> Vec<Vec<f64>> {
        self.cells.chunks_exact(self.size.max(1)).map(<[f64]>::to_vec).collect()
    }

    /// Eliminates every column but the last, largest pivot first: how many were independent, and what is
    /// then left of the last diagonal. Pivots up to `smallest` count as nothing.
    pub(crate) fn eliminate(&self, smallest: f64) -> Elimination {
        let last = self.size.saturating_sub(1);
        let mut rest = self.clone();
        let mut open: Vec<usize> = (0..last).collect();
        while let Some(place) = rest.largest_diagonal(&open, smallest) {
            let column = open.swap_remove(place);
            let direction: Vec<f64> = (0..self.size).map(|row| rest.at(row, column)).collect();
            rest.add_outer(-direction[column].recip(), &direction, &direction);
        }
        Elimination { rank: last - open.len(), left: rest.at(last, last) }
    }

    /// Where in `open` the column with the largest diagonal above `smallest` stands.
    fn largest_diagonal(&self, open: &[usize], smallest: f64) -> Option<usize> {
        let diagonals = open.iter().map(|column| self.at(*column, *column)).enumerate();
        let largest = diagonals.max_by(|a, b| a.1.total_cmp(&b.1));
        largest.filter(|(_, diagonal)| smallest < *diagonal).map(|(place, _)| place)
    }

    /// `L` with `L L' = self`, or `None` unless the matrix is safely positive definite.
    pub(crate) fn cholesky(&self) -> Option<Cholesky> {
        let mut lower = self.clone();
        for column in 0..self.size {
            let row_part = |matrix: &Self, row: usize| -> f64 {
                (0..column).map(|k| matrix.at(row, k) * matrix.at(column, k)).sum()
            };
            let pivot = self.at(column, column) - row_part(&lower, column);
            if !pivot.is_finite() || pivot <= SMALLEST_PIVOT * self.at(column, column) {
                return None;
            }
            let root = pivot.sqrt();
            lower.cells[column * self.size + column] = root;
            for row in column + 1..self.size {
                let value = (self.at(row, column) - row_part(&lower, row)) / root;
                lower.cells[row * self.size + column] = value;
            }
        }
        Some(Cholesky { lower })
    }
}

/// What elimination finds.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Elimination {
    /// Independent columns among all but the last.
    pub(crate) rank: usize,
    /// The last diagonal, less what those columns explain.
    pub(crate) left: f64,
}

/// Least pivot, as a share of its diagonal, that still counts as independent: some hundred roundings.
const SMALLEST_PIVOT: f64 = 1e-14;

/// A Cholesky factor; only its lower triangle is read.
#[derive(Clone, Debug)]
pub(crate) struct Cholesky {
    lower: Square,
}

impl Cholesky {
    /// The logarithm of the determinant.
    pub(crate) fn log_determinant(&self) -> f64 {
        (0..self.lower.size).map(|k| self.lower.at(k, k).ln()).sum::<f64>() * 2.0
    }

    /// Solves `matrix x = right`.
    pub(crate) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut x = right.to_vec();
        self.halve(&mut x);
        for row in (0..x.len()).rev() {
            let later: f64 = (row + 1..x.len()).map(|k| self.lower.at(k, row) * x[k]).sum();
            x[row] = (x[row] - later) / self.lower.at(row, row);
        }
        x
    }

    /// `v' inverse(matrix) v`.
    pub(crate) fn inverse_form(&self, vector: &[f64]) -> f64 {
        let mut half = vector.to_vec();
        self.halve(&mut half);
        half.iter().map(|x| x * x).sum()
    }

    /// The inverse of the factored matrix.
    pub(crate) fn inverse(&self) -> Square {
        let size = self.lower.size;
        let mut inverse = Square::zero(size);
        for column in 0..size {
            let unit: Vec<f64> = (0..size).map(|row| f64::from(u8::from(row == column))).collect();
            let solved = self.solve(&unit);
            solved.iter().enumerate().for_each(|(row, value)| inverse.add(row, column, *value));
        }
        inverse
    }

    /// Solves `L x = right` in place: what varied as the matrix varies then by 1 in every direction.
    pub(crate) fn halve(&self, x: &mut [f64]) {
        for row in 0..x.len() {
            let earlier: f64 = (0..row).map(|k| self.lower.at(row, k) * x[k]).sum();
            x[row] = (x[row] - earlier) / self.lower.at(row, row);
        }
    }
}

/// Sum of products of two equally long vectors.
pub(crate) fn dot(left: &[f64], right: &[f64]) -> f64 {
    left.iter().zip(right).map(|(l, r)| l * r).sum()
}

/// `trace(left * right)` of two symmetric matrices.
pub(crate) fn trace_of_product(left: &Square, right: &Square) -> f64 {
    dot(&left.cells, &right.cells)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A matrix that can be factored by hand: [[4, 2], [2, 5]] = L L' with L = [[2, 0], [1, 2]].
    #[test]
    fn factors_by_hand() {
        let factor = Square::from_rows(&[[4.0, 2.0], [2.0, 5.0]]).cholesky().unwrap();
        assert!((factor.log_determinant() - 16.0_f64.ln()).abs() < 1e-15);
        assert_eq!(factor.solve(&[8.0, 12.0]), vec![1.0, 2.0]);
        assert_eq!(factor.inverse_form(&[8.0, 12.0]), 32.0);
    }

    /// Two equal columns have no factor.
    #[test]
    fn refuses_a_dependent_column() {
        assert!(Square::from_rows(&[[1.0, 1.0], [1.0, 1.0]]).cholesky().is_none());
    }
}
