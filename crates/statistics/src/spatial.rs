//! Uneven ground: the trend of a bed beside the varieties, so that a plot on good soil is not taken for a good variety.
//!
//! A [`Trial`] is a mixed model whose rows are the plots of a [`bed::Bed`]. [`fit`] adds one of several
//! trends to it ([`Trend`]); [`choice::choose`] says which of them suits the plots best. A [`SpatialFit`] holds the mixed
//! model's fit, of which means, tests and predictions are asked as of any ([`crate::mixed`]), and says what the trend
//! is at every place of the bed ([`SpatialFit::ground`]), how much each of its parts takes up
//! ([`SpatialFit::parts`]), and how alike neighbours are ([`SpatialFit::neighbours`]). Whether anything is left over
//! that neighbours share, [`variogram`] shows.
//!
//! Missing plots need nothing: leave them out.

#![expect(clippy::indexing_slicing, reason = "matrices and lists of a length set a few lines above")]

pub mod bed;
pub mod choice;
pub mod ground;
pub mod splines;
pub mod variogram;

mod autoregression;

use crate::mixed::predictions::effective_dimension;
use crate::mixed::residual::Residual;
use crate::mixed::terms::{Covariate, Factor, Fixed, Random};
use crate::mixed::{Fit, Going, MixedFault, Model, Progress, units};
use crate::nested::Likelihood;
use autoregression::Autoregression;
use bed::Bed;
use splines::{Segments, Surface};
use std::sync::Arc;

/// A mixed model whose rows are the plots of a bed.
#[derive(Clone, Debug)]
pub struct Trial {
    /// The model without its trend: varieties, blocks. An autoregression takes the place of its residual.
    pub model: Model,
    /// Where its rows lie.
    pub bed: Bed,
    /// Whether a plane lies under the trend.
    pub plane: Plane,
}

/// Whether the model holds fixed slopes along rows, along columns and their product.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Plane {
    /// No slopes, but where the trend itself needs them.
    LeftOut,
    /// Slopes.
    Fixed,
}

/// What the ground may be like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trend {
    /// Alike everywhere, but for the plane.
    Level,
    /// Rows and columns that differ each by itself.
    RowsAndColumns,
    /// A smooth surface by two-dimensional P-splines over the plane, with rows and columns that differ each by itself.
    Splines(Segments),
    /// Neighbours that are alike: separable autoregression over rows and columns.
    Autoregression(Nugget),
}

/// Whether plots vary by themselves beside what they share with their neighbours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nugget {
    /// All that plots differ by is shared with neighbours more or less.
    LeftOut,
    /// Each plot has something of its own.
    Estimated,
}

/// A fitted trial.
#[derive(Debug)]
pub struct SpatialFit {
    /// The fit of the mixed model.
    pub fit: Fit,
    /// The trend that was fitted.
    pub trend: Trend,
    bed: Bed,
    surface: Option<Surface>,
}

/// Why a trial could not be fitted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SpatialFault {
    /// The bed has not as many plots as the model has rows.
    #[error("the bed has {plots} plots, but the model has {rows} rows")]
    Lengths {
        /// Plots of the bed.
        plots: usize,
        /// Rows of the model.
        rows: usize,
    },
    /// An autoregression is a residual of its own.
    #[error("neighbours that are alike cannot be joined with another residual or with weights")]
    OtherResidual,
    /// The curves could not be set up.
    #[error("the curves along the bed could not be set up")]
    NoCurves,
    /// The mixed model could not be fitted.
    #[error(transparent)]
    Mixed(#[from] MixedFault),
}

/// The plane's names in the model.
const DOWN: &str = "down the bed";
const ACROSS: &str = "across the bed";
/// Names of rows and columns as random terms.
const ROWS: &str = "row of the bed";
const COLUMNS: &str = "column of the bed";
/// Name of what each plot has of its own.
const OWN: &str = "plot by itself";
/// Correlation that the search begins at: neighbours in a bed are seldom less alike, and from here both ends are near.
/// Common practice, no source.
const START: f64 = 0.5;

/// Fits a trial with a trend.
///
/// `watch` hears of every step and may stop the search.
///
/// # Errors
/// [`SpatialFault`] where bed and model disagree, or the mixed model cannot be fitted. A part of the trend that the
/// plots do not need is no fault: its variance is zero.
pub fn fit(
    trial: &Trial,
    trend: Trend,
    likelihood: Likelihood,
    watch: &mut dyn FnMut(&Progress) -> Going,
) -> Result<SpatialFit, SpatialFault> {
    let (model, surface) = model(trial, trend)?;
    let fit = crate::mixed::fit(&model, likelihood, watch)?;
    Ok(SpatialFit { fit, trend, bed: trial.bed.clone(), surface })
}

