//! Neighbouring plots are alike: separable autoregression over rows and columns of a bed.
//!
//! Two plots `a` rows and `b` columns apart have the covariance `variance * along_rows^a * along_columns^b`. The inverse
//! of the whole bed's covariance is a product of two matrices that hold only neighbours, so that a bed of thousands
//! of places costs little; places without a plot are units of the structure.
//!
//! # Parameters
//! `variance (1 - along_rows^2) (1 - along_columns^2)`, what is new in each plot, and the inverse hyperbolic tangents of the
//! correlations: with those a correlation near one is found in as few steps as a small one.
//!
//! # Source
//! Cullis and Gleeson 1991, Biometrics 47:1449-1460; Gilmour, Cullis and Verbyla 1997, J. Agric. Biol. Environ. Stat.
//! 2:269-293 (both from memory, unverified; held by tests to fits of two published trials by dense matrices).

use super::bed::Bed;
use crate::mixed::residual::{Cell, Parameter, ParameterKind, Setting, Structure};

/// The inverse hyperbolic tangent beyond which a correlation is held: 0.99999, a walk without end.
const MOST: f64 = 6.1;

/// Separable autoregression over a bed.
#[derive(Clone, Debug)]
pub(super) struct Autoregression {
    rows: usize,
    columns: usize,
    /// For every place of the ground, its row in the table: plots first, then places without one.
    places: Vec<usize>,
    plots: usize,
    /// Where the correlations begin.
    start: f64,
}

/// One axis's share of the inverse at a correlation.
struct Line {
    correlation: f64,
    /// Coefficients of all places, inner places, and neighbours.
    shares: [f64; 3],
    /// Their slopes by the inverse hyperbolic tangent.
    slopes: [f64; 3],
}

impl Line {
    fn new(parameter: f64) -> Self {
        let correlation = parameter.tanh();
        let turn = 1.0 - correlation * correlation;
        Self {
            correlation,
            shares: [1.0, correlation * correlation, -correlation],
            slopes: [0.0, 2.0 * correlation * turn, -turn],
        }
    }

    /// `1 - correlation^2`.
    fn new_share(&self) -> f64 {
        1.0 - self.correlation * self.correlation
    }
}

impl Autoregression {
    /// Lays the structure over a bed; correlations are sought from `start`.
    pub(super) fn new(bed: &Bed, start: f64) -> Self {
        let (rows, columns) = (bed.row_count(), bed.column_count());
        let mut places = vec![usize::MAX; rows * columns];
        for (plot, place) in bed.places().enumerate() {
            places[bed.number(place)] = plot;
        }
        let empty = places.iter_mut().filter(|place| **place == usize::MAX);
        empty.zip(bed.plots()..).for_each(|(place, unit)| *place = unit);
        Self { rows, columns, places, plots: bed.plots(), start: start.atanh() }
    }

    /// Whether an axis has more than one position.
    fn axes(&self) -> [bool; 2] {
        [1 < self.rows, 1 < self.columns]
    }

    /// Both axes at the parameters; an axis of one position stands at a correlation of zero.
    fn lines(&self, parameters: &[f64]) -> Option<[Line; 2]> {
        let mut rest = parameters.get(1..)?.iter();
        let mut line = |is_there: bool| {
            let parameter = if is_there { *rest.next()? } else { 0.0 };
            parameter.is_finite().then(|| Line::new(parameter))
        };
        let [along_rows, along_columns] = self.axes();
        Some([line(along_rows)?, line(along_columns)?])
    }
}

/// Pairs of an axis's places: all with themselves, inner ones with themselves, and neighbours.
fn pairs(count: usize) -> [Vec<(usize, usize)>; 3] {
    let own = |at: usize| (at, at);
    let inner = 1..count.saturating_sub(1);
    [(0..count).map(own).collect(), inner.map(own).collect(), (1..count).map(|at| (at, at - 1)).collect()]
}

impl Structure for Autoregression {
    fn parameters(&self) -> Vec<Parameter> {
        let start = ParameterKind::Bounded { start: self.start, least: -MOST, most: MOST };
        let parameter = |name: &str, kind| Parameter { name: name.to_owned(), kind };
        let names = ["correlation along rows", "correlation along columns"];
        let lines = names.iter().zip(self.axes()).filter(|(_, is_there)| *is_there);
        let variance = parameter("new in each plot", ParameterKind::Variance);
        std::iter::once(variance).chain(lines.map(|(name, _)| parameter(name, start))).collect()
    }

