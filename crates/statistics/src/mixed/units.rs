//! What a structure's units are worth: places of a bed without a plot, varieties in environments.
//!
//! [`effects`] are what units add to the rows that they are part of; [`held`] what the structure holds in every row
//! and unit, places without a plot included.

use super::Fit;
use super::dense;
use crate::nested::Effect;

/// Predicted effects of the structure's units, with their prediction error, in the structure's order.
#[must_use]
pub fn effects(fit: &Fit) -> Vec<Effect> {
    let equations = &fit.equations;
    let columns = equations.unit_columns();
    let inverse = fit.point.inverse(equations);
    let layout = &equations.whole.layout;
    let variance = |column: usize| {
        let scaled = inverse.as_ref().and_then(|inverse| inverse.entry(layout, column, column));
        scaled.map_or(f64::INFINITY, |entry| entry.max(0.0) * fit.point.scale[column].powi(2))
    };
    columns
        .map(|column| Effect {
            estimate: fit.point.scaled[column] * fit.point.scale[column],
            standard_error: variance(column).sqrt(),
        })
        .collect()
}

/// What the structure holds: of each row the response less all other effects, then of each unit that is part of no
/// row the best prediction from those. Of a unit that is part of rows it is the effect with its sign turned.
#[must_use]
pub fn held(fit: &Fit) -> &[f64] {
    &fit.point.errors
}

/// Covariance of the residual's free parameters and which of its parameters those are; `None` where they cannot be
/// told apart.
#[must_use]
pub fn parameter_covariance(fit: &Fit) -> Option<(Vec<usize>, Vec<Vec<f64>>)> {
    let terms = fit.equations.terms.len();
    let free: Vec<usize> = (0..fit.free.len()).filter(|at| fit.free[*at]).collect();
    let all = dense::inverse(&fit.point.average_information(&fit.equations, &fit.free))?;
    let own: Vec<usize> = (0..free.len()).filter(|at| terms <= free[*at]).collect();
    let covariance = own.iter().map(|row| own.iter().map(|column| all[*row][*column]).collect()).collect();
    Some((own.iter().map(|at| free[*at] - terms).collect(), covariance))
}
