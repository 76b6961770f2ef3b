//! Linear mixed models with any fixed and random terms: trials over sites, seasons, blocks and beds.
//!
//! `y = X b + sum_i Z_i u_i + e` with `u_i ~ N(0, variance_i)` and `e ~ N(0, R)`. Fixed terms are products of
//! factors and covariates, random terms the same or columns of the caller's; they may cross and nest. Variances
//! are found by (restricted) maximum likelihood on sparse mixed-model equations: what is told of a model of
//! 40,000 plots and of one of 72 is the same code.
//!
//! Where to start: build [`terms::Factor`]s, put them in a [`Model`], call [`fit`]. Then ask the fit:
//!
//! * "What are the means, and how far do two differ by chance?" [`means`]
//! * "On how many degrees of freedom, and does this term matter?" [`satterthwaite`], [`kenward_roger`], [`tests`]
//! * "What is each variety worth, shrunk by its evidence?" [`predictions`], [`heritability`]
//! * "Which records move the result?" [`diagnostics`]
//!
//! # How a structured part plugs in
//! A residual structure (such as a separable autoregression) implements [`residual::Structure`]: its inverse
//! as fixed sparse pieces with coefficients, and their slopes. A structured random term (such as the blocks of
//! a two-dimensional spline) is given as columns by [`terms::Random::given`], scaled so that its effects
//! are independent with one variance. A structure may hold units beyond the rows, such as places of a bed without a
//! plot ([`residual::Structure::units`], [`units`]). Everything else here works on either unchanged.
//!
//! # Constants
//! The criterion is -2 times the log-likelihood with every constant, for the fixed columns in treatment
//! coding with aliased ones left out. Restricted criteria may be compared between models only where their
//! fixed parts are the same.
//!
//! # Source
//! Henderson's mixed-model equations; scaled effects `u = sqrt(variance) v`, for which a variance of zero is an
//! ordinary point (Bates, Maechler, Bolker and Walker 2015, J. Stat. Software 67(1)); average information
//! (Gilmour, Thompson and Cullis 1995, Biometrics 51:1440-1450); all from memory, unverified, and held by tests
//! to values worked out elsewhere.

#![expect(clippy::indexing_slicing, reason = "matrices and lists of a length set a few lines above")]

pub mod residual;
pub mod terms;

pub mod contrasts;
pub mod diagnostics;
pub mod heritability;
pub mod kenward_roger;
pub mod means;
pub mod predictions;
pub mod satterthwaite;
pub mod tests;

mod aliasing;
mod ascent;
pub(crate) mod cholesky;
mod dense;
mod equations;
mod fixed_design;
mod information;
mod look;
mod random_design;
pub(crate) mod selected;
mod sparse_rows;
pub mod units;

use crate::component::{Component, Standing};
use crate::nested::Likelihood;
use ascent::Summit;
use equations::Equations;
use fixed_design::FixedDesign;
use look::Point;
use random_design::RandomDesign;
use residual::Residual;
use terms::{Fixed, Random};

/// A model and its data.
///
/// # Shape
/// `response`, `weights` and every variable of a term: n rows.
#[derive(Clone, Debug)]
pub struct Model {
    /// What was measured.
    pub response: Vec<f64>,
    /// Known weights: a row of weight w has the residual variance divided by w.
    pub weights: Option<Vec<f64>>,
    /// Fixed terms in order; [`Fixed::intercept`] first if wanted.
    pub fixed: Vec<Fixed>,
    /// Random terms in order.
    pub random: Vec<Random>,
    /// How residuals vary.
    pub residual: Residual,
}

impl Model {
    /// A model with residuals all alike and no weights.
    #[must_use]
    pub fn new(response: Vec<f64>, fixed: Vec<Fixed>, random: Vec<Random>) -> Self {
        Self { response, weights: None, fixed, random, residual: Residual::Alike }
    }
}

