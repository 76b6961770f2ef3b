//! Every pair of means at once: Tukey and Kramer's comparisons.
//!
//! Start at [`tukey_kramer`]. Exact for equal errors and a shared spread; with unequal ones it errs on the safe
//! side (it finds a little too few differences).

use super::contrasts::Pair;
use super::studentised::StudentisedRange;
use record::share::Share;
use std::f64::consts::SQRT_2;

/// A pair of means, judged together with all others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JudgedPair {
    /// The pair.
    pub pair: Pair,
    /// The chance that equal means would show, somewhere among all pairs, a difference as clear as this one.
    pub chance: Share,
    /// Lower end of an interval for the difference; all pairs' intervals hold together with the level asked for.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl JudgedPair {
    /// Whether the two means were told apart: nothing lies outside the interval.
    #[must_use]
    pub fn differs(&self) -> bool {
        0.0 < self.low || self.high < 0.0
    }
}

/// Judges every pair of `means` means.
///
/// # Shape
/// `pairs`: any of the pairs of `means` means, most often all; the answer is in the same order. `None` for fewer
/// than two means or for certainty as `level`.
///
/// # Source
/// Tukey 1953 and Kramer 1956, Biometrics 12:307-310 (citations from memory, unverified).
#[must_use]
pub fn tukey_kramer(means: u32, pairs: &[Pair], level: Share) -> Option<Vec<JudgedPair>> {
    let range = StudentisedRange::new(means)?;
    let mut last = None;
    pairs
        .iter()
        .map(|pair| {
            let degrees = pair.contrast.degrees();
            // Most fits have the same degrees for every pair.
            let quantile = match last {
                Some((same, quantile)) if same == degrees => quantile,
                _ => range.quantile(level, degrees)?,
            };
            last = Some((degrees, quantile));
            let reach = quantile / SQRT_2 * pair.contrast.standard_error();
            let chance = range.chance_above(SQRT_2 * pair.contrast.t().abs(), degrees);
            let (low, high) = (pair.contrast.estimate() - reach, pair.contrast.estimate() + reach);
            Some(JudgedPair { pair: *pair, chance, low, high })
        })
        .collect()
}
