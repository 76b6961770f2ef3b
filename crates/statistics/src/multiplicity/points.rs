//! Evenly strewn points in many dimensions: a lattice, shifted at random so that its error can be told.
//!
//! Point n lies at `n (z1, z2, ..) / N`, shifted, and folded so that a function need not close on itself at the
//! edges of the cube.

mod lattices;

use crate::draws::stream;
pub(crate) use lattices::{LATTICES, Lattice};
use rand::RngExt;

/// Shifted copies of a lattice: their scatter tells the error of their mean.
pub(crate) const COPIES: u32 = 8;

/// How many standard errors are told as the error: with eight copies some 1 in 50 answers lies outside.
const ERRORS_TOLD: f64 = 3.0;

/// A mean over the points and how far off it may be.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Mean {
    pub(crate) value: f64,
    pub(crate) error: f64,
}

/// The mean of `f` over the cube of `axes` dimensions, on one of the [`LATTICES`].
pub(crate) fn mean(axes: usize, lattice: &Lattice, mut f: impl FnMut(&[f64]) -> f64) -> Mean {
    let count = lattice.points;
    let steps = steps(axes, lattice);
    let mut chance = stream(&["lattice shifts"]);
    let mut point = vec![0.0; axes];
    let copies: Vec<f64> = (0..COPIES)
        .map(|_| {
            let mut place: Vec<f64> = (0..axes).map(|_| chance.random::<f64>()).collect();
            let mut sum = 0.0;
            for _ in 0..count {
                for ((at, step), folded) in place.iter_mut().zip(&steps).zip(&mut point) {
                    *at += step;
                    *at -= at.floor();
                    *folded = (2.0 * *at - 1.0).abs();
                }
                sum += f(&point);
            }
            sum / f64::from(count)
        })
        .collect();
    let copy_count = f64::from(COPIES);
    let value = copies.iter().sum::<f64>() / copy_count;
    let scatter: f64 = copies.iter().map(|copy| (copy - value).powi(2)).sum();
    Mean { value, error: ERRORS_TOLD * (scatter / (copy_count * (copy_count - 1.0))).sqrt() }
}

/// How far each axis moves from point to point. Axes beyond the table's go through it again: they are evenly strewn
/// too, though not beside their twins.
fn steps(axes: usize, lattice: &Lattice) -> Vec<f64> {
    let step = |multiplier: &u32| f64::from(*multiplier) / f64::from(lattice.points);
    lattice.multipliers.iter().cycle().take(axes).map(step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A smooth function of ten axes whose mean is 1 in closed form, and the error told is an honest one.
    #[test]
    fn means_are_close_and_know_it() {
        for lattice in &LATTICES {
            let found = mean(10, lattice, |point| {
                point.iter().enumerate().map(|(axis, x)| 1.0 + (x - 0.5) / (axis as f64 + 1.0)).product()
            });
            assert!((found.value - 1.0).abs() < found.error, "{}: {found:?}", lattice.points);
            assert!(found.error < 1.5 / f64::from(lattice.points), "{}: {found:?}", lattice.points);
        }
    }
}
