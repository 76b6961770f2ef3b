//! Fruit that was counted: numbers a plant and shares of what was looked at, by models of counts.
//!
//! A count scatters the more the larger it is, and a share of a few fruits tells less than one of many, so neither is a
//! measure like weight. Numbers of fruit are taken as negative binomial counts with the plants as known, shares as
//! binomial ones whose plots differ by more than chance; blocks are drawn at random in both. Differences are judged on the
//! model's scale (logarithm, log-odds), where they add, and told at the check's own mean, so that they read in fruits or
//! per cent like any others. Start at [`compared`].
//!
//! Intervals go by Student's t with the plots less the fixed effects as degrees of freedom: Laplace's approximation
//! knows none of its own, and the normal distribution would be too sure of so few plots. Common practice, no source.

use super::judge::{correlated, letters_of, level};
use super::model::Terms;
use super::stability::stability;
use super::verdict::{Against, against};
use super::{Comparison, Degrees, Observed, Outcome};
use crate::traits::{Counted, Trait};
use statistics::counts::{CountFit, Family, Model, Note, fit};
use statistics::mixed::Named;
use statistics::mixed::terms::Factor;
use statistics::multiplicity::check::{Question, against_check};
use statistics::multiplicity::contrasts::Contrast;
use statistics::nested::Effect;
use statistics::students_t::{self, critical};

/// The name of what binomial plots differ by beyond chance.
const PLOT: &str = "plots beyond chance";

/// What the trait's numbers are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Told {
    /// Fruits a plant.
    APlant,
    /// Per cent of what was looked at.
    PerCent,
}

impl Told {
    /// A mean of the model (a count of one plant, or a share) in the trait's unit.
    fn of(self, mean: f64) -> f64 {
        match self {
            Self::APlant => mean,
            Self::PerCent => 100.0 * mean,
        }
    }
}

/// A fitted model of counts with what it was made of.
struct Fitted {
    fit: CountFit,
    variety: Factor,
    /// Fixed columns before the varieties' own: the intercept, then replicates or environments.
    before: usize,
    of: Told,
    names: Vec<String>,
    degrees: students_t::Degrees,
}

/// Compares varieties by counts; `None` where not every plot was counted, or the counts leave a variety without a finite
/// mean (nothing was seen in it, or nothing else), so that the plots' numbers must do.
pub(super) fn compared(of: Trait, plots: &[Observed], check: Option<&str>) -> Option<Comparison> {
    let counted: Vec<Counted> = plots.iter().map(|plot| plot.counted).collect::<Option<_>>()?;
    let terms = Terms::of(plots);
    let fitted = Fitted::new(of, &counted, &terms)?;
    let levels = fitted.variety.levels().to_vec();
    let place = check.and_then(|check| levels.iter().position(|level| level == check));
    let rows: Vec<Vec<f64>> = (0..levels.len()).map(|at| fitted.row(at)).collect();
    let estimates: Vec<f64> = rows.iter().map(|row| fitted.value(row)).collect();
    let covariance: Vec<Vec<f64>> =
        rows.iter().map(|one| rows.iter().map(|other| fitted.covariance(one, other)).collect()).collect();
    let letters = letters_of(&estimates, &covariance, fitted.degrees).unwrap_or_default();
    let mut beside = fitted.beside(&rows, place);
    let mut outcomes: Vec<Outcome> = Vec::new();
    for (at, variety) in levels.iter().enumerate() {
        let (mean, interval) = fitted.mean(rows.get(at)?)?;
        outcomes.push(Outcome {
            variety: variety.clone(),
            plots: fitted.plots(at),
            mean: Some(mean),
            interval: Some(interval),
            letters: letters.get(at).cloned().unwrap_or_default(),
            against: beside.get_mut(at).and_then(Option::take),
            moved_by: None,
        });
    }
    outcomes.sort_by(|one, other| {
        let height = |own: &Outcome| own.mean.map_or(f64::NEG_INFINITY, |mean| mean.estimate);
        height(other).total_cmp(&height(one))
    });
    let components = fitted.names.iter().zip(&fitted.fit.between);
    Some(Comparison {
        of,
        outcomes,
        check: check.map(str::to_owned),
        components: components.map(|(name, own)| Named { name: name.clone(), component: *own }).collect(),
        error_of_difference: None,
        repeatability: None,
        ground: terms.ground(),
        stability: stability(plots),
        degrees: Degrees::OfCounts,
        left_over: fitted.left_over(plots, &counted),
        notes: Vec::new(),
    })
}

impl Fitted {
    fn new(of: Trait, counted: &[Counted], terms: &Terms) -> Option<Self> {
        let variety = terms.variety().clone();
        let ground = terms.fixed_ground();
        let mut columns = vec![vec![1.0; counted.len()]];
        columns.extend(ground.iter().flat_map(|own| dummies(own)));
        let before = columns.len();
        columns.extend(dummies(&variety));
        let mut groups: Vec<Vec<usize>> = Vec::new();
        let mut names = Vec::new();
        for own in terms.drawn() {
            groups.push(own.codes().to_vec());
            names.push(own.name().to_owned());
        }
        let seen: Vec<u32> = counted.iter().map(|own| own.seen).collect();
        let of_each: Vec<u32> = counted.iter().map(|own| own.of).collect();
        let logs: Vec<f64> = of_each.iter().map(|of| f64::from(*of).ln()).collect();
        let (family, offset, of) = match of {
            Trait::Culled => {
                groups.push((0..counted.len()).collect());
                names.push(PLOT.to_owned());
                (Family::Binomial { looked_at: &of_each }, None, Told::PerCent)
            }
            _ => (Family::NegativeBinomial, Some(logs.as_slice()), Told::APlant),
        };
        let model = Model { family, seen: &seen, columns: &columns, groups: &groups, offset, weights: None };
        let fit = fit(&model).ok()?;
        let usable = !fit.notes.iter().any(|note| matches!(note, Note::Separated { .. } | Note::NotAtTheTop));
        let left = u32::try_from(counted.len().checked_sub(columns.len())?).ok()?;
        let degrees = students_t::Degrees::new(f64::from(left).max(1.0))?;
        usable.then_some(Self { fit, variety, before, of, names, degrees })
    }

