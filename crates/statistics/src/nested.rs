//! Mixed models with one random level, or one inside another: blocks, and plots within blocks.
//!
//! `y = X b + outer group + inner group within it + residual`, with any sizes of group and a few
//! fixed-effect columns. Start at [`fit`]. Crossed random effects are not for this file.

mod effects;
mod table;
mod terms;

use crate::climb::{Ground, LEVELS, PerLevel, Summit, climb};
use crate::component::{Component, Standing, Why};
use crate::levels::left_out;
use table::Table;
use terms::{Solution, slope, solve};

/// The random groups of each row; equal numbers mean the same group.
#[derive(Clone, Copy, Debug)]
pub enum Groups<'a> {
    /// One level, such as blocks.
    Outer(&'a [usize]),
    /// One level inside another, such as plots within blocks. Inner numbers count within their outer group.
    InnerInOuter {
        /// The outer group of each row.
        outer: &'a [usize],
        /// The inner group of each row.
        inner: &'a [usize],
    },
}

impl Groups<'_> {
    /// Whether there is a level inside the outer one.
    fn have_inner(&self) -> bool {
        matches!(self, Self::InnerInOuter { .. })
    }
}

/// What to make best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Likelihood {
    /// Restricted: for components and for means. Never compares models with different fixed columns.
    Restricted,
    /// Full: for comparing fixed parts.
    Full,
}

/// A model and its data.
///
/// # Shape
/// `response` and every group list: n rows. `columns`: p fixed-effect columns of n numbers each.
#[derive(Clone, Copy, Debug)]
pub struct Model<'a> {
    /// What was measured.
    pub response: &'a [f64],
    /// Fixed-effect columns, an intercept among them if wanted.
    pub columns: &'a [Vec<f64>],
    /// Random groups.
    pub groups: Groups<'a>,
}

/// An estimate and its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effect {
    /// The estimate (fixed effects) or prediction (random ones).
    pub estimate: f64,
    /// Standard error of the estimate, or root of the prediction error variance; components taken as known.
    pub standard_error: f64,
}

/// The predicted effect of one random group.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GroupEffect {
    /// The outer group's number.
    pub outer: usize,
    /// The inner group's number, for inner effects.
    pub inner: Option<usize>,
    /// Its prediction (BLUP).
    pub effect: Effect,
}

/// A fitted model.
#[derive(Clone, Debug, PartialEq)]
pub struct NestedFit {
    /// Between outer groups.
    pub outer: Component,
    /// Between inner groups of one outer group, if the model has them.
    pub inner: Option<Component>,
    /// Within the innermost groups.
    pub residual: Component,
    /// -2 times the (restricted) log-likelihood, with all constants.
    pub criterion: f64,
    /// Fixed effects in the order of the columns.
    pub fixed: Vec<Effect>,
    /// Their covariances: row i, column j.
    pub fixed_covariance: Vec<Vec<f64>>,
    /// Outer groups' effects, in order of their numbers.
    pub outer_effects: Vec<GroupEffect>,
    /// Inner groups' effects, in order of outer, then inner numbers.
    pub inner_effects: Vec<GroupEffect>,
    /// How many times the criterion was worked out.
    pub evaluations: u32,
}

/// Why a model could not be fitted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NestedFault {
    /// Lists of different lengths.
    #[error("the response has {rows} rows, but a column or group list has {other}")]
    Lengths {
        /// Rows of the response.
        rows: usize,
        /// Rows of the list that differs.
        other: usize,
    },
    /// A number is not finite.
    #[error("row {row} holds a number that is not finite")]
    NotFinite {
        /// The row, counted from 0.
        row: usize,
    },
    /// A column is a combination of those before it.
    #[error("fixed column {column} is a combination of those before it")]
    Aliased {
        /// The column, counted from 0.
        column: usize,
    },
    /// No row is left over to judge spread by.
    #[error("{rows} rows leave nothing over after {columns} fixed columns")]
    TooFewRows {
        /// Rows given.
        rows: usize,
        /// Fixed columns given.
        columns: usize,
    },
    /// The fixed columns, or the groups, fit every row exactly.
    #[error("the model fits every row exactly, so there is no spread to estimate")]
    NoSpread,
    /// The optimum was not reached.
    #[error("the variance components were not found")]
    NotFound,
}