/// The mixed model of a trial with a trend.
fn model(trial: &Trial, trend: Trend) -> Result<(Model, Option<Surface>), SpatialFault> {
    let (plots, rows) = (trial.bed.plots(), trial.model.response.len());
    if plots != rows {
        return Err(SpatialFault::Lengths { plots, rows });
    }
    let mut model = trial.model.clone();
    if trial.plane == Plane::Fixed || matches!(trend, Trend::Splines(_)) {
        model.fixed.extend(plane(&trial.bed));
    }
    let mut surface = None;
    match trend {
        Trend::Level => {}
        Trend::RowsAndColumns => model.random.extend(lines(&trial.bed)),
        Trend::Splines(segments) => {
            let splines = Surface::new(&trial.bed, segments).ok_or(SpatialFault::NoCurves)?;
            model.random.extend(lines(&trial.bed));
            model.random.extend(splines.terms(&trial.bed));
            surface = Some(splines);
        }
        Trend::Autoregression(nugget) => {
            if model.weights.is_some() || !matches!(model.residual, Residual::Alike) {
                return Err(SpatialFault::OtherResidual);
            }
            model.residual = Residual::Structured(Arc::new(Autoregression::new(&trial.bed, START)));
            model.random.extend((nugget == Nugget::Estimated).then(|| each_plot(plots)));
        }
    }
    Ok((model, surface))
}

/// Slopes along rows and columns and their product, from 0 at the first to 1 at the last.
fn plane(bed: &Bed) -> Vec<Fixed> {
    let down = bed.rows().iter().map(|row| bed.down(*row)).collect();
    let across = bed.columns().iter().map(|column| bed.across(*column)).collect();
    let down = Covariate { name: DOWN.to_owned(), values: down };
    let across = Covariate { name: ACROSS.to_owned(), values: across };
    let one = |covariate: &Covariate| Fixed::of([covariate.into()]);
    vec![one(&down), one(&across), Fixed::of([(&down).into(), (&across).into()])]
}

/// Rows and columns that differ each by itself.
fn lines(bed: &Bed) -> [Random; 2] {
    let factor = |name: &str, numbers: &[u32]| {
        let labels: Vec<String> = numbers.iter().map(u32::to_string).collect();
        Random::of([(&Factor::from_labels(name, &labels)).into()])
    };
    [factor(ROWS, bed.rows()), factor(COLUMNS, bed.columns())]
}

/// What each plot has of its own.
fn each_plot(plots: usize) -> Random {
    let labels = (1..=plots).map(|plot| plot.to_string()).collect();
    Random::given(OWN, labels, (0..plots).map(|plot| vec![(plot, 1.0)]).collect())
}

/// How much of the plots' differences one random term takes up.
#[derive(Clone, Debug, PartialEq)]
pub struct PartOfFit {
    /// The term.
    pub name: String,
    /// How many free effects its shrunken ones are worth.
    pub effective_dimension: f64,
}

/// How alike neighbours are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Neighbours {
    /// Between plots next to each other in neighbouring rows; `None` in a bed of one row.
    pub along_rows: Option<Correlation>,
    /// In neighbouring columns.
    pub along_columns: Option<Correlation>,
    /// Variance of what neighbours share.
    pub variance: f64,
    /// Variance of what each plot has of its own; `None` where it was left out.
    pub nugget: Option<f64>,
}

/// A correlation between neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correlation {
    /// Its value.
    pub value: f64,
    /// Its standard error, from the average information; `None` where it stands at its bound.
    pub standard_error: Option<f64>,
}

impl SpatialFit {
    /// The bed.
    #[must_use]
    pub fn bed(&self) -> &Bed {
        &self.bed
    }

    /// Effective dimension of every random term, the trend's parts among them.
    #[must_use]
    pub fn parts(&self) -> Vec<PartOfFit> {
        let part = |name: &String| {
            let effective_dimension = effective_dimension(&self.fit, name).ok()?;
            Some(PartOfFit { name: name.clone(), effective_dimension })
        };
        self.fit.components.iter().filter_map(|named| part(&named.name)).collect()
    }

    /// How alike neighbours are, where the trend is an autoregression.
    #[must_use]
    pub fn neighbours(&self) -> Option<Neighbours> {
        let Trend::Autoregression(_) = self.trend else { return None };
        let told = units::parameter_covariance(&self.fit);
        let standard_error = |parameter: usize| {
            let (free, covariance) = told.as_ref()?;
            let place = free.iter().position(|own| *own == parameter)?;
            Some(covariance[place][place].sqrt())
        };
        let (new, lines) = self.fit.residual.split_first()?;
        let mut variance = new.component.variance;
        let mut correlations = Vec::with_capacity(2);
        for (number, named) in lines.iter().enumerate() {
            let value = named.component.variance.tanh();
            let turn = 1.0 - value * value;
            variance /= turn;
            let standard_error = standard_error(number + 1).map(|own| turn * own);
            correlations.push(Correlation { value, standard_error });
        }
        let mut correlations = correlations.into_iter();
        let mut line = |count: usize| if 1 < count { correlations.next() } else { None };
        let nugget = self.fit.components.iter().find(|named| named.name == OWN);
        Some(Neighbours {
            along_rows: line(self.bed.row_count()),
            along_columns: line(self.bed.column_count()),
            variance,
            nugget: nugget.map(|named| named.component.variance),
        })
    }
}
