//! The bell curve over a mean and a spread, and its mixture with mistakes.

use statistics::normal::{chance_below, log_density};

/// Density of a normal distribution.
pub(crate) fn density(value: f64, mean: f64, sd: f64) -> f64 {
    log_density((value - mean) / sd).exp() / sd
}

/// Share of a normal distribution above a value.
pub(crate) fn share_above(value: f64, mean: f64, sd: f64) -> f64 {
    chance_below((mean - value) / sd)
}

/// Log of a chance that goes wrong at a rate and is then `mistaken`.
pub(crate) fn log_mixed(chance: f64, mistaken: f64, rate: f64) -> f64 {
    ((1.0 - rate) * chance + rate * mistaken).max(f64::MIN_POSITIVE).ln()
}
