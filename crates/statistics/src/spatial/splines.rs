//! A smooth surface over the bed as random terms: two-dimensional P-splines, in five parts.
//!
//! Cubic B-splines `B` stand on equal segments of each axis; second differences between neighbours are punished.
//! With `D'D = U L U'` and its two zero eigenvalues left out, `Z = B U L^-1/2` has independent effects of one variance.
//! The surface is then, beside the fixed plane `1, r, c, r c` with `r` and `c` from 0 to 1,
//!
//! * a smooth trend along rows `Z_r` and one along columns `Z_c`;
//! * trends along rows that turn with the column `c Z_r`, and along columns that turn with the row `r Z_c`;
//! * a smooth interaction: products of `B_r U_r` and `B_c U_c`, each over the root of the sum of its two eigenvalues.
//!
//! Each part has a variance of its own, and its effective dimension says how much of the bed's unevenness it takes up.
//!
//! The third and fourth part turn about the first row and column, so a bed counted from its other end is not quite the same
//! model; rows and columns may change places.
//!
//! # Source
//! Rodriguez-Alvarez, Boer, van Eeuwijk and Eilers 2018, Spatial Statistics 23:52-71 (arXiv 1607.08255); the scaling of
//! the interaction from memory, unverified. Tests hold it to values worked out elsewhere.

use super::bed::{Bed, Place};
use crate::mixed::terms::Random;
use faer::{Mat, Side};

/// On how many equal segments the splines stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Segments {
    /// From the first row to the last.
    pub rows: usize,
    /// From the first column to the last.
    pub columns: usize,
}

/// The most segments that are chosen by themselves on one axis: the penalty makes more of them change little, and their
/// products cost time. Common practice, no source.
const MOST_SEGMENTS: usize = 12;
/// Fewest positions along an axis for a curve on it; with fewer, the plane says all that can be told.
const FEWEST_POSITIONS: usize = 4;

impl Segments {
    /// One segment for two positions on each axis, twelve at most.
    #[must_use]
    pub fn of(bed: &Bed) -> Self {
        let segments = |count: usize| (count / 2).clamp(1, MOST_SEGMENTS);
        Self { rows: segments(bed.row_count()), columns: segments(bed.column_count()) }
    }
}

/// The five parts, in the order in which they stand in a model.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A smooth trend from row to row.
    AlongRows,
    /// A smooth trend from column to column.
    AlongColumns,
    /// A smooth trend from row to row that turns steadily with the column.
    RowsTurning,
    /// A smooth trend from column to column that turns steadily with the row.
    ColumnsTurning,
    /// A smooth interaction of both.
    Both,
}

impl Part {
    /// All five.
    pub const ALL: [Self; 5] =
        [Self::AlongRows, Self::AlongColumns, Self::RowsTurning, Self::ColumnsTurning, Self::Both];

    /// What it is called in a model.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::AlongRows => "trend along rows",
            Self::AlongColumns => "trend along columns",
            Self::RowsTurning => "trend along rows x column",
            Self::ColumnsTurning => "trend along columns x row",
            Self::Both => "trend along rows and columns",
        }
    }
}

/// The columns of the five parts, at any place of a bed.
#[derive(Clone, Debug)]
pub(super) struct Surface {
    rows: Option<Axis>,
    columns: Option<Axis>,
}

/// Splines along one axis, turned so that the penalty is diagonal.
#[derive(Clone, Debug)]
struct Axis {
    segments: usize,
    /// Eigenvectors of the penalty, one a list.
    directions: Vec<Vec<f64>>,
    /// Their eigenvalues, all above zero.
    penalties: Vec<f64>,
}

impl Surface {
    /// Splines on a bed; an axis of few positions has none.
    pub(super) fn new(bed: &Bed, segments: Segments) -> Option<Self> {
        let axis = |positions: usize, segments: usize| {
            if positions < FEWEST_POSITIONS { Some(None) } else { Axis::new(segments.max(1)).map(Some) }
        };
        Some(Self {
            rows: axis(bed.row_count(), segments.rows)?,
            columns: axis(bed.column_count(), segments.columns)?,
        })
    }

