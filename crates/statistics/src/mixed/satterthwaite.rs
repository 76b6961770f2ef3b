//! Degrees of freedom by Satterthwaite's rule: how many independent plots a standard error is worth.
//!
//! The variance of a contrast is estimated too; its own sampling variance, through the observed
//! information of the variance components, says on how many degrees of freedom. Start at [`Satterthwaite::new`].
//!
//! # Source
//! Satterthwaite's rule for one contrast and its extension to several by their eigenvectors (Fai and Cornelius
//! 1996, J. Stat. Comput. Simul. 54:363-378); from memory, unverified, held by tests to `lmerTest`.

use super::contrasts::{Contrast, covariance, solved, value};
use super::look::{combined, dot};
use super::tests::FTest;
use super::{Fit, dense, information};

/// Covariance of a fit's variance components, worked out once for many contrasts.
#[derive(Debug)]
pub struct Satterthwaite<'a> {
    fit: &'a Fit,
    /// Covariance of the free parameters.
    components: Vec<Vec<f64>>,
}

/// Share of the largest eigenvalue below which a direction of several contrasts says nothing new.
const NOTHING_NEW: f64 = 1e-10;
/// Degrees of freedom that differ by no more than this are the same.
const SAME_DEGREES: f64 = 1e-8;

impl<'a> Satterthwaite<'a> {
    /// Works out the covariance of the components; `None` where the data do not tell them apart.
    #[must_use]
    pub fn new(fit: &'a Fit) -> Option<Self> {
        information::observed_inverse(fit).map(|components| Self { fit, components })
    }

    /// Degrees of freedom of a contrast's standard error.
    #[must_use]
    pub fn degrees(&self, contrast: &Contrast) -> f64 {
        let solution = solved(self.fit, std::slice::from_ref(contrast));
        let variance = dot(&contrast.weights, &solution);
        let slopes = slopes(self.fit, &solution);
        let spread: f64 =
            self.components.iter().zip(&slopes).map(|(row, slope)| slope * dot(row, &slopes)).sum();
        2.0 * variance * variance / spread
    }

    /// Tests whether all of some contrasts are zero; `None` where they say nothing.
    #[must_use]
    pub fn test(&self, contrasts: &[Contrast]) -> Option<FTest> {
        let eigen = dense::eigen(&covariance(self.fit, contrasts))?;
        let largest = eigen.last()?.0;
        let (mut sum, mut degrees) = (0.0, Vec::new());
        for (variance, weights) in eigen.iter().filter(|(variance, _)| NOTHING_NEW * largest < *variance) {
            let combined = weighted(contrasts, weights);
            sum += value(self.fit, &combined).powi(2) / variance;
            degrees.push(self.degrees(&combined));
        }
        let numerator = degrees.len() as f64;
        (0.0 < numerator).then(|| FTest::new(sum / numerator, numerator, together(&degrees)))
    }
}

/// A combination of contrasts.
fn weighted(contrasts: &[Contrast], weights: &[f64]) -> Contrast {
    let mut sum = vec![0.0; contrasts.first().map_or(0, |contrast| contrast.weights.len())];
    for (contrast, weight) in contrasts.iter().zip(weights) {
        sum.iter_mut().zip(&contrast.weights).for_each(|(sum, own)| *sum += weight * own);
    }
    Contrast { weights: sum }
}

/// Degrees of freedom of several independent contrasts together.
fn together(degrees: &[f64]) -> f64 {
    let mean = degrees.iter().sum::<f64>() / degrees.len() as f64;
    if degrees.iter().all(|own| (own - mean).abs() <= SAME_DEGREES) {
        return mean;
    }
    if degrees.iter().any(|own| *own <= 2.0) {
        return 2.0;
    }
    let sum: f64 = degrees.iter().map(|own| own / (own - 2.0)).sum();
    2.0 * sum / (sum - degrees.len() as f64)
}

/// How a contrast's variance changes with each free parameter.
///
/// With `s` the equations' solution for the contrast, `V^-1 X Phi l = R^-1 W s`, and the slope is that vector's
/// quadratic form with the covariance's slope.
fn slopes(fit: &Fit, solution: &[f64]) -> Vec<f64> {
    (0..fit.free.len()).filter(|at| fit.free[*at]).map(|at| slope(fit, solution, solution, at)).collect()
}

/// Two solutions' product with the slope of the covariance by a parameter between them.
pub(super) fn slope(fit: &Fit, left: &[f64], right: &[f64], parameter: usize) -> f64 {
    let equations = &fit.equations;
    if let Some(range) = equations.terms.get(parameter) {
        let variance = fit.point.parameters[parameter];
        return dot(&left[range.clone()], &right[range.clone()]) / (variance * variance);
    }
    let slopes = &fit.point.setting.coefficient_slopes[parameter - equations.terms.len()];
    let (left, right) = (equations.rows.times(left), equations.rows.times(right));
    -dot(&left, &combined(equations, slopes, &right))
}
