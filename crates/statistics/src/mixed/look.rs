//! One setting of the variances: effects, criterion, and on demand its exact slope.
//!
//! The criterion is `n' log 2 pi + log|R| + log|S W'R^-1W S + (0, I)| + e'R^-1e + v'v`, with `v` the scaled
//! random effects, less the constants of the columns' scales. Its slope by a random variance is
//! `(ED - v'v) / variance` with the effective dimension `ED = q - tr(B)`, `B` the term's block of the inverse;
//! by a parameter of the residual the log-determinant's slope and, for every piece, its coefficient's
//! slope times `tr(B S W'MW S) + e'Me`.

use super::cholesky::Factor;
use super::equations::{Equations, System, times};
use super::residual::Setting;
use super::selected::Selected;
use crate::nested::Likelihood;
use std::ops::Range;

/// The model at one setting of its parameters.
#[derive(Clone, Debug)]
pub(super) struct Point {
    /// The parameters: random variances, then the residual's.
    pub(super) parameters: Vec<f64>,
    /// What the residual's parameters make.
    pub(super) setting: Setting,
    /// Scale of each effect.
    pub(super) scale: Vec<f64>,
    /// Factor of the scaled equations of all effects.
    pub(super) factor: Factor,
    /// Factor of those of the random effects alone, under the full likelihood.
    random_factor: Option<Factor>,
    /// The scaled effects.
    pub(super) scaled: Vec<f64>,
    /// The response less all effects.
    pub(super) errors: Vec<f64>,
    /// -2 times the log-likelihood.
    pub(super) criterion: f64,
}

/// How the log-likelihood changes at a point.
#[derive(Clone, Debug)]
pub(super) struct Slope {
    /// Derivatives of the log-likelihood; zero for parameters that are not free.
    pub(super) score: Vec<f64>,
    /// Average information of the free parameters, in their order.
    pub(super) information: Vec<Vec<f64>>,
    /// Effective dimension of each random term.
    pub(super) dimensions: Vec<f64>,
}

/// Stands at a setting; `None` where it is out of range or the equations cannot be factored.
pub(super) fn stand(equations: &Equations, parameters: &[f64]) -> Option<Point> {
    let (random, residual) = parameters.split_at(equations.terms.len());
    let setting = equations.structure.setting(residual)?;
    if random.iter().any(|variance| !variance.is_finite() || *variance < 0.0) {
        return None;
    }
    let scale = scales(equations, random, &setting);
    let factor = factor(&equations.whole, &setting, &scale)?;
    let random_factor = match &equations.random_only {
        None => None,
        Some(system) => Some(self::factor(system, &setting, &scale[equations.fixed..])?),
    };
    let mut scaled = right_side(equations, &setting, &scale);
    equations.whole.layout.solve(&factor, &mut scaled);
    let effects: Vec<f64> = scaled.iter().zip(&scale).map(|(effect, scale)| effect * scale).collect();
    let fitted = equations.rows.times(&effects);
    let errors = equations.response.iter().zip(&fitted).map(|(number, fitted)| number - fitted).collect();
    let parameters = parameters.to_vec();
    let mut point =
        Point { parameters, setting, scale, factor, random_factor, scaled, errors, criterion: 0.0 };
    point.criterion = point.criterion(equations);
    point.criterion.is_finite().then_some(point)
}

impl Point {
    /// Effects as they are, what was taken off the response put back.
    pub(super) fn effects(&self, equations: &Equations) -> Vec<f64> {
        let scaled = self.scaled.iter().zip(&self.scale).map(|(effect, scale)| effect * scale);
        let offset = equations.offset.iter().copied().chain(std::iter::repeat(0.0));
        scaled.zip(offset).map(|(effect, offset)| effect + offset).collect()
    }

    /// Weighted squares of what is left, with those of the scaled random effects.
    fn squares(&self, equations: &Equations) -> f64 {
        let pieces = self.setting.coefficients.iter().zip(&equations.pieces);
        let errors: f64 = pieces.map(|(c, piece)| c * dot(&times(piece, &self.errors), &self.errors)).sum();
        let effects = &self.scaled[equations.fixed..equations.unit_columns().start];
        errors + dot(effects, effects)
    }

    fn criterion(&self, equations: &Equations) -> f64 {
        let rows = equations.degrees() * std::f64::consts::TAU.ln();
        // Fixed columns were scaled for the sake of the factor; their scales are no part of the criterion.
        let logs = |columns: Range<usize>| self.scale[columns].iter().map(|scale| scale.ln()).sum::<f64>();
        let of_units = logs(equations.unit_columns());
        let determinant = match (&self.random_factor, equations.likelihood()) {
            (Some(factor), _) => factor.log_determinant - 2.0 * of_units,
            (None, Likelihood::Restricted) => {
                self.factor.log_determinant - 2.0 * (logs(0..equations.fixed) + of_units)
            }
            // Without random effects the full likelihood has no determinant but the residual's.
            (None, Likelihood::Full) => 0.0,
        };
        rows + self.setting.log_determinant + determinant + self.squares(equations)
    }

