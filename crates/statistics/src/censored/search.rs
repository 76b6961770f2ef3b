//! The search for a law's best parameters: Newton's steps on the readings' likelihood.

use super::laws::Standard;
use super::rows::{Row, row};
use super::{CensoredFault, CensoredFit, Law, Model, Reading};
use crate::matrix::{Square, dot};
use crate::nested::Effect;

/// Steps and halvings at most.
const MOST_STEPS: u32 = 200;
const MOST_HALVINGS: u32 = 50;

/// Where the search ends: the gain in log-likelihood that a further step promises.
const SETTLED: f64 = 1e-20;

/// A scale below this share of the first one is running to nothing: the readings do not tell it.
const VANISHING: f64 = 1e-6;

/// The law whose likelihood has no slope left.
pub(super) fn best(ground: &Ground<'_>) -> Result<CensoredFit, CensoredFault> {
    let mut now = ground.stand(ground.start()?).ok_or(CensoredFault::NotFound)?;
    let first = now.log_scale();
    for _ in 0..MOST_STEPS {
        let step = now.step();
        let gain = dot(&step, &now.slopes);
        if gain <= SETTLED * (1.0 + now.log_likelihood.abs()) {
            break;
        }
        let Some(there) = ground.along(&now, &step) else { break };
        now = there;
        if now.log_scale() < first + VANISHING.ln() {
            return Err(CensoredFault::NothingToTell);
        }
    }
    ground.outcome(&now)
}

/// Readings on the law's own scale.
pub(super) struct Ground<'a> {
    standard: Standard,
    law: Law,
    /// Low and high ends, infinite where there is none.
    ends: Vec<(f64, f64)>,
    columns: &'a [Vec<f64>],
    weights: Vec<f64>,
}

/// Parameters (effects, logarithm of the scale) and what was found there.
struct Stand {
    parameters: Vec<f64>,
    log_likelihood: f64,
    slopes: Vec<f64>,
    /// Minus the second derivatives.
    information: Square,
}

impl Stand {
    fn log_scale(&self) -> f64 {
        self.parameters.last().copied().unwrap_or(0.0)
    }

    /// Newton's step; where the likelihood is not bent downwards, one along the slopes, bent as far as need be.
    fn step(&self) -> Vec<f64> {
        let size = self.slopes.len();
        let largest = (0..size).map(|place| self.information.at(place, place).abs()).fold(1.0, f64::max);
        let mut added = 0.0;
        loop {
            let mut bent = self.information.clone();
            (0..size).for_each(|place| bent.add(place, place, added));
            if let Some(factor) = bent.cholesky() {
                return factor.solve(&self.slopes);
            }
            added = if added == 0.0 { FIRST_BEND * largest } else { 10.0 * added };
        }
    }
}

/// First share of the largest curvature that is added where Newton's step would not climb.
const FIRST_BEND: f64 = 1e-3;

impl<'a> Ground<'a> {
    pub(super) fn new(model: &Model<'a>) -> Result<Self, CensoredFault> {
        let readings = model.readings.len();
        let weights = model.weights.map_or(vec![1.0; readings], <[f64]>::to_vec);
        let lengths = model.columns.iter().map(Vec::len).chain([weights.len()]);
        if let Some(other) = lengths.chain([readings.max(1)]).find(|length| *length != readings) {
            return Err(CensoredFault::Lengths { readings, other });
        }
        let ends: Vec<Option<(f64, f64)>> =
            model.readings.iter().map(|reading| ends(model.law, *reading)).collect();
        let usable = |row: usize| {
            let finite = model.columns.iter().all(|column| column[row].is_finite());
            ends[row].is_some() && finite && weights[row].is_finite() && 0.0 <= weights[row]
        };
        if let Some(row) = (0..readings).find(|row| !usable(*row)) {
            return Err(CensoredFault::NotUsable { row });
        }
        let ends = ends.into_iter().flatten().collect();
        Ok(Self { standard: Standard::of(model.law), law: model.law, ends, columns: model.columns, weights })
    }

