//! Many varieties against one check: Dunnett's comparisons, with the correlation that the trial gave them.
//!
//! All differences share the check's error, so they err together; taking that into account finds more than
//! treating them as strangers. Start at [`against_check`]; [`Family`] answers single questions.

use super::contrasts::Contrast;
use super::one_factor::OneFactor;
use super::points::{self, Lattice};
use super::rectangle::{Correlation, CorrelationFault, width};
use crate::chebyshev::Curve;
use crate::estimated_spread::TailTable;
use crate::normal::chance_below;
use crate::roots;
use crate::students_t::Degrees;
use record::share::Share;

/// What is asked of each difference.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    /// Is it other than nothing, either way?
    Differs,
    /// Is it more than nothing?
    More,
    /// Is it less than nothing?
    Less,
}

/// A difference from the check, judged together with all the others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// The difference.
    pub contrast: Contrast,
    /// The chance that varieties equal to the check would show, somewhere, a difference as clear as this one.
    pub chance: Share,
    /// Lower end of an interval for the difference, where one was asked for ([`Question::Less`] has none).
    /// All intervals of the family hold together with the level asked for.
    pub low: Option<f64>,
    /// Upper end ([`Question::More`] has none).
    pub high: Option<f64>,
}

/// Why differences cannot be judged.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CheckFault {
    /// The correlations are none.
    #[error(transparent)]
    Correlation(#[from] CorrelationFault),
    /// As many differences as rows of correlations are needed.
    #[error("{contrasts} differences came with {correlations} rows of correlations")]
    Lengths {
        /// Differences given.
        contrasts: usize,
        /// Rows given.
        correlations: usize,
    },
    /// No interval covers with certainty.
    #[error("no interval of finite length covers for certain; ask for a level below 1")]
    Certainty,
}

/// Judges every difference from the check.
///
/// # Shape
/// `contrasts`: k differences from one check; `correlation`: k by k. Returns k judgements in the same order.
///
/// # Errors
/// [`CheckFault`] where sizes do not fit or the correlations are none.
///
/// # Source
/// Dunnett 1955, J. Am. Stat. Assoc. 50:1096-1121 (citation from memory, unverified).
pub fn against_check(
    contrasts: &[Contrast],
    correlation: &[Vec<f64>],
    question: Question,
    level: Share,
) -> Result<Vec<Judged>, CheckFault> {
    if contrasts.len() != correlation.len() {
        let (contrasts, correlations) = (contrasts.len(), correlation.len());
        return Err(CheckFault::Lengths { contrasts, correlations });
    }
    if contrasts.is_empty() {
        return Ok(Vec::new());
    }
    let family = Family::new(correlation, question, USUAL_ERROR)?;
    let mut last: Option<(Degrees, f64)> = None;
    let judge = |contrast: &Contrast| {
        // Most fits have the same degrees for every difference.
        let known = last.filter(|(degrees, _)| *degrees == contrast.degrees());
        let multiplier = match known {
            Some((_, multiplier)) => multiplier,
            None => family.critical(level, contrast.degrees()).ok_or(CheckFault::Certainty)?,
        };
        last = Some((contrast.degrees(), multiplier));
        Ok(family.judge(*contrast, multiplier))
    };
    contrasts.iter().map(judge).collect()
}

/// A family of comparisons with one check; made once, asked often.
#[derive(Clone, Debug)]
pub struct Family {
    question: Question,
    tail: TailTable,
    error: f64,
}

/// Edges of the table of chances for a known spread. Beyond the last they are under 1e-30.
const TWO_SIDED_EDGES: [f64; 12] = [0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.0, 9.0, 12.0];
const ONE_SIDED_EDGES: [f64; 15] =
    [-9.0, -6.0, -4.0, -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 7.0, 9.0, 12.0];

/// How far out, and at how many thresholds, what one shared part leaves over is found.
const FARTHEST_REST: f64 = 9.0;
const REST_NODES: u32 = 20;

/// Chances this close to nothing or to certainty leave no room for a rest that matters.
const SETTLED: f64 = 1e-7;

/// Chances, given the shared part, that leave none.
const NEGLIGIBLE: f64 = 1e-9;

/// How close chances are to be, at the threshold where they are worst, when p values are told with three digits:
/// three standard errors. Chances themselves are then some ten times closer on most thresholds.
pub const USUAL_ERROR: f64 = 1e-4;