/// A variance component or another parameter, with the name of its term.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// The term or parameter.
    pub name: String,
    /// Its value and what stands behind it. For a correlation, `variance` holds the correlation itself.
    pub component: Component,
}

/// One step of the search, for showing progress.
#[derive(Clone, Debug, PartialEq)]
pub struct Progress {
    /// How often the criterion has been worked out.
    pub evaluations: u32,
    /// The criterion there.
    pub criterion: f64,
    /// Gain that another full step promises; the search ends when it is next to nothing.
    pub gain: f64,
    /// The parameters: variances of the random terms, then those of the residual.
    pub parameters: Vec<f64>,
}

/// What whoever watches the search wants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Going {
    /// Carry on.
    On,
    /// Stop at once.
    Stop,
}

/// A fitted model.
#[derive(Debug)]
pub struct Fit {
    /// Variances of the random terms, in the model's order.
    pub components: Vec<Named>,
    /// Parameters of the residual.
    pub residual: Vec<Named>,
    /// -2 times the (restricted) log-likelihood, with all constants.
    pub criterion: f64,
    /// Which likelihood was made best.
    pub likelihood: Likelihood,
    /// The way there.
    pub history: Vec<Progress>,
    design: FixedDesign,
    random: RandomDesign,
    equations: Equations,
    point: Point,
    /// Parameters that are estimated and above zero.
    free: Vec<bool>,
}

/// Why a model could not be fitted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MixedFault {
    /// Lists of different lengths.
    #[error("the response has {rows} rows, but {name} has {other}")]
    Lengths {
        /// Rows of the response.
        rows: usize,
        /// What differs.
        name: String,
        /// Its rows.
        other: usize,
    },
    /// A number is not finite, or a weight not above zero.
    #[error("row {row} of {name} holds a number that cannot be used")]
    NotUsable {
        /// What holds it.
        name: String,
        /// The row, counted from 0.
        row: usize,
    },
    /// A random term's row names a column that it does not have.
    #[error("random term {name} has {columns} columns, but row {row} names another")]
    NoSuchColumn {
        /// The term.
        name: String,
        /// How many columns it has.
        columns: usize,
        /// The row, counted from 0.
        row: usize,
    },
    /// A level of the residual's factor has no row.
    #[error("{level} of {name} has no row, so its residual variance cannot be told")]
    EmptyLevel {
        /// The factor.
        name: String,
        /// The level.
        level: String,
    },
    /// The fixed terms have more columns than can be searched for aliased ones.
    #[error("the fixed terms have {columns} columns, some of them aliased; at most {most} can be searched")]
    TooManyColumns {
        /// Columns of the fixed terms.
        columns: usize,
        /// The most that are searched.
        most: usize,
    },
    /// No row is left over to judge spread by.
    #[error("{rows} rows leave nothing over after {columns} fixed columns")]
    TooFewRows {
        /// Rows given.
        rows: usize,
        /// Fixed columns that are not aliased.
        columns: usize,
    },
    /// The fixed terms fit every row exactly.
    #[error("the fixed terms fit every row exactly, so there is no spread to estimate")]
    NoSpread,
    /// The random terms take up all that the fixed ones leave.
    #[error("the random terms fit every row, so no residual variance is left: leave out the finest of them")]
    NoResidual,
    /// The optimum was not reached.
    #[error("the variance components were not found")]
    NotFound,
    /// Whoever watched said stop.
    #[error("the search was stopped")]
    Stopped,
}

