//! Heritability of a trial: how much of what is seen between varieties would be seen again.
//!
//! [`generalised`] asks it of the predictions of a random term; [`of_means`] of adjusted means, with the variance
//! from a fit with that term random. Both allow for unequal replication and blocks.

use super::Fit;
use super::predictions::{NotRandom, error_variances, place};

/// Heritability and the mean variance of a difference that it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heritability {
    /// Mean over all pairs of the variance of a difference.
    pub mean_variance_of_a_difference: f64,
    /// Share of the spread that is repeatable; `None` where the term's variance is zero.
    pub share: Option<f64>,
}

/// One less half the mean variance of a difference of predictions over the term's variance.
///
/// # Errors
/// [`NotRandom`] where the model has no term of that name.
///
/// # Source
/// Cullis, Smith and Coombes 2006, J. Agric. Biol. Environ. Stat. 11:381-393 (from memory, unverified; held by a test to
/// the 0.809 printed for the spring oats of John and Williams).
pub fn generalised(fit: &Fit, term: &str) -> Result<Heritability, NotRandom> {
    let place = place(fit, term)?;
    let variance = fit.point.parameters[place];
    let range = fit.equations.terms[place].clone();
    let trace: f64 = error_variances(fit, place).iter().sum();
    let mut ones = vec![0.0; fit.equations.size()];
    ones[range.clone()].fill(1.0);
    fit.point.solve(&fit.equations, &mut ones);
    let whole: f64 = ones[range.clone()].iter().sum();
    let levels = range.len() as f64;
    let mean = 2.0 / levels * (trace - (whole - trace) / (levels - 1.0));
    let share = (0.0 < variance && 1.0 < levels).then(|| 1.0 - mean / (2.0 * variance));
    Ok(Heritability { mean_variance_of_a_difference: mean, share })
}

/// A term's variance over itself and half the mean variance of a difference of adjusted means.
///
/// # Source
/// Piepho and Moehring 2007, Genetics 177:1881-1888 (from memory, unverified; held by a test to the 0.803 printed there).
#[must_use]
pub fn of_means(variance: f64, mean_variance_of_a_difference: f64) -> Heritability {
    let whole = variance + mean_variance_of_a_difference / 2.0;
    Heritability { mean_variance_of_a_difference, share: (0.0 < variance).then(|| variance / whole) }
}
