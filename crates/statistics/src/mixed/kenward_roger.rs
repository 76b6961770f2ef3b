//! Standard errors and degrees of freedom by Kenward and Roger: honest in small trials.
//!
//! Standard errors that take the variances as known are a little too small. This adjusts the covariance of
//! the fixed effects for their being estimated, and scales F accordingly. It wants the whole inverse of the
//! equations and one residual variance; elsewhere [`KenwardRoger::new`] says so, and
//! [`crate::mixed::satterthwaite`] is what to fall back on.
//!
//! # Source
//! Kenward and Roger 1997, Biometrics 53:983-997; formulas from memory, unverified, held by tests to `pbkrtest`.

use super::contrasts::{Contrast, solved, value};
use super::look::dot;
use super::satterthwaite::slope;
use super::tests::FTest;
use super::{Fit, dense, information};
use crate::nested::{Effect, Likelihood};

/// What the adjustments of one fit are made of, worked out once for many contrasts.
#[derive(Debug)]
pub struct KenwardRoger<'a> {
    fit: &'a Fit,
    /// Free parameters.
    free: Vec<usize>,
    /// Their covariance by the expected information.
    components: Vec<Vec<f64>>,
}

/// Why there is no adjustment; fall back on Satterthwaite's degrees of freedom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoAdjustment {
    /// Too many effects, or more than one residual parameter.
    #[error(
        "the model is too large or its residual has several parameters, so standard errors are not adjusted"
    )]
    OutOfReach,
    /// Not a restricted fit.
    #[error("the fit is by the full likelihood, whose standard errors are not adjusted")]
    NotRestricted,
    /// The components cannot be told apart.
    #[error("the variance components cannot be told apart, so standard errors are not adjusted")]
    NotSeparable,
}

/// Below this distance from 2 the denominator's degrees of freedom give no scale.
const NEAR_TWO: f64 = 1e-2;

impl<'a> KenwardRoger<'a> {
    /// Works out what the adjustments need.
    ///
    /// # Errors
    /// [`NoAdjustment`] where the fit is not one that can be adjusted.
    pub fn new(fit: &'a Fit) -> Result<Self, NoAdjustment> {
        if fit.likelihood == Likelihood::Full {
            return Err(NoAdjustment::NotRestricted);
        }
        if !information::is_exact(fit) {
            return Err(NoAdjustment::OutOfReach);
        }
        let expected = information::expected(fit).ok_or(NoAdjustment::NotSeparable)?;
        let components = dense::inverse(&expected).ok_or(NoAdjustment::NotSeparable)?;
        let free = (0..fit.free.len()).filter(|at| fit.free[*at]).collect();
        Ok(Self { fit, free, components })
    }

    /// A contrast's estimate with its adjusted standard error.
    #[must_use]
    pub fn estimate(&self, contrast: &Contrast) -> Effect {
        let parts = self.parts(std::slice::from_ref(contrast));
        Effect { estimate: value(self.fit, contrast), standard_error: parts.adjusted[0][0].max(0.0).sqrt() }
    }

    /// Degrees of freedom of a contrast's adjusted standard error.
    #[must_use]
    pub fn degrees(&self, contrast: &Contrast) -> f64 {
        let parts = self.parts(std::slice::from_ref(contrast));
        self.scaling(&parts).map_or(f64::INFINITY, |scaling| scaling.degrees)
    }

    /// Adjusted covariances of the estimates of contrasts.
    ///
    /// # Shape
    /// `contrasts`: m. Returns m rows of m.
    #[must_use]
    pub fn covariance(&self, contrasts: &[Contrast]) -> Vec<Vec<f64>> {
        self.parts(contrasts).adjusted
    }

    /// Tests whether all of some contrasts, none a combination of the others, are zero; `None` where they are
    /// not so.
    #[must_use]
    pub fn test(&self, contrasts: &[Contrast]) -> Option<FTest> {
        let parts = self.parts(contrasts);
        let values: Vec<f64> = contrasts.iter().map(|contrast| value(self.fit, contrast)).collect();
        let squares = dot(&values, &dense::solve(&parts.adjusted, &values)?);
        let scaling = self.scaling(&parts)?;
        let numerator = contrasts.len() as f64;
        let statistic = scaling.factor * squares / numerator;
        Some(FTest { scaling: scaling.factor, ..FTest::new(statistic, numerator, scaling.degrees) })
    }