    fn pieces(&self) -> Vec<Vec<Cell>> {
        let (rows, columns) = (pairs(self.rows), pairs(self.columns));
        let at = |row: usize, column: usize| self.places[row * self.columns + column];
        let mut pieces = Vec::with_capacity(9);
        for down in &rows {
            for across in &columns {
                let mut piece = Vec::with_capacity(2 * down.len() * across.len());
                for (row, other_row) in down {
                    for (column, other_column) in across {
                        piece.push(Cell {
                            row: at(*row, *column),
                            other: at(*other_row, *other_column),
                            value: 1.0,
                        });
                        // The product of two neighbour matrices also joins places on the other diagonal.
                        if row != other_row && column != other_column {
                            let (row, other) = (at(*row, *other_column), at(*other_row, *column));
                            piece.push(Cell { row, other, value: 1.0 });
                        }
                    }
                }
                pieces.push(piece);
            }
        }
        pieces
    }

    fn units(&self) -> Vec<Vec<usize>> {
        vec![Vec::new(); self.places.len() - self.plots]
    }

    fn setting(&self, parameters: &[f64]) -> Option<Setting> {
        let variance = *parameters.first()?;
        let [rows, columns] = self.lines(parameters)?;
        let of_lines = rows.new_share() * columns.new_share();
        if !(0.0 < variance && 0.0 < of_lines) {
            return None;
        }
        let products = |down: &[f64; 3], across: &[f64; 3]| -> Vec<f64> {
            down.iter().flat_map(|down| across.iter().map(move |across| down * across / variance)).collect()
        };
        let coefficients = products(&rows.shares, &columns.shares);
        let (down, across, places) = (self.rows as f64, self.columns as f64, self.places.len() as f64);
        let logs = across * rows.new_share().ln() + down * columns.new_share().ln();
        let slopes_of = [
            (products(&rows.slopes, &columns.shares), 2.0 * across * rows.correlation),
            (products(&rows.shares, &columns.slopes), 2.0 * down * columns.correlation),
        ];
        let own = (coefficients.iter().map(|own| -own / variance).collect(), places / variance);
        let lines = slopes_of.into_iter().zip(self.axes()).filter(|(_, is_there)| *is_there);
        let (coefficient_slopes, log_determinant_slopes) =
            std::iter::once(own).chain(lines.map(|(slopes, _)| slopes)).unzip();
        let log_determinant = places * variance.ln() - logs;
        Some(Setting { coefficients, log_determinant, coefficient_slopes, log_determinant_slopes })
    }

    fn covariance_times(&self, parameters: &[f64], vector: &[f64]) -> Vec<f64> {
        let Some([rows, columns]) = self.lines(parameters) else { return vec![f64::NAN; vector.len()] };
        let variance = parameters[0] / (rows.new_share() * columns.new_share());
        let mut ground: Vec<f64> = self.places.iter().map(|place| variance * vector[*place]).collect();
        for row in ground.chunks_mut(self.columns) {
            smooth(row, columns.correlation);
        }
        let mut line = vec![0.0; self.rows];
        for column in 0..self.columns {
            line.iter_mut().enumerate().for_each(|(row, own)| *own = ground[row * self.columns + column]);
            smooth(&mut line, rows.correlation);
            line.iter().enumerate().for_each(|(row, own)| ground[row * self.columns + column] = *own);
        }
        let mut product = vec![0.0; vector.len()];
        self.places.iter().zip(ground).for_each(|(place, own)| product[*place] = own);
        product
    }
}

/// A line times its matrix of correlations: what comes from before and what comes from behind, itself once.
fn smooth(line: &mut [f64], correlation: f64) {
    let mut behind = line.to_vec();
    for at in (0..line.len().saturating_sub(1)).rev() {
        behind[at] += correlation * behind[at + 1];
    }
    let mut before = 0.0;
    for (own, behind) in line.iter_mut().zip(behind) {
        let here = *own;
        before = here + correlation * before;
        *own = before + behind - here;
    }
}
