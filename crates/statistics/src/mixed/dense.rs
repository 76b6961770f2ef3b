//! Small dense symmetric systems: information matrices of a few parameters, covariances of contrasts.

/// Cholesky factor of a small matrix, row by row; `None` where it is not positive definite.
fn factor(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let mut factor: Vec<Vec<f64>> = Vec::with_capacity(matrix.len());
    for (row, numbers) in matrix.iter().enumerate() {
        let mut own: Vec<f64> = Vec::with_capacity(row + 1);
        for before in &factor {
            let at = own.len();
            let done: f64 = own.iter().zip(before).map(|(a, b)| a * b).sum();
            own.push((numbers[at] - done) / before[at]);
        }
        let left = numbers[row] - own.iter().map(|number| number * number).sum::<f64>();
        if left.is_nan() || left <= SINGULAR * numbers[row] {
            return None;
        }
        own.push(left.sqrt());
        factor.push(own);
    }
    Some(factor)
}

/// Share of a diagonal entry below which what is left of it is rounding.
const SINGULAR: f64 = 1e-12;

/// Solves a positive definite system.
pub(super) fn solve(matrix: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    factor(matrix).map(|factor| through(&factor, right))
}

/// Inverse of a positive definite matrix.
pub(super) fn inverse(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let factor = factor(matrix)?;
    let unit = |at: usize| (0..matrix.len()).map(|row| f64::from(u8::from(row == at))).collect::<Vec<_>>();
    Some((0..matrix.len()).map(|at| through(&factor, &unit(at))).collect())
}

/// Solves with a factor.
fn through(factor: &[Vec<f64>], right: &[f64]) -> Vec<f64> {
    let mut solution: Vec<f64> = Vec::with_capacity(right.len());
    for (own, number) in factor.iter().zip(right) {
        let done: f64 = own.iter().zip(&solution).map(|(a, b)| a * b).sum();
        solution.push((number - done) / own[solution.len()]);
    }
    for row in (0..solution.len()).rev() {
        let done: f64 = (row + 1..solution.len()).map(|at| factor[at][row] * solution[at]).sum();
        solution[row] = (solution[row] - done) / factor[row][row];
    }
    solution
}

/// Eigenvalues and unit eigenvectors of a symmetric matrix; `None` where the iteration fails.
///
/// # Shape
/// Returns one pair an eigenvalue, in rising order.
pub(super) fn eigen(matrix: &[Vec<f64>]) -> Option<Vec<(f64, Vec<f64>)>> {
    let size = matrix.len();
    let square = faer::Mat::from_fn(size, size, |row, column| matrix[row][column]);
    let eigen = square.self_adjoint_eigen(faer::Side::Lower).ok()?;
    let pair = |at: usize| (eigen.S()[at], (0..size).map(|row| eigen.U()[(row, at)]).collect());
    Some((0..size).map(pair).collect())
}

/// Product of two square matrices.
pub(super) fn product(left: &[Vec<f64>], right: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let cell = |row: &[f64], column: usize| row.iter().zip(right).map(|(a, b)| a * b[column]).sum();
    left.iter().map(|row| (0..right.len()).map(|column| cell(row, column)).collect()).collect()
}

/// Sum of the diagonal.
pub(super) fn trace(matrix: &[Vec<f64>]) -> f64 {
    matrix.iter().enumerate().map(|(at, row)| row[at]).sum()
}
