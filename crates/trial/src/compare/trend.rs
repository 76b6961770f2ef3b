//! The ground beside the blocks: whether a trend along and across the bed says more of the plots than blocks alone.
//!
//! Blocks are guesses at where the ground changes, made before anything grew. Where every plot's place is known, trends
//! are fitted over a plane beside the blocks ([`statistics::spatial`]), and the best of them is held against the blocks
//! alone. Restricted likelihoods may not be compared across fixed parts, and the plane is fixed, so that last step is by
//! full likelihood. Start at [`better`].

use super::Observed;
use super::model::{Terms, Watch};
use statistics::mixed::tests::akaike;
use statistics::mixed::{self, Fit, Going, MixedFault, Model, Progress};
use statistics::nested::Likelihood;
use statistics::spatial::bed::Bed;
use statistics::spatial::choice::{choose, usual};
use statistics::spatial::{self, Plane, SpatialFault, SpatialFit, Trend, Trial};
use std::ops::ControlFlow;

/// Fewest plots for which trends are tried: with fewer, a surface follows single plots. Common practice, no source.
const FEWEST_PLOTS: usize = 30;

/// Fewest plots for which a surface is tried. Of 63 made trials of 40 plots for which one was chosen, all intervals held
/// together in 48 only; see `tests/comparisons/coverage.rs` for how they were made.
const FEWEST_FOR_A_SURFACE: usize = 100;

/// How much smaller Akaike's criterion must be with a trend than without. Source: Burnham and Anderson, Model Selection
/// and Multimodel Inference (2002), section 2.6: within 2 both have substantial support (from memory, unverified).
const BETTER_BY: f64 = 2.0;

/// What the ground under the plots was taken for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ground {
    /// Blocks and replicates, as the layout has them.
    Blocks,
    /// Nothing: no blocks are known.
    Alike,
    /// A trend beside the blocks, and how much better that is by Akaike's criterion.
    Trend(TrendKind, f64),
}

/// A trend of the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrendKind {
    /// A slope along the rows, one across, and their twist.
    Plane,
    /// A slope, with rows and columns that differ each by itself.
    RowsAndColumns,
    /// A smooth surface, with rows and columns that differ each by itself.
    Surface,
}

impl Ground {
    /// What that means, in a sentence without its full stop.
    #[must_use]
    pub fn told(self) -> String {
        let (kind, by) = match self {
            Self::Alike => {
                return "no blocks are known, so better and worse ground counts as chance".to_owned();
            }
            Self::Blocks => return "the ground is taken to differ by the blocks of the layout".to_owned(),
            Self::Trend(kind, by) => (kind, by),
        };
        let words = match kind {
            TrendKind::Plane => "a slope along the rows and across them",
            TrendKind::RowsAndColumns => "a slope, with rows and columns that differ each by itself",
            TrendKind::Surface => "a smooth surface, with rows and columns that differ each by itself",
        };
        format!(
            "the ground is taken for {words}, which suits the plots better than blocks alone (Akaike's criterion {by:.0} smaller)"
        )
    }
}

/// A trend that suits the plots better than blocks alone.
pub(super) struct Found {
    pub(super) fit: SpatialFit,
    pub(super) kind: TrendKind,
    /// How much smaller Akaike's criterion is.
    pub(super) by: f64,
}

/// The best trend beside the terms of `plain`, where it is better than none; `None` too where plots have no places, lie
/// in several gardens or seasons, or are few.
///
/// # Errors
/// [`MixedFault::Stopped`] where whoever watched said stop; what keeps the plain model itself from a fit by full
/// likelihood. A trend that cannot be fitted is passed over.
pub(super) fn better(
    plots: &[Observed],
    terms: &Terms,
    plain: Model,
    watch: Watch<'_>,
) -> Result<Option<Found>, MixedFault> {
    let Some(bed) = bed(plots, terms) else { return Ok(None) };
    let (fixed, random) = terms.under_a_trend(&plain.random);
    let model = Model { fixed, random, ..plain.clone() };
    let trial = Trial { model, bed, plane: Plane::Fixed };
    let mut going = |progress: &Progress| match watch(progress.evaluations) {
        ControlFlow::Continue(()) => Going::On,
        ControlFlow::Break(()) => Going::Stop,
    };
    let trends = worth_trying(&trial);
    let best = choose(&trial, &trends, &mut |_, progress| going(progress))?.into_iter().next();
    let Some(fit) = best.and_then(|candidate| Some(candidate.outcome.ok()?.0)) else { return Ok(None) };
    let without = akaike(&mixed::fit(&plain, Likelihood::Full, &mut going)?);
    let with = match spatial::fit(&trial, fit.trend, Likelihood::Full, &mut going) {
        Ok(full) => akaike(&full.fit),
        Err(SpatialFault::Mixed(MixedFault::Stopped)) => return Err(MixedFault::Stopped),
        Err(_) => return Ok(None),
    };
    let by = without - with;
    let kind = kind(fit.trend);
    Ok(kind.filter(|_| BETTER_BY <= by).map(|kind| Found { fit, kind, by }))
}

/// Trends whose intervals hold what they promise in a trial of this size.
///
/// A surface of its own takes [`FEWEST_FOR_A_SURFACE`] plots. Neighbours that are alike are left out whatever the size: no
/// adjustment of standard errors is known for them (Kenward and Roger's is for variances), and of 73 made trials of 40
/// plots for which they were chosen, all intervals held together in 55.
fn worth_trying(trial: &Trial) -> Vec<Trend> {
    let fits = |trend: &Trend| match trend {
        Trend::Level | Trend::RowsAndColumns => true,
        Trend::Splines(_) => FEWEST_FOR_A_SURFACE <= trial.bed.plots(),
        Trend::Autoregression(_) => false,
    };
    usual(trial).into_iter().filter(fits).collect()
}

/// The same trend in a model whose varieties are drawn at random, as heritability asks for.
pub(super) fn with_varieties_drawn(found: &Found, model: Model) -> Option<Fit> {
    let trial = Trial { model, bed: found.fit.bed().clone(), plane: Plane::Fixed };
    let fitted = spatial::fit(&trial, found.fit.trend, Likelihood::Restricted, &mut |_| Going::On);
    fitted.ok().map(|fitted| fitted.fit)
}

fn kind(trend: Trend) -> Option<TrendKind> {
    match trend {
        Trend::Level => Some(TrendKind::Plane),
        Trend::RowsAndColumns => Some(TrendKind::RowsAndColumns),
        Trend::Splines(_) => Some(TrendKind::Surface),
        Trend::Autoregression(_) => None,
    }
}

/// Where the plots lie, if all in one garden and each in a place of its own.
fn bed(plots: &[Observed], terms: &Terms) -> Option<Bed> {
    if plots.len() < FEWEST_PLOTS || terms.has_several_environments() {
        return None;
    }
    let places: Vec<super::Place> = plots.iter().map(|plot| plot.place).collect::<Option<_>>()?;
    let (rows, columns) = places.iter().map(|place| (place.row, place.column)).unzip();
    Bed::new(rows, columns).ok()
}
