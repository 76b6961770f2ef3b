//! Which treatments can be compared with each other at all.

use super::absorbed::information;
use super::grid::Grid;
use super::{Design, DesignFault};

/// An eigenvalue below this, in plots, is zero but for rounding.
pub(crate) const NOTHING: f64 = 1e-8;

/// The groups of treatments that can be compared among themselves; a connected design has one.
///
/// Two treatments belong together when their difference can be estimated with fixed treatments. With rows
/// and columns that is more than a chain of common blocks. Groups are in order of their first treatment.
///
/// # Errors
/// [`DesignFault::NotDecomposed`] where the sums fail.
pub fn components(design: &Design) -> Result<Vec<Vec<usize>>, DesignFault> {
    let (values, vectors) = information(design).eigen().ok_or(DesignFault::NotDecomposed)?;
    Ok(grouped(&values, &vectors))
}

/// Groups treatments by what the null space says of them: alike in every null vector is together.
pub(crate) fn grouped(values: &[f64], vectors: &Grid) -> Vec<Vec<usize>> {
    let null: Vec<&[f64]> = values
        .iter()
        .enumerate()
        .filter(|(_, value)| **value < NOTHING)
        .map(|(at, _)| vectors.row(at))
        .collect();
    let apart = |left: usize, right: usize| {
        let of = |vector: &[f64]| vector.get(left).zip(vector.get(right)).map_or(0.0, |(l, r)| (l - r).abs());
        null.iter().any(|vector| NOTHING.sqrt() < of(vector))
    };
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for treatment in 0..values.len() {
        let own =
            groups.iter_mut().find(|group| group.first().is_some_and(|first| !apart(*first, treatment)));
        match own {
            Some(group) => group.push(treatment),
            None => groups.push(vec![treatment]),
        }
    }
    groups
}
