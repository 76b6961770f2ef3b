//! The climb to the best variances: average-information steps with a floor at zero, sharpened by how the score moved.
//!
//! After every evaluation all variances are multiplied by the number that suits the response best, which
//! costs nothing. The step solves average information, corrected by the last steps' changes of the score, for the
//! exact score. A variance that a step would take below zero is set to zero and left there until the others
//! have come to rest; then the score a hair above zero says whether it may stay. The climb ends on
//! the gain `score' information^-1 score` alone, never on small changes.

use super::equations::Equations;
use super::look::{Point, Slope, dot, stand};
use super::residual::ParameterKind;
use super::{Going, MixedFault, Progress, dense};
use crate::component::{Component, Standing, Why};

/// Where the climb ended.
#[derive(Clone, Debug)]
pub(super) struct Summit {
    /// The best parameters.
    pub(super) parameters: Vec<f64>,
    /// What stands behind each.
    pub(super) components: Vec<Component>,
    /// Parameters that were free and above zero at the end.
    pub(super) free: Vec<bool>,
    /// The way there.
    pub(super) history: Vec<Progress>,
}

/// The climb is over when a full step promises less than this: then no variance is further than 1e-9 of its
/// standard error from the top.
const DONE: f64 = 1e-18;
/// Gain at which the climb counts as over when steps no longer bring it down: roundings of sums over many rows.
const DONE_WITHIN_ROUNDING: f64 = 1e-10;
/// Part of the gain that a step must do away with, so near the top, not to count as climbing roundings.
const STALLED: f64 = 0.1;
/// Steps before giving up; ordinary data need 5 to 12.
const MOST_STEPS: u32 = 200;
/// Halvings of one step before giving up.
const MOST_HALVINGS: u32 = 30;
/// How many steps' changes of the score correct the information.
const REMEMBERED: usize = 4;
/// A variance a hair above zero, as a share of the residual scale: small enough not to move the others, large enough
/// for its trace to be more than rounding.
const HAIR: f64 = 1e-7;
/// The nearest that one step may come to a bound, or a residual variance to zero, as a share of the way left.
const NEAREST: f64 = 0.1;
/// Effective dimension a hair above zero, as a share of the hair, below which fixed terms say all of a term.
const NOTHING: f64 = 1e-6;
/// A residual variance below this share of the plain one means that the terms fit every row.
const EXACT: f64 = 1e-12;

/// A climb under way.
struct Climb<'a> {
    equations: &'a Equations,
    /// Parameters that may move at all.
    allowed: Vec<bool>,
    evaluations: u32,
    history: Vec<Progress>,
    /// Steps and changes of the score over them, latest last.
    memory: Vec<(Vec<f64>, Vec<f64>)>,
    /// The last step and the score before it.
    pending: Option<(Vec<f64>, Vec<f64>)>,
    plain_variance: f64,
}

/// Climbs to the parameters with the smallest criterion.
pub(super) fn climb(
    equations: &Equations,
    watch: &mut dyn FnMut(&Progress) -> Going,
) -> Result<Summit, MixedFault> {
    let mut climb = Climb::new(equations);
    let mut point = climb.first_point().ok_or(MixedFault::NotFound)?;
    let nothing = climb.set_aside_untold(&mut point).ok_or(MixedFault::NotFound)?;
    let mut last_gain = f64::INFINITY;
    for _ in 0..MOST_STEPS {
        let free = climb.free(&point);
        let slope = point.slope(equations, &free).ok_or(MixedFault::NotFound)?;
        let (step, gain) = climb.step(&slope, &free);
        if watch(&climb.note(&point, gain)) == Going::Stop {
            return Err(MixedFault::Stopped);
        }
        climb.refuse_exact(&point)?;
        let stalled = gain < DONE_WITHIN_ROUNDING && last_gain * STALLED <= gain;
        last_gain = gain;
        let next = if gain <= DONE || stalled { None } else { climb.ascend(&point, &slope, &free, &step) };
        match next {
            Some(next) => point = next,
            None if DONE_WITHIN_ROUNDING < gain => return Err(MixedFault::NotFound),
            None => match climb.release(&point).ok_or(MixedFault::NotFound)? {
                Some(next) => {
                    point = next;
                    last_gain = f64::INFINITY;
                }
                None => return Ok(climb.summit(&point, &slope, &free, &nothing)),
            },
        }
    }
    Err(MixedFault::NotFound)
}

