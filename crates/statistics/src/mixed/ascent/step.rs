//! One step of the climb: where average information and the score point, with a floor at zero.

use super::super::dense;
use super::super::look::dot;

/// A step further down than this many times the variance, once the start is mended, heads for zero.
const FAR_BELOW: f64 = -3.0;
/// The nearest that one step may come to a bound, as a share of the way left; also the inverse of the most
/// that one step may multiply a variance by.
pub(super) const NEAREST: f64 = 0.1;

/// What a step starts from; lists are over the free parameters.
pub(super) struct Ground {
    /// The score.
    pub(super) score: Vec<f64>,
    /// The parameters.
    pub(super) here: Vec<f64>,
    /// How far a variance that falls far below zero moves: to zero, or near it for a residual. `None` where it
    /// may not.
    pub(super) falls: Vec<Option<f64>>,
    /// Which of all parameters are free.
    pub(super) free: Vec<bool>,
}

/// A step, over all parameters.
#[derive(Clone, Debug)]
pub(super) struct Step {
    /// How far each parameter moves.
    pub(super) moves: Vec<f64>,
    /// Variances that go to zero.
    pub(super) vanishing: Vec<bool>,
    /// What the step promises, before any variance is held at zero.
    pub(super) gain: f64,
}

impl Step {
    /// Solves the information for the score. Variances that would fall far below zero go to zero, and the
    /// others' step is solved again with that.
    pub(super) fn new(information: &[Vec<f64>], ground: &Ground) -> Self {
        let Ground { score, here, falls, free } = ground;
        let mut vanishing = vec![false; score.len()];
        let plain = solved(information, score, falls, &vanishing);
        let gain = dot(score, &plain);
        let mut moves = plain.clone();
        loop {
            let falling = |at: &usize| {
                let may = falls[*at].is_some() && !vanishing[*at] && score[*at] < 0.0;
                may && moves[*at] < FAR_BELOW * here[*at]
            };
            let falling: Vec<usize> = (0..score.len()).filter(falling).collect();
            if falling.is_empty() {
                break;
            }
            falling.into_iter().for_each(|at| vanishing[at] = true);
            moves = solved(information, score, falls, &vanishing);
        }
        // Several variances at zero at once may be worse than none: then they fall step by step.
        if rise(information, score, &moves) <= 0.0 {
            (moves, vanishing) = (plain, vec![false; score.len()]);
        }
        let flags: Vec<f64> = vanishing.iter().map(|own| f64::from(u8::from(*own))).collect();
        let vanishing = spread(&flags, free).into_iter().map(|flag| flag == 1.0).collect();
        Self { gain, moves: spread(&moves, free), vanishing }
    }
}

/// Twice the rise of the parabola that score and information make, over a step.
fn rise(information: &[Vec<f64>], score: &[f64], moves: &[f64]) -> f64 {
    let bent: f64 = information.iter().zip(moves).map(|(row, own)| own * dot(row, moves)).sum();
    2.0 * dot(score, moves) - bent
}

/// The step, with vanishing variances going to zero whatever the others do.
fn solved(information: &[Vec<f64>], score: &[f64], falls: &[Option<f64>], vanishing: &[bool]) -> Vec<f64> {
    let staying: Vec<bool> = vanishing.iter().map(|own| !own).collect();
    let gone = falls.iter().zip(vanishing).map(|(fall, own)| fall.filter(|_| *own).unwrap_or(0.0));
    let gone: Vec<f64> = gone.collect();
    let rows = information.iter().zip(&staying).filter(|(_, staying)| **staying).map(|(row, _)| row);
    let part: Vec<Vec<f64>> = rows.clone().map(|row| picked(row, &staying)).collect();
    let right = rows.zip(picked(score, &staying)).map(|(row, score)| score - dot(row, &gone));
    let moves = damped_solve(&part, &right.collect::<Vec<f64>>());
    spread(&moves, &staying).iter().zip(&gone).map(|(own, gone)| own + gone).collect()
}

/// A variance after a step of its own, taken in its inverse.
///
/// Average information is exact for one over the variance: in a balanced table the step in that scale
/// ends at the top, where the step in the variance itself would fall below zero from twice the top. A step of
/// many times the variance comes from what other terms say, and is taken as it is.
pub(super) fn through_inverse(here: f64, step: f64) -> f64 {
    (here / (1.0 - step / here).max(NEAREST)).max(here + step)
}

/// Numbers of the free parameters.
pub(super) fn picked(numbers: &[f64], free: &[bool]) -> Vec<f64> {
    numbers.iter().zip(free).filter(|(_, free)| **free).map(|(number, _)| *number).collect()
}

/// Numbers of the free parameters among all, zero elsewhere.
pub(super) fn spread(numbers: &[f64], free: &[bool]) -> Vec<f64> {
    let mut numbers = numbers.iter();
    free.iter().map(|free| if *free { numbers.next().copied().unwrap_or(0.0) } else { 0.0 }).collect()
}

/// Solves with more and more on the diagonal until the matrix is positive definite.
fn damped_solve(matrix: &[Vec<f64>], right: &[f64]) -> Vec<f64> {
    let mut damping = LEAST_DAMPING;
    loop {
        let mut damped = matrix.to_vec();
        for (at, row) in damped.iter_mut().enumerate() {
            row[at] = row[at].max(f64::MIN_POSITIVE) * (1.0 + damping);
        }
        if let Some(solution) = dense::solve(&damped, right) {
            return solution;
        }
        if LARGEST_DAMPING < damping {
            return vec![0.0; right.len()];
        }
        damping *= 10.0;
    }
}

/// Damping of every step, as a share of the diagonal: too little to slow it, enough not to follow roundings in a
/// direction of which the data say nothing.
const LEAST_DAMPING: f64 = 1e-9;
/// Damping at which a matrix is beyond help.
const LARGEST_DAMPING: f64 = 1e12;

/// Corrects an information matrix by a step and the change of score over it (a symmetric update of rank two).
pub(super) fn correct(information: &mut [Vec<f64>], moved: &[f64], changed: &[f64]) {
    let product: Vec<f64> = information.iter().map(|row| dot(row, moved)).collect();
    let (curvature, own) = (dot(moved, changed), dot(moved, &product));
    if curvature <= 0.0 || own <= 0.0 {
        return;
    }
    for (row, numbers) in information.iter_mut().enumerate() {
        for (column, number) in numbers.iter_mut().enumerate() {
            *number += changed[row] * changed[column] / curvature - product[row] * product[column] / own;
        }
    }
}
