//! The climb to the best variances: average-information Newton steps with a floor at zero.
//!
//! Both mixed models hand this file a function from three variances (outer level, inner level,
//! residual) to a [`Slope`]: the criterion, its exact score and its average information. Variances are
//! climbed in as they are, not as logarithms, so zero is an ordinary point: the score there says
//! whether the top lies inside or on the floor. The climb stops on the score alone.
//!
//! # Source
//! Average information: Gilmour, Thompson and Cullis 1995, Biometrics 51:1440-1450 (formula from
//! memory, confirmed by the tests against `lme4`).

mod step;

use crate::component::Prior;
use crate::matrix::{Square, dot};
use step::{Pace, ascend, average_step};

/// How many variances: outer level, inner level, residual.
pub(crate) const LEVELS: usize = 3;

/// Three numbers, one a level: outer, inner, residual.
pub(crate) type PerLevel<T> = [T; LEVELS];

/// What a criterion says at one point.
#[derive(Clone, Debug)]
pub(crate) struct Slope {
    /// -2 times the log-likelihood.
    pub(crate) criterion: f64,
    /// Derivatives of the log-likelihood by each variance.
    pub(crate) score: PerLevel<f64>,
    /// Average information of the variances.
    pub(crate) information: PerLevel<PerLevel<f64>>,
}

/// What holds while climbing.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ground {
    /// Where to begin; above zero where free.
    pub(crate) start: PerLevel<f64>,
    /// Which variances may move.
    pub(crate) free: PerLevel<bool>,
    /// What was known beforehand.
    pub(crate) priors: PerLevel<Option<Prior>>,
}

/// Where the climb ended.
#[derive(Clone, Debug)]
pub(crate) struct Summit {
    /// The best variances.
    pub(crate) variances: PerLevel<f64>,
    /// Standard errors of those that are free and above zero.
    pub(crate) standard_errors: PerLevel<Option<f64>>,
    /// The criterion there, the priors' part included.
    criterion: f64,
    /// How often the criterion was worked out.
    pub(crate) evaluations: u32,
}

/// The climb is over when the expected gain `score' information^-1 score` falls below this: then no
/// variance is further than 1e-9 of its standard error from the top.
const DONE: f64 = 1e-18;
/// Gain at which the climb counts as over even though roundings keep it from [`DONE`].
const DONE_WITHIN_ROUNDING: f64 = 1e-12;
/// Square of the relative rounding of a criterion: a gain below this share of the criterion's square is
/// lost in the roundings of a sum over many fruits.
const ROUNDING_SQUARED: f64 = 1e-18;
/// The largest gain that is ever given up to roundings: no variance is then further than 5e-4 of its
/// standard error from the top.
const MOST_GIVEN_UP: f64 = 1e-7;
/// A step near the top that leaves more than this share of the gain climbs roundings, not the criterion.
const STALLED: f64 = 0.1;
/// Steps before giving up; ordinary data need 5 to 15.
const MOST_STEPS: u32 = 200;
/// A gain larger than this share of the last one is slow; then the score's own change sets the step.
const SLOW: f64 = 0.01;
/// How a level may begin on a further climb, as shares of all variance: almost none, or most of it.
const CORNERS: [f64; 2] = [0.01, 1.0];
/// A variance below this many of its standard errors is vague: few groups tell it, and the criterion may
/// have a second top.
const VAGUE: f64 = 2.0;

/// Climbs to the variances with the smallest criterion, or gives `None` where no top is reached.
///
/// With few groups the criterion may have two tops, one of them on the floor. So where the first top
/// leaves a level vague, it is climbed from the corners too and the best top is taken.
pub(crate) fn climb(ground: &Ground, criterion: impl Fn(&PerLevel<f64>) -> Option<Slope>) -> Option<Summit> {
    let mut evaluations = 0;
    let mut look = |variances: &PerLevel<f64>| {
        evaluations += 1;
        criterion(variances).and_then(|slope| slope.with_priors(variances, ground))
    };
    let first = climb_from(ground.start, ground, &mut look);
    let best = match first {
        Some(top) if !top.is_vague(ground) => Some(top),
        first => {
            let others: Vec<Summit> = ground
                .corners()
                .into_iter()
                .filter_map(|start| climb_from(start, ground, &mut look))
                .collect();
            let tops = first.into_iter().chain(others);
            tops.min_by(|a, b| a.criterion.total_cmp(&b.criterion))
        }
    };
    best.map(|top| Summit { evaluations, ..top })
}