impl<'a> Climb<'a> {
    fn new(equations: &'a Equations) -> Self {
        let told = equations.untold.iter().map(Option::is_none);
        let allowed = told.chain(equations.residual.iter().map(|_| true)).collect();
        let squares = dot(&equations.response, &equations.response);
        let plain_variance = squares / (equations.response.len() - equations.fixed) as f64;
        Self { equations, allowed, evaluations: 0, history: Vec::new(), memory: Vec::new(), pending: None, plain_variance }
    }

    /// Looks at parameters, at their best scale.
    fn look(&mut self, parameters: &[f64]) -> Option<Point> {
        self.evaluations += 1;
        stand(self.equations, parameters)?.at_best_scale(self.equations)
    }

    /// Begins with the residual's part and all random terms' together alike.
    fn first_point(&mut self) -> Option<Point> {
        let terms = self.equations.terms.len();
        let free = self.allowed[..terms].iter().filter(|allowed| **allowed).count();
        let share = self.plain_variance / (2.0 * free.max(1) as f64);
        let random = self.allowed[..terms].iter().map(|allowed| if *allowed { share } else { 0.0 });
        let residual = self.equations.residual.iter().map(|parameter| match parameter.kind {
            ParameterKind::Variance => self.plain_variance / 2.0,
            ParameterKind::Bounded { start, .. } => start,
        });
        let parameters: Vec<f64> = random.chain(residual).collect();
        self.look(&parameters)
    }

    /// Sets terms to zero of which the fixed terms say all: their effective dimension is nothing.
    fn set_aside_untold(&mut self, point: &mut Point) -> Option<Vec<bool>> {
        let terms = self.equations.terms.len();
        let slope = point.slope(self.equations, &vec![false; point.parameters.len()])?;
        let nothing: Vec<bool> = slope.dimensions.iter().map(|dimension| *dimension < NOTHING).collect();
        let mut parameters = point.parameters.clone();
        for at in (0..terms).filter(|at| nothing[*at]) {
            (parameters[at], self.allowed[at]) = (0.0, false);
        }
        if nothing.iter().any(|nothing| *nothing) {
            *point = self.look(&parameters)?;
        }
        Some(nothing)
    }

    /// Parameters that may move from here.
    fn free(&self, point: &Point) -> Vec<bool> {
        self.allowed.iter().zip(&point.parameters).enumerate().map(|(at, (allowed, parameter))| {
            *allowed && (self.equations.terms.len() <= at || 0.0 < *parameter)
        }).collect()
    }

    /// The step from a slope, over free parameters, and the gain that average information promises of it.
    fn step(&mut self, slope: &Slope, free: &[bool]) -> (Vec<f64>, f64) {
        if let Some((moved, before)) = self.pending.take() {
            let changed = before.iter().zip(&slope.score).map(|(before, after)| before - after).collect();
            self.memory.push((moved, changed));
        }
        if REMEMBERED < self.memory.len() {
            self.memory.remove(0);
        }
        let score: Vec<f64> = picked(&slope.score, free);
        let plain = damped_solve(&slope.information, &score);
        let gain = dot(&score, &plain);
        let mut information = slope.information.clone();
        for (moved, changed) in &self.memory {
            correct(&mut information, &picked(moved, free), &picked(changed, free));
        }
        let sharpened = damped_solve(&information, &score);
        let step = if 0.0 < dot(&score, &sharpened) { sharpened } else { plain };
        (spread(&step, free), gain)
    }

