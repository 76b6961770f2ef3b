//! One hidden quality of environments, to which varieties answer more or less: a factor-analytic structure of order one.
//!
//! The effects of a variety in the environments have the covariance `Lambda Lambda' + Psi`, `Lambda` one loading and `Psi` one
//! variance of its own for each environment. It lets environments differ in spread and in how alike they rank varieties,
//! with two numbers an environment where a free covariance would need one for every pair.
//!
//! # Parameters
//! Of each environment its whole variance `v` and the inverse hyperbolic tangent of its correlation `r` with the hidden
//! quality: the loading is `r sqrt(v)` and the rest `v (1 - r^2)`. So a rest of zero, which is common, is a bound of one
//! parameter and no trouble to the others. The sign of all loadings together is free; most are made positive.
//!
//! # Source
//! Piepho 1997, Biometrics 53:761-766; Smith, Cullis and Thompson 2001, Biometrics 57:1138-1147 (both from memory,
//! unverified; held by tests to the slow way with whole matrices).

use crate::matrix::Square;
use crate::mixed::residual::{Cell, Parameter, ParameterKind, Residual, Scaling, Setting, Structure};
use crate::mixed::terms::{Factor, Fixed};
use crate::mixed::{Fit, Going, MixedFault, Model, Progress, fit, units};
use crate::nested::{Effect, Likelihood};
use std::sync::Arc;

/// What is fitted.
#[derive(Clone, Debug)]
pub struct Trial {
    /// What was measured.
    pub response: Vec<f64>,
    /// Fixed terms.
    pub fixed: Vec<Fixed>,
    /// Other random terms, such as blocks.
    pub random: Vec<crate::mixed::terms::Random>,
    /// Each row's variety.
    pub variety: Factor,
    /// Each row's environment.
    pub environment: Factor,
    /// How rows vary about their variety in their environment.
    pub errors: Errors,
}

/// How rows vary about what they measure.
#[derive(Clone, Debug, PartialEq)]
pub enum Errors {
    /// All alike.
    Alike,
    /// Alike within every environment.
    ByEnvironment,
    /// Known beforehand: one variance a row, as from a first stage.
    Known(Vec<f64>),
}

/// A fitted trial.
#[derive(Debug)]
pub struct FactorFit {
    /// The fit of the mixed model.
    pub fit: Fit,
    /// Every environment, in the factor's order.
    pub environments: Vec<Environment>,
    varieties: Vec<String>,
}

/// One environment's part in the structure.
#[derive(Clone, Debug, PartialEq)]
pub struct Environment {
    /// Its name.
    pub name: String,
    /// How strongly varieties' hidden quality shows there, in units of the measurement.
    pub loading: f64,
    /// Variance of what varieties do there and nowhere else.
    pub own_variance: f64,
}

/// Why a trial could not be fitted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FactorFault {
    /// Fewer than three environments.
    #[error("{0} environments tell no hidden quality apart; three are needed")]
    TooFew(usize),
    /// Varieties do not differ in one of the environments.
    #[error("varieties do not differ in {0} as far as its plots tell: leave it out")]
    Alike(String),
    /// Lists of different lengths, or a variance that is not above zero.
    #[error("{0} does not fit the response")]
    NotUsable(String),
    /// The mixed model could not be fitted.
    #[error(transparent)]
    Mixed(#[from] MixedFault),
}

/// The inverse hyperbolic tangent beyond which a correlation with the hidden quality is held: 0.99999, a rest of
/// next to nothing.
const MOST: f64 = 6.1;
/// The correlation that the search begins at. Common practice, no source.
const START: f64 = 0.7;
/// Share of the largest environment's variance below which varieties do not differ in another: there the inverse of the
/// covariance is mostly rounding.
const ALIKE: f64 = 1e-4;
/// Fewest environments whose loadings and variances their covariances tell.
const FEWEST: usize = 3;

