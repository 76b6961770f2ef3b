//! What is told of a search's end: errors from the curvature there, scatter, and notes.

use super::curvature::{curvature, free_places, information};
use super::family::{Law, Scale};
use super::modes::{Ground, Look};
use super::{CountFault, CountFit, Note, Scatter, Shape};
use crate::component::{Component, Standing};
use crate::matrix::Square;
use crate::nested::Effect;

/// Where a search ended.
#[derive(Debug)]
pub(super) struct Top {
    pub(super) parameters: Vec<f64>,
    pub(super) look: Look,
    /// Parameters that were searched for; the others are spreads of nothing.
    pub(super) free: Vec<bool>,
    pub(super) end: End,
    pub(super) evaluations: u32,
}

/// Why a search ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// The slopes vanished.
    AtTheTop,
    /// No way further was found, or steps ran out.
    Short,
}

/// A mean, or a share's distance from nothing and from all, below this is told as separated: no field of fruit shows
/// one in a million.
const SEPARATED: f64 = 1e-6;

/// Everything that is told.
pub(super) fn outcome(ground: &Ground<'_>, top: Top) -> Result<CountFit, CountFault> {
    let parts = ground.parts(&top.parameters);
    let first_fixed = top.parameters.len() - parts.fixed.len();
    let separated = separated(ground, &top.look);
    let mut notes = Vec::new();
    let (covariance, known) = covariance(ground, &top, &separated)?;
    let error = |place: usize| covariance.at(place, place).max(0.0).sqrt();
    if known == Spreads::TakenAsKnown {
        notes.push(Note::SpreadsTakenAsKnown);
    }
    if !separated.is_empty() {
        notes.insert(0, Note::Separated { rows: separated });
    }
    if top.end == End::Short {
        notes.push(Note::NotAtTheTop);
    }
    let between = (0..parts.spreads.len()).map(|grouping| component(&top, grouping, error(grouping)));
    let shape = parts.log_shape.map(|log_shape| {
        let estimate = log_shape.exp();
        Shape::Estimated(Effect { estimate, standard_error: estimate * error(first_fixed - 1) })
    });
    let fixed = parts.fixed.iter().enumerate();
    let places = |first: usize| first_fixed + first;
    Ok(CountFit {
        fixed: fixed
            .map(|(at, estimate)| Effect { estimate: *estimate, standard_error: error(places(at)) })
            .collect(),
        fixed_covariance: (0..parts.fixed.len())
            .map(|row| {
                (0..parts.fixed.len()).map(|column| covariance.at(places(row), places(column))).collect()
            })
            .collect(),
        between: between.collect(),
        group_effects: group_effects(ground, parts.spreads, &top.look)?,
        shape,
        log_likelihood: -0.5 * top.look.deviance,
        deviance: deviance(ground, &top.look),
        means: top.look.places.iter().map(|place| top.look.law.scale().mean(*place)).collect(),
        scatter: scatter(ground, &top),
        notes,
        evaluations: top.evaluations,
        scale: top.look.law.scale(),
    })
}

/// A Poisson fit told as that of negative binomial counts without extra scatter.
pub(super) fn poisson_outcome(poisson: CountFit) -> CountFit {
    CountFit { shape: Some(Shape::Endless), ..poisson }
}

fn component(top: &Top, grouping: usize, error: f64) -> Component {
    let spread = top.parameters[grouping];
    let standing = if top.free[grouping] {
        Standing::Estimated { standard_error: 2.0 * spread.abs() * error }
    } else {
        Standing::AtZero
    };
    Component { variance: spread * spread, standing }
}

/// Whether errors of fixed effects allow for the spreads having been estimated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Spreads {
    Estimated,
    TakenAsKnown,
}

/// Covariances of all parameters.
///
/// Without groupings it is the inverse of the expected information, as is usual there; with them, twice the
/// inverse of the deviance's curvature, fixed effects and spreads together.
fn covariance(ground: &Ground<'_>, top: &Top, separated: &[usize]) -> Result<(Square, Spreads), CountFault> {
    if ground.groups.groupings() == 0 {
        return Ok((plain_covariance(ground, top)?, Spreads::Estimated));
    }
    let joint = if separated.is_empty() { joint_covariance(ground, top) } else { None };
    match joint {
        Some(covariance) => Ok((covariance, Spreads::Estimated)),
        None => Ok((known_covariance(ground, top, Curvature::Seen)?, Spreads::TakenAsKnown)),
    }
}

