//! From a fitted model to varieties in order, each with its interval, its letters and its place beside the check.

use super::model::{Fitted, VARIETY};
use super::stability::stability;
use super::verdict::{Against, against};
use super::{Comparison, Degrees, Observed, Outcome};
use crate::traits::Trait;
use record::share::Share;
use statistics::mixed::Fit;
use statistics::mixed::contrasts::{self, Contrast};
use statistics::mixed::diagnostics::{RowDiagnostic, diagnostics};
use statistics::mixed::heritability;
use statistics::mixed::kenward_roger::KenwardRoger;
use statistics::mixed::means::{AdjustedMeans, adjusted_means};
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::multiplicity::check::{Question, against_check};
use statistics::multiplicity::contrasts as told;
use statistics::multiplicity::letters::Letters;
use statistics::multiplicity::pairs::tukey_kramer;
use statistics::nested::Effect;
use statistics::students_t::{self, critical};

/// How many times in 100 an interval holds the truth. Common practice, no source.
const LEVEL: f64 = 0.95;

pub(super) fn level() -> Share {
    Share::new(LEVEL).unwrap_or(Share::ALL)
}

/// Whose standard errors are used.
enum Errors<'a> {
    Adjusted(KenwardRoger<'a>),
    AsKnown(&'a Fit, Option<Satterthwaite<'a>>),
}

impl<'a> Errors<'a> {
    fn new(fit: &'a Fit) -> Self {
        match KenwardRoger::new(fit) {
            Ok(adjusted) => Self::Adjusted(adjusted),
            Err(_) => Self::AsKnown(fit, Satterthwaite::new(fit)),
        }
    }

    fn rule(&self) -> Degrees {
        match self {
            Self::Adjusted(_) => Degrees::KenwardRoger,
            Self::AsKnown(..) => Degrees::Satterthwaite,
        }
    }

    fn estimate(&self, contrast: &Contrast) -> Effect {
        match self {
            Self::Adjusted(adjusted) => adjusted.estimate(contrast),
            Self::AsKnown(fit, _) => contrasts::estimate(fit, contrast),
        }
    }

    fn covariance(&self, of: &[Contrast]) -> Vec<Vec<f64>> {
        match self {
            Self::Adjusted(adjusted) => adjusted.covariance(of),
            Self::AsKnown(fit, _) => contrasts::covariance(fit, of),
        }
    }

    /// Degrees of freedom, at least 1: fewer say nothing that one does not.
    fn degrees(&self, of: &Contrast) -> students_t::Degrees {
        let degrees = match self {
            Self::Adjusted(adjusted) => adjusted.degrees(of),
            Self::AsKnown(_, rule) => rule.as_ref().map_or(f64::INFINITY, |rule| rule.degrees(of)),
        };
        students_t::Degrees::new(degrees.max(1.0)).unwrap_or(students_t::Degrees::ENDLESS)
    }
}

/// Judges every variety.
pub(super) fn judged(of: Trait, fitted: &Fitted, plots: &[Observed], check: Option<&str>) -> Comparison {
    let fit = fitted.fit();
    let errors = Errors::new(fit);
    let levels = fitted.variety.levels();
    let mut notes = fitted.notes.clone();
    let mut outcomes: Vec<Outcome> = Vec::new();
    let mut error_of_difference = None;
    if let Ok(means) = adjusted_means(fit, &[VARIETY]) {
        let place = check.and_then(|check| levels.iter().position(|level| level == check));
        let mut beside = beside_check(fit, &errors, &means, place, &counts(fitted));
        let letters = letters(&errors, &means, place);
        let moved = moved_by(fitted, &diagnostics(fit));
        for (at, variety) in levels.iter().enumerate() {
            let contrast = means.contrasts.get(at).and_then(Option::as_ref);
            let mean = contrast.map(|contrast| errors.estimate(contrast));
            outcomes.push(Outcome {
                variety: variety.clone(),
                plots: counts(fitted).get(at).copied().unwrap_or(0),
                mean,
                interval: contrast.zip(mean).and_then(|(contrast, mean)| interval(&errors, contrast, mean)),
                letters: letters.get(at).cloned().unwrap_or_default(),
                against: beside.get_mut(at).and_then(Option::take),
                moved_by: moved.get(at).copied().flatten(),
            });
        }
        error_of_difference = means.mean_variance_of_a_difference().map(f64::sqrt);
        notes.extend(without_comparison(&outcomes));
    }
    outcomes.sort_by(|one, other| height(other).total_cmp(&height(one)));
    Comparison {
        of,
        outcomes,
        check: check.map(str::to_owned),
        components: fit.components.iter().chain(&fit.residual).cloned().collect(),
        error_of_difference,
        repeatability: repeatability(fitted, plots),
        ground: fitted.ground,
        stability: stability(plots),
        degrees: errors.rule(),
        left_over: fitted.left_over(),
        notes,
    }
}

