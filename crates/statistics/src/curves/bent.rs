//! Curves that bend: a coarse search for where to begin, then Levenberg and Marquardt's descent.
//!
//! Every bent shape is straight in its top (and, for the rise, its fall), so the coarse search tries
//! only where and how fast it bends and takes the best top for each. The descent then moves all
//! numbers together until the residuals are at right angles to every direction that the curve can go.

use super::{CurveFault, Reading, Shape};
use crate::matrix::{Square, dot};

/// How many places of the bend the coarse search tries.
const PLACES: u32 = 24;
/// How many speeds of the bend it tries.
const SPEEDS: u32 = 12;
/// Slowest and fastest bend tried, as shares of the time spanned.
const SLOWNESS: (f64, f64) = (0.005, 8.0);
/// A bend quicker than this share of the mean gap between readings is a leap that no reading shows.
const QUICKEST: f64 = 0.1;
/// A bend slower than this many spans cannot be told from a straight line.
const STRAIGHT: f64 = 50.0;
/// The descent is over when the residuals' share along the curve's directions falls below this.
const DONE: f64 = 1e-9;
/// Share that is still accepted where roundings end the descent.
const DONE_WITHIN_ROUNDING: f64 = 1e-5;
/// Share of the readings' squares below which residuals are roundings and the fit is exact.
const ROUNDING: f64 = 1e-28;
/// Steps before giving up.
const MOST_STEPS: u32 = 500;
/// Damping to begin with, and how it changes after a good and after a bad step; common practice.
const DAMPING: (f64, f64, f64) = (1e-3, 0.2, 5.0);
/// Damping beyond which no step can be seen.
const MOST_DAMPING: f64 = 1e12;

/// The best curve of a bent shape, for readings in order of time.
///
/// A curve that leaps between two readings can lie lower than the sensible one beside it. So every speed
/// of bend sends a descent on its way, and leaps are not counted at the end.
pub(super) fn bent(shape: Shape, readings: &[Reading]) -> Result<Vec<f64>, CurveFault> {
    let (first, last) = span(readings).ok_or(CurveFault::NotIdentified)?;
    let span = last - first;
    let shown = QUICKEST * mean_gap(readings, span)..STRAIGHT * span;
    let identified = |numbers: &Vec<f64>| {
        numbers.iter().all(|number| number.is_finite())
            && numbers.get(2).is_some_and(|slowness| shown.contains(slowness))
    };
    let starts = (0..SPEEDS).filter_map(|step| {
        let slowness = span * SLOWNESS.0 * (SLOWNESS.1 / SLOWNESS.0).powf(share(step, SPEEDS));
        let curves =
            middles(shape, first, span).filter_map(|middle| with_best_top(shape, readings, middle, slowness));
        lowest(curves, shape, readings)
    });
    let ends = starts.filter_map(|start| descend(shape, readings, start)).filter(identified);
    lowest(ends, shape, readings).ok_or(CurveFault::NotIdentified)
}

/// The curve nearest to the readings.
fn lowest(curves: impl Iterator<Item = Vec<f64>>, shape: Shape, readings: &[Reading]) -> Option<Vec<f64>> {
    curves.min_by(|a, b| squares(shape, a, readings).total_cmp(&squares(shape, b, readings)))
}

/// First and last time.
fn span(readings: &[Reading]) -> Option<(f64, f64)> {
    Some((readings.first()?.time, readings.last()?.time))
}

/// The mean gap between readings.
#[expect(clippy::cast_precision_loss, reason = "nobody takes 2^52 readings")]
fn mean_gap(readings: &[Reading], span: f64) -> f64 {
    span / readings.len() as f64
}

/// Middles of the bend to try: from one span before the readings to one after. A rise has none.
fn middles(shape: Shape, first: f64, span: f64) -> impl Iterator<Item = f64> {
    let tries = if shape == Shape::Rise { 1 } else { PLACES };
    (0..tries).map(move |step| first - span + 3.0 * span * share(step, PLACES))
}

/// How far along the grid a step is, from 0 to 1.
fn share(step: u32, steps: u32) -> f64 {
    f64::from(step) / f64::from(steps - 1)
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
        let gradient = gradient.get(..numbers.len()).unwrap_or_default();
        products.add_outer(1.0, gradient, gradient);
        right.iter_mut().zip(gradient).for_each(|(sum, direction)| *sum += residual * direction);
    }
    (products, right)
}

/// Levenberg and Marquardt's descent, each number damped by its own scale.
fn descend(shape: Shape, readings: &[Reading], start: Vec<f64>) -> Option<Vec<f64>> {
    let mut here = start;
    let mut height = squares(shape, &here, readings);
    let mut damping = DAMPING.0;
    let exact = ROUNDING * readings.iter().map(|reading| reading.value * reading.value).sum::<f64>();
    for _ in 0..MOST_STEPS {
        let (products, right) = normal_equations(shape, &here, readings);
        let along = products.cholesky()?.inverse_form(&right).max(0.0);
        if along <= DONE * DONE * height || height <= exact {
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
