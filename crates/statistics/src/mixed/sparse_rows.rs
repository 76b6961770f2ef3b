//! A matrix kept row by row, zeros left out.

/// Rows of (column, number); columns of one row are in rising order.
#[derive(Clone, Debug, Default)]
pub(super) struct SparseRows {
    starts: Vec<usize>,
    columns: Vec<u32>,
    values: Vec<f64>,
}

impl SparseRows {
    /// A matrix with no rows yet.
    pub(super) fn with_room(rows: usize, entries: usize) -> Self {
        let mut starts = Vec::with_capacity(rows + 1);
        starts.push(0);
        Self { starts, columns: Vec::with_capacity(entries), values: Vec::with_capacity(entries) }
    }

    /// Adds one entry to the row that is being written.
    pub(super) fn add(&mut self, column: usize, value: f64) {
        self.columns.push(column as u32);
        self.values.push(value);
    }

    /// Closes the row that is being written.
    pub(super) fn end_row(&mut self) {
        self.starts.push(self.columns.len());
    }

    /// How many rows.
    pub(super) fn rows(&self) -> usize {
        self.starts.len() - 1
    }

    /// The columns and numbers of a row.
    pub(super) fn row(&self, row: usize) -> impl Iterator<Item = (usize, f64)> + Clone + '_ {
        let range = self.starts[row]..self.starts[row + 1];
        let columns = self.columns[range.clone()].iter().map(|column| *column as usize);
        columns.zip(self.values[range].iter().copied())
    }

    /// The matrix times a vector with one number a column.
    pub(super) fn times(&self, vector: &[f64]) -> Vec<f64> {
        (0..self.rows()).map(|row| self.row_times(row, vector)).collect()
    }

    /// One row times a vector.
    pub(super) fn row_times(&self, row: usize, vector: &[f64]) -> f64 {
        self.row(row).map(|(column, value)| value * vector[column]).sum()
    }

    /// The transposed matrix times a vector with one number a row.
    pub(super) fn transposed_times(&self, vector: &[f64], columns: usize) -> Vec<f64> {
        let mut sums = vec![0.0; columns];
        for (row, number) in vector.iter().enumerate().filter(|(_, number)| **number != 0.0) {
            for (column, value) in self.row(row) {
                sums[column] += value * number;
            }
        }
        sums
    }

    /// The matrix with rows and columns exchanged.
    pub(super) fn transposed(&self, columns: usize) -> Self {
        let mut starts = vec![0; columns + 1];
        for column in &self.columns {
            starts[*column as usize + 1] += 1;
        }
        for at in 0..columns {
            starts[at + 1] += starts[at];
        }
        let mut next = starts.clone();
        let mut turned =
            Self { starts, columns: vec![0; self.columns.len()], values: vec![0.0; self.columns.len()] };
        for row in 0..self.rows() {
            for (column, value) in self.row(row) {
                let place = next[column];
                turned.columns[place] = row as u32;
                turned.values[place] = value;
                next[column] += 1;
            }
        }
        turned
    }

    /// The part from a column on, renumbered from zero.
    pub(super) fn part_from(&self, first: usize) -> Self {
        let mut part = Self::with_room(self.rows(), self.columns.len());
        for row in 0..self.rows() {
            for (column, value) in self.row(row).filter(|(column, _)| first <= *column) {
                part.add(column - first, value);
            }
            part.end_row();
        }
        part
    }
}