fn height(outcome: &Outcome) -> f64 {
    outcome.mean.map_or(f64::NEG_INFINITY, |mean| mean.estimate)
}

fn interval(errors: &Errors<'_>, contrast: &Contrast, mean: Effect) -> Option<(f64, f64)> {
    let reach = critical(level(), errors.degrees(contrast))? * mean.standard_error;
    Some((mean.estimate - reach, mean.estimate + reach))
}

/// Plots of each variety.
fn counts(fitted: &Fitted) -> Vec<usize> {
    let mut counts = vec![0; fitted.variety.levels().len()];
    for code in fitted.variety.codes() {
        if let Some(count) = counts.get_mut(*code) {
            *count += 1;
        }
    }
    counts
}

/// Each variety beside the check, in the order of the levels.
fn beside_check(
    fit: &Fit,
    errors: &Errors<'_>,
    means: &AdjustedMeans,
    check: Option<usize>,
    plots: &[usize],
) -> Vec<Option<Against>> {
    let mut beside: Vec<Option<Against>> = vec![None; means.labels.len()];
    let Some(check) = check else { return beside };
    let others = (0..means.labels.len()).filter(|at| *at != check);
    let (places, differences): (Vec<usize>, Vec<Contrast>) =
        others.filter_map(|at| Some((at, means.difference(fit, at, check)?))).unzip();
    let covariance = errors.covariance(&differences);
    let judged = contrasts_of(fit, errors, &differences, &covariance).and_then(|contrasts| {
        against_check(&contrasts, &correlated(&covariance), Question::Differs, level()).ok()
    });
    for (at, judged) in places.into_iter().zip(judged.unwrap_or_default()) {
        let own = plots.get(at).copied().unwrap_or(0);
        if let Some(slot) = beside.get_mut(at) {
            *slot = against(&judged, own);
        }
    }
    beside
}

/// The differences as what many comparisons are judged by; `None` where one has no error.
fn contrasts_of(
    fit: &Fit,
    errors: &Errors<'_>,
    differences: &[Contrast],
    covariance: &[Vec<f64>],
) -> Option<Vec<told::Contrast>> {
    let each = differences.iter().zip(covariance).enumerate();
    each.map(|(at, (difference, row))| {
        let error = row.get(at)?.max(0.0).sqrt();
        told::Contrast::new(contrasts::value(fit, difference), error, errors.degrees(difference))
    })
    .collect()
}

/// Correlations of covariances.
pub(super) fn correlated(covariance: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let spread = |at: usize| covariance.get(at).and_then(|row| row.get(at)).copied().unwrap_or(0.0).sqrt();
    let one = |(row, (column, value)): (usize, (usize, &f64))| {
        if row == column { 1.0 } else { (value / (spread(row) * spread(column))).clamp(-1.0, 1.0) }
    };
    let row = |(at, row): (usize, &Vec<f64>)| row.iter().enumerate().map(|cell| one((at, cell))).collect();
    covariance.iter().enumerate().map(row).collect()
}