impl Ground {
    /// Starts with each of the two grouped levels almost nothing or most of all variance.
    fn corners(&self) -> Vec<PerLevel<f64>> {
        let whole: f64 = self.start.iter().sum();
        let [outer_free, inner_free, _] = self.free;
        let shares = |free: bool| if free { CORNERS.to_vec() } else { vec![0.0] };
        let inner_shares = shares(inner_free);
        let pairs = shares(outer_free)
            .into_iter()
            .flat_map(|outer| inner_shares.iter().map(move |inner| (outer, *inner)));
        pairs.map(|(outer, inner)| [outer * whole, inner * whole, whole]).collect()
    }
}

impl Summit {
    /// Whether some free level is on the floor or within a few standard errors of it.
    fn is_vague(&self, ground: &Ground) -> bool {
        let levels = ground.free.iter().zip(&self.variances).zip(&self.standard_errors);
        levels
            .into_iter()
            .any(|((free, variance), error)| *free && error.is_none_or(|error| *variance < VAGUE * error))
    }
}

/// Climbs from one start.
fn climb_from(
    start: PerLevel<f64>,
    ground: &Ground,
    look: &mut impl FnMut(&PerLevel<f64>) -> Option<Slope>,
) -> Option<Summit> {
    let mut here = start;
    let mut slope = look(&here)?;
    let mut last_gain = f64::INFINITY;
    for _ in 0..MOST_STEPS {
        let moving = moving(&here, &slope, ground);
        let gain = dot(&slope.score, &average_step(&slope, &moving));
        let rounding = (ROUNDING_SQUARED * slope.criterion * slope.criterion).min(MOST_GIVEN_UP);
        let stalled = gain < rounding && last_gain * STALLED <= gain;
        let stuck = gain < DONE_WITHIN_ROUNDING && last_gain <= gain;
        if gain <= DONE || stalled || stuck {
            return Some(summit(here, &slope, &moving));
        }
        let pace = if last_gain * SLOW < gain { Pace::Slow } else { Pace::Quick };
        match ascend(&here, &slope, &moving, ground, pace, look) {
            Some(next) => (here, slope) = next,
            None if gain < DONE_WITHIN_ROUNDING.max(rounding) => return Some(summit(here, &slope, &moving)),
            None => return None,
        }
        last_gain = gain;
    }
    None
}

impl Slope {
    /// Adds what the priors say; `None` where the sum is not a number to climb by.
    fn with_priors(mut self, variances: &PerLevel<f64>, ground: &Ground) -> Option<Self> {
        for (level, prior) in ground.priors.iter().enumerate() {
            if let (Some(prior), Some(variance)) = (prior, variances.get(level)) {
                self.add_prior(level, *prior, *variance);
            }
        }
        self.criterion.is_finite().then_some(self)
    }

    /// Adds `degrees * (ln v + v0 / v)` with its score and average information.
    fn add_prior(&mut self, level: usize, prior: Prior, variance: f64) {
        let (degrees, ratio) = (prior.degrees(), prior.variance() / variance);
        self.criterion += degrees * (variance.ln() + ratio);
        if let Some(score) = self.score.get_mut(level) {
            *score -= 0.5 * degrees * (1.0 - ratio) / variance;
        }
        if let Some(information) = self.information.get_mut(level).and_then(|row| row.get_mut(level)) {
            *information += 0.5 * degrees * ratio / (variance * variance);
        }
    }
}

/// The free variances, less those on the floor that the score holds down.
fn moving(here: &PerLevel<f64>, slope: &Slope, ground: &Ground) -> PerLevel<bool> {
    let mut moving = ground.free;
    for ((moves, variance), score) in moving.iter_mut().zip(here).zip(&slope.score) {
        *moves &= 0.0 < *variance || 0.0 < *score;
    }
    moving
}

/// Reads the standard errors at the top.
fn summit(variances: PerLevel<f64>, slope: &Slope, moving: &PerLevel<bool>) -> Summit {
    let inverse =
        Square::from_rows(&slope.information).part(moving).cholesky().map(|factor| factor.inverse());
    let mut place = 0..;
    let standard_errors = moving.map(|moves| {
        let at = if moves { place.next() } else { None }?;
        inverse.as_ref().map(|inverse| inverse.at(at, at).sqrt())
    });
    Summit { variances, standard_errors, criterion: slope.criterion, evaluations: 0 }
}
