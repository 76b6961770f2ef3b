//! Where the plots lie: each in a row and a column of one bed.

use std::collections::BTreeMap;

/// Places of plots in a bed of rows and columns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bed {
    rows: Vec<u32>,
    columns: Vec<u32>,
    first: Place,
    last: Place,
}

/// A place in a bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Its row, counted as the caller counts.
    pub row: u32,
    /// Its column.
    pub column: u32,
}

/// Why places make no bed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BedFault {
    /// Lists of different lengths.
    #[error("{rows} plots have a row, but {columns} have a column")]
    Lengths {
        /// Plots with a row.
        rows: usize,
        /// Plots with a column.
        columns: usize,
    },
    /// No plot at all.
    #[error("the bed has no plot")]
    Empty,
    /// Two plots in one place.
    #[error("two plots lie in row {} and column {}", .0.row, .0.column)]
    Twice(Place),
    /// The bed stretches over far more places than it has plots.
    #[error(
        "the bed has {places} places but only {plots} plots; number its rows and columns without large gaps"
    )]
    TooSparse {
        /// Places between the first and last rows and columns.
        places: u64,
        /// Plots.
        plots: usize,
    },
}

/// The most places a plot: beyond this, rows or columns are numbered with gaps that are no ground.
const MOST_PLACES_A_PLOT: u64 = 50;

impl Bed {
    /// Lays plots in their rows and columns.
    ///
    /// # Shape
    /// `rows`, `columns`: one number a plot, in the order of the model's rows.
    ///
    /// # Errors
    /// [`BedFault`] where two plots share a place, or the lists differ.
    pub fn new(rows: Vec<u32>, columns: Vec<u32>) -> Result<Self, BedFault> {
        if rows.len() != columns.len() {
            return Err(BedFault::Lengths { rows: rows.len(), columns: columns.len() });
        }
        let ends = |numbers: &[u32]| Some((*numbers.iter().min()?, *numbers.iter().max()?));
        let (across, along) = ends(&rows).zip(ends(&columns)).ok_or(BedFault::Empty)?;
        let first = Place { row: across.0, column: along.0 };
        let last = Place { row: across.1, column: along.1 };
        let bed = Self { rows, columns, first, last };
        let places = (bed.row_count() as u64).saturating_mul(bed.column_count() as u64);
        if MOST_PLACES_A_PLOT * (bed.rows.len() as u64) < places {
            return Err(BedFault::TooSparse { places, plots: bed.rows.len() });
        }
        let mut seen = BTreeMap::new();
        let twice = bed.places().find(|place| seen.insert(*place, ()).is_some());
        match twice {
            Some(place) => Err(BedFault::Twice(place)),
            None => Ok(bed),
        }
    }

    /// How many plots.
    #[must_use]
    pub fn plots(&self) -> usize {
        self.rows.len()
    }

    /// Every plot's place.
    pub fn places(&self) -> impl Iterator<Item = Place> + '_ {
        self.rows.iter().zip(&self.columns).map(|(row, column)| Place { row: *row, column: *column })
    }

    /// Each plot's row.
    #[must_use]
    pub fn rows(&self) -> &[u32] {
        &self.rows
    }

    /// Each plot's column.
    #[must_use]
    pub fn columns(&self) -> &[u32] {
        &self.columns
    }

    /// The place with the smallest row and column.
    #[must_use]
    pub fn first(&self) -> Place {
        self.first
    }

    /// How many rows, empty ones between included.
    #[must_use]
    pub fn row_count(&self) -> usize {
        (self.last.row - self.first.row) as usize + 1
    }

    /// How many columns, empty ones between included.
    #[must_use]
    pub fn column_count(&self) -> usize {
        (self.last.column - self.first.column) as usize + 1
    }

    /// Every place of the bed, plot or not, column after column within a row.
    pub fn ground(&self) -> impl Iterator<Item = Place> + '_ {
        let columns = self.first.column..=self.last.column;
        (self.first.row..=self.last.row)
            .flat_map(move |row| columns.clone().map(move |column| Place { row, column }))
    }

    /// Number of a place in [`Bed::ground`].
    pub(super) fn number(&self, place: Place) -> usize {
        let down = (place.row - self.first.row) as usize;
        down * self.column_count() + (place.column - self.first.column) as usize
    }

    /// A row as a share of the way from the first to the last.
    pub(super) fn down(&self, row: u32) -> f64 {
        share(row - self.first.row, self.row_count())
    }

    /// A column as a share of the way from the first to the last.
    pub(super) fn across(&self, column: u32) -> f64 {
        share(column - self.first.column, self.column_count())
    }
}

fn share(from_first: u32, count: usize) -> f64 {
    f64::from(from_first) / (count - 1).max(1) as f64
}