    /// Least squares on middles of intervals, and their scatter.
    fn start(&self) -> Result<Vec<f64>, CensoredFault> {
        let bounded = || self.ends.iter().filter(|(low, high)| low.is_finite() && high.is_finite());
        let widest = bounded().map(|(low, high)| high - low).fold(0.0, f64::max);
        let first = self.ends.iter().find(|(low, high)| low.is_finite() || high.is_finite());
        let all_alike = first.is_none_or(|first| self.ends.iter().all(|own| own == first));
        if bounded().next().is_none() || all_alike {
            return Err(CensoredFault::NothingToTell);
        }
        let middle = |(low, high): &(f64, f64)| match (low.is_finite(), high.is_finite()) {
            (true, true) => 0.5 * (low + high),
            (true, false) => low + 0.5 * widest,
            _ => high - 0.5 * widest,
        };
        let middles: Vec<f64> = self.ends.iter().map(middle).collect();
        let mut products = Square::zero(self.columns.len());
        let mut right = vec![0.0; self.columns.len()];
        for (row, weight) in self.weights.iter().enumerate() {
            let line = self.line(row);
            products.add_outer(*weight, &line, &line);
            right.iter_mut().zip(&line).for_each(|(sum, x)| *sum += weight * x * middles[row]);
        }
        let mut effects = products.cholesky().ok_or(CensoredFault::NotFound)?.solve(&right);
        let left = |row: usize| middles[row] - dot(&self.line(row), &effects);
        let squares: f64 = (0..middles.len()).map(|row| self.weights[row] * left(row).powi(2)).sum();
        let spread = (squares / self.weights.iter().sum::<f64>()).sqrt().max(0.1 * widest);
        effects.push(spread.ln());
        Ok(effects)
    }

    fn line(&self, row: usize) -> Vec<f64> {
        self.columns.iter().map(|column| column[row]).collect()
    }

    /// Likelihood, slopes and curvature; `None` where a reading could not be.
    fn stand(&self, parameters: Vec<f64>) -> Option<Stand> {
        let (log_scale, effects) = parameters.split_last()?;
        let size = parameters.len();
        let (mut log_likelihood, mut slopes) = (0.0, vec![0.0; size]);
        let mut information = Square::zero(size);
        let scale_only: Vec<f64> = (0..size).map(|place| f64::from(u8::from(place + 1 == size))).collect();
        for (at, weight) in self.weights.iter().enumerate() {
            let mut line = self.line(at);
            let Row { log, slope, bend } = row(self.standard, self.ends[at], dot(&line, effects), *log_scale);
            line.push(0.0);
            log_likelihood += weight * log;
            for ((sum, x), s) in slopes.iter_mut().zip(&line).zip(&scale_only) {
                *sum += weight * (slope[0] * x + slope[1] * s);
            }
            information.add_outer(-weight * bend[0], &line, &line);
            information.add_outer(-weight * bend[1], &line, &scale_only);
            information.add_outer(-weight * bend[1], &scale_only, &line);
            information.add_outer(-weight * bend[2], &scale_only, &scale_only);
        }
        log_likelihood.is_finite().then_some(Stand { parameters, log_likelihood, slopes, information })
    }

    /// The first of ever shorter steps that climbs.
    fn along(&self, now: &Stand, step: &[f64]) -> Option<Stand> {
        let mut length = 1.0;
        for _ in 0..MOST_HALVINGS {
            let there = now.parameters.iter().zip(step).map(|(own, way)| own + length * way).collect();
            let there = self.stand(there).filter(|there| now.log_likelihood < there.log_likelihood);
            if there.is_some() {
                return there;
            }
            length *= 0.5;
        }
        None
    }

    fn outcome(&self, top: &Stand) -> Result<CensoredFit, CensoredFault> {
        let covariance = top.information.cholesky().ok_or(CensoredFault::NotFound)?.inverse();
        let error = |place: usize| covariance.at(place, place).sqrt();
        let effects = self.columns.len();
        let fixed = (0..effects)
            .map(|place| Effect { estimate: top.parameters[place], standard_error: error(place) })
            .collect();
        Ok(CensoredFit {
            fixed,
            scale: top.log_scale().exp(),
            log_scale_error: error(effects),
            covariance: covariance.rows(),
            log_likelihood: top.log_likelihood,
            law: self.law,
            readings: self.weights.iter().sum(),
        })
    }
}

/// A reading's ends on the law's own scale; `None` where it is no time of this law.
fn ends(law: Law, reading: Reading) -> Option<(f64, f64)> {
    let (low, high) = match reading {
        Reading::Before(high) => (f64::NEG_INFINITY, high),
        Reading::Between(low, high) => (low, high),
        Reading::After(low) => (low, f64::INFINITY),
    };
    let given = match reading {
        Reading::Before(high) => high.is_finite(),
        Reading::Between(low, high) => low.is_finite() && high.is_finite(),
        Reading::After(low) => low.is_finite(),
    };
    let place = |time: f64| {
        if !law.takes_logarithms() || time.is_infinite() {
            return Some(time);
        }
        (0.0 <= time).then(|| time.ln())
    };
    let (low, high) = (place(low)?, place(high)?);
    (given && low < high).then_some((low, high))
}