/// Fits the structure.
///
/// # Errors
/// [`FactorFault`] where there are too few environments, or the mixed model cannot be fitted.
pub fn analyse(
    trial: &Trial,
    likelihood: Likelihood,
    watch: &mut dyn FnMut(&Progress) -> Going,
) -> Result<FactorFit, FactorFault> {
    let structure = Hidden::new(trial)?;
    let model = Model {
        response: trial.response.clone(),
        weights: None,
        fixed: trial.fixed.clone(),
        random: trial.random.clone(),
        residual: Residual::Structured(Arc::new(structure.clone())),
    };
    let fit = fit(&model, likelihood, watch)?;
    let parameters: Vec<f64> = fit.residual.iter().map(|named| named.component.variance).collect();
    let (_, variances, correlations) = structure.split(&parameters);
    let largest = variances.iter().fold(0.0_f64, |largest, own| largest.max(*own));
    if let Some(alike) = variances.iter().position(|own| *own < ALIKE * largest) {
        return Err(FactorFault::Alike(structure.names[alike].clone()));
    }
    let turned = if correlations.iter().sum::<f64>() < 0.0 { -1.0 } else { 1.0 };
    let environment = |(at, name): (usize, &String)| {
        let (variance, correlation) = (variances[at], correlations[at].tanh());
        Environment {
            name: name.clone(),
            loading: turned * correlation * variance.sqrt(),
            own_variance: variance * (1.0 - correlation * correlation),
        }
    };
    let environments = trial.environment.levels().iter().enumerate().map(environment).collect();
    Ok(FactorFit { fit, environments, varieties: trial.variety.levels().to_vec() })
}

impl FactorFit {
    /// Predicted effects of a variety in every environment, in the factor's order; `None` where it is not known.
    #[must_use]
    pub fn effects(&self, variety: &str) -> Option<Vec<Effect>> {
        let place = self.varieties.iter().position(|own| own == variety)?;
        let count = self.environments.len();
        let all = units::effects(&self.fit);
        all.get(place * count..(place + 1) * count).map(<[Effect]>::to_vec)
    }

    /// Covariance of a variety's effects in two environments.
    #[must_use]
    pub fn covariance(&self, one: usize, other: usize) -> Option<f64> {
        let (a, b) = (self.environments.get(one)?, self.environments.get(other)?);
        Some(a.loading * b.loading + if one == other { a.own_variance } else { 0.0 })
    }
}

/// Rows with errors, and varieties in environments with a hidden quality.
#[derive(Clone, Debug)]
struct Hidden {
    names: Vec<String>,
    varieties: usize,
    /// Each row's unit: environments within varieties.
    unit: Vec<usize>,
    /// Each row's class of errors, and its weight there.
    class: Vec<usize>,
    weight: Vec<f64>,
    classes: Vec<Class>,
}

/// Rows whose errors share a variance.
#[derive(Clone, Debug)]
enum Class {
    /// To be estimated.
    Sought { name: String, rows: f64 },
    /// Known: weights hold the inverse variances times this scale.
    Known { scale: f64, log_determinant: f64 },
}

/// What the covariance of one variety's effects makes.
struct Between {
    inverse: Square,
    log_determinant: f64,
}

impl Hidden {
    fn new(trial: &Trial) -> Result<Self, FactorFault> {
        let rows = trial.response.len();
        let (variety, environment) = (&trial.variety, &trial.environment);
        for factor in [variety, environment] {
            if factor.codes().len() != rows {
                return Err(FactorFault::NotUsable(factor.name().to_owned()));
            }
        }
        let count = environment.levels().len();
        if count < FEWEST {
            return Err(FactorFault::TooFew(count));
        }
        let codes = variety.codes().iter().zip(environment.codes());
        let unit = codes.map(|(variety, environment)| variety * count + environment).collect();
        let (class, weight, classes) = classes(trial)?;
        let names = environment.levels().to_vec();
        Ok(Self { names, varieties: variety.levels().len(), unit, class, weight, classes })
    }

    /// How many of the parameters are variances of errors.
    fn sought(&self) -> usize {
        self.classes.iter().filter(|class| matches!(class, Class::Sought { .. })).count()
    }