/// Fits the model by (restricted) maximum likelihood.
///
/// # Errors
/// [`NestedFault`] where the lists disagree, a column is aliased, or nothing is left to estimate from.
pub fn fit(model: &Model<'_>, likelihood: Likelihood) -> Result<NestedFit, NestedFault> {
    let table = Table::gather(model)?;
    let (ground, left_out) = plan(&table)?;
    let look =
        |variances: &PerLevel<f64>| solve(&table, variances).and_then(|found| slope(&found, likelihood));
    let top = climb(&ground, look).ok_or(NestedFault::NotFound)?;
    let solution = solve(&table, &top.variances).ok_or(NestedFault::NotFound)?;
    Ok(told(&table, &solution, &top, &left_out, model, likelihood))
}

/// Puts the answer in the caller's words.
fn told(
    table: &Table,
    solution: &Solution<'_>,
    top: &Summit,
    left_out: &PerLevel<Option<Why>>,
    model: &Model<'_>,
    likelihood: Likelihood,
) -> NestedFit {
    let [outer, inner, residual] = components(top, left_out);
    let has_inner = model.groups.have_inner();
    let fixed_covariance = table.covariance(&solution.factor.inverse());
    let errors =
        fixed_covariance.iter().enumerate().filter_map(|(at, row)| row.get(at)).map(|cell| cell.sqrt());
    let effects = table.effects(&solution.coefficients).into_iter().zip(errors);
    let fixed = effects.map(|(estimate, standard_error)| Effect { estimate, standard_error }).collect();
    NestedFit {
        outer,
        inner: has_inner.then_some(inner),
        residual,
        criterion: solution.criterion(likelihood),
        fixed,
        fixed_covariance,
        outer_effects: effects::outer_effects(solution),
        inner_effects: if has_inner { effects::inner_effects(solution) } else { Vec::new() },
        evaluations: top.evaluations,
    }
}

/// Says of each level what stands behind its variance.
fn components(top: &Summit, left_out: &PerLevel<Option<Why>>) -> PerLevel<Component> {
    let mut levels = top.variances.iter().zip(&top.standard_errors).zip(left_out);
    [(); LEVELS].map(|()| match levels.next() {
        Some(((variance, Some(standard_error)), None)) => Component {
            variance: *variance,
            standing: Standing::Estimated { standard_error: *standard_error },
        },
        Some(((_, None), None)) => Component { variance: 0.0, standing: Standing::AtZero },
        Some((_, Some(why))) => Component::untold(*why),
        None => Component::untold(Why::NothingToCompare),
    })
}

/// Which levels may move, and where they begin: the plain residual variance shared among them.
fn plan(table: &Table) -> Result<(Ground, PerLevel<Option<Why>>), NestedFault> {
    let comparisons = table.comparisons();
    let priors = [None; LEVELS];
    let compared = comparisons.map(|level| HALF < level.degrees);
    let left_out = left_out(&compared, &priors).ok_or(NestedFault::NoSpread)?;
    let (left, whole) = table.squares();
    // The innermost level that can be compared is what the residual variance rests on.
    let innermost = comparisons.iter().rev().find(|level| HALF < level.degrees);
    if innermost.is_none_or(|level| level.squares <= level.rounding.max(ROUNDING * whole)) {
        return Err(NestedFault::NoSpread);
    }
    let free = left_out.map(|why| why.is_none());
    let levels: f64 = free.iter().map(|free| f64::from(u8::from(*free))).sum();
    let start = free.map(|free| if free { left / (table.degrees() * levels) } else { 0.0 });
    Ok((Ground { start, free, priors }, left_out))
}

/// Degrees of freedom are whole numbers kept as floating ones.
const HALF: f64 = 0.5;
/// Share of the response's sum of squares below which what is left is rounding.
const ROUNDING: f64 = 1e-24;
