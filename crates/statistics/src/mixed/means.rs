//! Adjusted means, their standard errors, and how far two of them differ by chance.
//!
//! The mean of a level is what the model gives it on ground that is the same for all: other fixed
//! factors count equally, covariates stand at their mean. Start at [`adjusted_means`].

use super::Fit;
use super::contrasts::{Contrast, average, covariance, estimable, value};
use super::terms::{Factor, Variable};
use crate::nested::Effect;

/// One fixed coefficient in treatment coding.
#[derive(Clone, Debug, PartialEq)]
pub struct Coefficient {
    /// What it is of, such as `variety Victory x nitrogen 0.2`.
    pub name: String,
    /// The estimate; `None` where the column is aliased with those before it.
    pub effect: Option<Effect>,
}

/// Adjusted means of one factor's levels or of the combinations of several.
#[derive(Clone, Debug, PartialEq)]
pub struct AdjustedMeans {
    /// The levels, joined by ` x ` where there are several factors.
    pub labels: Vec<String>,
    /// Their means; `None` where the design does not tell it.
    pub means: Vec<Option<Effect>>,
    /// The contrasts behind them.
    pub contrasts: Vec<Option<Contrast>>,
    /// The factors.
    of: Vec<String>,
    /// Covariances of the means that the design tells, in order.
    covariance: Vec<Vec<f64>>,
}

/// Why there are no adjusted means.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MeansFault {
    /// No fixed term holds the factor.
    #[error("{0} is not a fixed factor of the model")]
    NotFixed(String),
}

/// Fixed coefficients in order, variances taken as known for their standard errors.
#[must_use]
pub fn coefficients(fit: &Fit) -> Vec<Coefficient> {
    let kept = fit.design.kept.len();
    let unit =
        |at: usize| Contrast { weights: (0..kept).map(|own| f64::from(u8::from(own == at))).collect() };
    let units: Vec<Contrast> = (0..kept).map(unit).collect();
    let covariance = covariance(fit, &units);
    let effects = fit.point.effects(&fit.equations);
    let effect =
        |at: usize| Effect { estimate: effects[at], standard_error: covariance[at][at].max(0.0).sqrt() };
    (0..fit.design.columns.len())
        .map(|column| Coefficient {
            name: fit.design.name(column),
            effect: fit.design.place(column).map(effect),
        })
        .collect()
}

/// Works out the adjusted means of a fixed factor, or of the combinations of several.
///
/// # Errors
/// [`MeansFault::NotFixed`] names a factor that no fixed term holds. A level that the design does not
/// tell is no fault: its mean is `None`.
pub fn adjusted_means(fit: &Fit, of: &[&str]) -> Result<AdjustedMeans, MeansFault> {
    let factors = of.iter().map(|name| factor(fit, name)).collect::<Result<Vec<_>, _>>()?;
    let combinations: usize = factors.iter().map(|factor| factor.levels().len()).product();
    let (mut labels, mut contrasts) = (Vec::new(), Vec::new());
    for number in 0..combinations {
        let levels = levels(&factors, number);
        let names = factors.iter().zip(&levels).map(|(factor, level)| factor.levels()[*level].as_str());
        labels.push(names.collect::<Vec<_>>().join(" x "));
        contrasts.push(estimable(&fit.design, &average(&fit.design, &cell(&factors, number))));
    }
    let told: Vec<Contrast> = contrasts.iter().flatten().cloned().collect();
    let covariance = covariance(fit, &told);
    let mut place = 0..;
    let mean = |contrast: &Option<Contrast>| {
        let (contrast, at) = (contrast.as_ref()?, place.next()?);
        Some(Effect { estimate: value(fit, contrast), standard_error: covariance[at][at].max(0.0).sqrt() })
    };
    let means = contrasts.iter().map(mean).collect();
    let of = of.iter().map(|name| (*name).to_owned()).collect();
    Ok(AdjustedMeans { labels, means, contrasts, of, covariance })
}

/// A fixed factor by name.
pub(super) fn factor<'a>(fit: &'a Fit, name: &str) -> Result<&'a Factor, MeansFault> {
    let variables = fit.design.terms.iter().flat_map(|term| &term.variables);
    let found = variables.filter_map(|variable| match variable {
        Variable::Factor(factor) if factor.name() == name => Some(factor),
        _ => None,
    });
    found.into_iter().next().ok_or_else(|| MeansFault::NotFixed(name.to_owned()))
}

/// The levels of a combination, the last factor's changing fastest.
pub(super) fn levels(factors: &[&Factor], mut number: usize) -> Vec<usize> {
    let mut levels = vec![0; factors.len()];
    for (level, factor) in levels.iter_mut().zip(factors).rev() {
        *level = number % factor.levels().len();
        number /= factor.levels().len();
    }
    levels
}

impl AdjustedMeans {
    /// Place of a level among those told.
    fn told(&self, at: usize) -> Option<usize> {
        self.means.get(at)?.as_ref()?;
        Some(self.means[..at].iter().flatten().count())
    }

    /// Covariance of two means, variances taken as known.
    #[must_use]
    pub fn covariance(&self, one: usize, other: usize) -> Option<f64> {
        Some(self.covariance[self.told(one)?][self.told(other)?])
    }

    /// Standard error of the difference of two means, variances taken as known.
    #[must_use]
    pub fn standard_error_of_difference(&self, one: usize, other: usize) -> Option<f64> {
        let (one, other) = (self.told(one)?, self.told(other)?);
        Some(self.variance_of_difference(one, other).sqrt())
    }

    fn variance_of_difference(&self, one: usize, other: usize) -> f64 {
        let covariance = &self.covariance;
        (covariance[one][one] + covariance[other][other] - 2.0 * covariance[one][other]).max(0.0)
    }

    /// Mean over all pairs of the variance of a difference; `None` with fewer than two means.
    #[must_use]
    pub fn mean_variance_of_a_difference(&self) -> Option<f64> {
        let count = self.covariance.len();
        let pairs = (0..count).flat_map(|one| (0..one).map(move |other| (one, other)));
        let sum: f64 = pairs.map(|(one, other)| self.variance_of_difference(one, other)).sum();
        (1 < count).then(|| sum / (count * (count - 1) / 2) as f64)
    }

    /// The difference of two means as a contrast, if the design tells it; it may where it tells neither mean.
    #[must_use]
    pub fn difference(&self, fit: &Fit, one: usize, other: usize) -> Option<Contrast> {
        let factors = self.of.iter().map(|name| factor(fit, name)).collect::<Result<Vec<_>, _>>().ok()?;
        if self.labels.len() <= one.max(other) {
            return None;
        }
        let weights = |number: usize| average(&fit.design, &cell(&factors, number));
        let (one, other) = (weights(one), weights(other));
        let difference: Vec<f64> = one.iter().zip(&other).map(|(one, other)| one - other).collect();
        estimable(&fit.design, &difference)
    }
}

/// A combination of levels by its factors' names.
fn cell<'a>(factors: &[&'a Factor], number: usize) -> Vec<(&'a str, usize)> {
    factors.iter().map(|factor| factor.name()).zip(levels(factors, number)).collect()
}
