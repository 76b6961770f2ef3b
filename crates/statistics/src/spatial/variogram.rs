//! How unlike plots are that lie so many rows and columns apart: whether anything is left that neighbours share.
//!
//! Half the mean square of the differences between all pairs of plots at one distance. Where nothing is left of a trend it
//! is the same at every distance; a rise from small to large distances is a trend not yet taken off.

use super::bed::{Bed, Place};
use std::collections::BTreeMap;

/// Pairs of plots at one distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Distance {
    /// Rows between them.
    pub rows: u32,
    /// Columns between them.
    pub columns: u32,
    /// How many pairs.
    pub pairs: u32,
    /// Half the mean square of their differences.
    pub semivariance: f64,
}

/// Works out the variogram of what is left in each plot.
///
/// # Shape
/// `left`: one number a plot of the bed, in its order. Returns distances in order of rows, then columns.
#[must_use]
pub fn variogram(bed: &Bed, left: &[f64]) -> Vec<Distance> {
    let mut sums: BTreeMap<(u32, u32), (u32, f64)> = BTreeMap::new();
    let plots: Vec<(Place, f64)> = bed.places().zip(left.iter().copied()).collect();
    for (at, (one, own)) in plots.iter().enumerate() {
        for (other, beside) in &plots[..at] {
            let apart = (one.row.abs_diff(other.row), one.column.abs_diff(other.column));
            let (pairs, sum) = sums.entry(apart).or_default();
            *pairs += 1;
            *sum += (own - beside).powi(2);
        }
    }
    let distance = |((rows, columns), (pairs, sum)): ((u32, u32), (u32, f64))| Distance {
        rows,
        columns,
        pairs,
        semivariance: sum / (2.0 * f64::from(pairs)),
    };
    sums.into_iter().map(distance).collect()
}
