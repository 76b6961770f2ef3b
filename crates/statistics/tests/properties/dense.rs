//! The restricted likelihood the slow way: the whole covariance matrix, inverted by elimination.

/// Rows of a mixed model: response, fixed columns, and each row's outer and inner group.
pub(crate) struct Rows {
    pub(crate) response: Vec<f64>,
    pub(crate) columns: Vec<Vec<f64>>,
    pub(crate) outer: Vec<usize>,
    /// Inner groups, numbered over all outer groups.
    pub(crate) inner: Vec<usize>,
}

/// Inverse and log-determinant of a positive definite matrix, by Gauss and Jordan.
fn invert(matrix: &[Vec<f64>]) -> (Vec<Vec<f64>>, f64) {
    let size = matrix.len();
    let mut left = matrix.to_vec();
    let mut right: Vec<Vec<f64>> =
        (0..size).map(|row| (0..size).map(|column| f64::from(u8::from(row == column))).collect()).collect();
    let mut log_determinant = 0.0;
    for pivot in 0..size {
        let scale = left[pivot][pivot];
        log_determinant += scale.ln();
        for column in 0..size {
            left[pivot][column] /= scale;
            right[pivot][column] /= scale;
        }
        for row in (0..size).filter(|row| *row != pivot) {
            let factor = left[row][pivot];
            for column in 0..size {
                left[row][column] -= factor * left[pivot][column];
                right[row][column] -= factor * right[pivot][column];
            }
        }
    }
    (right, log_determinant)
}

fn times(matrix: &[Vec<f64>], vector: &[f64]) -> Vec<f64> {
    matrix.iter().map(|row| dot(row, vector)).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The restricted criterion and the fixed effects at variances (outer, inner, residual).
pub(crate) fn criterion(rows: &Rows, variances: [f64; 3]) -> (f64, Vec<f64>) {
    let n = rows.response.len();
    let same = |groups: &[usize], a: usize, b: usize| f64::from(u8::from(groups[a] == groups[b]));
    let covariance: Vec<Vec<f64>> = (0..n)
        .map(|a| {
            let cell = |b: usize| {
                variances[0] * same(&rows.outer, a, b)
                    + variances[1] * same(&rows.inner, a, b)
                    + variances[2] * f64::from(u8::from(a == b))
            };
            (0..n).map(cell).collect()
        })
        .collect();
    let (inverse, log_covariance) = invert(&covariance);
    let weighted: Vec<Vec<f64>> = rows.columns.iter().map(|column| times(&inverse, column)).collect();
    let information: Vec<Vec<f64>> =
        weighted.iter().map(|left| rows.columns.iter().map(|right| dot(left, right)).collect()).collect();
    let (fixed_covariance, log_information) = invert(&information);
    let right: Vec<f64> = weighted.iter().map(|column| dot(column, &rows.response)).collect();
    let effects = times(&fixed_covariance, &right);
    let squares = dot(&rows.response, &times(&inverse, &rows.response)) - dot(&effects, &right);
    let free = (n - rows.columns.len()) as f64;
    (log_covariance + log_information + squares + free * std::f64::consts::TAU.ln(), effects)
}