    /// The parts that the bed has room for, as random terms over its plots.
    pub(super) fn terms(&self, bed: &Bed) -> Vec<Random> {
        let columns: Vec<[Vec<f64>; 5]> = bed.places().map(|place| self.at(bed, place)).collect();
        let term = |(number, part): (usize, Part)| {
            let count = columns.first().map_or(0, |parts| parts[number].len());
            let labels = (1..=count).map(|column| column.to_string()).collect();
            let row = |parts: &[Vec<f64>; 5]| parts[number].iter().copied().enumerate().collect();
            (0 < count).then(|| Random::given(part.name(), labels, columns.iter().map(row).collect()))
        };
        Part::ALL.into_iter().enumerate().filter_map(term).collect()
    }

    /// Columns of the five parts at a place.
    pub(super) fn at(&self, bed: &Bed, place: Place) -> [Vec<f64>; 5] {
        let (down, across) = (bed.down(place.row), bed.across(place.column));
        let rows = self.rows.as_ref().map_or_else(Vec::new, |axis| axis.at(down));
        let columns = self.columns.as_ref().map_or_else(Vec::new, |axis| axis.at(across));
        let scaled = |axis: &Option<Axis>, values: &[f64], by: f64| -> Vec<f64> {
            let penalties = axis.iter().flat_map(|axis| &axis.penalties);
            values.iter().zip(penalties).map(|(value, penalty)| by * value / penalty.sqrt()).collect()
        };
        let mut both = Vec::with_capacity(rows.len() * columns.len());
        if let (Some(row_axis), Some(column_axis)) = (&self.rows, &self.columns) {
            for (own, penalty) in rows.iter().zip(&row_axis.penalties) {
                let product = |(other, beside): (&f64, &f64)| own * other / (penalty + beside).sqrt();
                both.extend(columns.iter().zip(&column_axis.penalties).map(product));
            }
        }
        [
            scaled(&self.rows, &rows, 1.0),
            scaled(&self.columns, &columns, 1.0),
            scaled(&self.rows, &rows, across),
            scaled(&self.columns, &columns, down),
            both,
        ]
    }
}

impl Axis {
    fn new(segments: usize) -> Option<Self> {
        let count = segments + 3;
        // A row of second differences holds 1, -2, 1.
        let difference = |row: usize, column: usize| match column.checked_sub(row) {
            Some(0 | 2) => 1.0,
            Some(1) => -2.0,
            _ => 0.0,
        };
        let differences = Mat::from_fn(count - 2, count, difference);
        let penalty = differences.transpose() * &differences;
        let eigen = penalty.self_adjoint_eigen(Side::Lower).ok()?;
        // Eigenvalues rise; the first two are zero: a constant and a straight line go unpunished.
        let direction = |at: usize| (0..count).map(|row| eigen.U()[(row, at)]).collect();
        Some(Self {
            segments,
            directions: (2..count).map(direction).collect(),
            penalties: (2..count).map(|at| eigen.S()[at]).collect(),
        })
    }

    /// `B U` at a place from 0 to 1.
    fn at(&self, share: f64) -> Vec<f64> {
        let along = share * self.segments as f64;
        let bases: Vec<f64> = (0..self.segments + 3).map(|basis| bell(along + 3.0 - basis as f64)).collect();
        self.directions.iter().map(|own| own.iter().zip(&bases).map(|(a, b)| a * b).sum()).collect()
    }
}

/// The cubic B-spline on the knots 0, 1, 2, 3, 4.
fn bell(at: f64) -> f64 {
    let from_middle = (at - 2.0).abs();
    if from_middle < 1.0 {
        2.0 / 3.0 - from_middle * from_middle * (1.0 - from_middle / 2.0)
    } else {
        (2.0 - from_middle).max(0.0).powi(3) / 6.0
    }
}