    /// The covariances of some contrasts, plain and adjusted, and how the plain ones change with each component.
    fn parts(&self, contrasts: &[Contrast]) -> Parts {
        let equations = &self.fit.equations;
        let size = equations.size().max(1);
        let solutions = solved(self.fit, contrasts);
        let solutions: Vec<&[f64]> = solutions.chunks(size).collect();
        let table = |cell: &dyn Fn(usize, usize) -> f64| -> Vec<Vec<f64>> {
            (0..contrasts.len())
                .map(|row| (0..contrasts.len()).map(|column| cell(row, column)).collect())
                .collect()
        };
        let plain = table(&|row, column| dot(&contrasts[row].weights, solutions[column]));
        let slopes = self.free.iter().map(|parameter| {
            table(&|row, column| -slope(self.fit, solutions[row], solutions[column], *parameter))
        });
        let slopes = slopes.collect();
        let vectors: Vec<(Vec<f64>, Vec<f64>)> = solutions
            .iter()
            .flat_map(|solution| self.free.iter().map(|parameter| self.moved(solution, *parameter)))
            .collect();
        let products = self.fit.point.projected(equations, &vectors);
        let count = self.free.len();
        let gain = |row: usize, column: usize| -> f64 {
            let pairs = (0..count).flat_map(|one| (0..count).map(move |other| (one, other)));
            pairs
                .map(|(one, other)| {
                    self.components[one][other] * products[row * count + one][column * count + other]
                })
                .sum()
        };
        let adjusted = table(&|row, column| plain[row][column] + 2.0 * gain(row, column));
        Parts { plain, adjusted, slopes }
    }

    /// The covariance's slope by a parameter times `V^-1 X Phi l`, plain and times the residual's inverse.
    fn moved(&self, solution: &[f64], parameter: usize) -> (Vec<f64>, Vec<f64>) {
        let (fit, equations) = (self.fit, &self.fit.equations);
        let plain = match equations.terms.get(parameter) {
            Some(range) => {
                let mut effects = vec![0.0; equations.size()];
                let variance = fit.point.parameters[parameter];
                for at in range.clone() {
                    effects[at] = -solution[at] / variance;
                }
                equations.rows.times(&effects)
            }
            None => {
                let variance = fit.point.parameters[parameter];
                equations.rows.times(solution).iter().map(|number| number / variance).collect()
            }
        };
        let weighted = fit.point.weighted(equations, &plain);
        (plain, weighted)
    }

    /// Scale of F and its denominator's degrees of freedom.
    fn scaling(&self, parts: &Parts) -> Option<Scaling> {
        let inverse = dense::inverse(&parts.plain)?;
        let shares: Vec<Vec<Vec<f64>>> =
            parts.slopes.iter().map(|slope| dense::product(&inverse, slope)).collect();
        let (mut first, mut second) = (0.0, 0.0);
        for (one, row) in shares.iter().zip(&self.components) {
            for (other, weight) in shares.iter().zip(row) {
                first += weight * dense::trace(one) * dense::trace(other);
                second += weight * dense::trace(&dense::product(one, other));
            }
        }
        let count = parts.plain.len() as f64;
        let both = (first + 6.0 * second) / (2.0 * count);
        let ratio = ((count + 1.0) * first - (count + 4.0) * second) / ((count + 2.0) * second);
        let under = 3.0 * count + 2.0 * (1.0 - ratio);
        let (one, two, three) = (ratio / under, (count - ratio) / under, (count + 2.0 - ratio) / under);
        let expected = 1.0 - second / count;
        let spread =
            (expected / (1.0 - two * both)).powi(2) * (1.0 + one * both) / ((1.0 - three * both) * count);
        let degrees = 4.0 + (count + 2.0) / (count * spread - 1.0);
        let near_two = (degrees - 2.0).abs() < NEAR_TWO;
        let factor = if near_two { 1.0 } else { degrees * expected / (degrees - 2.0) };
        degrees.is_finite().then_some(Scaling { factor, degrees })
    }
}

/// Covariances of some contrasts.
struct Parts {
    plain: Vec<Vec<f64>>,
    adjusted: Vec<Vec<f64>>,
    /// How the inverse of the plain ones' information moves with each component, between the contrasts.
    slopes: Vec<Vec<Vec<f64>>>,
}

/// Scale and degrees of freedom of an F.
struct Scaling {
    factor: f64,
    degrees: f64,
}