    /// Parameters apart: of the errors, variances of environments, and their correlations as they are sought.
    fn split<'a>(&self, parameters: &'a [f64]) -> (&'a [f64], &'a [f64], &'a [f64]) {
        let (errors, rest) = parameters.split_at(self.sought());
        let (variances, correlations) = rest.split_at(self.names.len());
        (errors, variances, correlations)
    }

    /// The covariance of one variety's effects.
    fn covariance(variances: &[f64], correlations: &[f64]) -> Square {
        let count = variances.len();
        let mut covariance = Square::zero(count);
        for row in 0..count {
            for column in 0..count {
                let shared = correlations[row].tanh() * correlations[column].tanh();
                let share = if row == column { 1.0 } else { shared };
                covariance.add(row, column, share * (variances[row] * variances[column]).sqrt());
            }
        }
        covariance
    }

    fn between(variances: &[f64], correlations: &[f64]) -> Option<Between> {
        let factor = Self::covariance(variances, correlations).cholesky()?;
        Some(Between { inverse: factor.inverse(), log_determinant: factor.log_determinant() })
    }

    /// Slope of the covariance by a parameter: a row and column of it change, and nothing else.
    fn slope(variances: &[f64], correlations: &[f64], parameter: usize) -> Square {
        let count = variances.len();
        let at = parameter % count;
        let covariance = Self::covariance(variances, correlations);
        let mut slope = Square::zero(count);
        for other in 0..count {
            let value = if parameter < count {
                covariance.at(at, other) / variances[at] * if other == at { 1.0 } else { 0.5 }
            } else if other == at {
                0.0
            } else {
                let turn = 1.0 - correlations[at].tanh().powi(2);
                turn * correlations[other].tanh() * (variances[at] * variances[other]).sqrt()
            };
            slope.add(at, other, value);
            if other != at {
                slope.add(other, at, value);
            }
        }
        slope
    }
}

/// Each row's class and weight, and the classes.
type Classed = (Vec<usize>, Vec<f64>, Vec<Class>);

/// Errors as classes.
fn classes(trial: &Trial) -> Result<Classed, FactorFault> {
    let rows = trial.response.len();
    let sought = |name: String, rows: usize| Class::Sought { name, rows: rows as f64 };
    match &trial.errors {
        Errors::Alike => Ok((vec![0; rows], vec![1.0; rows], vec![sought("residual".to_owned(), rows)])),
        Errors::ByEnvironment => {
            let codes = trial.environment.codes();
            let count = |level: usize| codes.iter().filter(|code| **code == level).count();
            let names = trial.environment.levels().iter().enumerate();
            let classes = names.map(|(level, name)| sought(format!("residual {name}"), count(level)));
            Ok((codes.to_vec(), vec![1.0; rows], classes.collect()))
        }
        Errors::Known(variances) => {
            let usable = variances.iter().all(|own| own.is_finite() && 0.0 < *own);
            if variances.len() != rows || !usable {
                return Err(FactorFault::NotUsable("variances of the errors".to_owned()));
            }
            let scale = variances.iter().sum::<f64>() / rows.max(1) as f64;
            let log_determinant = variances.iter().map(|own| own.ln()).sum();
            let weight = variances.iter().map(|own| scale / own).collect();
            Ok((vec![0; rows], weight, vec![Class::Known { scale, log_determinant }]))
        }
    }
}

impl Structure for Hidden {
    fn parameters(&self) -> Vec<Parameter> {
        let variance = |name: String| Parameter { name, kind: ParameterKind::Variance };
        let errors = self.classes.iter().filter_map(|class| match class {
            Class::Sought { name, .. } => Some(variance(name.clone())),
            Class::Known { .. } => None,
        });
        let kind = ParameterKind::Bounded { start: START.atanh(), least: -MOST, most: MOST };
        let variances = self.names.iter().map(|name| variance(format!("varieties in {name}")));
        let shared = |name: &String| Parameter { name: format!("shared in {name}"), kind };
        errors.chain(variances).chain(self.names.iter().map(shared)).collect()
    }

    fn pieces(&self) -> Vec<Vec<Cell>> {
        let mut pieces = vec![Vec::new(); self.classes.len()];
        for (row, (class, weight)) in self.class.iter().zip(&self.weight).enumerate() {
            pieces[*class].push(Cell { row, other: row, value: *weight });
        }
        let (first, count) = (self.unit.len(), self.names.len());
        for row in 0..count {
            for column in 0..=row {
                let cell = |variety: usize| {
                    let unit = first + variety * count;
                    Cell { row: unit + row, other: unit + column, value: 1.0 }
                };
                pieces.push((0..self.varieties).map(cell).collect());
            }
        }
        pieces
    }

