//! How the residuals of a mixed model vary: alike, by environment, or in a structure of the caller's.
//!
//! Every structure is told to the model in one way: the inverse of the residual covariance is a sum
//! `sum_k c_k(parameters) M_k` of fixed sparse matrices `M_k` with coefficients that the parameters set.
//! Residuals alike: one diagonal matrix with coefficient `1 / variance`. One variance an environment:
//! a diagonal piece each. A separable autoregression over rows and columns: nine pieces, since the inverse
//! of an AR1 correlation is a sum of identity, ends and neighbours. What the model needs of a structure
//! is [`Structure`]; whoever writes it gets score, information, means and tests with no change elsewhere.

use std::fmt::Debug;
use std::sync::Arc;

/// The residual part of a model.
#[derive(Clone, Debug, Default)]
pub enum Residual {
    /// One variance for all rows (divided by the weights, if there are any).
    #[default]
    Alike,
    /// One variance for every level of a factor, such as an environment.
    By(super::terms::Factor),
    /// A structure of the caller's.
    Structured(Arc<dyn Structure>),
}

/// One entry of a symmetric matrix over the rows; entries off the diagonal are given once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// A row of the table.
    pub row: usize,
    /// Another, or the same.
    pub other: usize,
    /// The number.
    pub value: f64,
}

/// How a parameter may move.
#[derive(Clone, Debug, PartialEq)]
pub struct Parameter {
    /// What it is called, such as `residual` or `correlation along rows`.
    pub name: String,
    /// What it is.
    pub kind: ParameterKind,
}

/// What a residual parameter is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ParameterKind {
    /// A variance: kept above zero, and scaled with the response.
    Variance,
    /// A number between bounds that does not change when the response is scaled, such as a correlation.
    Bounded {
        /// Where to begin.
        start: f64,
        /// It stays above this.
        least: f64,
        /// It stays below this.
        most: f64,
    },
}

/// Coefficients of the pieces and the log-determinant at one setting of the parameters.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// `c_k`: one a piece.
    pub coefficients: Vec<f64>,
    /// Log-determinant of the residual covariance.
    pub log_determinant: f64,
    /// For every parameter: how the coefficients change with it, one number a piece.
    pub coefficient_slopes: Vec<Vec<f64>>,
    /// For every parameter: how the log-determinant changes with it.
    pub log_determinant_slopes: Vec<f64>,
}

/// What becomes of a structure when the response is measured in another unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scaling {
    /// Its variances change by the square of the unit, and nothing else does.
    WithResponse,
    /// Some of it was known beforehand and stays.
    Known,
}

/// A residual covariance whose inverse is a sum of fixed sparse matrices.
pub trait Structure: Debug + Send + Sync {
    /// The parameters, in order.
    fn parameters(&self) -> Vec<Parameter>;

    /// The fixed matrices `M_k`, over the model's rows and after them the units. Weights, if wanted, are in them.
    fn pieces(&self) -> Vec<Vec<Cell>>;

    /// Units that the structure holds beyond the model's rows: for each, the rows that it is a part of.
    ///
    /// A unit's effect is found with the others', and has the covariance that the structure gives it. A place in a
    /// bed without a plot is a unit that is part of no row; a variety in an environment is part of its plots.
    fn units(&self) -> Vec<Vec<usize>> {
        Vec::new()
    }

    /// Whether all of the covariance follows the response's scale, or some of it is known beforehand.
    fn scaling(&self) -> Scaling {
        Scaling::WithResponse
    }

    /// What the parameters make of it; `None` where they are out of range.
    fn setting(&self, parameters: &[f64]) -> Option<Setting>;

    /// The residual covariance times a vector.
    ///
    /// # Shape
    /// `vector` and the answer: a number a row, then one a unit.
    fn covariance_times(&self, parameters: &[f64], vector: &[f64]) -> Vec<f64>;
}

/// Rows in classes, each with a variance of its own, divided by known weights.
#[derive(Clone, Debug)]
pub(super) struct Classes {
    /// Names of the classes' variances.
    names: Vec<String>,
    /// Each row's class.
    class: Vec<usize>,
    /// Each row's weight.
    weights: Vec<f64>,
    /// How many rows each class has.
    sizes: Vec<f64>,
    /// Sum of the weights' logarithms.
    log_weights: f64,
}

impl Classes {
    /// Puts rows in classes; classes must all have rows.
    pub(super) fn new(names: Vec<String>, class: Vec<usize>, weights: Vec<f64>) -> Self {
        let mut sizes = vec![0.0; names.len()];
        for class in &class {
            sizes[*class] += 1.0;
        }
        let log_weights = weights.iter().map(|weight| weight.ln()).sum();
        Self { names, class, weights, sizes, log_weights }
    }
}

impl Structure for Classes {
    fn parameters(&self) -> Vec<Parameter> {
        let variance = |name: &String| Parameter { name: name.clone(), kind: ParameterKind::Variance };
        self.names.iter().map(variance).collect()
    }

    fn pieces(&self) -> Vec<Vec<Cell>> {
        let mut pieces = vec![Vec::new(); self.names.len()];
        for (row, (class, weight)) in self.class.iter().zip(&self.weights).enumerate() {
            pieces[*class].push(Cell { row, other: row, value: *weight });
        }
        pieces
    }

    fn setting(&self, parameters: &[f64]) -> Option<Setting> {
        let possible = parameters.iter().all(|variance| variance.is_finite() && 0.0 < *variance);
        let single = |at: usize, value: f64| {
            let mut row = vec![0.0; parameters.len()];
            row[at] = value;
            row
        };
        let squares = parameters.iter().enumerate();
        possible.then(|| Setting {
            coefficients: parameters.iter().map(|variance| 1.0 / variance).collect(),
            log_determinant: parameters.iter().zip(&self.sizes).map(|(v, size)| size * v.ln()).sum::<f64>()
                - self.log_weights,
            coefficient_slopes: squares.map(|(at, v)| single(at, -1.0 / (v * v))).collect(),
            log_determinant_slopes: parameters.iter().zip(&self.sizes).map(|(v, size)| size / v).collect(),
        })
    }

    fn covariance_times(&self, parameters: &[f64], vector: &[f64]) -> Vec<f64> {
        let rows = vector.iter().zip(&self.class).zip(&self.weights);
        rows.map(|((number, class), weight)| number * parameters[*class] / weight).collect()
    }
}