fn plain_covariance(ground: &Ground<'_>, top: &Top) -> Result<Square, CountFault> {
    let mut covariance = known_covariance(ground, top, Curvature::Expected)?;
    if let Law::NegativeBinomial(sums) = &top.look.law {
        let rows = ground.checked.seen.iter().zip(&top.look.places).zip(&ground.checked.weights);
        let information: f64 = rows.map(|((seen, place), w)| w * sums.shape_information(*seen, *place)).sum();
        // Held by the logarithm of the shape.
        covariance.add(0, 0, 1.0 / (information * sums.shape * sums.shape));
    }
    Ok(covariance)
}

/// Which curvature information is made of.
#[derive(Clone, Copy, Debug)]
enum Curvature {
    Seen,
    Expected,
}

/// Covariances of fixed effects alone, in their places; nothing for the others.
fn known_covariance(ground: &Ground<'_>, top: &Top, curvature: Curvature) -> Result<Square, CountFault> {
    let weights: Vec<f64> = top
        .look
        .rows
        .iter()
        .map(|row| match curvature {
            Curvature::Seen => row.weight,
            Curvature::Expected => row.expected_weight,
        })
        .collect();
    let factor = information(ground, &top.parameters, &top.look, &weights).cholesky();
    let inverse = factor.ok_or(CountFault::NotFound)?.inverse();
    let mut covariance = Square::zero(top.parameters.len());
    let first = top.parameters.len() - inverse.size();
    for row in 0..inverse.size() {
        (0..inverse.size())
            .for_each(|column| covariance.add(first + row, first + column, inverse.at(row, column)));
    }
    Ok(covariance)
}

/// Twice the inverse of the deviance's curvature over the free parameters.
fn joint_covariance(ground: &Ground<'_>, top: &Top) -> Option<Square> {
    let inverse = curvature(ground, top)?.cholesky()?.inverse();
    let free = free_places(&top.free);
    let mut covariance = Square::zero(top.free.len());
    for (row, place) in free.iter().enumerate() {
        let cells = free.iter().enumerate();
        cells.for_each(|(column, other)| covariance.add(*place, *other, 2.0 * inverse.at(row, column)));
    }
    Some(covariance)
}

fn group_effects(ground: &Ground<'_>, spreads: &[f64], look: &Look) -> Result<Vec<Vec<Effect>>, CountFault> {
    let inverse = ground.groups.inverse(&look.system).ok_or(CountFault::NotFound)?;
    let effect = |column: usize, spread: f64| Effect {
        estimate: spread * look.effects[column],
        standard_error: spread.abs() * inverse.diagonal(column).max(0.0).sqrt(),
    };
    let of = |(grouping, spread): (usize, &f64)| {
        ground.groups.of(grouping).map(|column| effect(column, *spread)).collect()
    };
    Ok(spreads.iter().enumerate().map(of).collect())
}

/// Rows whose mean has run to an end of its range.
fn separated(ground: &Ground<'_>, look: &Look) -> Vec<usize> {
    let at_an_end = |row: &usize| {
        let place = look.places[*row];
        let counts = 0.0 < ground.checked.weights[*row] * ground.checked.looked_at[*row];
        let scale = look.law.scale();
        let end = match scale {
            Scale::Log => scale.mean(place),
            Scale::LogOdds => scale.mean(-place.abs()),
        };
        counts && end < SEPARATED
    };
    (0..look.places.len()).filter(at_an_end).collect()
}

fn deviance(ground: &Ground<'_>, look: &Look) -> f64 {
    let checked = ground.checked;
    let of_row = |row: usize| {
        let best = checked.weights[row] * look.law.saturated(checked.seen[row], checked.looked_at[row]);
        2.0 * (best - look.rows[row].log_likelihood)
    };
    (0..checked.rows()).map(of_row).sum::<f64>().max(0.0)
}

fn scatter(ground: &Ground<'_>, top: &Top) -> Scatter {
    let (checked, look) = (ground.checked, &top.look);
    let of_row = |row: usize| {
        let mean = checked.looked_at[row] * look.law.scale().mean(look.places[row]);
        let variance = look.law.variance(checked.looked_at[row], look.places[row]);
        let squared = (checked.seen[row] - mean).powi(2);
        if 0.0 < variance { checked.weights[row] * squared / variance } else { 0.0 }
    };
    let counted = (0..checked.rows()).filter(|row| 0.0 < checked.weights[*row] * checked.looked_at[*row]);
    let estimated = top.free.iter().filter(|free| **free).count();
    let degrees = counted.clone().count().saturating_sub(estimated);
    Scatter { chi_square: counted.map(of_row).sum(), degrees: u32::try_from(degrees).unwrap_or(u32::MAX) }
}
