//! How steeply each variety answers to good environments: means against the environments' own.
//!
//! `mean_ij = variety_i + slope_i index_j + rest_ij`, the index of an environment being the mean of all varieties there less
//! that of all environments. A slope of 1 goes with the rest; below 1 a variety is steady, above 1 it makes the most of good
//! ground and suffers on poor. The index is taken as known, as is the custom; with few varieties that is not so, and
//! slopes are drawn towards 1.
//!
//! # Source
//! Finlay and Wilkinson 1963, Aust. J. Agric. Res. 14:742-754 (from memory, unverified; held by tests to a fit of the
//! same table in R).

use crate::mixed::means::adjusted_means;
use crate::mixed::means::coefficients;
use crate::mixed::terms::{Covariate, Factor, Fixed};
use crate::mixed::{Going, MixedFault, Model, fit};
use crate::nested::{Effect, Likelihood};

/// What a regression says.
#[derive(Clone, Debug, PartialEq)]
pub struct Regression {
    /// Every environment's index, in the factor's order.
    pub indices: Vec<f64>,
    /// Every variety, in the factor's order.
    pub varieties: Vec<Answer>,
    /// Mean square of what is left.
    pub residual: f64,
}

/// How one variety answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The variety.
    pub variety: String,
    /// Its mean in an environment of index zero; `None` where its means do not tell it.
    pub mean: Option<Effect>,
    /// Its slope.
    pub slope: Option<Effect>,
    /// Mean square of its own rest, on its means less two; `None` with fewer than three.
    pub rest: Option<f64>,
}

/// Regresses means of varieties on the environments.
///
/// # Shape
/// `means` and both factors: one row a mean. Environments where only some varieties stood are set right by the
/// two-way fit of varieties and environments.
///
/// # Errors
/// [`MixedFault`] where there are too few means, or lists differ.
pub fn regress(means: &[f64], variety: &Factor, environment: &Factor) -> Result<Regression, MixedFault> {
    let indices = indices(means, variety, environment)?;
    let values = environment.codes().iter().map(|code| indices[*code]).collect();
    let index = Covariate { name: "index".to_owned(), values };
    let fixed = vec![Fixed::of([variety.into()]), Fixed::of([variety.into(), (&index).into()])];
    let found = plain(means, fixed)?;
    let told = coefficients(&found);
    let count = variety.levels().len();
    let left: Vec<f64> =
        crate::mixed::diagnostics::diagnostics(&found).iter().map(|row| row.conditional).collect();
    let answer = |at: usize| {
        let own = variety.codes().iter().zip(&left).filter(|(code, _)| **code == at).map(|(_, left)| *left);
        let own: Vec<f64> = own.collect();
        let squares: f64 = own.iter().map(|left| left * left).sum();
        Answer {
            variety: variety.levels()[at].clone(),
            mean: told[at].effect,
            slope: told[count + at].effect,
            rest: (2 < own.len()).then(|| squares / (own.len() - 2) as f64),
        }
    };
    let residual = found.residual[0].component.variance;
    Ok(Regression { varieties: (0..count).map(answer).collect(), indices, residual })
}

/// Means of all varieties in every environment, less their own mean.
fn indices(means: &[f64], variety: &Factor, environment: &Factor) -> Result<Vec<f64>, MixedFault> {
    let fixed = vec![Fixed::intercept(), Fixed::of([variety.into()]), Fixed::of([environment.into()])];
    let found = plain(means, fixed)?;
    let told = adjusted_means(&found, &[environment.name()]).map_err(|_| MixedFault::NotFound)?;
    let values: Vec<f64> = told.means.iter().map(|mean| mean.map_or(0.0, |mean| mean.estimate)).collect();
    let known = told.means.iter().flatten().count().max(1) as f64;
    let mean = told.means.iter().flatten().map(|mean| mean.estimate).sum::<f64>() / known;
    Ok(values.iter().zip(&told.means).map(|(value, mean_of)| mean_of.map_or(0.0, |_| value - mean)).collect())
}

fn plain(means: &[f64], fixed: Vec<Fixed>) -> Result<crate::mixed::Fit, MixedFault> {
    fit(&Model::new(means.to_vec(), fixed, Vec::new()), Likelihood::Restricted, &mut |_| Going::On)
}
