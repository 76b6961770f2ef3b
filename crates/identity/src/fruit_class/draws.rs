//! Evenly spread chances, made once and used for every variety.
//!
//! Each coordinate runs once through evenly spread normal quantiles, in a shuffled order of its own (Latin
//! hypercube: McKay, Beckman and Conover 1979, Technometrics 21:239). A share that turns on one border is
//! then right to about one draw in all of them, where as many careless draws would miss by dozens. All
//! varieties share the same draws, so a call depends on its own evidence and guide and nothing else.

use rand::seq::SliceRandom;
use statistics::draws::{NormalPoints, stream};

/// Coordinates of one draw: the traits, then the softness of each measure's borders.
pub(crate) const DIMENSIONS: usize = TRAIT_DIMENSIONS + crate::guide::fruit::measure::MEASURE_COUNT;

/// Coordinates that move a fruit's traits; the others move the borders, or stand for errors of measuring
/// when a step is tried out.
pub(crate) const TRAIT_DIMENSIONS: usize = 8;

/// Draws behind a call: a share is steady to about one in a hundred.
const CALL_DRAWS: usize = 1024;

/// Imagined outcomes of a step.
const OUTCOMES: usize = 32;

/// Draws behind the call that is imagined after each outcome.
const OUTCOME_DRAWS: usize = 64;

/// One draw.
pub(crate) type Point = [f64; DIMENSIONS];

/// Evenly spread chances, made once and used for every variety.
#[derive(Clone, Debug)]
pub struct Draws {
    pub(crate) call: Vec<Point>,
    pub(crate) outcomes: Vec<Point>,
    pub(crate) after: Vec<Point>,
}

impl Draws {
    /// Makes the draws; the same on every machine.
    #[must_use]
    pub fn new() -> Self {
        let points = |name, count| hypercube(name, count);
        Self {
            call: points("call", CALL_DRAWS),
            outcomes: points("outcomes", OUTCOMES),
            after: points("after", OUTCOME_DRAWS),
        }
    }
}

impl Default for Draws {
    fn default() -> Self {
        Self::new()
    }
}

pub(crate) fn hypercube(name: &str, count: usize) -> Vec<Point> {
    let mut points = vec![[0.0; DIMENSIONS]; count];
    let mut stream = stream(&["fruit class draws", name]);
    let mut quantiles = even_quantiles(count);
    for dimension in 0..DIMENSIONS {
        quantiles.shuffle(&mut stream);
        for (point, quantile) in points.iter_mut().zip(&quantiles) {
            if let Some(coordinate) = point.get_mut(dimension) {
                *coordinate = *quantile;
            }
        }
    }
    points
}

/// Standard normal numbers, evenly spread and balanced: each has its mirror image.
fn even_quantiles(count: usize) -> Vec<f64> {
    let half = NormalPoints::new(1, count.div_ceil(2));
    let half = half.iter().filter_map(|point| point.first().copied());
    half.flat_map(|quantile| [quantile, -quantile]).take(count).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mean 0, variance 1 and no two coordinates in step, as independent normal draws have.
    #[test]
    fn draws_are_balanced() {
        let draws = Draws::new();
        let count = draws.call.len() as f64;
        for one in 0..DIMENSIONS {
            for other in 0..=one {
                let product: f64 = draws.call.iter().map(|point| point[one] * point[other]).sum();
                let expected = if one == other { 1.0 } else { 0.0 };
                let slack = if one == other { 0.03 } else { 0.12 };
                assert!((product / count - expected).abs() < slack, "{one} {other}: {}", product / count);
            }
        }
    }
}
