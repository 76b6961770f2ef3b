//! Curves that bend: a coarse search for where to begin, then Levenberg and Marquardt's descent.
//!
//! Every bent shape is straight in its top (and, for the rise, its fall), so the coarse search tries
//! only where and how fast it bends and takes the best top for each. The descent then moves all
//! numbers together until the residuals are at right angles to every direction that the curve can go.

use super::{CurveFault, Reading, Shape};
use crate::matrix::{Square, dot};

/// How many places, and how many speeds, the coarse search tries.
const TRIES: u32 = 24;
/// Slowest and fastest bend tried, as shares of the time spanned.
const SLOWNESS: (f64, f64) = (0.005, 8.0);
/// A bend slower than this many spans cannot be told from a straight line.
const STRAIGHT: f64 = 50.0;
/// The descent is over when the residuals' share along the curve's directions falls below this.
const DONE: f64 = 1e-9;
/// Share that is still accepted where roundings end the descent.
const DONE_WITHIN_ROUNDING: f64 = 1e-5;
/// Steps before giving up.
const MOST_STEPS: u32 = 500;
/// Damping to begin with, and how it changes after a good and after a bad step; common practice.
const DAMPING: (f64, f64, f64) = (1e-3, 0.2, 5.0);
/// Damping beyond which no step can be seen.
const MOST_DAMPING: f64 = 1e12;

/// The best curve of a bent shape, for readings in order of time.
pub(super) fn bent(shape: Shape, readings: &[Reading]) -> Result<Vec<f64>, CurveFault> {
    let span = span(readings).ok_or(CurveFault::NotIdentified)?;
    let found = coarse(shape, readings, span).and_then(|start| descend(shape, readings, start));
    let identified = |numbers: &Vec<f64>| {
        numbers.iter().all(|number| number.is_finite())
            && numbers
                .get(2)
                .is_some_and(|slowness| 0.0 < *slowness && *slowness < STRAIGHT * (span.1 - span.0))
    };
    found.filter(identified).ok_or(CurveFault::NotIdentified)
}

/// First and last time.
fn span(readings: &[Reading]) -> Option<(f64, f64)> {
    Some((readings.first()?.time, readings.last()?.time))
}

/// The best of a grid of bends.
fn coarse(shape: Shape, readings: &[Reading], (first, last): (f64, f64)) -> Option<Vec<f64>> {
    let span = last - first;
    let slownesses = (0..TRIES).map(|step| span * SLOWNESS.0 * (SLOWNESS.1 / SLOWNESS.0).powf(share(step)));
    let middles: Vec<f64> = if shape == Shape::Rise {
        vec![0.0]
    } else {
        (0..TRIES).map(|step| first - span + 3.0 * span * share(step)).collect()
    };
    let bends = slownesses.flat_map(|slowness| middles.iter().map(move |middle| (*middle, slowness)));
    let curves = bends.filter_map(|(middle, slowness)| with_best_top(shape, readings, middle, slowness));
    curves.min_by(|a, b| squares(shape, a, readings).total_cmp(&squares(shape, b, readings)))
}

/// How far along the grid a step is, from 0 to 1.
fn share(step: u32) -> f64 {
    f64::from(step) / f64::from(TRIES - 1)
}

/// The best curve with a given bend: a straight fit of its top (and fall).
fn with_best_top(shape: Shape, readings: &[Reading], middle: f64, slowness: f64) -> Option<Vec<f64>> {
    if shape == Shape::Rise {
        let bent: Vec<Reading> =
            readings.iter().map(|reading| reading.at_time((-reading.time / slowness).exp())).collect();
        let line = super::straight::line(&bent);
        let (top, slope) = (line.first()?, line.get(1)?);
        return Some(vec![*top, -slope, slowness])
            .filter(|numbers| numbers.iter().all(|number| number.is_finite()));
    }
    let unit = [1.0, middle, slowness];
    let shares: Vec<f64> = readings.iter().map(|reading| shape.value(&unit, reading.time)).collect();
    let values: Vec<f64> = readings.iter().map(|reading| reading.value).collect();
    let top = dot(&shares, &values) / dot(&shares, &shares);
    top.is_finite().then(|| vec![top, middle, slowness])
}

impl Reading {
    fn at_time(self, time: f64) -> Self {
        Self { time, ..self }
    }
}

/// Sum of squared residuals.
pub(super) fn squares(shape: Shape, numbers: &[f64], readings: &[Reading]) -> f64 {
    readings.iter().map(|reading| (reading.value - shape.value(numbers, reading.time)).powi(2)).sum()
}

/// `J'J` and `J'r` of residuals r and the curve's directions J.
pub(super) fn normal_equations(shape: Shape, numbers: &[f64], readings: &[Reading]) -> (Square, Vec<f64>) {
    let mut products = Square::zero(numbers.len());
    let mut right = vec![0.0; numbers.len()];
    for reading in readings {
        let gradient = shape.gradient(numbers, reading.time);
        let residual = reading.value - shape.value(numbers, reading.time);
        products.add_outer(1.0, &gradient, &gradient);
        right.iter_mut().zip(&gradient).for_each(|(sum, direction)| *sum += residual * direction);
    }
    (products, right)
}

/// Levenberg and Marquardt's descent, each number damped by its own scale.
fn descend(shape: Shape, readings: &[Reading], start: Vec<f64>) -> Option<Vec<f64>> {
    let mut here = start;
    let mut height = squares(shape, &here, readings);
    let mut damping = DAMPING.0;
    for _ in 0..MOST_STEPS {
        let (products, right) = normal_equations(shape, &here, readings);
        let along = products.cholesky()?.inverse_form(&right).max(0.0);
        if along <= DONE * DONE * height {
            return Some(here);
        }
        let next: Vec<f64> =
            here.iter().zip(damped(&products, damping)?.solve(&right)).map(|(x, step)| x + step).collect();
        let next_height = squares(shape, &next, readings);
        if next_height < height {
            (here, height) = (next, next_height);
            damping *= DAMPING.1;
        } else {
            damping *= DAMPING.2;
        }
        if MOST_DAMPING < damping {
            return (along <= DONE_WITHIN_ROUNDING * DONE_WITHIN_ROUNDING * height).then_some(here);
        }
    }
    None
}

/// The factor of `J'J` with its diagonal raised.
fn damped(products: &Square, damping: f64) -> Option<crate::matrix::Cholesky> {
    let mut raised = products.clone();
    (0..products.size()).for_each(|at| raised.add(at, at, damping * products.at(at, at)));
    raised.cholesky()
}
