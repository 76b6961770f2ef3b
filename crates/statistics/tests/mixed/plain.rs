//! The likelihood the slow way: the whole covariance of the rows, inverted by elimination.

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
        left[pivot].iter_mut().chain(&mut right[pivot]).for_each(|cell| *cell /= scale);
        let (own_left, own_right) = (left[pivot].clone(), right[pivot].clone());
        for row in (0..size).filter(|row| *row != pivot) {
            let factor = left[row][pivot];
            left[row].iter_mut().zip(&own_left).for_each(|(cell, own)| *cell -= factor * own);
            right[row].iter_mut().zip(&own_right).for_each(|(cell, own)| *cell -= factor * own);
        }
    }
    (right, log_determinant)
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Rows of a mixed model with random groups.
pub(crate) struct Rows {
    pub(crate) response: Vec<f64>,
    /// Fixed columns, none aliased.
    pub(crate) columns: Vec<Vec<f64>>,
    /// Each term's group of every row.
    pub(crate) groups: Vec<Vec<usize>>,
    /// Residual variance of every row, as a multiple of what is asked.
    pub(crate) residual: Vec<f64>,
}

/// What the slow way says at given variances.
pub(crate) struct Answer {
    pub(crate) restricted: f64,
    pub(crate) full: f64,
    pub(crate) fixed: Vec<f64>,
    pub(crate) errors: Vec<f64>,
    /// For each term, sums over its groups' rows of `variance V^-1 (y - X b)`: the predictions.
    pub(crate) predictions: Vec<Vec<f64>>,
}

/// Works out both criteria and the effects at variances of the terms, residuals independent.
pub(crate) fn answer(rows: &Rows, variances: &[f64]) -> Answer {
    answer_with(rows, variances, |a, b| if a == b { rows.residual[a] } else { 0.0 })
}

/// The same with any covariance of the residuals.
pub(crate) fn answer_with(rows: &Rows, variances: &[f64], residual: impl Fn(usize, usize) -> f64) -> Answer {
    let count = rows.response.len();
    let same = |groups: &[usize], a: usize, b: usize| f64::from(u8::from(groups[a] == groups[b]));
    let cell = |a: usize, b: usize| {
        let random: f64 = rows.groups.iter().zip(variances).map(|(groups, v)| v * same(groups, a, b)).sum();
        random + residual(a, b)
    };
    let covariance: Vec<Vec<f64>> = (0..count).map(|a| (0..count).map(|b| cell(a, b)).collect()).collect();
    let (inverse, log_covariance) = invert(&covariance);
    let times = |vector: &[f64]| -> Vec<f64> { inverse.iter().map(|row| dot(row, vector)).collect() };
    let weighted: Vec<Vec<f64>> = rows.columns.iter().map(|column| times(column)).collect();
    let information: Vec<Vec<f64>> =
        weighted.iter().map(|left| rows.columns.iter().map(|right| dot(left, right)).collect()).collect();
    let (fixed_covariance, log_information) = invert(&information);
    let right: Vec<f64> = weighted.iter().map(|column| dot(column, &rows.response)).collect();
    let fixed: Vec<f64> = fixed_covariance.iter().map(|row| dot(row, &right)).collect();
    let part = |row: usize| fixed.iter().zip(&rows.columns).map(|(b, column)| b * column[row]).sum::<f64>();
    let left: Vec<f64> = (0..count).map(|row| rows.response[row] - part(row)).collect();
    let scored = times(&left);
    let squares = dot(&left, &scored);
    let tau = std::f64::consts::TAU.ln();
    let predictions = rows.groups.iter().zip(variances).map(|(groups, variance)| {
        let mut sums = vec![0.0; groups.iter().max().unwrap() + 1];
        groups.iter().zip(&scored).for_each(|(group, number)| sums[*group] += variance * number);
        sums
    });
    Answer {
        restricted: (count - rows.columns.len()) as f64 * tau + log_covariance + log_information + squares,
        full: count as f64 * tau + log_covariance + squares,
        errors: fixed_covariance.iter().enumerate().map(|(at, row)| row[at].sqrt()).collect(),
        predictions: predictions.collect(),
        fixed,
    }
}
