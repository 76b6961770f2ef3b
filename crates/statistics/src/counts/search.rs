//! The search for the best parameters: quasi-Newton steps on exact slopes, ended by the slopes.

use super::checked::Checked;
use super::curvature::{information, polish};
use super::family::Law;
use super::groups::Groups;
use super::modes::{Ground, Look, Shaped};
use super::outcome::{End, Top, outcome, poisson_outcome};
use super::{CountFault, CountFit, plain};
use crate::matrix::{Square, dot};

/// Steps at most, and halvings of one step.
const MOST_STEPS: u32 = 500;
const MOST_HALVINGS: u32 = 40;

/// Where the search ends: the fall in deviance that a further step promises. Standard errors are then right to
/// some six digits.
const SETTLED: f64 = 1e-12;

/// Share of the promised fall that a step must bring.
const ENOUGH: f64 = 1e-4;

/// Where a spread begins: groups that differ by half a unit of the scale.
const FIRST_SPREAD: f64 = 0.5;

/// A spread below this is tried at nothing.
const NEXT_TO_NOTHING: f64 = 1e-2;

/// Deviance that may be lost when a spread is set to nothing: what the search leaves open anyway.
const NO_LOSS: f64 = 1e-8;

/// A shape beyond this is as good as endless: a mean of 100 then has a variance of 100.01.
const ENDLESS_SHAPE: f64 = 1e6;

/// Fits a law without a shape.
pub(super) fn without_shape(checked: &Checked<'_>, law: Law) -> Result<CountFit, CountFault> {
    let fixed = plain::fixed_effects(checked, &law).ok_or(CountFault::NotFound)?;
    let groups = Groups::new(checked.groups)?;
    let ground = Ground { checked, groups: &groups, shaped: Shaped::No, law };
    let start = vec![FIRST_SPREAD; groups.groupings()].into_iter().chain(fixed).collect();
    outcome(&ground, best(&ground, start).ok_or(CountFault::NotFound)?)
}

/// Fits negative binomial counts; as Poisson counts where they scatter no more than those.
pub(super) fn with_shape(checked: &Checked<'_>) -> Result<CountFit, CountFault> {
    let poisson = without_shape(checked, Law::Poisson)?;
    let Some(log_shape) = first_shape(checked, &poisson.means) else { return Ok(poisson_outcome(poisson)) };
    let groups = Groups::new(checked.groups)?;
    let ground = Ground { checked, groups: &groups, shaped: Shaped::Yes, law: Law::Poisson };
    let fixed = poisson.fixed.iter().map(|effect| effect.estimate);
    let spreads = poisson.between.iter().map(|component| component.standard_deviation().max(FIRST_SPREAD));
    let start = spreads.chain([log_shape]).chain(fixed).collect();
    let top = best(&ground, start).ok_or(CountFault::NotFound)?;
    let log_shape = ground.parts(&top.parameters).log_shape.unwrap_or(0.0);
    if ENDLESS_SHAPE.ln() < log_shape { Ok(poisson_outcome(poisson)) } else { outcome(&ground, top) }
}

/// The logarithm of the shape that squared residuals point to; `None` where they point to no extra scatter.
fn first_shape(checked: &Checked<'_>, means: &[f64]) -> Option<f64> {
    let (mut extra, mut squares) = (0.0, 0.0);
    for ((seen, mean), weight) in checked.seen.iter().zip(means).zip(&checked.weights) {
        extra += weight * ((seen - mean).powi(2) - seen);
        squares += weight * mean * mean;
    }
    (0.0 < extra && 0.0 < squares).then(|| (squares / extra).min(ENDLESS_SHAPE).ln())
}

/// The best parameters; spreads that come out next to nothing are set to nothing where that loses nothing.
fn best(ground: &Ground<'_>, start: Vec<f64>) -> Option<Top> {
    let mut free = vec![true; start.len()];
    let mut top = climb(ground, start, &free)?;
    for grouping in 0..ground.groups.groupings() {
        if NEXT_TO_NOTHING < top.parameters[grouping].abs() {
            continue;
        }
        let mut without = top.parameters.clone();
        without[grouping] = 0.0;
        free[grouping] = false;
        match climb(ground, without, &free) {
            Some(other) if other.look.deviance <= top.look.deviance + NO_LOSS => {
                top = Top { evaluations: top.evaluations + other.evaluations, ..other };
            }
            _ => free[grouping] = true,
        }
    }
    top.free = free;
    Some(polish(ground, top))
}

/// Quasi-Newton descent over the free parameters.
fn climb(ground: &Ground<'_>, start: Vec<f64>, free: &[bool]) -> Option<Top> {
    let origin = vec![0.0; ground.groups.size()];
    let look = ground.look(&start, &origin)?;
    let slopes = free_only(ground.slopes(&start, &look)?, free);
    let inverse = first_inverse(ground, &start, &look, free);
    let mut now = Place { parameters: start, look, slopes };
    let (mut curvature, mut fresh) = (inverse.clone(), true);
    let mut evaluations = 1;
    for _ in 0..MOST_STEPS {
        let mut step: Vec<f64> = times(&curvature, &now.slopes).iter().map(|way| -way).collect();
        if 0.0 <= dot(&step, &now.slopes) {
            (curvature, fresh) = (inverse.clone(), true);
            step = times(&curvature, &now.slopes).iter().map(|way| -way).collect();
        }
        let promised = -dot(&step, &now.slopes);
        if 0.5 * promised < SETTLED {
            return Some(now.top(free, End::AtTheTop, evaluations));
        }
        let Some(there) = along(ground, &now, &step, free, &mut evaluations) else {
            if fresh {
                // Roundings hide any further fall; how much was promised tells whether that is the top.
                let end = if promised < ROUNDING_HIDES { End::AtTheTop } else { End::Short };
                return Some(now.top(free, end, evaluations));
            }
            (curvature, fresh) = (inverse.clone(), true);
            continue;
        };
        update(&mut curvature, &now, &there);
        (now, fresh) = (there, false);
    }
    Some(now.top(free, End::Short, evaluations))
}