    fn note(&mut self, point: &Point, gain: f64) -> Progress {
        let progress = Progress {
            evaluations: self.evaluations,
            criterion: point.criterion,
            gain,
            parameters: point.parameters.clone(),
        };
        self.history.push(progress.clone());
        progress
    }

    /// Takes the step, halved until the criterion does not rise; `None` where no part of it helps.
    fn ascend(&mut self, point: &Point, slope: &Slope, free: &[bool], step: &[f64]) -> Option<Point> {
        let mut part = 1.0;
        for _ in 0..MOST_HALVINGS {
            let parameters = self.moved(point, free, step, part);
            if let Some(next) = self.look(&parameters)
                && next.criterion <= point.criterion + rounding(point)
            {
                self.remember(point, slope, &next);
                return Some(next);
            }
            part /= 2.0;
        }
        None
    }

    /// Parameters after a part of a step, kept within their bounds.
    fn moved(&self, point: &Point, free: &[bool], step: &[f64], part: f64) -> Vec<f64> {
        let terms = self.equations.terms.len();
        let moved = |(at, here): (usize, &f64)| {
            let wish = here + part * step[at];
            let kind = at.checked_sub(terms).map(|at| self.equations.residual[at].kind);
            match kind {
                _ if !free[at] => *here,
                None => wish.max(0.0),
                Some(ParameterKind::Variance) => wish.max(NEAREST * here),
                Some(ParameterKind::Bounded { least, most, .. }) => {
                    wish.clamp(least + NEAREST * (here - least), most - NEAREST * (most - here))
                }
            }
        };
        point.parameters.iter().enumerate().map(moved).collect()
    }

    /// Remembers how the score changed over a step, if no parameter was lost on the way.
    fn remember(&mut self, point: &Point, slope: &Slope, next: &Point) {
        let free = self.free(next);
        if free != self.free(point) {
            self.memory.clear();
            return;
        }
        let moved = next.parameters.iter().zip(&point.parameters).map(|(after, before)| after - before);
        self.pending = Some((moved.collect(), slope.score.clone()));
    }

    /// Lets variances at zero go where the score a hair above zero points up; `None` inside where none does.
    fn release(&mut self, point: &Point) -> Option<Option<Point>> {
        let terms = self.equations.terms.len();
        let resting: Vec<usize> =
            (0..terms).filter(|at| self.allowed[*at] && point.parameters[*at] == 0.0).collect();
        if resting.is_empty() {
            return Some(None);
        }
        let hair = HAIR * residual_scale(point);
        let mut parameters = point.parameters.clone();
        resting.iter().for_each(|at| parameters[*at] = hair);
        self.evaluations += 1;
        let above = stand(self.equations, &parameters)?;
        let slope = above.slope(self.equations, &self.free(&above))?;
        let free = self.free(&above);
        let information = spread_matrix(&slope.information, &free);
        for at in resting {
            let gain = slope.score[at] * slope.score[at] / information[at].max(f64::MIN_POSITIVE);
            if slope.score[at] <= 0.0 || gain < DONE_WITHIN_ROUNDING {
                parameters[at] = 0.0;
            } else {
                parameters[at] = slope.score[at] / information[at];
            }
        }
        self.memory.clear();
        let mut part = 1.0;
        while parameters != point.parameters && HAIR < part {
            let nearer: Vec<f64> =
                parameters.iter().zip(&point.parameters).map(|(there, here)| here + part * (there - here)).collect();
            if let Some(next) = self.look(&nearer)
                && next.criterion < point.criterion - rounding(point)
            {
                return Some(Some(next));
            }
            part /= 4.0;
        }
        Some(None)
    }

    /// Refuses a fit without residual.
    fn refuse_exact(&self, point: &Point) -> Result<(), MixedFault> {
        let exact = residual_scale(point) < EXACT * self.plain_variance;
        if exact { Err(MixedFault::NoSpread) } else { Ok(()) }
    }

