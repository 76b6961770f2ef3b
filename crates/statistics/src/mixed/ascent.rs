//! The climb to the best variances: average-information steps with a floor at zero, sharpened by how the score moved.
//!
//! After every evaluation all variances are multiplied by the number that suits the response best, which
//! costs nothing. The step solves average information, corrected by the last steps' changes of the score, for the
//! exact score. A variance that a step would take below zero is set to zero and left there until the others
//! have come to rest; then the score a hair above zero says whether it may stay. The climb ends on
//! the gain `score' information^-1 score` alone, never on small changes.

mod step;

use super::equations::Equations;
use super::look::{Point, Slope, dot, stand};
use super::residual::ParameterKind;
use super::{Going, MixedFault, Progress, dense};
use crate::component::{Component, Standing, Why};
use step::{Ground, NEAREST, Step, correct, picked, spread, through_inverse};

/// Where the climb ended.
#[derive(Clone, Debug)]
pub(super) struct Summit {
    /// The model at the best parameters.
    pub(super) point: Point,
    /// What stands behind each.
    pub(super) components: Vec<Component>,
    /// Parameters that were free and above zero at the end.
    pub(super) free: Vec<bool>,
    /// The way there.
    pub(super) history: Vec<Progress>,
}

/// The step that promises less than this is the last: before it no variance is further than 1e-6 of its standard
/// error from the top, and it takes away nearly all of that.
const LAST_STEP: f64 = 1e-12;
/// Gain at which the climb counts as over when steps no longer bring it down: roundings of sums over many rows.
const DONE_WITHIN_ROUNDING: f64 = 1e-10;
/// Part of the gain that a step must do away with, so near the top, not to count as climbing roundings.
const STALLED: f64 = 0.1;
/// Steps before giving up; ordinary data need 5 to 12.
const MOST_STEPS: u32 = 200;
/// How often one step is halved before it is shortened to a tenth at a time.
const HALVINGS: u32 = 5;
/// How often one step is shortened before giving up.
const MOST_SHORTENINGS: u32 = 20;
/// How many steps' changes of the score correct the information.
const REMEMBERED: usize = 4;
/// A variance a hair above zero, as a share of the residual scale: small enough not to move the others, large enough
/// for its trace to be more than rounding.
const HAIR: f64 = 1e-7;
/// What is left of a residual variance by a step that heads far below zero: it can never be zero itself.
const RESIDUAL_FALL: f64 = 0.01;
/// Steps before a variance may be set to zero: the first ones mend a poor start.
const SETTLING: u32 = 3;
/// Gain above which the criterion is too far from its top for changes of the score to sharpen the step.
const NEAR: f64 = 1e-2;
/// A gain larger than this share of the last is slow: then, too, changes of the score sharpen the step.
const SLOW: f64 = 0.3;
/// Least share of the expected information of a term that its average information counts for.
const LEAST_INFORMATION: f64 = 1e-3;
/// Effective dimension a hair above zero, as a share of the hair, below which fixed terms say all of a term.
const NOTHING: f64 = 1e-6;
/// A residual variance below this share of the plain one, that is a spread below 1e-5 of it, means that the terms
/// fit every row.
const EXACT: f64 = 1e-10;
/// The same, where roundings keep the climb from going further.
const NEARLY_EXACT: f64 = 1e-6;

/// A parameter nearer to its bound than this share of its range, and drawn to it, is held where it is.
const AT_BOUND: f64 = 1e-4;
/// The most that one step may move a parameter between bounds, as a share of its range: from the middle to a bound in
/// a few steps, but not past a top in between.
const STRIDE: f64 = 0.125;