    fn units(&self) -> Vec<Vec<usize>> {
        let mut units = vec![Vec::new(); self.varieties * self.names.len()];
        self.unit.iter().enumerate().for_each(|(row, unit)| units[*unit].push(row));
        units
    }

    fn scaling(&self) -> Scaling {
        let known = self.classes.iter().any(|class| matches!(class, Class::Known { .. }));
        if known { Scaling::Known } else { Scaling::WithResponse }
    }

    fn setting(&self, parameters: &[f64]) -> Option<Setting> {
        let (errors, variances, correlations) = self.split(parameters);
        let positive = errors.iter().chain(variances).all(|own| own.is_finite() && 0.0 < *own);
        let between = positive.then(|| Self::between(variances, correlations)).flatten()?;
        let varieties = self.varieties as f64;
        let lower = |matrix: &Square| -> Vec<f64> {
            (0..matrix.size()).flat_map(|row| (0..=row).map(move |column| matrix.at(row, column))).collect()
        };
        let classes = self.classes.len();
        let mut setting = Setting {
            coefficients: Vec::with_capacity(classes),
            log_determinant: varieties * between.log_determinant,
            coefficient_slopes: Vec::new(),
            log_determinant_slopes: Vec::new(),
        };
        let inverse = lower(&between.inverse);
        let mut sought = errors.iter();
        for (at, class) in self.classes.iter().enumerate() {
            match class {
                Class::Known { scale, log_determinant } => {
                    setting.coefficients.push(1.0 / scale);
                    setting.log_determinant += log_determinant;
                }
                Class::Sought { rows, .. } => {
                    let variance = sought.next()?;
                    let mut slopes = vec![0.0; classes + inverse.len()];
                    slopes[at] = -1.0 / (variance * variance);
                    setting.coefficients.push(1.0 / variance);
                    setting.log_determinant += rows * variance.ln();
                    setting.coefficient_slopes.push(slopes);
                    setting.log_determinant_slopes.push(rows / variance);
                }
            }
        }
        for parameter in 0..2 * variances.len() {
            let slope = Self::slope(variances, correlations, parameter);
            let turned = sandwich(&between.inverse, &slope);
            let slopes = std::iter::repeat_n(0.0, classes).chain(lower(&turned).into_iter().map(|own| -own));
            setting.coefficient_slopes.push(slopes.collect());
            setting
                .log_determinant_slopes
                .push(varieties * crate::matrix::trace_of_product(&between.inverse, &slope));
        }
        setting.coefficients.extend(inverse);
        Some(setting)
    }

    fn covariance_times(&self, parameters: &[f64], vector: &[f64]) -> Vec<f64> {
        let (errors, variances, correlations) = self.split(parameters);
        let of_class = |class: usize| match &self.classes[class] {
            Class::Known { scale, .. } => *scale,
            Class::Sought { .. } => errors[class],
        };
        let (rows, units) = vector.split_at(self.unit.len());
        let own = rows.iter().zip(&self.class).zip(&self.weight);
        let mut product: Vec<f64> =
            own.map(|((own, class), weight)| own * of_class(*class) / weight).collect();
        let covariance = Self::covariance(variances, correlations).rows();
        for variety in units.chunks(self.names.len()) {
            product.extend(covariance.iter().map(|row| crate::matrix::dot(row, variety)));
        }
        product
    }
}

/// `A B A` of symmetric matrices.
fn sandwich(outer: &Square, inner: &Square) -> Square {
    let size = outer.size();
    let times = |left: &Square, right: &Square| {
        let mut product = Square::zero(size);
        for row in 0..size {
            for column in 0..size {
                let sum = (0..size).map(|at| left.at(row, at) * right.at(at, column)).sum();
                product.add(row, column, sum);
            }
        }
        product
    };
    times(&times(outer, inner), outer)
}