/// Letters of every variety; none where a variety has no mean.
///
/// All pairs are judged on the fewest degrees of freedom that a difference from the check (or from the first
/// variety) has: errs on the safe side.
fn letters(errors: &Errors<'_>, means: &AdjustedMeans, check: Option<usize>) -> Vec<String> {
    let told: Vec<(usize, &Contrast)> =
        means.contrasts.iter().enumerate().filter_map(|(at, own)| Some((at, own.as_ref()?))).collect();
    let contrasts: Vec<Contrast> = told.iter().map(|(_, contrast)| (*contrast).clone()).collect();
    let mut letters = vec![String::new(); means.labels.len()];
    for ((at, _), own) in told.iter().zip(of_told(errors, &contrasts, check).unwrap_or_default()) {
        if let Some(slot) = letters.get_mut(*at) {
            *slot = own;
        }
    }
    letters
}

fn of_told(errors: &Errors<'_>, contrasts: &[Contrast], check: Option<usize>) -> Option<Vec<String>> {
    let base = contrasts.get(check.unwrap_or(0)).or_else(|| contrasts.first())?;
    let others = contrasts.iter().filter(|own| *own != base);
    let fewest =
        others.map(|own| errors.degrees(&own.less(base))).min_by(|a, b| a.get().total_cmp(&b.get()))?;
    let estimates: Vec<f64> = contrasts.iter().map(|own| errors.estimate(own).estimate).collect();
    letters_of(&estimates, &errors.covariance(contrasts), fewest)
}

/// Letters of estimates, the highest first; all pairs are judged on the same degrees of freedom.
pub(super) fn letters_of(
    estimates: &[f64],
    covariance: &[Vec<f64>],
    degrees: students_t::Degrees,
) -> Option<Vec<String>> {
    let pairs = told::Means::new(estimates, covariance).ok()?.every_pair(|_, _| degrees).ok()?;
    let judged = tukey_kramer(u32::try_from(estimates.len()).ok()?, &pairs, level())?;
    let apart: std::collections::BTreeSet<(usize, usize)> =
        judged.iter().filter(|own| own.differs()).map(|own| (own.pair.first, own.pair.second)).collect();
    let mut order: Vec<usize> = (0..estimates.len()).collect();
    order.sort_by(|a, b| {
        let height = |at: &usize| estimates.get(*at).copied().unwrap_or(f64::NEG_INFINITY);
        height(b).total_cmp(&height(a))
    });
    Some(Letters::new(&order, |a, b| apart.contains(&(a.min(b), a.max(b)))).of_means())
}

/// The plot of each variety that moves the result most.
fn moved_by(fitted: &Fitted, rows: &[RowDiagnostic]) -> Vec<Option<(usize, f64)>> {
    let mut most: Vec<Option<(usize, f64)>> = vec![None; fitted.variety.levels().len()];
    for (plot, (row, code)) in rows.iter().zip(fitted.variety.codes()).enumerate() {
        let (Some(distance), Some(slot)) = (row.distance, most.get_mut(*code)) else { continue };
        if slot.is_none_or(|(_, largest)| largest < distance) {
            *slot = Some((plot, distance));
        }
    }
    most
}

/// How much of the differences seen is the varieties' own.
fn repeatability(fitted: &Fitted, plots: &[Observed]) -> Option<f64> {
    let drawn = fitted.with_varieties_drawn(plots)?;
    heritability::generalised(&drawn, VARIETY).ok()?.share
}

fn without_comparison(outcomes: &[Outcome]) -> Option<String> {
    let without: Vec<&str> =
        outcomes.iter().filter(|own| own.mean.is_none()).map(|own| own.variety.as_str()).collect();
    (!without.is_empty()).then(|| {
        format!(
            "no common ground joins these with the others, so they have no adjusted mean: {}",
            without.join(", ")
        )
    })
}
