//! What each level of a random term is worth: predictions shrunk by their evidence, with their error.
//!
//! The prediction error variance is that of the level's true effect about its prediction, the fixed effects'
//! uncertainty included. Start at [`predictions`].

use super::Fit;
use crate::nested::Effect;

/// The predicted effect of one level.
#[derive(Clone, Debug, PartialEq)]
pub struct Prediction {
    /// The level, or the combination of levels joined by ` x `.
    pub label: String,
    /// The prediction and the root of its prediction error variance.
    pub effect: Effect,
}

/// The model has no such random term.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0} is not a random term of the model")]
pub struct NotRandom(pub String);

/// Predicts the effects of a random term.
///
/// # Errors
/// [`NotRandom`] where the model has no term of that name.
pub fn predictions(fit: &Fit, term: &str) -> Result<Vec<Prediction>, NotRandom> {
    let place = place(fit, term)?;
    let effects = fit.point.effects(&fit.equations);
    let variances = error_variances(fit, place);
    let range = fit.equations.terms[place].clone();
    let labels = fit.random.labels(place);
    let values = effects[range].iter().zip(variances);
    let effects =
        values.map(|(estimate, variance)| Effect { estimate: *estimate, standard_error: variance.sqrt() });
    Ok(labels.into_iter().zip(effects).map(|(label, effect)| Prediction { label, effect }).collect())
}

/// Covariances of the prediction errors of some levels.
///
/// # Shape
/// `levels`: m places in the order of [`predictions`]; those out of range are left out. Returns m rows of m.
///
/// # Errors
/// [`NotRandom`] where the model has no term of that name.
pub fn error_covariance(fit: &Fit, term: &str, levels: &[usize]) -> Result<Vec<Vec<f64>>, NotRandom> {
    let range = fit.equations.terms[place(fit, term)?].clone();
    let columns: Vec<usize> =
        levels.iter().filter(|level| **level < range.len()).map(|level| range.start + level).collect();
    let unit = |column: usize| {
        let mut right = vec![0.0; fit.equations.size()];
        right[column] = 1.0;
        fit.point.solve(&fit.equations, &mut right);
        columns.iter().map(|column| right[*column]).collect()
    };
    Ok(columns.iter().map(|column| unit(*column)).collect())
}

/// Effective dimension of a random term: how many free effects its shrunken ones are worth.
///
/// # Errors
/// [`NotRandom`] where the model has no term of that name.
pub fn effective_dimension(fit: &Fit, term: &str) -> Result<f64, NotRandom> {
    let place = place(fit, term)?;
    let variance = fit.point.parameters[place];
    let range = fit.equations.terms[place].len() as f64;
    let left: f64 = error_variances(fit, place).iter().sum();
    Ok(if 0.0 < variance { range - left / variance } else { 0.0 })
}

/// The place of a term among the random ones.
pub(super) fn place(fit: &Fit, term: &str) -> Result<usize, NotRandom> {
    fit.random.place(term).ok_or_else(|| NotRandom(term.to_owned()))
}

/// Prediction error variances of a term's effects.
pub(super) fn error_variances(fit: &Fit, place: usize) -> Vec<f64> {
    let range = fit.equations.terms[place].clone();
    let layout = &fit.equations.whole.layout;
    let Some(inverse) = fit.point.inverse(&fit.equations) else {
        return vec![f64::INFINITY; range.len()];
    };
    let variance = fit.point.parameters[place];
    range.map(|at| variance * inverse.entry(layout, at, at).unwrap_or(0.0).max(0.0)).collect()
}