impl Family {
    /// A family with these correlations, its chances found to within `wanted_error` ([`USUAL_ERROR`]) if that can
    /// be had; ten times closer takes some ten times as long. Correlations that come from one shared part, such as
    /// those of complete blocks, are exact at once.
    ///
    /// # Errors
    /// [`CorrelationFault`] where they are none.
    pub fn new(
        correlation: &[Vec<f64>],
        question: Question,
        wanted_error: f64,
    ) -> Result<Self, CorrelationFault> {
        let edges: &[f64] = if question == Question::Differs { &TWO_SIDED_EDGES } else { &ONE_SIDED_EDGES };
        let (shared, beside) = OneFactor::with_the_rest(correlation)?;
        let tail = TailTable::new(edges, |threshold| shared.beyond(question, threshold));
        let Some(beside) = beside else {
            return Ok(Self { question, tail, error: 0.0 });
        };
        let rest = Rest::new(&shared, &beside, question, &tail, wanted_error);
        #[expect(clippy::cast_precision_loss, reason = "nobody makes 2^52 comparisons")]
        let count = correlation.len() as f64;
        let whole = TailTable::new(edges, |threshold| {
            let sides = if question == Question::Differs { 2.0 } else { 1.0 };
            let alone = sides * chance_below(-threshold);
            // Any family's chance lies between that of one contrast and the sum over all.
            (tail.known(threshold) + rest.at(threshold)).max(alone).min(count * alone)
        });
        Ok(Self { question, tail: whole, error: rest.error })
    }

    /// How far off a chance may be: nothing where the correlations come from one shared part.
    #[must_use]
    pub fn error(&self) -> f64 {
        self.error
    }

    /// The chance that equal varieties would show, somewhere in the family, a difference of `t` or clearer.
    #[must_use]
    pub fn chance(&self, t: f64, degrees: Degrees) -> Share {
        let towards = match self.question {
            Question::Differs => t.abs(),
            Question::More => t,
            Question::Less => -t,
        };
        Share::new(self.tail.averaged(towards, degrees)).unwrap_or(Share::ALL)
    }

    /// The multiplier of standard errors whose intervals hold together with `level`; `None` for certainty.
    #[must_use]
    pub fn critical(&self, level: Share, degrees: Degrees) -> Option<f64> {
        let above = level.rest().get();
        let log_tail = |t: f64| self.tail.averaged(t, degrees).ln();
        let start = if self.question == Question::Differs { 0.0 } else { LOWEST_CRITICAL };
        (0.0 < above).then(|| roots::falling_from(start, 4.0 - start, above.ln(), log_tail))
    }

    fn judge(&self, contrast: Contrast, multiplier: f64) -> Judged {
        let reach = multiplier * contrast.standard_error();
        Judged {
            contrast,
            chance: self.chance(contrast.t(), contrast.degrees()),
            low: (self.question != Question::Less).then(|| contrast.estimate() - reach),
            high: (self.question != Question::More).then(|| contrast.estimate() + reach),
        }
    }
}

/// One-sided multipliers are looked for from here on: only levels under 1e-18 would have lower ones.
const LOWEST_CRITICAL: f64 = -9.0;

/// What a family's chances have over those of the nearest family of one shared part.
///
/// Given the shared part, both are chances of what each contrast has beside it: independent in the one, a
/// little correlated in the other. Only that small difference is left to lattice points.
struct Rest {
    curve: Curve,
    range: (f64, f64),
    error: f64,
}

impl Rest {
    /// `tail` is that of the shared part alone.
    fn new(
        shared: &OneFactor,
        beside: &Correlation,
        question: Question,
        tail: &TailTable,
        wanted_error: f64,
    ) -> Self {
        let (low, high) = if question == Question::Differs {
            (0.0, FARTHEST_REST)
        } else {
            (-FARTHEST_REST, FARTHEST_REST)
        };
        let crossing = |chance: f64| roots::falling(low, high, chance, |threshold| tail.known(threshold));
        let range = (crossing(1.0 - SETTLED), crossing(SETTLED));
        let mut best = Self { curve: Curve::new(0.0, 1.0, 1, |_| 0.0), range, error: 1.0 };
        for lattice in &points::LATTICES {
            let worst = std::cell::Cell::new(0.0_f64);
            let curve = Curve::new(range.0, range.1, REST_NODES, |threshold| {
                let found = difference(shared, beside, question, lattice, threshold);
                worst.set(worst.get().max(found.error));
                found.value
            });
            best = Self { curve, range, error: worst.get() };
            if best.error < wanted_error {
                break;
            }
        }
        best
    }

    fn at(&self, threshold: f64) -> f64 {
        let inside = self.range.0 <= threshold && threshold <= self.range.1;
        if inside { self.curve.at(threshold) } else { 0.0 }
    }
}

/// By how much the chance of staying under a threshold falls short of that of independent parts.
fn difference(
    shared: &OneFactor,
    beside: &Correlation,
    question: Question,
    lattice: &Lattice,
    threshold: f64,
) -> points::Mean {
    let (mut bounds, mut draws) = (Vec::new(), Vec::new());
    points::mean(beside.size(), lattice, |place| {
        let (first, rest) = place.split_first().unwrap_or((&0.5, &[]));
        shared.bounds(question, threshold, *first, &mut bounds);
        let alone: f64 = bounds.iter().map(|(low, high)| width(*low, *high)).product();
        let bound = |index: usize| bounds.get(index).copied().unwrap_or((0.0, 0.0));
        if alone < NEGLIGIBLE { 0.0 } else { alone - beside.given(bound, rest, &mut draws) }
    })
}