/// Fits the model by (restricted) maximum likelihood.
///
/// `watch` hears of every step and may stop the search.
///
/// # Errors
/// [`MixedFault`] where lists disagree or nothing is left to estimate from. Aliased fixed columns, zero and
/// inseparable components are no fault: the answer names them.
///
/// # Examples
/// ```
/// use statistics::component::Standing;
/// use statistics::mixed::{Going, Model, fit, terms::{Factor, Fixed, Random}};
/// use statistics::nested::Likelihood;
///
/// // One-way analysis by hand: squares between pairs 34.09375 on 3 df, within 12.875 on 4.
/// let pair = Factor::from_labels("pair", &["a", "a", "b", "b", "c", "c", "d", "d"]);
/// let yields = vec![3.0, 4.5, 2.0, 6.5, 8.0, 7.0, 1.0, 2.5];
/// let model = Model::new(yields, vec![Fixed::intercept()], vec![Random::of([(&pair).into()])]);
/// let fit = fit(&model, Likelihood::Restricted, &mut |_| Going::On)?;
/// let (within, between) = (12.875 / 4.0, 34.09375 / 3.0);
/// assert!((fit.residual[0].component.variance - within).abs() < 1e-8);
/// assert!((fit.components[0].component.variance - (between - within) / 2.0).abs() < 1e-8);
/// # Ok::<(), statistics::mixed::MixedFault>(())
/// ```
pub fn fit(
    model: &Model,
    likelihood: Likelihood,
    watch: &mut dyn FnMut(&Progress) -> Going,
) -> Result<Fit, MixedFault> {
    let (design, random, equations) = prepare(model, likelihood)?;
    let summit = ascent::climb(&equations, watch)?;
    Ok(told(design, random, equations, summit))
}

/// Works out the criterion at given parameters: variances of the random terms, then those of the residual.
///
/// # Errors
/// [`MixedFault`] as [`fit`]; [`MixedFault::NotFound`] where the parameters are out of range.
pub fn criterion_at(model: &Model, likelihood: Likelihood, parameters: &[f64]) -> Result<f64, MixedFault> {
    let (_, _, equations) = prepare(model, likelihood)?;
    let given = equations.parameter_count() == parameters.len();
    let point = given.then(|| look::stand(&equations, parameters)).flatten();
    point.map(|point| point.criterion).ok_or(MixedFault::NotFound)
}

/// The model at given parameters: variances of the random terms, then those of the residual.
///
/// Means, predictions and tests may be asked of it as of a fit; the parameters count as known beforehand.
///
/// # Errors
/// [`MixedFault`] as [`criterion_at`].
pub fn known(model: &Model, likelihood: Likelihood, parameters: &[f64]) -> Result<Fit, MixedFault> {
    let (design, random, equations) = prepare(model, likelihood)?;
    let given = equations.parameter_count() == parameters.len();
    let point = given.then(|| look::stand(&equations, parameters)).flatten().ok_or(MixedFault::NotFound)?;
    let standing = Standing::FromPrior { standard_error: 0.0 };
    let component = |variance: &f64| Component { variance: *variance, standing };
    let components = parameters.iter().map(component).collect();
    let free = vec![false; parameters.len()];
    Ok(told(design, random, equations, Summit { point, components, free, history: Vec::new() }))
}

/// Codes the terms and sets up the equations.
fn prepare(
    model: &Model,
    likelihood: Likelihood,
) -> Result<(FixedDesign, RandomDesign, Equations), MixedFault> {
    let rows = model.response.len();
    equations::check(model)?;
    let design = FixedDesign::new(&model.fixed, rows, model.weights.as_deref())?;
    let random = RandomDesign::new(&model.random, rows)?;
    let equations = Equations::new(model, &design, &random, likelihood)?;
    Ok((design, random, equations))
}

/// Puts the answer in the caller's words.
fn told(design: FixedDesign, random: RandomDesign, equations: Equations, summit: Summit) -> Fit {
    let named =
        |(name, component): (&String, &Component)| Named { name: name.clone(), component: *component };
    let terms = random.names().len();
    let components = random.names().iter().zip(&summit.components).map(named).collect();
    let names = equations.residual_names();
    let residual = names.iter().zip(summit.components.iter().skip(terms)).map(named).collect();
    let Summit { point, free, history, .. } = summit;
    Fit {
        components,
        residual,
        criterion: point.criterion,
        likelihood: equations.likelihood(),
        history,
        design,
        random,
        equations,
        point,
        free,
    }
}
