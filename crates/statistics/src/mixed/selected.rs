//! The entries of an inverse that lie on the pattern of its Cholesky factor.
//!
//! Traces and prediction error variances need no more than these, and they cost about as much as the factor.
//! Blocks are worked backwards: with `L_JJ` the square of a block and `L_IJ` what is below, and the inverse `B`
//! known on the rows `I`, `Y = L_IJ L_JJ^-1`, `B_IJ = -B_II Y`, `B_JJ = L_JJ^-T L_JJ^-1 - Y' B_IJ`.
//!
//! # Source
//! Takahashi's recursion in blocks; from memory, unverified, and held by tests to the dense inverse.

use super::cholesky::{Block, Factor, Layout};
use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::inverse::{inverse, inverse_scratch};
use faer::linalg::matmul::matmul;
use faer::linalg::triangular_solve::solve_upper_triangular_in_place;
use faer::{Accum, Mat, MatMut, MatRef, Par};

/// Entries of an inverse, laid out as the factor.
#[derive(Clone, Debug)]
pub(crate) struct Selected {
    values: Vec<f64>,
}

/// Blocks with at most this many columns and rows below are worked by plain loops, where a call into the library
/// costs more than the arithmetic. Chosen by timing on trials of 72 and of 40,000 plots.
const SMALL: usize = 48;

impl Selected {
    /// Works out the entries; `None` where memory does not hold them.
    pub(crate) fn new(layout: &Layout, factor: &Factor) -> Option<Self> {
        let mut values = vec![0.0; layout.length()];
        let mut around = Vec::new();
        for at in (0..layout.block_count()).rev() {
            let block = layout.block(at)?;
            gather(layout, &block, &values, &mut around)?;
            let end = block.start + block.rows() * block.columns;
            let (lower, inverse) = (&factor.values()[block.start..end], &mut values[block.start..end]);
            if block.columns <= SMALL && block.below.len() <= SMALL {
                small(&block, lower, &around, inverse);
            } else {
                large(&block, lower, &around, inverse)?;
            }
        }
        Some(Self { values })
    }

    /// Where an entry of the matrix's pattern lies.
    pub(crate) fn place(layout: &Layout, row: usize, column: usize) -> Option<usize> {
        let (row, column) = (layout.ordered(row), layout.ordered(column));
        let (row, column) = (row.max(column), row.min(column));
        let block = layout.block(layout.block_of(column))?;
        Some(block.start + (column - block.first) * block.rows() + block.row_of(row)?)
    }

    /// The entry at a place.
    pub(crate) fn at(&self, place: usize) -> f64 {
        self.values[place]
    }

    /// An entry of the inverse, if the pattern of the factor has it.
    pub(crate) fn entry(&self, layout: &Layout, row: usize, column: usize) -> Option<f64> {
        Self::place(layout, row, column).map(|place| self.at(place))
    }
}

/// Gathers the inverse on the rows below a block, as a full square.
fn gather(layout: &Layout, block: &Block<'_>, values: &[f64], around: &mut Vec<f64>) -> Option<()> {
    let size = block.below.len();
    around.clear();
    around.resize(size * size, 0.0);
    let mut column = 0;
    while column < size {
        let holder = layout.block(layout.block_of(block.below[column] as usize))?;
        let end = (holder.first + holder.columns) as u32;
        let last = column + block.below[column..].partition_point(|row| *row < end);
        let rows: Vec<usize> =
            block.below[column..].iter().map(|row| holder.row_of(*row as usize)).collect::<Option<_>>()?;
        for own in column..last {
            let start = holder.start + (block.below[own] as usize - holder.first) * holder.rows();
            for row in own..size {
                let value = values[start + rows[row - column]];
                around[own * size + row] = value;
                around[row * size + own] = value;
            }
        }
        column = last;
    }
    Some(())
}

/// One block by plain loops.
fn small(block: &Block<'_>, lower: &[f64], around: &[f64], inverse: &mut [f64]) {
    let (columns, below, rows) = (block.columns, block.below.len(), block.rows());
    let mut through = vec![0.0; below * columns];
    for column in (0..columns).rev() {
        let (done, rest) = through[column * below..].split_at_mut(below);
        done.copy_from_slice(&lower[column * rows + columns..(column + 1) * rows]);
        for later in column + 1..columns {
            let factor = lower[column * rows + later];
            let other = &rest[(later - column - 1) * below..][..below];
            done.iter_mut().zip(other).for_each(|(own, other)| *own -= factor * other);
        }
        let pivot = lower[column * (rows + 1)];
        done.iter_mut().for_each(|own| *own /= pivot);
    }
    for column in 0..columns {
        let target = &mut inverse[column * rows + columns..(column + 1) * rows];
        for (at, factor) in through[column * below..(column + 1) * below].iter().enumerate() {
            let row = &around[at * below..(at + 1) * below];
            target.iter_mut().zip(row).for_each(|(own, other)| *own -= factor * other);
        }
    }
    small_square(columns, rows, lower, inverse);
    for column in 0..columns {
        for row in column..columns {
            let left = &through[row * below..(row + 1) * below];
            let right = &inverse[column * rows + columns..(column + 1) * rows];
            let product: f64 = left.iter().zip(right).map(|(a, b)| a * b).sum();
            inverse[column * rows + row] -= product;
        }
    }
}

/// Writes `L^-T L^-1` of a small square into its lower half.
fn small_square(columns: usize, rows: usize, lower: &[f64], inverse: &mut [f64]) {
    let mut root = vec![0.0; columns * columns];
    for column in 0..columns {
        root[column * columns + column] = 1.0 / lower[column * (rows + 1)];
        for row in column + 1..columns {
            let sum: f64 = (column..row).map(|at| lower[at * rows + row] * root[column * columns + at]).sum();
            root[column * columns + row] = -sum / lower[row * (rows + 1)];
        }
    }
    for column in 0..columns {
        for row in column..columns {
            let (left, right) =
                (&root[row * columns + row..(row + 1) * columns], &root[column * columns + row..]);
            inverse[column * rows + row] = left.iter().zip(right).map(|(a, b)| a * b).sum();
        }
    }
}

/// One block by the library's dense routines.
fn large(block: &Block<'_>, lower: &[f64], around: &[f64], values: &mut [f64]) -> Option<()> {
    let (columns, below, rows) = (block.columns, block.below.len(), block.rows());
    let lower = MatRef::from_column_major_slice(lower, rows, columns);
    let (square, under) = lower.split_at_row(columns);
    let target = MatMut::from_column_major_slice_mut(values, rows, columns);
    let (mut top, mut bottom) = target.split_at_row_mut(columns);
    let mut memory = MemBuffer::try_new(inverse_scratch::<f64>(columns, Par::Seq)).ok()?;
    inverse(top.as_mut(), square, Par::Seq, MemStack::new(&mut memory));
    if below == 0 {
        return Some(());
    }
    // Y' = L_JJ^-T L_IJ'
    let mut through: Mat<f64> = under.transpose().to_owned();
    solve_upper_triangular_in_place(square.transpose(), through.as_mut(), Par::Seq);
    let around = MatRef::from_column_major_slice(around, below, below);
    matmul(bottom.as_mut(), Accum::Replace, around, through.transpose(), -1.0, Par::Seq);
    matmul(top.as_mut(), Accum::Add, through.as_ref(), bottom.as_ref(), -1.0, Par::Seq);
    Some(())
}
