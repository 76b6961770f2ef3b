//! Does a term matter? F tests of fixed terms, and likelihood ratios.
//!
//! [`term`] gives the contrasts that are all zero where a factor (or an interaction) makes no difference to the
//! adjusted means; [`crate::mixed::satterthwaite`] and [`crate::mixed::kenward_roger`] test them. [`likelihood_ratio`]
//! compares two fits, with the mixture of chances that a variance at its bound asks for.

use super::Fit;
use super::contrasts::{Contrast, average, estimable};
use super::look::dot;
use super::means::{MeansFault, factor, levels};
use super::terms::Factor;
use statrs::distribution::{ChiSquared, ContinuousCDF, FisherSnedecor};

/// An F test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FTest {
    /// The value of F, scaled.
    pub statistic: f64,
    /// Degrees of freedom of what is tested.
    pub numerator: f64,
    /// Degrees of freedom of what it is tested against.
    pub denominator: f64,
    /// What F was multiplied by; 1 but for Kenward and Roger's.
    pub scaling: f64,
    /// Chance of so large an F where nothing differs.
    pub probability: f64,
}

impl FTest {
    /// Works out the chance.
    pub(super) fn new(statistic: f64, numerator: f64, denominator: f64) -> Self {
        let law = FisherSnedecor::new(numerator, denominator);
        let probability = law.map_or(1.0, |law| law.sf(statistic.max(0.0)));
        Self { statistic, numerator, denominator, scaling: 1.0, probability }
    }
}

/// Contrasts that are all zero where a factor makes no difference, or several together no more than one by one.
///
/// Other factors count equally (the test sometimes called type III). Contrasts that the design does not
/// tell, or that the others already say, are left out.
///
/// # Errors
/// [`MeansFault::NotFixed`] names a factor that no fixed term holds.
pub fn term(fit: &Fit, of: &[&str]) -> Result<Vec<Contrast>, MeansFault> {
    let factors = of.iter().map(|name| factor(fit, name)).collect::<Result<Vec<_>, _>>()?;
    let combinations: usize = factors.iter().map(|factor| factor.levels().len()).product();
    let wanted = (0..combinations).map(|number| levels(&factors, number));
    let off_base = wanted.filter(|levels| levels.iter().all(|level| 0 < *level));
    let contrasts = off_base.filter_map(|levels| {
        let weights = against_base(fit, of, &levels);
        estimable(&fit.design, &weights)
    });
    Ok(independent(contrasts.collect(), &factors))
}

/// A combination of levels against the first level of each factor, in every factor at once.
fn against_base(fit: &Fit, of: &[&str], levels: &[usize]) -> Vec<f64> {
    let mut sum = vec![0.0; fit.design.columns.len()];
    for corner in 0..1_usize << of.len() {
        let at_base = |place: usize| corner >> place & 1 == 1;
        let level = |(place, level): (usize, &usize)| if at_base(place) { 0 } else { *level };
        let at: Vec<(&str, usize)> = of.iter().copied().zip(levels.iter().enumerate().map(level)).collect();
        let sign = if corner.count_ones() % 2 == 0 { 1.0 } else { -1.0 };
        let weights = average(&fit.design, &at);
        sum.iter_mut().zip(&weights).for_each(|(sum, weight)| *sum += sign * weight);
    }
    sum
}

/// Part of a contrast's length that those before it must leave over.
const OWN_PART: f64 = 1e-9;

/// Contrasts less those that are combinations of the ones before.
fn independent(contrasts: Vec<Contrast>, factors: &[&Factor]) -> Vec<Contrast> {
    let most: usize = factors.iter().map(|factor| factor.levels().len().saturating_sub(1)).product();
    let mut directions: Vec<Vec<f64>> = Vec::with_capacity(most);
    let mut kept = Vec::with_capacity(most);
    for contrast in contrasts {
        let mut rest = contrast.weights.clone();
        for direction in &directions {
            let part = dot(&rest, direction);
            rest.iter_mut().zip(direction).for_each(|(own, other)| *own -= part * other);
        }
        let (left, whole) = (dot(&rest, &rest), dot(&contrast.weights, &contrast.weights));
        if OWN_PART * whole < left {
            rest.iter_mut().for_each(|own| *own /= left.sqrt());
            directions.push(rest);
            kept.push(contrast);
        }
    }
    kept
}

/// What a likelihood ratio compares.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Compared {
    /// One variance, which cannot be below zero: half the time there is nothing to gain by it.
    OneVariance,
    /// This many free parameters, such as fixed coefficients under the full likelihood.
    Parameters(u32),
}

/// A likelihood-ratio test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatioTest {
    /// Fall of the criterion.
    pub statistic: f64,
    /// Chance of so large a fall where the smaller model is true.
    pub probability: f64,
}

/// Compares the criteria of a fit without and a fit with some parameters.
///
/// Restricted criteria may be compared only where the fixed parts are the same.
///
/// # Source
/// A variance on its bound: half the chance that one parameter has (Self and Liang 1987, J. Am. Stat. Assoc.
/// 82:605-610; from memory, unverified).
#[must_use]
pub fn likelihood_ratio(without: f64, with: f64, compared: Compared) -> RatioTest {
    let statistic = (without - with).max(0.0);
    let (parameters, share) = match compared {
        Compared::OneVariance => (1, 0.5),
        Compared::Parameters(count) => (count, 1.0),
    };
    let law = ChiSquared::new(f64::from(parameters));
    let probability = match law {
        Ok(law) if 0.0 < statistic => share * law.sf(statistic),
        _ => 1.0,
    };
    RatioTest { statistic, probability }
}

/// Akaike's criterion of a fit: the smaller the better, between fits with the same fixed part where restricted.
#[must_use]
pub fn akaike(fit: &Fit) -> f64 {
    let fixed = match fit.likelihood {
        crate::nested::Likelihood::Full => fit.equations.fixed,
        crate::nested::Likelihood::Restricted => 0,
    };
    let variances = fit.components.iter().chain(&fit.residual);
    let told = variances.filter(|named| named.component.is_known()).count();
    fit.criterion + 2.0 * (fixed + told) as f64
}