    /// The fixed values of a variety on ground that is the mean of all replicates.
    fn row(&self, variety: usize) -> Vec<f64> {
        let columns = self.fit.fixed.len();
        #[expect(clippy::cast_precision_loss, reason = "a trial has few replicates")]
        let even = 1.0 / self.before as f64;
        let value = |column: usize| match column {
            0 => 1.0,
            ground if ground < self.before => even,
            own if own - self.before + 1 == variety => 1.0,
            _ => 0.0,
        };
        (0..columns).map(value).collect()
    }

    fn value(&self, row: &[f64]) -> f64 {
        self.fit.fixed.iter().zip(row).map(|(effect, value)| effect.estimate * value).sum()
    }

    fn covariance(&self, one: &[f64], other: &[f64]) -> f64 {
        let along = |row: &[f64]| row.iter().zip(other).map(|(cell, value)| cell * value).sum::<f64>();
        self.fit.fixed_covariance.iter().zip(one).map(|(row, value)| value * along(row)).sum()
    }

    fn plots(&self, variety: usize) -> usize {
        self.variety.codes().iter().filter(|code| **code == variety).count()
    }

    /// The mean in the trait's unit at a distance from a row on the model's scale.
    fn at(&self, row: &[f64], distance: f64) -> Option<f64> {
        self.fit.predict(row, distance, level()).map(|told| self.of.of(told.mean))
    }

    /// A mean with its standard error in the trait's unit, and its interval, judged alone.
    fn mean(&self, row: &[f64]) -> Option<(Effect, (f64, f64))> {
        let error = self.covariance(row, row).max(0.0).sqrt();
        let reach = critical(level(), self.degrees)? * error;
        let (low, high) = (self.at(row, -reach)?, self.at(row, reach)?);
        // To first order: half the distance between the means one error to either side.
        let standard_error = 0.5 * (self.at(row, error)? - self.at(row, -error)?);
        Some((Effect { estimate: self.at(row, 0.0)?, standard_error }, (low, high)))
    }

    /// Each variety beside the check, in the order of the levels.
    fn beside(&self, rows: &[Vec<f64>], check: Option<usize>) -> Vec<Option<Against>> {
        let mut beside: Vec<Option<Against>> = vec![None; rows.len()];
        let Some((place, own)) = check.and_then(|check| Some((check, rows.get(check)?))) else {
            return beside;
        };
        let others: Vec<usize> = (0..rows.len()).filter(|at| *at != place).collect();
        let differences: Vec<Vec<f64>> = others
            .iter()
            .filter_map(|at| rows.get(*at))
            .map(|row| row.iter().zip(own).map(|(one, other)| one - other).collect())
            .collect();
        let covariance: Vec<Vec<f64>> = differences
            .iter()
            .map(|one| differences.iter().map(|other| self.covariance(one, other)).collect())
            .collect();
        let contrasts: Option<Vec<Contrast>> = differences
            .iter()
            .map(|row| {
                Contrast::new(self.value(row), self.covariance(row, row).max(0.0).sqrt(), self.degrees)
            })
            .collect();
        let judged = contrasts.and_then(|contrasts| {
            against_check(&contrasts, &correlated(&covariance), Question::Differs, level()).ok()
        });
        for (at, judged) in others.into_iter().zip(judged.unwrap_or_default()) {
            let told = against(&judged, self.plots(at)).and_then(|told| self.in_unit(told, own));
            if let Some(slot) = beside.get_mut(at) {
                *slot = told;
            }
        }
        beside
    }

    /// A difference on the model's scale, as one of the trait's unit at the check's mean.
    fn in_unit(&self, told: Against, check: &[f64]) -> Option<Against> {
        let base = self.at(check, 0.0)?;
        let more = |distance: f64| self.at(check, distance).map(|mean| mean - base);
        let interval = (more(told.interval.0)?, more(told.interval.1)?);
        Some(Against { difference: more(told.difference)?, interval, ..told })
    }

    /// What the fitted means leave of each plot, in the trait's unit.
    fn left_over(&self, plots: &[Observed], counted: &[Counted]) -> Vec<f64> {
        let own = plots.iter().zip(counted).zip(&self.fit.means);
        own.map(|((plot, counted), mean)| {
            // Fitted means of counts are of whole plots.
            let mean = match self.of {
                Told::APlant => mean / f64::from(counted.of),
                Told::PerCent => *mean,
            };
            plot.value - self.of.of(mean)
        })
        .collect()
    }
}

/// One column a level but the first.
fn dummies(factor: &Factor) -> Vec<Vec<f64>> {
    let is = |level: usize| factor.codes().iter().map(|code| f64::from(u8::from(*code == level))).collect();
    (1..factor.levels().len()).map(is).collect()
}
