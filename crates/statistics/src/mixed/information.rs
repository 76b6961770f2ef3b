//! Expected and observed information of the variances, exact: what degrees of freedom are made of.
//!
//! Average information is the mean of the two, so one follows from the other. The expected one wants
//! `tr(P V_i P V_j)`, that is every entry of the inverse of the equations; where that is too large, the
//! observed one is had by differences of the exact score instead.

use super::Fit;
use super::dense;
use super::look::{Point, stand};

/// The most effects whose whole inverse is worked out: 2,000 take 32 MB and about a second.
const MOST_EFFECTS: usize = 2_000;
/// Step of the differences, as a share of the parameter: their error of the fourth order and the score's rounding are
/// then both near 1e-10.
const DIFFERENCE: f64 = 1e-3;
/// A parameter between bounds, such as a correlation, moves by a share of at least this: it may be zero itself.
const LEAST_BOUNDED: f64 = 0.1;

/// Whether the whole inverse is within reach and the residual has one variance.
pub(super) fn is_exact(fit: &Fit) -> bool {
    fit.equations.size() <= MOST_EFFECTS && fit.equations.has_one_residual_variance()
}

/// Inverse of the observed information of the free parameters; that of average information where the observed one
/// has no inverse.
pub(super) fn observed_inverse(fit: &Fit) -> Option<Vec<Vec<f64>>> {
    let average = fit.point.average_information(&fit.equations, &fit.free);
    let observed = if is_exact(fit) {
        let expected = expected(fit)?;
        let cell = |row: usize, column: usize| 2.0 * average[row][column] - expected[row][column];
        let rows = 0..average.len();
        rows.map(|row| (0..average.len()).map(|column| cell(row, column)).collect()).collect()
    } else {
        differenced(fit)?
    };
    dense::inverse(&observed).or_else(|| dense::inverse(&average))
}

/// Expected information of the free parameters under the restricted likelihood: `tr(P V_i P V_j) / 2`.
pub(super) fn expected(fit: &Fit) -> Option<Vec<Vec<f64>>> {
    let free: Vec<usize> = (0..fit.free.len()).filter(|at| fit.free[*at]).collect();
    let (last, terms) = free.split_last()?;
    let variances = &fit.point.parameters;
    let inverse = scaled_inverse(fit);
    let size = fit.equations.size();
    let mut information = vec![vec![0.0; free.len()]; free.len()];
    // Traces of P V_i, for the residual's row: the variances times their V_i sum to V, and P V P = P.
    let mut left: Vec<f64> = Vec::with_capacity(free.len());
    for (row, term) in terms.iter().enumerate() {
        let own = fit.equations.terms[*term].clone();
        let trace: f64 = own.clone().map(|at| 1.0 - inverse[at * size + at]).sum();
        left.push(trace / variances[*term]);
        for (column, other) in terms.iter().enumerate().take(row + 1) {
            let others = fit.equations.terms[*other].clone();
            let mut squares = 0.0;
            for at in own.clone() {
                for beside in others.clone() {
                    let unit = f64::from(u8::from(at == beside));
                    squares += (unit - inverse[at * size + beside]).powi(2);
                }
            }
            let value = squares / (variances[*term] * variances[*other]);
            (information[row][column], information[column][row]) = (value, value);
        }
    }
    let residual = variances[*last];
    let end = terms.len();
    for row in 0..end {
        let known: f64 =
            terms.iter().enumerate().map(|(at, term)| variances[*term] * information[row][at]).sum();
        let value = (left[row] - known) / residual;
        (information[row][end], information[end][row]) = (value, value);
    }
    let rows = (fit.equations.response.len() - fit.equations.fixed) as f64;
    let traces: f64 = terms.iter().zip(&left).map(|(term, trace)| variances[*term] * trace).sum();
    let known: f64 = terms.iter().enumerate().map(|(at, term)| variances[*term] * information[end][at]).sum();
    information[end][end] = ((rows - traces) / residual - known) / residual;
    information.iter_mut().flatten().for_each(|cell| *cell *= 0.5);
    Some(information)
}

/// The whole inverse of the scaled equations, column after column.
fn scaled_inverse(fit: &Fit) -> Vec<f64> {
    let size = fit.equations.size();
    let mut inverse = vec![0.0; size * size];
    inverse.iter_mut().step_by(size + 1).for_each(|cell| *cell = 1.0);
    fit.equations.whole.layout.solve(&fit.point.factor, &mut inverse);
    inverse
}

/// Observed information by differences of the exact score.
fn differenced(fit: &Fit) -> Option<Vec<Vec<f64>>> {
    let free: Vec<usize> = (0..fit.free.len()).filter(|at| fit.free[*at]).collect();
    let rows = free.iter().map(|at| {
        let least = if fit.equations.is_variance(*at) { f64::MIN_POSITIVE } else { LEAST_BOUNDED };
        let step = DIFFERENCE * fit.point.parameters[*at].abs().max(least);
        let near = pair(fit, *at, step)?;
        let far = pair(fit, *at, 2.0 * step)?;
        let slope = |other: &usize| -(8.0 * near[*other] - far[*other]) / (12.0 * step);
        Some(free.iter().map(slope).collect::<Vec<f64>>())
    });
    let matrix = rows.collect::<Option<Vec<Vec<f64>>>>()?;
    let mean = |row: usize, column: usize| (matrix[row][column] + matrix[column][row]) / 2.0;
    let count = matrix.len();
    Some((0..count).map(|row| (0..count).map(|column| mean(row, column)).collect()).collect())
}

/// The score a step above less that a step below.
fn pair(fit: &Fit, parameter: usize, step: f64) -> Option<Vec<f64>> {
    let score = |step: f64| {
        let mut parameters = fit.point.parameters.clone();
        parameters[parameter] += step;
        let point: Point = stand(&fit.equations, &parameters)?;
        Some(point.slope(&fit.equations, &fit.free)?.score)
    };
    let (above, below) = (score(step)?, score(-step)?);
    Some(above.iter().zip(&below).map(|(above, below)| above - below).collect())
}
