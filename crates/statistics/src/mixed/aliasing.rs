//! Which fixed columns are combinations of those before them, and least squares on the others.
//!
//! Columns are scaled to length one, so that a share of a column's squared length left over by the others is what
//! decides. A few columns are gone through one by one in a dense table; of many, first the sparse factor is asked
//! whether any is aliased at all, which mostly none is.

use super::MixedFault;
use super::cholesky::Factor;
use super::equations::{Extent, System};
use super::fixed_design::{Alias, weighing};
use super::sparse_rows::SparseRows;

/// Part of a column's squared length that others must leave over for it to be a column of its own. From
/// rounding: products over some thousands of rows are good to about 1e-13.
const OWN_SHARE: f64 = 1e-10;
/// The most columns searched for aliased ones one by one; a search of this many takes seconds.
const MOST_SEARCHED: usize = 4_000;
/// Up to this many columns the dense table is quicker than laying out a sparse factor.
const FEW: usize = 100;

/// Kept and aliased columns, and how to solve for the kept ones.
pub(super) struct Plain {
    pub(super) kept: Vec<usize>,
    pub(super) aliased: Vec<Alias>,
    pub(super) solver: Solver,
}

/// A factor of the kept columns' products, with one over their lengths.
#[derive(Debug)]
pub(super) enum Solver {
    /// Row by row.
    Dense { factor: Vec<Vec<f64>>, scale: Vec<f64> },
    /// Sparse.
    Sparse { system: Box<System>, factor: Factor, scale: Vec<f64> },
}

impl Solver {
    /// Solves for kept coefficients.
    pub(super) fn solve(&self, mut right: Vec<f64>) -> Vec<f64> {
        let scale = match self {
            Self::Dense { scale, .. } | Self::Sparse { scale, .. } => scale,
        };
        right.iter_mut().zip(scale).for_each(|(number, scale)| *number *= scale);
        match self {
            Self::Dense { factor, .. } => right = through(factor, right),
            Self::Sparse { system, factor, .. } => system.layout.solve(factor, &mut right),
        }
        right.iter_mut().zip(scale).for_each(|(number, scale)| *number *= scale);
        right
    }
}

/// Tells kept and aliased columns apart.
pub(super) fn plain(rows: &SparseRows, columns: usize, weights: Option<&[f64]>) -> Result<Plain, MixedFault> {
    if columns <= FEW {
        return Ok(search(&products(rows, columns, weights)));
    }
    let extent = Extent { columns, fixed: columns, units: 0 };
    let system = System::new(rows, &[weighing(rows.rows(), weights)], extent);
    let system = system.ok_or(MixedFault::NotFound)?;
    if let Some((factor, scale)) = full_rank(&system) {
        let solver = Solver::Sparse { system: Box::new(system), factor, scale };
        return Ok(Plain { kept: (0..columns).collect(), aliased: Vec::new(), solver });
    }
    if MOST_SEARCHED < columns {
        return Err(MixedFault::TooManyColumns { columns, most: MOST_SEARCHED });
    }
    Ok(search(&products(rows, columns, weights)))
}

/// Products of all columns with each other.
fn products(rows: &SparseRows, columns: usize, weights: Option<&[f64]>) -> Vec<Vec<f64>> {
    let mut products = vec![vec![0.0; columns]; columns];
    for row in 0..rows.rows() {
        let weight = weights.map_or(1.0, |weights| weights[row]);
        for (column, value) in rows.row(row) {
            for (other, number) in rows.row(row).take_while(|(other, _)| *other <= column) {
                products[column][other] += weight * value * number;
            }
        }
    }
    products
}

/// A factor of the columns scaled to length one, if no column is near a combination of the others.
fn full_rank(system: &System) -> Option<(Factor, Vec<f64>)> {
    let size = system.pattern.size();
    let plain = system.values(&[1.0], &vec![1.0; size]);
    let lengths = (0..size).map(|column| plain[system.pattern.column(column).start]);
    let scale: Vec<f64> = lengths.map(one_over_root).collect();
    let factor = system.layout.factor(&system.pattern, &system.values(&[1.0], &scale))?;
    (OWN_SHARE.sqrt() < system.layout.least_pivot(&factor)).then_some((factor, scale))
}

/// One over a column's length; zero for a column of zeros.
fn one_over_root(square: f64) -> f64 {
    if 0.0 < square { 1.0 / square.sqrt() } else { 0.0 }
}

/// Goes through the columns in order and sets aside those that the ones before say.
fn search(products: &[Vec<f64>]) -> Plain {
    let scale: Vec<f64> = products.iter().enumerate().map(|(at, row)| one_over_root(row[at])).collect();
    let (mut kept, mut aliased): (Vec<usize>, Vec<Alias>) = (Vec::new(), Vec::new());
    let mut factor: Vec<Vec<f64>> = Vec::new();
    for (column, products) in products.iter().enumerate() {
        let mut row: Vec<f64> = Vec::with_capacity(kept.len() + 1);
        for (before, own) in kept.iter().zip(&factor) {
            let done: f64 = row.iter().zip(own).map(|(a, b)| a * b).sum();
            row.push((products[*before] * scale[column] * scale[*before] - done) / own[row.len()]);
        }
        let whole = products[column] * scale[column] * scale[column];
        let left = whole - row.iter().map(|number| number * number).sum::<f64>();
        if OWN_SHARE < left {
            row.push(left.sqrt());
            factor.push(row);
            kept.push(column);
        } else {
            let shares = back(&factor, row);
            let own = if 0.0 < scale[column] { 1.0 / scale[column] } else { 0.0 };
            let shares = shares.iter().zip(&kept).map(|(share, kept)| share * scale[*kept] * own).collect();
            aliased.push(Alias { column, shares });
        }
    }
    aliased.iter_mut().for_each(|alias| alias.shares.resize(kept.len(), 0.0));
    let scale = kept.iter().map(|column| scale[*column]).collect();
    Plain { kept, aliased, solver: Solver::Dense { factor, scale } }
}

/// Solves with a factor, forwards and backwards.
fn through(factor: &[Vec<f64>], mut right: Vec<f64>) -> Vec<f64> {
    for (at, own) in factor.iter().enumerate() {
        let done: f64 = own.iter().zip(&right[..at]).map(|(a, b)| a * b).sum();
        right[at] = (right[at] - done) / own[at];
    }
    back(factor, right)
}

/// Solves with a factor's transpose, for as many unknowns as there are right sides.
fn back(factor: &[Vec<f64>], mut right: Vec<f64>) -> Vec<f64> {
    for at in (0..right.len()).rev() {
        right[at] /= factor[at][at];
        let own = right[at];
        right[..at].iter_mut().zip(&factor[at]).for_each(|(other, number)| *other -= own * number);
    }
    right
}