/// A promised fall that rounding may hide: a ten-millionth of what tells two models apart.
const ROUNDING_HIDES: f64 = 1e-7;

/// Parameters, what was found there, and its slopes.
struct Place {
    parameters: Vec<f64>,
    look: Look,
    slopes: Vec<f64>,
}

impl Place {
    fn top(self, free: &[bool], end: End, evaluations: u32) -> Top {
        Top { parameters: self.parameters, look: self.look, free: free.to_vec(), end, evaluations }
    }
}

/// The first of ever shorter steps that falls enough.
fn along(
    ground: &Ground<'_>,
    now: &Place,
    step: &[f64],
    free: &[bool],
    evaluations: &mut u32,
) -> Option<Place> {
    let promised = dot(step, &now.slopes);
    let longest = step.iter().map(|way| way.abs()).fold(0.0, f64::max);
    let mut length = (LONGEST_STEP / longest).min(1.0);
    for _ in 0..MOST_HALVINGS {
        let parameters: Vec<f64> =
            now.parameters.iter().zip(step).map(|(own, way)| own + length * way).collect();
        *evaluations += 1;
        let there = ground.look(&parameters, &now.look.effects);
        let falls = |look: &Look| look.deviance <= now.look.deviance + ENOUGH * length * promised;
        if let Some(look) = there.filter(falls) {
            let slopes = free_only(ground.slopes(&parameters, &look)?, free);
            return Some(Place { parameters, look, slopes });
        }
        length *= 0.5;
    }
    None
}

/// No parameter moves farther in one step: on these scales 3 is a factor of 20.
const LONGEST_STEP: f64 = 3.0;

fn free_only(mut slopes: Vec<f64>, free: &[bool]) -> Vec<f64> {
    slopes.iter_mut().zip(free).filter(|(_, free)| !**free).for_each(|(slope, _)| *slope = 0.0);
    slopes
}

/// A first inverse of the curvature: fixed effects by their information, spreads and shape by a difference of slopes.
fn first_inverse(ground: &Ground<'_>, at: &[f64], look: &Look, free: &[bool]) -> Square {
    let first_fixed = at.len() - ground.checked.columns.len();
    let mut inverse = Square::zero(at.len());
    let weights: Vec<f64> = look.rows.iter().map(|row| row.weight).collect();
    if let Some(factor) = information(ground, at, look, &weights).cholesky() {
        for (row, line) in factor.inverse().rows().iter().enumerate() {
            for (column, value) in line.iter().enumerate() {
                inverse.add(first_fixed + row, first_fixed + column, 0.5 * value);
            }
        }
    } else {
        (first_fixed..at.len()).for_each(|place| inverse.add(place, place, 1.0));
    }
    for place in (0..first_fixed).filter(|place| free[*place]) {
        let curvature = own_curvature(ground, at, look, place).filter(|own| FLATTEST < *own);
        inverse.add(place, place, curvature.unwrap_or(1.0).recip());
    }
    inverse
}

/// Curvature of a spread below which its first step is not trusted to it.
const FLATTEST: f64 = 0.1;

/// Step for the curvature of one parameter.
const NUDGE: f64 = 1e-3;

fn own_curvature(ground: &Ground<'_>, at: &[f64], look: &Look, place: usize) -> Option<f64> {
    let mut moved = at.to_vec();
    moved[place] += NUDGE;
    let there = ground.look(&moved, &look.effects)?;
    let (here, after) = (ground.slopes(at, look)?, ground.slopes(&moved, &there)?);
    Some((after[place] - here[place]) / NUDGE)
}

fn times(matrix: &Square, vector: &[f64]) -> Vec<f64> {
    (0..vector.len())
        .map(|row| (0..vector.len()).map(|column| matrix.at(row, column) * vector[column]).sum())
        .collect()
}

/// Broyden, Fletcher, Goldfarb and Shanno's update of an inverse curvature.
fn update(inverse: &mut Square, now: &Place, there: &Place) {
    let step: Vec<f64> = there.parameters.iter().zip(&now.parameters).map(|(b, a)| b - a).collect();
    let bend: Vec<f64> = there.slopes.iter().zip(&now.slopes).map(|(b, a)| b - a).collect();
    let along = dot(&step, &bend);
    let through = times(inverse, &bend);
    if along <= f64::EPSILON * dot(&step, &step).sqrt() * dot(&bend, &bend).sqrt() {
        return;
    }
    let factor = (1.0 + dot(&bend, &through) / along) / along;
    inverse.add_outer(factor, &step, &step);
    inverse.add_outer(-along.recip(), &through, &step);
    inverse.add_outer(-along.recip(), &step, &through);
}
