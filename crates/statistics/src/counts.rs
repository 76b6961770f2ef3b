//! Models for counts and for shares of a number looked at: fruit a plant, cracked of picked, sprouted of sown.
//!
//! `g(mean) = offset + X b + sum_k Z_k u_k`, `u_k ~ N(0, spread_k^2)`: the mean of each row on a log scale
//! (counts) or a log-odds scale (shares), fixed columns X and any number of crossed or nested groupings. Without
//! groupings it is an ordinary generalised linear model. Start at [`fit`], then ask
//! [`predict`](CountFit::predict).
//!
//! The likelihood has no closed form with groupings; Laplace's approximation replaces what is integrated
//! out by a normal curve at its top. It is good where groups hold many fruits and too sure of itself
//! where each holds a few seeds of a rare kind (then the spread between groups comes out a little small).
//!
//! Both the deviance and its slopes are exact (no differences are taken on the way), and the search stops on
//! the slopes. A cell where nothing or everything was seen has no finite log-odds: it is told by
//! [`Note::Separated`], and its estimate is merely far out.
//!
//! # Source
//! Breslow and Clayton 1993, J. Am. Stat. Assoc. 88:9-25, and Bates, Maechler, Bolker and Walker 2015, J. Stat.
//! Software 67(1) for effects scaled by their spread (citations from memory, unverified). Curvature in
//! the approximation is the observed one, which for negative binomial counts differs from the expected one.

#![expect(clippy::indexing_slicing, reason = "lists of lengths that `Checked` has verified")]

mod checked;
mod curvature;
mod family;
mod groups;
mod modes;
mod outcome;
mod plain;
mod prediction;
mod search;

pub use prediction::Prediction;

use crate::component::Component;
use crate::nested::Effect;
use checked::Checked;

/// What was counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Family<'a> {
    /// Counts that vary as rare events do: variance equal to the mean. Log scale.
    Poisson,
    /// Counts that vary more: variance `mean + mean^2 / shape`, with the shape estimated. Log scale.
    NegativeBinomial,
    /// So many of `looked_at`, one number a row. Log-odds scale.
    Binomial {
        /// How many were looked at in each row.
        looked_at: &'a [u32],
    },
}

/// A model and its data.
///
/// # Shape
/// Every list: n rows.
#[derive(Clone, Copy, Debug)]
pub struct Model<'a> {
    /// What was counted.
    pub family: Family<'a>,
    /// The counts.
    pub seen: &'a [u32],
    /// Fixed columns, an intercept among them if wanted.
    pub columns: &'a [Vec<f64>],
    /// Groupings whose groups differ by chance; equal numbers mean the same group.
    pub groups: &'a [Vec<usize>],
    /// Known parts of the mean on the model's scale, such as the logarithm of an area.
    pub offset: Option<&'a [f64]>,
    /// How often each row counts.
    pub weights: Option<&'a [f64]>,
}

/// A fitted model.
#[derive(Clone, Debug, PartialEq)]
pub struct CountFit {
    /// Fixed effects on the model's scale, in the order of the columns.
    pub fixed: Vec<Effect>,
    /// Their covariances: row i, column j.
    pub fixed_covariance: Vec<Vec<f64>>,
    /// Variance between groups of each grouping, on the model's scale.
    pub between: Vec<Component>,
    /// Each grouping's groups: predicted effect and its error, fixed effects and spreads taken as known.
    pub group_effects: Vec<Vec<Effect>>,
    /// Shape of negative binomial counts.
    pub shape: Option<Shape>,
    /// Log-likelihood, all constants included; Laplace's approximation where there are groupings.
    pub log_likelihood: f64,
    /// Twice the log-likelihood that a mean of its own for each row would add, groups at their predictions.
    pub deviance: f64,
    /// Fitted means: counts, or shares of what was looked at.
    pub means: Vec<f64>,
    /// Whether rows scatter more than the family lets them.
    pub scatter: Scatter,
    /// What a reader should know.
    pub notes: Vec<Note>,
    /// How often the likelihood was worked out.
    pub evaluations: u32,
    scale: family::Scale,
}

/// Shape of negative binomial counts: the larger, the more they are like Poisson counts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Counts scatter more than Poisson counts.
    Estimated(Effect),
    /// They do not: the fit is the Poisson one.
    Endless,
}

/// Pearson's measure of scatter: about 1 for each degree of freedom where the family fits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scatter {
    /// Sum of squared residuals over their variances.
    pub chi_square: f64,
    /// Rows less estimated numbers.
    pub degrees: u32,
}

impl Scatter {
    /// How many times more than the family lets them rows scatter; `None` where no row is left over.
    #[must_use]
    pub fn ratio(self) -> Option<f64> {
        (0 < self.degrees).then(|| self.chi_square / f64::from(self.degrees))
    }
}

/// What a reader of a fit should know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Note {
    /// The fixed columns tell that nothing, or everything, is seen in these rows: their effects have no finite
    /// best value, and their errors are large.
    Separated {
        /// The rows, counted from 0.
        rows: Vec<usize>,
    },
    /// Standard errors do not allow for the spreads having been estimated: the likelihood is too flat for that.
    SpreadsTakenAsKnown,
    /// The search ended before the slopes vanished.
    NotAtTheTop,
}

/// Why a model could not be fitted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CountFault {
    /// No data.
    #[error("there are no rows to fit")]
    Empty,
    /// Lists of different lengths.
    #[error("there are {rows} counts, but a column, grouping, offset or weight list has {other} rows")]
    Lengths {
        /// Counts given.
        rows: usize,
        /// Rows of the list that differs.
        other: usize,
    },
    /// A number is not finite, or a weight is negative.
    #[error("row {row} (counted from 0) holds a number that is not finite, or a weight below 0")]
    NotFinite {
        /// The row.
        row: usize,
    },
    /// More was seen than looked at.
    #[error("row {row} (counted from 0) says that more was seen than looked at")]
    MoreThanLookedAt {
        /// The row.
        row: usize,
    },
    /// A column is a combination of those before it.
    #[error("fixed column {column} (counted from 0) is a combination of those before it")]
    Aliased {
        /// The column.
        column: usize,
    },
    /// The model could not be started or its factor not be held.
    #[error("the model's likelihood could not be worked out")]
    NotFound,
}

/// Fits a model by maximum likelihood, Laplace's approximation of it where there are groupings.
///
/// # Errors
/// [`CountFault`] where lists do not fit together, a number cannot be used or a fixed column is aliased.
pub fn fit(model: &Model<'_>) -> Result<CountFit, CountFault> {
    let checked = Checked::new(model)?;
    match model.family {
        Family::NegativeBinomial => search::with_shape(&checked),
        _ => search::without_shape(&checked, family::Law::of(model.family)),
    }
}