    /// The same point with every variance multiplied by the number that suits the response best.
    pub(super) fn at_best_scale(mut self, equations: &Equations) -> Option<Self> {
        if !equations.follows_response() {
            return Some(self);
        }
        let factor = self.squares(equations) / equations.degrees();
        let usable = factor.is_finite() && 0.0 < factor;
        for at in (0..self.parameters.len()).filter(|at| equations.is_variance(*at)) {
            self.parameters[at] *= factor;
        }
        let (random, residual) = self.parameters.split_at(equations.terms.len());
        self.setting = usable.then(|| equations.structure.setting(residual)).flatten()?;
        self.scale = scales(equations, random, &self.setting);
        self.scaled.iter_mut().for_each(|effect| *effect /= factor.sqrt());
        self.criterion = self.criterion(equations);
        self.criterion.is_finite().then_some(self)
    }

    /// Solves the scaled equations for right sides in the effects' own scale, and gives effects in it.
    ///
    /// # Shape
    /// `right`: right sides one after another, each as long as there are effects.
    pub(super) fn solve(&self, equations: &Equations, right: &mut [f64]) {
        let size = equations.size().max(1);
        let scale = |numbers: &mut [f64]| {
            for side in numbers.chunks_mut(size) {
                side.iter_mut().zip(&self.scale).for_each(|(number, scale)| *number *= scale);
            }
        };
        scale(right);
        equations.whole.layout.solve(&self.factor, right);
        scale(right);
    }

    /// The residual's inverse times a vector.
    pub(super) fn weighted(&self, equations: &Equations, vector: &[f64]) -> Vec<f64> {
        combined(equations, &self.setting.coefficients, vector)
    }

    /// Entries of the scaled inverse of all effects' equations.
    pub(super) fn inverse(&self, equations: &Equations) -> Option<Selected> {
        Selected::new(&equations.whole.layout, &self.factor)
    }

    /// Slope of the log-likelihood by the parameters that are free.
    pub(super) fn slope(&self, equations: &Equations, free: &[bool]) -> Option<Slope> {
        let mut score = vec![0.0; self.parameters.len()];
        let mut dimensions = Vec::with_capacity(equations.terms.len());
        let (system, factor, first) =
            match (&equations.random_only, &self.random_factor, equations.likelihood()) {
                (Some(system), Some(factor), _) => (system, factor, equations.fixed),
                (_, _, Likelihood::Full) => {
                    self.score_residual(equations, &self.squared_errors(equations), free, &mut score);
                    let information = self.average_information(equations, free);
                    return Some(Slope { score, information, dimensions });
                }
                _ => (&equations.whole, &self.factor, 0),
            };
        let inverse = Selected::new(&system.layout, factor)?;
        for (term, range) in equations.terms.iter().enumerate() {
            let diagonal = range.clone().map(|at| inverse.entry(&system.layout, at - first, at - first));
            let trace = diagonal.sum::<Option<f64>>()?;
            let dimension = range.len() as f64 - trace;
            dimensions.push(dimension);
            if free[term] && 0.0 < self.parameters[term] {
                let squares = dot(&self.scaled[range.clone()], &self.scaled[range.clone()]);
                score[term] = 0.5 * (squares - dimension) / self.parameters[term];
            }
        }
        let pieces = self.piece_sums(equations, system, &inverse, first, &dimensions)?;
        self.score_residual(equations, &pieces, free, &mut score);
        Some(Slope { score, information: self.average_information(equations, free), dimensions })
    }

    /// Adds the slopes by the residual's parameters, and takes out those of parameters that are not free.
    fn score_residual(&self, equations: &Equations, pieces: &[f64], free: &[bool], score: &mut [f64]) {
        for at in 0..equations.residual.len() {
            let slopes = &self.setting.coefficient_slopes[at];
            let sum = self.setting.log_determinant_slopes[at] + dot(slopes, pieces);
            score[equations.terms.len() + at] = -0.5 * sum;
        }
        for (score, _) in score.iter_mut().zip(free).filter(|(_, free)| !**free) {
            *score = 0.0;
        }
    }

    /// Squares of the errors under every piece of the residual.
    fn squared_errors(&self, equations: &Equations) -> Vec<f64> {
        equations.pieces.iter().map(|piece| dot(&times(piece, &self.errors), &self.errors)).collect()
    }

    /// For every piece of the residual: trace of the inverse with it, and squares of the errors under it.
    fn piece_sums(
        &self,
        equations: &Equations,
        system: &System,
        inverse: &Selected,
        first: usize,
        dimensions: &[f64],
    ) -> Option<Vec<f64>> {
        let errors = |piece| dot(&times(piece, &self.errors), &self.errors);
        if let ([coefficient], [piece]) = (self.setting.coefficients.as_slice(), equations.pieces.as_slice())
        {
            // The inverse times the whole matrix has ones on its diagonal, so one piece needs no pass.
            let free = system.extent.fixed + system.extent.units;
            let whole = free as f64 + dimensions.iter().sum::<f64>();
            return Some(vec![whole / coefficient + errors(piece)]);
        }
        let pieces = system.entries.iter().zip(&equations.pieces);
        pieces
            .map(|(entries, piece)| Some(self.trace(system, inverse, first, entries)? + errors(piece)))
            .collect()
    }

