//! Least squares for a handful of unknowns: equations solved, and curves laid through readings by damped Gauss-Newton.
//!
//! For four to ten unknowns a library of matrices costs more than it gives. Start at [`settle`].

/// Solves `matrix * x = right` by elimination with the largest pivot; `None` where it has no single answer.
#[must_use]
pub fn solve<const N: usize>(mut matrix: [[f64; N]; N], mut right: [f64; N]) -> Option<[f64; N]> {
    for column in 0..N {
        let pivot = (column..N).max_by(|p, q| {
            let size =
                |row: &usize| matrix.get(*row).and_then(|row| row.get(column)).map_or(0.0, |v| v.abs());
            size(p).total_cmp(&size(q))
        })?;
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let (head, value) = (*matrix.get(column)?, *right.get(column)?);
        let lead = *head.get(column)?;
        if lead.abs() < 1e-14 {
            return None;
        }
        for (row, target) in matrix.iter_mut().zip(right.iter_mut()).skip(column + 1) {
            let share = *row.get(column)? / lead;
            row.iter_mut().zip(head).for_each(|(cell, above)| *cell -= share * above);
            *target -= share * value;
        }
    }
    let mut answer = [0.0; N];
    for row in (0..N).rev() {
        let cells = matrix.get(row)?;
        let known: f64 = cells.iter().zip(answer).skip(row + 1).map(|(cell, x)| cell * x).sum();
        *answer.get_mut(row)? = (*right.get(row)? - known) / *cells.get(row)?;
    }
    Some(answer)
}

/// Least squares of `readings`: rows of factors and the value they should give.
#[must_use]
pub fn least_squares<const N: usize>(readings: impl Iterator<Item = ([f64; N], f64)>) -> Option<[f64; N]> {
    let (mut matrix, mut right) = ([[0.0; N]; N], [0.0; N]);
    for (factors, value) in readings {
        for ((row, target), factor) in matrix.iter_mut().zip(right.iter_mut()).zip(factors) {
            row.iter_mut().zip(factors).for_each(|(cell, other)| *cell += factor * other);
            *target += factor * value;
        }
    }
    solve(matrix, right)
}

/// Rounds of [`settle`]: well-begun fits stop moving after five.
const ROUNDS: usize = 12;

/// Moves unknowns from `start` until the squares of `residuals` are least.
///
/// # Shape
/// `steps`: how far to move each unknown to feel its slope. `residuals` gives equally many values every time.
#[must_use]
pub fn settle<const N: usize>(
    start: [f64; N],
    steps: [f64; N],
    residuals: impl Fn([f64; N]) -> Vec<f64>,
) -> [f64; N] {
    let total = |values: &[f64]| values.iter().map(|value| value * value).sum::<f64>();
    let (mut at, mut damping) = (start, 1e-4);
    let mut values = residuals(at);
    for _ in 0..ROUNDS {
        let slopes: Vec<Vec<f64>> = (0..N)
            .map(|unknown| {
                let step = steps.get(unknown).copied().unwrap_or(1e-6);
                let mut moved = at;
                moved.iter_mut().skip(unknown).take(1).for_each(|value| *value += step);
                residuals(moved).iter().zip(&values).map(|(new, old)| (new - old) / step).collect()
            })
            .collect();
        let Some(step) = damped_step::<N>(&slopes, &values, damping) else { return at };
        let mut tried = at;
        tried.iter_mut().zip(step).for_each(|(value, step)| *value -= step);
        let new = residuals(tried);
        if total(&new) < total(&values) {
            (at, values, damping) = (tried, new, damping * 0.2);
        } else {
            damping *= 20.0;
        }
    }
    at
}

fn damped_step<const N: usize>(slopes: &[Vec<f64>], values: &[f64], damping: f64) -> Option<[f64; N]> {
    let dot = |one: &[f64], other: &[f64]| one.iter().zip(other).map(|(p, q)| p * q).sum::<f64>();
    let (mut matrix, mut right) = ([[0.0; N]; N], [0.0; N]);
    for (row, (cells, target)) in matrix.iter_mut().zip(right.iter_mut()).enumerate() {
        let slope = slopes.get(row)?;
        cells.iter_mut().zip(slopes).for_each(|(cell, other)| *cell = dot(slope, other));
        cells.iter_mut().skip(row).take(1).for_each(|cell| *cell *= 1.0 + damping);
        *target = dot(slope, values);
    }
    solve(matrix, right)
}
