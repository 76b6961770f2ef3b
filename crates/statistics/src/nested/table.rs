//! A nested model's rows gathered by their innermost groups, the fixed columns made orthonormal.
//!
//! Random groups only see the mean of each innermost group (a *cell*); what happens within cells enters
//! as one table of cross-products. So every later pass costs cells times columns squared, however many
//! rows there are. The response is kept as its distance from the plain least-squares fit, which keeps
//! sums small; [`Table::effects`] turns orthonormal coefficients back into the caller's.

#![expect(
    clippy::indexing_slicing,
    reason = "row and column numbers below the lengths that `Table::gather` has checked"
)]

use super::{Groups, Model, NestedFault};
use crate::climb::PerLevel;
use crate::matrix::{Square, dot};

/// One innermost group: how many rows, and the means of its columns, the response last.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    pub(super) inner: usize,
    pub(super) count: f64,
    pub(super) means: Vec<f64>,
}

/// An outer group and its cells.
#[derive(Clone, Debug)]
pub(super) struct Outer {
    pub(super) number: usize,
    pub(super) cells: Vec<Cell>,
}

/// The gathered rows.
#[derive(Clone, Debug)]
pub(super) struct Table {
    pub(super) outers: Vec<Outer>,
    /// Cross-products within cells of orthonormal columns and response (last).
    pub(super) within: Square,
    pub(super) rows: f64,
    /// Fixed columns.
    pub(super) columns: usize,
    /// The triangle that turns orthonormal coefficients into the caller's.
    triangle: Square,
    /// Coefficients of the plain least-squares fit, in orthonormal columns.
    plain: Vec<f64>,
}

/// The comparisons of one level.
#[derive(Clone, Copy, Debug)]
pub(super) struct Comparisons {
    /// How many.
    pub(super) degrees: f64,
    /// The response's sum of squares over them.
    pub(super) squares: f64,
    /// What of those squares may be rounding.
    pub(super) rounding: f64,
}

/// Part of an orthonormal column within groups below which the column counts as constant there.
const CONSTANT: f64 = 1e-10;
/// Share of a sum of squares that its elimination may leave as rounding.
const ELIMINATION: f64 = 1e-13;

impl Comparisons {
    /// What is left of `degrees` and of the response's squares after the fixed columns' parts within groups.
    fn within(products: &Square, degrees: f64) -> Self {
        let eliminated = products.eliminate(CONSTANT);
        let response = products.size() - 1;
        let rounding = ELIMINATION * products.at(response, response);
        Self { degrees: degrees - count(eliminated.rank), squares: eliminated.left, rounding }
    }

    /// Takes away the comparisons of the level below.
    fn less(self, below: Self) -> Self {
        Self {
            degrees: self.degrees - below.degrees,
            squares: self.squares - below.squares,
            rounding: self.rounding,
        }
    }
}

/// A column whose part independent of those before it is smaller than this share of it is aliased;
/// the usual tolerance of least-squares programs.
const ALIASED: f64 = 1e-7;

impl Table {
    /// Checks, orthonormalises and gathers a model's rows.
    pub(super) fn gather(model: &Model<'_>) -> Result<Self, NestedFault> {
        check(model)?;
        let (mut columns, triangle) = orthonormal(model.columns)?;
        let mut residual = model.response.to_vec();
        let plain = project_out(&mut residual, &columns);
        columns.push(residual);
        let (outers, within) = gather_cells(&columns, &model.groups);
        let rows = count(model.response.len());
        Ok(Self { outers, within, rows, columns: model.columns.len(), triangle, plain })
    }

    /// The caller's fixed effects from orthonormal coefficients of the residual.
    pub(super) fn effects(&self, coefficients: &[f64]) -> Vec<f64> {
        let whole: Vec<f64> = self.plain.iter().zip(coefficients).map(|(plain, more)| plain + more).collect();
        self.back(&whole)
    }

    /// The caller's covariances `T^-1 C T^-T` from those of orthonormal coefficients.
    pub(super) fn covariance(&self, orthonormal: &Square) -> Vec<Vec<f64>> {
        let half: Vec<Vec<f64>> = orthonormal.rows().iter().map(|row| self.back(row)).collect();
        let column = |at: usize| half.iter().map(|row| row[at]).collect::<Vec<f64>>();
        (0..self.columns).map(|at| self.back(&column(at))).collect()
    }

    /// `log |X'X|`, by which orthonormal columns differ from the caller's in the restricted criterion.
    pub(super) fn log_determinant(&self) -> f64 {
        (0..self.columns).map(|column| self.triangle.at(column, column).abs().ln()).sum::<f64>() * 2.0
    }

    /// Rows less fixed columns.
    pub(super) fn degrees(&self) -> f64 {
        self.rows - count(self.columns)
    }

    /// The response's sum of squares: what the plain least-squares fit leaves, and the whole.
    pub(super) fn squares(&self) -> (f64, f64) {
        let response = self.columns;
        let cells = self.outers.iter().flat_map(|outer| &outer.cells);
        let between: f64 = cells.map(|cell| cell.count * cell.means[response].powi(2)).sum();
        let left = self.within.at(response, response) + between;
        (left, left + dot(&self.plain, &self.plain))
    }

    /// Each level's comparisons, less what the fixed columns explain: outer groups, inner groups of one
    /// outer group, rows of one inner group.
    pub(super) fn comparisons(&self) -> PerLevel<Comparisons> {
        let cells: usize = self.outers.iter().map(|outer| outer.cells.len()).sum();
        let rows = Comparisons::within(&self.within, self.rows - count(cells));
        let inners = Comparisons::within(&self.within_outers(), self.rows - count(self.outers.len()));
        let (left, _) = self.squares();
        let all = Comparisons { degrees: self.degrees(), squares: left, ..rows };
        [all.less(inners), inners.less(rows), rows]
    }

