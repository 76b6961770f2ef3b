//! Two stages: adjusted means of every environment first, then all environments together.
//!
//! The first stage is a mixed model of one environment with varieties fixed; [`stage`] takes its means and how sure they
//! are. The second fits any mixed model to those means, whose errors count as known: with [`Carried::Covariance`] it
//! is the one-stage fit again, given the same variances; with [`Carried::Weights`] covariances between means of
//! one environment are left out.
//!
//! # Source
//! Weights are the diagonal of the inverse covariance: Smith, Cullis and Gilmour 2001, Aust. N. Z. J. Stat. 43:129-145
//! (from memory, unverified).

use crate::matrix::Square;
use crate::mixed::Fit;
use crate::mixed::means::{MeansFault, adjusted_means};
use crate::mixed::residual::{Cell, Parameter, Residual, Scaling, Setting, Structure};
use crate::mixed::terms::Factor;
use std::sync::Arc;

/// Means of one environment.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// The environment.
    pub environment: String,
    /// The varieties whose means its plots tell.
    pub varieties: Vec<String>,
    /// Their means.
    pub means: Vec<f64>,
    /// Covariances of the means.
    pub covariance: Vec<Vec<f64>>,
}

/// What of the first stage's uncertainty is carried to the second.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Carried {
    /// All of it.
    Covariance,
    /// A weight for every mean.
    Weights,
}

/// The second stage's rows: one mean each.
#[derive(Clone, Debug)]
pub struct Means {
    /// The means.
    pub response: Vec<f64>,
    /// Their varieties.
    pub variety: Factor,
    /// Their environments.
    pub environment: Factor,
    /// Their errors, as a model's residual.
    pub residual: Residual,
    /// Variance of each, given all others of its environment.
    pub variances: Vec<f64>,
}

/// Why means make no second stage.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StageFault {
    /// A covariance has no inverse.
    #[error("the means of {0} are not told apart: their covariance has no inverse")]
    NotApart(String),
    /// Lists of different lengths.
    #[error("{0} has not as many means and covariances as varieties")]
    Lengths(String),
}

/// Takes the adjusted means of a factor from the fit of one environment.
///
/// # Errors
/// [`MeansFault`] where the model has no such fixed factor.
pub fn stage(environment: &str, fit: &Fit, factor: &str) -> Result<Stage, MeansFault> {
    let told = adjusted_means(fit, &[factor])?;
    let known: Vec<usize> = (0..told.labels.len()).filter(|at| told.means[*at].is_some()).collect();
    let cell = |row: usize, column: usize| told.covariance(row, column).unwrap_or(0.0);
    let row = |row: &usize| known.iter().map(|column| cell(*row, *column)).collect();
    Ok(Stage {
        environment: environment.to_owned(),
        varieties: known.iter().map(|at| told.labels[*at].clone()).collect(),
        means: told.means.iter().flatten().map(|mean| mean.estimate).collect(),
        covariance: known.iter().map(row).collect(),
    })
}

/// Puts the means of all environments in one table.
///
/// # Errors
/// [`StageFault`] names an environment whose means cannot be used.
pub fn together(stages: &[Stage], carried: Carried) -> Result<Means, StageFault> {
    let (mut varieties, mut environments, mut response, mut variances) = (vec![], vec![], vec![], vec![]);
    let mut known = Known { cells: Vec::new(), variance: 1.0, log_determinant: 0.0, blocks: Vec::new() };
    for stage in stages {
        let inverse = inverted(stage)?;
        known.add(&inverse, carried);
        varieties.extend(stage.varieties.iter().cloned());
        environments.extend(stage.varieties.iter().map(|_| stage.environment.clone()));
        response.extend(&stage.means);
        variances.extend((0..inverse.size()).map(|at| 1.0 / inverse.at(at, at)));
    }
    known.scale(variances.iter().sum::<f64>() / variances.len().max(1) as f64);
    Ok(Means {
        response,
        variety: Factor::from_labels("variety", &varieties),
        environment: Factor::from_labels("environment", &environments),
        residual: Residual::Structured(Arc::new(known)),
        variances,
    })
}

/// Inverse covariance of an environment's means.
fn inverted(stage: &Stage) -> Result<Square, StageFault> {
    let size = stage.varieties.len();
    let whole = stage.covariance.len() == size && stage.covariance.iter().all(|row| row.len() == size);
    if !whole || stage.means.len() != size {
        return Err(StageFault::Lengths(stage.environment.clone()));
    }
    let mut covariance = Square::zero(size);
    for (row, numbers) in stage.covariance.iter().enumerate() {
        numbers.iter().enumerate().for_each(|(column, number)| covariance.add(row, column, *number));
    }
    let factor = covariance.cholesky().ok_or_else(|| StageFault::NotApart(stage.environment.clone()))?;
    Ok(factor.inverse())
}

/// Errors that are known beforehand.
#[derive(Clone, Debug)]
struct Known {
    /// The inverse covariance, times `variance`.
    cells: Vec<Cell>,
    /// The mean variance: what the pieces are scaled by, so that numbers stay near one.
    variance: f64,
    log_determinant: f64,
    /// The covariance, block by block.
    blocks: Vec<Vec<Vec<f64>>>,
}

impl Known {
    /// Adds an environment's means behind those before.
    fn add(&mut self, inverse: &Square, carried: Carried) {
        let first: usize = self.blocks.iter().map(Vec::len).sum();
        let size = inverse.size();
        let mut kept = Square::zero(size);
        for row in 0..size {
            let others = match carried {
                Carried::Covariance => 0..size,
                Carried::Weights => row..row + 1,
            };
            others.for_each(|column| kept.add(row, column, inverse.at(row, column)));
            for column in (0..=row).filter(|column| kept.at(row, *column) != 0.0) {
                let value = kept.at(row, column);
                self.cells.push(Cell { row: first + row, other: first + column, value });
            }
        }
        // A part of a positive definite matrix that is its diagonal or all of it has a factor, too.
        if let Some(factor) = kept.cholesky() {
            self.log_determinant -= factor.log_determinant();
            self.blocks.push(factor.inverse().rows());
        }
    }

    fn scale(&mut self, variance: f64) {
        self.variance = variance;
        self.cells.iter_mut().for_each(|cell| cell.value *= variance);
    }
}

impl Structure for Known {
    fn parameters(&self) -> Vec<Parameter> {
        Vec::new()
    }

    fn pieces(&self) -> Vec<Vec<Cell>> {
        vec![self.cells.clone()]
    }

    fn scaling(&self) -> Scaling {
        Scaling::Known
    }

    fn setting(&self, _parameters: &[f64]) -> Option<Setting> {
        Some(Setting {
            coefficients: vec![1.0 / self.variance],
            log_determinant: self.log_determinant,
            coefficient_slopes: Vec::new(),
            log_determinant_slopes: Vec::new(),
        })
    }

    fn covariance_times(&self, _parameters: &[f64], vector: &[f64]) -> Vec<f64> {
        let mut product = Vec::with_capacity(vector.len());
        for block in &self.blocks {
            let own = &vector[product.len()..product.len() + block.len()];
            product.extend(block.iter().map(|row| crate::matrix::dot(row, own)).collect::<Vec<f64>>());
        }
        product
    }
}
