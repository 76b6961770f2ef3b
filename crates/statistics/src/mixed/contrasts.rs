//! Contrasts of fixed effects: which of them the data tell, and how sure they are.
//!
//! A contrast is a combination of fixed coefficients: one adjusted mean, a difference of two, a slope. It is
//! estimable where it does not need an aliased column that the kept ones cannot say. Contrasts of
//! adjusted means come from [`crate::mixed::means`]; [`covariance`] and the tests take any.

use super::Fit;
use super::fixed_design::{Column, FixedDesign};
use super::look::dot;
use super::terms::{Factor, Variable};
use crate::nested::Effect;

/// An estimable combination of the kept fixed coefficients.
#[derive(Clone, Debug, PartialEq)]
pub struct Contrast {
    /// One number a kept coefficient.
    pub(super) weights: Vec<f64>,
}

impl Contrast {
    /// This contrast less another.
    #[must_use]
    pub fn less(&self, other: &Self) -> Self {
        Self { weights: self.weights.iter().zip(&other.weights).map(|(own, other)| own - other).collect() }
    }
}

/// Largest part of an aliased column that a contrast may want unsaid, as a share of its own largest number: above
/// rounding, below any real share.
const UNSAID: f64 = 1e-7;
/// Right sides solved at one time; bounds the memory that many contrasts take.
const AT_ONCE: usize = 32;

/// The estimate of a contrast and its standard error, variances taken as known.
#[must_use]
pub fn estimate(fit: &Fit, contrast: &Contrast) -> Effect {
    let variance = covariance(fit, std::slice::from_ref(contrast))[0][0];
    Effect { estimate: value(fit, contrast), standard_error: variance.max(0.0).sqrt() }
}

/// The estimate of a contrast.
#[must_use]
pub fn value(fit: &Fit, contrast: &Contrast) -> f64 {
    dot(&contrast.weights, &fit.point.effects(&fit.equations))
}

/// Covariances of the estimates of contrasts, variances taken as known.
///
/// # Shape
/// `contrasts`: m. Returns m rows of m.
#[must_use]
pub fn covariance(fit: &Fit, contrasts: &[Contrast]) -> Vec<Vec<f64>> {
    let mut rows = Vec::with_capacity(contrasts.len());
    for some in contrasts.chunks(AT_ONCE) {
        let size = fit.equations.size();
        for solved in solved(fit, some).chunks(size.max(1)) {
            rows.push(contrasts.iter().map(|contrast| dot(&contrast.weights, solved)).collect());
        }
    }
    rows
}

/// The equations solved for contrasts: all effects' answers, one contrast after another.
pub(super) fn solved(fit: &Fit, contrasts: &[Contrast]) -> Vec<f64> {
    let size = fit.equations.size();
    let mut right = vec![0.0; size * contrasts.len()];
    for (side, contrast) in right.chunks_mut(size.max(1)).zip(contrasts) {
        side[..contrast.weights.len()].copy_from_slice(&contrast.weights);
    }
    fit.point.solve(&fit.equations, &mut right);
    right
}

/// Weights of all columns for a mean at given levels, other factors averaged equally over the levels seen,
/// covariates at their mean.
pub(super) fn average(design: &FixedDesign, at: &[(&str, usize)]) -> Vec<f64> {
    let shares: Vec<Vec<Share>> = design
        .terms
        .iter()
        .map(|term| term.variables.iter().map(|own| Share::of(own, at)).collect())
        .collect();
    let weight = |column: &Column| {
        let shares = &shares[column.term];
        column.cell.iter().zip(shares).map(|(level, share)| share.of_level(*level)).product()
    };
    design.columns.iter().map(weight).collect()
}

/// What share each level of one variable has in a mean.
enum Share {
    /// One level alone.
    Level(usize),
    /// Each level its own share.
    Levels(Vec<f64>),
    /// A covariate at this number.
    At(f64),
}

impl Share {
    fn of(variable: &Variable, at: &[(&str, usize)]) -> Self {
        match variable {
            Variable::Covariate(covariate) => {
                Self::At(covariate.values.iter().sum::<f64>() / covariate.values.len().max(1) as f64)
            }
            Variable::Factor(factor) => match at.iter().find(|(name, _)| *name == factor.name()) {
                Some((_, level)) => Self::Level(*level),
                None => Self::Levels(equal_shares(factor)),
            },
        }
    }

    fn of_level(&self, level: Option<usize>) -> f64 {
        match (self, level) {
            (Self::Level(own), Some(level)) => f64::from(u8::from(*own == level)),
            (Self::Levels(shares), Some(level)) => shares[level],
            (Self::At(number), _) => *number,
            (_, None) => 0.0,
        }
    }
}

/// An equal share for every level that some row has.
fn equal_shares(factor: &Factor) -> Vec<f64> {
    let mut shares = vec![0.0; factor.levels().len()];
    factor.codes().iter().for_each(|code| shares[*code] = 1.0);
    let seen: f64 = shares.iter().sum();
    shares.iter_mut().for_each(|share| *share /= seen.max(1.0));
    shares
}

/// The contrast of kept coefficients that weights of all columns make, if it is estimable.
pub(super) fn estimable(design: &FixedDesign, weights: &[f64]) -> Option<Contrast> {
    let kept: Vec<f64> = design.kept.iter().map(|column| weights[*column]).collect();
    let largest = weights.iter().fold(0.0_f64, |largest, weight| largest.max(weight.abs()));
    let said = design.aliased.iter().all(|alias| {
        (weights[alias.column] - dot(&alias.shares, &kept)).abs() <= UNSAID * largest.max(f64::MIN_POSITIVE)
    });
    said.then_some(Contrast { weights: kept })
}