    /// Trace of the scaled inverse with one piece.
    fn trace(
        &self,
        system: &System,
        inverse: &Selected,
        first: usize,
        entries: &[(u32, f64)],
    ) -> Option<f64> {
        let (mut sum, mut column) = (0.0, 0);
        for (place, value) in entries {
            while system.pattern.starts[column + 1] <= *place {
                column += 1;
            }
            let row = system.pattern.rows[*place as usize] as usize;
            let twice = if row == column { 1.0 } else { 2.0 };
            let scales = self.scale[first + row] * self.scale[first + column];
            sum += twice * value * scales * inverse.entry(&system.layout, row, column)?;
        }
        Some(sum)
    }

    /// Average information: `w_i' P w_j / 2` with `w_i` the covariance's slope times `P y`.
    pub(super) fn average_information(&self, equations: &Equations, free: &[bool]) -> Vec<Vec<f64>> {
        let workings: Vec<(Vec<f64>, Vec<f64>)> = (0..self.parameters.len())
            .filter(|parameter| free[*parameter])
            .map(|parameter| self.working(equations, parameter))
            .collect();
        let mut information = self.projected(equations, &workings);
        information.iter_mut().flatten().for_each(|cell| *cell *= 0.5);
        information
    }

    /// Products `a' P b` of vectors, each given plain and times the residual's inverse.
    pub(super) fn projected(&self, equations: &Equations, vectors: &[(Vec<f64>, Vec<f64>)]) -> Vec<Vec<f64>> {
        let size = equations.size();
        let right: Vec<Vec<f64>> =
            vectors.iter().map(|(_, weighted)| equations.rows.transposed_times(weighted, size)).collect();
        let mut solved = right.concat();
        self.solve(equations, &mut solved);
        let solved: Vec<&[f64]> = solved.chunks(size.max(1)).collect();
        let cell = |row: usize, column: usize| {
            dot(&vectors[row].0, &vectors[column].1) - dot(&right[row], solved[column])
        };
        (0..vectors.len()).map(|row| (0..vectors.len()).map(|column| cell(row, column)).collect()).collect()
    }

    /// The working vector of a parameter, plain and times the residual's inverse.
    pub(super) fn working(&self, equations: &Equations, parameter: usize) -> (Vec<f64>, Vec<f64>) {
        let Some(range) = equations.terms.get(parameter) else {
            let at = parameter - equations.terms.len();
            let slopes: Vec<f64> = self.setting.coefficient_slopes[at].iter().map(|slope| -slope).collect();
            let weighted = combined(equations, &slopes, &self.errors);
            let residual = &self.parameters[equations.terms.len()..];
            return (equations.structure.covariance_times(residual, &weighted), weighted);
        };
        let mut effects = vec![0.0; equations.size()];
        let root = self.parameters[parameter].sqrt();
        for at in range.clone() {
            effects[at] = if 0.0 < root { self.scaled[at] / root } else { 0.0 };
        }
        let plain = equations.rows.times(&effects);
        let weighted = self.weighted(equations, &plain);
        (plain, weighted)
    }
}

/// Scale of each effect: the residual's for fixed ones and units, the square root of the variance for random ones.
fn scales(equations: &Equations, random: &[f64], setting: &Setting) -> Vec<f64> {
    let residual = setting.coefficients.first().map_or(1.0, |coefficient| 1.0 / coefficient.abs().sqrt());
    let mut scale = vec![residual; equations.size()];
    for (range, variance) in equations.terms.iter().zip(random) {
        scale[range.clone()].fill(variance.sqrt());
    }
    scale
}

fn factor(system: &System, setting: &Setting, scale: &[f64]) -> Option<Factor> {
    system.layout.factor(&system.pattern, &system.values(&setting.coefficients, scale))
}

fn right_side(equations: &Equations, setting: &Setting, scale: &[f64]) -> Vec<f64> {
    let mut right = vec![0.0; scale.len()];
    for (coefficient, piece) in setting.coefficients.iter().zip(&equations.right) {
        right.iter_mut().zip(piece).for_each(|(sum, number)| *sum += coefficient * number);
    }
    right.iter_mut().zip(scale).for_each(|(number, scale)| *number *= scale);
    right
}

/// A combination of the residual's pieces times a vector.
pub(super) fn combined(equations: &Equations, coefficients: &[f64], vector: &[f64]) -> Vec<f64> {
    let mut sum = vec![0.0; vector.len()];
    for (coefficient, piece) in coefficients.iter().zip(&equations.pieces).filter(|(c, _)| **c != 0.0) {
        for cell in piece {
            sum[cell.row] += coefficient * cell.value * vector[cell.other];
            if cell.row != cell.other {
                sum[cell.other] += coefficient * cell.value * vector[cell.row];
            }
        }
    }
    sum
}

/// Sum of products.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
