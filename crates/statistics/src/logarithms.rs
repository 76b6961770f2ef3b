//! Sums and shares of probabilities kept as logarithms, so that products of many small ones do not vanish.
//!
//! Lines of evidence multiply; their logarithms add. Start at [`shares`].

/// The natural logarithm of the sum of exponentials: `ln(e^a + e^b + ..)`, without overflow.
///
/// Nothing summed is an impossible event: negative infinity.
#[must_use]
pub fn log_sum_exp(logs: &[f64]) -> f64 {
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if !top.is_finite() {
        return top;
    }
    top + logs.iter().map(|log| (log - top).exp()).sum::<f64>().ln()
}

/// The logarithm of the sum of two exponentials: `ln(e^a + e^b)`.
#[must_use]
pub fn log_add_exp(a: f64, b: f64) -> f64 {
    let (low, high) = if a < b { (a, b) } else { (b, a) };
    if high.is_finite() { high + (low - high).exp().ln_1p() } else { high }
}

/// `ln(1 - e^log)`: the logarithm of what is left beside a probability, exact near both ends.
///
/// `log` above 0 is no probability's logarithm and gives `None`.
#[must_use]
pub fn log_rest(log: f64) -> Option<f64> {
    // Either form loses digits on the other's side; they cross at a half.
    let half = -std::f64::consts::LN_2;
    (log <= 0.0).then(|| if half < log { (-log.exp_m1()).ln() } else { (-log.exp()).ln_1p() })
}

/// Turns log weights into shares that sum to 1, in the same order.
///
/// `None` where no weight is finite and above impossible, so that there is nothing to share out.
#[must_use]
pub fn shares(logs: &[f64]) -> Option<Vec<f64>> {
    let whole = log_sum_exp(logs);
    whole.is_finite().then(|| logs.iter().map(|log| (log - whole).exp()).collect())
}
