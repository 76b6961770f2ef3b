//! The simplex method's table: every variable of the basis as a sum of those outside it.
//!
//! Start at [`Table::exchange`].

#![expect(clippy::indexing_slicing, reason = "tables and lists of a length set a few lines above")]

use super::simplex::Row;

/// A column of the program, or the sum of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Variable {
    /// Column so many.
    Column(usize),
    /// Row so many.
    Row(usize),
}

/// The table.
#[derive(Clone, Debug)]
pub(super) struct Table {
    /// The variable of each table row.
    pub(super) inside: Vec<Variable>,
    /// The variable of each table column.
    pub(super) outside: Vec<Variable>,
    /// What one more of each variable outside is worth.
    pub(super) worth: Vec<f64>,
    /// Table rows one after the other.
    cells: Vec<f64>,
    /// The squares of each table row, added up, and one more: how far a step in its direction goes.
    pub(super) lengths: Vec<f64>,
}

/// Entries smaller than this are what rounding left of nothing.
const LEFT_OVER: f64 = 1e-13;

impl Table {
    pub(super) fn new(worth: &[f64]) -> Self {
        let outside = (0..worth.len()).map(Variable::Column).collect();
        Self { inside: Vec::new(), outside, worth: worth.to_vec(), cells: Vec::new(), lengths: Vec::new() }
    }

    pub(super) fn row(&self, row: usize) -> &[f64] {
        let width = self.outside.len();
        &self.cells[row * width..(row + 1) * width]
    }

    /// Adds the sum of a row to the basis.
    pub(super) fn add(&mut self, terms: &[(usize, f64)]) {
        let width = self.outside.len();
        let mut own = vec![0.0; width];
        for (column, entry) in terms {
            let variable = Variable::Column(*column);
            if let Some(place) = self.outside.iter().position(|other| *other == variable) {
                own[place] += entry;
            } else if let Some(row) = self.inside.iter().position(|other| *other == variable) {
                own.iter_mut().zip(self.row(row)).for_each(|(own, cell)| *own += entry * cell);
            }
        }
        self.inside.push(Variable::Row(self.inside.len()));
        self.lengths.push(length(&own));
        self.cells.extend(own);
    }

    /// The values of the basis.
    pub(super) fn values(&self, rest: &[f64]) -> Vec<f64> {
        let sum = |row: &[f64]| row.iter().zip(rest).map(|(cell, rest)| cell * rest).sum();
        self.cells.chunks_exact(self.outside.len().max(1)).map(sum).collect()
    }

    /// Moves a variable outside the basis, and the basis with it.
    pub(super) fn shift(&self, place: usize, by: f64, values: &mut [f64]) {
        let entries = self.cells.iter().skip(place).step_by(self.outside.len());
        values.iter_mut().zip(entries).for_each(|(value, cell)| *value += cell * by);
    }

    /// Takes a variable out of the basis and another in.
    pub(super) fn exchange(&mut self, row: usize, column: usize) {
        let width = self.outside.len();
        let mut own = self.row(row).to_vec();
        let pivot = own[column];
        own[column] = -1.0;
        own.iter_mut().for_each(|cell| {
            *cell /= -pivot;
            if cell.abs() < LEFT_OVER {
                *cell = 0.0;
            }
        });
        let rows = self.cells.chunks_exact_mut(width).zip(&mut self.lengths);
        for (place, (cells, own_length)) in rows.enumerate() {
            if place == row {
                cells.copy_from_slice(&own);
            } else if !put_in(cells, &own, column) {
                continue;
            }
            *own_length = length(cells);
        }
        put_in(&mut self.worth, &own, column);
        std::mem::swap(&mut self.inside[row], &mut self.outside[column]);
    }

    /// Makes the table anew from the rows, with the same basis.
    pub(super) fn renew(&mut self, worth: &[f64], rows: &[Row]) {
        let wanted = self.inside.iter().filter_map(|variable| match variable {
            Variable::Column(column) => Some(*column),
            Variable::Row(_) => None,
        });
        let wanted: Vec<usize> = wanted.collect();
        let mut leave = vec![false; rows.len()];
        for variable in &self.outside {
            if let Variable::Row(row) = variable {
                leave[*row] = true;
            }
        }
        *self = Self::new(worth);
        rows.iter().for_each(|row| self.add(&row.terms));
        for column in wanted {
            let size = |row: &usize| self.row(*row)[column].abs();
            let open = (0..rows.len()).filter(|row| leave[*row]);
            let Some(row) = open.max_by(|one, other| size(one).total_cmp(&size(other))) else { return };
            leave[row] = false;
            self.exchange(row, column);
        }
    }
}

/// Puts what a variable is now a sum of in its place; whether it was there at all.
fn put_in(cells: &mut [f64], own: &[f64], column: usize) -> bool {
    let factor = cells[column];
    if factor == 0.0 {
        return false;
    }
    cells[column] = 0.0;
    cells.iter_mut().zip(own).for_each(|(cell, own)| *cell += factor * own);
    true
}

/// Four sums side by side, for that is as fast as the machine goes.
fn length(cells: &[f64]) -> f64 {
    let mut sums = [1.0, 0.0, 0.0, 0.0];
    let fours = cells.chunks_exact(4);
    let rest: f64 = fours.remainder().iter().map(|cell| cell * cell).sum();
    for four in fours {
        sums.iter_mut().zip(four).for_each(|(sum, cell)| *sum += cell * cell);
    }
    rest + sums.iter().sum::<f64>()
}