/// A climb under way.
struct Climb<'a> {
    equations: &'a Equations,
    /// Parameters that may move at all.
    allowed: Vec<bool>,
    /// Parameters that are held at a bound.
    held: Vec<bool>,
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
    let (nothing, mut first) = climb.set_aside_untold(&mut point).ok_or(MixedFault::NotFound)?;
    let mut last_gain = f64::INFINITY;
    for _ in 0..MOST_STEPS {
        let mut free = climb.free(&point);
        let mut slope = first.take().or_else(|| point.slope(equations, &free)).ok_or(MixedFault::NotFound)?;
        if climb.hold_at_bounds(&point, &slope) {
            free = climb.free(&point);
            slope = point.slope(equations, &free).ok_or(MixedFault::NotFound)?;
        }
        let step = climb.step(&point, &slope, &free);
        let gain = step.gain;
        if watch(&climb.note(&point, gain)) == Going::Stop {
            return Err(MixedFault::Stopped);
        }
        if climb.has_no_residual(&point, EXACT) {
            return Err(MixedFault::NoResidual);
        }
        let stalled = gain < DONE_WITHIN_ROUNDING && last_gain * STALLED <= gain;
        let is_near = gain < NEAR || last_gain * SLOW <= gain;
        last_gain = gain;
        let over = gain <= LAST_STEP || stalled;
        let next = if over { None } else { climb.ascend(&point, &slope, &free, (&step, is_near)) };
        match next {
            Some(next) => point = next,
            None if DONE_WITHIN_ROUNDING < gain => return Err(climb.lost(&point)),
            None if climb.let_go(&point).ok_or(MixedFault::NotFound)? => last_gain = f64::INFINITY,
            None => match climb.release(&point).ok_or(MixedFault::NotFound)? {
                Some(next) => {
                    point = next;
                    last_gain = f64::INFINITY;
                }
                None => {
                    let point = climb.last_step(point, &free, &step);
                    return Ok(climb.summit(point, &slope, &free, &nothing));
                }
            },
        }
    }
    Err(climb.lost(&point))
}

