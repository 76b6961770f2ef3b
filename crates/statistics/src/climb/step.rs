//! One step of the climb: which way, and how far.
//!
//! Three directions in order of hope: Newton's, with the information that the score itself shows; that of
//! the average information; and each variance by itself. [`ascend`] takes the first that does not go down.

use super::{Ground, LEVELS, PerLevel, Slope};
use crate::matrix::Square;

/// Halvings of one step before a plainer direction is tried; 2^-30 is no step at all.
const MOST_HALVINGS: u32 = 30;
/// Share of itself that a variance which must stay above zero keeps in one step.
const LEAST_KEPT: f64 = 0.05;
/// Relative rounding of a criterion summed over many terms.
const CRITERION_ROUNDING: f64 = 1e-12;
/// Share of a variance (or of the residual, near the floor) over which the score's change is taken:
/// about the square root of the score's own rounding.
const DIFFERENCE: f64 = 1e-6;

/// How well the average information has done so far.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pace {
    /// Its last step left little to gain.
    Quick,
    /// Its last step left much.
    Slow,
}

/// One step that does not go down: Newton's where the average information has become slow, else its
/// own, else each variance by itself.
pub(super) fn ascend(
    here: &PerLevel<f64>,
    slope: &Slope,
    moving: &PerLevel<bool>,
    ground: &Ground,
    pace: Pace,
    look: &mut impl FnMut(&PerLevel<f64>) -> Option<Slope>,
) -> Option<(PerLevel<f64>, Slope)> {
    let newton = if pace == Pace::Slow { newton_step(here, slope, moving, look) } else { None };
    let directions = newton.into_iter().chain([average_step(slope, moving), plain_step(slope, moving)]);
    let mut found = directions.into_iter().map(|step| shorten(here, &step, slope, ground, look));
    found.find_map(|next| next)
}

/// Newton's step with the observed information, taken from the score's change along each variance;
/// `None` where the ground is not curved like a top.
fn newton_step(
    here: &PerLevel<f64>,
    slope: &Slope,
    moving: &PerLevel<bool>,
    look: &mut impl FnMut(&PerLevel<f64>) -> Option<Slope>,
) -> Option<PerLevel<f64>> {
    let [.., residual] = *here;
    let mut observed = [[0.0; LEVELS]; LEVELS];
    for (level, row) in observed.iter_mut().enumerate() {
        let mut aside = *here;
        let place = aside.get_mut(level)?;
        let before = *place;
        *place += DIFFERENCE * before.max(DIFFERENCE * residual);
        let width = *place - before;
        let there = look(&aside)?;
        let change = slope.score.iter().zip(there.score).map(|(here, there)| (here - there) / width);
        row.iter_mut().zip(change).for_each(|(cell, change)| *cell = change);
    }
    solve(&symmetric(&observed), &slope.score, moving)
}

/// The mean of a table and its transpose.
fn symmetric(table: &PerLevel<PerLevel<f64>>) -> PerLevel<PerLevel<f64>> {
    let [[a, b, c], [d, e, f], [g, h, i]] = *table;
    let [b, c, f] = [(b + d) / 2.0, (c + g) / 2.0, (f + h) / 2.0];
    [[a, b, c], [b, e, f], [c, f, i]]
}

/// `information^-1 score` over the moving variances, or `None` where that has no inverse.
fn solve(
    information: &PerLevel<PerLevel<f64>>,
    score: &PerLevel<f64>,
    moving: &PerLevel<bool>,
) -> Option<PerLevel<f64>> {
    let score: Vec<f64> =
        score.iter().zip(moving).filter(|(_, moves)| **moves).map(|(score, _)| *score).collect();
    let mut solved = Square::from_rows(information).part(moving).cholesky()?.solve(&score).into_iter();
    Some(moving.map(|moves| if moves { solved.next().unwrap_or(0.0) } else { 0.0 }))
}

/// The step of the average information, or the plain one where that has no inverse.
pub(super) fn average_step(slope: &Slope, moving: &PerLevel<bool>) -> PerLevel<f64> {
    solve(&slope.information, &slope.score, moving).unwrap_or_else(|| plain_step(slope, moving))
}

/// Each moving variance on its own: `score / information`.
fn plain_step(slope: &Slope, moving: &PerLevel<bool>) -> PerLevel<f64> {
    let mut step = [0.0; LEVELS];
    for (level, to) in step.iter_mut().enumerate() {
        let own = slope.information.get(level).and_then(|row| row.get(level)).copied().unwrap_or(0.0);
        let score = slope.score.get(level).copied().unwrap_or(0.0);
        let moves = moving.get(level).copied().unwrap_or(false) && 0.0 < own;
        *to = if moves { score / own } else { 0.0 };
    }
    step
}

/// Halves a step until the criterion no longer rises, and gives where that leads.
fn shorten(
    here: &PerLevel<f64>,
    step: &PerLevel<f64>,
    slope: &Slope,
    ground: &Ground,
    look: &mut impl FnMut(&PerLevel<f64>) -> Option<Slope>,
) -> Option<(PerLevel<f64>, Slope)> {
    let highest = slope.criterion + CRITERION_ROUNDING * slope.criterion.abs().max(1.0);
    let mut length = 1.0;
    for _ in 0..MOST_HALVINGS {
        let next = walk(here, step, length, ground);
        match look(&next) {
            Some(found) if found.criterion <= highest => return Some((next, found)),
            _ => length *= 0.5,
        }
    }
    None
}

/// Goes `length` of a step, stopping at the floor.
fn walk(here: &PerLevel<f64>, step: &PerLevel<f64>, length: f64, ground: &Ground) -> PerLevel<f64> {
    let mut next = *here;
    for (level, (to, by)) in next.iter_mut().zip(step).enumerate() {
        let from = *to;
        *to = (from + length * by).max(if stays_positive(level, ground) { LEAST_KEPT * from } else { 0.0 });
    }
    next
}

/// The residual and whatever has a prior never reach zero.
fn stays_positive(level: usize, ground: &Ground) -> bool {
    level + 1 == LEVELS || ground.priors.get(level).is_some_and(Option::is_some)
}