    /// Says what stands behind each parameter.
    fn summit(self, point: &Point, slope: &Slope, free: &[bool], nothing: &[bool]) -> Summit {
        let covariance = dense::inverse(&slope.information);
        let mut place = 0..;
        let component = |(at, variance): (usize, &f64)| {
            let own = if free[at] { place.next() } else { None };
            let untold = self.equations.untold.get(at).copied().flatten();
            let nothing = nothing.get(at).is_some_and(|nothing| *nothing);
            let standing = match (own, untold) {
                (_, Some(why)) => Standing::NotEstimable(why),
                _ if nothing => Standing::NotEstimable(Why::NothingToCompare),
                (None, None) => Standing::AtZero,
                (Some(own), None) => match &covariance {
                    Some(covariance) => Standing::Estimated { standard_error: covariance[own][own].sqrt() },
                    None => Standing::NotEstimable(Why::NotSeparable),
                },
            };
            Component { variance: *variance, standing }
        };
        let components = point.parameters.iter().enumerate().map(component).collect();
        Summit {
            parameters: point.parameters.clone(),
            components,
            free: free.to_vec(),
            history: self.history,
        }
    }
}

/// Rise of the criterion that is only rounding.
fn rounding(point: &Point) -> f64 {
    1e-11 * (1.0 + point.criterion.abs())
}

/// One over the first coefficient of the residual's inverse: its variance, where it is one.
fn residual_scale(point: &Point) -> f64 {
    point.setting.coefficients.iter().map(|coefficient| 1.0 / coefficient.abs()).fold(0.0, f64::max)
}

/// Numbers of the free parameters.
fn picked(numbers: &[f64], free: &[bool]) -> Vec<f64> {
    numbers.iter().zip(free).filter(|(_, free)| **free).map(|(number, _)| *number).collect()
}

/// Numbers of the free parameters among all, zero elsewhere.
fn spread(numbers: &[f64], free: &[bool]) -> Vec<f64> {
    let mut numbers = numbers.iter();
    free.iter().map(|free| if *free { numbers.next().copied().unwrap_or(0.0) } else { 0.0 }).collect()
}

/// The diagonal of a matrix of the free parameters, among all.
fn spread_matrix(matrix: &[Vec<f64>], free: &[bool]) -> Vec<f64> {
    let diagonal: Vec<f64> = matrix.iter().enumerate().map(|(at, row)| row[at]).collect();
    spread(&diagonal, free)
}

/// Solves with more and more on the diagonal until the matrix is positive definite.
fn damped_solve(matrix: &[Vec<f64>], right: &[f64]) -> Vec<f64> {
    let mut damping = 0.0;
    loop {
        let mut damped = matrix.to_vec();
        for (at, row) in damped.iter_mut().enumerate() {
            row[at] = row[at].max(f64::MIN_POSITIVE) * (1.0 + damping);
        }
        if let Some(solution) = dense::solve(&damped, right) {
            return solution;
        }
        if LARGEST_DAMPING < damping {
            return vec![0.0; right.len()];
        }
        damping = if damping == 0.0 { FIRST_DAMPING } else { damping * 10.0 };
    }
}

/// The first damping tried on a matrix that is not positive definite, as a share of its diagonal.
const FIRST_DAMPING: f64 = 1e-8;
/// Damping at which a matrix is beyond help.
const LARGEST_DAMPING: f64 = 1e12;

/// Corrects an information matrix by a step and the change of score over it (a symmetric update of rank two).
fn correct(information: &mut [Vec<f64>], moved: &[f64], changed: &[f64]) {
    let product: Vec<f64> = information.iter().map(|row| dot(row, moved)).collect();
    let (curvature, own) = (dot(moved, changed), dot(moved, &product));
    if curvature <= 0.0 || own <= 0.0 {
        return;
    }
    for (row, numbers) in information.iter_mut().enumerate() {
        for (column, number) in numbers.iter_mut().enumerate() {
            *number += changed[row] * changed[column] / curvature - product[row] * product[column] / own;
        }
    }
}
