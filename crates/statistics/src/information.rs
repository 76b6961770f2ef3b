//! Which of several models of one set of readings to believe: AICc and Akaike weights.
//!
//! Start at [`akaike_weights`]. Compare only models of the same readings in the same units.

use crate::logarithms::shares;

/// Akaike's criterion with the small-sample correction: `-2 L + 2 k + 2 k (k + 1) / (n - k - 1)`.
///
/// `parameters` k counts every fitted number, the error's spread included. `None` where n <= k + 1:
/// so few readings cannot tell so rich a model.
///
/// # Source
/// Hurvich and Tsai 1989, Biometrika 76:297-307 (citation from memory, unverified).
#[must_use]
pub fn aicc(log_likelihood: f64, parameters: u32, readings: u32) -> Option<f64> {
    let left = readings.checked_sub(parameters.checked_add(1)?).filter(|left| 0 < *left)?;
    let k = f64::from(parameters);
    let criterion = -2.0 * log_likelihood + 2.0 * k + 2.0 * k * (k + 1.0) / f64::from(left);
    criterion.is_finite().then_some(criterion)
}

/// The greatest log-likelihood of normal errors of one unknown spread: `-n/2 (ln(2 pi RSS / n) + 1)`.
///
/// `None` without readings or with a perfect fit, whose likelihood has no top.
#[must_use]
pub fn normal_log_likelihood(residual_sum_of_squares: f64, readings: u32) -> Option<f64> {
    let n = f64::from(readings);
    let possible = 0 < readings && residual_sum_of_squares.is_finite() && 0.0 < residual_sum_of_squares;
    possible.then(|| -0.5 * n * ((std::f64::consts::TAU * residual_sum_of_squares / n).ln() + 1.0))
}

/// Turns criteria (AICc or AIC) into shares of belief that sum to 1, in the same order.
///
/// A model without a criterion gets a share of 0. `None` where no model has one.
#[must_use]
pub fn akaike_weights(criteria: &[Option<f64>]) -> Option<Vec<f64>> {
    let logs: Vec<f64> =
        criteria.iter().map(|criterion| criterion.map_or(f64::NEG_INFINITY, |value| -0.5 * value)).collect();
    shares(&logs)
}