impl<'a> Climb<'a> {
    fn new(equations: &'a Equations) -> Self {
        let told = equations.untold.iter().map(Option::is_none);
        let allowed: Vec<bool> = told.chain(equations.residual.iter().map(|_| true)).collect();
        let held = vec![false; allowed.len()];
        let squares = dot(&equations.response, &equations.response);
        let plain_variance = squares / (equations.observed - equations.fixed) as f64;
        Self {
            equations,
            allowed,
            held,
            evaluations: 0,
            history: Vec::new(),
            memory: Vec::new(),
            pending: None,
            plain_variance,
        }
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
    ///
    /// Gives those terms, and the slope where it stands if there are none.
    fn set_aside_untold(&mut self, point: &mut Point) -> Option<(Vec<bool>, Option<Slope>)> {
        let terms = self.equations.terms.len();
        let slope = point.slope(self.equations, &self.free(point))?;
        let nothing: Vec<bool> = slope.dimensions.iter().map(|dimension| *dimension < NOTHING).collect();
        if !nothing.iter().any(|nothing| *nothing) {
            return Some((nothing, Some(slope)));
        }
        let mut parameters = point.parameters.clone();
        for at in (0..terms).filter(|at| nothing[*at]) {
            (parameters[at], self.allowed[at]) = (0.0, false);
        }
        *point = self.look(&parameters)?;
        Some((nothing, None))
    }

    /// Parameters that may move from here.
    fn free(&self, point: &Point) -> Vec<bool> {
        self.allowed
            .iter()
            .zip(&point.parameters)
            .enumerate()
            .map(|(at, (allowed, parameter))| {
                *allowed && (self.equations.terms.len() <= at || 0.0 < *parameter)
            })
            .collect()
    }

    /// How near a parameter is to the bound that its score draws it to, as a share of its range.
    fn way_left(&self, point: &Point, at: usize, score: f64) -> Option<f64> {
        let residual = at.checked_sub(self.equations.terms.len())?;
        match self.equations.residual[residual].kind {
            ParameterKind::Variance => None,
            ParameterKind::Bounded { least, most, .. } => {
                let here = point.parameters[at];
                let left = if 0.0 < score { most - here } else { here - least };
                Some(left / (most - least))
            }
        }
    }

    /// Holds parameters that stand at a bound and would go further; whether there were any.
    fn hold_at_bounds(&mut self, point: &Point, slope: &Slope) -> bool {
        let drawn = |at: &usize| {
            let left = self.way_left(point, *at, slope.score[*at]);
            self.allowed[*at] && slope.score[*at] != 0.0 && left.is_some_and(|left| left < AT_BOUND)
        };
        let drawn: Vec<usize> = (0..self.allowed.len()).filter(drawn).collect();
        for at in &drawn {
            (self.allowed[*at], self.held[*at]) = (false, true);
        }
        if !drawn.is_empty() {
            self.memory.clear();
            self.pending = None;
        }
        !drawn.is_empty()
    }

    /// Lets parameters held at a bound move again where the score has turned; whether there were any.
    fn let_go(&mut self, point: &Point) -> Option<bool> {
        if !self.held.iter().any(|held| *held) {
            return Some(false);
        }
        let free: Vec<bool> =
            self.free(point).iter().zip(&self.held).map(|(free, held)| *free || *held).collect();
        let slope = point.slope(self.equations, &free)?;
        let turned = |at: &usize| {
            let left = self.way_left(point, *at, slope.score[*at]);
            self.held[*at] && left.is_some_and(|left| AT_BOUND <= left)
        };
        let turned: Vec<usize> = (0..free.len()).filter(turned).collect();
        for at in &turned {
            (self.allowed[*at], self.held[*at]) = (true, false);
        }
        Some(!turned.is_empty())
    }

    /// The step from a slope, sharpened by how the score moved over the last ones.
    fn step(&mut self, point: &Point, slope: &Slope, free: &[bool]) -> Step {
        if let Some((moved, before)) = self.pending.take() {
            let changed = before.iter().zip(&slope.score).map(|(before, after)| before - after).collect();
            self.memory.push((moved, changed));
        }
        if REMEMBERED < self.memory.len() {
            self.memory.remove(0);
        }
        let ground = self.ground(point, slope, free);
        let mut information = self.floored(point, slope, free);
        let plain = Step::new(&information, &ground);
        for (moved, changed) in &self.memory {
            correct(&mut information, &picked(moved, free), &picked(changed, free));
        }
        let sharpened = Step::new(&information, &ground);
        let step = if 0.0 < sharpened.gain { sharpened } else { plain.clone() };
        Step { gain: plain.gain, ..step }
    }

    /// What a step starts from.
    fn ground(&self, point: &Point, slope: &Slope, free: &[bool]) -> Ground {
        let terms = self.equations.terms.len();
        let settled = SETTLING < self.evaluations;
        let fall = |at: usize| match point.parameters[at] {
            here if at < terms => Some(-here),
            here => self.equations.is_variance(at).then_some(here * (RESIDUAL_FALL - 1.0)),
        };
        Ground {
            score: picked(&slope.score, free),
            here: picked(&point.parameters, free),
            falls: (0..free.len()).filter(|at| free[*at]).map(|at| fall(at).filter(|_| settled)).collect(),
            free: free.to_vec(),
        }
    }

    /// Average information, kept from vanishing where a term's effects happen to be nothing: no less than a
    /// small share of what is expected of as many independent effects.
    fn floored(&self, point: &Point, slope: &Slope, free: &[bool]) -> Vec<Vec<f64>> {
        let mut information = slope.information.clone();
        let terms = (0..self.equations.terms.len()).filter(|term| free[*term]);
        for (place, term) in terms.enumerate() {
            let relative = slope.dimensions[term] / point.parameters[term];
            let expected = 0.5 * relative * relative / self.equations.terms[term].len() as f64;
            let own = &mut information[place][place];
            *own = own.max(LEAST_INFORMATION * expected);
        }
        information
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

    /// Takes the step, shortened until the criterion does not rise; `None` where no part of it helps.
    fn ascend(
        &mut self,
        point: &Point,
        slope: &Slope,
        free: &[bool],
        (step, is_near): (&Step, bool),
    ) -> Option<Point> {
        let mut part = 1.0;
        for shortening in 0..MOST_SHORTENINGS {
            let parameters = self.moved(point, free, step, part);
            if let Some(next) = self.look(&parameters)
                && next.criterion <= point.criterion + rounding(point)
            {
                if is_near {
                    self.remember(point, slope, &next);
                }
                return Some(next);
            }
            part *= if shortening < HALVINGS { 0.5 } else { 0.1 };
        }
        None
    }

    /// Takes the last step, if it loses nothing.
    fn last_step(&mut self, point: Point, free: &[bool], step: &Step) -> Point {
        let next = self.look(&self.moved(&point, free, step, 1.0));
        next.filter(|next| next.criterion <= point.criterion + rounding(&point)).unwrap_or(point)
    }

    /// Parameters after a part of a step, kept within their bounds.
    fn moved(&self, point: &Point, free: &[bool], step: &Step, part: f64) -> Vec<f64> {
        let terms = self.equations.terms.len();
        let hair = HAIR * residual_scale(point);
        let moved = |(at, here): (usize, &f64)| {
            let (wish, kind) = (part * step.moves[at], at.checked_sub(terms));
            match kind.map(|at| self.equations.residual[at].kind) {
                _ if !free[at] => *here,
                _ if step.vanishing[at] => here + wish,
                None => over_a_hair(through_inverse(*here, wish), hair),
                Some(ParameterKind::Variance) => through_inverse(*here, wish),
                Some(ParameterKind::Bounded { least, most, .. }) => {
                    let stride = STRIDE * (most - least);
                    (here + wish.clamp(-stride, stride))
                        .clamp(least + NEAREST * (here - least), most - NEAREST * (most - here))
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
        let information = spread_matrix(&self.floored(&above, &slope, &free), &free);
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
            let nearer: Vec<f64> = parameters
                .iter()
                .zip(&point.parameters)
                .map(|(there, here)| here + part * (there - here))
                .collect();
            if let Some(next) = self.look(&nearer)
                && next.criterion < point.criterion - rounding(point)
            {
                return Some(Some(next));
            }
            part /= 4.0;
        }
        Some(None)
    }

    /// Whether some residual variance is no more than a share of the plain one.
    fn has_no_residual(&self, point: &Point, share: f64) -> bool {
        let mut residual =
            (self.equations.terms.len()..point.parameters.len()).filter(|at| self.equations.is_variance(*at));
        residual.any(|at| point.parameters[at] < share * self.plain_variance)
    }

    /// Why no step helps any more.
    fn lost(&self, point: &Point) -> MixedFault {
        let exact = self.has_no_residual(point, NEARLY_EXACT);
        if exact { MixedFault::NoResidual } else { MixedFault::NotFound }
    }

    /// Says what stands behind each parameter.
    fn summit(self, point: Point, slope: &Slope, free: &[bool], nothing: &[bool]) -> Summit {
        let covariance = dense::inverse(&slope.information);
        let mut place = 0..;
        let component = |(at, variance): (usize, &f64)| {
            let own = if free[at] { place.next() } else { None };
            let untold = self.equations.untold.get(at).copied().flatten();
            let nothing = nothing.get(at).is_some_and(|nothing| *nothing);
            let standing = match (own, untold) {
                (_, Some(why)) => Standing::NotEstimable(why),
                _ if nothing => Standing::NotEstimable(Why::NothingToCompare),
                _ if self.held[at] => Standing::AtBound,
                (None, None) => Standing::AtZero,
                (Some(own), None) => match &covariance {
                    Some(covariance) => Standing::Estimated { standard_error: covariance[own][own].sqrt() },
                    None => Standing::NotEstimable(Why::NotSeparable),
                },
            };
            Component { variance: *variance, standing }
        };
        let components = point.parameters.iter().enumerate().map(component).collect();
        Summit { point, components, free: free.to_vec(), history: self.history }
    }
}

/// A variance, or zero where it is no more than a hair.
fn over_a_hair(variance: f64, hair: f64) -> f64 {
    if hair < variance { variance } else { 0.0 }
}

/// Rise of the criterion that is only rounding.
fn rounding(point: &Point) -> f64 {
    1e-11 * (1.0 + point.criterion.abs())
}

/// One over the largest coefficient of the residual's inverse: its smallest variance, where it has variances.
fn residual_scale(point: &Point) -> f64 {
    let largest = point.setting.coefficients.iter().fold(0.0_f64, |largest, own| largest.max(own.abs()));
    1.0 / largest.max(f64::MIN_POSITIVE)
}

/// The diagonal of a matrix of the free parameters, among all.
fn spread_matrix(matrix: &[Vec<f64>], free: &[bool]) -> Vec<f64> {
    let diagonal: Vec<f64> = matrix.iter().enumerate().map(|(at, row)| row[at]).collect();
    spread(&diagonal, free)
}
