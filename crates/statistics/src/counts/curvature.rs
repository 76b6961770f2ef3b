//! How the deviance bends at its top: what errors are made of, and the last steps of a search.

use super::modes::{Ground, Look};
use super::outcome::Top;
use crate::matrix::{Square, dot};

/// Information on the fixed effects, spreads taken as known: `X'WX - X'WZL H^-1 L'Z'WX`.
pub(super) fn information(ground: &Ground<'_>, at: &[f64], look: &Look, weights: &[f64]) -> Square {
    let (checked, spreads) = (ground.checked, ground.parts(at).spreads);
    let mut information = checked.crossed(weights);
    if ground.groups.size() == 0 {
        return information;
    }
    let through: Vec<Vec<f64>> = checked
        .columns
        .iter()
        .map(|column| {
            let weighted: Vec<f64> = column.iter().zip(weights).map(|(x, w)| x * w).collect();
            ground.groups.against(spreads, &weighted)
        })
        .collect();
    for (column, own) in through.iter().enumerate() {
        let mut solved = own.clone();
        ground.groups.solve(&look.system, &mut solved);
        for (row, other) in through.iter().enumerate() {
            information.add(row, column, -dot(other, &solved));
        }
    }
    information
}

/// How far a parameter is moved for its curvature, in units of its rough standard error, or plainly where there is
/// none: far enough for slopes to change by much more than their rounding, near enough to stay on one curve.
const NUDGE: f64 = 1e-3;

/// Places of the parameters that were searched for.
pub(super) fn free_places(free: &[bool]) -> Vec<usize> {
    (0..free.len()).filter(|place| free[*place]).collect()
}

/// The curvature of the deviance over the free parameters, by central differences of its exact slopes.
pub(super) fn curvature(ground: &Ground<'_>, top: &Top) -> Option<Square> {
    let first_fixed = top.parameters.len() - ground.checked.columns.len();
    let weights: Vec<f64> = top.look.rows.iter().map(|row| row.weight).collect();
    let rough = information(ground, &top.parameters, &top.look, &weights).cholesky()?.inverse();
    let free = free_places(&top.free);
    let slopes_at = |place: usize, nudge: f64| {
        let mut moved = top.parameters.clone();
        moved[place] += nudge;
        let look = ground.look(&moved, &top.look.effects)?;
        ground.slopes(&moved, &look)
    };
    let mut curvature = Square::zero(free.len());
    for (row, place) in free.iter().enumerate() {
        let error = place.checked_sub(first_fixed).map(|fixed| rough.at(fixed, fixed).sqrt());
        let nudge = NUDGE * error.unwrap_or(1.0);
        let (above, below) = (slopes_at(*place, nudge)?, slopes_at(*place, -nudge)?);
        for (column, other) in free.iter().enumerate() {
            // Each pair is met twice; its mean is symmetric.
            let half = 0.25 * (above[*other] - below[*other]) / nudge;
            curvature.add(row, column, half);
            curvature.add(column, row, half);
        }
    }
    Some(curvature)
}

/// Newton's last steps at most.
const LAST_STEPS: u32 = 3;

/// A promised fall below this leaves nothing to do.
const SETTLED: f64 = 1e-18;

/// Newton's steps from where roundings of the deviance end a search: the slopes still tell the way.
pub(super) fn polish(ground: &Ground<'_>, mut top: Top) -> Top {
    let Some(factor) = curvature(ground, &top).and_then(|own| own.cholesky()) else { return top };
    let free = free_places(&top.free);
    let slopes_of = |top: &Top| {
        let slopes = ground.slopes(&top.parameters, &top.look)?;
        Some(free.iter().map(|place| slopes[*place]).collect::<Vec<f64>>())
    };
    let Some(mut slopes) = slopes_of(&top) else { return top };
    for _ in 0..LAST_STEPS {
        let promised = factor.inverse_form(&slopes);
        if promised <= SETTLED {
            break;
        }
        let mut parameters = top.parameters.clone();
        for (place, step) in free.iter().zip(factor.solve(&slopes)) {
            parameters[*place] -= step;
        }
        let Some(look) = ground.look(&parameters, &top.look.effects) else { break };
        let next =
            Top { parameters, look, free: top.free.clone(), evaluations: top.evaluations + 1, end: top.end };
        let Some(after) = slopes_of(&next).filter(|after| factor.inverse_form(after) < promised) else {
            break;
        };
        (top, slopes) = (next, after);
    }
    top
}