    /// Cross-products within outer groups.
    fn within_outers(&self) -> Square {
        let mut products = self.within.clone();
        for outer in &self.outers {
            let rows: f64 = outer.cells.iter().map(|cell| cell.count).sum();
            let mean =
                |at: usize| outer.cells.iter().map(|cell| cell.count * cell.means[at]).sum::<f64>() / rows;
            let means: Vec<f64> = (0..=self.columns).map(mean).collect();
            for cell in &outer.cells {
                let apart: Vec<f64> = cell.means.iter().zip(&means).map(|(own, mean)| own - mean).collect();
                products.add_outer(cell.count, &apart, &apart);
            }
        }
        products
    }

    /// Solves `triangle x = right`, the triangle being upper.
    fn back(&self, right: &[f64]) -> Vec<f64> {
        let mut x = right.to_vec();
        for row in (0..x.len()).rev() {
            let later: f64 = (row + 1..x.len()).map(|k| self.triangle.at(row, k) * x[k]).sum();
            x[row] = (x[row] - later) / self.triangle.at(row, row);
        }
        x
    }
}

/// Equal lengths, finite numbers, rows to spare.
fn check(model: &Model<'_>) -> Result<(), NestedFault> {
    let rows = model.response.len();
    let (outer, inner) = match model.groups {
        Groups::Outer(outer) => (outer.len(), rows),
        Groups::InnerInOuter { outer, inner } => (outer.len(), inner.len()),
    };
    let lengths = model.columns.iter().map(Vec::len).chain([outer, inner]);
    if let Some(other) = lengths.into_iter().find(|length| *length != rows) {
        return Err(NestedFault::Lengths { rows, other });
    }
    let lists = std::iter::once(model.response).chain(model.columns.iter().map(Vec::as_slice));
    if let Some(row) = lists.filter_map(|list| list.iter().position(|value| !value.is_finite())).min() {
        return Err(NestedFault::NotFinite { row });
    }
    let columns = model.columns.len();
    if rows <= columns { Err(NestedFault::TooFewRows { rows, columns }) } else { Ok(()) }
}

/// Orthonormal columns and the upper triangle with `X = Q T` (Gram and Schmidt, each column twice).
fn orthonormal(columns: &[Vec<f64>]) -> Result<(Vec<Vec<f64>>, Square), NestedFault> {
    let mut made: Vec<Vec<f64>> = Vec::with_capacity(columns.len());
    let mut triangle = Square::zero(columns.len());
    for (number, column) in columns.iter().enumerate() {
        let mut rest = column.clone();
        let taken = project_out(&mut rest, &made);
        taken.iter().enumerate().for_each(|(row, part)| triangle.add(row, number, *part));
        let length = dot(&rest, &rest).sqrt();
        if length <= ALIASED * dot(column, column).sqrt() {
            return Err(NestedFault::Aliased { column: number });
        }
        rest.iter_mut().for_each(|value| *value /= length);
        triangle.add(number, number, length);
        made.push(rest);
    }
    Ok((made, triangle))
}

/// Takes orthonormal columns out of a vector, twice so that roundings go too, and gives its coefficients.
fn project_out(vector: &mut [f64], columns: &[Vec<f64>]) -> Vec<f64> {
    let mut coefficients = vec![0.0; columns.len()];
    for _ in 0..2 {
        for (column, coefficient) in columns.iter().zip(&mut coefficients) {
            let part = dot(vector, column);
            vector.iter_mut().zip(column).for_each(|(value, x)| *value -= part * x);
            *coefficient += part;
        }
    }
    coefficients
}

/// Sorts rows into outer groups and cells and works out means and within-cell cross-products.
fn gather_cells(columns: &[Vec<f64>], groups: &Groups<'_>) -> (Vec<Outer>, Square) {
    let mut places: Vec<(usize, usize, usize)> = match *groups {
        // A single level is its own innermost group: the cells are the groups themselves.
        Groups::Outer(outer) => outer.iter().enumerate().map(|(row, outer)| (*outer, *outer, row)).collect(),
        Groups::InnerInOuter { outer, inner } => {
            outer.iter().zip(inner).enumerate().map(|(row, (outer, inner))| (*outer, *inner, row)).collect()
        }
    };
    places.sort_unstable();
    let mut within = Square::zero(columns.len());
    let outers = places.chunk_by(|a, b| a.0 == b.0).map(|of_outer| Outer {
        number: of_outer[0].0,
        cells: of_outer
            .chunk_by(|a, b| a.1 == b.1)
            .map(|rows| gather_cell(rows, columns, &mut within))
            .collect(),
    });
    (outers.collect(), within)
}

fn gather_cell(rows: &[(usize, usize, usize)], columns: &[Vec<f64>], within: &mut Square) -> Cell {
    let count = count(rows.len());
    let mean = |column: &Vec<f64>| rows.iter().map(|(.., row)| column[*row]).sum::<f64>() / count;
    let means: Vec<f64> = columns.iter().map(mean).collect();
    if 1 < rows.len() {
        for (.., row) in rows {
            let apart: Vec<f64> =
                columns.iter().zip(&means).map(|(column, mean)| column[*row] - mean).collect();
            within.add_outer(1.0, &apart, &apart);
        }
    }
    Cell { inner: rows[0].1, count, means }
}

#[expect(clippy::cast_precision_loss, reason = "no table in memory has 2^52 rows")]
fn count(rows: usize) -> f64 {
    rows as f64
}
